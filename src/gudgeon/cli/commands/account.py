"""Accounts for a network: who may come in by name and password where no camera is at hand."""

from __future__ import annotations

import argparse


def add_arguments(parser: argparse.ArgumentParser) -> None:
    """What to do, and with whom."""
    parser.add_argument("what", choices=("add", "list", "remove"), help="add also changes a password")
    parser.add_argument("name", nargs="?", default="")


def run(args: argparse.Namespace) -> int:
    """Ask for the password; it is never an argument, which other users of this computer could read."""
    from gudgeon.problem import refuse
    from gudgeon.wiring.bench import open_database, pairing

    open_database()
    door = pairing()
    if args.what == "list":
        print("\n".join(door.accounts.names()) or "No account yet: gudgeon account add NAME")
        return 0
    if not args.name:
        raise refuse("account", "A name is missing.", "Say gudgeon account {what} NAME.", what=args.what)
    if args.what == "remove":
        door.remove_account(args.name)
        print(f"{args.name} may not come in any more.")
        return 0
    door.put_account(args.name, _asked())
    print(f"{args.name.strip()} may come in.")
    return 0


def _asked() -> str:
    import sys
    from getpass import getpass

    from gudgeon.problem import refuse

    if not sys.stdin.isatty():
        return sys.stdin.readline().rstrip("\n")
    first = getpass("Password: ")
    if first != getpass("Again: "):
        raise refuse("account", "The two are not the same.", "Type it twice alike.")
    return first
