"""What a skim costs: every tenth off a head takes chamber volume, and off a barrel takes squish as well."""

from __future__ import annotations

from gudgeon.calculators.shape import WORDS, Answer, Calculator, Key, Result
from gudgeon.mechanics import chamber as m
from gudgeon.mechanics import volumes
from gudgeon.problem import refuse


def work(
    *,
    milled: float,
    part: str,
    opening: float | None,
    depth: float | None,
    squish: float | None,
    recess: float,
    bore: float | None,
    stroke: float | None,
    clearance: float | None,
    wanted: float | None,
) -> Answer:
    results: list[Result] = []
    loss = _loss(milled, part, opening, depth, bore, results)
    if squish is not None:
        after = (
            volumes.squish_after_head_milled_mm(squish, milled, recess)
            if part == "head"
            else volumes.squish_after_cylinder_milled_mm(squish, milled)
        )
        results.append(Result(name="squish after", value=after, unit="mm"))
    if bore is not None and stroke is not None and clearance is not None and loss is not None:
        swept = volumes.displacement_cm3(bore, stroke)
        results += [
            Result(name="ratio before", value=volumes.compression_ratio(swept, clearance)),
            Result(name="ratio after", value=volumes.compression_ratio(swept, clearance - loss)),
        ]
    if wanted is not None:
        results.append(_depth(wanted, opening if part == "head" else bore, bore, stroke, clearance))
    if not results:
        raise refuse("milled", "Nothing else was given.", "Give opening or bore for the volume, squish for the squish.")
    return Answer(
        results=tuple(results),
        method="head: area of the chamber's opening × depth milled, or the exact spherical cap; cylinder: bore area × depth",
        source="geometry; common practice",
        validity="squish of a flush band does not change when the head is milled, only while a recess lasts",
        notes=(
            "Check valve-to-piston clearance, cam timing and the maker's least height before milling.",
            "The area rule is a little high for a chamber that closes upwards: mill, measure, mill the rest.",
        ),
    )


def _loss(
    milled: float, part: str, opening: float | None, depth: float | None, bore: float | None, results: list[Result]
) -> float | None:
    if part == "cylinder":
        if bore is None:
            return None
        loss = volumes.disc_volume_cm3(bore, milled)
        results.append(Result(name="volume lost", value=loss, unit="cm³"))
        return loss
    if opening is None:
        return None
    rough = m.face_area_loss_cm3(opening, milled)
    if depth is None:
        results.append(Result(name="volume lost", value=rough, unit="cm³"))
        return rough
    exact = m.spherical_cap_loss_cm3(opening, depth, milled)
    results += [
        Result(name="volume lost", value=exact, unit="cm³"),
        Result(name="volume lost by the area rule", value=rough, unit="cm³"),
        Result(name="chamber as a spherical cap", value=m.spherical_cap_cm3(opening, depth), unit="cm³"),
    ]
    return exact


def _depth(
    wanted: float, across: float | None, bore: float | None, stroke: float | None, clearance: float | None
) -> Result:
    if across is None or bore is None or stroke is None or clearance is None:
        raise refuse(
            "wanted", "A wanted ratio needs the engine too.", "Give bore, stroke, clearance, and opening of a head."
        )
    spare = clearance - volumes.clearance_for_ratio_cm3(volumes.displacement_cm3(bore, stroke), wanted)
    if spare < 0:
        raise refuse("wanted", "The ratio is above {wanted} already.", "Milling only raises it.", wanted=wanted)
    return Result(name="depth to mill for the wanted ratio", value=m.depth_to_mill_mm(across, spare), unit="mm")


KIND = Calculator(
    key="milling",
    line="what milling a head or a cylinder takes from chamber, squish and ratio",
    keys=(
        Key(name="milled", dimension="length", help="depth milled off", default="0 mm"),
        Key(name="part", dimension=WORDS, help="what is milled", default="head", choices=("head", "cylinder")),
        Key(name="opening", dimension="length", help="chamber's opening in the gasket face", optional=True),
        Key(name="depth", dimension="length", help="depth of a chamber that is a spherical cap", optional=True),
        Key(name="squish", dimension="length", help="squish before", optional=True),
        Key(name="recess", dimension="length", help="squish band above the head's gasket face", default="0 mm"),
        Key(name="bore", dimension="length", help="cylinder bore", optional=True),
        Key(name="stroke", dimension="length", help="stroke, for the ratio", optional=True),
        Key(name="clearance", dimension="volume", help="clearance volume before, for the ratio", optional=True),
        Key(name="wanted", dimension="number", help="ratio wanted, for the depth to mill", optional=True),
    ),
    work=work,
    example="milled=0.3mm opening=56mm depth=12mm squish=1.0mm",
)
