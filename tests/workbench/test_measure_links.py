"""Every verdict leads to a reading: one that is worked out leads to what it is worked out from."""

from __future__ import annotations

from tests.demo.telling import whole

from gudgeon.demo.story import NUMBER


def test_every_verdict_can_be_measured() -> None:
    bench = whole().bench
    for seen in bench.view(NUMBER).characteristics:
        measurand, _, place = seen.address.partition("@")
        asked = bench.measure(NUMBER, measurand, place).ask
        assert asked is not None, seen.address
    fit = bench.measure(NUMBER, "stem_guide_clearance", "c1.in.left").ask
    assert fit is not None and fit.measurand in ("stem_diameter", "guide_bore")
