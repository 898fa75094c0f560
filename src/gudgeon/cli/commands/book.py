"""Check a book against itself, the routes and, where there is one, this workshop's shelf; list or show kept books."""

from __future__ import annotations

import argparse
from pathlib import Path
from typing import TYPE_CHECKING

from gudgeon.problem import refuse

if TYPE_CHECKING:
    from gudgeon.shelf.parse import Shelf
    from gudgeon.workbench.auditing import BookCheck


def add_arguments(parser: argparse.ArgumentParser) -> None:
    """The verbs of a book."""
    verbs = parser.add_subparsers(dest="verb", required=True)
    check = verbs.add_parser("check", help="audit a book file: misprints, swapped ends, torque that cannot be")
    check.add_argument("file", metavar="FILE")
    check.add_argument("--json", action="store_true")
    listing = verbs.add_parser("list", help="the books that are kept")
    listing.add_argument("--json", action="store_true")
    show = verbs.add_parser("show", help="print a kept book, by name or the first figures of its digest")
    show.add_argument("book")
    add = verbs.add_parser("import", help="keep a book; refused where it cannot be used")
    add.add_argument("file", metavar="FILE")
    diff = verbs.add_parser("diff", help="what differs between two books, files or kept ones")
    diff.add_argument("one")
    diff.add_argument("other")


def run(args: argparse.Namespace) -> int:
    """Do what the verb says."""
    verbs = {"check": _check, "list": _list, "show": _show, "import": _import, "diff": _diff}
    return verbs[args.verb](args)


def _check(args: argparse.Namespace) -> int:
    import msgspec

    from gudgeon.cli.files import read_text
    from gudgeon.workbench.auditing import check_book

    text = read_text(Path(args.file))
    found = check_book(text, _shelf(), Path(args.file).name)
    print(msgspec.json.encode(found).decode() if args.json else "\n".join(_lines(found)))
    return 1 if found.errors else 0


def _lines(found: BookCheck) -> list[str]:
    lines = []
    for f in found.findings:
        sums = f" ({f.arithmetic})" if f.arithmetic else ""
        lines.append(f"{f.where}: {f.severity}: {f.what}{sums} {f.remedy}")
    lines += [f"not checked: {name}" for name in found.not_checked]
    warnings = len(found.findings) - found.errors
    return [*lines, f"{found.errors} errors, {warnings} warnings"]


def _shelf() -> Shelf | None:
    """The shelf of the data folder, if there is a data folder with one; a check makes no folder."""
    from gudgeon.wiring.folder import data_folder

    if not data_folder().exists():
        return None
    from gudgeon.wiring.bench import workbench

    bench = workbench()
    return bench.shelf() if bench.library.shelf().strip() else None


def _list(args: argparse.Namespace) -> int:
    import json

    from gudgeon.wiring.bench import workbench

    books = workbench().library.books()
    if args.json:
        print(json.dumps([{"sha256": sha, "name": name, "edition": edition} for sha, name, edition in books]))
        return 0
    for sha, name, edition in books:
        print(f"{sha[:12]}  {name}, edition {edition}")
    if not books:
        print("No book is kept yet. Keep one: gudgeon book import FILE.")
    return 0


def _show(args: argparse.Namespace) -> int:
    print(_text(args.book), end="")
    return 0


def _import(args: argparse.Namespace) -> int:
    from gudgeon.cli.files import read_text
    from gudgeon.wiring.bench import workbench

    print(workbench().add_book(read_text(Path(args.file)), name=Path(args.file).name))
    return 0


def _diff(args: argparse.Namespace) -> int:
    from difflib import unified_diff

    one, other = _text(args.one), _text(args.other)
    lines = list(unified_diff(one.splitlines(), other.splitlines(), args.one, args.other, lineterm="", n=2))
    print("\n".join(lines) if lines else "no difference")
    return 1 if lines else 0


def _text(named: str) -> str:
    """A book by file, else by the name or the digest of a kept one, the newest edition first."""
    from gudgeon.cli.files import read_text

    if Path(named).is_file():
        return read_text(Path(named))
    from gudgeon.wiring.bench import workbench

    library = workbench().library
    shas = [sha for sha, name, _e in library.books() if name == named or (len(named) >= 6 and sha.startswith(named))]
    text = library.book(shas[-1]) if shas else None
    if text is None:
        raise refuse(
            "book", "Neither a file nor a kept book is called {name}.", "Look at: gudgeon book list.", name=named
        )
    return text
