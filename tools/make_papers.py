"""Every kind of paper for every job of the demo, as files to look at: make papers."""

from __future__ import annotations

import os
import sys
from pathlib import Path

from gudgeon.cli.main import main


def make(out: Path) -> list[Path]:
    """Tell the demo where it was not told yet, then write its papers."""
    data = out / "data"
    if main(["demo", "--no-serve", "--data", str(data)]) != 0:
        raise SystemExit(1)
    os.environ["GUDGEON_DATA"] = str(data)
    from gudgeon.papers.labels import STOCKS
    from gudgeon.wiring.bench import workbench
    from gudgeon.workbench.papers import paper, papers

    bench, made = workbench(), []
    for job in bench.jobs():
        folder = out / job.number
        folder.mkdir(parents=True, exist_ok=True)
        for kind in papers():
            made.append(folder / f"{kind.key}.pdf")
            made[-1].write_bytes(paper(bench, job.number, kind.key))
        made.append(folder / "labels-on-their-sheet.pdf")
        made[-1].write_bytes(paper(bench, job.number, "labels", size=next(iter(STOCKS))))
    return made


if __name__ == "__main__":
    where = Path(sys.argv[1] if len(sys.argv) > 1 else "out/papers")
    print(f"\n{len(make(where))} papers in {where}")
