"""Valve-to-piston clearance of many draws against a compiled loop, and the start of ``gudgeon calc`` against an empty Python."""

import ctypes
import os
import shutil
import subprocess
import sys
import tempfile
from collections.abc import Callable
from math import cos, radians
from pathlib import Path
from time import perf_counter

import numpy as np

from gudgeon.mechanics.lift import Lobe
from gudgeon.mechanics.valve_piston import Train, least_gaps

Row = tuple[str, float, float | None]

DRAWS, STEPS = 10_000, 7_200
TRAIN = Train(stroke_mm=50, rod_mm=100, lobe=Lobe(law="3-4-5", lift_mm=8, half_event_cam_deg=65), valve_angle_deg=15)
# The plain way: every draw, every step; the piston's travel is given to it ready made.
LOOP = """
#include <math.h>
void loop(int draws, int steps, const double *angle, const double *way, double half, double lift,
          const double *gap, const double *centre, const double *lash, double *least) {
    for (int i = 0; i < draws; i++) {
        double best = INFINITY;
        for (int k = 0; k < steps; k++) {
            double u = 1.0 - fabs(angle[k] - centre[i]) / half, y = 0.0;
            if (u > 0.0) {
                y = lift * u * u * u * (10.0 + u * (6.0 * u - 15.0)) - lash[i];
                if (y < 0.0) y = 0.0;
            }
            double g = way[k] - y;
            if (g < best) best = g;
        }
        least[i] = gap[i] + best;
    }
}
"""
SHIM = ("calc", "shim", "shim=1.95mm", "lash=0.02mm", "low=0.10mm", "high=0.15mm", "--json")
FLAT = "x_mm,y_mm,z_um\n0,0,0\n60,0,12\n0,60,8\n60,60,-4\n30,30,15\n"


def best_of(times: int, run: Callable[[], object]) -> float:
    """The shortest of several runs, in seconds."""
    found = []
    for _ in range(times):
        start = perf_counter()
        run()
        found.append(perf_counter() - start)
    return min(found)


def draws() -> tuple[np.ndarray, np.ndarray, np.ndarray]:
    """Gap, lobe centre and lash of each draw."""
    rng = np.random.default_rng(1)
    return (
        2.5 + 0.05 * rng.standard_normal(DRAWS),
        110 + 1.0 * rng.standard_normal(DRAWS),
        0.1 + 0.01 * rng.standard_normal(DRAWS),
    )


def compiled(folder: Path) -> ctypes.CDLL:
    """The loop as machine code."""
    source, library = folder / "loop.c", folder / "loop.so"
    source.write_text(LOOP, encoding="utf-8")
    compiler = shutil.which("cc") or shutil.which("gcc")
    if compiler is None:
        raise SystemExit("this bench needs a C compiler (cc) to measure against")
    subprocess.run([compiler, "-O2", "-shared", "-fPIC", "-o", str(library), str(source), "-lm"], check=True)
    return ctypes.CDLL(str(library))


def looped(library: ctypes.CDLL, gap: np.ndarray, centre: np.ndarray, lash: np.ndarray) -> np.ndarray:
    """The least gap of each draw by the loop."""
    angle = np.linspace(-180, 180, STEPS, endpoint=False)
    turn, half_stroke, rod = np.radians(angle), TRAIN.stroke_mm / 2, TRAIN.rod_mm
    travel = half_stroke + rod - half_stroke * np.cos(turn) - np.sqrt(rod**2 - (half_stroke * np.sin(turn)) ** 2)
    way = travel * cos(radians(TRAIN.valve_angle_deg))
    least = np.empty(DRAWS)
    at = [array.ctypes.data_as(ctypes.POINTER(ctypes.c_double)) for array in (angle, way, gap, centre, lash, least)]
    half, lift = ctypes.c_double(2 * TRAIN.lobe.half_event_cam_deg), ctypes.c_double(TRAIN.lobe.lift_mm)
    library.loop(DRAWS, STEPS, at[0], at[1], half, lift, at[2], at[3], at[4], at[5])
    return least


def valve_to_piston() -> list[Row]:
    """Time of all draws against the loop; how far the two differ at most."""
    gap, centre, lash = draws()
    with tempfile.TemporaryDirectory() as folder:
        library = compiled(Path(folder))
        slow = best_of(3, lambda: looped(library, gap, centre, lash))
        reference = looped(library, gap, centre, lash)
    fast = best_of(7, lambda: least_gaps(TRAIN, gap, centre, lash))
    apart = float(np.max(np.abs(least_gaps(TRAIN, gap, centre, lash)[0] - reference)))
    return [
        (f"valve to piston, {DRAWS} draws / compiled loop", fast / slow, 0.1),
        ("valve to piston, largest difference / 2e-5 mm", apart / 2e-5, 1.0),
    ]


def process_start() -> list[Row]:
    """A whole process from nothing to its answer, compiled files at hand as after an installation."""
    with tempfile.TemporaryDirectory() as folder:
        environment = {**os.environ, "PYTHONPYCACHEPREFIX": folder}
        environment.pop("PYTHONDONTWRITEBYTECODE", None)

        def run(*words: str) -> None:
            subprocess.run([sys.executable, *words], check=True, stdout=subprocess.DEVNULL, env=environment)

        points = Path(folder) / "points.csv"
        points.write_text(FLAT, encoding="utf-8")
        flat = ("calc", "flatness", f"points={points}", "--json")
        run("-m", "gudgeon", *SHIM)
        run("-m", "gudgeon", *flat)
        tries = (("-c", "pass"), ("-m", "gudgeon", *SHIM), ("-m", "gudgeon", *flat))
        # In turn, so that what slows the machine for a while slows all three.
        rounds = [[best_of(1, lambda words=words: run(*words)) for words in tries] for _ in range(20)]
    empty, light, heavy = (min(column) for column in zip(*rounds, strict=True))
    return [
        ("gudgeon calc without numpy / python -c pass", light / empty, 4.0),
        ("gudgeon calc with numpy / python -c pass", heavy / empty, 12.0),
    ]


def rows() -> list[Row]:
    """All of them."""
    return [*valve_to_piston(), *process_start()]
