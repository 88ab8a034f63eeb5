"""The page on where the figures come from has a row for each, and the tests it names exist."""

from pathlib import Path

from buildbook.figures.answers.everything import ANSWERS, ITEM_ANSWERS
from buildbook.figures.answers.provenance import ORIGINS, provenance

ROOT = Path(__file__).parents[3]


def test_every_figure_has_a_row() -> None:
    """No name without its origin, no origin without its name."""
    assert set(ANSWERS) | set(ITEM_ANSWERS) == set(ORIGINS)


def test_rows_have_formulas_and_sources() -> None:
    """At least one step a row, each with a formula and a source; laws with their range."""
    for row in provenance():
        assert row.steps, row.name
        assert row.words.endswith("."), row.name
        for step in row.steps:
            assert step.formula, row.name
            assert step.source, row.name


def test_the_tests_that_hold_a_figure_exist() -> None:
    """Each figure is held by a test, and the file is there."""
    for row in provenance():
        assert row.held_by, row.name
        for file in row.held_by:
            assert (ROOT / file).is_file(), (row.name, file)
