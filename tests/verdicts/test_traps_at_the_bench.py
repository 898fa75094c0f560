"""The traps of real books and benches that no audit can see, each by its name and with its own figures: the verdict does.

Their other half, what the audit sees, is in `tests/audit/test_traps.py`.
"""

from __future__ import annotations

import pytest
from tests.pains.engines import GAUGES, IN, SHELF, Job
from tests.workbench.shop import gauge

from gudgeon.measurands.catalogue import MEASURANDS
from gudgeon.problem import Refused

LOBE = '[[limit]]\nof = "lobe_height"\nnew = ["41.90 mm", "42.00 mm"]\nleast = "41.80 mm"\n'


def test_each_part_passes_and_the_fit_fails() -> None:
    """Stem at 5.445 (limit 5.440) in a guide of 5.555 (limit 5.560): both serve, and the fit of 0.110 (limit 0.080) does not."""
    job = Job("bucket", "head out")
    job.read("stem_diameter", IN, "5.445")
    job.read("guide_bore", IN, "5.555")
    seen = [job.at(f"{key}@{IN}").verdict for key in ("stem_diameter", "guide_bore", "stem_guide_clearance")]
    assert seen == ["serviceable", "serviceable", "past limit"]


def test_exactly_on_the_limit_follows_the_stated_rule() -> None:
    """As read it serves, and says why it is judged as read; with a finer gauge on the shelf it is too close to call."""
    job = Job("bucket", "head out")
    job.read("stem_diameter", IN, "5.440")
    found = job.at(f"stem_diameter@{IN}")
    assert (found.verdict, [str(n) for n in found.notes]) == (
        "serviceable", ["nothing on the shelf can settle it; judged as read"])  # fmt: skip
    job = Job("bucket", "head out")
    job.read("stem_diameter", IN, "5.44", gauge="old-mic")
    assert job.at(f"stem_diameter@{IN}").verdict == "too close to call"


def test_what_is_good_for_0_02_cannot_tell_41_78_from_a_limit_of_41_80() -> None:
    """A caliper does not read a lobe at all; a worn micrometer as good as one says neither, and the finer one is named."""
    job = Job("bucket", more=LOBE)
    lobe = MEASURANDS["lobe_height"].where(job.anatomy)[0]
    job.bench.put_shelf(SHELF + GAUGES + gauge("mic-50", "micrometer", error="0.004 mm", low="25 mm", high="50 mm"))
    with pytest.raises(Refused, match=r"A caliper does not read this\. Use: micrometer"):
        job.read("lobe_height", lobe, "41.78", gauge="cal")
    job.read("lobe_height", lobe, "41.78", gauge="old-mic")
    found = job.at(f"lobe_height@{lobe}")
    assert found.verdict == "too close to call"
    assert [s.gauge for s in found.settles][:1] == ["mic-50"]


def test_a_bore_gauge_set_with_a_caliper_carries_its_error_into_all_six_readings() -> None:
    """57.075 on a ring known to 0.003 serves (limit 57.100); set with a caliper good for 0.03 it is too close to call."""
    said = {}
    for name, error in (("ring", "0.003 mm"), ("caliper", "0.03 mm")):
        job = Job("bucket")
        more = {"deviation": "true", "master": "57.000 mm", "master_u": error, "set_with": f"a {name}"}
        job.bench.put_shelf(SHELF + GAUGES + gauge("set", "bore gauge", low="50 mm", high="80 mm", **more))
        job.read("bore_diameter", "c1", "+0.075", gauge="set", unit="mm")
        found = job.at("bore_diameter@c1")
        said[name] = (found.verdict, found.u)
    assert (said["ring"][0], said["caliper"][0]) == ("serviceable", "too close to call")
    assert said["caliper"][1] > 0.0149, "six readings with one error are not better than one"


@pytest.mark.parametrize(
    ("temperature", "word"), [("", "serviceable"), ("20 °C", "serviceable"), ("30 °C", "too close to call")]
)
def test_a_warm_part_is_not_told_from_a_worn_one(temperature: str, word: str) -> None:
    """A piston of 57 mm grows 0.013 mm in 10 K (75 mm: 0.017): at 56.910 a limit of 56.900 is no longer proven kept."""
    job = Job("bucket")
    job.read("piston_diameter", "c1", "56.910", temperature=temperature)
    found = job.at("piston_diameter@c1")
    assert found.verdict == word
    warm = [line.u for line in found.budget if line.source == "temperature of piston diameter"]
    if temperature == "30 °C":
        assert warm == [pytest.approx(56.910 * 23.1e-6 * 10 / 3**0.5, abs=1e-6)]


def test_a_warm_stem_is_doubted_as_little_as_it_grows() -> None:
    job = Job("bucket", "head out")
    job.read("stem_diameter", IN, "5.450", temperature="30 °C")
    assert job.at(f"stem_diameter@{IN}").verdict == "serviceable"
