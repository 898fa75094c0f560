"""Which limit a row of somebody's table is about: the words technicians and books use (common practice, no source)."""

from __future__ import annotations

import re
from difflib import SequenceMatcher

from gudgeon.characteristics.catalogue import CHARACTERISTICS

#: Names beside those of the characteristics themselves; common practice, no source.
SYNONYMS: dict[str, tuple[str, ...]] = {
    "lash": ("valve clearance", "valve lash", "tappet clearance"),
    "stem_diameter": ("valve stem diameter", "valve stem od", "stem od", "stem outside diameter", "valve stem"),
    "guide_bore": ("valve guide id", "guide id", "guide inside diameter", "valve guide bore", "guide diameter"),
    "stem_guide_clearance": ("stem to guide clearance", "valve to guide clearance", "guide to stem clearance"),
    "wobble": ("valve wobble", "stem tilt", "guide rock"),
    "stem_runout": ("valve stem runout", "stem bend", "valve runout"),
    "valve_margin": ("margin", "valve head thickness", "margin thickness"),
    "seat_width": ("valve seat width", "seat contact width"),
    "spring_free_length": ("valve spring free length", "free length", "spring length"),
    "spring_load": ("valve spring load", "spring tension", "spring force"),
    "spring_tilt": ("spring squareness", "spring out of square"),
    "head_flatness": ("cylinder head warpage", "head warp", "head distortion", "head warpage"),
    "barrel_flatness": ("cylinder warpage", "barrel warp", "cylinder face distortion"),
    "bore_diameter": ("cylinder bore", "cylinder id", "bore", "cylinder diameter"),
    "out_of_round": ("cylinder out of round", "out of round"),
    "taper": ("cylinder taper", "taper"),
    "piston_diameter": ("piston od", "piston outside diameter", "piston skirt diameter"),
    "piston_clearance": ("piston to wall", "piston to wall clearance", "cylinder to piston clearance",
                         "piston to cylinder clearance"),
    "ring_gap": ("ring end gap", "piston ring end gap", "piston ring gap"),
    "side_clearance": ("ring to groove clearance", "piston ring side clearance", "ring groove clearance"),
    "pin_diameter": ("piston pin od", "gudgeon pin diameter", "wrist pin diameter"),
    "pin_bore": ("piston pin hole id", "pin hole diameter", "piston pin hole"),
    "small_end_bore": ("rod small end id", "connecting rod small end", "small end id"),
    "pin_piston_clearance": ("piston to pin clearance",),
    "pin_rod_clearance": ("rod to pin clearance", "small end clearance"),
    "lobe_height": ("cam lobe height", "cam height", "lobe"),
    "journal_diameter": ("camshaft journal od", "cam journal od"),
    "journal_clearance": ("camshaft oil clearance", "cam oil clearance", "camshaft journal clearance"),
    "cam_runout": ("camshaft runout",),
    "follower_bore": ("rocker arm id", "rocker bore", "rocker arm bore"),
    "shaft_diameter": ("rocker arm shaft od", "rocker shaft diameter", "rocker shaft od"),
    "follower_clearance": ("rocker to shaft clearance", "rocker arm to shaft clearance"),
    "chain_length": ("timing chain length", "cam chain 20 links"),
    "squish": ("squish clearance", "squish gap"),
    "valve_to_piston": ("piston to valve clearance",),
}  # fmt: skip
_SIDES = {"in": "in", "intake": "in", "inlet": "in", "ex": "ex", "exh": "ex", "exhaust": "ex"}
_RINGS = {"top": "top", "first": "top", "1st": "top", "second": "second", "2nd": "second"}
_NAMES = {"runout": "run out", "od": "outside diameter", "id": "inside diameter", "dia": "diameter"}
#: Under `_LEAST` alike nothing is offered; from `_SURE` on it is taken without asking. Judged by the tests' rows.
_LEAST, _SURE = 0.72, 0.93


def side_in(words: str) -> str:
    """The side or ring that words name: intake, exhaust, top, second; nothing where they name none or two."""
    pieces = re.findall(r"[a-z0-9]+", words.casefold())
    known = _RINGS if "ring" in pieces or "rings" in pieces else _SIDES
    found = {known[p] for p in pieces if p in known}
    return found.pop() if len(found) == 1 else ""


def named(words: str) -> tuple[str, bool]:
    """The characteristic that words likely mean, and whether that is sure; nothing where no name is near."""
    wanted = _bare(words)
    best, second = ("", 0.0), ("", 0.0)
    for key, names in _ALL:
        near = max(SequenceMatcher(None, wanted, name).ratio() for name in names)
        if near > best[1]:
            best, second = (key, near), best
        elif near > second[1]:
            second = (key, near)
    if best[1] < _LEAST:
        return "", False
    return best[0], best[1] >= _SURE and second[1] < best[1] - 0.02


def _bare(words: str) -> str:
    """Words in one order and spelling, without sides, units and small words, so that only the name is compared."""
    plain = re.sub(r"\([^)]*\)", " ", words.casefold())
    pieces = [_NAMES.get(p, p) for p in re.findall(r"[a-z0-9]+", plain)]
    ring = "ring" in pieces or "rings" in pieces
    gone = {"to", "of", "the", "and", "mm", *(_RINGS if ring else ()), *_SIDES}
    return " ".join(sorted(p for piece in pieces for p in piece.split() if p not in gone))


_ALL = tuple(
    (key, tuple(dict.fromkeys(_bare(name) for name in (kind.name, key.replace("_", " "), *SYNONYMS.get(key, ())))))
    for key, kind in CHARACTERISTICS.items()
    if kind.dimension != "words"
)
