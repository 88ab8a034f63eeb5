"""The built-in layouts: stations in the order in which they are read."""

import pytest

from buildbook.records.layouts import LAYOUTS


@pytest.mark.parametrize("name", sorted(name for name, one in LAYOUTS.items() if not one.free))
def test_stations_stand_in_reading_order(name: str) -> None:
    """Front row first, each row from left to right, the upper of a pair before the lower."""
    stations = LAYOUTS[name].stations
    read = sorted(stations, key=lambda at: (-at.forward, at.right, at.tier == "lower"))

    assert [at.name for at in read] == list(LAYOUTS[name].names)


def test_the_rows_of_the_octos_are_those_of_the_contract() -> None:
    """Written out once, so that an order that only looks sorted is seen."""
    assert (
        "front-left front-right left-front right-front left-rear right-rear rear-left rear-right"
    ) == " ".join(LAYOUTS["octo-x"].names)
    assert "front front-left front-right left right rear-left rear-right rear" == " ".join(
        LAYOUTS["octo-plus"].names
    )
