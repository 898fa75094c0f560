"""Whether a database file is whole: its pages, its keys, and the digest chain of every ledger in it."""

from __future__ import annotations

import sqlite3
from contextlib import closing
from pathlib import Path

from gudgeon.job import chain
from gudgeon.problem import Problem, said

_REMEDY = said("Take another copy.")


def check(file: Path) -> tuple[Problem, ...]:
    """Everything that is wrong with a closed database file; nothing is changed in it."""
    try:
        with closing(sqlite3.connect(f"{file.absolute().as_uri()}?mode=ro", uri=True)) as database:
            return _pages(database, file.name) or _ledgers(database)
    except (sqlite3.Error, UnicodeDecodeError) as wrong:
        what = said("The file is no whole database of Gudgeon: {why}.", why=str(wrong))
        return (Problem(where=file.name, what=what, remedy=_REMEDY),)


def _pages(database: sqlite3.Connection, name: str) -> tuple[Problem, ...]:
    found = [str(row[0]) for row in database.execute("PRAGMA integrity_check(5)") if row[0] != "ok"]
    found += [f"{row[0]} without its {row[2]}" for row in database.execute("PRAGMA foreign_key_check").fetchmany(5)]
    return tuple(Problem(where=name, what=said("Damaged: {why}.", why=why), remedy=_REMEDY) for why in found)


def _ledgers(database: sqlite3.Connection) -> tuple[Problem, ...]:
    problems: list[Problem] = []
    for job, head_seq, head_digest in database.execute("SELECT job_id, seq, digest FROM ledger_head").fetchall():
        rows = database.execute(
            "SELECT seq, line, digest FROM ledger_row WHERE job_id = ? ORDER BY seq", (job,)
        ).fetchall()
        for wrong in chain.verify([row[1] for row in rows], [row[2] for row in rows]):
            problems.append(Problem(where=f"job {job}, {wrong.where}", what=wrong.what, remedy=wrong.remedy))
        last = rows[-1][2] if rows else chain.START
        if [row[0] for row in rows] != list(range(1, head_seq + 1)) or last != head_digest:
            what = said("The entries do not end at the head, {head}.", head=head_seq)
            problems.append(Problem(where=f"job {job}", what=what, remedy=_REMEDY))
    return tuple(problems)
