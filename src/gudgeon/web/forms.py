"""What plain forms need: their cells as text, who types, and the problems of a refusal for a template."""

from __future__ import annotations

from dataclasses import dataclass

from django.http import HttpRequest, HttpResponse

from gudgeon.problem import Refused, refuse
from gudgeon.web.words import problem_words
from gudgeon.workbench.bench import Hand
from gudgeon.workbench.ports import Bench


@dataclass(frozen=True, slots=True, kw_only=True)
class Wrong:
    """One problem as a page shows it."""

    where: str
    what: str
    remedy: str


def wrongs(refused: Refused) -> tuple[Wrong, ...]:
    """Every problem of a refusal."""
    return tuple(Wrong(**problem_words(p)) for p in refused.problems)


def cells(request: HttpRequest) -> dict[str, str]:
    """What was typed, by field."""
    return {key: str(value) for key, value in request.POST.items()}


def hand(request: HttpRequest) -> Hand:
    """Who typed a form: the initials that the tablet holds."""
    by = str(request.POST.get("by", "")).strip()[:20] or "bench"
    return Hand(by=by, bench="web", account=account(request))


def account(request: HttpRequest) -> str:
    """The bench that was let in at the door; alone on this computer there is no door."""
    paired: Bench | None = getattr(request, "paired", None)
    return paired.name if paired else "local"


def photo_sent(request: HttpRequest) -> bytes:
    """The photo of a form; whoever keeps it looks at what it is."""
    given = request.FILES.get("photo")
    if given is None or isinstance(given, list):
        raise refuse("photo", "No picture was chosen.", "Choose one first.")
    content: bytes = given.read()
    return content


def photo_answer(data: bytes) -> HttpResponse:
    """A kept picture: always a JPEG that was made here."""
    headers = {"X-Content-Type-Options": "nosniff", "Content-Disposition": "inline"}
    return HttpResponse(data, content_type="image/jpeg", headers=headers)


def uploaded(request: HttpRequest, field: str, most: int = 2 * 1024 * 1024) -> tuple[str, str]:
    """Name and text of an uploaded file; refused when it is no text or too long."""
    file = request.FILES.get(field)
    if file is None or isinstance(file, list):
        raise refuse("file", "No file was chosen.", "Choose one first.")
    name = (file.name or "file")[:80]
    if (file.size or 0) > most:
        raise refuse(name, "It has {n} bytes.", "Send at most {most}.", n=file.size or 0, most=most)
    try:
        return name, file.read().decode("utf-8")
    except UnicodeDecodeError:
        raise refuse(name, "It is no UTF-8 text.", "Save it as plain text, UTF-8.") from None
