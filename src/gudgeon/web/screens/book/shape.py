"""The sheet of a book's pages."""

from __future__ import annotations

from django.utils.translation import gettext as _

from gudgeon.web.shape import Sheet


def book_sheet(name: str, edition: str, what: str = "") -> Sheet:
    """The frame of a page about a book."""
    subtitle = _("edition %(edition)s") % {"edition": edition}
    return Sheet(door="more", title=name, subtitle=" · ".join(t for t in (subtitle, what) if t))
