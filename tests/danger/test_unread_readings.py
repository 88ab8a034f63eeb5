"""A reading that has something to be held against is understood and held, or said to be not judged.

What is read how is common practice, no source; which way a surface must go is mechanics of flight.
"""

from pathlib import Path

import pytest
from aeroplane_on_disk import plane
from hangar_on_disk import SET_UP, Hangar, with_log, with_text

from buildbook.records.link_lost import throttle_does
from buildbook.records.readings import distance_read, voltage_read

PASSED = "- on: 2026-06-19\n  check: {}\n  result: pass\n  readings: {{{}}}\n"
UNREAD = "can't be read, and is not judged"


@pytest.mark.parametrize(
    ("said", "effect"),
    [("goes to full throttle", "runs"), ("motors stay at 30 %", "runs"),
     ("motor revs up", "runs"), ("motors kept on turning", "runs"),
     ("holds last position", "unknown"), ("dreht weiter", "unknown"), ("idle", "unknown"),
     ("returned home", "unknown"), ("a little up and left", "unknown"),
     ("stops", "stops"), ("motor off, a little up", "stops"), ("throttle cut, rest held", "stops"),
     ("motors turning slowly, stopped at once", "stops"), ("as set", "as set")],
)  # fmt: skip
def test_what_a_failsafe_did_is_known_or_is_not(said: str, effect: str) -> None:
    """Only words that are known to say that it stops are a stop."""
    does = throttle_does({"failsafe": said})
    assert does is not None
    assert effect == does.effect


def test_a_failsafe_that_nobody_can_read_is_not_in_order(tmp_path: Path) -> None:
    """It is open until it is read, everywhere; its keeper may be sure, and the sheet says so."""
    passed = PASSED.format("failsafe", "failsafe: dreht weiter")
    hangar = Hangar(tmp_path / "asked", with_log(passed))
    sure = Hangar(tmp_path / "sure", with_log(passed + "  sure: true\n"))
    said = f"'failsafe: dreht weiter' {UNREAD}"

    assert ([f"failsafe: open, {said}"], "due soon") == (hangar.reasons(), hangar.state())
    assert f"warning: sedge: {said} @" in hangar.check
    assert [] == hangar.silent_pages(said, "sedge", SET_UP)
    assert ([], False) == (sure.reasons(), UNREAD in sure.check)
    assert "ok, not judged" in sure.page(SET_UP.format(slug="sedge"))


@pytest.mark.parametrize(
    "written", ["{throttle: 3}", "{throttle: no}", '{rest: "Throttle: cut, rest: centre"}']
)
def test_a_plan_of_the_failsafe_that_says_nothing_is_told(tmp_path: Path, written: str) -> None:
    """Beside ``cut`` and ``hold`` it could be anything."""
    path = "aircraft/sedge/aircraft.yaml"
    text = with_text(path, "failsafe: {throttle: cut}", f"failsafe: {written}")
    hangar = Hangar(tmp_path, text)

    assert ["open"] == [row["state"] for row in hangar.rows("failsafe-recorded")]
    assert UNREAD in hangar.check


@pytest.mark.parametrize(
    ("readings", "reasons"),
    [
        ("1: 2, 2: 1, 3: 3", ["receiver order: failed, input 1 read as 2, planned throttle"]),
        ("1: RUD, 2: thr", ["receiver order: failed, input 1 read as rudder, planned throttle"]),
        ("1: 1, 2: 2", [f"receiver order: open, '1: 1' {UNREAD}"]),
        ("1: Gas", [f"receiver order: open, '1: Gas' {UNREAD}"]),
        ("1: THR, 2: rud, 3: ele", []),
    ],
)
def test_the_order_of_the_receiver_as_people_write_it(
    tmp_path: Path, readings: str, reasons: list[str]
) -> None:
    """A number other than that of its input is another input; the same number names no channel."""
    hangar = Hangar(tmp_path, with_log(PASSED.format("receiver-order", readings)))
    assert reasons == hangar.reasons()


@pytest.mark.parametrize(
    ("check", "readings", "reasons"),
    [
        ("accelerometer", "roll: 11", ["accelerometer: open, roll read as 11, expected 0° ± 3°"]),
        ("accelerometer", "roll: -0.4°, pitch: 2.9", []),
        ("accelerometer", "roll: level",
         [f"accelerometer: open, 'roll: level' {UNREAD}"]),
        ("range", "distance: approx 12 m",
         ["range: failed, distance read as approx 12 m, asked are 30 m"]),
        ("range", 'distance: "0,3km"', [f"range: open, 'distance: 0,3km' {UNREAD}"]),
        ("low-voltage-alarm", "alarm: at 3 beeps",
         [f"low voltage alarm: open, 'alarm: at 3 beeps' {UNREAD}"]),
    ],
)  # fmt: skip
def test_numbers_are_held_or_not_judged(
    tmp_path: Path, check: str, readings: str, reasons: list[str]
) -> None:
    """About so much is so much; what begins with no number is none."""
    assert reasons == Hangar(tmp_path, with_log(PASSED.format(check, readings))).reasons()


def test_a_comma_may_be_that_of_a_decimal() -> None:
    """With one or two digits behind it; three may be thousands."""
    assert (3.5, 12.0, None) == (
        voltage_read("3,5 V"),
        distance_read("approx 12 m"),
        distance_read("1,310 m"),
    )


def test_a_surface_that_went_the_wrong_way_is_no_pass_and_the_others_were_not_read(
    tmp_path: Path,
) -> None:
    """One of four was read: the other three stay open after the radio was altered."""
    altered = "- on: 2026-06-19\n  setting: {reversed: elevator}\n"
    wrong = Hangar(
        tmp_path / "wrong", plane(altered + PASSED.format("surface-sense", "left aileron: up"))
    )
    right = Hangar(
        tmp_path / "right", plane(altered + PASSED.format("surface-sense", "aileron left: down"))
    )

    said = "sense read as up, expected down (aileron stick right)"
    assert f"warning: heron: aileron-left: {said} @" in wrong.check
    assert [("aileron-left", "failed"), ("aileron-right", "stale"), ("elevator", "stale"),
            ("rudder", "stale")] == [
        (row["station"], row["state"]) for row in wrong.rows("surface-sense")
    ]  # fmt: skip
    both = PASSED.format("surface-throws", "aileron up: 12 mm, elevator: 10 mm, rudder: 20°")
    assert [] == Hangar(tmp_path / "both", plane(altered + both)).rows("surface-throws")
    assert ["aileron-right", "elevator", "rudder"] == [
        row["station"] for row in right.rows("surface-sense")
    ]
