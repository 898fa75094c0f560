"""What a book may set a limit for, and in which dimension: everything measured, and the fits that follow from it."""

from __future__ import annotations

from gudgeon.measurands.catalogue import MEASURANDS

#: Characteristics that are not read but follow from readings; all are lengths.
DERIVED = (
    "stem_guide_clearance",
    "out_of_round",
    "taper",
    "piston_clearance",
    "pin_piston_clearance",
    "pin_rod_clearance",
    "follower_clearance",
)
SETTINGS = ("lash",)
KEYS = (*MEASURANDS, *DERIVED)


def dimension(key: str) -> str:
    """The dimension of a characteristic: "length", … or "words"; empty if there is none of that name."""
    if key in DERIVED:
        return "length"
    return MEASURANDS[key].dimension if key in MEASURANDS else ""


def words(key: str) -> tuple[str, ...]:
    """What may be said of a characteristic that is judged in words."""
    return MEASURANDS[key].words if key in MEASURANDS else ()
