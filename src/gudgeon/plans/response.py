"""What came of the last round: the lash that was read against the lash that was planned, and what would explain it.

*Contradicts* is said beyond three standard uncertainties only: one 0.05 step says little of a lever ratio.
"""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from dataclasses import dataclass
from itertools import combinations

from gudgeon.job.state import Taken
from gudgeon.metrology.known import Known
from gudgeon.plans.evidence import Evidence
from gudgeon.plans.lashes import Room, Window, room_of

#: Beyond this many standard uncertainties a reading contradicts what was expected.
CONTRADICTS = 3.0


@dataclass(frozen=True, slots=True, kw_only=True)
class Response:
    """The last reading of a valve against what older evidence said of the shim that stood there."""

    valve: str
    before: Room
    expected: Known
    read: Known
    shim: str
    taken: Taken

    @property
    def off(self) -> Known:
        """Read less expected."""
        return self.read.plus(self.expected, -1.0)

    @property
    def contradicts(self) -> bool:
        """Whether chance does not explain it."""
        return abs(self.off.value) > CONTRADICTS * self.off.u


def responses(evidence: Evidence, windows: Mapping[str, Window]) -> tuple[Response, ...]:
    """Where a shim was fitted on a plan and its lash was read after that."""
    return tuple(r for v, window in windows.items() if (r := _response(evidence, v, window)) is not None)


def _response(evidence: Evidence, valve: str, window: Window) -> Response | None:
    last = next((t for t in evidence.at("lash", valve) if t.predicts and not t.warm), None)
    read = evidence.number(last) if last else None
    if last is None or read is None:
        return None
    before = room_of(evidence, valve, window, before=last)
    shim = last.held(f"{valve}/shim")
    thickness = evidence.thickness(shim).known
    if before.room is None or thickness is None:
        return None
    if before.tip is None and _settled_since(before):
        return None
    return Response(valve=valve, before=before, expected=before.lash(thickness), read=read, shim=shim, taken=last)


def _settled_since(before: Room) -> bool:
    """Whether the train was run warm since the older lash: then it may have moved by itself."""
    taken = before.lash_taken
    return taken is not None and any(r.feature.endswith(" settled") for r in taken.reasons)


def exchanged(evidence: Evidence, found: Sequence[Response]) -> tuple[tuple[Response, Response], ...]:
    """Pairs that contradict and that would be as read if their two shims stood in each other's place."""
    odd = [r for r in found if r.contradicts]
    return tuple((a, b) for a, b in combinations(odd, 2) if _would_be(evidence, a, b) and _would_be(evidence, b, a))


def _would_be(evidence: Evidence, one: Response, other: Response) -> bool:
    thickness = evidence.thickness(other.shim).known
    if thickness is None:
        return False
    off = one.read.plus(one.before.lash(thickness), -1.0)
    return abs(off.value) <= CONTRADICTS * off.u


def read_twice(evidence: Evidence, one: Response) -> bool:
    """Whether the same lash was read again over the same shim: then it is believed, whatever older evidence said."""
    for taken in evidence.at("lash", one.valve):
        again = evidence.number(taken) if taken.predicts and not taken.warm and taken is not one.taken else None
        if again is not None and taken.held(f"{one.valve}/shim") == one.shim:
            apart = again.plus(one.read, -1.0)
            if abs(apart.value) <= CONTRADICTS * apart.u:
                return True
    return False
