"""The hands of the technician: what a gauge shows him, what he writes, checked as the bench checks it."""

from __future__ import annotations

from collections import Counter
from collections.abc import Iterable
from itertools import count
from random import Random

from tests.torture.worn import Worn

from gudgeon.job import codec
from gudgeon.job.entries import Body, GaugePinned, OperationDone, PartFitted, Reading, Typed
from gudgeon.measurands.catalogue import MEASURANDS
from gudgeon.plans.shape import Given, Plan
from gudgeon.problem import Refused
from gudgeon.shelf.gauges import GaugeCard
from gudgeon.workbench.asks import AskView
from gudgeon.workbench.bench import Hand, Workbench
from gudgeon.workbench.build import Worked
from gudgeon.workbench.checks import check
from gudgeon.workbench.next import _possible
from gudgeon.workbench.slips import Asked

JOB, HAND = "T-1", Hand(by="k1", bench="bench")
#: Nobody reads one place more often without anything done between.
READ_MOST = 8


class Hands:
    """One engine on one bench: reading and writing."""

    def __init__(self, bench: Workbench, engine: Worn, random: Random) -> None:
        self.bench, self.engine, self.random = bench, engine, random
        self.nth, self.ids, self.refused = count(10), count(1), ""
        self.read = Counter[tuple[object, ...]]()

    @property
    def worked(self) -> Worked:
        return self.bench.worked(JOB)

    @property
    def given(self) -> Given:
        return self.worked.given

    @property
    def head(self) -> int:
        return self.bench.ledgers.head(JOB).seq

    def plan(self, key: str) -> Plan | None:
        return next((p for p in self.worked.plans if p.key == key), None)

    # -- reading ---------------------------------------------------------------------------------------------------------

    def measure(self, asks: Iterable[AskView]) -> bool:
        """Everything that is asked for and can be reached; the same place not for ever."""
        state, wanted = self.given.state, list[Body]()
        for ask in (a for a in asks if _possible(state, a)):
            key = (ask.measurand, ask.place, ask.point)
            self.read[key] += 1
            if self.read[key] <= READ_MOST:
                wanted.append(self.reading(ask))
        return self.land(*wanted)

    def reading(self, ask: AskView) -> Reading:
        """What the gauge shows: the true size, its error, and its resolution."""
        kind = MEASURANDS[ask.measurand]
        if kind.dimension == "words":
            word = self.engine.word(self.given, ask.measurand, ask.place)
            return Reading(
                measurand=ask.measurand, where=ask.place, point=ask.point, text=word, unit=kind.unit, gauge="eye"
            )
        size = self.engine.size(self.given, ask.measurand, ask.place, ask.point)
        card = self.gauge(ask, size)
        error = card.permissible_error.value if card.permissible_error and not kind.pair else 0.0
        size = max(0.0, size + self.random.gauss(0.0, error / 3.0))
        step = card.resolution.value if card.resolution else 0.001
        text = f"{round(size / step) * step:.{3 if step < 0.01 else 2}f}"
        if kind.pair and card.kind in ("feeler", "straightedge"):
            leaf = int(size * 100) / 100
            least = card.low.value if card.low else 0.0
            text = f"{leaf:.2f}/{leaf + 0.01:.2f}" if leaf >= least else "no gap"
        return Reading(
            measurand=ask.measurand, where=ask.place, point=ask.point, text=text, unit=kind.unit, gauge=card.id
        )

    def gauge(self, ask: AskView, size: float) -> GaugeCard:
        """The finest that reaches, after the usual one did not settle it."""
        kind = MEASURANDS[ask.measurand]
        cards = self.given.shelf.gauges
        able = [c for k in kind.gauges for c in cards if c.kind == k and (kind.pair or c.covers(size))]
        often = self.read[ask.measurand, ask.place, ask.point] > 2
        return min(able, key=lambda c: c.u(size)) if often and able else able[0]

    # -- writing ---------------------------------------------------------------------------------------------------------

    def land(self, *bodies: Body) -> bool:
        """Entries of one breath, each checked as the bench checks it against what stood before them."""
        given, before, last = self.given, self.head, ""
        for body in bodies:
            if isinstance(body, PartFitted) and not body.part:
                self.append(PartFitted(part=last, slot=body.slot))
                continue
            checked = self.checked(body, given)
            if checked is not None:
                last = self.append(checked)
        return self.head > before

    def checked(self, body: Body, given: Given) -> Body | None:
        """A body that passed; a slip that is asked is looked at again and confirmed, a refusal is remembered."""
        card = self.bench.card(body.gauge, given.state) if isinstance(body, Reading) else None
        try:
            check(body, given, card)
        except Asked as asked:
            assert isinstance(body, Reading)
            text = {f: getattr(body, f) for f in body.__struct_fields__} | {"confirmed": (asked.slip.key,)}
            return None if body.confirmed else self.checked(Reading(**text), given)
        except Refused as refused:
            self.refused = str(refused)
            return None
        if card is not None and card.id not in self.pinned(given):
            self.append(GaugePinned(gauge=card.id, card=card.pinned()))
        return body

    def pinned(self, given: Given) -> set[str]:

        here = {e.typed.body.gauge for e in self.bench.loaded(JOB).entries if isinstance(e.typed.body, GaugePinned)}
        return here | set(given.state.gauges)

    def append(self, body: Body) -> str:
        head = self.head
        typed = Typed(id=f"00000000-0000-4000-9000-{next(self.ids):012d}", typed_at=self.bench.clock.now(), by=HAND.by,
                      bench=HAND.bench, nth=next(self.nth), seen=head, body=body)  # fmt: skip
        self.bench.ledgers.append(JOB, codec.encode(typed), entry_id=typed.id, account=HAND.account, on_head=None)
        return typed.id


def done(operation: str, place: str, **detail: str) -> OperationDone:
    extra = {"turn_forwards": {"turns": "2"}, "rag_in": {"count": "1"}, "rag_out": {"count": "1"}}
    return OperationDone(operation=operation, where=place, detail=extra.get(operation, {}) | detail)
