"""From typed ``key=value`` pairs to an answer: every slip is named at once, before anything is worked out."""

from __future__ import annotations

from collections.abc import Iterable
from math import isfinite

from gudgeon.calculators.catalogue import calculator
from gudgeon.calculators.shape import FILE, WORDS, Answer, Calculator, Key
from gudgeon.problem import Problem, Refused, refuse, said
from gudgeon.units import read

Value = float | str | None


def pairs(words: Iterable[str]) -> tuple[tuple[str, str], ...]:
    """``lash=0.12mm`` as ``("lash", "0.12mm")``."""
    found: list[tuple[str, str]] = []
    problems: list[Problem] = []
    for word in words:
        key, sign, text = word.partition("=")
        if sign and key.strip():
            found.append((key.strip().lower().replace("_", "-"), text.strip()))
        else:
            problems.append(
                _problem(word, "{word} is not key=value.", "Write it as key=value, for example lash=0.12mm.")
            )
    if problems:
        raise Refused(problems)
    return tuple(found)


def answer(name: str, typed: Iterable[tuple[str, str]]) -> Answer:
    """What the calculator `name` makes of the typed pairs (a file key holds the text of the file)."""
    return work_out(calculator(name), typed)


def work_out(kind: Calculator, typed: Iterable[tuple[str, str]]) -> Answer:
    """As `answer`, for a calculator at hand."""
    given = _given(kind, tuple(typed))
    values: dict[str, Value] = {}
    problems: list[Problem] = []
    for key in kind.keys:
        try:
            values[key.argument] = _value(key, given.get(key.name))
        except Refused as refused:
            problems.extend(refused.problems)
    if problems:
        raise Refused(problems)
    return _finite(kind.work(**values))


def _given(kind: Calculator, typed: tuple[tuple[str, str], ...]) -> dict[str, str]:
    known = {key.name for key in kind.keys}
    given: dict[str, str] = {}
    problems: list[Problem] = []
    for name, text in typed:
        if name not in known:
            problems.append(_unknown(kind, name))
        elif name in given:
            problems.append(_problem(name, "{word} was given twice.", "Give it once."))
        else:
            given[name] = text
    missing = [key for key in kind.keys if key.required and key.name not in given]
    problems += [_problem(key.name, "{word} is missing.", "Give {word}: " + key.help + ".") for key in missing]
    if problems:
        raise Refused(problems)
    return given


def _unknown(kind: Calculator, name: str) -> Problem:
    from difflib import get_close_matches

    names = [key.name for key in kind.keys]
    close = get_close_matches(name, names, n=1, cutoff=0.5)
    meant = f"Did you mean {close[0]}? " if close else ""
    keys = ", ".join(names)
    return Problem(
        where=name,
        what=said("{kind} knows no key {word}.", kind=kind.key, word=name),
        remedy=said("{meant}It takes: {keys}.", meant=meant, keys=keys),
    )


def _value(key: Key, text: str | None) -> Value:
    typed = key.default if text is None else text
    if typed is None:
        return None
    if key.dimension == FILE:
        return typed
    if key.dimension == WORDS:
        return _word(key, typed)
    return read(typed, key.dimension, unit=key.bare_unit, where=key.name).value


def _word(key: Key, typed: str) -> str:
    if not key.choices:
        return typed
    word = typed.strip().lower()
    if word in key.choices:
        return word
    raise refuse(key.name, "{given} was given.", "Say one of: {choices}.", given=typed, choices=", ".join(key.choices))


def _finite(result: Answer) -> Answer:
    for one in result.results:
        if isinstance(one.value, float) and not isfinite(one.value):
            raise refuse(one.name, "The figure is too large or is none at all.", "Check what was typed.")
    return result


def _problem(word: str, what: str, remedy: str) -> Problem:
    return Problem(where=word, what=said(what, word=word), remedy=said(remedy, word=word))
