"""Make a checked copy of everything now, or list the copies that are kept."""

from __future__ import annotations

import argparse


def add_arguments(parser: argparse.ArgumentParser) -> None:
    """Make one, or list."""
    parser.add_argument("--list", action="store_true", help="list the copies instead")
    parser.add_argument("--json", action="store_true")


def run(args: argparse.Namespace) -> int:
    """Copy, and say what was made; a copy that does not pass its check is no success."""
    import json
    from dataclasses import asdict

    from gudgeon.wiring.bench import copies

    kept = copies()
    found = kept.all() if args.list else (kept.make(),)
    if args.json:
        print(json.dumps([asdict(copy) for copy in found], ensure_ascii=False))
    else:
        for copy in found:
            print(
                f"{copy.name}  {copy.made_at}  {copy.size / 1e6:.1f} MB  {'checked' if copy.checked else 'NOT SOUND'}"
            )
        if not found:
            print("No copy is kept yet. Make one: gudgeon backup.")
    return 0 if all(copy.checked for copy in found) or args.list else 1
