"""The page on where the figures come from has a row for each, and the tests it names exist."""

import subprocess
import sys
from pathlib import Path

from buildbook.figures.answers.everything import ANSWERS, ITEM_ANSWERS
from buildbook.figures.answers.provenance import ORIGINS, provenance
from buildbook.figures.laws.registry import LAWS

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


def test_every_law_that_a_figure_names_is_registered() -> None:
    """A page looks the valid range and the formula up by that key."""
    named = {step.law for row in provenance() for step in row.steps if step.law is not None}

    assert named <= set(LAWS)


def test_the_signals_of_the_work_list_need_no_numpy() -> None:
    """The work list must start quickly."""
    code = (
        "import sys, buildbook.figures.answers.everything, buildbook.figures.answers.log.drift;"
        "print('numpy' in sys.modules)"
    )
    done = subprocess.run([sys.executable, "-c", code], capture_output=True, text=True, check=True)

    assert "False" == done.stdout.strip()
