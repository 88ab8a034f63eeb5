"""Flights with a payload stand apart from those without, on a quad whose draw is known.

It draws 9 A at its 1.2 kg. A hover takes power with the weight to the power 1.5 (momentum theory,
check values, section 3), so with 300 g more 9 * 1.25 ** 1.5 = 12.58 A.
"""

import datetime
from pathlib import Path

import pytest
from small_hangars import SMALL, benched, found, logged, pack, quad
from test_changes import LARGER, MORE_ITEMS, fit
from test_log_and_packs import flights

from buildbook.report.figure import Figure

LOADED_A = 9.0 * 1.25**1.5


def loaded(count: int, amperes: float = LOADED_A, first: int = 0) -> str:
    """Flights of five minutes with 300 g, in May."""
    day, used = datetime.date(2026, 5, 1), round(amperes * 300 / 3.6)
    days = (day + datetime.timedelta(days=number) for number in range(first, first + count))
    return "".join(
        f"- {{on: {on}, flight: 300 s, pack: P-1, used: {used} mAh, payload: 300 g}}\n"
        for on in days
    )


def counted(figure: Figure) -> object:
    """From how many flights it is."""
    return next(one.value for one in figure.inputs if one.name == "flights in the log")


def test_loaded_flights_are_left_apart_by_name(tmp_path: Path) -> None:
    """Twelve flights at 9 A, four loaded: none is called odd, and 9 A stays 9 A."""
    answers = quad(tmp_path, logged(flights(12) + loaded(4)))
    for name, of in (
        ("flown_current", None),
        ("flown_current", "P-1"),
        ("flown_time", "P-1"),
        ("flight_time", "P-1"),
    ):
        figure = found(answers, name, of)
        assert 12 == counted(figure)
        assert "4 flights with a payload left apart" in figure.notes
        assert not any("odd" in note for note in figure.notes)
    assert pytest.approx(9.0, rel=1e-3) == found(answers, "flown_current").value


def test_what_mostly_carries_something_is_told_as_it_is_flown(tmp_path: Path) -> None:
    """Four flights without, twelve loaded: 12.58 A, and the time is that with the payload."""
    answers = quad(tmp_path, logged(flights(4) + loaded(12)))
    current, time = found(answers, "flown_current"), found(answers, "flight_time", "P-1")

    assert pytest.approx(LOADED_A, rel=1e-3) == current.value
    assert pytest.approx(2.2 * 0.8 / LOADED_A * 3600, rel=2e-3) == time.value
    for figure in (current, time):
        assert 12 == counted(figure)
        assert "flown with a payload" in figure.notes
        assert "4 flights without a payload left apart" in figure.notes


def test_a_payload_is_no_drift(tmp_path: Path) -> None:
    """Twenty flights at 9.0 to 9.2 A, then six loaded: aircraft and pack stay within limits."""
    log = "".join(flights(1, 9.0 + 0.1 * (number % 3), number) for number in range(20)) + loaded(6)
    for answers, of in (
        (quad(tmp_path / "quad", logged(log)), "time on an ampere-hour"),
        (pack(tmp_path / "pack", logged(log)), "charge a minute"),
    ):
        figure = found(answers, "drift", of)
        assert "within its own limits" == figure.verdict
        assert "6 flights with a payload left apart" in figure.notes


def test_the_current_of_a_pack_is_that_since_the_last_change(tmp_path: Path) -> None:
    """Twelve flights at 9 A, a larger propeller, five at 7 A: the pack's own is 7 A.

    The aircraft's waits for ten, and says so.
    """
    log = flights(12) + fit("R-9") + flights(5, 7.0, 20)
    files = {
        **SMALL,
        "parts/specs.yaml": SMALL["parts/specs.yaml"] + LARGER,
        "parts/items.yaml": SMALL["parts/items.yaml"] + MORE_ITEMS,
    }
    answers = quad(tmp_path, logged(log, files))
    own, all_of_it = found(answers, "flown_current", "P-1"), found(answers, "flown_current")

    assert (5, pytest.approx(7.0, rel=1e-3)) == (counted(own), own.value)
    assert not any("last changed" in note for note in own.notes)
    assert 17 == counted(all_of_it)
    assert "12 of them flown before motor, propeller or mass last changed" in all_of_it.notes


def test_payload_of_what_mostly_carries_something(tmp_path: Path) -> None:
    """Flown at 12.58 A with 300 g: without them 9 A, and so as long as 80 % of 2200 mAh last."""
    figure = found(quad(tmp_path, benched(loaded(12))), "payload", "P-1")

    assert pytest.approx(2.2 * 0.8 / 9.0 * 3600, rel=2e-3) == figure.other["hover without it, s"]
