"""Run every bench beside this file and print what was measured beside its limit.

A bench is a module `*_bench.py` whose `rows()` yields `(task, ratio, limit)`. Both sides of a ratio are measured in the same
run, on the same machine, so that a slow computer does not fail it. A limit of `None` is a figure without a promise.
"""

import importlib
import sys
from collections.abc import Iterable
from pathlib import Path

HERE = Path(__file__).resolve().parent
Row = tuple[str, float, float | None]


def judged(ratio: float, limit: float | None) -> str:
    """What a ratio means against its limit; a limit may also be met exactly."""
    if limit is None:
        return "-"
    return "ok" if ratio <= limit else "OVER"


def table(rows: Iterable[Row]) -> list[str]:
    """The rows as lines of equal width."""
    cells = [("task", "ratio", "limit", "ok")]
    for task, ratio, limit in rows:
        cells.append((task, f"{ratio:.3g}", "-" if limit is None else f"{limit:.3g}", judged(ratio, limit)))
    widths = [max(len(line[column]) for line in cells) for column in range(4)]
    return [" | ".join(cell.ljust(width) for cell, width in zip(line, widths, strict=True)).rstrip() for line in cells]


def main(wanted: list[str]) -> int:
    """Run the benches named, or all; exit 1 if a limit is passed."""
    sys.path.insert(0, str(HERE))
    names = sorted(path.stem for path in HERE.glob("*_bench.py"))
    chosen = [name for name in names if not wanted or name.removesuffix("_bench") in wanted]
    rows: list[Row] = [row for name in chosen for row in importlib.import_module(name).rows()]
    print("\n".join(table(rows)))
    return 0 if rows and all(judged(ratio, limit) != "OVER" for _, ratio, limit in rows) else 1


if __name__ == "__main__":
    sys.exit(main(sys.argv[1:]))
