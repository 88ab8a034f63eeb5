"""A careless keeper: one danger after another in one season, and every one of them is said.

Two multirotors on one memory, a failsafe that holds the throttle, a propeller of the wrong hand,
a receiver lent out, an aeroplane flown on without the servo of its rudder, packs that were crashed,
drowned, puffed, run down, charged in the cold and measured in the cold.
"""

import json
import sys
from pathlib import Path

import pytest

sys.path.insert(0, str(Path(__file__).parent / "seasons"))

import say_again

SEASON = say_again.SEASONS / "careless"


@pytest.mark.parametrize(
    ("season", "file"),
    [(season, file) for season, files in say_again.SAID.items() for file in files],
)
def test_what_is_said_of_a_season_is_kept(season: str, file: str) -> None:
    """Word for word; ``seasons/say_again.py`` writes it anew after a change that is meant."""
    kept = (say_again.SEASONS / season / "said" / file).read_text("utf-8")

    assert kept == say_again.said(season, file)[1]


@pytest.mark.parametrize(
    ("row", "name", "of", "state"),
    [
        ("A1", "propeller-fit", "front-left", "failed"),
        ("A2", "preflight-look", "sedge", "failed"),
        ("A3", "missing-parts", "teal", "failed"),
        ("A3", "missing-parts", "rudder", "failed"),
        ("A4", "pack-look", "P-05", "due"),
        ("A5", "cell-voltages", "P-02", "due"),
        ("A6", "flown-low", "P-01", "due"),
        ("A8", "pack-look", "P-03", "stale"),
        ("A9", "spin-directions", "rear-left", "stale"),
        ("A10", "receiver-order", "dunlin", "stale"),
        ("A12", "mass-limit", "sedge", "failed"),
        ("A12", "balance-limit", "dunlin", "failed"),
        ("A13", "ratings", "E-01", "failed"),
        ("A13", "pack-cells", "Q-01", "failed"),
        ("A14", "check-flight", "sedge", "failed"),
        ("A15", "pack-retire", "P-01", "reached"),
        ("A15", "read-again", "P-12", "due"),
        ("A28", "pack-look", "P-11", "due"),
        ("A20", "failsafe", "sedge", "failed"),
        ("A21", "stick-sense", "sedge", "stale"),
        ("A22", "memory", "teal", "failed"),
        ("A25", "range", "sedge", "stale"),
        ("A25", "hinges", "dunlin", "stale"),
        ("A26", "failsafe", "teal", "stale"),
        ("A27", "propeller-nut", "M-01", "failed"),
    ],
)
def test_each_danger_has_its_row(row: str, name: str, of: str, state: str) -> None:
    """By row of the table of dangers; of: the station, the tag or the aircraft."""
    status, said = say_again.run("due", "careless", "--json")
    found = {
        (one["name"], of, one["state"])
        for one in json.loads(said)["rows"]
        for of in (one["station"], one["tag"], one["aircraft"])
    }

    assert 3 == status
    assert (name, of, state) in found, row


def test_nothing_of_it_is_called_in_order() -> None:
    """All aircraft stay at home, and no pack that was hurt may be charged or flown."""
    _, states = say_again.said("careless", "states.txt")

    assert ["dunlin: grounded", "sedge: grounded", "teal: grounded"] == [
        line for line in states.splitlines() if line.startswith(("dunlin", "sedge", "teal"))
    ]
    for tag in ("P-03", "P-04", "P-05", "P-06"):
        assert f"{tag}: quarantined" in states


def test_a_capacity_measured_in_the_cold_is_marked_and_judged_by_nothing(tmp_path: Path) -> None:
    """A16: the warm reading before it asks for a second one, and goes on asking."""
    _, states = say_again.said("careless", "states.txt")
    site = tmp_path / "site"

    assert "  second reading of P-12: due, capacity 77.2 % of rated, limit 80 %" in states
    assert "56.8 %" not in states
    assert 0 == say_again.run("render", "careless", "--into", str(site))[0]
    assert "not comparable: different temperature" in " ".join(
        (site / "items/P-12.html").read_text("utf-8").split()
    )


def test_which_came_last_of_a_charge_and_a_flight_is_asked() -> None:
    """A17: in two files on one day, without times."""
    _, check = say_again.said("careless", "check.txt")

    assert "warning: battery 'Q-01' charged or flown last on 2026-06-14: not recorded" in check
