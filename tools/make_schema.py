"""Write docs/job.schema.json anew: the schema of a job's JSON, made from the structs that are its only description."""

from __future__ import annotations

import json
from pathlib import Path

from gudgeon.view.whole import schema

ROOT = Path(__file__).resolve().parents[1]
TARGET = ROOT / "docs" / "job.schema.json"


def text() -> str:
    """The schema as it is kept."""
    return json.dumps(schema(), indent=1, ensure_ascii=False) + "\n"


if __name__ == "__main__":
    TARGET.write_text(text(), encoding="utf-8")
    print(TARGET.relative_to(ROOT))
