"""A careless keeper: one danger after another in one season, and every one of them is said.

Two multirotors on one memory, a failsafe that holds the throttle, a propeller of the wrong hand,
a receiver lent out, packs that were crashed, drowned, puffed, run down and charged in the cold.
"""

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
    ("row", "reason"),
    [
        ("A1", "propeller-fit of front-left is failed: R-03 is cw, not ccw"),
        ("A2", "preflight-look is failed"),
        ("A3", "Teal has no receiver"),
        ("A5", "cell-voltages of P-02 is due: cells 150 mV apart at rest"),
        ("A6", "flown-low of P-01 is due"),
        ("A8", "defect of P-06 is open"),
        ("A8", "P-03 is set aside: it was in a crash"),
        ("A12", "mass-limit is passed with P-01 and heavier packs"),
        ("A14", "check-flight is failed"),
        ("A15", "pack-retire of P-01 is reached"),
        ("A20", "failsafe is failed: link lost, the motor keeps running"),
        ("A21", "stick-sense is stale"),
        ("A22", "memory 4 is also Teal's"),
        ("A26", "P-04 is set aside: it got wet"),
        ("A27", "propeller-nut of M-01"),
    ],
)
def test_each_danger_is_among_the_reasons(row: str, reason: str) -> None:
    """By row of the table of dangers."""
    status, states = say_again.said("careless", "states.txt")

    assert 3 == status
    assert reason in states, row


def test_nothing_of_it_is_called_in_order() -> None:
    """Both aircraft stay at home, and no pack that was hurt may be charged or flown."""
    _, states = say_again.said("careless", "states.txt")

    assert ["sedge: grounded", "teal: grounded"] == [
        line for line in states.splitlines() if line.startswith(("sedge", "teal"))
    ]
    for tag in ("P-03", "P-04", "P-05", "P-06"):
        assert f"{tag}: quarantined" in states
