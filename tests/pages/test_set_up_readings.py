"""Expectation and last reading of a set-up check: one unit, and the difference in words."""

import datetime
import shutil
from pathlib import Path

import pytest

from buildbook.pages.aircraft import set_up
from buildbook.report.upkeep.set_up import Expected
from buildbook.reporting.opening import open_reports
from buildbook.words.sheets.set_up import difference_words, expected_words, last_words

DAY = datetime.date(2026, 11, 20)


def step_of(reports, slug, name):
    """The step of that name on the set-up sheet of an aircraft."""
    stretches = set_up.stretches(reports, slug)
    return next(step for stretch in stretches for step in stretch.steps if step.name == name)


@pytest.mark.parametrize(
    ("found", "expected", "last", "difference"),
    [
        (
            Expected(check="c", unit="V a cell", value=3.68, pack="P-01", last=3.70),
            "3.68 V a cell with P-01",
            "3.70 V a cell",
            "0.02 V a cell more",
        ),
        (
            Expected(check="c", unit="kg", value=1.0302, pack="P-01", last=1.0298),
            "1030 g with P-01",
            "1030 g",
            "no difference",
        ),
        (Expected(check="c", unit="kg", value=1.03, last=1.018), "1030 g", "1018 g", "12 g less"),
        (
            Expected(check="c", unit="ratio", value=0.067, most=True, last=0.048),
            "below 6.7 %",
            "4.8 %",
            "1.9 percentage points below it",
        ),
        (
            Expected(check="c", unit="ratio", value=0.067, most=True, last=0.071),
            "below 6.7 %",
            "7.1 %",
            "0.4 percentage points above it",
        ),
        (
            Expected(check="c", unit="m behind", value=0.057, last=0.061),
            "57 mm behind the leading edge of the mean chord",
            "61 mm",
            "4 mm further back",
        ),
        (
            Expected(check="c", unit="m forward", value=-0.002),
            "2 mm behind the reference point",
            "",
            "",
        ),
    ],
)
def test_a_reading_is_told_in_the_unit_of_its_expectation(found, expected, last, difference):
    """Differences worked out by hand."""
    assert (expected, last, difference) == (
        expected_words(found),
        last_words(found),
        difference_words(found),
    )


def test_a_start_above_the_throttle_set_is_marked():
    """At it and above it the motor may not start with the others."""
    at = Expected(check="c", unit="ratio", value=0.067, most=True, last=0.067)

    assert at.is_past
    assert "just at it" == difference_words(at)
    assert not Expected(check="c", unit="kg", value=1.0, last=2.0).is_past


def test_the_alarm_is_expected_as_it_is_read(demo_reports):
    """Volts a cell of the pack whose alarm is the highest, as on the front page."""
    step = step_of(demo_reports, "burdock", "low voltage alarm")
    (spot,) = step.spots

    shown = {one.name: one.figure for one in demo_reports.headlines("burdock").shown}

    assert shown["alarm_voltage"].of == "P-03"
    assert "3.69 V a cell with P-03" == step.expected
    assert ("alarm 3.70 V a cell", "0.01 V a cell more") == (spot.last, spot.difference)


def test_each_start_is_held_against_the_throttle_set(demo_reports):
    """Station by station; an aircraft without that setting has no expectation."""
    spots = {spot.where: spot for spot in step_of(demo_reports, "burdock", "start spread").spots}
    other = step_of(demo_reports, "hogweed", "start spread").spots

    assert ("below 6.7 %", "4.8 %", "1.9 percentage points below it") == (
        spots["front-left"].expected,
        spots["front-left"].last,
        spots["front-left"].difference,
    )
    assert {("", "")} == {(spot.expected, spot.difference) for spot in other}


def test_a_weighing_is_held_against_the_mass_with_its_pack(demo_reports):
    """With the day of the scales, which is not that of the check."""
    step = step_of(demo_reports, "burdock", "weighing")
    (spot,) = step.spots

    assert "1030 g with P-01" == step.expected
    assert ("1030 g", "no difference") == (spot.last, spot.difference)
    assert spot.last_uid is not None


@pytest.mark.parametrize(
    ("reading", "last"),
    [("11.4 V", pytest.approx(3.8)), ("3.62 V a cell", 3.62), ("when it should", None)],
)
def test_a_pack_voltage_read_at_the_alarm_is_made_one_of_a_cell(demo, tmp_path, reading, last):
    """11.4 V of a 3S pack is 3.80 V a cell; prose without a number is no reading."""
    folder = Path(shutil.copytree(demo, tmp_path / "hangar"))
    log = folder / "aircraft/burdock/logbook/2026.yaml"
    text = log.read_text("utf-8")
    assert "alarm: 3.70 V a cell" in text
    log.write_text(text.replace("alarm: 3.70 V a cell", f"alarm: {reading}"), "utf-8")
    reports = open_reports(folder, DAY, DAY).reports
    assert reports is not None
    found = {one.check: one.last for one in reports.expected_readings("burdock")}

    assert last == found["low-voltage-alarm"]


FEW = """\
programme: few
checks:
  - {check: receiver-order, what: Move each., readings: {each: "the channel, by input"}}
  - {check: receiver-neutral, what: Read each., readings: {each: "the value, by channel"}}
  - {check: spin-directions, what: Look., per: motor station, readings: {each: cw or ccw}}
  - {check: failsafe, what: Switch off., readings: {failsafe: what it did}}
"""
JOINT = """\
- on: 2026-05-01
  check: [receiver-order, receiver-neutral, failsafe]
  result: pass
  readings: {"1": throttle, rudder: 1507 µs, aileron: 1498 µs, failsafe: motors stopped}
- on: 2026-05-02
  check: spin-directions
  stations: [front-left, rear-left]
  result: pass
"""


def test_a_reading_stands_at_the_check_that_asks_for_it(open_changed):
    """One entry of three checks: channels by input, values by channel, what the failsafe did."""
    reports = open_changed({"programmes/few.yaml": FEW, "aircraft/sedge/logbook.yaml": JOINT})
    steps = [step for stretch in set_up.stretches(reports, "sedge") for step in stretch.steps]

    assert {
        "receiver order": "1 throttle",
        "receiver neutral": "rudder 1507 µs, aileron 1498 µs",
        "failsafe": "failsafe motors stopped",
    } == {step.name: step.spots[0].last for step in steps if step.spots[0].last}


def test_a_check_that_is_done_in_part_says_how_much_is_left(open_changed):
    """Not never done, where two of four stations passed."""
    reports = open_changed({"programmes/few.yaml": FEW, "aircraft/sedge/logbook.yaml": JOINT})
    spins = step_of(reports, "sedge", "spin directions")

    assert ("never done", "2 of 4 left") == (spins.state, spins.said)
    bare = open_changed({"programmes/few.yaml": FEW, "aircraft/sedge/logbook.yaml": "[]\n"})
    assert "never done" == step_of(bare, "sedge", "spin directions").said


def test_a_reading_stays_with_its_check_after_the_others_were_done_again(demo_reports):
    """One entry passed throttle cut, failsafe and range; the failsafe was tested again since."""
    (spot,) = step_of(demo_reports, "thistledown", "throttle cut").spots

    assert "" == spot.last
