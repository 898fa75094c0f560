"""Starting a job: a book that is kept, or a layout picked from pictures with nothing else in it yet."""

from __future__ import annotations

from collections.abc import Mapping
from typing import get_args

from msgspec import Struct

from gudgeon.anatomy import Arrangement, CamDrive, Follower, Layout, Side
from gudgeon.book.write import empty_book
from gudgeon.figures.places import Train
from gudgeon.job.entries import EstimateApproved, JobOpened
from gudgeon.problem import Problem, Refused, refuse, said
from gudgeon.routes.scopes import SCOPES
from gudgeon.units import read
from gudgeon.workbench.bench import Hand, Workbench
from gudgeon.workbench.history import open_known
from gudgeon.workbench.layouts import DRIVEN, with_decompressor


class FollowerView(Struct, frozen=True, kw_only=True):
    """A kind of follower to pick: its key, its words, and the train that draws it."""

    key: str
    name: str
    train: Train


class BookCard(Struct, frozen=True, kw_only=True):
    """A kept book, and whether it is the newest edition of its name."""

    sha256: str
    name: str
    edition: str
    newest: bool


FOLLOWERS: tuple[FollowerView, ...] = (
    FollowerView(key="finger", name="fingers, shim on the tip", train="finger"),
    FollowerView(key="bucket_under", name="buckets, shim underneath", train="bucket"),
    FollowerView(key="rocker", name="rockers, shim on the tip", train="rocker"),
    FollowerView(key="pushrod_screw", name="push-rods, screw adjusters", train="push-rod"),
    FollowerView(key="bucket_over", name="buckets, shim on top", train="bucket over"),
    FollowerView(key="rocker_screw", name="rockers, screw at the valve", train="rocker screw"),
    FollowerView(key="rocker_screw at cam", name="rockers, screw at the cam", train="rocker screw at cam"),
)


def kept_books(bench: Workbench) -> tuple[BookCard, ...]:
    """Every kept edition, the newest of each name first."""
    found: list[BookCard] = []
    seen: set[str] = set()
    for sha, name, edition in bench.library.books():
        found.append(BookCard(sha256=sha, name=name, edition=edition, newest=name not in seen))
        seen.add(name)
    return tuple(sorted(found, key=lambda card: not card.newest))


def scopes() -> tuple[tuple[str, str], ...]:
    """How much a job may ask for: key and words."""
    return tuple((key, words) for key, (words, _asks) in SCOPES.items())


def next_number(bench: Workbench) -> str:
    """A job number nobody has taken: the year and the next count."""
    year = bench.clock.now()[2:4]
    taken = [row.number.removeprefix(f"{year}-") for row in bench.jobs(search=f"{year}-", limit=1000)]
    return f"{year}-{max((int(n) for n in taken if n.isdigit()), default=0) + 1:03d}"


def begin_book(bench: Workbench, cells: Mapping[str, str]) -> str:
    """A new book with nothing but its layout; refused where one of its name is kept: that one grows."""
    name = cells.get("family", "").strip()
    if any(card.name.casefold() == name.casefold() for card in kept_books(bench)):
        raise refuse("engine family", "{name} has a book.", "Open its grid, or give another name.", name=name)
    return start_book(bench, dict(cells) | {"name": name})


def start_book(bench: Workbench, choices: Mapping[str, str]) -> str:
    """Keep a book that has nothing but the layout that was picked; its digest."""
    name = choices.get("name", "").strip()
    if not name:
        raise refuse("engine family", "It has no name.", "Give it one, as the book's cover would.")
    if len(name) > 80:
        raise refuse("engine family", "The name has {n} characters.", "Use at most 80.", n=len(name))
    return bench.add_book(empty_book(_layout(choices), name), name="layout")


def _layout(choices: Mapping[str, str]) -> Layout:
    cylinders = _count(choices, "cylinders", 1, 8)
    pushrod = choices.get("follower") == "pushrod_screw"
    layout = Layout(
        cylinders=cylinders,
        arrangement=_arrangement(cylinders, choices.get("arrangement", "")),
        intake=_side(choices, choices.get("follower", ""), "valves_in", coated=bool(choices.get("coated"))),
        exhaust=_side(choices, choices.get("exhaust", "") or choices.get("follower", ""), "valves_ex", coated=False),
        cams="one" if pushrod or choices.get("cams") == "one" else "two",
        cam_drive="pushrod" if pushrod else _drive(choices.get("drive", "") or "chain"),
        holders="per engine" if choices.get("holders") == "one" else "per cam",
        liquid=choices.get("cooling", "liquid") == "liquid",
        bore="plated" if choices.get("bore") == "plated" else "iron",
    )
    return with_decompressor(layout) if choices.get("decompressor") else layout


def _drive(typed: str) -> CamDrive:
    found = next((d for d in DRIVEN if d == typed), None)
    if found is None:
        raise refuse("cam drive", "{given} is none.", "Use one of: {known}.", given=typed[:20], known=", ".join(DRIVEN))
    return found


def _side(choices: Mapping[str, str], follower: str, valves: str, *, coated: bool) -> Side:
    known: tuple[Follower, ...] = get_args(Follower)
    named, _at, end = follower.partition(" at ")
    kind = next((f for f in known if f == named), None)
    if kind is None:
        raise refuse("followers", "Nothing opens the valves yet.", "Pick one of the pictures.")
    levered = kind not in ("bucket_over", "bucket_under")
    ratio = choices.get("ratio", "").strip() if levered else ""
    return Side(
        valves=_count(choices, valves, 1, 3),
        follower=kind,
        lash_read="cam" if choices.get("lash_read") == "cam" and levered else "valve",
        ratio=_ratio(ratio) if ratio else 1.0,
        coated=coated,
        screw_end="cam" if end == "cam" else "valve",
    )


def _ratio(text: str) -> float:
    """A lever ratio as a number, or as its two arms."""
    longer, slash, shorter = text.partition("/")
    top = read(longer.strip(), "number", where="lever ratio").value
    below = read(shorter.strip(), "number", where="lever ratio").value if slash else 1.0
    if below <= 0 or not 0.5 <= top / below <= 3.0:
        raise refuse("lever ratio", "A ratio of {given} is none.", "It is valve lift by cam lift, usually 1 to 2.",
                     given=text)  # fmt: skip
    return top / below


def _arrangement(cylinders: int, typed: str) -> Arrangement:
    if cylinders == 1:
        return "single"
    return "vee" if typed == "vee" else "inline"


def _count(choices: Mapping[str, str], key: str, least: int, most: int) -> int:
    text = choices.get(key, "").strip() or "1"
    if not text.isdecimal() or not least <= int(text) <= most:
        raise refuse(key.replace("_", ", "), "{given} is none.", "Use {least} to {most}.",
                     given=text[:20], least=least, most=most)  # fmt: skip
    return int(text)


def take_in(bench: Workbench, cells: Mapping[str, str], owner: str, hand: Hand) -> str:
    """Open a job from what the intake page says; its number. Everything wrong is said at once."""
    problems: list[Problem] = []
    if not cells.get("engine_number", "").strip():
        problems.append(Problem(where="engine number", what=said("It is empty."),
                                remedy=said("Read it off the engine, not off the papers.")))  # fmt: skip
    ceiling = cells.get("ceiling", "").strip()
    book = cells.get("book", "")
    try:
        if ceiling:
            read(ceiling, "money", where="price ceiling")
        if book == "own":
            book = start_book(bench, dict(cells) | {"name": cells.get("family", "")})
        bench.book(book)
    except Refused as refused:
        problems += refused.problems
    if problems:
        raise Refused(problems)
    opened = JobOpened(
        number=cells.get("number", "").strip(),
        engine_number=cells["engine_number"].strip(),
        scope=cells.get("scope", "valves"),
        machine=cells.get("machine", "").strip(),
        hours=cells.get("hours", "").strip(),
        complaint=cells.get("complaint", "").strip(),
        owner=owner,
        altitude=cells.get("altitude", "").strip(),
    )
    number = open_known(bench, opened, book, hand, another_meter=bool(cells.get("another_meter")))
    if ceiling:
        currency = bench.shelf().rules.currency
        bench.record(number, (EstimateApproved(amount=ceiling, currency=currency, by="owner, at intake"),), hand)
    return number
