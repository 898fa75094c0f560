"""A four-cylinder, sixteen-valve engine with every fit failing: the worst job that repair choice and replanning may meet."""

from __future__ import annotations

from collections.abc import Iterator
from importlib.resources import files

from gudgeon.anatomy import expand
from gudgeon.book.parse import parse_book
from gudgeon.job.entries import Body, Entry, GaugePinned, JobOpened, Reading, Typed
from gudgeon.measurands.catalogue import MEASURANDS
from gudgeon.shelf.parse import parse_shelf

#: The book of the demo's four, with two kits that no part of it is sold in alone.
_TEXT = (files("gudgeon.demo") / "books" / "gully.toml").read_text("utf-8")
_KITS = {"562-3301": "562-3951", "562-3302": "562-3952", "562-3110": "562-3951", "562-3310": "562-3952"}
KITTED = _TEXT + "".join(
    f'\n[[part]]\nnumber = "{number}"\nname = "{name}"\nconsumable = true\nprice = "{price}"\ndelivery = "{days} days"\n'
    for number, name, price, days in (
        ("562-3951", "intake valve with guide", "31.00", 6),
        ("562-3952", "exhaust valve with spring", "27.50", 4),
    )
)
for _number, _kit in _KITS.items():
    KITTED = KITTED.replace(f'number = "{_number}"\n', f'number = "{_number}"\nkit = "{_kit}"\n', 1)
BOOK = parse_book(KITTED)
ANATOMY = expand(BOOK.layout)
_GAUGE = """
[[gauge]]
id = "{kind}"
name = "{kind}"
kind = "{kind}"
source = "invented"
unit = "{unit}"
resolution = "0.001 {unit}"
permissible_error = "0.0005 {unit}"
"""
KINDS = ("micrometer", "small-hole gauge", "bore gauge", "feeler", "strip", "depth micrometer")
SHELF = parse_shelf(
    "".join(_GAUGE.format(kind=k, unit="mm") for k in KINDS)
    + """
[[work]]
of = "fit_guide"
price = "21.00"
[[work]]
of = "cut_seat"
price = "17.00"
[[work]]
of = "rebore"
price = "55.00"
"""
)
_OF = {"stem_diameter": "micrometer", "guide_bore": "small-hole gauge", "bore_diameter": "bore gauge",
       "piston_diameter": "micrometer", "pin_diameter": "micrometer", "pin_bore": "bore gauge",
       "small_end_bore": "bore gauge", "side_clearance": "feeler", "ring_gap": "feeler", "journal_clearance": "strip",
       "lash": "feeler", "tip_height": "depth micrometer", "shim_thickness": "micrometer"}  # fmt: skip


def _at(measurand: str, where: str, text: str) -> Iterator[Body]:
    kind = MEASURANDS[measurand]
    for point in kind.points(ANATOMY, where) or ("",):
        yield Reading(measurand=measurand, where=where, point=point, text=text, unit="mm", gauge=_OF[measurand],
                      needs=kind.needs)  # fmt: skip


def bodies() -> Iterator[Body]:
    """Every fit past its limit; of the exhaust valves every other one by its own stem, the rest by their guides."""
    yield JobOpened(number="7", engine_number="0417", scope="whole top end")
    for card in SHELF.gauges:
        yield GaugePinned(gauge=card.id, card=card.pinned())
    for n, valve in enumerate(ANATOMY.valves):
        stem, guide = ("3.961", "4.0445") if ".in" in valve else (("3.943", "4.0445") if n % 2 else ("3.946", "4.049"))
        yield from _at("lash", valve, "0.17/0.18" if ".in" in valve else "0.22/0.23")
        yield from _at("shim_thickness", valve, "1.900")
        yield from _at("stem_diameter", valve, stem)
        yield from _at("guide_bore", valve, guide)
        yield from _at("tip_height", valve, "31.20")
    for cylinder in ANATOMY.cylinders:
        for measurand, text in (("bore_diameter", "64.585"), ("piston_diameter", "64.442"), ("pin_diameter", "14.982"),
                                ("pin_bore", "15.028"), ("small_end_bore", "15.038")):  # fmt: skip
            yield from _at(measurand, cylinder, text)
    for ring in ANATOMY.rings:
        yield from _at("side_clearance", ring, "0.14")
        yield from _at("ring_gap", ring, "0.65")
    for where in MEASURANDS["journal_clearance"].where(ANATOMY):
        yield from _at("journal_clearance", where, "0.125")


def entries() -> tuple[Entry, ...]:
    """The job as it landed."""
    found = []
    for seq, body in enumerate(bodies(), 1):
        at = "2031-02-03T08:00:00Z"
        typed = Typed(id=f"e{seq}", typed_at=at, by="k7", bench="b1", nth=seq, seen=seq - 1, body=body)
        found.append(Entry(seq=seq, landed_at=at, account="workshop", typed=typed))
    return tuple(found)
