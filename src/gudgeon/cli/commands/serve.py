"""Start the bench on this machine and, if asked, open it in the browser or serve it to tablets on the same network."""

from __future__ import annotations

import argparse


def add_arguments(parser: argparse.ArgumentParser) -> None:
    """Where it listens, whether the browser opens, and how a network is served."""
    parser.add_argument("--host", default="", help="127.0.0.1, or 0.0.0.0 with --lan")
    parser.add_argument("--port", type=int, default=8000)
    parser.add_argument("--open", action="store_true", help="open the browser")
    lan = parser.add_argument_group("on a network: nothing is served without pairing or login")
    lan.add_argument("--lan", action="store_true", help="with TLS, by a certificate authority made on this computer")
    lan.add_argument("--name", default="", help="a further name of this computer on the network")
    lan.add_argument("--cert", default="", metavar="FILE", help="a certificate of your own (PEM), with --key")
    lan.add_argument("--key", default="", metavar="FILE", help="its key (PEM)")
    lan.add_argument("--plain", action="store_true", help="without TLS: a page must then stay open while cut off")


def run(args: argparse.Namespace) -> int:
    """Serve until interrupted."""
    from gudgeon.problem import refuse
    from gudgeon.wiring.lan import Lan
    from gudgeon.wiring.start import start

    if not args.lan and (args.cert or args.key or args.plain or args.name):
        raise refuse("serve", "--name, --cert, --key and --plain are for a network.", "Say --lan with them.")
    lan = Lan(cert=args.cert, key=args.key, plain=args.plain, name=args.name) if args.lan else None
    start(args.host or ("0.0.0.0" if lan else "127.0.0.1"), args.port, open_browser=args.open, lan=lan)
    return 0
