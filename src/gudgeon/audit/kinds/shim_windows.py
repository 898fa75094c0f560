"""Shims come in steps: where the window is narrower than a step, some valves have no shim at all."""

from collections.abc import Iterable

from gudgeon.audit.shape import Finding, found, mm
from gudgeon.book.book import Rows
from gudgeon.shelf.parse import Shelf

KEY = "shim_windows"
NAME = "shim steps can hit every window"
WHY = "The lash then needs a ground shim, a machined tip or another valve, and the plan must say so beforehand."


def check(rows: Rows, shelf: Shelf | None) -> Iterable[Finding]:
    """The window at the valve against the step; where lash is read at the cam, the lever widens it."""
    if rows.layout is None:
        return
    for side, layout in (("in", rows.layout.intake), ("ex", rows.layout.exhaust)):
        shims, row = rows.shims_for(side), rows.limit_for("lash", f"c1.{side}")
        if shims is None or row is None or row.least is None or row.most is None:
            continue
        lever = layout.ratio if layout.lash_read == "cam" else 1.0
        window, step = (row.most - row.least) * lever, shims.step.value
        if window < step - 1e-9:
            share = 1.0 - window / step
            yield found("warning", row.line, row.address, "Steps of {step} miss some windows of {window}.",
                        "About {share} of the valves will have no shim on sale: look at the window and the step.",
                        f"({row.most:g} − {row.least:g}) × {lever:g} = {mm(window)} < {shims.step}",
                        step=str(shims.step), window=mm(window), share=f"{share:.0%}")  # fmt: skip
