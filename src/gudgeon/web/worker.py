"""The tablet's keeper of pages, served from the root so that it may keep any of them."""

from __future__ import annotations

from functools import cache
from hashlib import sha256
from pathlib import Path

from django.http import HttpRequest, HttpResponse
from django.views.decorators.http import require_GET

STATIC = Path(__file__).parent / "static"


@require_GET
def worker(request: HttpRequest) -> HttpResponse:
    """The script under a version that changes with any script or style of the bench."""
    script = f'self.GUDGEON_VERSION = "{version()}";\n' + (STATIC / "worker.js").read_text(encoding="utf-8")
    return HttpResponse(script, content_type="text/javascript; charset=utf-8")


@cache
def version() -> str:
    """A digest of every script and style: a newer bench has another."""
    files = sorted(f for f in STATIC.iterdir() if f.suffix in (".js", ".css"))
    return sha256(b"".join(f.read_bytes() for f in files)).hexdigest()[:16]
