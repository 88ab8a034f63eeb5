"""Flights with a payload stand apart from those without, on a quad whose draw is known.

It draws 9 A at its 1.2 kg. A hover takes power with the weight to the power 1.5 (momentum theory,
check values, section 3), so with 300 g more 9 * 1.25 ** 1.5 = 12.58 A.
"""

import datetime
from pathlib import Path

import pytest
from small_hangars import SMALL, benched, found, logged, pack, quad
from test_changes import LARGER, MORE_ITEMS, fit
from test_ends_of_pack import under
from test_log_and_packs import flights
from test_time_in_the_cold import seconds

from buildbook.basis import amounts
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


# At 9 A of 11.1 V, and as a hover with 1.5 kg instead of 1.2 takes it; the pack is 15 mΩ, and at
# the field's 15 °C 2.5 % less with 1.283 times the resistance (as in test_time_in_the_cold).
BARE_W, LOADED_W = 99.9, 99.9 * 1.25**1.5


def cold_s(watts: float) -> float:
    """Time of the pack in the field's air at a power."""
    return seconds(0.015 * 1.283, watts, 2.2 * 0.975)


def test_a_payload_as_flown_has_a_timer_and_an_alarm(tmp_path: Path) -> None:
    """Twelve flights without, two with 300 g: 1.4 times the power, the low end of the ordinary."""
    answers = quad(tmp_path, logged(flights(12) + loaded(2)))
    timer, alarm = found(answers, "timer_setting", "P-1"), found(answers, "alarm_voltage", "P-1")
    expected = (timer.value or 0.0) * cold_s(LOADED_W) / cold_s(BARE_W)
    words = f"with 300 g {amounts.duration(timer.other['with the payload flown, s'])}"

    assert pytest.approx(0.3) == timer.other["payload flown, kg"]
    assert pytest.approx(expected, rel=2e-3) == timer.other["with the payload flown, s"]
    assert expected < (timer.value or 0.0) / 1.39
    frozen = timer.other["with the payload flown at 0 °C, s"]
    assert frozen < timer.other["at 0 °C, s"] / 1.39
    assert (timer.verdict or "").endswith(f"{words}, at 0 °C {amounts.duration(frozen)}")
    assert (
        "with 300 g: 1.40 times the power, as a hover takes it with the mass to the power 1.5, or "
        "what 2 flights with it used, whichever is shorter"
    ) == timer.notes[-1]
    volts = under(11.19, 0.015, LOADED_W)
    assert pytest.approx(volts, abs=2e-3) == alarm.other["with the payload flown, V"]
    assert f"with 300 g {volts:.2f} V" in (alarm.verdict or "").split("; ")


@pytest.mark.parametrize(("count", "amperes"), [(2, 16.0), (5, 16.0)])
def test_flights_that_used_more_with_the_payload_shorten_its_timer(
    tmp_path: Path, count: int, amperes: float
) -> None:
    """16 A: 1.76 Ah last 396 s, in the field's air by what that takes of them."""
    answers = quad(tmp_path, logged(flights(12) + loaded(count, amperes)))
    timer = found(answers, "timer_setting", "P-1")
    share = cold_s(LOADED_W) / seconds(0.015, LOADED_W, 2.2)

    expected = 1.76 / 16 * 3600 * share
    assert pytest.approx(expected, rel=5e-3) == timer.other["with the payload flown, s"]


def test_what_mostly_carries_the_same_has_no_other_timer(tmp_path: Path) -> None:
    """Its ordinary time is that with the payload."""
    timer = found(quad(tmp_path, logged(flights(4) + loaded(12))), "timer_setting", "P-1")

    assert "payload flown, kg" not in timer.other
