"""Metric threads and property classes: what a torque means depends on the thread under the head, not on the number alone."""

from __future__ import annotations

import re
from dataclasses import dataclass
from math import pi

from gudgeon.problem import refuse

# ISO 261 coarse and fine pitches in mm, coarse first (from memory).
PITCHES_MM: dict[str, tuple[float, ...]] = {
    "3": (0.5, 0.35),
    "4": (0.7, 0.5),
    "5": (0.8, 0.5),
    "6": (1.0, 0.75),
    "7": (1.0, 0.75),
    "8": (1.25, 1.0, 0.75),
    "10": (1.5, 1.25, 1.0, 0.75),
    "12": (1.75, 1.5, 1.25, 1.0),
    "14": (2.0, 1.5, 1.25, 1.0),
    "16": (2.0, 1.5, 1.0),
}
# Least bearing diameter of a hexagon head (ISO 4014, grade A) and medium clearance hole (ISO 273), both in mm.
# M5 to M12 read in a secondary tabulation; the others from memory, M7 after DIN 931.
HEADS_MM: dict[str, tuple[float, float]] = {
    "3": (4.57, 3.4),
    "4": (5.88, 4.5),
    "5": (6.88, 5.5),
    "6": (8.88, 6.6),
    "7": (9.63, 7.6),
    "8": (11.63, 9.0),
    "10": (14.63, 11.0),
    "12": (16.63, 13.5),
    "14": (19.64, 15.5),
    "16": (22.49, 17.5),
}


@dataclass(frozen=True, slots=True, kw_only=True)
class Thread:
    """A metric thread: nominal diameter and pitch."""

    diameter_mm: float
    pitch_mm: float

    @property
    def pitch_diameter_mm(self) -> float:
        """d₂ = d − 0.649519·P (ISO 724)."""
        return self.diameter_mm - 0.649519 * self.pitch_mm

    @property
    def minor_diameter_mm(self) -> float:
        """d₃ = d − 1.226869·P (ISO 68-1 with a rounded root)."""
        return self.diameter_mm - 1.226869 * self.pitch_mm

    @property
    def stress_diameter_mm(self) -> float:
        """d₀ = (d₂ + d₃)/2 (ISO 898-1)."""
        return (self.pitch_diameter_mm + self.minor_diameter_mm) / 2

    @property
    def stress_area_mm2(self) -> float:
        """Aₛ = π·d₀²/4 (ISO 898-1)."""
        return pi / 4 * self.stress_diameter_mm**2

    @property
    def head_friction_diameter_mm(self) -> float:
        """Mean diameter of a hexagon head's bearing, (d_w + d_h)/2; 1.3·d where the size is not in the table."""
        bearing, hole = HEADS_MM.get(f"{self.diameter_mm:g}", (1.5 * self.diameter_mm, 1.1 * self.diameter_mm))
        return (bearing + hole) / 2


@dataclass(frozen=True, slots=True, kw_only=True)
class Grade:
    """A property class of bolts: proof stress, yield (or 0.2 % limit) and tensile strength."""

    name: str
    proof_mpa: float
    yield_mpa: float
    tensile_mpa: float


# ISO 898-1:2013, table 3: 8.8 (to 16 mm), 10.9 and 12.9 read in a secondary tabulation, the others from memory.
GRADES: tuple[Grade, ...] = (
    Grade(name="4.6", proof_mpa=225, yield_mpa=240, tensile_mpa=400),
    Grade(name="4.8", proof_mpa=310, yield_mpa=340, tensile_mpa=420),
    Grade(name="5.6", proof_mpa=280, yield_mpa=300, tensile_mpa=500),
    Grade(name="5.8", proof_mpa=380, yield_mpa=420, tensile_mpa=520),
    Grade(name="6.8", proof_mpa=440, yield_mpa=480, tensile_mpa=600),
    Grade(name="8.8", proof_mpa=580, yield_mpa=640, tensile_mpa=800),
    Grade(name="9.8", proof_mpa=650, yield_mpa=720, tensile_mpa=900),
    Grade(name="10.9", proof_mpa=830, yield_mpa=940, tensile_mpa=1040),
    Grade(name="12.9", proof_mpa=970, yield_mpa=1100, tensile_mpa=1220),
)

_DESIGNATION = re.compile(r"m?\s*(\d{1,2}(?:[.,]\d{1,2})?)\s*(?:[x×*]\s*(\d(?:[.,]\d{1,3})?))?", re.IGNORECASE)


def thread(designation: str) -> Thread:
    """The thread that a designation names; without a pitch the coarse one.

    "M10" is M10×1.5, "M10x1.25" is fine

    Parameters
    ----------
    designation : as stamped or typed, M3 to M16

    Notes
    -----
    Sizes and pitches of ISO 261 from 3 to 16 mm; anything else is refused.

    Source
    ------
    ISO 261 and ISO 965-1 (from memory).

    Examples
    --------
    >>> round(thread("M8").stress_area_mm2, 3), round(thread("M10x1.25").stress_area_mm2, 2)
    (36.609, 61.2)
    """
    match = _DESIGNATION.fullmatch(designation.strip())
    size = match and f"{float(match[1].replace(',', '.')):g}"
    if not match or size not in PITCHES_MM:
        raise refuse(
            "thread", "{given!r} is no thread known here.", "Give M3 to M16, as in M8 or M10x1.25.", given=designation
        )
    pitches = PITCHES_MM[size]
    pitch = float(match[2].replace(",", ".")) if match[2] else pitches[0]
    if pitch not in pitches:
        raise refuse(
            "thread",
            "M{size} has no pitch of {pitch} mm.",
            "Give one of {allowed}.",
            size=size,
            pitch=pitch,
            allowed=", ".join(f"M{size}x{p:g}" for p in pitches),
        )
    return Thread(diameter_mm=float(size), pitch_mm=pitch)


def grade(name: str) -> Grade:
    """The property class of a bolt, from the number on its head.

    nominal tensile strength = first number × 100 MPa; yield = that × second number / 10

    Parameters
    ----------
    name : "8.8", "10.9", …

    Notes
    -----
    Values for d ≤ 16 mm, least ones of the standard where they differ from nominal.

    Source
    ------
    ISO 898-1:2013, table 3, read in a secondary tabulation (8.8, 10.9, 12.9) or from memory (others).

    Examples
    --------
    >>> grade("10.9").yield_mpa
    940
    """
    text = name.strip().replace(",", ".")
    for one in GRADES:
        if one.name == text:
            return one
    allowed = ", ".join(g.name for g in GRADES)
    raise refuse(
        "grade", "{given!r} is no property class known here.", "Give one of {allowed}.", given=name, allowed=allowed
    )
