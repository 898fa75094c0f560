"""An answer that a drawing says better than figures is drawn: events around the crank, the valve beside the piston."""

from __future__ import annotations

from django.test import Client

from gudgeon.calculators.asking import work_out
from gudgeon.calculators.catalogue import calculator

GAP = "gap=2.5mm stroke=50mm rod=100mm lift=8mm duration=260 centre=110 valve-angle=15"


def test_the_drawn_clearance_bottoms_out_where_the_answer_says() -> None:
    typed = [tuple(piece.split("=")) for piece in GAP.split()]
    answer = work_out(calculator("valve-to-piston"), typed)  # type: ignore[arg-type]
    least, at = answer.results[0].value, answer.results[1].value
    room, lift, clearance = (dict(curve.points) for curve in answer.curves)
    lowest = min(clearance, key=lambda degrees: clearance[degrees])
    assert isinstance(least, float) and isinstance(at, float)
    assert abs(lowest - at) <= 1.0 and 0 <= clearance[lowest] - least < 0.01
    assert all(abs(room[d] - lift[d] - clearance[d]) < 1e-9 for d in clearance)
    assert room[0.0] == 2.5


def test_events_and_curves_are_on_their_pages(client: Client) -> None:
    events = client.get("/calc/cam-events?ivo=20&ivc=60&evo=60&evc=20").content.decode()
    assert 'class="drawn"' in events and "intake opens 20° before top" in events
    curves = client.get("/calc/valve-to-piston?" + GAP.replace(" ", "&")).content.decode()
    assert "room to the piston" in curves and "style=" not in curves
    assert 'class="drawn"' not in client.get("/calc/shim?lash=0.2").content.decode()
