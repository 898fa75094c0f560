"""Columns out of a typed or exported table whose header names carry their units: ``x_mm,y_mm,z_um``."""

from __future__ import annotations

import csv

from gudgeon.problem import Problem, Refused, refuse, said
from gudgeon.units import convert

MOST_ROWS = 200_000
MOST_PROBLEMS = 5


def lengths(text: str, names: tuple[str, ...], where: str = "points") -> tuple[tuple[float, ...], ...]:
    """Rows of the named columns in millimetres; each header is the name and a unit of length."""
    rows, places = _table(text, names, where, with_units=True)
    factors = tuple(_factor(unit, name, where) for (_, unit), name in zip(places, names, strict=True))
    indices = tuple(place for place, _ in places)
    return _numbers(rows, indices, factors, where)


def numbers(text: str, names: tuple[str, ...], where: str = "points") -> tuple[tuple[float, ...], ...]:
    """Rows of the named columns as plain numbers, in whatever unit they are."""
    rows, places = _table(text, names, where, with_units=False)
    return _numbers(rows, tuple(place for place, _ in places), tuple(1.0 for _ in names), where)


def words(text: str, names: tuple[str, ...], where: str = "points") -> tuple[tuple[str, ...], ...]:
    """Rows of the named columns as they stand."""
    rows, places = _table(text, names, where, with_units=False)
    return tuple(tuple(cells[place] for place, _ in places) for _, cells in rows)


def number(text: str, line: int, name: str, where: str) -> float:
    """One cell as a number."""
    try:
        value = float(text.replace("−", "-"))
    except ValueError:
        value = float("nan")
    if "_" in text or not abs(value) < 1e12:
        raise Refused(_no_number(text, line, name, where))
    return value


Rows = list[tuple[int, list[str]]]


def _table(
    text: str, names: tuple[str, ...], where: str, *, with_units: bool
) -> tuple[Rows, tuple[tuple[int, str], ...]]:
    if text.count("\n") > MOST_ROWS + 1:
        raise refuse(where, "There are more than {most} rows.", "Give fewer points.", most=MOST_ROWS)
    rows = _rows(text, where)
    if len(rows) < 2:
        header = _header(names, with_units)
        raise refuse(
            where, "There is no row below a header.", "Give a CSV file with the header {header}.", header=header
        )
    titles = rows[0][1]
    places = _places(titles, names, where, with_units)
    odd = [(line, cells) for line, cells in rows[1:] if len(cells) != len(titles)]
    if odd:
        raise refuse(
            f"{where} line {odd[0][0]}",
            "There are {found} cells under {wanted} columns.",
            "Give each row one cell a column; write decimals with a point, or separate cells by semicolons.",
            found=len(odd[0][1]),
            wanted=len(titles),
        )
    return rows[1:], places


def _rows(text: str, where: str) -> Rows:
    """Line number and cells of every line that holds any; decimal commas are read where semicolons or tabs separate."""
    lines = text.splitlines()
    first = next((line for line in lines if line.strip()), "")
    sign = ";" if ";" in first else "\t" if "\t" in first else ","
    reader = csv.reader(lines, delimiter=sign)
    rows: Rows = []
    try:
        for cells in reader:
            if any(cell.strip() for cell in cells):
                rows.append((reader.line_num, [_cell(cell, sign) for cell in cells]))
    except csv.Error as error:
        raise refuse(f"{where} line {reader.line_num}", "The line cannot be read.", "Save it as CSV again.") from error
    return rows


def _cell(cell: str, sign: str) -> str:
    return cell.strip() if sign == "," else cell.strip().replace(",", ".")


def _places(header: list[str], names: tuple[str, ...], where: str, with_units: bool) -> tuple[tuple[int, str], ...]:
    found: dict[str, tuple[int, str]] = {}
    for place, title in enumerate(header):
        name, _, unit = title.partition("_")
        if name.lower() in names and name.lower() not in found:
            found[name.lower()] = (place, unit)
    if any(name not in found or (with_units and not found[name][1]) for name in names):
        raise refuse(
            f"{where} line 1",
            "The header is {found}.",
            "Write {header}, names with their units.",
            found=",".join(header)[:80],
            header=_header(names, with_units),
        )
    return tuple(found[name] for name in names)


def _header(names: tuple[str, ...], with_units: bool) -> str:
    return ",".join(f"{name}_mm" if with_units else name for name in names)


def _factor(unit: str, name: str, where: str) -> float:
    try:
        return convert(1.0, unit, "mm")
    except Refused as refused:
        raise refuse(
            f"{where} line 1",
            "{name}_{unit}: {unit} is no unit of length.",
            "Write mm, um, in or thou.",
            name=name,
            unit=unit[:20],
        ) from refused


def _numbers(
    rows: Rows, places: tuple[int, ...], factors: tuple[float, ...], where: str
) -> tuple[tuple[float, ...], ...]:
    problems: list[Problem] = []
    found: list[tuple[float, ...]] = []
    pairs = tuple(zip(places, factors, strict=True))
    for line, cells in rows:
        try:
            found.append(
                tuple(number(cells[place], line, f"column {place + 1}", where) * factor for place, factor in pairs)
            )
        except Refused as refused:
            problems += refused.problems
            if len(problems) == MOST_PROBLEMS:
                break
    if problems:
        raise Refused(problems)
    return tuple(found)


def _no_number(text: str, line: int, name: str, where: str) -> Problem:
    return Problem(
        where=f"{where} line {line}, {name}",
        what=said("“{text}” is not a number.", text=text[:40]),
        remedy=said("Give a plain number such as 0.012; the unit stands in the header."),
    )
