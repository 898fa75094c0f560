"""What every kind of paper says in the same way: its title block, a value with its doubt, a limit strip, a list of places."""

from __future__ import annotations

from collections.abc import Iterable
from dataclasses import replace
from datetime import datetime

from gudgeon.figures.part import part_drawing
from gudgeon.figures.places import DrawingSpec
from gudgeon.figures.strip import StripSpec, limit_strip
from gudgeon.papers.blocks import Figure, TitleBlock
from gudgeon.problem import Refused
from gudgeon.view.job import CharacteristicView, JobView, PartView
from gudgeon.view.record import JobRecord, ReadingView

#: Words with which a hold may pass.
GOOD = ("as new", "serviceable", "in setting", "holds", "in line")
#: Words that say nothing about the part.
OPEN = ("too close to call", "not measured", "stale", "not comparable")
DASH = "–"
#: What the first start asks for, wherever it is written down.
FIRST_START = (
    "First start outdoors: open doors and a fan do not protect from carbon monoxide. Stop switch in hand, extinguisher at hand, "
    "no loose sleeve; watch oil at the cams and stop after ten seconds without it; no cap off hot."
)


def title(view: JobRecord, name: str, for_whom: str) -> TitleBlock:
    """The title block of a paper: the date is that of the last entry, never that of printing."""
    book, job = view.job.book, view.job
    return TitleBlock(
        paper=name,
        engine=engine(view),
        job=" · ".join(w for w in (job.number, job.scope_name) if w),
        book=f"{book.name}, edition {book.edition}",
        by=view.ledger.by,
        ledger=f"entry {view.ledger.head} · {grouped(view.ledger.digest[:16])}",
        date=moment(view.ledger.at),
        for_whom=for_whom,
        workshop=workshop(view),
    )


def workshop(view: JobRecord) -> str:
    """The workshop's name and address in one line."""
    rules = view.record.rules
    lines = (rules.get("paper_header", ""), *rules.get("paper_address", "").splitlines())
    return ", ".join(line.strip() for line in lines if line.strip())


def engine(view: JobView) -> str:
    """The engine by name and number."""
    return " ".join(w for w in (view.job.book.name, f"no. {view.job.engine_number}") if w.strip())


def grouped(digest: str) -> str:
    """A digest in groups of four, so that it can be read out."""
    return " ".join(digest[i : i + 4] for i in range(0, len(digest), 4))


def moment(at: str) -> str:
    """A stored time as date and hour; what is no time stays as it is."""
    try:
        return datetime.fromisoformat(at).strftime("%Y-%m-%d %H:%M")
    except ValueError:
        return at


def day(at: str) -> str:
    """The date of a stored time."""
    return moment(at)[:10]


def with_unit(text: str, unit: str) -> str:
    """A number and its unit; words and "no gap" have none."""
    return f"{text} {unit}".strip() if any(c.isdigit() for c in text) else text


def doubt(u: float | None, places: int) -> str:
    """What the gauge cannot tell, as "± 0.006": twice the standard uncertainty, never rounded away."""
    if not u:
        return ""
    while 2 * u * 10.0**places < 0.95 and places < 9:
        places += 1
    return f"± {2 * u:.{places}f}"


def value(c: CharacteristicView) -> str:
    """A value as it is shown: "0.094 ± 0.004 mm", "no gap", "holds"."""
    if not c.said or c.verdict == "not measured":
        return DASH
    if c.value is None:
        return c.said
    return with_unit(" ".join(w for w in (c.said, doubt(c.u, c.places)) if w), c.unit)


def as_found(c: CharacteristicView) -> str:
    """The as-found value as it is shown."""
    return with_unit(c.as_found.said, c.unit) if c.as_found and c.as_found.said else DASH


def as_found_bounds(c: CharacteristicView) -> str:
    """The limits that a part used again was held against."""
    if c.as_found is None or (c.as_found.low is None and c.as_found.high is None):
        return ""
    least, most = number(c.as_found.low, c.places), number(c.as_found.high, c.places)
    if c.as_found.low is None or c.as_found.high is None:
        return with_unit(f"≤ {most}" if c.as_found.low is None else f"≥ {least}", c.unit)
    return with_unit(f"{least} – {most}", c.unit)


def bounds(c: CharacteristicView) -> str:
    """New range and limits: "new 5.000 – 5.012; ≤ 5.070 mm"."""
    low, high = c.new or (None, None)
    if c.judged_new:
        low = high = None
    shown = {name: number(v, c.places) for name, v in (("lo", low), ("hi", high), ("least", c.low), ("most", c.high))}
    new = f"new {shown['lo']} – {shown['hi']}" if low is not None and high is not None else ""
    new = new or (f"new ≤ {shown['hi']}" if high is not None else f"new ≥ {shown['lo']}" if low is not None else "")
    if c.low is not None and c.high is not None:
        limit = f"{'new ' if c.judged_new else ''}{shown['least']} – {shown['most']}"
    else:
        limit = f"≥ {shown['least']}" if c.low is not None else f"≤ {shown['most']}" if c.high is not None else ""
    found = "; ".join(w for w in (new, limit) if w)
    return with_unit(found, c.unit) if found else DASH


def number(size: float | None, places: int) -> str:
    """A size with its places; a dash where there is none."""
    return DASH if size is None else f"{size:.{places}f}".replace("-", "−")


def strip(c: CharacteristicView, *, before: bool = False, width_mm: float = 0.0) -> Figure | str:
    """The limit strip of a characteristic now, or as found; words where there is no number to draw."""
    size, u = (c.as_found.value, c.as_found.u) if before and c.as_found else (c.value, c.u)
    said = as_found(c) if before else value(c)
    word = c.as_found.verdict if before and c.as_found else c.verdict
    low, high = c.new or (None, None)
    least, most = (c.as_found.low, c.as_found.high) if before and c.as_found else (c.low, c.high)
    if c.judged_new and not before:
        low = high = None
    if size is None or all(v is None for v in (low, high, least, most)):
        return f"{said}\n{word}"
    try:
        spec = StripSpec(
            value=size,
            whisker=2 * u if u else None,
            new_low=low,
            new_high=high if low is None or high is None or high > low else None,
            low=least,
            high=most,
            unit=c.unit,
            places=c.places,
            verdict=word,
            title=f"{c.name}, {'as found' if before else 'now'}",
            width=330.0,
        )
        svg = limit_strip(spec)
    except Refused:
        return f"{said}\n{word}"
    return Figure(svg=svg, alt=f"{c.name}: {said}, {word}; {bounds(c)}", width_mm=width_mm)


def part_figure(drawing: str, spec: DrawingSpec, alt: str, width_mm: float) -> Figure:
    """A part as the screens draw it, its captions as large as its other words: a sheet is smaller than a screen."""
    svg = part_drawing(drawing, replace(spec, large=True)).replace('font-size="16"', 'font-size="25"')
    return Figure(svg=svg, alt=alt, width_mm=width_mm)


def split(c: CharacteristicView) -> tuple[str, str]:
    """What is judged, and where: "stem diameter", "intake left"."""
    what, _, place = c.name.partition(", ")
    return what, place


def shim_of(view: JobRecord, place: str) -> PartView | None:
    """The shim that stands over a valve."""
    return next((p for p in view.parts if p.slot == f"{place}/shim"), None)


def thickness(view: JobRecord, part: str | None) -> ReadingView | None:
    """The newest measurement of a shim that counts."""
    found = [
        r for r in view.record.readings if r.measurand == "shim_thickness" and r.part == part and r.counts == "fresh"
    ]
    return found[-1] if part and found else None


def shim_words(view: JobRecord, place: str) -> str:
    """The shim of a valve as mark and measured size."""
    part = shim_of(view, place)
    if part is None:
        return DASH
    read = thickness(view, part.part)
    measured = with_unit(read.text, read.unit) if read else part.thickness
    return " · ".join(w for w in (part.mark, measured) if w) or DASH


def spans(numbers: Iterable[int]) -> str:
    """Entry numbers as spans: "3–5, 9"."""
    found: list[list[int]] = []
    for n in sorted(set(numbers)):
        if found and n == found[-1][1] + 1:
            found[-1][1] = n
        else:
            found.append([n, n])
    return ", ".join(f"{a}" if a == b else f"{a}–{b}" for a, b in found)


def listed(words: Iterable[str]) -> str:
    """Lines, each with a dash before it."""
    return "\n".join(f"– {w}" for w in words)


def grouped_by(pairs: Iterable[tuple[str, str]], most: int = 99) -> list[str]:
    """Each thing once with its places ("seat cut: left, right"), in the order first met; more than `most` are counted."""
    found: dict[str, list[str]] = {}
    for what, place in pairs:
        found.setdefault(what, []).append(place)
    lines = []
    for what, places in found.items():
        named = list(dict.fromkeys(p for p in places if p))
        words = ", ".join(named) if len(named) <= most else f"{len(named)} places"
        lines.append(f"{what}: {words}" if named else what)
    return lines
