"""Which calculator belongs to a figure of the bench, and what the job already knows of its fields."""

from __future__ import annotations

from collections.abc import Mapping
from types import MappingProxyType
from urllib.parse import urlencode

from msgspec import Struct

from gudgeon.job.entries import Reading
from gudgeon.verdicts.gather import about
from gudgeon.workbench.bench import Workbench
from gudgeon.workbench.measuring import MeasureView
from gudgeon.workbench.view import CharacteristicView

BELONGS: Mapping[str, tuple[str, str]] = MappingProxyType(
    {
        "lash": ("shim", "lash"),
        "shim_thickness": ("shim", "shim"),
        "ring_gap": ("ring-gap", "gap"),
        "wobble": ("wobble", "reading"),
        "seat_width": ("seat", "wanted-width"),
        "recession": ("seat-sink", ""),
        "tip_projection": ("seat-sink", ""),
        "spring_free_length": ("spring", "free-length"),
        "spring_load": ("spring", ""),
        "installed_height": ("spring", "installed-length"),
        "compression": ("atmosphere", ""),
        "leak_down": ("leak-down", "loss"),
        "timing_marks": ("cam-tooth", ""),
        "cam_angle": ("cam-tooth", ""),
        "head_flatness": ("milling", ""),
        "barrel_flatness": ("milling", ""),
        "squish": ("milling", "squish"),
        "deck_height": ("compression-ratio", "deck"),
        "chamber_volume": ("compression-ratio", "chamber"),
        "bore_diameter": ("compression-ratio", "bore"),
        "chain_length": ("timing-shift", ""),
        "valve_to_piston": ("valve-to-piston", "gap"),
    }
)
"""By measurand: the calculator, and the field that takes the figure."""


class CalcLink(Struct, frozen=True, kw_only=True):
    """A calculator with the fields that the job fills in."""

    name: str
    typed: tuple[tuple[str, str], ...]
    back: str

    @property
    def words(self) -> str:
        """Its name as words."""
        return self.name.replace("-", " ")

    @property
    def query(self) -> str:
        """The end of the address that opens it filled in."""
        return urlencode((*self.typed, ("back", self.back)))


def calculators_for(bench: Workbench, number: str, m: MeasureView) -> tuple[CalcLink, ...]:
    """The calculator of the figure itself, and how sure its verdict is."""
    if m.ask is None:
        return ()
    back = f"/job/{number}/measure?" + urlencode({"m": m.ask.measurand, "at": m.ask.place, "point": m.ask.point})
    found = []
    here = next((c for c in m.judged if c.key == m.ask.measurand and c.value is not None and c.unit), None)
    own = BELONGS.get(m.ask.measurand)
    if own:
        name, field = own
        typed = {field: _value(here)} if field and here else {}
        if name == "shim":
            typed |= _shim(bench, number, m, here)
        found.append(CalcLink(name=name, typed=tuple(typed.items()), back=back))
    if here and here.u and (here.low is not None or here.high is not None):
        found.append(CalcLink(name="conformity", typed=_sure(here), back=back))
    return tuple(found)


def _value(c: CharacteristicView) -> str:
    return f"{c.value:.{c.places}f} {c.unit}"


def _sure(c: CharacteristicView) -> tuple[tuple[str, str], ...]:
    walls = (("lower", c.low), ("upper", c.high))
    said = tuple((key, f"{wall:.{c.places}f} {c.unit}") for key, wall in walls if wall is not None)
    return (("value", _value(c)), ("u", f"{c.u:.{c.places + 1}f} {c.unit}"), *said)


def _shim(bench: Workbench, number: str, m: MeasureView, lash: CharacteristicView | None) -> dict[str, str]:
    """The shim that is in, the lash, and its window."""
    state, place = bench.worked(number).given.state, m.ask.place if m.ask else ""
    lash = lash if lash and lash.key == "lash" else next((c for c in m.judged if c.key == "lash"), None)
    part = about(state, "shim_thickness", place)
    shims = [t for t in state.readings if t.counts and t.fact.measurand == "shim_thickness"]
    mine = next((t.fact for t in reversed(shims) if (t.part or t.fact.where) == part), None)
    typed = {"shim": f"{mine.text} {mine.unit}"} if isinstance(mine, Reading) else {}
    if lash is not None and lash.value is not None:
        typed["lash"] = _value(lash)
    walls = (("low", lash.low), ("high", lash.high)) if lash else ()
    return typed | {key: f"{wall:g} mm" for key, wall in walls if wall is not None}
