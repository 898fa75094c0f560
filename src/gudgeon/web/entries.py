"""Where tablets send entries: JSON in, JSON out, never a redirect. An item leaves a queue only on an answer naming it."""

from __future__ import annotations

from django.http import HttpRequest, JsonResponse
from django.utils.translation import gettext as _
from django.views.decorators.http import require_GET, require_POST

from gudgeon.problem import Refused
from gudgeon.web.forms import account
from gudgeon.web.shape import bench, refusal
from gudgeon.workbench.bench import Hand
from gudgeon.workbench.growing import grow
from gudgeon.workbench.ports import OldHead
from gudgeon.workbench.slips import Asked

LARGEST = 64 * 1024


@require_POST
def entries(request: HttpRequest, number: str) -> JsonResponse:
    """Land one entry, byte for byte."""
    if len(request.body) > LARGEST:
        return JsonResponse({"problems": [_too_long(len(request.body))]}, status=413)

    try:
        landed = bench().land(number, request.body.decode("utf-8", "strict"), account(request))
    except UnicodeDecodeError:
        return JsonResponse({"problems": [_no_text()]}, status=422)
    except Asked as asked:
        answer = refusal(asked)
        return JsonResponse({**_content(answer), "slip": asked.slip.key, "meant": asked.slip.meant}, status=422)
    except OldHead as old:
        return refusal(old, status=409)
    except Refused as refused:
        return refusal(refused)
    head = bench().ledgers.head(number)
    return JsonResponse(
        {"id": landed.id, "seq": landed.seq, "digest": landed.digest.hex(), "again": landed.again, "head": head.seq}
    )


@require_GET
def head(request: HttpRequest, number: str) -> JsonResponse:
    """Where the job stands, for benches that look each second."""
    if bench().ledgers.job(number) is None:
        return JsonResponse(
            {"problems": [{"where": f"job {number}", "what": _("No such job."), "remedy": ""}]}, status=404
        )
    now = bench().ledgers.head(number)
    return JsonResponse({"head": now.seq, "digest": now.digest.hex()[:8]})


def _content(answer: JsonResponse) -> dict[str, object]:
    import json

    found: dict[str, object] = json.loads(answer.content)
    return found


def _too_long(size: int) -> dict[str, str]:
    return {
        "where": "entry",
        "what": _("It has {n} bytes.").format(n=size),
        "remedy": _("Send at most {most}.").format(most=LARGEST),
    }


def _no_text() -> dict[str, str]:
    return {"where": "entry", "what": _("It is no UTF-8 text."), "remedy": _("Send it as it was typed.")}


@require_POST
def limit(request: HttpRequest, number: str) -> JsonResponse:
    """One more limit for the job's book, from two cells."""
    cells = {key: str(value) for key, value in request.POST.items()}
    hand = Hand(by=cells.get("by", "") or "bench", bench="web", account=account(request))
    try:
        return JsonResponse({"book": grow(bench(), number, cells, hand)})
    except Refused as refused:
        return refusal(refused)
