"""Jobs from the command line: list, open, show, record, import readings, retract, widen, export, import."""

from __future__ import annotations

import argparse
from pathlib import Path
from typing import TYPE_CHECKING

from gudgeon.cli.files import read_bytes, read_text, write_bytes
from gudgeon.cli.summary import plan_lines, summary
from gudgeon.problem import refuse

if TYPE_CHECKING:
    from gudgeon.job.entries import Reading
    from gudgeon.workbench.bench import Hand, Workbench


_COLUMNS = {
    "value": "heading or number of the column of values; without any column the gauge's last ones hold",
    "where": "heading or number of the column of places; without it rows go in the order of the bench sheet",
    "point": "heading or number of the column of points",
    "unit": "a unit, or heading or number of its column; without it the gauge's own",
    "decimal": "the decimal sign: . or ,",
    "separator": "what parts the columns: , or ; or tab",
}


def add_arguments(parser: argparse.ArgumentParser) -> None:
    """The verbs of a job, each with what it needs."""
    verbs = parser.add_subparsers(dest="verb", required=True)
    listing = verbs.add_parser("list", help="all jobs, what each waits for")
    listing.add_argument("--search", default="", help="words in number, engine or machine")
    _add_opening(verbs)
    showing = verbs.add_parser("show", help="verdicts, plans, holds, what is next")
    showing.add_argument("job")
    showing.add_argument("--plan", default="", help="one plan only")
    recording = verbs.add_parser("record", help="record one reading, or a table of them")
    recording.add_argument("job")
    recording.add_argument(
        "what", nargs="*", metavar="key=value", help="measurand=lash where=c1.in.left text=0.12/0.13 …"
    )
    recording.add_argument("--csv", default="", help="a table of readings, all or nothing")
    _add_collecting(verbs)
    retracting = verbs.add_parser("retract", help="take an entry back: it never happened")
    retracting.add_argument("job")
    retracting.add_argument("entry", type=int)
    retracting.add_argument("--reason", default="")
    retracting.add_argument("--dry-run", action="store_true", help="only say what would change")
    earlier = verbs.add_parser("earlier", help="take in what earlier jobs read: of this engine, or of its family")
    earlier.add_argument("job")
    earlier.add_argument("--family", action="store_true", help="of other engines of the same book")
    _add_returning(verbs)
    widening = verbs.add_parser("widen", help="ask for more than the job began with")
    widening.add_argument("job")
    widening.add_argument("scope")
    pinning = verbs.add_parser("pin", help="put a job on another edition of its book, seeing what differs first")
    pinning.add_argument("job")
    pinning.add_argument("book", help="a book file, or the name or first figures of the digest of a kept one")
    pinning.add_argument("--dry-run", action="store_true", help="only say what differs")
    owning = verbs.add_parser("own", help="add a part, measure, step or check that only this job has")
    owning.add_argument("job")
    owning.add_argument("kind", choices=("part", "measure", "step", "check"))
    owning.add_argument("what", nargs="+", metavar="key=value", help='name="reed petal gap" at=c*/piston unit=mm …')
    exporting = verbs.add_parser("export", help="a job as a file: .zip whole, .csv or .xlsx tables, .json everything")
    exporting.add_argument("job")
    exporting.add_argument("file", help="its ending says what is written")
    exporting.add_argument("--table", default="readings", choices=("readings", "verdicts"), help="which one, as .csv")
    importing = verbs.add_parser("import", help="take a job from a file")
    importing.add_argument("file")
    importing.add_argument("--number", default="", help="keep it under another number, where its own is taken")
    for verb in verbs.choices.values():
        verb.add_argument("--by", default="bench", help="who types")
        verb.add_argument("--json", action="store_true")


def _add_opening(verbs: argparse._SubParsersAction[argparse.ArgumentParser]) -> None:
    """What a job is opened with."""
    opening = verbs.add_parser("open", help="open a job")
    opening.add_argument("number")
    opening.add_argument("--book", required=True, help="a book file, or the name of a kept book")
    opening.add_argument("--engine", required=True, help="engine number")
    opening.add_argument("--scope", default="valves", help="valves, leak test, cylinder, head out, whole top end")
    for name in ("machine", "hours", "complaint", "altitude"):
        opening.add_argument(f"--{name}", default="")
    opening.add_argument(
        "--another-meter", action="store_true", help="fewer hours than before: the meter is another one"
    )


def _add_collecting(verbs: argparse._SubParsersAction[argparse.ArgumentParser]) -> None:
    """What a gauge's file needs: which gauge, what it read, and its columns."""
    collecting = verbs.add_parser("import-readings", help="readings from the file of a gauge that collects them")
    collecting.add_argument("job")
    collecting.add_argument("file", help="CSV or XLSX")
    collecting.add_argument("--gauge", required=True)
    collecting.add_argument("--measurand", required=True)
    for name, words in _COLUMNS.items():
        collecting.add_argument(f"--{name}", default="", help=words)
    collecting.add_argument("--confirm", nargs="*", default=[], metavar="ROW", help="rows whose reading is no slip")
    collecting.add_argument("--leave-out", nargs="*", default=[], metavar="ROW", help="rows that do not count")
    collecting.add_argument("--dry-run", action="store_true", help="only say what each row would become")


def _add_returning(verbs: argparse._SubParsersAction[argparse.ArgumentParser]) -> None:
    """What a machining order that came back needs."""
    returning = verbs.add_parser("returned", help="a machining order that came back: all of it lands, or nothing")
    returning.add_argument("job")
    returning.add_argument("file", nargs="?", default="", help="the shop's table, CSV: place, measurand, point, value")
    returning.add_argument(
        "--gauge", nargs="*", default=[], metavar="MEASURAND=GAUGE", help="read with; else the first"
    )
    returning.add_argument("--temperature", default="", help="where it was measured, as in '21 °C'")
    returning.add_argument(
        "--untouched", nargs="*", default=[], metavar="SLOT", help="signed as untouched; all: every one"
    )
    returning.add_argument("--rest-unwritten", action="store_true", help="the shop did not write the rest: note it")


def run(args: argparse.Namespace) -> int:
    """Do what the verb says."""
    from gudgeon.wiring.bench import workbench
    from gudgeon.workbench.bench import Hand

    bench = workbench()
    hand = Hand(by=args.by, bench="command line")
    return int(_VERBS[args.verb](bench, args, hand))


def _list(bench: Workbench, args: argparse.Namespace, hand: Hand) -> int:
    rows = bench.jobs(search=args.search)
    if args.json:
        import msgspec

        print(msgspec.json.encode([{"number": r.number, "title": r.title, "state": r.state, "scope": r.scope,
                                    "next": r.summary, "head": r.head} for r in rows]).decode())  # fmt: skip
        return 0
    for row in rows:
        print(f"{row.number:<10} {row.title:<28} {row.state:<7} {row.scope:<14} {row.summary}")
    if not rows:
        print("No jobs yet: gudgeon job open NUMBER --book FILE --engine NUMBER, or gudgeon demo.")
    return 0


def _open(bench: Workbench, args: argparse.Namespace, hand: Hand) -> int:
    from gudgeon.job.entries import JobOpened
    from gudgeon.workbench.history import open_known

    opened = JobOpened(
        number=args.number,
        engine_number=args.engine,
        scope=args.scope,
        machine=args.machine,
        hours=args.hours,
        complaint=args.complaint,
        altitude=args.altitude,
    )
    print(open_known(bench, opened, _book(bench, args.book), hand, another_meter=args.another_meter))
    return 0


def _book(bench: Workbench, named: str) -> str:
    path = Path(named)
    if path.is_file():
        return bench.add_book(read_text(path), name=path.name)
    found = [sha for sha, name, _edition in bench.library.books()
             if name == named or (len(named) >= 6 and sha.startswith(named))]  # fmt: skip
    if not found:
        raise refuse("book", "No book {name} is kept, and no file is called that.", "Name a file.", name=named)
    return found[-1]


def _show(bench: Workbench, args: argparse.Namespace, hand: Hand) -> int:
    import msgspec

    view = bench.view(args.job)
    if args.plan:
        plan = view.plan(args.plan)
        if plan is None:
            known = ", ".join(p.key for p in view.plans) or "none"
            raise refuse("plan", "The job has no plan {key}.", "Plans: {known}.", key=args.plan, known=known)
        print(msgspec.json.encode(plan).decode() if args.json else "\n".join(plan_lines(view, args.plan)))
    elif args.json:
        print(msgspec.json.encode(view).decode())
    else:
        print("\n".join(summary(view)))
    return 0


def _record(bench: Workbench, args: argparse.Namespace, hand: Hand) -> int:
    from gudgeon.workbench.trade import record_csv

    if args.csv:
        landed = record_csv(bench, args.job, read_text(Path(args.csv)), hand, name=Path(args.csv).name)
        print(f"{len(landed)} entries landed, the last is {landed[-1].seq}")
        return 0
    words = dict(word.partition("=")[::2] for word in args.what)
    (landed_one,) = bench.record(args.job, (_reading(words),), hand)
    print(f"entry {landed_one.seq} · {landed_one.digest.hex()[:12]}")
    return 0


def _reading(words: dict[str, str]) -> Reading:
    """A reading from ``key=value`` words; what is missing or unknown is said at once."""
    from gudgeon.job.entries import Reading

    known = ("measurand", "where", "point", "text", "unit", "gauge", "temperature", "confirm")
    unknown = [key for key in words if key not in known]
    missing = [key for key in ("measurand", "where", "text", "gauge") if not words.get(key)]
    if unknown or missing:
        raise refuse("reading", "Missing: {missing}; unknown: {unknown}.", "Give key=value, keys: {known}.",
                     missing=", ".join(missing) or "none", unknown=", ".join(unknown) or "none",
                     known=", ".join(known))  # fmt: skip
    return Reading(
        measurand=words["measurand"],
        where=words["where"],
        point=words.get("point", ""),
        text=words["text"],
        unit=words.get("unit", ""),
        gauge=words["gauge"],
        temperature=words.get("temperature", ""),
        confirmed=tuple(words.get("confirm", "").split()),
    )


def _collect(bench: Workbench, args: argparse.Namespace, hand: Hand) -> int:
    """Offer the rows of a gauge's file, then land those that were not left out, or none."""
    from gudgeon.workbench.gauge_data import accept, columns_of, offer, remembered

    cells = {name: getattr(args, name) for name in _COLUMNS}
    columns = None if any(cells.values()) else remembered(bench, args.gauge)
    columns = columns or columns_of(cells | {"gauge": args.gauge})
    offered = offer(bench, args.job, read_bytes(Path(args.file)), Path(args.file).name, columns, args.measurand)
    for row in offered.rows:
        text = f"{row.reading.text} {row.reading.unit}" if row.reading else ""
        print(f"{row.row}: {row.state:<12} {row.words:<30} {text:<14} {row.why}".rstrip())
    if not args.dry_run:
        landed = accept(bench, args.job, offered, hand, confirmed=args.confirm, left_out=args.leave_out)
        print(f"{len(landed)} entries landed, the last is {landed[-1].seq}")
    return 0


def _retract(bench: Workbench, args: argparse.Namespace, hand: Hand) -> int:
    changed = bench.if_retracted(args.job, args.entry)
    print("\n".join(changed) if changed else "nothing changes")
    if not args.dry_run:
        landed = bench.retract(args.job, args.entry, args.reason, hand)
        print(f"retracted by entry {landed.seq}")
    return 0


def _earlier(bench: Workbench, args: argparse.Namespace, hand: Hand) -> int:
    from gudgeon.workbench.history import take_earlier, take_family

    taken = (take_family if args.family else take_earlier)(bench, args.job, hand)
    print(f"earlier jobs read: {taken}")
    return 0


def _widen(bench: Workbench, args: argparse.Namespace, hand: Hand) -> int:
    from gudgeon.job.entries import ScopeWidened

    bench.record(args.job, (ScopeWidened(scope=args.scope),), hand)
    print(bench.view(args.job).next.words)
    return 0


def _returned(bench: Workbench, args: argparse.Namespace, hand: Hand) -> int:
    """Without a file it says what is asked for; with one, all of it lands as one batch."""
    from gudgeon.workbench.returning import accept, form, typed_from

    sheet = form(bench, args.job)
    if not args.file:
        rows = (f"{f.where},{f.key.split(':')[1]},{f.point}," for item in sheet.items for f in item.fields)
        print("\n".join(("place,measurand,point,value", *rows)))
        return 0
    path = Path(args.file)
    typed = {f"gauge:{measurand}": cards[0][0] for measurand, _name, cards in sheet.gauges if cards}
    typed |= {f"gauge:{k}": v for k, _, v in (pair.partition("=") for pair in args.gauge)}
    typed |= typed_from(read_bytes(path), path.name, sheet) | {"temperature": args.temperature}
    every = [slot for slot, _words in sheet.untouched]
    signed = every if "all" in args.untouched else args.untouched
    if strange := [slot for slot in signed if slot not in every]:
        what, known = "{slot} is not among what came back untouched.", ", ".join(every)
        raise refuse("--untouched", what, "It may be: all, {known}.", slot=strange[0], known=known)
    typed |= {f"untouched:{slot}": "on" for slot in signed}
    landed = accept(bench, args.job, typed, hand, seen=sheet.seen, rest_unwritten=args.rest_unwritten)
    print(f"{len(landed)} entries; next: {bench.view(args.job).next.words}")
    return 0


def _pin(bench: Workbench, args: argparse.Namespace, hand: Hand) -> int:
    from gudgeon.workbench.editions import if_pinned, pin

    sha = _book(bench, args.book)
    differs = if_pinned(bench, args.job, sha)
    print("\n".join(map(str, differs)) or "no difference")
    if not args.dry_run:
        print(f"pinned by entry {pin(bench, args.job, sha, hand).seq}")
    return 0


def _own(bench: Workbench, args: argparse.Namespace, hand: Hand) -> int:
    from gudgeon.workbench.adding import own_of

    words = dict(word.partition("=")[::2] for word in args.what)
    (landed,) = bench.record(args.job, (own_of(args.kind, words),), hand)
    print(f"entry {landed.seq} · {landed.digest.hex()[:12]}")
    return 0


def _export(bench: Workbench, args: argparse.Namespace, hand: Hand) -> int:
    from gudgeon.workbench.data_out import export

    write_bytes(Path(args.file), export(bench, args.job, Path(args.file).suffix, args.table))
    print(args.file)
    return 0


def _import(bench: Workbench, args: argparse.Namespace, hand: Hand) -> int:
    from gudgeon.workbench.trade import import_job

    print(import_job(bench, read_bytes(Path(args.file)), Path(args.file).name, args.number))
    return 0


_VERBS = {
    "list": _list,
    "open": _open,
    "show": _show,
    "record": _record,
    "import-readings": _collect,
    "retract": _retract,
    "earlier": _earlier,
    "returned": _returned,
    "widen": _widen,
    "pin": _pin,
    "own": _own,
    "export": _export,
    "import": _import,
}
