"""The real clock, the only place that reads the time."""

from __future__ import annotations

import time
import uuid


class SystemClock:
    """UTC to the second, and random ids."""

    def now(self) -> str:
        """Like ``2026-11-25T08:00:02Z``."""
        return time.strftime("%Y-%m-%dT%H:%M:%SZ", time.gmtime())

    def new_id(self) -> str:
        """A random UUID."""
        return str(uuid.uuid4())
