"""Which part a failed characteristic points at, and what is done to it: the book's own words first, else the trade's."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass
from typing import Literal

from gudgeon.anatomy import Anatomy
from gudgeon.characteristics.own import characteristics
from gudgeon.job.taking import subject_slot
from gudgeon.measurands.own import measurands
from gudgeon.verdicts.shape import Verdict

What = Literal["reuse", "clean", "renew", "machine", "measure again"]

#: Where the book says nothing (common practice, no source).
USUAL: Mapping[str, tuple[str, ...]] = {
    "stem_diameter": ("renew valve",),
    "guide_bore": ("renew guide",),
    "stem_guide_clearance": ("renew guide", "renew valve"),
    "wobble": ("renew guide",),
    "stem_runout": ("renew valve",),
    "valve_margin": ("renew valve",),
    "seat_width": ("cut seat",),
    "contact": ("cut seat",),
    "seat_runout": ("cut seat",),
    "seal_test": ("lap valve", "cut seat"),
    "tip_height": ("new insert",),
    "recession": ("new insert",),
    "spring_free_length": ("renew spring",),
    "spring_load": ("renew spring",),
    "spring_tilt": ("renew spring",),
    "head_flatness": ("skim head",),
    "barrel_flatness": ("renew barrel",),
    "bore_diameter": ("rebore", "renew barrel"),
    "out_of_round": ("rebore", "renew barrel"),
    "taper": ("rebore", "renew barrel"),
    "piston_diameter": ("renew piston",),
    "piston_clearance": ("renew piston", "renew barrel"),
    "ring_gap": ("renew rings", "file ring gap"),
    "side_clearance": ("renew rings", "renew piston"),
    "pin_diameter": ("renew pin",),
    "pin_bore": ("renew piston",),
    "small_end_bore": ("renew rod",),
    "pin_piston_clearance": ("renew pin", "renew piston"),
    "pin_rod_clearance": ("renew pin", "renew rod"),
    "lobe_height": ("renew cam",),
    "base_circle": ("renew cam",),
    "journal_diameter": ("renew cam",),
    "journal_clearance": ("renew cam", "renew head"),
    "cam_runout": ("renew cam",),
    "follower_bore": ("renew follower",),
    "shaft_diameter": ("renew follower shaft",),
    "follower_clearance": ("renew follower", "renew follower shaft"),
    "chain_length": ("renew chain",),
}
#: What is cut, and on which part.
MACHINED: Mapping[str, str] = {
    "cut seat": "seat",
    "lap valve": "seat",
    "skim head": "head",
    "skim barrel": "barrel",
    "plate barrel anew": "barrel",
    "rebore": "barrel",
    "hone": "barrel",
    "file ring gap": "ring",
}
#: Names of parts in a book that stand for a slot of another name.
_KINDS: Mapping[str, str] = {"rings": "ring", "rocker": "follower", "rocker shaft": "follower shaft",
                             "head with holders": "head", "new insert": "seat"}  # fmt: skip
#: What a plated bore forbids.
_NOT_PLATED = ("rebore", "hone")


@dataclass(frozen=True, slots=True, kw_only=True)
class Remedy:
    """One remedy: its words, the slot it is done to, and what it makes of the part there."""

    words: str
    slot: str
    what: What


def remedies_of(verdict: Verdict, anatomy: Anatomy) -> tuple[Remedy, ...]:
    """The remedies of a characteristic that the materials allow, in the book's order; a ring too tight is filed first."""
    row = verdict.row
    texts = row.remedies if row is not None and row.remedies else USUAL.get(verdict.key, ())
    found = [r for text in texts if (r := _remedy(text, verdict.place, anatomy)) is not None]
    tight = verdict.value is not None and verdict.low is not None and verdict.value < verdict.low
    return tuple(sorted(found, key=lambda r: (r.words == "file ring gap") != tight))


def _remedy(text: str, place: str, anatomy: Anatomy) -> Remedy | None:
    if text in _NOT_PLATED and anatomy.layout.bore == "plated":
        return None
    if text == "lap valve" and place in anatomy.valves and anatomy.layout.side(place).coated:
        text = "cut seat"
    kind = MACHINED.get(text)
    if kind is not None:
        slot = slot_at(anatomy, place, kind)
        return Remedy(words=text, slot=slot, what="machine") if slot else None
    if text.startswith("renew ") or text in _KINDS:
        name = text.removeprefix("renew ")
        slot = slot_at(anatomy, place, _KINDS.get(name, name))
        return Remedy(words=text, slot=slot, what="renew") if slot else None
    return None


def slot_at(anatomy: Anatomy, place: str, kind: str) -> str:
    """The slot of a kind of part nearest to a place: its own, its cam's, its cylinder's, its head's, the engine's."""
    near = [place]
    if place in anatomy.valves:
        near += [anatomy.cam(place), anatomy.cylinder(place), anatomy.head(place)]
    elif place in anatomy.rings or place in anatomy.cylinders:
        near += [anatomy.cylinder(place), anatomy.head(anatomy.cylinder(place))]
    elif place in anatomy.cams:
        near += [anatomy.head(place) if anatomy.bank(place) else anatomy.heads[0]]
    return next((s for where in (*near, "engine") if anatomy.has(s := f"{where}/{kind}")), "")


def subjects(verdict: Verdict, anatomy: Anatomy) -> tuple[str, ...]:
    """The slots whose parts a characteristic is read on, one a reading; empty where a reading looks at several parts."""
    kind = characteristics(anatomy)[verdict.key]
    return tuple(
        subject_slot(measurands(anatomy)[w.measurand].observes(anatomy, w.at(anatomy, verdict.place)))
        for w in kind.wants
    )


def parts_of(verdict: Verdict, anatomy: Anatomy) -> tuple[str, ...]:
    """The slots whose parts take part in a characteristic."""
    slots = (*subjects(verdict, anatomy), *(r.slot for r in remedies_of(verdict, anatomy)))
    return tuple(dict.fromkeys(s for s in slots if s))
