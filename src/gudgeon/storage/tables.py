"""Tables as this version of Gudgeon wants them; a database of a later version is left alone."""

from __future__ import annotations

from collections.abc import Iterable

from django.core.management import call_command
from django.db import connection
from django.db.migrations.executor import MigrationExecutor
from django.db.migrations.loader import MigrationLoader

from gudgeon.problem import refuse
from gudgeon.storage.trouble import told


def behind() -> bool:
    """Whether tables are missing or older; refused where a later Gudgeon made them."""
    with told("database"):
        executor = MigrationExecutor(connection)
        refuse_later(executor.loader.applied_migrations)
        return bool(executor.migration_plan(executor.loader.graph.leaf_nodes()))


def refuse_later(applied: Iterable[tuple[str, str]]) -> None:
    """Refuse steps that this version does not know."""
    known = MigrationLoader(None).disk_migrations
    later = sorted(name for app, name in applied if app == "storage" and (app, name) not in known)
    if later:
        raise refuse(
            "database",
            "The database was made by a later Gudgeon ({step}).",
            "Start the version that made it, or a newer one.",
            step=later[0],
        )


def bring_up_to_date() -> None:
    """Make or change the tables, if needed."""
    if behind():
        with told("database"):
            call_command("migrate", verbosity=0, interactive=False)
