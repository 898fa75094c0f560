"""Tell an invented overhaul from the complaint to the signed record, print it, write its record, and serve the bench.

It has a folder of its own, beside the workshop's data, and never touches a real job.
"""

from __future__ import annotations

import argparse
import os
from pathlib import Path
from typing import TYPE_CHECKING

from gudgeon.problem import refuse

if TYPE_CHECKING:
    from gudgeon.workbench.bench import Workbench

#: What a workshop may have set for its own data, and the demo leaves alone.
OF_THE_WORKSHOP = ("GUDGEON_DATABASE_URL", "GUDGEON_SECOND_PLACE")


def add_arguments(parser: argparse.ArgumentParser) -> None:
    """Where it lies, and whether it is served."""
    parser.add_argument("--data", default="", metavar="DIR", help="its folder (gudgeon-demo beside the workshop's)")
    parser.add_argument("--no-serve", action="store_true", help="stop before serving")
    parser.add_argument("--port", type=int, default=8000)
    parser.add_argument("--open", action="store_true", help="open the browser")


def run(args: argparse.Namespace) -> int:
    """Tell it where it was not told yet; then show the finished job."""
    from gudgeon.cli.summary import summary
    from gudgeon.demo.run import BEGINS, STEP_SECONDS
    from gudgeon.demo.story import NUMBER
    from gudgeon.wiring.bench import workbench
    from gudgeon.wiring.folder import data_folder
    from gudgeon.workbench.clock import StoryClock
    from gudgeon.workbench.papers import paper

    folder = (Path(args.data).expanduser() if args.data else data_folder().with_name("gudgeon-demo")).resolve()
    for name in OF_THE_WORKSHOP:
        os.environ.pop(name, None)
    os.environ["GUDGEON_DATA"] = str(folder)
    bench = workbench(StoryClock(BEGINS, "demo", STEP_SECONDS))
    _told(bench, folder)
    view = bench.view(NUMBER)
    print("\n".join(summary(view)))
    record = folder / f"hand-over-{NUMBER}.pdf"
    handed_over = max(p.entry for p in view.papers if p.paper == "hand_over")
    _write(record, paper(bench, NUMBER, "hand_over", head=handed_over - 1))
    print(f"\nHand-over record: {record}")
    if not args.no_serve:
        from gudgeon.wiring.start import start

        start(port=args.port, open_browser=args.open)
    return 0


def _told(bench: Workbench, folder: Path) -> None:
    """Tell it into an empty folder; one that holds anything but the whole story is left as it is."""
    from gudgeon.demo.run import JOBS, tell

    held = {row.number for row in bench.jobs()}
    if not held:
        print("Telling the story: some ten seconds …", flush=True)
        tell(bench)
    elif not held >= set(JOBS):
        raise refuse("demo", "{folder} holds other jobs, or a story that was broken off.",
                     "Name an empty folder with --data, or remove this one if nothing in it is yours.",
                     folder=str(folder))  # fmt: skip


def _write(file: Path, data: bytes) -> None:
    try:
        file.write_bytes(data)
    except OSError as wrong:
        raise refuse(
            str(file), "It cannot be written: {why}.", "Look at the folder.", why=str(wrong.strerror)
        ) from None
