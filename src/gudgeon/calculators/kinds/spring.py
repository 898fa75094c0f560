"""A valve spring between its book and the bench: load, stress, coil bind and surge say whether a spacer or a cam is safe."""

from __future__ import annotations

from gudgeon.calculators.shape import WORDS, Answer, Calculator, Key, Result
from gudgeon.mechanics import spring as m
from gudgeon.problem import refuse


def work(
    *,
    wire: float,
    mean_diameter: float,
    active_coils: float,
    total_coils: float | None,
    shear_modulus: float,
    density: float,
    free_length: float,
    installed_length: float,
    lift: float,
    ends: str,
) -> Answer:
    rate = m.rate_n_per_mm(wire, mean_diameter, active_coils, shear_modulus)
    total = active_coils + 2 if total_coils is None else total_coils
    if total < active_coils:
        raise refuse(
            "total-coils",
            "{total} total coils are fewer than {active} active ones.",
            "Count again: usually two more than the active ones.",
            total=total,
            active=active_coils,
        )
    solid = m.solid_mm(wire, total, ground=ends == "ground")
    installed_n, margin = m.load_n(free_length, installed_length, rate), m.bind_margin_mm(installed_length, lift, solid)
    open_n, index = m.load_n(free_length, installed_length - lift, rate), m.index(wire, mean_diameter)
    mass = m.active_mass_kg(wire, mean_diameter, active_coils, density)
    results = (
        Result(name="rate", value=rate, unit="N/mm"),
        Result(name="installed load", value=installed_n, unit="N"),
        Result(name="open load", value=open_n, unit="N"),
        Result(name="solid length", value=solid, unit="mm"),
        Result(name="bind margin", value=margin, unit="mm"),
        Result(name="bind margin per gap", value=margin / active_coils, unit="mm"),
        Result(name="stress installed", value=m.stress_mpa(installed_n, wire, mean_diameter), unit="MPa"),
        Result(name="stress open", value=m.stress_mpa(open_n, wire, mean_diameter), unit="MPa"),
        Result(name="spring index", value=index),
        Result(name="Wahl factor", value=m.wahl_factor(index)),
        Result(name="Bergsträsser factor", value=m.bergstraesser_factor(index)),
        Result(name="surge frequency", value=m.surge_hz(rate, mass), unit="Hz"),
        Result(name="mass of active coils", value=mass * 1000, unit="g"),
        Result(name="load lost per 0.1 mm of sink", value=rate * 0.1, unit="N"),
    )
    return Answer(
        results=results,
        method="rate = G·d⁴/(8·D³·n); stress = Wahl factor · 8·F·D/(π·d³); surge = ½·√(rate / mass of active coils)",
        source="torsion of a helical spring; Bhandari, Design of Machine Elements, ch. 10; surge: wave in a uniform spring",
        validity="round wire, cold, linear, both ends seated; coils do not touch before solid",
        notes=_notes(margin),
    )


def _notes(margin: float) -> tuple[str, ...]:
    bound = ("The coils touch before full lift: do not run it. Coil bind breaks valve gear.",) if margin <= 0 else ()
    return (*bound, "Springs under load throw parts: compress them in the tool only, eyes covered; the maker's manual, "
            "local codes and licensed practice come first.")  # fmt: skip


KIND = Calculator(
    key="spring",
    line="rate, loads, stress, bind margin and surge of a valve spring",
    keys=(
        Key(name="wire", dimension="length", help="wire diameter"),
        Key(name="mean-diameter", dimension="length", help="coil diameter to the middle of the wire"),
        Key(name="active-coils", dimension="number", help="coils that work"),
        Key(name="total-coils", dimension="number", help="all coils, else two more than the active", optional=True),
        Key(name="shear-modulus", dimension="stress", help="shear modulus of the wire", default="81.5 GPa"),
        Key(name="density", dimension="density", help="density of the wire", default="7850 kg/m³"),
        Key(name="free-length", dimension="length", help="length without load"),
        Key(name="installed-length", dimension="length", help="length with the valve shut"),
        Key(name="lift", dimension="length", help="full valve lift", default="0 mm"),
        Key(name="ends", dimension=WORDS, help="end coils ground flat or not", default="ground",
            choices=("ground", "not-ground")),
    ),
    work=work,
    example="wire=3.2mm mean-diameter=22mm active-coils=5.5 total-coils=7.5 shear-modulus=81.5GPa density=7850kg/m3 "
    "free-length=48mm installed-length=38mm lift=8.5mm",
)  # fmt: skip
