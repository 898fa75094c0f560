"""A bench sheet that was written on paper, as fields in its order: gauge by gauge, one field for each blank."""

from __future__ import annotations

from msgspec import Struct

from gudgeon.measurands.own import measurands
from gudgeon.plans.shape import Given
from gudgeon.verdicts.gather import about
from gudgeon.view.job import JobHead, LedgerHead
from gudgeon.view.record import BlankRow, BlankView
from gudgeon.workbench.asks import point_words
from gudgeon.workbench.bench import Workbench
from gudgeon.workbench.blanks import blanks_of
from gudgeon.workbench.measuring import GaugeView, gauges_of


class FieldView(Struct, frozen=True, kw_only=True):
    """One blank: where it is, what the book says, and what stands there now."""

    place: str
    point: str
    where: str
    book: str
    stands: str


class KindView(Struct, frozen=True, kw_only=True):
    """What is read: its gauges, the one in hand, and its fields in the order of the paper."""

    measurand: str
    name: str
    unit: str
    ask: str
    caution: str
    words: tuple[str, ...]
    gauges: tuple[GaugeView, ...]
    gauge: GaugeView | None
    fields: tuple[FieldView, ...]


class SheetView(Struct, frozen=True, kw_only=True):
    """The whole sheet, grouped by the kind of gauge."""

    job: JobHead
    ledger: LedgerHead
    groups: tuple[tuple[str, tuple[KindView, ...]], ...]


def sheet_of(bench: Workbench, number: str) -> SheetView:
    """The sheet of a job, as it is printed."""
    worked = bench.worked(number)
    stands = _stands(worked.given)
    found: dict[str, list[KindView]] = {}
    for blank in blanks_of(worked.given):
        found.setdefault(blank.gauge, []).append(_kind(worked.given, blank, stands))
    groups = tuple((gauge, tuple(kinds)) for gauge, kinds in found.items())
    return SheetView(job=worked.view.job, ledger=worked.view.ledger, groups=groups)


def _stands(given: Given) -> dict[tuple[str, str, str], str]:
    """What counts now, by measurand, part or place, and point."""
    taken = [t for t in given.state.readings if t.counts]
    return {(t.fact.measurand, t.part or t.fact.where, t.fact.point): getattr(t.fact, "text", "") for t in taken}


def _kind(given: Given, blank: BlankView, stands: dict[tuple[str, str, str], str]) -> KindView:
    cards, habit = gauges_of(given, blank.measurand)
    points = measurands(given.state.anatomy)[blank.measurand].points
    fields = tuple(
        FieldView(
            place=row.place,
            point=key,
            where=", ".join(w for w in (row.where, point_words(key)) if w),
            book=_book(row),
            stands=stands.get((blank.measurand, about(given.state, blank.measurand, row.place), key), ""),
        )
        for row in blank.rows
        for key in points(given.state.anatomy, row.place)
    )
    return KindView(
        measurand=blank.measurand,
        name=blank.name,
        unit=habit.unit if habit else blank.unit,
        ask=blank.ask,
        caution=blank.caution,
        words=blank.words,
        gauges=cards,
        gauge=habit,
        fields=fields,
    )


def _book(row: BlankRow) -> str:
    found = " · ".join(w for w in (row.new, row.limit) if w)
    return f"{found} ({row.page})" if found and row.page else found
