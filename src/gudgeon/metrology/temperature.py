"""Lengths are told at 20 °C: what a warm barrel and a cold micrometer do to a reading, with coefficients that are not exact."""

from __future__ import annotations

from gudgeon.metrology.given import finite
from gudgeon.metrology.known import Known, Parts, known
from gudgeon.problem import refuse

REFERENCE_C = 20.0
"""ISO 1 (read in the NIST Engineering Metrology Toolbox, temperature tutorial, and in Swyt 1994)."""

EXPANSION_PER_K = (
    ("aluminium", 23.1e-6, "Swyt, J. Res. NIST 99 (1994) 31"),
    ("cast aluminium 356", 21.5e-6, "Callister, Fundamentals of Materials Science and Engineering, table B.6"),
    ("steel", 11.5e-6, "Swyt, J. Res. NIST 99 (1994) 31; GUM H.1 for gauge-block steel"),
    ("stainless steel 304", 17.2e-6, "Callister, table B.6"),
    ("grey iron", 11.4e-6, "Callister, table B.6"),
    ("titanium 6Al-4V", 8.6e-6, "Callister, table B.6"),
    ("bronze", 18.0e-6, "Callister, table B.6, C93200"),
    ("brass", 19.9e-6, "Callister, table B.6, C26000"),
)
"""Handbook coefficients (material, per kelvin, source); they carry no uncertainty of their own."""

SHARE_OF_DOUBT = 0.10
"""Half-width of a handbook coefficient as a share of it, rectangular; from memory, no source. AISI 1050 spans 11.2 to 14.6."""


def expansion(material: str) -> Known:
    """Handbook coefficient of a material, with the doubt every handbook value deserves.

    Notes
    -----
    u(α) = 0.10·α/√3. Sources: see `EXPANSION_PER_K`; the share is from memory.

    Examples
    --------
    >>> expansion("steel").value
    1.15e-05
    """
    for name, alpha, _ in EXPANSION_PER_K:
        if name == material:
            return known(alpha, f"expansion of {name}", alpha * SHARE_OF_DOUBT / 3.0**0.5)
    names = ", ".join(name for name, _, _ in EXPANSION_PER_K)
    raise refuse("material", "{given} is not listed.", "Give one of {names}.", given=repr(material), names=names)


def length_change(length: float, alpha_per_k: float, from_c: float, to_c: float) -> float:
    """How much a length grows between two temperatures, in the unit of the length.

    Notes
    -----
    ΔL = L·α·(t₂ - t₁), α constant between them. Source: GUM (JCGM 100:2008) H.1.2.

    Examples
    --------
    >>> round(1000 * length_change(52.0, 23.1e-6, 20.0, 28.0), 4)
    9.6096
    """
    rise = _temperature("to_c", to_c) - _temperature("from_c", from_c)
    return finite("length", length) * _alpha("alpha_per_k", alpha_per_k) * rise


def at_reference(
    reading: Known, part_alpha: Known, part_c: Known, scale_alpha: Known | None = None, scale_c: Known | None = None
) -> Known:
    """The length at 20 °C from a reading taken warm, with a scale (micrometer, gauge block) that is warm too.

    Notes
    -----
    L = l·(1 + α_s(t_s - 20))/(1 + α_p(t_p - 20)); contributions by first-order sensitivities, labels kept, so one thermometer
    for both is one cause. Without a scale, the scale is taken as exact at 20 °C. Source: GUM (JCGM 100:2008) H.1.2, ISO 1.

    Examples
    --------
    >>> part, scale = known(21.5e-6, "cast", 1e-6), known(11.5e-6, "steel", 0.5e-6)
    >>> warm, cool = known(28.0, "part t", 0.5), known(24.0, "scale t", 0.5)
    >>> bore = at_reference(known(52.030, "reading", 0.0012), part, warm, scale, cool)
    >>> round(bore.value, 4), round(bore.u, 5)
    (52.0234, 0.00142)
    """
    if (scale_alpha is None) != (scale_c is None):
        raise refuse(
            "scale", "Half of the scale is given.", "Give coefficient and temperature of the scale, or neither."
        )
    grown = 1.0 + _alpha("part_alpha", part_alpha.value) * (_temperature("part_c", part_c.value) - REFERENCE_C)
    read, parts, nu = 1.0, _parts(part_alpha, part_c, -1.0 / grown), part_alpha.nu + part_c.nu
    if scale_alpha is not None and scale_c is not None:
        read += _alpha("scale_alpha", scale_alpha.value) * (_temperature("scale_c", scale_c.value) - REFERENCE_C)
        parts += _parts(scale_alpha, scale_c, 1.0 / read)
        nu += scale_alpha.nu + scale_c.nu
    length = reading.value * read / grown
    scaled = tuple((label, part * length) for label, part in parts)
    corrected = reading.times(read / grown)
    return Known(value=length, parts=corrected.parts + scaled, nu=corrected.nu + nu)


def _parts(alpha: Known, t_c: Known, factor: float) -> Parts:
    """Relative contributions of one body: factor·((t - 20)·δα + α·δt)."""
    rise = t_c.value - REFERENCE_C
    return tuple((label, factor * rise * part) for label, part in alpha.parts) + tuple(
        (label, factor * alpha.value * part) for label, part in t_c.parts
    )


def _temperature(where: str, value: float) -> float:
    if not -60.0 <= finite(where, value) <= 400.0:
        raise refuse(where, "{given} °C is not a bench temperature.", "Give −60 to 400 °C.", given=value)
    return value


def _alpha(where: str, value: float) -> float:
    if not -1e-4 <= finite(where, value) <= 1e-3:
        raise refuse(where, "{given} per kelvin is no expansion of a solid.", "Give e.g. 11.5e-6.", given=value)
    return value
