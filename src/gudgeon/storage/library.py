"""Books and the shelf as text. Nothing is overwritten: a job is judged by the edition that it pinned."""

from __future__ import annotations

import hashlib

from gudgeon.storage.append import written
from gudgeon.storage.models import BookPhoto, BookText, ShelfText
from gudgeon.storage.trouble import told
from gudgeon.workbench.ports import Clock


class SqlLibrary:
    """Books by the digest of their text, and every shelf there ever was."""

    def __init__(self, clock: Clock) -> None:
        self._clock = clock

    def put_book(self, text: str, *, name: str, edition: str) -> str:
        """Keep a book; the same text twice is one book."""
        digest = hashlib.sha256(text.encode()).hexdigest()
        with written("book"):
            BookText.objects.get_or_create(
                sha256=digest, defaults={"name": name, "edition": edition, "text": text, "added_at": self._clock.now()}
            )
        return digest

    def book(self, sha256: str) -> str | None:
        """The text of a book, or none."""
        with told("book"):
            return BookText.objects.filter(sha256=sha256).values_list("text", flat=True).first()

    def books(self) -> tuple[tuple[str, str, str], ...]:
        """Digest, name and edition of each, the newest first."""
        with told("books"):
            found = BookText.objects.order_by("-added_at", "name", "-edition").values_list("sha256", "name", "edition")
            return tuple((sha256, name, edition) for sha256, name, edition in found)

    def put_photo(self, book: str, row: str, picture: str) -> None:
        """Put a picture beside a value of every edition of a book; none takes it away."""
        with written("photo"):
            if picture:
                BookPhoto.objects.update_or_create(book=book, row=row, defaults={"picture": picture})
            else:
                BookPhoto.objects.filter(book=book, row=row).delete()

    def photos(self, book: str) -> dict[str, str]:
        """The pictures beside a book's values, by row."""
        with told("photos"):
            return dict(BookPhoto.objects.filter(book=book).values_list("row", "picture"))

    def put_shelf(self, text: str) -> None:
        """Keep the shelf as it stands now, if it changed."""
        with written("shelf"):
            last = ShelfText.objects.order_by("-id").first()
            if last is None or last.text != text:
                ShelfText.objects.create(text=text, added_at=self._clock.now())

    def shelf(self) -> str:
        """Today's shelf, or nothing."""
        with told("shelf"):
            return ShelfText.objects.order_by("-id").values_list("text", flat=True).first() or ""
