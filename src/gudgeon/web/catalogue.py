"""The screens, in the order of the doors: one folder and one line each."""

from gudgeon.web.screens.benches import view as benches
from gudgeon.web.screens.book import view as book
from gudgeon.web.screens.build import view as build
from gudgeon.web.screens.calc import view as calc
from gudgeon.web.screens.data import view as data
from gudgeon.web.screens.decide import view as decide
from gudgeon.web.screens.editions import view as editions
from gudgeon.web.screens.engine import view as engine
from gudgeon.web.screens.intake import view as intake
from gudgeon.web.screens.jobs import view as jobs
from gudgeon.web.screens.measure import view as measure
from gudgeon.web.screens.more import view as more
from gudgeon.web.screens.own import view as own
from gudgeon.web.screens.papers import view as papers
from gudgeon.web.screens.returned import view as returned
from gudgeon.web.screens.rules import view as rules
from gudgeon.web.screens.shelf import view as shelf
from gudgeon.web.screens.style import view as style
from gudgeon.web.shape import Screen

SCREENS: tuple[Screen, ...] = (
    jobs.SCREEN,
    intake.SCREEN,
    engine.SCREEN,
    measure.SCREEN,
    decide.SCREEN,
    build.SCREEN,
    papers.SCREEN,
    data.SCREEN,
    returned.SCREEN,
    editions.SCREEN,
    own.SCREEN,
    more.SCREEN,
    shelf.SCREEN,
    rules.SCREEN,
    book.SCREEN,
    benches.SCREEN,
    calc.SCREEN,
    style.SCREEN,
)
