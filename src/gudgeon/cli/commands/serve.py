"""Start the bench on this machine and, if asked, open it in the browser."""

from __future__ import annotations

import argparse


def add_arguments(parser: argparse.ArgumentParser) -> None:
    """Where it listens, and whether the browser opens."""
    parser.add_argument("--host", default="127.0.0.1")
    parser.add_argument("--port", type=int, default=8000)
    parser.add_argument("--open", action="store_true", help="open the browser")


def run(args: argparse.Namespace) -> int:
    """Serve until interrupted."""
    from gudgeon.wiring.start import start

    start(args.host, args.port, open_browser=args.open)
    return 0
