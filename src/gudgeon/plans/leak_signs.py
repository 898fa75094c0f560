"""The signs a leak leaves in a job: heard or quiet, oil and warmth, and what lash, seats, rings and faces have to say."""

from __future__ import annotations

from collections.abc import Iterable, Mapping

from gudgeon.anatomy import Surface
from gudgeon.plans.shape import Given
from gudgeon.plans.tested import Tested, When
from gudgeon.verdicts.shape import FAILED, GOOD, Verdict
from gudgeon.verdicts.value import Value

#: So much must a test change before oil or warmth is said to matter: leak in points, pressure as a share (common practice).
POINTS, SHARE = 5.0, 0.05
WORK = ("cut_seat", "lap_valve", "reface_valve", "fit_guide", "ream_guide")


def signs_of(given: Given, test: Tested) -> frozenset[str]:
    """Every sign there is, by the names that the table of causes uses."""
    found = {f"heard:{place}" for place in test.heard} | {f"quiet:{place}" for place in test.quiet}
    if {"heard:intake", "heard:exhaust"} <= found:
        found.add("heard:both")
    found |= set(_oil_and_warmth(test))
    found |= set(_valves(given, test))
    found |= set(_cylinder(given, test))
    return frozenset(found)


def _oil_and_warmth(test: Tested) -> Iterable[str]:
    cold, warm = _size(test.leak, "cold"), _size(test.leak, "warm")
    if cold is not None and warm is not None and abs(warm - cold) >= POINTS:
        yield "worse warm" if warm > cold else "better warm"
    helped = [h for h in (_leak_helped(test.leak), _pressure_helped(test.pressure)) if h is not None]
    if helped:
        yield "oil helps" if any(helped) else "oil changes nothing"


def _leak_helped(leak: Mapping[str, Value]) -> bool | None:
    wet, dry = _size(leak, "wet"), _dry(leak)
    return None if wet is None or dry is None else dry - wet >= POINTS


def _pressure_helped(pressure: Mapping[str, Value]) -> bool | None:
    wet, dry = _size(pressure, "wet"), _dry(pressure)
    return None if wet is None or dry is None else wet - dry >= SHARE * dry


def _dry(values: Mapping[str, Value]) -> float | None:
    """What the wet reading is held against: the warm one where there is one, for oil goes in after it."""
    warm = _size(values, "warm")
    return _size(values, "cold") if warm is None else warm


def _size(values: Mapping[str, Value], point: str) -> float | None:
    value = values.get(point)
    return value.known.value if value is not None and value.known is not None else None


def _word(verdict: Verdict | None, when: When) -> str:
    if verdict is None:
        return ""
    if when == "as found":
        return verdict.as_found.verdict if verdict.as_found else ""
    return verdict.verdict


def _valves(given: Given, test: Tested) -> Iterable[str]:
    anatomy, holding = given.state.anatomy, []
    for side in ("in", "ex"):
        valves = [v for v in anatomy.valves_of(test.cylinder) if f".{side}" in v]
        lash = [_word(given.judged.at("lash", v), test.when) for v in valves]
        seal = [_word(given.judged.at("seal_test", v), test.when) for v in valves]
        if "tight" in lash:
            yield f"tight:{side}"
        elif lash and all(word in GOOD for word in lash):
            yield f"lash good:{side}"
        if "leaks" in seal:
            yield f"seal leaks:{side}"
        elif seal and all(word == "holds" for word in seal):
            yield f"seal holds:{side}"
            holding.append(side)
        if test.when == "now" and any(_worked(given, v) for v in valves):
            yield f"worked:{side}"
    if len(holding) == 2:
        yield "seal holds:all"


def _worked(given: Given, valve: str) -> bool:
    faces = (Surface(slot=f"{valve}/{part}", name="face") for part in ("valve", "seat"))
    return any(given.state.is_new(face) for face in faces) or any(
        done.operation in WORK and done.where in (valve, f"{valve}/seat", f"{valve}/valve") for done in given.state.done
    )


def _cylinder(given: Given, test: Tested) -> Iterable[str]:
    state, cylinder = given.state, test.cylinder
    anatomy, head = state.anatomy, state.anatomy.head(test.cylinder)
    rings = anatomy.rings_of(cylinder)
    sizes = [("bore_diameter", cylinder), ("piston_clearance", cylinder), *(("ring_gap", ring) for ring in rings)]
    if any(_word(given.judged.at(key, place), test.when) in FAILED for key, place in sizes):
        yield "bore worn"
    faces = (("head_flatness", head), ("barrel_flatness", cylinder))
    if any(_word(given.judged.at(key, place), test.when) in FAILED for key, place in faces):
        yield "face out"
    if _word(given.judged.at("compression", cylinder), test.when) in GOOD:
        yield "pressure good"
    if anatomy.layout.decompressor:
        yield "decompressor"
    if test.when == "now":
        if any(state.is_new(Surface(slot=f"{ring}/ring", name="face")) for ring in rings):
            yield "rings new"
        if f"{head} head" in state.open_joints:
            yield "head open"
        if f"{head}/head gasket" in state.used_twice:
            yield "gasket twice"
