"""What leak-down and compression should read here: by the tester's orifice, the geometry, the cam and the height."""

from __future__ import annotations

from dataclasses import dataclass
from functools import lru_cache
from math import log

from gudgeon.mechanics.cranking import compressed_kpa, leaking_compression
from gudgeon.mechanics.leak import leak_diameter_mm, percent_on_another_tester
from gudgeon.mechanics.volumes import clearance_for_ratio_cm3, displacement_cm3, effective_ratio
from gudgeon.plans.evidence import Evidence
from gudgeon.plans.shape import Given
from gudgeon.problem import Refused
from gudgeon.verdicts.altitude import SEA_LEVEL_KPA, ambient_here
from gudgeon.verdicts.value import Value

#: The tester of FAA AC 43.13-1B, 8-14: 80 psi before 0.040 in, from a bore of 5 in before 0.060 in; a loss over a
#: quarter of the supply is cause to suspect the cylinder. Guidance; the maker's manual comes first.
AC_SUPPLY_KPA, AC_SMALL_MM, AC_LARGE_MM, AC_LARGE_BORE_MM, AC_SUSPECT = 80 * 6.894757, 1.016, 1.524, 127.0, 25.0
#: Exponents of a cranked cylinder without a leak, where the book gives no pressures: common practice, no source.
EXPONENTS = (1.2, 1.35)
#: Crank speeds of starters: common practice, no source; and the flow coefficient taken for orifice and leak alike (memory).
SPEEDS_RPM, DISCHARGE = (250.0, 500.0), 0.8


@dataclass(frozen=True, slots=True, kw_only=True)
class Hole:
    """A leak as one hole: its diameter, and what the tester of AC 43.13-1B would show for it."""

    diameter_mm: float
    orifice_mm: float
    supply_kpa: float
    ac_percent: float


def ambient(given: Given) -> float:
    """Pressure around the engine: by its height, else at sea level."""
    return ambient_here(given.state) or SEA_LEVEL_KPA


def hole(evidence: Evidence, leak: Value) -> Hole | None:
    """The hole behind a percentage; nothing where the tester's card does not say orifice and supply."""
    card = evidence.interpreter.card(leak.gauge)
    if card.orifice is None or card.supply is None or leak.known is None or not 0.0 <= leak.known.value < 100.0:
        return None
    around, bore = ambient(evidence.given), evidence.given.book.geometry.bore
    orifice, supply, percent = card.orifice.value, card.supply.value, leak.known.value
    other = AC_LARGE_MM if bore is not None and bore.value >= AC_LARGE_BORE_MM else AC_SMALL_MM
    cylinder = supply * (1.0 - percent / 100.0)
    diameter = leak_diameter_mm(supply_kpa=supply, cylinder_kpa=cylinder, orifice_mm=orifice, ambient_kpa=around)
    on_other = percent_on_another_tester(percent, supply_kpa=supply, orifice_mm=orifice, ambient_kpa=around,
                                         to_supply_kpa=AC_SUPPLY_KPA, to_orifice_mm=other)  # fmt: skip
    return Hole(diameter_mm=diameter, orifice_mm=orifice, supply_kpa=supply, ac_percent=on_other)


@dataclass(frozen=True, slots=True, kw_only=True)
class Cylinder:
    """The geometry that compression hangs on."""

    bore_mm: float
    stroke_mm: float
    rod_mm: float
    ratio: float
    intake_closes_deg: float

    @property
    def effective(self) -> float:
        """The ratio over what is left of the stroke once the intake has closed."""
        swept = displacement_cm3(self.bore_mm, self.stroke_mm)
        return effective_ratio(
            bore_mm=self.bore_mm,
            stroke_mm=self.stroke_mm,
            rod_mm=self.rod_mm,
            clearance_cm3=clearance_for_ratio_cm3(swept, self.ratio),
            intake_closes_deg=self.intake_closes_deg,
        )


def cylinder_of(given: Given) -> Cylinder | None:
    """The geometry by the book; nothing where the book leaves a part of it out."""
    g, intake = given.book.geometry, given.book.cam("in")
    closes = g.intake_closes or (intake.closes if intake else None)
    sizes = (g.bore, g.stroke, g.rod, g.compression_ratio, closes)
    if any(size is None for size in sizes):
        return None
    bore, stroke, rod, ratio, angle = (size.value for size in sizes if size is not None)
    found = Cylinder(bore_mm=bore, stroke_mm=stroke, rod_mm=rod, ratio=ratio, intake_closes_deg=angle)
    try:
        return found if found.effective > 1.0 else None
    except Refused:
        return None


@dataclass(frozen=True, slots=True, kw_only=True)
class Expected:
    """What a sound cylinder shows here, and one with this hole; gauge pressures, with the exponents behind them."""

    sound: tuple[float, float]
    leaking: tuple[float, float] | None
    exponents: tuple[float, float] | None
    effective: float | None
    by_book: bool


def expected(given: Given, cylinder: str, leak: Hole | None) -> Expected | None:
    """The range for a sound cylinder, the book's at this height or by geometry, and the range with the leak."""
    around, size, verdict = ambient(given), cylinder_of(given), given.judged.at("compression", cylinder)
    low, high = (verdict.new_low, verdict.new_high) if verdict else (None, None)
    by_book = low is not None and high is not None
    effective = size.effective if size else None
    if low is None or high is None:
        if effective is None:
            return None
        low, high = (compressed_kpa(effective, n, around) - around for n in EXPONENTS)
    exponents = None if effective is None else tuple(log((p + around) / around) / log(effective) for p in (low, high))
    leaking = None
    if size is not None and exponents is not None and leak is not None and leak.diameter_mm > 0.0:
        shares = [_share(size, round(leak.diameter_mm, 2), rpm, min(max(exponents[0], 1.01), 1.6), around)
                  for rpm in SPEEDS_RPM]  # fmt: skip
        leaking = ((low + around) * min(shares) - around, (high + around) * max(shares) - around)
    pair = (exponents[0], exponents[1]) if exponents else None
    return Expected(sound=(low, high), leaking=leaking, exponents=pair, effective=effective, by_book=by_book)


@lru_cache(maxsize=256)
def _share(size: Cylinder, hole_mm: float, speed_rpm: float, exponent: float, around_kpa: float) -> float:
    """What a hole leaves of the peak pressure, absolute."""
    peak = leaking_compression(
        bore_mm=size.bore_mm,
        stroke_mm=size.stroke_mm,
        rod_mm=size.rod_mm,
        ratio=size.ratio,
        speed_rpm=speed_rpm,
        leak_mm=min(hole_mm, size.bore_mm),
        discharge=DISCHARGE,
        ambient_kpa=around_kpa,
        exponent=exponent,
        intake_closes_deg=size.intake_closes_deg,
    )
    return peak.pressure_kpa / compressed_kpa(size.effective, exponent, around_kpa)
