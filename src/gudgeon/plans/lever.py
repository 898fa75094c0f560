"""What the last round teaches: the lever ratio from what shims did to lashes, and likely causes where one contradicts.

One 0.05 step says little of a ratio: lash 0.03 ± 0.004 gives it to about ±14 %. So the book's ratio stays the beginning, and
each response moves it only as far as it is better known.
"""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from dataclasses import dataclass, replace

from gudgeon.anatomy import say
from gudgeon.plans.evidence import Evidence
from gudgeon.plans.lashes import Window
from gudgeon.plans.response import CONTRADICTS, Response
from gudgeon.problem import Said, said

#: How well the ratio of a book or of the arms is known, as a share of it (common practice, no source).
PRIOR_SHARE = 0.03
#: Two sizes this near are one for a likely cause, in mm of shim.
_NEAR_MM = 0.015


@dataclass(frozen=True, slots=True, kw_only=True)
class Lever:
    """The lever ratio of a side after the last round: its value, its standard uncertainty, and what it rests on."""

    side: str
    book: float
    ratio: float
    u: float
    responses: int


def posterior(prior: float, moves: Sequence[tuple[float, float, float]]) -> tuple[float, float]:
    """A lever ratio after shims were changed: from thickness taken out, lash gained at the cam, and its uncertainty.

    Lash gained = thickness · q with q = 1/i; q from the prior and the responses weighted by 1/u², so
    q = (q₀/u₀² + Σ d·y/u²) / (1/u₀² + Σ d²/u²), u_q² = 1 / (1/u₀² + Σ d²/u²), i = 1/q, u_i = u_q·i².
    Source: weighted least squares with a prior, GUM (JCGM 100:2008) 5.1.2 for its uncertainty.
    """
    start = 1.0 / prior
    weight = 1.0 / (PRIOR_SHARE * start) ** 2
    total = start * weight
    for thickness, gained, u in moves:
        if u > 0.0:
            weight += (thickness / u) ** 2
            total += thickness * gained / u**2
    share = total / weight
    return 1.0 / share, weight**-0.5 / share**2


def levers(evidence: Evidence, found: Sequence[Response]) -> tuple[Lever, ...]:
    """The ratio of each side whose lash is read at the cam and that answered; what contradicts teaches nothing."""
    layout, learned = evidence.state.anatomy.layout, []
    for name, side in (("in", layout.intake), ("ex", layout.exhaust)):
        if side.lash_read != "cam":
            continue
        mine = [r for r in found if f".{name}" in r.valve and not r.contradicts and r.before.read_mm is not None]
        moves = [(r.before.window.factor * (r.expected.value - was), r.read.value - was, r.off.u)
                 for r in mine if (was := r.before.read_mm) is not None]  # fmt: skip
        if moves:
            ratio, u = posterior(side.ratio, moves)
            learned.append(Lever(side=name, book=side.ratio, ratio=ratio, u=u, responses=len(moves)))
    return tuple(learned)


def corrected(windows: Mapping[str, Window], found: Sequence[Lever]) -> dict[str, Window]:
    """The windows with the ratio that was learned, and its doubt."""
    known = {lever.side: lever for lever in found}
    after = dict(windows)
    for valve, window in windows.items():
        lever = known.get("in" if ".in" in valve else "ex")
        if lever is not None:
            after[valve] = replace(window, factor=lever.ratio, u_factor=lever.u)
    return after


def words(found: Sequence[Lever]) -> tuple[Said, ...]:
    """What was learned."""
    sides = {"in": "intake", "ex": "exhaust"}
    return tuple(
        said("{side}: lever ratio {ratio:.3f} ± {u:.3f} after {n} responses, {book:g} by the book", side=sides[f.side],
             ratio=f.ratio, u=2.0 * f.u, n=f.responses, book=f.book)
        for f in found
    )  # fmt: skip


def mixed(found: Sequence[Response]) -> tuple[tuple[Response, Response], ...]:
    """Pairs that contradict and whose readings would each be right for the other valve: read at the wrong one."""
    odd = [r for r in found if r.contradicts]
    return tuple(
        (a, b)
        for n, a in enumerate(odd)
        for b in odd[n + 1 :]
        if _as_expected(a, b) and _as_expected(b, a)
    )  # fmt: skip


def _as_expected(one: Response, other: Response) -> bool:
    off = one.read.plus(other.expected, -1.0)
    return abs(off.value) <= CONTRADICTS * off.u


def likely(evidence: Evidence, one: Response, found: Sequence[Response]) -> tuple[Said, ...]:
    """What would explain a lash that contradicts, the likeliest first (common practice, no source)."""
    single = evidence.state.anatomy.layout.cylinders == 1
    causes = [
        said("the readings of {one} and {other} may be mixed: each is right for the other",
             one=say(a.valve, single=single), other=say(b.valve, single=single))
        for a, b in mixed(found) if one in (a, b)
    ]  # fmt: skip
    thickness = evidence.thickness(one.shim).known
    if thickness is not None:
        as_if = thickness.value - one.before.window.factor * one.off.value
        causes += _other_shim(evidence, one, as_if)
    if one.off.value < 0:
        causes.append(
            said("tighter than it can be: not at this cylinder's own compression TDC, or dirt under the shim")
        )
    else:
        causes.append(
            said("looser than it can be: dirt or carbon between face and seat, or the holder not at its final torque")
        )
    return (*causes, said("read again: a lash that comes out the same is believed"))


def _other_shim(evidence: Evidence, one: Response, as_if: float) -> list[Said]:
    """Another shim of this job that would give just this lash."""
    near = []
    for part, row in evidence.state.parts.items():
        if row.kind == "shim" and part != one.shim:
            known = evidence.thickness(part).known
            if known is not None and abs(known.value - as_if) <= _NEAR_MM:
                near.append(known.value)
    if near:
        return [
            said(
                "as if {size:.3f} stood there, which is a shim of this job: mixed up?",
                size=min(near, key=lambda s: abs(s - as_if)),
            )
        ]
    return [said("as if {size:.3f} stood there: measure the shim that is in", size=as_if)]
