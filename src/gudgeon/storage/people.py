"""Owners and hands, beside the ledger: an entry names an id, so that a person can be corrected or forgotten."""

from __future__ import annotations

from gudgeon.storage.append import written
from gudgeon.storage.models import Person
from gudgeon.storage.trouble import told


class SqlPeople:
    """Name and telephone by id."""

    def put(self, person: str, *, name: str, phone: str = "") -> None:
        """Keep or correct a person."""
        with written("person"):
            Person.objects.update_or_create(id=person, defaults={"name": name, "phone": phone})

    def person(self, person: str) -> tuple[str, str] | None:
        """Name and telephone, or none."""
        with told("person"):
            return Person.objects.filter(id=person).values_list("name", "phone").first()

    def forget(self, person: str) -> None:
        """Take a person's data out; what the ledger holds stays, without a name."""
        with written("person"):
            Person.objects.filter(id=person).delete()
