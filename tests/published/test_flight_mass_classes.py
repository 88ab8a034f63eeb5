"""Mass thresholds of law as of 2026-11-25. Sources and how far each was seen: the table itself."""

import pytest

from buildbook.figures.laws.airframe import mass_classes
from buildbook.figures.laws.airframe.mass_classes import mass_bands

US_RECREATIONAL = "recreational flying, no registration"
EU_REGISTERS = "operator registers"
C0 = "mass of product class C0"


def sides(mass_kg):
    """Label of every threshold: is the mass on the named side?"""
    return {band.threshold.label: band.applies for band in mass_bands(mass_kg)}


@pytest.mark.parametrize(
    ("grams", "label", "expected"),
    [
        pytest.param(249.4, US_RECREATIONAL, True, id="14 CFR 48.15(b): 249.4 g"),
        pytest.param(249.476, US_RECREATIONAL, True, id="14 CFR 48.15(b): 0.55 lb itself"),
        pytest.param(249.5, US_RECREATIONAL, False, id="14 CFR 48.15(b): 249.5 g"),
        pytest.param(249.9, US_RECREATIONAL, False, id="14 CFR 48.15(b): 249.9 g"),
        pytest.param(1.0, "any other flying: registration", True, id="14 CFR 48.15: any mass"),
        pytest.param(24947.5, "small unmanned aircraft", True, id="14 CFR 107.3 (memory)"),
        pytest.param(24947.7, "small unmanned aircraft", False, id="14 CFR 107.3 (memory), over"),
        pytest.param(249.9, C0, True, id="2019/945 C0 (memory): 249.9 g"),
        pytest.param(250.0, C0, False, id="2019/945 C0 (memory): 250.0 g is not"),
        pytest.param(899.9, "mass of product class C1", True, id="2019/945 C1 (memory)"),
        pytest.param(900.0, "mass of product class C1", False, id="2019/945 C1 (memory): 900 g"),
        pytest.param(3999.9, "mass of product class C2", True, id="2019/945 C2 (memory)"),
        pytest.param(4000.0, "mass of product class C2", False, id="2019/945 C2 (memory): 4 kg"),
        pytest.param(24999.0, "mass of product classes C3 and C4", True, id="2019/945 (memory)"),
        pytest.param(25000.0, "mass of product classes C3 and C4", False, id="2019/945, 25 kg"),
        pytest.param(249.9, EU_REGISTERS, False, id="2019/947 Art. 14(5) (memory): below"),
        pytest.param(250.0, EU_REGISTERS, True, id="2019/947 Art. 14(5) (memory): 250.0 g"),
        pytest.param(249.9, "home-built: subcategory A1", True, id="2019/947 Annex (memory)"),
        pytest.param(250.0, "home-built: subcategory A1", False, id="2019/947 Annex, 250.0 g"),
        pytest.param(24999.0, "home-built: subcategory A3", True, id="2019/947 Annex, below 25 kg"),
        pytest.param(25000.0, "home-built: subcategory A3", False, id="2019/947 Annex, 25 kg"),
    ],
)
def test_boundaries(grams, label, expected):
    """Each threshold on both sides, the limit itself where the rule says which it belongs to."""
    assert expected == sides(grams / 1000)[label]


def test_table_agrees_with_the_dated_file(rows):
    """Mass and boundary of every row of the dated data file stand in the table."""
    known = {
        (round(row.mass_kg * 1000, 2), row.boundary.replace(" ", "_"))
        for row in mass_classes.MASS_THRESHOLDS
    }
    for row in rows("rules/mass_classes.csv"):
        assert (round(float(row["mass_g"]), 2), row["boundary"]) in known


def test_no_verdict_of_law():
    """The table has its date and defers to the authority; it never calls anything lawful."""
    text = repr(mass_classes.MASS_THRESHOLDS).lower()

    assert "2026-11-25" == mass_classes.TABLE_WRITTEN
    assert "ask the authority" == mass_classes.ADVICE
    assert not [word for word in ("legal", "allowed", "compliant") if word in text]
