"""Every check of a book, in the order in which a technician would care."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import replace

from gudgeon.audit.kinds import (
    aim_inside,
    angle_bolts,
    bolt_order,
    both_sides,
    cam_duration,
    forbidden_work,
    limit_at_edge,
    look_alikes,
    new_inside_limit,
    no_number,
    oil_and_locker,
    plausible_sizes,
    printed_fits,
    seat_angles,
    shim_count,
    shim_marks,
    shim_windows,
    slots_and_parts,
    spring_numbers,
    squish_gap,
    thread_state,
    torque,
    unit_columns,
    units_mixed,
    volumes,
    wobble_method,
    wrench_reach,
)
from gudgeon.audit.shape import Check, Finding
from gudgeon.book.parse import read_rows
from gudgeon.problem import Problem
from gudgeon.shelf.parse import Shelf

CHECKS: Mapping[str, Check] = {
    check.KEY: check
    for check in (
        unit_columns,
        new_inside_limit,
        limit_at_edge,
        plausible_sizes,
        printed_fits,
        no_number,
        wobble_method,
        units_mixed,
        both_sides,
        shim_windows,
        shim_count,
        shim_marks,
        aim_inside,
        torque,
        thread_state,
        oil_and_locker,
        angle_bolts,
        bolt_order,
        wrench_reach,
        forbidden_work,
        volumes,
        squish_gap,
        cam_duration,
        seat_angles,
        spring_numbers,
        slots_and_parts,
        look_alikes,
    )
}


def audit(text: str, shelf: Shelf | None = None, name: str = "book") -> tuple[Finding | Problem, ...]:
    """Everything that is wrong with a book: what could not be read, then what contradicts, by line.

    The checks look at the rows that could be read, even while others are still wrong.
    """
    rows, problems = read_rows(text, name)
    found = [
        replace(finding, where=f"{name}:{finding.line}: {finding.where}", check=check.KEY)
        for check in CHECKS.values()
        for finding in check.check(rows, shelf)
    ]
    return (*problems, *sorted(found, key=lambda f: (f.line, f.severity)))


def not_checked(shelf: Shelf | None) -> tuple[str, ...]:
    """The checks that could not be made: without wrenches on a shelf no torque can be compared with them."""
    if shelf is not None and shelf.wrenches:
        return ()
    return tuple(check.NAME for check in CHECKS.values() if getattr(check, "NEEDS_SHELF", False))
