"""What wears over hours, as screens and papers draw it."""

from __future__ import annotations

from gudgeon.figures.wear import WearSpec
from gudgeon.plans.kinds.interval import LEVEL, Due, dues
from gudgeon.plans.shape import Given
from gudgeon.view.record import WearView

#: So many are drawn: those due first.
MOST = 6
#: Of other parts, so many: those watched longest.
OTHERS = 12
#: The edge of what may be read is bent: so many places of it are drawn.
BENDS = 3


def wear_views(given: Given) -> tuple[WearView, ...]:
    """What is due first, with the lines by which it is."""
    return tuple(_view(due) for due in dues(given)[0] if due.fit is not None)[:MOST]


def _view(due: Due) -> WearView:
    v = due.verdict
    return WearView(address=v.address, name=v.name, due=float(int(due.at)), words=str(due.because), drawn=_drawn(due))


def _drawn(due: Due) -> WearSpec:
    """The part's readings, the line through them to the hours it is due, and where the next reading may lie by then."""
    v, fit, life = due.verdict, due.fit, due.known[due.which]
    assert fit is not None
    last, (_n, x_mean, y_mean) = life[-1].hours, fit.means[due.which]
    others = sorted((o for n, o in enumerate(due.known) if n != due.which), key=lambda o: o[0].hours - o[-1].hours)
    least, most = due.walls
    above = most is not None and (least is None or fit.slope > 0.0)
    steps = tuple(last + (due.at - last) * n / BENDS for n in range(BENDS + 1)) if due.at > last else ()
    return WearSpec(
        title=v.name,
        unit=v.unit,
        places=v.places,
        now=tuple((r.hours, r.value) for r in life),
        reach=tuple(2.0 * r.u for r in life),
        others=tuple(tuple((r.hours, r.value) for r in other) for other in others[:OTHERS]),
        line=tuple((h, y_mean + fit.slope * (h - x_mean)) for h in (life[0].hours, due.at)),
        edge=tuple((h, fit.next_reading(due.which, h, LEVEL)[above]) for h in steps),
        low=least,
        high=most,
        due=float(int(due.at)),
    )
