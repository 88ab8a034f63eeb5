"""R40: a new volume begins with the totals of the old one."""

from pathlib import Path

import pytest
from hangar_on_disk import AS_OF, QUIET, Hangar

LOG = "aircraft/sedge/logbook.yaml"
OLD = "aircraft/sedge/logbook/2026.yaml"
NEW = "aircraft/sedge/logbook/2027.yaml"
CRAFT = "aircraft/sedge/aircraft.yaml"
FLOWN = "- on: 2026-06-19\n  flights: [[30:00, P-01], [30:00, P-01], [30:00, P-01]]\n  sure: true\n"
CARRIED = "carried: {hours: 86.8, flights: 600, basis: measured}\n"


def volumes(opening: str, more: str = "", carried: str = CARRIED) -> dict[str, str]:
    """The quiet hangar with 88.4 h and 604 flights at the end of 2026, and a volume of 2027."""
    files = {path: text for path, text in QUIET.items() if path != LOG}
    return {
        **files,
        OLD: QUIET[LOG] + FLOWN,
        NEW: f"- on: 2027-01-01\n  opening: {opening}\n{more}",
        CRAFT: QUIET[CRAFT].replace("in_service", f"{carried}in_service"),
        "hangar.yaml": QUIET["hangar.yaml"].replace(AS_OF, "2027-01-10"),
    }


@pytest.mark.parametrize(
    "opening",
    [
        "{flights: 604, time: 88.4 h}",
        "{flights: 604, time: 88.4}",
        "{time: 88 h 24 min}",
        "{flights: 604}",
    ],
)
def test_equal_totals_are_brought_forward(tmp_path: Path, opening: str) -> None:
    """What the logbook showed may be copied: 88 h 24 min 10 s is 88.4 h."""
    assert "no problems" in Hangar(tmp_path, volumes(opening)).check


def test_the_logbook_shows_what_is_brought_forward(tmp_path: Path) -> None:
    """As the first line of the new volume."""
    hangar = Hangar(tmp_path, volumes("{flights: 604, time: 88.4 h}"))

    words = "1 January 2027 opening Brought forward: 88.4 h, 604 flights"
    assert words in hangar.page("aircraft/sedge/logbook.html")


@pytest.mark.parametrize(
    ("opening", "said"),
    [
        (
            "{time: 88.1 h}",
            "88.1 h brought forward, the log before has 88.4 h: differs by 0.3 h",
        ),
        (
            "{flights: 603}",
            "603 flights brought forward, the log before has 604 flights: differs by 1 flight",
        ),
    ],
)
def test_totals_that_differ_are_a_problem_with_both_places(
    tmp_path: Path, opening: str, said: str
) -> None:
    """The opening, and the last flight before it."""
    hangar = Hangar(tmp_path, volumes(opening))

    assert (
        f"problem: {said} @ {NEW}:2, and {hangar.line(OLD, 'flights: [[')}\n"
        "    correct the opening, or the entries before it\n"
    ) in hangar.check
    assert 1 == hangar.run("check", str(hangar.folder))[0]


def test_a_new_volume_of_an_old_book_names_the_place_of_carried_life(tmp_path: Path) -> None:
    """Where nothing was flown before, earlier life belongs in aircraft.yaml."""
    files = {
        **volumes("{flights: 604}", carried=""),
        OLD: QUIET[LOG].partition("- on: 2026-06-18")[0],
    }
    hangar = Hangar(tmp_path, files)

    assert (
        "problem: 604 flights brought forward, the log before has 0 flights:"
        f" differs by 604 flights @ {NEW}:2, and {CRAFT}:1\n"
        "    life before these records is carried: in aircraft.yaml\n"
    ) in hangar.check


def test_what_is_flown_after_it_changes_nothing(tmp_path: Path) -> None:
    """It is checked against the moment at which it stands; a late entry of before counts."""
    later = "- on: 2027-01-02\n  flight: 5:00\n  pack: P-01\n"
    late = "- on: 2026-12-30\n  entered: 2027-01-03\n  flight: 6:00\n  pack: P-01\n"
    good = Hangar(tmp_path / "good", volumes("{flights: 604, time: 88.4 h}", later))
    bad = Hangar(tmp_path / "bad", volumes("{flights: 604, time: 88.4 h}", late))

    assert "brought forward" not in good.check
    assert "the log before has 605 flights: differs by 1 flight" in bad.check


def test_a_corrected_flight_of_the_old_volume_is_seen(tmp_path: Path) -> None:
    """A correction changes the total on its own day, and so does the opening's."""
    wrong = "- on: 2027-01-02\n  corrects: 2026-06-18-1\n  set: {flight: 66:10}\n  because: slip\n"
    right = (
        wrong + "- on: 2027-01-02\n  corrects: 2027-01-01-1\n"
        "  opening: {flights: 604, time: 89.4 h}\n  because: the flight was longer\n"
    )
    alone = Hangar(tmp_path / "alone", volumes("{flights: 604, time: 88.4 h}", wrong))
    both = Hangar(tmp_path / "both", volumes("{flights: 604, time: 88.4 h}", right))

    assert "the log before has 89.4 h: differs by 1 h" in alone.check
    assert "brought forward" not in both.check


@pytest.mark.parametrize(
    ("opening", "said"),
    [
        ("{}", "'opening' says no total"),
        ("88.4 h", "expected totals: a group of keys, got '88.4 h'"),
        ("{hours: 88.4}", "unknown key 'hours' in totals"),
        ("{flights: many}", "'many' is not a whole number"),
    ],
)
def test_slips_in_an_opening_are_told(tmp_path: Path, opening: str, said: str) -> None:
    """As problems, at the entry."""
    assert f"problem: {said} @ {NEW}:2" in Hangar(tmp_path, volumes(opening)).check


def test_an_opening_belongs_to_an_aircraft(tmp_path: Path) -> None:
    """Packs have no volumes."""
    files = {**QUIET, "stores/x.yaml": "- on: 2026-06-01\n  opening: {flights: 3}\n"}

    assert (
        "problem: 'opening' in stores/x, where there is no aircraft @ stores/x.yaml:1\n"
        "    move it to the logbook of the aircraft\n"
    ) in Hangar(tmp_path, files).check
