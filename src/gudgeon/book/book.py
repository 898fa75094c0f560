"""The book of one engine family: what the maker says, as rows, with the questions others ask of it."""

from __future__ import annotations

from hashlib import sha256

from pydantic import ConfigDict, Field

from gudgeon.anatomy import Layout
from gudgeon.book import judged
from gudgeon.book.engine import Aims, CamEvent, Caution, Geometry, Materials, Seat, ShimSystem, Spring
from gudgeon.book.fasteners import FastenerRow
from gudgeon.book.limits import LimitRow
from gudgeon.book.own import OwnCheckRow, OwnMeasureRow, OwnPartRow, OwnStepRow
from gudgeon.book.parts import PartRow
from gudgeon.shelf.typed import Typed


def digest(text: str) -> str:
    """The SHA-256 of a book's text: what a job pins."""
    return sha256(text.encode("utf-8")).hexdigest()


class Rows(Typed):
    """Everything of a book that could be read; an audit looks at this even while other rows are still wrong."""

    model_config = ConfigDict(str_strip_whitespace=False)

    name: str = ""
    edition: str = "1"
    note: str = ""
    layout: Layout | None = None
    geometry: Geometry = Geometry()
    cam_events: tuple[CamEvent, ...] = ()
    seats: tuple[Seat, ...] = ()
    springs: tuple[Spring, ...] = ()
    shim_systems: tuple[ShimSystem, ...] = ()
    aims: Aims = Aims()
    materials: Materials = Materials()
    limits: tuple[LimitRow, ...] = ()
    fasteners: tuple[FastenerRow, ...] = ()
    parts: tuple[PartRow, ...] = ()
    cautions: tuple[Caution, ...] = ()
    own_parts: tuple[OwnPartRow, ...] = ()
    own_measures: tuple[OwnMeasureRow, ...] = ()
    own_steps: tuple[OwnStepRow, ...] = ()
    own_checks: tuple[OwnCheckRow, ...] = ()
    text: str = Field(default="", repr=False)

    def limit_for(self, key: str, place: str) -> LimitRow | None:
        """The limit of a characteristic at a place: the row that names the place, else its side or ring, else any."""
        best: LimitRow | None = None
        for row in self.limits:
            if row.of == key and row.rank(place) > (best.rank(place) if best else 0):
                best = row
        return best

    def seat(self, side: str) -> Seat | None:
        """How the seats of a side are cut."""
        return next((s for s in self.seats if s.side == side), None) or next(
            (s for s in self.seats if not s.side), None
        )

    def spring(self, side: str) -> Spring | None:
        """The spring of a side."""
        own = next((s for s in self.springs if s.side == side), None)
        return own or next((s for s in self.springs if not s.side), None)

    def cam(self, side: str) -> CamEvent | None:
        """The cam events of a side."""
        return next((c for c in self.cam_events if c.side == side), None)

    def shims_for(self, side: str) -> ShimSystem | None:
        """The shims that fit a side."""
        own = next((s for s in self.shim_systems if s.side == side), None)
        return own or next((s for s in self.shim_systems if not s.side), None)

    @property
    def shims(self) -> ShimSystem | None:
        """The shims of an engine that has one kind, or the first of several kinds."""
        return self.shim_systems[0] if self.shim_systems else None

    def aim(self, side: str) -> float | None:
        """Where the lash of a side is aimed, in mm, if the book says so."""
        aim = self.aims.intake if side == "in" else self.aims.exhaust
        return aim.value if aim else None

    @property
    def fits(self) -> tuple[LimitRow, ...]:
        """The limits of what follows from several parts: clearances, taper, out-of-round."""
        return tuple(row for row in self.limits if row.of in judged.DERIVED)

    def fasteners_at(self, place: str, joint: str) -> tuple[FastenerRow, ...]:
        """The fasteners of a joint at a place."""
        return tuple(f for f in self.fasteners if f.holds(place, joint))

    def part(self, number: str) -> PartRow | None:
        """The part of this number."""
        return next((p for p in self.parts if p.number == number), None)

    def parts_in(self, slot: str) -> tuple[PartRow, ...]:
        """Every part number that may stand in a slot, in the book's order."""
        return tuple(p for p in self.parts if slot in p.slots)

    def looped_kits(self) -> frozenset[str]:
        """Kits that hold themselves, straight or over other kits: nobody can order such a one, its pieces are bought singly."""
        above = {p.number: p.kit for p in self.parts if p.kit}
        found = set()
        for kit in dict.fromkeys(above.values()):
            at, seen = kit, set[str]()
            while at in above and at not in seen:
                seen.add(at)
                at = above[at]
            found |= {kit} if at in seen else set()
        return frozenset(found)

    @property
    def sha256(self) -> str:
        """The digest of the text."""
        return digest(self.text)


class Book(Rows):
    """A whole book: every row could be read."""

    layout: Layout

    def coated(self, side: str) -> bool:
        """Whether the valves of a side are coated: no lapping, no grinding."""
        return (self.layout.intake if side == "in" else self.layout.exhaust).coated

    @property
    def plated(self) -> bool:
        """Whether the bore is plated: no boring, no ordinary hone."""
        return self.layout.bore == "plated"
