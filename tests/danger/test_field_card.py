"""The card for the field: what is wrong, in words of a person, and what that kind of thing has."""

from pathlib import Path

import pytest
from aeroplane_on_disk import plane
from hangar_on_disk import Hangar, with_log, with_text

HOLDS = with_text(
    "aircraft/sedge/aircraft.yaml", "failsafe: {throttle: cut}", "failsafe: {throttle: hold}"
)


def test_a_grounded_aircraft_has_its_reasons_and_no_rows_to_fly(tmp_path: Path) -> None:
    """What is wrong, what to do about it with its caution; no looks, no flights to fill in."""
    card = Hangar(tmp_path, HOLDS).page("cards/sedge-field.html")

    assert "Grounded, leave at home: failsafe: failed, link lost, the motor keeps running" in card
    assert (
        "Failsafe: failed, link lost, the motor keeps running: set to throttle hold."
        " Propellers off. Set the throttle to cut when the link is lost."
    ) in card
    assert "A motor can start on its own" in card
    assert ["Flights of the day", "Look over", "Which way"] == [
        words for words in ("Flights of the day", "Look over", "Which way") if words not in card
    ]


def test_the_same_failure_at_several_stations_is_one_line(tmp_path: Path) -> None:
    """Each station named once."""
    rewired = "- on: 2026-06-19\n  note: leads\n  rewired: [front-left, rear-right]\n"
    card = Hangar(tmp_path, with_log(rewired)).page("cards/sedge-field.html")

    said = "Spin directions at front-left, rear-right: stale, re-opened: leads changed or turn"
    assert 1 == card.count("leads changed or turn reversed on 19 June 2026. Propellers off.")
    assert said in card


def test_a_multirotor_is_asked_for_what_it_has(tmp_path: Path) -> None:
    """No skin, no surfaces; its frame, arms and legs."""
    card = Hangar(tmp_path, with_log("")).page("cards/sedge-field.html")

    assert "Frame, arms and legs whole" in card
    assert "It responds to each stick the right way" in card
    assert ["skin", "urfaces"] == [word for word in ("skin", "urfaces") if word not in card]


def test_an_aeroplane_says_which_way_each_surface_goes(tmp_path: Path) -> None:
    """Beside the look at skin, hinges and linkages."""
    card = Hangar(tmp_path, plane()).page("cards/heron-field.html")

    assert "Frame, undercarriage and skin whole" in card
    assert "Which way aileron-left: aileron stick right: down" in card
    assert "elevator: elevator stick back: up" in card


@pytest.mark.parametrize("severity", ["defer\n  deferred_until: {flights: 30}", "note"])
def test_a_defect_that_waits_is_named_before_each_flight(tmp_path: Path, severity: str) -> None:
    """It says "look at it before each flight", so the pages for that moment name it."""
    play = f"- on: 2026-06-19\n  defect: Hinge has play\n  item: F-01\n  severity: {severity}\n"
    hangar = Hangar(tmp_path, with_log(play))

    assert "Hinge has play" in hangar.page("cards/sedge-field.html")
    going = hangar.page("going-flying.html").partition("Packs")[0]
    assert "found on 19 June 2026: Hinge has play" in going


@pytest.mark.parametrize(
    ("status", "said"),
    [
        (
            "building",
            "Still being built: do not fly it; 3 set-up checks left, 1 of them failed.",
        ),
        ("stored", "Stored: do not fly it."),
    ],
)
def test_an_aircraft_that_is_not_in_use_has_no_rows_to_fly(
    tmp_path: Path, status: str, said: str
) -> None:
    """Nobody may take it for one with nothing open: no validity, no looks, no flights to fill in.

    Of one that is built, what its set-up lacks.
    """
    failed = "- on: 2026-06-19\n  check: range\n  result: fail\n"
    moved = "- on: 2026-06-19\n  note: leads\n  rewired: [front-left]\n"
    rests = f"- on: 2026-06-20\n  alteration: at the bench\n  status: {status}\n"
    card = Hangar(tmp_path, with_log(moved + failed + rests)).page("cards/sedge-field.html")

    assert said in card
    unwanted = (
        "Nothing open",
        "land at",
        "one day’s flying",
        "Flights of the day",
        "Look over",
        "Pull at",
    )
    assert [] == [words for words in unwanted if words in card]
