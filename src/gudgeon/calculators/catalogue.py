"""Every calculator by name, with its line and the module that holds it; a module is imported when it is used."""

from __future__ import annotations

from collections.abc import Mapping
from importlib import import_module
from types import MappingProxyType

from gudgeon.calculators.shape import Calculator
from gudgeon.problem import refuse

_KINDS = "gudgeon.calculators.kinds."

CALCULATORS: Mapping[str, tuple[str, str]] = MappingProxyType(
    {
        "conformity": ("how surely a value lies within its limits, and what may be accepted", _KINDS + "conformity"),
        "flatness": ("flatness of a face from a file of points", _KINDS + "flatness"),
        "roundness": ("roundness and reference circles from a file of points", _KINDS + "roundness"),
        "straightness": ("straightness of a line from a file of points", _KINDS + "straightness"),
        "repeatability": ("repeatability and reproducibility of a gauge from a study file", _KINDS + "repeatability"),
        "trend": (
            "straight line or power law through readings, with intervals ahead and where a limit is reached",
            _KINDS + "trend",
        ),
        "seat": ("the ring that seat, top and throat cuts leave, and the feeds for a wanted ring", _KINDS + "seat"),
        "seat-sink": ("how far the valve sinks when its seat is cut, and what moves with it", _KINDS + "seat_sink"),
        "shim": ("the shim that brings lash into its window", _KINDS + "shim"),
        "wobble": ("stem-to-guide clearance behind the reading of a dial on the rocked valve", _KINDS + "wobble"),
        "spring": ("rate, loads, stress, bind margin and surge of a valve spring", _KINDS + "spring"),
        "cam-events": ("durations, lobe centres, separation and overlap from the four events", _KINDS + "cam_events"),
        "cam-tooth": ("which tooth a timing error means, what remains, and how sure that is", _KINDS + "cam_tooth"),
        "valve-to-piston": (
            "least valve-to-piston clearance through the cycle, with its uncertainty",
            _KINDS + "valve_to_piston",
        ),
        "timing-shift": ("how far the cam timing moves by milling, gasket or chain wear", _KINDS + "timing_shift"),
        "compression-ratio": (
            "compression ratio and clearance volume from bore, stroke, chamber, gasket, deck and dome",
            _KINDS + "compression_ratio",
        ),
        "effective-ratio": ("compression ratio that is left after the intake has closed", _KINDS + "effective_ratio"),
        "atmosphere": (
            "ambient pressure at an altitude, and what a compression reading becomes there",
            _KINDS + "atmosphere",
        ),
        "cranking-pressure": (
            "compression to expect from ratio and exponent, or with a leak",
            _KINDS + "cranking_pressure",
        ),
        "leak-down": ("the hole behind a leak-down reading, and what another tester would show", _KINDS + "leak_down"),
        "thermal": ("change of a length between two temperatures", _KINDS + "thermal"),
        "bolt": ("preload and torque of a bolt, and whether a typed torque is plausible for it", _KINDS + "bolt"),
        "wrench": (
            "setting of a torque wrench with an adapter, and whether the wrench may be used for it",
            _KINDS + "wrench",
        ),
        "tightening": (
            "order and rounds of tightening, from the number of bolts or their positions",
            _KINDS + "tightening",
        ),
        "ring-gap": ("change of a ring's end gap with the bore, and back", _KINDS + "ring_gap"),
        "milling": ("what milling a head or a cylinder takes from chamber, squish and ratio", _KINDS + "milling"),
        "piston": ("piston travel at a crank angle and back, top and bottom centre, piston speed", _KINDS + "piston"),
        "fit": ("clearance of a fit with warm parts, and how hot a housing must be", _KINDS + "fit"),
        "repairs": (
            "mean number of repairs by age over several units, and whether they come faster",
            _KINDS + "repairs",
        ),
    }
)


def calculator(name: str) -> Calculator:
    """The calculator of that name."""
    entry = CALCULATORS.get(name)
    if entry is None:
        raise refuse(
            name,
            "There is no calculator called {name}.",
            "{meant}The names are: {names}.",
            name=name,
            meant=_meant(name),
            names=", ".join(CALCULATORS),
        )
    kind = import_module(entry[1]).KIND
    if not isinstance(kind, Calculator):
        raise TypeError(f"{entry[1]}.KIND is no Calculator")
    return kind


def _meant(name: str) -> str:
    from difflib import get_close_matches

    close = get_close_matches(name.lower(), list(CALCULATORS), n=1, cutoff=0.5)
    return f"Did you mean {close[0]}? " if close else ""
