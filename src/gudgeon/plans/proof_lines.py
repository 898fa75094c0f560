"""The lines of the proof: marks and wheel, lash, oil, leak-down with its hole, compression with what it should read."""

from __future__ import annotations

from collections.abc import Iterable

from gudgeon.plans.cam_wheel import OffBy, off_by
from gudgeon.plans.evidence import Evidence
from gudgeon.plans.leak_path import Suspect, suspects
from gudgeon.plans.pressures import AC_SUSPECT, Expected, Hole, expected, hole
from gudgeon.plans.shape import Line
from gudgeon.plans.tested import Tested
from gudgeon.problem import Said, said
from gudgeon.verdicts.shape import Verdict
from gudgeon.verdicts.value import Value

Numbers = tuple[tuple[str, float | str | bool | None], ...]


def verdict_lines(evidence: Evidence, key: str, name: str) -> Iterable[Line]:
    """What is judged at several places: one line for all that are proved, one for each that is not."""
    verdicts = evidence.given.judged.of(key)
    good = [v for v in verdicts if v.good]
    if good:
        words = said("{name}: {n} of {all} {word}", name=name, n=len(good), all=len(verdicts), word=good[0].verdict)
        yield Line(where="", what=words, numbers=(("of", key), ("proved", float(len(good)))))
    for verdict in verdicts:
        if not verdict.good and verdict.verdict != "not measured":
            yield _unproved(verdict, name)


def _unproved(verdict: Verdict, name: str) -> Line:
    again = (said("contradicts what was known: find out why before going on"),) if verdict.contradicts else ()
    reasons = (*again, *verdict.notes, *(r.words for r in verdict.reasons))
    value = f" {verdict.said}" if verdict.said else ""
    return Line(where=verdict.place, what=said("{name}{value}: {word}", name=name, value=value, word=verdict.verdict),
                numbers=(("of", verdict.key), ("verdict", verdict.verdict)), because=reasons)  # fmt: skip


def wheel_lines(evidence: Evidence) -> Iterable[Line]:
    """Every cam that was read on a degree wheel; and what it would tell where marks are off and it was not."""
    for cam in evidence.state.anatomy.cams:
        off = off_by(evidence, cam)
        marks = evidence.given.judged.at("timing_marks", cam)
        if off is not None:
            yield Line(where=cam, what=_off_words(off), numbers=_off_numbers(off), because=tuple(_off_why(off)))
        elif marks is not None and marks.verdict == "off":
            yield Line(where=cam, what=said("off: a degree wheel tells which tooth"), numbers=(("of", "cam_angle"),),
                       because=(said("no starter and no turning on: valves may meet the piston"),))  # fmt: skip


def _off_words(off: OffBy) -> Said:
    way = "late" if off.late_deg >= 0.0 else "early"
    degrees = f"{abs(off.late_deg):.1f}° ± {2.0 * off.u_deg:.1f}° {way}"
    if off.teeth is None:
        return said("{degrees}; the book has no tooth count (cam_teeth), so no tooth is named", degrees=degrees)
    if off.teeth == 0:
        return said("{degrees}: on the right tooth ({chance})", degrees=degrees, chance=chance(off.odds[0][1]))
    count = f"{abs(off.teeth)} {'tooth' if abs(off.teeth) == 1 else 'teeth'} {way}"
    return said("{degrees}: {count} ({chance})", degrees=degrees, count=count, chance=chance(off.odds[0][1]))


def chance(p: float) -> str:
    """A likelihood as it is said: never quite sure."""
    return "over 99.9 %" if p > 0.999 else "under 0.1 %" if p < 0.001 else f"{100.0 * p:.1f} %"


def _off_numbers(off: OffBy) -> Numbers:
    teeth = None if off.teeth is None else float(off.teeth)
    odds: Numbers = tuple((f"teeth {k:+d}" if k else "teeth 0", p) for k, p in off.odds[:3])
    return (("of", "cam_angle"), ("late_deg", off.late_deg), ("u_deg", off.u_deg), ("teeth", teeth),
            ("left_over_deg", off.residual_deg), *odds)  # fmt: skip


def _off_why(off: OffBy) -> Iterable[Said]:
    if off.teeth:
        yield said("no starter and no turning on: valves may meet the piston; tensioner out first, then set it right")
    if off.teeth is not None and abs(off.residual_deg) > 3.0 * off.u_deg:
        yield said("{rest:.1f}° are left over, which is no tooth: chain, tensioner, milled head or gasket, or a wrong mark",
                   rest=abs(off.residual_deg))  # fmt: skip
    if off.longer_deg is not None and abs(off.longer_deg) > 3.0 * off.u_longer_deg:
        yield said("opening and closing moved by {d:.1f}° against each other: lash, another lift than the book's, or a worn lobe",
                   d=abs(off.longer_deg))  # fmt: skip
    if len(off.odds) > 1 and off.odds[1][1] > 0.05:
        yield said("next likely: {k:+d} teeth, {chance}", k=off.odds[1][0], chance=chance(off.odds[1][1]))


def air_lines(evidence: Evidence, test: Tested) -> Iterable[Line]:
    """Leak-down and compression of a cylinder, as found or now, each against what it should be."""
    holes: dict[str, Hole | None] = {}
    for point, leak in test.leak.items():
        holes[point] = hole(evidence, leak)
        yield _leak_line(evidence, test, point, leak, holes[point])
    for point, pressure in test.pressure.items():
        around = holes.get(point) or (holes.get("cold") if point == "wet" else None)
        known = expected(evidence.given, test.cylinder, around)
        yield _pressure_line(test, point, pressure, known)


def _leak_line(evidence: Evidence, test: Tested, point: str, leak: Value, found: Hole | None) -> Line:
    percent = leak.known.value if leak.known else 0.0
    head: Numbers = (("of", "leak_down"), ("when", test.when), ("point", point), ("percent", percent))
    if found is None:
        what = said("{when}, {point}: leak-down {p:.0f} %", when=test.when, point=point, p=percent)
        why = said("the tester's card gives no orifice and supply: comparable only with this tester")
        return Line(where=test.cylinder, what=what, numbers=head, because=(why,))
    what = said("{when}, {point}: leak-down {p:.0f} %, a hole of {d:.2f} mm", when=test.when, point=point, p=percent,
                d=found.diameter_mm)  # fmt: skip
    told = [said("{o:g} mm orifice, {s:.0f} kPa; the tester of FAA AC 43.13-1B would show {ac:.0f} %", o=found.orifice_mm,
                s=found.supply_kpa, ac=found.ac_percent)]  # fmt: skip
    if found.ac_percent > AC_SUSPECT:
        told.append(
            said("over a quarter of the supply: AC 43.13-1B, 8-14, suspects the cylinder; run it and test it again hot")
        )
    numbers: Numbers = (*head, ("hole_mm", found.diameter_mm), ("orifice_mm", found.orifice_mm),
                        ("supply_kPa", found.supply_kpa), ("ac_percent", found.ac_percent))  # fmt: skip
    return Line(where=test.cylinder, what=what, numbers=numbers, because=tuple(told))


def _pressure_line(test: Tested, point: str, pressure: Value, known: Expected | None) -> Line:
    kpa = pressure.known.value if pressure.known else 0.0
    head: Numbers = (("of", "compression"), ("when", test.when), ("point", point), ("read_kPa", kpa))
    words = said("{when}, {point}: compression {p:.0f} kPa", when=test.when, point=point, p=kpa)
    if known is None:
        why = said(
            "the book gives neither pressures nor bore, stroke, rod, ratio and intake closing: nothing to hold it against"
        )
        return Line(where=test.cylinder, what=words, numbers=head, because=(why,))
    low, high = known.sound
    numbers: Numbers = (*head, ("sound_low_kPa", low), ("sound_high_kPa", high))
    if known.leaking:
        numbers = (*numbers, ("leaking_low_kPa", known.leaking[0]), ("leaking_high_kPa", known.leaking[1]))
    if known.effective is not None and known.exponents is not None:
        numbers = (*numbers, ("effective_ratio", known.effective), ("exponent_low", known.exponents[0]),
                   ("exponent_high", known.exponents[1]))  # fmt: skip
    what = said("{words}; {meaning}", words=str(words), meaning=meaning(kpa, 2.0 * pressure.u, known))
    return Line(where=test.cylinder, what=what, numbers=numbers, because=tuple(_pressure_why(known)))


def meaning(kpa: float, doubt: float, known: Expected) -> str:
    """What a cranking pressure says beside what it should be, as far as the gauge can tell."""
    low, high = known.sound
    if kpa - doubt > high:
        return "over what geometry gives: oil or carbon in the chamber, or another gauge hose"
    if kpa + doubt >= low:
        return "as a sound cylinder reads here"
    if known.leaking is None:
        return "under a sound cylinder: a leak test says how much leaks and where"
    if kpa + doubt >= known.leaking[0]:
        return "the leak explains it"
    return "lower than the leak explains: cam timing, lash or decompressor, throttle not open, cranked too slowly"


def _pressure_why(known: Expected) -> Iterable[Said]:
    low, high = known.sound
    whence = "the book, at this height" if known.by_book else "geometry, exponents 1.2 to 1.35 (common practice)"
    yield said("a sound one reads {low:.0f} to {high:.0f} kPa here, by {whence}", low=low, high=high, whence=whence)
    if known.leaking:
        yield said("with this leak {low:.0f} to {high:.0f} kPa, cranked at 250 to 500 /min", low=known.leaking[0],
                   high=known.leaking[1])  # fmt: skip
    if known.by_book and known.exponents and known.effective:
        yield said("effective ratio {r:.2f} by the intake's closing; the book's pressures mean exponents {a:.2f} to {b:.2f}",
                   r=known.effective, a=known.exponents[0], b=known.exponents[1])  # fmt: skip


def path_lines(evidence: Evidence, test: Tested) -> Iterable[Line]:
    """The causes of a leak that is too large, the likeliest first; one that nothing speaks for is left out."""
    for suspect in suspects(evidence.given, test):
        yield _suspect_line(test, suspect)


def _suspect_line(test: Tested, suspect: Suspect) -> Line:
    what = said("{when}: {cause}, {word}", when=test.when, cause=suspect.cause, word=suspect.word)
    why = [said("for: {words}", words=words) for words in suspect.speaks_for]
    why += [said("against: {words}", words=words) for words in suspect.against]
    if suspect.word in ("likely", "possible"):
        why.append(said("look at: {look}", look=suspect.look))
    numbers: Numbers = (("of", "leak path"), ("when", test.when), ("cause", suspect.cause), ("word", suspect.word),
                        ("weight", float(suspect.weight)))  # fmt: skip
    return Line(where=test.cylinder, what=what, numbers=numbers, because=tuple(why))
