"""How long a task takes, for benches whose work stays in this process."""

from __future__ import annotations

import gc
import time
from collections.abc import Callable


def best(task: Callable[[], object], times: int) -> float:
    """The shortest of several runs, in seconds of this process; without the collector, as `timeit` measures."""
    found = []
    gc.collect()
    gc.disable()
    for _ in range(times):
        start = time.process_time()
        task()
        found.append(time.process_time() - start)
    gc.enable()
    return min(found)
