"""R32: what does not work may wait where it is not required, put out of use, and said."""

from pathlib import Path

import pytest
from hangar_on_disk import QUIET, Hangar, with_log, with_text

LOG = "aircraft/sedge/logbook.yaml"
FIELD = "cards/sedge-field.html"
PAGE = "aircraft/sedge/index.html"
GPS = """\
- on: 2026-06-19
  id: gps-out
  defect: GPS silent
  severity: defer
  deferred_until: {flights: 20}
  inoperative: deactivated
  placard: no position hold
"""
REMOVED = GPS.replace("deactivated", "removed")
FULL = "- on: 2026-06-20\n  inspection: full-inspection\n"
PASSED_OVER = "'GPS silent' is inoperative, and not addressed by the full-inspection of 2026-06-20"
WEIGHED = "'GPS silent' is said to be removed, and its mass is still counted"


def test_what_is_put_out_of_use_is_said_with_its_placard(tmp_path: Path) -> None:
    """On the page of the aircraft and its field card; it may be flown."""
    hangar = Hangar(tmp_path, with_log(GPS))

    assert "no problems" in hangar.check
    assert "due soon" == hangar.state()
    words = "GPS silent (deactivated); placard: no position hold"
    assert f"Inoperative 19 June 2026 : {words}" in hangar.page(PAGE)
    assert f"Inoperative: {words}." in hangar.page(FIELD)
    assert "inoperative deactivated placard no position hold" in hangar.page(
        "aircraft/sedge/logbook.html"
    )


def test_a_placard_that_nobody_wrote_is_not_recorded(tmp_path: Path) -> None:
    """Never "none", and gone when the defect is cleared."""
    bare = GPS.replace("  placard: no position hold\n", "")
    cleared = "- on: 2026-06-20\n  cleared: gps-out\n  how: new puck\n"
    open_ = Hangar(tmp_path / "open", with_log(bare))
    done = Hangar(tmp_path / "done", with_log(bare + cleared))

    assert "Inoperative: GPS silent (deactivated); placard not recorded." in open_.page(FIELD)
    assert "Inoperative" not in done.page(FIELD)


@pytest.mark.parametrize(("severity", "done"), [("defer", "deferred"), ("note", "only noted")])
def test_what_is_required_cannot_be_deferred(tmp_path: Path, severity: str, done: str) -> None:
    """A problem with both places, and it grounds whatever was written."""
    defect = f"- on: 2026-06-19\n  defect: GPS silent\n  severity: {severity}\n  required: true\n"
    hangar = Hangar(tmp_path, with_log(defect))

    places = [hangar.line(LOG, f"severity: {severity}"), hangar.line(LOG, "required: true")]
    assert (
        f"problem: 'GPS silent': what is required cannot be {done} @ {', and '.join(places)}\n"
        "    write severity: grounds, until it is mended and cleared\n"
    ) in hangar.check
    assert "Sedge grounded" in hangar.due[1]


def test_what_is_required_and_grounds_is_no_problem(tmp_path: Path) -> None:
    """Also where a correction made it so."""
    wrong = GPS + "  required: true\n"
    right = "- on: 2026-06-20\n  corrects: gps-out\n  set: {severity: grounds}\n  because: slip\n"
    mended = "- on: 2026-06-19\n  defect: GPS silent\n  required: true\n"

    for name, log in (("corrected", wrong + right), ("written", mended)):
        hangar = Hangar(tmp_path / name, with_log(log))
        assert "cannot be deferred" not in hangar.check
        assert "grounded" == hangar.state()


def test_a_full_inspection_that_is_silent_about_it_is_told(tmp_path: Path) -> None:
    """A warning at the inspection, with the place of the defect."""
    hangar = Hangar(tmp_path, with_log(GPS + FULL))

    here = hangar.line(LOG, "inspection: full-inspection")
    there = f"{LOG}:24"
    assert (
        f"warning: {PASSED_OVER} @ {here}, and {there}\n"
        "    add addressed: [gps-out] to it, or write cleared: gps-out\n"
    ) in hangar.check


@pytest.mark.parametrize(
    "log",
    [
        GPS,
        FULL + GPS.replace("06-19", "06-20"),
        GPS + FULL + "  addressed: gps-out\n",
        GPS + FULL + "- on: 2026-06-20\n  cleared: gps-out\n",
        GPS
        + FULL
        + "- on: 2026-06-20\n  corrects: gps-out\n"
        + "  set: {deferred_until: {flights: 30}}\n  because: part on order\n",
        GPS + "- on: 2026-06-20\n  inspection: propeller-touch\n",
        GPS.replace("  inoperative: deactivated\n", "") + FULL,
    ],
    ids=["none since", "before it", "addressed", "cleared", "put off again", "another", "works"],
)
def test_where_it_was_addressed_or_none_was_done_nothing_is_told(tmp_path: Path, log: str) -> None:
    """A look at something else is no full inspection."""
    assert "not addressed" not in Hangar(tmp_path, with_log(log)).check


def test_a_keepers_own_full_inspection_counts_too(tmp_path: Path) -> None:
    """A task that covers several others, whatever its name."""
    programme = (
        "programme: mine\nbased_on: built-in small-multirotor\ntasks:\n"
        "  - task: winter-overhaul\n    what: All of it.\n    every: {months: 12}\n"
        "    covers: [motor-bearings, solder-and-leads]\n"
    )
    files = with_text(
        "aircraft/sedge/aircraft.yaml",
        "programme: small-multirotor",
        "programme: mine",
        GPS + FULL.replace("full-inspection", "winter-overhaul"),
    )
    hangar = Hangar(tmp_path, {**files, "programmes/mine.yaml": programme})

    assert "not addressed by the winter-overhaul of 2026-06-20" in hangar.check


def test_an_unknown_defect_that_was_addressed_is_a_problem(tmp_path: Path) -> None:
    """With the one that may be meant."""
    hangar = Hangar(tmp_path, with_log(GPS + FULL + "  addressed: [gps-oot]\n"))

    place = hangar.line(LOG, "addressed:")
    assert (
        f"problem: unknown defect 'gps-oot' @ {place}\n    did you mean 'gps-out'?" in hangar.check
    )


ITEM = REMOVED.replace("  severity", "  item: C-02\n  severity")
ON_BOARD = REMOVED.replace("  severity", "  item: C-01\n  severity")


@pytest.mark.parametrize("log", [REMOVED, ON_BOARD], ids=["untagged", "still fitted"])
def test_what_is_removed_by_a_word_alone_is_still_weighed(tmp_path: Path, log: str) -> None:
    """A warning at the word."""
    hangar = Hangar(tmp_path, with_log(log))

    assert (
        f"warning: {WEIGHED} @ {hangar.line(LOG, 'inoperative: removed')}\n"
        "    write remove: with its tag, or an alteration with its mass:\n"
    ) in hangar.check


@pytest.mark.parametrize(
    "log",
    [
        REMOVED + "- on: 2026-06-19\n  alteration: GPS off\n  mass: -18 g\n",
        REMOVED + "- on: 2026-06-20\n  weigh: 1078 g\n  pack: P-01\n",
        REMOVED + "- on: 2026-06-19\n  alteration: GPS off\n  sundries: []\n",
        "- on: 2026-06-19\n  remove: [C-01]\n" + ON_BOARD,
        ITEM,
        REMOVED + "- on: 2026-06-20\n  cleared: gps-out\n",
    ],
    ids=["mass", "scales", "sundries", "taken out", "never fitted", "cleared"],
)
def test_where_its_mass_followed_nothing_is_told(tmp_path: Path, log: str) -> None:
    """By whichever entry the record takes it off."""
    assert WEIGHED not in Hangar(tmp_path, with_log(log)).check


@pytest.mark.parametrize(
    ("line", "said"),
    [
        ("inoperative: broken", "'broken' is not removed or deactivated"),
        ("required: maybe", "'maybe' is neither true nor false"),
    ],
)
def test_slips_are_told(tmp_path: Path, line: str, said: str) -> None:
    """As problems, at the value."""
    defect = f"- on: 2026-06-19\n  defect: GPS silent\n  severity: defer\n  {line}\n"
    hangar = Hangar(tmp_path, with_log(defect))

    assert f"{said} @ {hangar.line(LOG, line)}" in hangar.check


def test_what_grounds_is_not_inoperative_and_deferred(tmp_path: Path) -> None:
    """Without severity: defer the word says nothing."""
    defect = "- on: 2026-06-19\n  defect: GPS silent\n  inoperative: deactivated\n"
    hangar = Hangar(tmp_path, with_log(defect))

    place = hangar.line(LOG, "inoperative:")
    assert (
        f"warning: a defect of severity 'grounds' has 'inoperative' @ {place}\n"
        "    write severity: defer\n"
    ) in hangar.check


def test_the_quiet_hangar_says_nothing_of_it(tmp_path: Path) -> None:
    """Neither card nor page has the heading."""
    hangar = Hangar(tmp_path, QUIET)

    assert ("Inoperative" in hangar.page(PAGE), "Inoperative" in hangar.page(FIELD)) == (
        False,
        False,
    )
