"""The screens, in the order of the doors: one folder and one line each."""

from gudgeon.web.screens.measure import view as measure
from gudgeon.web.shape import Screen

SCREENS: tuple[Screen, ...] = (measure.SCREEN,)
