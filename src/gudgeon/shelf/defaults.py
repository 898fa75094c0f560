"""The six gauges that any workshop has, with cautious cards, so that the first reading can be judged at once.

A cautious card calls too much *too close*, never too little; a certificate or a short repeat study sharpens it.
Every error here is common practice for a sound workshop gauge without a certificate, no source.
"""

from __future__ import annotations

from gudgeon.shelf.gauges import GaugeCard

_SOURCE = "cautious default for a sound gauge without a certificate: common practice, no source"

#: Looking is no gauge, but a reading names what it was made with.
EYE = GaugeCard.model_validate({"id": "eye", "kind": "eye", "name": "by eye", "source": "looked at"})


def _card(**card: str) -> GaugeCard:
    return GaugeCard.model_validate({"source": _SOURCE, **card})


USUAL_GAUGES: tuple[GaugeCard, ...] = (
    _card(
        id="feelers",
        kind="feeler",
        name="feeler gauges",
        unit="mm",
        low="0.03 mm",
        high="1.00 mm",
        resolution="0.01 mm",
        permissible_error="0.005 mm",
        repeatability="0.005 mm",
    ),
    _card(
        id="caliper",
        kind="caliper",
        name="caliper 150",
        unit="mm",
        low="0 mm",
        high="150 mm",
        resolution="0.01 mm",
        permissible_error="0.03 mm",
        repeatability="0.02 mm",
    ),
    _card(
        id="mic-25",
        kind="micrometer",
        name="micrometer 0–25",
        unit="mm",
        low="0 mm",
        high="25 mm",
        resolution="0.01 mm",
        permissible_error="0.004 mm",
        repeatability="0.002 mm",
    ),
    _card(
        id="small-hole",
        kind="small-hole gauge",
        name="small-hole gauge and micrometer",
        unit="mm",
        low="3 mm",
        high="13 mm",
        resolution="0.01 mm",
        permissible_error="0.004 mm",
        repeatability="0.005 mm",
    ),
    _card(
        id="dial",
        kind="dial indicator",
        name="dial indicator 10 mm",
        unit="mm",
        low="0 mm",
        high="10 mm",
        resolution="0.01 mm",
        permissible_error="0.02 mm",
        repeatability="0.005 mm",
    ),
    _card(
        id="straightedge",
        kind="straightedge",
        name="straightedge and feelers",
        unit="mm",
        low="0.03 mm",
        high="1.00 mm",
        resolution="0.01 mm",
        permissible_error="0.010 mm",
        repeatability="0.005 mm",
    ),
)
