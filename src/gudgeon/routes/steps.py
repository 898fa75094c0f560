"""The steps of taking a top end apart and putting it together, in their order, with the holds between them; as data.

Source of the order: common practice, no source; the tensioner comes out before any holder and is released after all.
"""

from __future__ import annotations

from dataclasses import dataclass
from typing import Literal

from gudgeon.routes.holds import BARREL, DOWN, HEAD_OUT

Phase = Literal["strip", "build"]
#: always · only where a joint of it was opened or a plan moves a shim there · only where the cams hang on a chain or belt.
If = Literal["always", "moved", "driven"]


@dataclass(frozen=True, slots=True, kw_only=True)
class Step:
    """One operation of the route: the joint it opens or closes, the scopes that take it, the holds met after it.

    `carries` names the plan that must be carried out before it, `before` the holds met between the two.
    """

    operation: str
    phase: Phase
    joint: str = ""
    scopes: tuple[str, ...] = DOWN
    only: If = "always"
    holds: tuple[str, ...] = ()
    before: tuple[str, ...] = ()
    carries: str = ""


WITH_VALVES = ("valves", *DOWN)
#: Holds met before anything is touched.
FIRST_HOLDS = ("H0", "H0b")

STEPS: tuple[Step, ...] = (
    Step(operation="open_cover", phase="strip", joint="cover", scopes=WITH_VALVES),
    Step(operation="plug_out", phase="strip", joint="plug", scopes=("leak test", *DOWN), holds=("H1", "H1b")),
    Step(
        operation="remove_tensioner", phase="strip", joint="tensioner", scopes=WITH_VALVES, only="driven", holds=("H2",)
    ),
    Step(operation="open_sprocket", phase="strip", joint="sprocket"),
    Step(operation="open_cam_holder", phase="strip", joint="holder", scopes=WITH_VALVES, only="moved", holds=("H3",)),
    Step(operation="loosen_head", phase="strip", joint="head"),
    Step(operation="loosen_base", phase="strip", joint="base", scopes=BARREL),
    Step(operation="rag_in", phase="strip", scopes=BARREL),
    Step(operation="open_keepers", phase="strip", joint="keepers", scopes=HEAD_OUT, holds=("H4", "H5", "H5b")),
    Step(
        operation="seat_keepers",
        phase="build",
        joint="keepers",
        scopes=HEAD_OUT,
        carries="machining",
        before=("H6",),
        holds=("H8", "H7a"),
    ),
    Step(operation="rag_out", phase="build", scopes=BARREL),
    Step(operation="tighten_base", phase="build", joint="base", scopes=BARREL, holds=("H7b",)),
    Step(operation="tighten_head", phase="build", joint="head", holds=("H9", "H7")),
    Step(operation="tighten_sprocket", phase="build", joint="sprocket"),
    Step(
        operation="tighten_cam_holder", phase="build", joint="holder", scopes=WITH_VALVES, only="moved", carries="shims"
    ),
    Step(operation="release_tensioner", phase="build", joint="tensioner", scopes=WITH_VALVES, only="driven"),
    Step(
        operation="turn_forwards",
        phase="build",
        scopes=WITH_VALVES,
        only="moved",
        before=("H9a",),
        holds=("H9b", "H11", "H10"),
    ),
    Step(operation="tighten_cover", phase="build", joint="cover", scopes=WITH_VALVES),
    Step(operation="fill_fluids", phase="build", holds=("H11b", "H12a")),
    Step(operation="plug_in", phase="build", joint="plug", scopes=("leak test", *DOWN), holds=("H12",)),
)
LAST_HOLDS = ("H12b", "H13")
