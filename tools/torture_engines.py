"""Thousands of randomly worn engines, each worked until its route is done or the bench gives the reason why not.

`python tools/torture_engines.py [how many] [first seed] [scope]`. A seed makes the same engine and the same job again: what failed is
worked alone by `python tools/torture_engines.py 1 SEED`. The exit is not zero where an engine ended in neither.
"""

from __future__ import annotations

import sys
import time
import traceback
from collections import Counter
from concurrent.futures import ProcessPoolExecutor
from functools import partial
from pathlib import Path

ROOT = Path(__file__).resolve().parents[1]
sys.path.insert(0, str(ROOT))

from tests.torture.technician import Ended, Technician  # noqa: E402


def worked(seed: int, scope: str = "") -> Ended:
    """One engine; an exception is a failure of the bench like any other."""
    technician = Technician(seed, scope)
    try:
        return technician.work()
    except Exception:
        last = traceback.format_exc().strip().splitlines()
        return technician.ended("failed", " ".join(line.strip() for line in last[-3:]), 0)


def told(ends: list[Ended], seconds: float) -> None:
    """The summary, what stopped, and every seed that failed."""
    how = Counter(e.how for e in ends)
    print(f"{len(ends)} engines in {seconds:.0f} s: {how['finished']} finished with every hold passed on evidence, "
          f"{how['stopped']} stopped for a reason of the bench, {how['failed']} in neither")  # fmt: skip
    print(f"{sum(e.readings for e in ends)} readings, {sum(e.entries for e in ends)} entries")
    for (book, scope), count in sorted(Counter((e.book, e.scope) for e in ends).items()):
        print(f"  {book}, {scope}: {count}")
    for reason, times in Counter(e.words.split(":")[0] for e in ends if e.how == "stopped").most_common():
        print(f"  stopped {times} ×: {reason}")
    for e in (e for e in ends if e.how == "failed"):
        print(f"  seed {e.seed}, {e.book}, {e.scope}, {e.entries} entries: {e.words}")


def main(arguments: list[str]) -> int:
    """So many engines from a first seed on."""
    count, first = (int(arguments[n]) if len(arguments) > n else usual for n, usual in ((0, 1000), (1, 0)))
    scope, began = arguments[2] if len(arguments) > 2 else "", time.monotonic()
    print(f"seeds {first} to {first + count - 1}", flush=True)
    with ProcessPoolExecutor() as pool:
        ends = list(pool.map(partial(worked, scope=scope), range(first, first + count), chunksize=4))
    told(ends, time.monotonic() - began)
    return 1 if any(e.how == "failed" for e in ends) else 0


if __name__ == "__main__":
    sys.exit(main(sys.argv[1:]))
