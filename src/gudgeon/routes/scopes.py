"""How much a job asks for: a valves job asks for lash and shims and nothing else, and can be widened at any time."""

from __future__ import annotations

from collections.abc import Mapping

VALVES = ("lash", "timing_marks")
LEAK = ("leak_down", "compression")
CYLINDER = (
    "barrel_flatness",
    "bore_diameter",
    "out_of_round",
    "taper",
    "piston_diameter",
    "piston_clearance",
    "ring_gap",
    "side_clearance",
    "pin_diameter",
    "pin_bore",
    "pin_piston_clearance",
    "small_end_bore",
    "pin_rod_clearance",
    "big_end_play",
    "squish",
)
HEAD = (
    "stem_diameter",
    "guide_bore",
    "stem_guide_clearance",
    "wobble",
    "stem_runout",
    "valve_margin",
    "seat_width",
    "contact",
    "seat_runout",
    "tip_height",
    "tip_projection",
    "installed_height",
    "recession",
    "spring_free_length",
    "spring_load",
    "spring_tilt",
    "seal_test",
    "head_flatness",
    "lobe_height",
    "base_circle",
    "journal_diameter",
    "journal_clearance",
    "cam_runout",
    "cam_axial_play",
    "follower_bore",
    "shaft_diameter",
    "follower_clearance",
    "chain_length",
    "tensioner_travel",
    "valve_to_piston",
    "oil_at_cams",
)

#: Scope by key: what it is called, and the characteristics it asks for.
SCOPES: Mapping[str, tuple[str, tuple[str, ...]]] = {
    "valves": ("valves: lash and shims", VALVES),
    "leak test": ("leak test", ("lash", *LEAK)),
    "cylinder": ("cylinder", (*VALVES, *CYLINDER, "oil_at_cams", *LEAK)),
    "head out": ("head out", (*VALVES, *HEAD, *LEAK)),
    "whole top end": ("whole top end", (*VALVES, *HEAD, *CYLINDER, *LEAK)),
}


def asks_for(scope: str) -> tuple[str, ...]:
    """The characteristics a scope asks for; an unknown scope asks for all."""
    return SCOPES.get(scope, SCOPES["whole top end"])[1]
