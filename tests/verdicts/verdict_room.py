"""A small invented engine, its gauges, and a ledger builder: what the tests of verdicts read and judge."""

from __future__ import annotations

from dataclasses import dataclass, field

from gudgeon.anatomy import Anatomy, expand
from gudgeon.book.book import Book
from gudgeon.book.parse import parse_book
from gudgeon.job import codec
from gudgeon.job.entries import (
    Body,
    Entry,
    GaugePinned,
    GoNoGo,
    JobOpened,
    OperationDone,
    PartFitted,
    PartReceived,
    Reading,
    TorqueApplied,
    Typed,
)
from gudgeon.job.replay import replay
from gudgeon.shelf.gauges import GaugeCard
from gudgeon.shelf.parse import Shelf
from gudgeon.shelf.rules import Rules
from gudgeon.verdicts.evaluate import evaluate
from gudgeon.verdicts.shape import Judged, Verdict

HEAD = """
[book]
name = "Fellrigg 212"
[layout]
cylinders = 1
arrangement = "single"
cams = "two"
cam_drive = "chain"
holders = "per cam"
bore = "iron"
[layout.in]
valves = 1
follower = "bucket_over"
[layout.ex]
valves = 1
follower = "bucket_over"
"""
SIX = tuple(f"{level} {axis}" for level in ("top", "middle", "bottom") for axis in "xy")


def card(id: str, kind: str, error: str = "0.002 mm", repeat: str = "0.001 mm", **more: str) -> GaugeCard:
    """A gauge's card, invented."""
    base = {"id": id, "kind": kind, "name": f"{kind} {id}", "unit": "mm", "source": "invented",
            "permissible_error": error, "repeatability": repeat, "resolution": "0.001 mm"}  # fmt: skip
    if "certificate_u" in more:
        del base["permissible_error"]
    return GaugeCard.model_validate({k: v for k, v in (base | more).items() if v != ""})


FEELER = card("F", "feeler", "0.005 mm", "0.003 mm", resolution="0.01 mm", low="0.03 mm", high="1 mm")
MIC = card("M", "micrometer")
HOLE = card("H", "small-hole gauge")
EYE = card("eye", "eye", "", "", unit="", resolution="")


@dataclass
class Room:
    """A job in the making; `book` is the text of the limits, `cards` what is on the shelf."""

    book: str = ""
    cards: tuple[GaugeCard, ...] = (FEELER, MIC, HOLE, EYE)
    rules: dict[str, str] = field(default_factory=dict)
    altitude: str = ""
    head: str = HEAD
    entries: list[Entry] = field(default_factory=list)
    day: str = "2033-05-04"

    def __post_init__(self) -> None:
        self.parsed: Book = parse_book(self.head + self.book)
        self.anatomy: Anatomy = expand(self.parsed.layout)
        self.pinned: set[str] = set()
        self.add(JobOpened(number="7", engine_number="K", scope="whole top end", altitude=self.altitude))

    def add(self, body: Body) -> str:
        """One entry, through the codec as a bench would send it."""
        seq = len(self.entries) + 1
        typed = Typed(
            id=f"e{seq}", typed_at=f"{self.day}T08:00:00Z", by="k", bench="b", nth=seq, seen=seq - 1, body=body
        )
        line = codec.landed_line(codec.encode(typed), seq=seq, landed_at=f"{self.day}T08:00:01Z", account="a")
        self.entries.append(codec.decode(line))
        return typed.id

    def pin(self, gauge: str) -> None:
        """The gauge's card, once."""
        known = next((c for c in self.cards if c.id == gauge), None)
        if known is not None and gauge not in self.pinned:
            self.pinned.add(gauge)
            self.add(GaugePinned(gauge=gauge, card=known.pinned()))

    def read(
        self, measurand: str, where: str, text: str, gauge: str, point: str = "", unit: str = "mm", **more: str
    ) -> int:
        """A reading; its number."""
        self.pin(gauge)
        self.add(Reading(measurand=measurand, where=where, point=point, text=text, unit=unit, gauge=gauge, **more))  # type: ignore[arg-type]
        return len(self.entries)

    def six(self, measurand: str, where: str, texts: str, gauge: str) -> None:
        """Readings at six places, in their order."""
        for point, text in zip(SIX, texts.split(), strict=False):
            self.read(measurand, where, text, gauge, point)

    def pin_gauge(
        self, where: str, size: str, enters: bool, point: str = "top x", measurand: str = "guide_bore"
    ) -> None:
        """A pin of a size that enters or does not."""
        self.pin("H")
        self.add(GoNoGo(measurand=measurand, where=where, point=point, gauge="H", size=size, unit="mm", enters=enters))

    def do(self, operation: str, where: str) -> None:
        """Work."""
        self.add(OperationDone(operation=operation, where=where))

    def renew(self, slot: str) -> str:
        """A new part, fitted."""
        part = self.add(PartReceived(kind=self.anatomy.slots[slot].kind))
        self.add(PartFitted(part=part, slot=slot))
        return part

    def torque(self, joint: str) -> None:
        """A joint at its final stage."""
        self.add(TorqueApplied(joint=joint, stage=1, of=1, setting="10", unit="N·m", wrench="W"))

    def judge(self, cards: tuple[GaugeCard, ...] | None = None) -> Judged:
        """All verdicts."""
        shelf = Shelf(gauges=self.cards if cards is None else cards)
        return evaluate(replay(self.entries, self.anatomy), self.parsed, Rules.from_pinned(self.rules), shelf)

    def at(self, key: str, place: str) -> Verdict:
        """One verdict."""
        found = self.judge().at(key, place)
        assert found is not None, f"{key}@{place} is not judged"
        return found

    def word(self, key: str, place: str) -> str:
        """Its word."""
        return self.at(key, place).verdict


def limit(of: str, **cells: str | tuple[str, str]) -> str:
    """A limit row as TOML."""
    lines = ["[[limit]]", f'of = "{of}"']
    for key, value in cells.items():
        text = f'"{value}"' if isinstance(value, str) else "[" + ", ".join(f'"{v}"' for v in value) + "]"
        lines.append(f"{key} = {text}")
    return "\n" + "\n".join(lines) + "\n"
