"""An aircraft that is flown on packs of two cell counts: one power, two currents.

What it takes is the same power on both: 166.5 W are 15 A at the 11.1 V of three cells and 11.25 A
at the 14.8 V of four. Expected values are worked out by hand from that.
"""

import datetime
from pathlib import Path

import pytest
from small_hangars import ITEMS, LOG, SMALL, SPECS, found, opened, refused

from buildbook.figures.answers.craft import Craft
from buildbook.figures.answers.flight.rates import flown_watts
from buildbook.figures.answers.gathering import number
from buildbook.figures.answers.registry import figures_of_aircraft
from buildbook.report.state import Hangar

FOUR = """\
- {spec: four, kind: battery, mass: 350 g, cells: 4S, capacity: 1800 mAh, chemistry: LiPo}
"""
CURRENT_A = {"P-1": 15.0, "P-4": 11.25}


def mixed(folder: Path, *, threes: int, fours: int) -> Hangar:
    """The quad with so many flights of 4 min on each, the four cells flown first."""
    first = datetime.date(2026, 3, 1)
    tags = ["P-4"] * fours + ["P-1"] * threes
    flights = "".join(
        f"- {{on: {first + datetime.timedelta(days=day)}, flight: '4:00', pack: {tag},"
        f" used: {CURRENT_A[tag] * 4 / 60 * 1000:.0f} mAh}}\n"
        for day, tag in enumerate(tags)
    )
    return opened(
        folder,
        {
            **SMALL,
            "parts/specs.yaml": SPECS + FOUR,
            "parts/items.yaml": ITEMS + "- {tag: P-4, spec: four, acquired: 2026-01-01}\n",
            "aircraft/sedge/logbook.yaml": LOG + flights,
        },
    )


@pytest.mark.parametrize(("threes", "fours"), [(12, 12), (5, 12), (4, 40)])
def test_each_pack_lasts_by_flights_on_as_many_cells(
    tmp_path: Path, threes: int, fours: int
) -> None:
    """80 % of 2200 mAh at 15 A are 7 min 02.4 s, 80 % of 1800 mAh at 11.25 A are 7 min 40.8 s."""
    answers = figures_of_aircraft(mixed(tmp_path, threes=threes, fours=fours), "sedge")

    assert found(answers, "flown_time", "P-1").value == pytest.approx(422.4, rel=1e-6)
    assert found(answers, "flown_time", "P-4").value == pytest.approx(460.8, rel=1e-6)


def test_the_current_of_all_is_that_of_the_pack_flown_last(tmp_path: Path) -> None:
    """No flight took the mean of both; what was left apart is said, of the pack alone it is not."""
    answers = figures_of_aircraft(mixed(tmp_path, threes=12, fours=12), "sedge")
    of_all, of_four = (found(answers, "flown_current", of) for of in (None, "P-4"))

    assert of_all.value == pytest.approx(15.0, rel=1e-6)
    assert "12 flights on packs of 4S left apart" in of_all.notes
    assert of_four.value == pytest.approx(11.25, rel=1e-6)
    assert not [note for note in of_four.notes if "left apart" in note]


def test_the_power_as_flown_is_one(tmp_path: Path) -> None:
    """166.5 W, from either pack."""
    craft = Craft(mixed(tmp_path, threes=12, fours=12), "sedge")

    for pack in craft.packs:
        assert number(flown_watts(craft, pack)) == pytest.approx(166.5, rel=1e-6)


def test_flights_on_other_cells_are_none_for_a_pack(tmp_path: Path) -> None:
    """One flight on three cells makes no rate, however many there are on four."""
    answers = figures_of_aircraft(mixed(tmp_path, threes=1, fours=12), "sedge")

    lacking = refused(answers, "flown_time", "P-1")[0]
    assert lacking.startswith("flights with their charge so far, on packs of 3S: 1; it takes 4")


def test_the_drift_of_an_aircraft_is_not_that_of_its_cells(tmp_path: Path) -> None:
    """Fourteen flights on three cells after forty on four are too few, not a change of a third."""
    answers = figures_of_aircraft(mixed(tmp_path, threes=14, fours=40), "sedge")

    assert ": 14; it takes 16" in refused(answers, "drift", "time on an ampere-hour")[0]
