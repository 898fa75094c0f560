"""Bore wear as a ring's end gap shows it, three times enlarged: a feeler finds what a caliper cannot."""

from __future__ import annotations

from gudgeon.calculators.shape import WORDS, Answer, Calculator, Key, Result
from gudgeon.mechanics import rings as m
from gudgeon.mechanics.thermal import material
from gudgeon.problem import refuse


def work(
    *,
    bore_change: float | None,
    gap_change: float | None,
    face_wear: float,
    gap: float | None,
    bore: float | None,
    ring_material: str,
    bore_material: str,
    ring_at: float | None,
    bore_at: float | None,
) -> Answer:
    if (bore_change is None) == (gap_change is None):
        raise refuse(
            "bore-change",
            "{given} given.",
            "Give bore-change or gap-change, one of them.",
            given="Neither bore-change nor gap-change was"
            if bore_change is None
            else "Both bore-change and gap-change were",
        )
    if gap_change is None:
        change = m.gap_change_mm(bore_change or 0.0, face_wear)
        results = [Result(name="gap change", value=change, unit="mm")]
    else:
        change = gap_change
        results = [Result(name="bore change", value=m.bore_change_mm(gap_change, face_wear), unit="mm")]
    if gap is not None:
        results.append(Result(name="gap after", value=gap + change, unit="mm"))
    if bore is not None:
        results.append(Result(name="usual gap", value=m.usual_gap_mm(bore), unit="mm"))
    if gap is not None and bore is not None and ring_at is not None and bore_at is not None:
        ring, around = material(ring_material).expansion_per_k, material(bore_material).expansion_per_k
        hot = m.hot_gap_mm(gap + change, bore, ring, ring_at, around, bore_at)
        results.append(Result(name="hot gap", value=hot, unit="mm"))
    return Answer(
        results=tuple(results),
        method="gap change = π × (bore change + 2 × face wear)",
        source="geometry: circumference; usual gap 0.004 of the bore: common practice, no source",
        validity="the ring follows the bore, square to it, at one height",
        notes=("The maker's range comes first; too small a gap closes hot and scores the bore.",),
    )


KIND = Calculator(
    key="ring-gap",
    line="change of a ring's end gap with the bore, and back",
    keys=(
        Key(name="bore-change", dimension="length", help="change of the bore's diameter", optional=True),
        Key(name="gap-change", dimension="length", help="change of the gap, for the bore behind it", optional=True),
        Key(name="face-wear", dimension="length", help="wear of the ring's running face", default="0 mm"),
        Key(name="gap", dimension="length", help="gap before", optional=True),
        Key(name="bore", dimension="length", help="bore, for the usual and the hot gap", optional=True),
        Key(name="ring-material", dimension=WORDS, help="material of the ring", default="grey iron"),
        Key(name="bore-material", dimension=WORDS, help="material of the cylinder", default="grey iron"),
        Key(name="ring-at", dimension="temperature", help="temperature of the hot ring", optional=True),
        Key(name="bore-at", dimension="temperature", help="temperature of the hot cylinder", optional=True),
    ),
    work=work,
    example="bore-change=0.05mm gap=0.25mm",
)
