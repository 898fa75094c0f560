"""Work a figure out: gudgeon calc NAME key=value …

Values are typed as on the bench: lash=0.12mm, lash=5thou, supply=80psi. A bare number takes the usual unit of its key.
"""

from __future__ import annotations

import argparse
import sys

from gudgeon.calculators.catalogue import CALCULATORS, calculator
from gudgeon.calculators.shape import FILE, Answer, Calculator, Key
from gudgeon.problem import refuse

MOST_BYTES = 32_000_000


def add_arguments(parser: argparse.ArgumentParser) -> None:
    """The words of ``calc``; help is answered here because it depends on the name."""
    parser.add_argument("name", nargs="?", metavar="NAME", help="which calculator")
    parser.add_argument("pairs", nargs="*", metavar="key=value", help="what it needs; points=FILE.csv reads a file")
    parser.add_argument("--json", action="store_true", help="print the answer as JSON")
    parser.add_argument("-h", "--help", action="store_true", help="list the calculators, or the keys of NAME")


def arrange(words: list[str]) -> list[str]:
    """Flags may stand anywhere: argparse wants them behind the words."""
    return sorted(words, key=lambda word: word.startswith("-"))


def run(args: argparse.Namespace) -> int:
    """Print the list, the keys of one, or an answer."""
    if args.name is None:
        print(listing(), file=sys.stdout if args.help else sys.stderr)
        return 0 if args.help else 2
    if args.help:
        print(keys_of(calculator(args.name)))
        return 0
    print(_json(_answer(args)) if args.json else worded(_answer(args)))
    return 0


def _answer(args: argparse.Namespace) -> Answer:
    from gudgeon.calculators.asking import pairs, work_out

    kind = calculator(args.name)
    files = {key.name for key in kind.keys if key.dimension == FILE}
    typed = [(name, _text_of(name, text) if name in files else text) for name, text in pairs(args.pairs)]
    return work_out(kind, typed)


def _text_of(name: str, path: str) -> str:
    from pathlib import Path

    file = Path(path)
    try:
        size = file.stat().st_size
        if size > MOST_BYTES:
            raise refuse(name, "{path} holds {size} bytes.", "Give a file of at most {most} bytes.",
                         path=path, size=size, most=MOST_BYTES)  # fmt: skip
        return file.read_text(encoding="utf-8-sig")
    except OSError as error:
        raise refuse(name, "{path} cannot be read: {why}.", "Give the name of a CSV file.",
                     path=path, why=error.strerror or "no such file") from error  # fmt: skip
    except ValueError as error:
        raise refuse(name, "{path} is not text.", "Save it as CSV in UTF-8.", path=path) from error


def listing() -> str:
    """All calculators, one line each."""
    wide = max(map(len, CALCULATORS))
    lines = [f"  {name:<{wide}}  {line}" for name, (line, _) in CALCULATORS.items()]
    return "\n".join(
        ["usage: gudgeon calc NAME key=value … [--json]", "", *lines, "", "gudgeon calc NAME --help: its keys."]
    )


def keys_of(kind: Calculator) -> str:
    """The keys of one calculator, what each takes, and an example."""
    wide = max(len(key.name) for key in kind.keys)
    lines = [f"  {key.name:<{wide}}  {key.help}{_takes(key)}" for key in kind.keys]
    return "\n".join([f"{kind.key}: {kind.line}", "", *lines, "", f"gudgeon calc {kind.key} {kind.example}"])


def _takes(key: Key) -> str:
    if key.dimension == FILE:
        kind = "a CSV file"
    elif key.choices:
        kind = " or ".join(key.choices)
    else:
        kind = key.dimension + (f", {key.bare_unit} unless said" if key.bare_unit else "")
    rest = f"; {key.default} if not given" if key.default else "; may be left out" if key.optional else ""
    return f" ({kind}{rest})"


def worded(answer: Answer) -> str:
    """The answer as lines: figures first, then how, from where, and when it holds."""
    wide = max(len(result.name) for result in answer.results)
    lines = [f"{r.name:<{wide}}  {_shown(r.value)} {r.unit}".rstrip() for r in answer.results]
    lines += ["", f"Method: {answer.method}", f"Source: {answer.source}", f"Valid: {answer.validity}"]
    return "\n".join([*lines, *(f"Note: {note}" for note in answer.notes)])


def _shown(value: float | str) -> str:
    if isinstance(value, str):
        return value
    text = f"{value:.6g}" if abs(value) < 1e6 else f"{value:.0f}"
    return text.replace("-", "−", 1) if text.startswith("-") else text


def _plain(name: str) -> str:
    """A figure's name as a program wants it: ``clearance_volume``."""
    return "_".join("".join(sign if sign.isalnum() else " " for sign in name).split())


def _json(answer: Answer) -> str:
    import json

    results = [{"name": _plain(r.name), "value": r.value, "unit": r.unit} for r in answer.results]
    whole = {
        "results": results,
        "method": answer.method,
        "source": answer.source,
        "validity": answer.validity,
        "notes": list(answer.notes),
    }
    return json.dumps(whole, ensure_ascii=False, allow_nan=False)
