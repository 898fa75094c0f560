"""The tables. Only ledger rows and books hold the truth; a job's row can be made again from them.

Text is `TextField`, never JSON: a database that knows JSON would reorder it, and the stored line is what is hashed.
"""

from __future__ import annotations

from django.db import models


class Job(models.Model):
    """What the list of jobs shows. `summary` is words made at entry `summary_at`, so that listing never replays."""

    number = models.TextField(primary_key=True)
    title = models.TextField()
    engine_number = models.TextField(blank=True)
    state = models.TextField(default="open")
    scope = models.TextField()
    opened_at = models.TextField()
    summary = models.TextField(default="", blank=True)
    summary_at = models.PositiveIntegerField(default=0)

    class Meta:
        db_table = "job"
        indexes = (models.Index(fields=["-opened_at", "-number"], name="job_newest_first"),)


class LedgerRow(models.Model):
    """One landed entry: its line as text, and the digest after it. Never updated, never deleted."""

    pk = models.CompositePrimaryKey("job", "seq")
    job = models.ForeignKey(Job, on_delete=models.PROTECT, db_index=False, related_name="rows")
    seq = models.PositiveIntegerField()
    entry = models.UUIDField(unique=True)
    line = models.TextField()
    digest = models.BinaryField(max_length=32)

    class Meta:
        db_table = "ledger_row"


class HeadRow(models.Model):
    """Where a ledger stands: one row a job, so that an append reads one row and not the ledger."""

    job = models.OneToOneField(Job, primary_key=True, on_delete=models.PROTECT, related_name="head")
    seq = models.PositiveIntegerField()
    digest = models.BinaryField(max_length=32)

    class Meta:
        db_table = "ledger_head"


class BookText(models.Model):
    """An edition of a book, by the digest of its text."""

    sha256 = models.CharField(primary_key=True, max_length=64)
    name = models.TextField()
    edition = models.TextField()
    text = models.TextField()
    added_at = models.TextField()

    class Meta:
        db_table = "book"


class BookPhoto(models.Model):
    """A photo of the book's page beside one of its values: this workshop's own, never part of the book."""

    book = models.TextField()
    row = models.TextField()
    picture = models.CharField(max_length=64)

    class Meta:
        db_table = "book_photo"
        constraints = (models.UniqueConstraint(fields=["book", "row"], name="book_photo_one_a_row"),)


class ShelfText(models.Model):
    """The shelf as it stood; the last row is today's."""

    text = models.TextField()
    added_at = models.TextField()

    class Meta:
        db_table = "shelf"


class Person(models.Model):
    """An owner or a hand at the bench. Ledgers name the id only, so that a person can be forgotten."""

    id = models.CharField(primary_key=True, max_length=64)
    name = models.TextField()
    phone = models.TextField(default="", blank=True)

    class Meta:
        db_table = "person"


class PairedBench(models.Model):
    """A tablet or laptop that may see the workshop over a network: known by the digest of what its cookie holds."""

    id = models.CharField(primary_key=True, max_length=64)
    name = models.TextField()
    paired_at = models.TextField()
    ended_at = models.TextField(default="", blank=True)

    class Meta:
        db_table = "paired_bench"


class PairingCode(models.Model):
    """A code that pairs one bench, once, until it is too old."""

    id = models.CharField(primary_key=True, max_length=64)
    until = models.TextField()

    class Meta:
        db_table = "pairing_code"
