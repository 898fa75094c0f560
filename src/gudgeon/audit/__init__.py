"""Checks of a book against itself, the bench's common sense and the shelf: books have misprints."""

from gudgeon.audit.catalogue import CHECKS, audit, not_checked
from gudgeon.audit.shape import Check, Finding

__all__ = ["CHECKS", "Check", "Finding", "audit", "not_checked"]
