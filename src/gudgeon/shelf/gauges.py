"""A gauge's card: how well it knows what it shows, because a verdict counts only as far as the gauge can see.

What a gauge gets wrong every time (its permissible error or certificate, the master it was set on) is shared by all
its readings; what it gets wrong anew each time (resolution, repeats) belongs to one reading.
"""

from __future__ import annotations

from collections.abc import Mapping
from math import hypot, sqrt
from types import MappingProxyType
from typing import Self

from pydantic import Field, ValidationInfo, field_validator, model_validator

from gudgeon import units
from gudgeon.problem import Problem, Refused, said
from gudgeon.shelf.typed import Day, Length, Percent, Pressure, Typed, check, nearest, quantity, sentence_list, wrong
from gudgeon.units import Quantity

#: Every kind of gauge a measurand may ask for, and what it measures.
GAUGE_KINDS: Mapping[str, str] = MappingProxyType(
    {
        "feeler": "length",
        "micrometer": "length",
        "small-hole gauge": "length",
        "bore gauge": "length",
        "caliper": "length",
        "depth micrometer": "length",
        "dial indicator": "length",
        "lever dial": "length",
        "graticule": "length",
        "straightedge": "length",
        "dial grid": "length",
        "square and feeler": "length",
        "pin": "length",
        "strip": "length",
        "clay and caliper": "length",
        "spring tester": "force",
        "compression gauge": "pressure",
        "leak tester": "percent",
        "burette": "volume",
        "degree wheel": "angle",
        "eye": "words",
    }
)
_SIZES = (
    "low",
    "high",
    "resolution",
    "permissible_error",
    "certificate_u",
    "repeatability",
    "master",
    "master_u",
)


class GaugeCard(Typed):
    """One gauge of this workshop; sizes are typed with their units and kept as typed."""

    id: str = Field(min_length=1)
    kind: str
    name: str
    unit: str = ""
    low: Quantity | None = None
    high: Quantity | None = None
    resolution: Quantity | None = None
    permissible_error: Quantity | None = None
    per_cent: Percent | None = None
    certificate_u: Quantity | None = None
    k: float = 2.0
    repeatability: Quantity | None = None
    repeat_nu: int = Field(default=0, ge=0)
    repeat_by: str = ""
    repeat_on: Day = ""
    master: Quantity | None = None
    master_u: Quantity | None = None
    set_with: str = ""
    deviation: bool = False
    direction: int = 1
    orifice: Length | None = None
    supply: Pressure | None = None
    source: str = Field(min_length=1)
    certified: Day = ""
    due: Day = ""

    @field_validator("kind")
    @classmethod
    def _known_kind(cls, kind: str) -> str:
        if kind not in GAUGE_KINDS:
            meant = nearest(kind, GAUGE_KINDS)
            remedy = "Did you mean {meant}?" if meant else "Use one of: {known}."
            raise wrong("{kind} is no kind of gauge.", remedy, kind=kind, meant=meant, known=sentence_list(GAUGE_KINDS))
        return kind

    @field_validator("unit")
    @classmethod
    def _unit_of_kind(cls, unit: str, info: ValidationInfo) -> str:
        dimension = GAUGE_KINDS.get(str(info.data.get("kind")), "")
        known = units.units_of(dimension)
        if dimension and unit not in (known or ("",)):
            raise wrong("A {kind} does not read in {unit}.", "Use one of: {known}.", kind=info.data["kind"],
                        unit=unit or "no unit", known=sentence_list(known) or "no unit")  # fmt: skip
        return unit

    @field_validator(*_SIZES, mode="plain", json_schema_input_type=str)
    @classmethod
    def _size(cls, given: object, info: ValidationInfo) -> Quantity | None:
        if given is None:
            return None
        dimension = GAUGE_KINDS.get(str(info.data.get("kind")), "length")
        if dimension == "words":
            raise wrong("{kind} has no sizes.", "Leave it out.", kind=str(info.data["kind"]))
        size = quantity(given, dimension)
        if size.number < 0 or (size.number == 0 and info.field_name not in ("low", "repeatability")):
            raise wrong("{given} is not above zero.", "Type it without its sign.", given=size.text)
        return size

    @model_validator(mode="after")
    def _fits_together(self) -> Self:
        if self.low is not None and self.high is not None and self.low.exact >= self.high.exact:
            raise wrong("The range {low} to {high} has no width.", "Low end first.",
                        low=self.low.text, high=self.high.text)  # fmt: skip
        if self.certificate_u is not None and (self.permissible_error or self.per_cent):
            raise wrong("Both a certificate and a permissible error are given.", "Keep the certificate.")
        if self.kind != "eye" and not (self.certificate_u or self.permissible_error or self.per_cent):
            raise wrong(
                "Nothing says how far this gauge may be off.", "Give permissible_error, per_cent or certificate_u."
            )
        if self.deviation and self.master is None:
            raise wrong("It shows a deviation, but from what?", "Give its master, as in 88.000 mm.")
        if self.direction not in (1, -1):
            raise wrong("A dial cannot run in direction {given}.", "Use 1 or −1.", given=self.direction)
        if (self.orifice or self.supply) and self.kind != "leak tester":
            raise wrong("A {kind} has no orifice and no supply.", "Leave them out.", kind=self.kind)
        if any(size is not None and size.number <= 0 for size in (self.orifice, self.supply)):
            raise wrong("Orifice and supply of a tester are above zero.", "Type them as they stand on it.")
        if not 1.0 <= self.k <= 4.0:
            raise wrong("A coverage factor of {given} is none.", "It is usually 2.", given=self.k)
        return self

    @property
    def dimension(self) -> str:
        """What it measures: "length", "force", … or "words"."""
        return GAUGE_KINDS[self.kind]

    def own_u(self, value: float) -> float:
        """What the gauge itself gets wrong every time, as a standard uncertainty in the inside unit."""
        if self.certificate_u is not None:
            return _scaled(self.certificate_u) / self.k
        share = float(self.per_cent.value) / 100.0 * abs(value) if self.per_cent is not None else 0.0
        return hypot(_scaled(self.permissible_error), share) / sqrt(3.0)

    @property
    def set_u(self) -> float:
        """The standard uncertainty of the master it was set on, in the inside unit."""
        return _scaled(self.master_u)

    def shared_u(self, value: float) -> float:
        """The common part of every reading: permissible error / √3 or certificate / k, and the setting master."""
        return hypot(self.own_u(value), self.set_u)

    @property
    def repeat_u(self) -> float:
        """The standard deviation of repeats, in the inside unit: without the resolution, for go and no-go pairs.

        From a study of few readings it widens to that of a scaled t distribution, s·√(ν/(ν − 2)): JCGM 101:2008 6.4.9.
        """
        few = sqrt(self.repeat_nu / (self.repeat_nu - 2.0)) if self.repeat_nu > 2 else 1.0
        return few * _scaled(self.repeatability)

    @property
    def study(self) -> str:
        """Where its repeatability comes from, in words; nothing where no study stands behind it."""
        return f"{self.repeat_nu + 1} readings by {self.repeat_by}, {self.repeat_on}" if self.repeat_on else ""

    def reading_u(self, value: float) -> float:
        """The part of each reading: resolution / √12 and repeatability (`value` is there for gauges of both kinds)."""
        return hypot(_scaled(self.resolution) / sqrt(12.0), self.repeat_u)

    def u(self, value: float) -> float:
        """The standard uncertainty of one single reading, everything together."""
        return hypot(self.shared_u(value), self.reading_u(value))

    def covers(self, value: float) -> bool:
        """Whether a value lies in its range."""
        above = self.low is None or value >= self.low.value
        return above and (self.high is None or value <= self.high.value)

    def overdue(self, day: str) -> bool:
        """Whether its calibration was due before this day (both as 2026-11-25)."""
        return bool(self.due) and self.due < day

    def pinned(self) -> dict[str, str]:
        """The card as flat text, for the ledger: what is not given is not there."""
        return flat(self)

    @classmethod
    def from_pinned(cls, card: Mapping[str, str]) -> GaugeCard:
        """The card that was pinned, exactly as it was."""
        found, problems = check(cls, dict(card), path=(), lines={}, name=f"gauge {card.get('id', '')}")
        if found is None:
            raise Refused(problems or (Problem(where="gauge", what=said("No card."), remedy=said("Pin it again.")),))
        return found


def flat(model: Typed) -> dict[str, str]:
    """A model of single values as text, defaults left out: what `model_validate` reads back exactly."""
    out: dict[str, str] = {}
    for name, field in type(model).model_fields.items():
        value = getattr(model, name)
        if value is None or value == field.default:
            continue
        match value:
            case Quantity():
                out[name] = value.text
            case bool():
                out[name] = "true" if value else "false"
            case float():
                out[name] = repr(value)
            case _:
                out[name] = str(value)
    return out


def _scaled(size: Quantity | None) -> float:
    return 0.0 if size is None else size.value
