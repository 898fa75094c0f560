"""How parts grow with heat: a part measured warm is not the part that was measured, and fits change as an engine warms."""

from __future__ import annotations

from dataclasses import dataclass

from gudgeon.mechanics._given import above, between, positive
from gudgeon.problem import refuse


@dataclass(frozen=True, slots=True, kw_only=True)
class Material:
    """A material, its coefficient of linear expansion near room temperature, and where that was read."""

    name: str
    expansion_per_k: float
    source: str


_SWYT = "D. A. Swyt, J. Res. NIST 99 (1994) 31: typical value"
_CALLISTER = "Callister, Fundamentals of Materials Science and Engineering, 3rd ed., table B.6"
_ALLOYS: tuple[tuple[str, float], ...] = (
    ("grey iron", 11.4),
    ("ductile iron 60-40-18", 11.2),
    ("ductile iron 80-55-06", 10.6),
    ("steel 1020", 11.7),
    ("steel 1040", 11.3),
    ("steel 4140", 12.3),
    ("steel 4340", 12.3),
    ("stainless 304", 17.2),
    ("stainless 316", 15.9),
    ("stainless 440A", 10.2),
    ("aluminium 356.0 cast", 21.5),
    ("aluminium 2024", 22.9),
    ("aluminium 6061", 23.6),
    ("aluminium 7075", 23.4),
    ("titanium grade 1", 8.6),
    ("titanium 6Al-4V", 8.6),
    ("titanium 5Al-2.5Sn", 9.4),
    ("bronze C93200", 18.0),
    ("brass C26000", 19.9),
)
MATERIALS: tuple[Material, ...] = (
    Material(name="aluminium", expansion_per_k=23.1e-6, source=_SWYT),
    Material(name="steel", expansion_per_k=11.5e-6, source=_SWYT),
    Material(name="silicon", expansion_per_k=2.6e-6, source=_SWYT),
    *(Material(name=name, expansion_per_k=value * 1e-6, source=_CALLISTER) for name, value in _ALLOYS),
    Material(name="piston alloy", expansion_per_k=20e-6, source="from memory: high-silicon piston alloys 19 to 21"),
)
_SAME = {"aluminum": "aluminium", "cast iron": "grey iron", "gray iron": "grey iron", "iron": "grey iron"}


def material(name: str) -> Material:
    """A material by its name.

    coefficient of linear expansion α, per kelvin

    Parameters
    ----------
    name : as in the list, capitals or not; the number of an alloy alone is enough

    Notes
    -----
    Handbook values between 20 °C and 100 °C carry no uncertainty; a tenth is a fair allowance (common practice).

    Source
    ------
    Beside each value.

    Examples
    --------
    >>> material("aluminium").expansion_per_k
    2.31e-05
    """
    text = " ".join(name.lower().replace("-", " ").replace("_", " ").split())
    text = _SAME.get(text, text)
    for one in MATERIALS:
        own = one.name.lower().replace("-", " ")
        if text and (text == own or text == own.split(" ", 1)[-1]):
            return one
    allowed = ", ".join(m.name for m in MATERIALS)
    raise refuse(
        "material", "{given!r} is not in the list.", "Give expansion, or one of {allowed}.", given=name, allowed=allowed
    )


def growth_mm(length_mm: float, expansion_per_k: float, from_c: float, to_c: float) -> float:
    """Change of a length between two temperatures, measured from the first.

    ΔL = L·α·(t₂ − t₁)

    Parameters
    ----------
    length_mm : L at t₁
    expansion_per_k : α
    from_c, to_c : t₁, t₂

    Notes
    -----
    Linear; valid for |α| < 0.001 /K and α(t₂ − t₁) > −1. A hole grows as the metal around it would.

    Source
    ------
    ISO 1 for the reference of 20 °C; definition of α. NIST Engineering Metrology Toolbox, temperature.

    Examples
    --------
    >>> round(growth_mm(52, 23.1e-6, from_c=20, to_c=28), 7)
    0.0096096
    """
    rate = between("expansion", expansion_per_k, -1e-3, 1e-3, unit="1/K", ends="()")
    start = above("from", from_c, -273.15, unit="°C")
    growth = rate * (above("to", to_c, -273.15, unit="°C") - start)
    return positive("length", length_mm, unit="mm") * growth


def hot_clearance_mm(
    hole_mm: float, hole_per_k: float, hole_c: float, shaft_mm: float, shaft_per_k: float, shaft_c: float
) -> float:
    """Diametral clearance of a fit when its parts are warm; negative is interference.

    c = D_b·(1 + α_b·ΔT_b) − D_p·(1 + α_p·ΔT_p), ΔT from 20 °C

    Parameters
    ----------
    hole_mm, shaft_mm : D_b, D_p at 20 °C
    hole_per_k, shaft_per_k : α_b, α_p
    hole_c, shaft_c : mean temperatures

    Notes
    -----
    Each part at one temperature. Too crude for a piston, whose skirt is cooler, barrelled and oval: use it for the
    direction, never for a limit. It serves for guides and seats that are fitted warm.

    Source
    ------
    `growth_mm` for both parts.

    Examples
    --------
    >>> round(hot_clearance_mm(60.040, 11.4e-6, 120, 60.0, 20.5e-6, 180), 4)
    -0.0884
    """
    hole = positive("hole", hole_mm, unit="mm") + growth_mm(hole_mm, hole_per_k, 20.0, hole_c)
    return hole - positive("shaft", shaft_mm, unit="mm") - growth_mm(shaft_mm, shaft_per_k, 20.0, shaft_c)


def temperature_to_fit_c(
    hole_mm: float, hole_per_k: float, shaft_mm: float, shaft_c: float, shaft_per_k: float, room_mm: float
) -> float:
    """Temperature of a housing at which a part drops in with some room to spare.

    t = 20 + (D_s·(1 + α_s·(t_s − 20)) + room − D_h)/(α_h·D_h)

    Parameters
    ----------
    hole_mm, shaft_mm : D_h, D_s at 20 °C
    hole_per_k, shaft_per_k : α_h, α_s
    shaft_c : t_s, of the part, which may be chilled
    room_mm : wanted clearance

    Notes
    -----
    Valid for α_h > 0. In an oven, never with a torch; the maker's temperature goes before this one.

    Source
    ------
    `hot_clearance_mm` solved for the housing's temperature.

    Examples
    --------
    >>> round(temperature_to_fit_c(10.000, 21.5e-6, 10.030, 20, 18e-6, 0.01), 0)
    206.0
    """
    shaft = shaft_mm + growth_mm(shaft_mm, shaft_per_k, 20.0, shaft_c) + positive("room", room_mm, unit="mm")
    rate = positive("expansion", hole_per_k, unit="1/K") * positive("hole", hole_mm, unit="mm")
    return 20 + (shaft - hole_mm) / rate
