"""A workshop of years: 500 books, 2,000 jobs, 200 gauges. What its lists and its search take beside a small workshop's, and
beside the same with ten times the entries in every job; and the audit of its largest book beside reading its TOML."""

from __future__ import annotations

import json
import os
import subprocess
import sys
import tempfile
import tomllib
from collections.abc import Callable, Iterator
from pathlib import Path
from types import MappingProxyType
from typing import TYPE_CHECKING, Any

from timing import best

if TYPE_CHECKING:
    from django.test import Client

    from gudgeon.workbench.bench import Workbench

BOOKS, JOBS, GAUGES, FEW = 500, 2_000, 200, 30
ENTRIES, TIMES = 6, 10
ROUNDS = 25
START = "2026-11-25T08:00:00Z"
DEMO = Path(__file__).resolve().parents[1] / "src" / "gudgeon" / "demo" / "books"
PAGES = MappingProxyType({"list of jobs": "/", "search by machine": "/?search=sled+17", "search by owner": "/?search=ternhaug",
                          "books, shelf and the rest": "/more"})  # fmt: skip


def rows() -> Iterator[tuple[str, float, float | None]]:
    """The pages in a process of their own, since a process keeps to one data folder; then the audit."""
    with tempfile.TemporaryDirectory() as name:
        told = subprocess.run([sys.executable, __file__, name], check=True, capture_output=True, text=True)
    took: dict[str, dict[str, float]] = json.loads(told.stdout.splitlines()[-1])
    for page in PAGES:
        few, many, long = (took[size][page] for size in ("few", "many", "long"))
        promised = 1.5 if page == "list of jobs" else None
        yield f"{page}, {JOBS} jobs, {BOOKS} books / {FEW}", many / few, promised
        yield f"{page}, {TIMES} x the entries / before", long / many, 1.25
        yield f"{page}, ms", many * 1000, None
    yield "book check / tomllib and pydantic, largest book", _check(), 3.0


def _check() -> float:
    """The same file read by `tomllib`, its rows taken by the same pydantic models, and nothing else."""
    from gudgeon.audit.catalogue import audit
    from gudgeon.book.layout import LayoutTyped
    from gudgeon.book.parse import ROWS, TABLES, Title
    from gudgeon.shelf.parse import parse_shelf

    text = max((file.read_text(encoding="utf-8") for file in DEMO.glob("*.toml")), key=len)
    shelf = parse_shelf((DEMO.parent / "shelf.toml").read_text(encoding="utf-8"))
    models: dict[str, Any] = {key: model for key, (_field, model) in (*TABLES.items(), *ROWS.items())}
    models |= {"book": Title, "layout": LayoutTyped}

    def plain() -> None:
        for key, table in tomllib.loads(text).items():
            for row in table if isinstance(table, list) else [table]:
                models[key].model_validate(row)

    plain()
    audit(text, shelf)
    return best(lambda: audit(text, shelf), 15) / best(plain, 15)


def _measured(folder: Path) -> dict[str, dict[str, float]]:
    """Pages of few, of many, and of many with long ledgers; each the least of many rounds."""
    os.environ["GUDGEON_DATA"] = str(folder / "data")
    from gudgeon.wiring.bench import workbench

    bench = workbench()
    from django.test import Client

    client, found = Client(HTTP_HOST="127.0.0.1"), dict[str, dict[str, float]]()
    _jobs(bench, 0, FEW)
    _shelf(bench, FEW)
    _books(bench, FEW)
    found["few"] = _timed(client)
    _jobs(bench, FEW, JOBS)
    _shelf(bench, GAUGES)
    _books(bench, BOOKS)
    found["many"] = _timed(client)
    for n in range(JOBS):
        _write(bench, n, ENTRIES, ENTRIES * TIMES)
    found["long"] = _timed(client)
    return found


def _timed(client: Client) -> dict[str, float]:
    return {page: best(_look(client, at), ROUNDS) for page, at in PAGES.items()}


def _look(client: Client, at: str) -> Callable[[], None]:
    def look() -> None:
        assert client.get(at, follow=True).status_code == 200

    look()
    return look


def _jobs(bench: Workbench, first: int, last: int) -> None:
    for n in range(first, last):
        bench.ledgers.open(f"J{n:04}", title=f"sled {n}", engine_number=str(n), scope="valves", opened_at=START)
        _write(bench, n, 0, ENTRIES)
    bench.people.put("owner-3", name="Ida Ternhaug")


def _write(bench: Workbench, job: int, first: int, last: int) -> None:
    """Notes, all at once, and the line that the list keeps of them."""
    typed = []
    for n in range(first + 1, last + 1):
        id = f"{job:08x}-0000-4000-8000-{n:012x}"
        body = f'{{"fact":"note/1","words":"{"looked at it again " * 5}","owner":"owner-{job}"}}'
        typed.append(
            (f'{{"id":"{id}","typed_at":"{START}","by":"k1","bench":"b1","nth":{n},"seen":{n - 1},"body":{body}}}', id)
        )
    bench.ledgers.append_all(f"J{job:04}", tuple(typed), account="bench", on_head=None)
    bench.ledgers.note_summary(f"J{job:04}", state="open", scope="valves", summary="lash is not measured", at=last)


def _books(bench: Workbench, count: int) -> None:
    text = (DEMO / "tarn.toml").read_text(encoding="utf-8")
    for n in range(count):
        name = f"Tarn {n}"
        bench.library.put_book(text.replace("Tarn 174", name), name=name, edition="1")


def _shelf(bench: Workbench, count: int) -> None:
    cards = (f'[[gauge]]\nid = "M-{n}"\nkind = "micrometer"\nname = "micrometer {n}"\nunit = "mm"\nresolution = "0.001 mm"\n'
             f'permissible_error = "0.004 mm"\nrepeatability = "0.001 mm"\nsource = "invented"\n' for n in range(count))  # fmt: skip
    bench.put_shelf("\n".join(cards))


if __name__ == "__main__":
    print(json.dumps(_measured(Path(sys.argv[1]))))
