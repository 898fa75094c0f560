"""Write a paper of a job, list the kinds, or check a paper against its job.

gudgeon paper KIND JOB --out FILE [--size letter] [--issue]
gudgeon paper check FILE
gudgeon paper --list [JOB]
"""

from __future__ import annotations

import argparse
from pathlib import Path

from gudgeon.problem import refuse


def add_arguments(parser: argparse.ArgumentParser) -> None:
    """A kind and a job, or `check` and a file, or `--list`."""
    parser.add_argument("kind", nargs="?", default="", metavar="KIND", help="a kind of paper, or: check")
    parser.add_argument("job", nargs="?", default="", metavar="JOB", help="the job's number; for check, the file")
    parser.add_argument("--list", action="store_true", help="list the kinds; with a job, when each was handed over")
    parser.add_argument("--out", default="", metavar="FILE", help="where the PDF goes; a name in .html gives a page")
    parser.add_argument("--size", default="a4", help="a4, letter; for labels also a sheet, as in '70 x 37'")
    parser.add_argument(
        "--archival", action="store_true", help="as PDF/A-2a, for a file that must outlive its programs"
    )
    parser.add_argument("--issue", action="store_true", help="write down that it was handed over")
    parser.add_argument("--by", default="owner of this machine", help="who hands it over")
    parser.add_argument("--json", action="store_true")


def run(args: argparse.Namespace) -> int:
    """Do one of the three."""
    if args.list:
        return _list(args)
    if not args.kind or not args.job:
        raise refuse("paper", "A paper needs its kind and its job.", "For the kinds: gudgeon paper --list.")
    return _check(args) if args.kind == "check" else _write(args)


def _list(args: argparse.Namespace) -> int:
    import msgspec

    from gudgeon.workbench.papers import papers

    view = None
    if number := args.job or args.kind:
        from gudgeon.wiring.bench import workbench

        view = workbench().view(number)
    kinds = papers(view)
    if args.json:
        print(msgspec.json.encode(kinds).decode())
        return 0
    wide = max(len(k.key) for k in kinds)
    for k in kinds:
        issued = ", ".join(f"entry {p.entry}{', superseded' if p.superseded else ''}" for p in k.issued)
        print(f"{k.key:<{wide}}  {k.name}, {k.for_whom}" + (f" (handed over: {issued})" if issued else ""))
    return 0


def _write(args: argparse.Namespace) -> int:
    from gudgeon.cli.files import write_bytes
    from gudgeon.wiring.bench import workbench
    from gudgeon.workbench.bench import Hand
    from gudgeon.workbench.papers import issue, page, paper

    if not args.out:
        raise refuse("paper", "It is not said where the paper goes.", "Name a file: --out FILE.")
    bench, out = workbench(), Path(args.out)
    head = None
    if args.issue:
        head = issue(bench, args.job, args.kind, Hand(by=args.by, bench="command line")).seq - 1
    if out.suffix.lower() in (".html", ".htm"):
        write_bytes(out, page(bench, args.job, args.kind, head=head).encode())
    else:
        write_bytes(out, paper(bench, args.job, args.kind, size=args.size, head=head, archival=args.archival))
    print(out)
    return 0


def _check(args: argparse.Namespace) -> int:
    import msgspec

    from gudgeon.cli.files import read_bytes
    from gudgeon.wiring.bench import workbench
    from gudgeon.workbench.papers import check_paper

    found = check_paper(workbench(), read_bytes(Path(args.job)))
    if args.json:
        print(msgspec.json.encode(found).decode())
    else:
        print(f"{found.paper.replace('_', ' ')} of job {found.job}, built on entry {found.entry}:")
        print("\n".join(f"  {words}" for words in found.words))
    return 0 if found.matches else 1
