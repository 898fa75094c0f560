"""What a book may set a limit for, and in which dimension: everything that is judged, measured or derived."""

from __future__ import annotations

from gudgeon.characteristics.catalogue import CHARACTERISTICS
from gudgeon.measurands.catalogue import MEASURANDS

KEYS = tuple(CHARACTERISTICS)
#: Characteristics that are not read but follow from readings.
DERIVED = tuple(key for key in CHARACTERISTICS if key not in MEASURANDS)


def dimension(key: str) -> str:
    """The dimension of a characteristic: "length", … or "words"; empty if there is none of that name."""
    return CHARACTERISTICS[key].dimension if key in CHARACTERISTICS else ""


def is_setting(key: str) -> bool:
    """Whether it is adjusted by hand: its two limits are the walls of a window."""
    return key in CHARACTERISTICS and CHARACTERISTICS[key].rule == "setting"


def words(key: str) -> tuple[str, ...]:
    """What may be said of a characteristic that is judged in words."""
    return MEASURANDS[key].words if key in MEASURANDS else ()


def span(key: str) -> tuple[float, float] | None:
    """What a measured characteristic can be on any small engine, in its inside unit; none where that is not known."""
    return MEASURANDS[key].plausible if key in MEASURANDS else None
