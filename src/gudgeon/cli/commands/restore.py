"""Put a kept copy back in place of what is there now; what is there now is copied first.

Stop the bench before, or its open pages will look at another database than they began with.
"""

from __future__ import annotations

import argparse

from gudgeon.problem import refuse


def add_arguments(parser: argparse.ArgumentParser) -> None:
    """Which copy, and that it is meant."""
    parser.add_argument("copy", nargs="?", default="", metavar="COPY", help="its name, from gudgeon backup --list")
    parser.add_argument("--yes", action="store_true", help="do it: all that was written since is set aside")


def run(args: argparse.Namespace) -> int:
    """Name the newest sound copy where none is named, and restore only when told to."""
    from gudgeon.wiring.bench import copies

    kept = copies()
    sound = [copy for copy in kept.all() if copy.checked]
    named = next((c for c in kept.all() if c.name == args.copy), None)
    if named is None:
        known = ", ".join(c.name for c in sound) or "none"
        raise refuse("restore", "There is no copy {name}." if args.copy else "It is not said which copy.",
                     "Copies: {known}.", name=args.copy, known=known)  # fmt: skip
    if not args.yes:
        raise refuse("restore", "This sets aside all that was written since {at}.", "If that is meant, add --yes.",
                     at=named.made_at)  # fmt: skip
    kept.restore(named.name)
    print(f"restored {named.name} of {named.made_at}")
    return 0
