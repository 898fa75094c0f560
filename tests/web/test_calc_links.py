"""A calculator opens from the figure it belongs to, filled in from the job."""

from __future__ import annotations

import html
import re

from django.test import Client
from tests.web.conftest import JOB

from gudgeon.calculators.catalogue import calculator
from gudgeon.measurands.catalogue import MEASURANDS
from gudgeon.workbench.bench import Workbench
from gudgeon.workbench.calc_links import BELONGS, calculators_for


def test_every_link_names_a_measurand_a_calculator_and_a_field() -> None:
    for measurand, (name, field) in BELONGS.items():
        assert measurand in MEASURANDS
        assert not field or field in {key.name for key in calculator(name).keys}


def test_lash_opens_the_shim_calculator_with_its_window(client: Client, workshop: Workbench) -> None:
    m = workshop.measure(JOB, "lash", "c1.in.left")
    shim = next(link for link in calculators_for(workshop, JOB, m) if link.name == "shim")
    typed = dict(shim.typed)
    assert {"lash", "low", "high"} <= set(typed)
    page = client.get(f"/job/{JOB}/measure?m=lash&at=c1.in.left").content.decode()
    (address,) = {html.unescape(a) for a in re.findall(r'href="(/calc/shim[^"]*)"', page)}
    opened = client.get(address)
    assert opened.status_code == 200
    for text in typed.values():
        assert f'value="{text}"' in opened.content.decode()
    assert f'href="/job/{JOB}/measure' in opened.content.decode(), "and leads back"


def test_a_verdict_with_its_uncertainty_opens_conformity_and_is_answered_at_once(
    client: Client, workshop: Workbench
) -> None:
    m = workshop.measure(JOB, "lash", "c1.in.left")
    sure = next(link for link in calculators_for(workshop, JOB, m) if link.name == "conformity")
    assert "Answer" in client.get(f"/calc/conformity?{sure.query}").content.decode()
