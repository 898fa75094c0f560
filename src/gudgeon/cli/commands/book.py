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
    show.add_argument("--json", action="store_true", help="its places, limits, fasteners, parts, editions as JSON")
    verbs.add_parser("schema", help="the shape of a book as JSON Schema, for editors")
    add = verbs.add_parser("import", help="keep a book; with --into, take limits from a table (CSV, XLSX, text)")
    add.add_argument("file", metavar="FILE")
    add.add_argument("--into", default="", metavar="BOOK", help="the book file that the table's rows go into")
    add.add_argument("--accept", choices=("sure", "all", "none"), default="sure", help="which rows are taken")
    add.add_argument("--dry-run", action="store_true", help="only say what would become of each row")
    add.add_argument("--json", action="store_true")
    new = verbs.add_parser("new", help="a book of a layout, or like another one, under a name of its own")
    new.add_argument("name", nargs="?", default="")
    new.add_argument("--layout", default="", metavar="WORDS", help='as in "vtwin, 4v, finger, plated"; see --list')
    new.add_argument("--list", action="store_true", help="the words of a layout")
    new.add_argument("--like", default="", metavar="BOOK", help="a book file, or the name of a kept book")
    new.add_argument("--out", default="", metavar="FILE", help="write it there instead of printing it")
    diff = verbs.add_parser("diff", help="what differs between two books, files or kept ones")
    diff.add_argument("one")
    diff.add_argument("other")
    diff.add_argument("--json", action="store_true")


def run(args: argparse.Namespace) -> int:
    """Do what the verb says."""
    verbs = {"check": _check, "list": _list, "show": _show, "schema": _schema, "import": _import, "diff": _diff,
             "new": _new}  # fmt: skip
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
    text = _text(args.book)
    if not args.json:
        print(text, end="")
        return 0
    import msgspec

    from gudgeon.wiring.folder import data_folder
    from gudgeon.workbench.editions import editions, shown

    found = shown(text)
    if data_folder().exists():
        from gudgeon.wiring.bench import workbench

        found = shown(text, editions(workbench().library, text))
    print(msgspec.json.encode(found).decode())
    return 0


def _schema(args: argparse.Namespace) -> int:
    from gudgeon.workbench.editions import book_schema

    print(book_schema(), end="")
    return 0


def _import(args: argparse.Namespace) -> int:
    if args.into:
        return _take_in(args)
    from gudgeon.cli.files import read_text
    from gudgeon.wiring.bench import workbench

    print(workbench().add_book(read_text(Path(args.file)), name=Path(args.file).name))
    return 0


def _take_in(args: argparse.Namespace) -> int:
    """Rows of a table into a book file: what is kept, skipped, and needs an answer; the file is written whole or not."""
    import json

    from gudgeon.cli.files import read_bytes, read_text, write_bytes
    from gudgeon.workbench.importing import take_in

    into = Path(args.into)
    old = read_text(into)
    text, fates = take_in(old, read_bytes(Path(args.file)), Path(args.file).name, args.accept)
    if text != old and not args.dry_run:
        write_bytes(into, text.encode("utf-8"))
    if args.json:
        print(json.dumps([{"row": f.row, "item": f.item, "fate": f.fate, "why": f.why} for f in fates]))
    else:
        print("\n".join(f"{f.row}: {f.item}: {f.fate}" + (f": {f.why}" if f.why else "") for f in fates))
    return 0 if all(f.fate == "kept" for f in fates) else 1


def _new(args: argparse.Namespace) -> int:
    from gudgeon.cli.files import write_bytes
    from gudgeon.workbench.comparing import book_like
    from gudgeon.workbench.layouts import book_of_layout, choices

    if args.list:
        for choice in choices():
            print(f"{choice.name}{'' if choice.needed else ' (may be left out)'}: {', '.join(choice.words)}")
        return 0
    if bool(args.like) == bool(args.layout):
        raise refuse("book", "It needs a layout or a book to be like.", "Give --layout WORDS or --like BOOK.")
    text = book_like(_text(args.like), args.name) if args.like else book_of_layout(args.layout, args.name)
    if not args.out:
        print(text, end="")
    elif Path(args.out).exists():
        raise refuse(args.out, "There is a file of this name already.", "Give another name.")
    else:
        write_bytes(Path(args.out), text.encode("utf-8"))
    return 0


def _diff(args: argparse.Namespace) -> int:
    import msgspec

    from gudgeon.workbench.comparing import compare

    found = compare(_text(args.one), _text(args.other))
    if args.json:
        print(msgspec.json.encode(found).decode())
    else:
        print("\n".join(map(str, found)) or "no difference")
    return 1 if found else 0


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
