"""The characteristics of one engine: those that Gudgeon knows, and what the workshop judges beside them."""

from __future__ import annotations

from collections.abc import Mapping
from functools import lru_cache

from gudgeon import units
from gudgeon.anatomy import Anatomy
from gudgeon.characteristics.catalogue import CHARACTERISTICS
from gudgeon.characteristics.shape import Characteristic, Rule, Wants, surfaces
from gudgeon.own import OwnMeasure


@lru_cache(maxsize=64)
def characteristics(anatomy: Anatomy) -> Mapping[str, Characteristic]:
    """Every characteristic of this engine by key, its own ones last."""
    own = anatomy.layout.own.measures
    return {**CHARACTERISTICS, **{one.key: _kind(one) for one in own}} if own else CHARACTERISTICS


def _kind(own: OwnMeasure) -> Characteristic:
    places = tuple(slot.split("/")[0] for slot in own.slots)
    rule: Rule = "test" if own.dimension == "words" else "setting" if own.setting else "wear"
    return Characteristic(
        key=own.key,
        name=own.name,
        dimension=own.dimension,
        unit=units.INSIDE.get(own.dimension, ""),
        where=lambda _anatomy: places,
        wants=(Wants(measurand=own.key, statistic=own.statistic),),
        rule=rule,
        good=(own.good,) if own.good else (),
        good_word="in line",
        bad_word="off",
        renewed_by=surfaces() if rule in ("setting", "test") else None,
        formula="as read" if own.statistic == "mean" else f"{own.statistic} of {len(own.points)}",
        source="this workshop's own",
        example=own.good or "0.12",
    )
