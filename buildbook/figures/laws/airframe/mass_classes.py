"""Masses at which rules change: a dated table. Law changes; ask the authority.

A class label belongs to a product that was sold with it. A home-built aircraft has none, so only
the side of each threshold is told.
"""

from typing import Literal

import msgspec

from buildbook.figures.laws.numbers import checked

TABLE_WRITTEN = "2026-11-25"
ADVICE = "ask the authority"

Boundary = Literal["below", "at or below", "at or above", "above"]
Status = Literal["text seen", "second-hand pages agree", "from memory"]


class MassThreshold(msgspec.Struct, frozen=True):
    """One threshold; `label` is what the rule speaks of on the side that `boundary` names."""

    jurisdiction: str
    rule: str
    label: str
    mass_kg: float
    boundary: Boundary
    note: str
    status: Status


class MassBand(msgspec.Struct, frozen=True):
    """A threshold, and whether the mass is on the side that its boundary names."""

    threshold: MassThreshold
    applies: bool


MASS_THRESHOLDS: tuple[MassThreshold, ...] = (
    MassThreshold(
        "US",
        "14 CFR 48.15(b)",
        "recreational flying, no registration",
        0.55 * 0.45359237,
        "at or below",
        "0.55 lb at take-off with everything attached; only if flown wholly under 49 USC 44809",
        "text seen",
    ),
    MassThreshold(
        "US",
        "14 CFR 48.15",
        "any other flying: registration",
        0.0,
        "above",
        "any mass; no other exemption but that of the armed forces",
        "text seen",
    ),
    MassThreshold(
        "US",
        "14 CFR 107.3",
        "small unmanned aircraft",
        55 * 0.45359237,
        "below",
        "55 lb at take-off with everything attached",
        "from memory",
    ),
    MassThreshold(
        "EU",
        "Regulation (EU) 2019/945, Annex part 1",
        "mass of product class C0",
        0.25,
        "below",
        "level speed at most 19 m/s",
        "second-hand pages agree",
    ),
    MassThreshold(
        "EU",
        "Regulation (EU) 2019/945, Annex part 2",
        "mass of product class C1",
        0.9,
        "below",
        "or impact energy below 80 J; level speed at most 19 m/s",
        "second-hand pages agree",
    ),
    MassThreshold(
        "EU",
        "Regulation (EU) 2019/945, Annex part 3",
        "mass of product class C2",
        4.0,
        "below",
        "",
        "second-hand pages agree",
    ),
    MassThreshold(
        "EU",
        "Regulation (EU) 2019/945, Annex parts 4 and 5",
        "mass of product classes C3 and C4",
        25.0,
        "below",
        "C3 also: largest dimension below 3 m; C4: no automatic modes beyond stabilisation",
        "from memory",
    ),
    MassThreshold(
        "EU",
        "Regulation (EU) 2019/947, Article 14(5)",
        "operator registers",
        0.25,
        "at or above",
        "also at any mass with a camera or similar sensor unless a toy, or above 80 J",
        "from memory",
    ),
    MassThreshold(
        "EU",
        "Regulation (EU) 2019/947, Annex",
        "home-built: subcategory A1",
        0.25,
        "below",
        "and below 19 m/s",
        "second-hand pages agree",
    ),
    MassThreshold(
        "EU",
        "Regulation (EU) 2019/947, Annex",
        "home-built: subcategory A3",
        25.0,
        "below",
        "where subcategory A1 does not apply",
        "second-hand pages agree",
    ),
)


@checked
def on_named_side(threshold: MassThreshold, mass_kg: float) -> bool:
    """Is the mass in kg on the side that the threshold's boundary names? Compared in whole mg.

    ValueError: mass out of range. Source: the threshold's own rule.
    """
    mass_mg, limit_mg = round(mass_kg * 1e6), round(threshold.mass_kg * 1e6)
    if threshold.boundary == "below":
        return mass_mg < limit_mg
    if threshold.boundary == "at or below":
        return mass_mg <= limit_mg
    if threshold.boundary == "at or above":
        return mass_mg >= limit_mg
    return mass_mg > limit_mg


@checked
def mass_bands(mass_kg: float, jurisdiction: str | None = None) -> tuple[MassBand, ...]:
    """Every threshold (of a jurisdiction) in the order of the table, with the side of the mass.

    ValueError: mass out of range, or 'jurisdiction must be one of EU, US, got X'.
    Source: MASS_THRESHOLDS, written on TABLE_WRITTEN.
    """
    known = sorted({row.jurisdiction for row in MASS_THRESHOLDS})
    if jurisdiction is not None and jurisdiction not in known:
        raise ValueError(f"jurisdiction must be one of {', '.join(known)}, got {jurisdiction}")
    return tuple(
        MassBand(row, on_named_side(row, mass_kg))
        for row in MASS_THRESHOLDS
        if jurisdiction in (None, row.jurisdiction)
    )
