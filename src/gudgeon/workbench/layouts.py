"""Layouts by the words a technician would use: "vtwin, 4v, finger, plated" is a whole engine with all its places."""

from __future__ import annotations

import re
from collections.abc import Mapping
from dataclasses import replace
from typing import get_args

from msgspec import Struct

from gudgeon.anatomy import Arrangement, CamDrive, Follower, Layout, Side, expand, say
from gudgeon.book.write import empty_book
from gudgeon.problem import Refused, refuse
from gudgeon.shelf.typed import nearest

#: Cylinders and how they stand.
BLOCKS: Mapping[str, tuple[int, Arrangement]] = {
    "single": (1, "single"), "twin": (2, "inline"), "triple": (3, "inline"), "four": (4, "inline"),
    "vtwin": (2, "vee"), "vtriple": (3, "vee"), "vfour": (4, "vee"),
}  # fmt: skip
#: Valves of a cylinder: intake and exhaust.
VALVES: Mapping[str, tuple[int, int]] = {"2v": (1, 1), "3v": (2, 1), "4v": (2, 2)}
#: What opens them: the kind, and the end of the rocker at which a screw stands.
FOLLOWERS: Mapping[str, tuple[Follower, str]] = {
    "bucket-over": ("bucket_over", ""), "bucket-under": ("bucket_under", ""), "finger": ("finger", ""),
    "rocker-shim": ("rocker", ""), "rocker-screw": ("rocker_screw", "valve"),
    "rocker-screw-cam": ("rocker_screw", "cam"), "pushrod": ("pushrod_screw", "valve"),
}  # fmt: skip
DRIVES: tuple[CamDrive, ...] = get_args(CamDrive)
#: Words that may follow, the usual one of each pair first.
CAMS, HOLDERS, BORES, COOLING = (
    ("two-cams", "one-cam"),
    ("several-holders", "one-holder"),
    ("iron", "plated"),
    ("liquid", "air"),
)
DECOMPRESSOR = "decompressor"
DRIVEN = tuple(drive for drive in DRIVES if drive != "pushrod")


class Choice(Struct, frozen=True, kw_only=True):
    """One thing a layout's name says: its words, the usual one first, and whether one of them must be there."""

    name: str
    words: tuple[str, ...]
    needed: bool


def choices() -> tuple[Choice, ...]:
    """Every word of a layout's name."""
    return (
        Choice(name="cylinders", words=tuple(BLOCKS), needed=True),
        Choice(name="valves of a cylinder", words=tuple(VALVES), needed=True),
        Choice(name="followers", words=tuple(FOLLOWERS), needed=True),
        Choice(name="cam drive", words=DRIVEN, needed=False),
        Choice(name="cams", words=CAMS, needed=False),
        Choice(name="cam holders", words=HOLDERS, needed=False),
        Choice(name="bore", words=BORES, needed=False),
        Choice(name="cooling", words=COOLING, needed=False),
        Choice(name="decompressor", words=(DECOMPRESSOR,), needed=False),
    )


def layout_named(name: str) -> Layout:
    """The layout that words mean, in any order, set apart by commas or spaces."""
    chosen = _chosen(name)
    cylinders, arrangement = BLOCKS[chosen["cylinders"]]
    follower, end = FOLLOWERS[chosen["followers"]]
    pushrod = follower == "pushrod_screw"
    for other in ("cam drive", "cams"):
        if pushrod and other in chosen and chosen[other] != "one-cam":
            raise refuse("layout", "Push-rods have their cam below: {word} is none of it.", "Leave {word} out.",
                         word=chosen[other])  # fmt: skip
    intake, exhaust = (
        Side(valves=count, follower=follower, screw_end="cam" if end == "cam" else "valve")
        for count in VALVES[chosen["valves of a cylinder"]]
    )
    layout = Layout(
        cylinders=cylinders,
        arrangement=arrangement,
        intake=intake,
        exhaust=exhaust,
        cams="one" if pushrod or chosen.get("cams") == "one-cam" else "two",
        cam_drive="pushrod" if pushrod else next(d for d in DRIVES if d == chosen.get("cam drive", "chain")),
        holders="per engine" if chosen.get("cam holders") == "one-holder" else "per cam",
        liquid=chosen.get("cooling") != "air",
        bore="plated" if chosen.get("bore") == "plated" else "iron",
    )
    return with_decompressor(layout) if "decompressor" in chosen else layout


def with_decompressor(layout: Layout) -> Layout:
    """A decompressor lifts an exhaust valve of every cylinder."""
    anatomy = expand(layout)
    lifted = tuple(next(v for v in anatomy.valves_of(c) if ".ex" in v) for c in anatomy.cylinders)
    return replace(layout, decompressor=lifted)


def _chosen(name: str) -> dict[str, str]:
    """What each word chooses; everything that is wrong is said at once."""
    found: dict[str, str] = {}
    wrong: list[Refused] = []
    known = {word: choice.name for choice in choices() for word in choice.words}
    for word in re.split(r"[,\s]+", name.strip().casefold()):
        choice = known.get(word)
        if choice is None:
            meant = nearest(word, known)
            remedy = "Did you mean {meant}?" if meant else "Look at: gudgeon book new --list."
            wrong.append(refuse("layout", "{word} is no word of a layout.", remedy, word=word[:40] or "–", meant=meant))
        elif choice in found:
            wrong.append(refuse("layout", "{one} and {other} are two {what}.", "Keep one.",
                                one=found[choice], other=word, what=choice))  # fmt: skip
        else:
            found[choice] = word
    for missing in (c for c in choices() if c.needed and c.name not in found):
        wrong.append(refuse("layout", "It does not say its {what}.", "Add one of: {known}.",
                            what=missing.name, known=", ".join(missing.words)))  # fmt: skip
    if wrong:
        raise Refused(tuple(p for one in wrong for p in one.problems))
    return found


def book_of_layout(layout: str, name: str) -> str:
    """The text of a book that has nothing but a layout, to grow by use."""
    if not name.strip():
        raise refuse("book", "The new book has no name.", "Give it one, as the book's cover would.")
    return empty_book(layout_named(layout), name.strip())


def places_of(layout: str) -> tuple[str, ...]:
    """Every place of a layout as a technician says it."""
    engine = expand(layout_named(layout))
    return tuple(say(place, single=engine.layout.cylinders == 1) for place in engine.places)
