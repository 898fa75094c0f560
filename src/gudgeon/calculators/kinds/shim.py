"""The shim behind a lash: a technician with the feeler in hand asks which shim to fit, before the cams come out."""

from __future__ import annotations

from gudgeon.calculators.shape import WORDS, Answer, Calculator, Key, Result
from gudgeon.mechanics import lash as m
from gudgeon.problem import refuse


def work(
    *,
    shim: float,
    lash: float,
    low: float,
    high: float,
    ratio: float,
    measured_at: str,
    aim: float | None,
    step: float | None,
) -> Answer:
    if not low <= high:
        raise refuse(
            "low", "The window runs from {low} mm to {high} mm.", "Give the smaller as low.", low=low, high=high
        )
    factor = m.factor_for(ratio, measured_at)
    target = (low + high) / 2 if aim is None else aim
    if not low <= target <= high:
        raise refuse("aim", "{aim} mm is outside the window.", "Give an aim from {low} to {high} mm.",
                     aim=target, low=low, high=high)  # fmt: skip
    exact = m.shim_for(shim, lash, target, factor)
    thickest = m.shim_for(shim, lash, low, factor)
    thinnest = m.shim_for(shim, lash, high, factor)
    inside = low <= lash <= high
    results = [
        Result(name="shim", value=exact, unit="mm"),
        Result(name="change", value=exact - shim, unit="mm"),
        Result(name="thinnest shim inside the window", value=thinnest, unit="mm"),
        Result(name="thickest shim inside the window", value=thickest, unit="mm"),
        Result(name="lash aimed at", value=target, unit="mm"),
    ]
    notes = ["The lash found is inside the window already."] if inside else []
    if step is not None:
        extra, more = _on_sale(exact, step, shim, lash, (low, high), factor)
        results += extra
        notes += more
    if ratio != 1 and factor == 1:
        notes.append("The ratio was not used: a lash read at the valve is worth its own size in shim.")
    if lash <= 0:
        notes.append(
            "No gap at all: the valve may be held open, and the true lash is unknown. Fit a thin shim, read again."
        )
    return Answer(
        results=tuple(results),
        method=f"new shim = old shim + {factor:g} · (lash found − lash aimed at)",
        source="geometry of rigid levers, derived; common practice for the aim in the middle of the window, no source",
        validity="the lash was read on this shim, cold, with the lobe pointing away; shim at the valve tip or on the bucket",
        notes=tuple(notes),
    )


def _on_sale(
    exact: float, step: float, shim: float, lash: float, window: tuple[float, float], factor: float
) -> tuple[list[Result], list[str]]:
    if step <= 0:
        raise refuse("step", "{step} mm was given.", "Give the step between shims on sale, above 0.", step=step)
    nearest = round(exact / step) * step
    reached = m.lash_with(shim, lash, nearest, factor)
    results = [
        Result(name="nearest shim on sale", value=nearest, unit="mm"),
        Result(name="lash with it", value=reached, unit="mm"),
    ]
    outside = not window[0] <= reached <= window[1]
    return results, ["The nearest shim on sale leaves the lash outside its window."] if outside else []


KIND = Calculator(
    key="shim",
    line="the shim that brings lash into its window",
    keys=(
        Key(name="shim", dimension="length", help="the shim in place, as measured"),
        Key(name="lash", dimension="length", help="the lash found on it"),
        Key(name="low", dimension="length", help="lower end of the window"),
        Key(name="high", dimension="length", help="upper end of the window"),
        Key(
            name="ratio", dimension="number", help="lever ratio, valve side over cam side; 1 for a bucket", default="1"
        ),
        Key(
            name="measured-at",
            dimension=WORDS,
            help="where the feeler went in: valve or cam",
            default="valve",
            choices=("valve", "cam"),
        ),
        Key(name="aim", dimension="length", help="the lash aimed at, else the middle of the window", optional=True),
        Key(name="step", dimension="length", help="step between the shims on sale", optional=True),
    ),
    work=work,
    example="shim=1.85mm lash=0.02mm low=0.10mm high=0.15mm",
)
