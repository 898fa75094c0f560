"""Books, shelf and people."""

from __future__ import annotations

import hashlib
from pathlib import Path

from gudgeon.storage.library import SqlLibrary
from gudgeon.storage.models import ShelfText
from gudgeon.storage.people import SqlPeople
from gudgeon.workbench.clock import StoryClock


def test_editions_are_kept_side_by_side(folder: Path, clock: StoryClock) -> None:
    library = SqlLibrary(clock)
    first = library.put_book("a = 1\n", name="Engine", edition="1")
    clock.go_on(minutes=1)
    second = library.put_book("a = 2\n", name="Engine", edition="2")
    assert library.put_book("a = 1\n", name="Engine", edition="1") == first
    assert first == hashlib.sha256(b"a = 1\n").hexdigest()
    assert library.books() == ((second, "Engine", "2"), (first, "Engine", "1"))
    assert (library.book(first), library.book(second), library.book("nil")) == ("a = 1\n", "a = 2\n", None)


def test_every_shelf_is_kept_and_the_last_is_todays(folder: Path, clock: StoryClock) -> None:
    library = SqlLibrary(clock)
    assert library.shelf() == ""
    for text in ("one", "two", "two", "one"):
        library.put_shelf(text)
    assert library.shelf() == "one"
    assert list(ShelfText.objects.order_by("id").values_list("text", flat=True)) == ["one", "two", "one"]


def test_a_person_can_be_corrected_and_forgotten(folder: Path) -> None:
    people = SqlPeople()
    people.put("p1", name="A. Bell", phone="0")
    people.put("p1", name="A. Bell", phone="12 34")
    assert people.person("p1") == ("A. Bell", "12 34")
    people.forget("p1")
    assert people.person("p1") is None
