"""A spring may pass by its length and fail by its load."""

from gudgeon.characteristics.shape import Characteristic, Wants

KIND = Characteristic(
    key="spring_load",
    name="spring load",
    dimension="force",
    unit="N",
    where=lambda a: a.valves,
    wants=(Wants(measurand="spring_load", statistic="smallest"),),
    places=1,
    formula="load at the book's length",
    example="171.0 N",
)
