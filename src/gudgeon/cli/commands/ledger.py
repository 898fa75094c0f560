"""Verify a job's ledger: every digest follows from its entry, and a digest that you hold occurs in it."""

from __future__ import annotations

import argparse

from gudgeon.problem import Refused, refuse


def add_arguments(parser: argparse.ArgumentParser) -> None:
    """One verb so far."""
    verbs = parser.add_subparsers(dest="verb", required=True)
    verify = verbs.add_parser("verify", help="show any change before a digest that you hold")
    verify.add_argument("job")
    verify.add_argument("--against", default="", metavar="DIGEST", help="a digest from a paper or an archive")
    verify.add_argument("--json", action="store_true")


def run(args: argparse.Namespace) -> int:
    """Verify, and say where the ledger stands."""
    import json

    from gudgeon.wiring.bench import workbench

    against = "".join(args.against.split()).lower()
    if against and (len(against) < 8 or set(against) - set("0123456789abcdef")):
        raise refuse("ledger", "{given} is no digest.", "Give at least eight of its figures, 0 to 9 and a to f.",
                     given=args.against)  # fmt: skip
    bench = workbench()
    if bench.ledgers.job(args.job) is None:
        raise refuse(f"job {args.job}", "There is no such job.", "Look at the list of jobs: gudgeon job list.")
    problems = bench.verify(args.job, against)
    if problems:
        raise Refused(problems)
    head = bench.ledgers.head(args.job)
    if args.json:
        print(json.dumps({"job": args.job, "entries": head.seq, "digest": head.digest.hex(), "verified": True}))
    else:
        held = "; the digest given is one of its own" if against else ""
        print(f"{args.job}: {head.seq} entries, every digest follows{held}\n{head.digest.hex()}")
    return 0
