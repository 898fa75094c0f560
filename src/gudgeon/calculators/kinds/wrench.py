"""What to set on the wrench: an adapter in line makes it give more than its scale says, and below a fifth it says nothing."""

from __future__ import annotations

from gudgeon.calculators.shape import Answer, Calculator, Key, Result
from gudgeon.mechanics import wrench as m
from gudgeon.mechanics.bolts import with_prevailing_nm
from gudgeon.problem import refuse


def work(
    *,
    torque: float,
    length: float | None,
    extension: float,
    angle: float,
    lowest: float | None,
    highest: float | None,
    prevailing: float,
) -> Answer:
    wanted = with_prevailing_nm(torque, prevailing)
    if length is None and extension != 0:
        raise refuse("length", "An extension without the wrench's length.", "Give length: grip centre to square.")
    setting = wanted if length is None else m.setting_nm(wanted, length, extension, angle)
    results = [
        Result(name="setting", value=setting, unit="N·m"),
        Result(name="torque at the bolt", value=wanted, unit="N·m"),
        Result(name="correction", value=setting / wanted if wanted else 1.0),
    ]
    if highest is not None:
        results += _in_range(setting, lowest or 0.0, highest)
    elif lowest is not None:
        raise refuse("highest", "Only the lower end of the scale was given.", "Give highest too.")
    return Answer(
        results=tuple(results),
        method="setting = torque × length/(length + extension × cos angle); full in line, none at 90°",
        source="moments about bolt and square; ISO 6789-1 for the range (read in a quoted summary)",
        validity="hand at the middle of the grip; use from 20 % of the highest torque, where a wrench is tested",
        notes=("Pull, do not push; never loosen with it. A certificate of the wrench goes before the class value.",),
    )


def _in_range(setting: float, lowest: float, highest: float) -> list[Result]:
    least = m.least_setting_nm(lowest, highest)
    if not m.fits(setting, lowest, highest):
        raise refuse(
            "torque",
            "The setting of {setting:.4g} N·m is outside what this wrench may be used for.",
            "Take one that holds it: this one from {least:.4g} to {highest:.4g} N·m.",
            setting=setting,
            least=least,
            highest=highest,
        )
    error = m.permissible_error(highest)
    return [
        Result(name="least setting of this wrench", value=least, unit="N·m"),
        Result(name="permissible error", value=100 * error, unit="%"),
        Result(name="permissible error at the setting", value=error * setting, unit="N·m"),
    ]


KIND = Calculator(
    key="wrench",
    line="setting of a torque wrench with an adapter, and whether the wrench may be used for it",
    keys=(
        Key(name="torque", dimension="torque", help="torque that the bolt shall get"),
        Key(
            name="length", dimension="length", help="wrench, middle of the grip to centre of the square", optional=True
        ),
        Key(name="extension", dimension="length", help="adapter, centre of the square to the bolt", default="0 mm"),
        Key(name="angle", dimension="angle", help="adapter against the wrench, 0 in line", default="0°"),
        Key(name="lowest", dimension="torque", help="lower end of the scale", optional=True),
        Key(name="highest", dimension="torque", help="upper end of the scale", optional=True),
        Key(name="prevailing", dimension="torque", help="torque of a locking nut turned freely", default="0 N·m"),
    ),
    work=work,
    example="torque=62Nm length=400mm extension=50mm angle=0 lowest=20Nm highest=100Nm",
)
