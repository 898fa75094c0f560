"""Half of the journal clearance, and the half that can be renewed with the cam."""

from gudgeon.characteristics.shape import Characteristic, Wants

KIND = Characteristic(
    key="journal_diameter",
    name="cam journal diameter",
    dimension="length",
    unit="mm",
    where=lambda a: a.cams,
    wants=(Wants(measurand="journal_diameter", statistic="smallest"),),
    formula="smallest of all journals",
    example="21.966 mm",
)
