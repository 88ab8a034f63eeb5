"""What is read off a keeper's own words of a reading. Common practice, no source."""

import pytest

from buildbook.records.readings import (
    amount_read,
    list_read,
    station_read,
    throttle_read,
    turn_read,
)


@pytest.mark.parametrize(
    ("expected", "said"),
    [
        (3.7, "3.70 V a cell"),
        (3.4, "3.4V/cell, beeps"),
        (3.4, "3400 mV"),
        (None, "3.4"),
        (None, "at 3.4 V"),
        (None, "12 mm"),
        (None, None),
    ],
)
def test_a_reading_begins_with_its_voltage(expected: float | None, said: str | None) -> None:
    """What comes after it is the keeper's own; without a unit it is none."""
    assert expected == amount_read(said, "voltage")


@pytest.mark.parametrize(
    ("expected", "said"),
    [
        (0.07, "7 %"),
        (0.07, "7"),
        (0.07, "0.07"),
        (0.12, "12 % with a fresh pack"),
        (None, "1080 µs"),
        (None, "late"),
        (None, None),
    ],
)
def test_a_throttle_is_a_share(expected: float | None, said: str | None) -> None:
    """A bare number above one is in per cent; the length of a pulse is no share."""
    assert expected == throttle_read(said)


def test_a_list_is_read_with_its_brackets_or_without() -> None:
    """As YAML writes it, or as one says it."""
    assert ["aileron", "elevator"] == list_read("[aileron, 'elevator']")
    assert ["aileron", "elevator"] == list_read("aileron, elevator")


def test_a_reading_names_its_station_anywhere_in_its_name() -> None:
    """Before what was read or after it."""
    stations = ("front-left", "rear-left")

    assert ("front-left", "output") == station_read("front-left.output", stations)
    assert ("rear-left", "spin") == station_read("spin.rear-left", stations)
    assert (None, "each.output") == station_read("each.output", stations)


def test_ways_of_turning_are_read_in_any_case() -> None:
    """Seen from above, as the keeper says it."""
    assert ("cw", "ccw", None) == (turn_read("Clockwise "), turn_read("CCW"), turn_read("left"))
