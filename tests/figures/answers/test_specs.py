"""What is declared of each figure is whole, true of what it answers, and its tests exist."""

import subprocess
import sys
from pathlib import Path

import pytest
from full_hangars import bare_quad, coaxial, full_quad, sagging_quad, unbenched_quad
from small_hangars import opened
from test_weighed import FLOWN, LEADED, plane, with_servos

from buildbook.figures.answers.registry import FIGURES, figures_of_aircraft, figures_of_item
from buildbook.figures.laws.registry import LAWS
from buildbook.report.figure import Figure

ROOT = Path(__file__).parents[3]
SPECS = {spec.name: spec for spec in FIGURES}


def test_each_figure_is_declared_once() -> None:
    """No two declarations of one name, and no two places on the front page."""
    places = sorted(spec.headline.place for spec in FIGURES if spec.headline)

    assert len(FIGURES) == len(SPECS)
    assert list(range(1, len(places) + 1)) == places


@pytest.mark.parametrize("name", SPECS)
def test_a_figure_is_said_in_full(name: str) -> None:
    """A title, two lines, an answer, and a law or a method."""
    spec = SPECS[name]

    assert spec.title
    assert spec.line.endswith(".")
    assert spec.about.endswith(".")
    assert spec.is_of_aircraft or spec.of_item or spec.of_pack
    assert spec.laws or spec.methods
    assert all(way.formula and way.source for way in spec.methods)


@pytest.mark.parametrize("name", SPECS)
def test_the_tests_that_hold_a_figure_exist(name: str) -> None:
    """Each figure is held by a test, and the file is there."""
    held_by = SPECS[name].held_by

    assert held_by
    assert [] == [file for file in held_by if not (ROOT / file).is_file()]


@pytest.mark.parametrize("name", SPECS)
def test_every_law_that_a_figure_names_is_registered(name: str) -> None:
    """A page looks the valid range and the formula up by that key."""
    spec = SPECS[name]
    named = {*spec.laws, *(way.law for way in spec.methods if way.law is not None)}

    assert set() == named - set(LAWS)


def _answered(folder: Path) -> list[Figure]:
    hangars = (
        full_quad(),
        unbenched_quad(),
        sagging_quad(),
        bare_quad(),
        coaxial(),
        plane(LEADED + FLOWN.replace("03-01", "03-03")),
        with_servos("2 A"),
    )
    found: list[Figure] = []
    for number, files in enumerate(hangars):
        hangar = opened(folder / str(number), files)
        for slug in hangar.aircraft:
            found += figures_of_aircraft(hangar, slug).figures
        for tag in hangar.items:
            found += figures_of_item(hangar, tag).figures
    return found


def test_figures_are_in_the_units_that_are_declared(tmp_path: Path) -> None:
    """Every figure of small full hangars has a unit of its declaration."""
    undeclared = {
        (figure.name, figure.unit)
        for figure in _answered(tmp_path)
        if figure.unit not in (SPECS[figure.name].unit, *SPECS[figure.name].further_units)
    }

    assert set() == undeclared


def test_the_signals_of_the_work_list_need_no_numpy() -> None:
    """The work list must start quickly."""
    code = (
        "import sys, buildbook.figures.answers.registry, buildbook.figures.answers.log.drift;"
        "print('numpy' in sys.modules)"
    )
    done = subprocess.run([sys.executable, "-c", code], capture_output=True, text=True, check=True)

    assert "False" == done.stdout.strip()
