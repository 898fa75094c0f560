"""Whatever has landed, the rest of the job is still judged."""

from __future__ import annotations

from hypothesis import HealthCheck, given, settings
from hypothesis import strategies as st
from verdict_room import EYE, FEELER, HEAD, HOLE, MIC, Room, card, limit

from gudgeon.job.entries import GoNoGo, PartRemoved, Reading
from gudgeon.measurands.catalogue import MEASURANDS

STEM = limit("stem_diameter", new=("6.960 mm", "6.980 mm"), least="6.950 mm")
GUIDE = limit("guide_bore", new=("7.000 mm", "7.020 mm"), most="7.050 mm")
LASH = limit("lash", least="0.10 mm", most="0.15 mm")
V = "c1.in"

# -- evaluate never raises ---------------------------------------------------------------------------------------------------------------

ODD = st.one_of(
    st.text(max_size=12),
    st.sampled_from(["no gap", ">0.3", "<0.03", "0.12/0.13", "0.13/0.12", "-5", "+26", "9" * 59, "0", "1/16", "1,234", "NaN",
                     "1e9", "6.970", "holds", "in line", "−3", "0.1 in", "12 kPa", "½"]),
)  # fmt: skip
ANYTHING = st.tuples(
    st.sampled_from([*MEASURANDS, "nonsense"]),
    st.sampled_from(
        [V, "c1", "c1.ring.top", "cam.in", "engine", "head", "c9.in", "", "part:orig:c1.in/valve", "part:x"]
    ),
    st.sampled_from(["", "top x", "cold", "warm", "edge 1", "nowhere"]),
    ODD,
    st.sampled_from(["mm", "µm", "in", "kPa", "%", "", "furlong"]),
    st.sampled_from(["F", "M", "H", "eye", "D", "gone"]),
)
WHOLE_BOOK = STEM + GUIDE + LASH + limit("stem_guide_clearance", most="0.080 mm") + limit("ring_gap", least="0.1 mm")


@settings(max_examples=150, deadline=None, suppress_health_check=[HealthCheck.too_slow])
@given(st.lists(ANYTHING, min_size=1, max_size=6), st.booleans())
def test_odd_readings_that_landed_never_break_the_rest(
    facts: list[tuple[str, str, str, str, str, str]], pins: bool
) -> None:
    dial = card("D", "bore gauge", unit="µm", deviation="true", master="64.000 mm")
    room = Room(book=WHOLE_BOOK, cards=(FEELER, MIC, HOLE, EYE, dial))
    room.six("stem_diameter", V, " ".join(["6.970"] * 6), "M")
    for key, where, point, text, unit, gauge in facts:
        room.pin(gauge)
        if pins:
            room.add(
                GoNoGo(
                    measurand=key,
                    where=where,
                    point=point,
                    gauge=gauge,
                    size=text,
                    unit=unit,
                    enters=len(text) % 2 == 0,
                )
            )
        else:
            room.add(Reading(measurand=key, where=where, point=point, text=text, unit=unit, gauge=gauge))
    room.add(PartRemoved(slot="c1.ex/valve"))
    judged = room.judge()
    for v in judged.verdicts:
        assert v.value is None or (v.value == v.value and abs(v.value) < float("inf"))
    if not any(f[0] == "stem_diameter" for f in facts):
        stem = judged.at("stem_diameter", V)
        assert stem is not None and stem.verdict == "as new"


def test_the_head_of_the_invented_engine_is_a_book_of_its_own() -> None:
    assert Room(head=HEAD).judge().verdicts == ()
