"""The workbench with its stores behind it: the one place that knows which store keeps what."""

from __future__ import annotations

import os
from pathlib import Path
from typing import TYPE_CHECKING

from gudgeon.wiring.folder import alone, data_folder, prepare

if TYPE_CHECKING:
    from gudgeon.workbench.bench import Workbench
    from gudgeon.workbench.pairing import Pairing
    from gudgeon.workbench.ports import Clock, Copies, People


def workbench(clock: Clock | None = None) -> Workbench:
    """The workbench of the data folder, its tables brought up to date."""
    open_database()
    return assembled(_data(), clock or system_clock())


def assembled(folder: Path, clock: Clock) -> Workbench:
    """A workbench over the database that Django holds, with copies and pictures in a folder."""
    from gudgeon.storage.ledger import SqlLedgers
    from gudgeon.storage.library import SqlLibrary
    from gudgeon.storage.people import SqlPeople
    from gudgeon.storage.pictures import FilePictures
    from gudgeon.workbench.bench import Workbench

    return Workbench(
        ledgers=SqlLedgers(clock),
        library=SqlLibrary(clock),
        pictures=FilePictures(folder / "pictures"),
        copies=_copies(folder, clock),
        people=SqlPeople(),
        clock=clock,
    )


def open_database() -> None:
    """The tables as this version wants them; what an earlier one made is copied first."""
    boot()
    from gudgeon.storage import tables

    with alone(_data()):
        if _has_database() and tables.behind():
            copies().make()
        tables.bring_up_to_date()


def copies() -> Copies:
    """The copies alone: they must work where the database does not."""
    boot()
    return _copies(_data(), system_clock())


def people() -> People:
    """Owners and hands, beside the ledgers."""
    boot()
    from gudgeon.storage.people import SqlPeople

    return SqlPeople()


def pairing() -> Pairing:
    """Who may come in over a network."""
    boot()
    from gudgeon.storage.benches import SqlAccounts, SqlBenches
    from gudgeon.workbench.pairing import Pairing

    return Pairing(benches=SqlBenches(), accounts=SqlAccounts(), clock=system_clock())


def boot() -> None:
    """The data folder and Django; the tables are left as they are."""
    prepare(data_folder())  # before the settings, which read the secret
    os.environ.setdefault("DJANGO_SETTINGS_MODULE", "gudgeon.wiring.settings")
    import django

    django.setup()


def _copies(folder: Path, clock: Clock) -> Copies:
    from django.conf import settings
    from django.db import connection

    from gudgeon.storage.copies import ElsewhereCopies, SqliteCopies

    if connection.vendor != "sqlite":
        return ElsewhereCopies()
    second = Path(settings.GUDGEON_SECOND_PLACE) if settings.GUDGEON_SECOND_PLACE else None
    database = Path(str(connection.settings_dict["NAME"]))
    return SqliteCopies(database, folder / "copies", clock, pictures=folder / "pictures", second=second)


def _data() -> Path:
    from django.conf import settings

    return Path(settings.GUDGEON_DATA)


def _has_database() -> bool:
    from django.db import connection

    return connection.vendor == "sqlite" and Path(str(connection.settings_dict["NAME"])).exists()


def system_clock() -> Clock:
    """The real one."""
    from gudgeon.storage.clock import SystemClock

    return SystemClock()
