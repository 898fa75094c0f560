"""The whole job as one JSON text, for whoever reads it with other programs: what is shown, its record, and every entry.

``docs/job.schema.json`` is made from this and published; new keys may come, none goes within ``job/1``.
"""

from __future__ import annotations

from typing import Any

import msgspec

from gudgeon.job.entries import Entry
from gudgeon.view.record import JobRecord


class WholeJob(JobRecord, frozen=True, kw_only=True):
    """A job's read model and record, and the entries that all of it follows from."""

    landed: tuple[Entry, ...]


def schema() -> dict[str, Any]:
    """The published schema (JSON Schema 2020-12) of a whole job."""
    found = msgspec.json.schema(WholeJob)
    return {
        "$schema": "https://json-schema.org/draft/2020-12/schema",
        "title": "A Gudgeon job, format job/1",
        "description": "Numbers are in mm, N, kPa, cm³, degrees, % or h; null is unknown. New keys may come, none goes.",
        **found,
    }
