"""How many teeth a chain is out: the mark looks nearly right, and a residue that is no tooth points elsewhere."""

from __future__ import annotations

from gudgeon.calculators.shape import Answer, Calculator, Key, Result
from gudgeon.mechanics.cam_timing import tooth_error

SURE = 0.95


def work(*, teeth: float, error: float, u: float) -> Answer:
    found = tooth_error(error, teeth, u)
    notes = []
    if found.probability < SURE:
        notes.append("Not sure enough to count teeth: measure the lobe centre again.")
    if abs(found.residual_deg) > 3 * u:
        notes.append(
            "The residue is more than reading error: look for a worn chain, a tensioner, a milled head, a mark."
        )
    if found.teeth:
        notes.append(
            "By hand and forwards only, fingers out of chain and sprockets, a hard stop means stop; no starter. "
            "The maker's manual, local codes and licensed practice come first."
        )
    return Answer(
        results=(
            Result(name="teeth out", value=found.teeth),
            Result(name="one tooth", value=found.step_deg, unit="°"),
            Result(name="one tooth at the cam", value=found.step_deg / 2, unit="°"),
            Result(name="residual", value=found.residual_deg, unit="°"),
            Result(name="probability", value=found.probability * 100, unit="%"),
        ),
        method="one tooth = 720°/N at the crank; nearest whole number of teeth; probability by Bayes' rule, equal weights",
        source="geometry; default reading uncertainty of 2°: common practice, no source",
        validity="teeth of the cam sprocket; error in crank degrees, positive late; normal reading error",
        notes=tuple(notes),
    )


KIND = Calculator(
    key="cam-tooth",
    line="which tooth a timing error means, what remains, and how sure that is",
    keys=(
        Key(name="teeth", dimension="count", help="teeth of the cam sprocket"),
        Key(name="error", dimension="angle", help="timing error at the crank, positive late"),
        Key(name="u", dimension="angle", help="standard uncertainty of that error", default="2°"),
    ),
    work=work,
    example="teeth=34 error=19.5",
)
