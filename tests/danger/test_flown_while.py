"""A11, and R04, R05 of the rules for records: flown while something that grounds was open."""

from collections.abc import Mapping
from pathlib import Path

import pytest
from hangar_on_disk import QUIET, Hangar, with_log

STALE = "- on: 2026-05-17\n  setting: {failsafe: throttle cut}\n"
FLOWN = "- on: 2026-05-17\n  flights: [[5:00, P-01], [5:00, P-01]]\n- on: {last}\n  flight: 5:00\n"
PASSED = """\
- on: 2026-06-19
  check: [failsafe, range, stick-sense, arming, throttle-cut, mode-switches]
  result: pass
"""


def _hangar(tmp_path: Path, as_of: str = "2026-06-20") -> Hangar:
    log = QUIET["aircraft/sedge/logbook.yaml"]
    before, after = log.split("- on: 2026-06-18")
    flown = before + STALE + FLOWN.format(last="2026-05-24") + "- on: 2026-06-18" + after + PASSED
    keeper = QUIET["hangar.yaml"].replace("2026-06-20", as_of)
    return Hangar(tmp_path, {**QUIET, "aircraft/sedge/logbook.yaml": flown, "hangar.yaml": keeper})


def test_one_warning_a_stretch_with_its_count_and_days(tmp_path: Path) -> None:
    """At its first flight: how often, while what, from when to when."""
    hangar = _hangar(tmp_path)

    first = hangar.line("aircraft/sedge/logbook.yaml", "flights: [[5:00")
    assert (
        "warning: sedge flown 4 times while stick-sense, arming, throttle-cut,"
        f" failsafe and range were open, 2026-05-17 to 2026-06-18 @ {first}\n"
        "    passed or cleared on 2026-06-19\n"
    ) in hangar.check
    assert "grounded" != hangar.state()


def test_what_ended_long_ago_is_one_count_until_asked_for(tmp_path: Path) -> None:
    """After 90 days; ``check --all`` lists them."""
    hangar = _hangar(tmp_path, "2026-12-20")

    assert "once before 2026-09-21 it was flown while something that grounds was open" in (
        hangar.check
    )
    assert "failsafe and range were open" not in hangar.check
    asked = hangar.run("check", str(hangar.folder), "--all")[1]
    assert "failsafe and range were open, 2026-05-17 to 2026-06-18 @" in asked


def test_a_keeper_who_was_sure_is_told_until_it_is_closed(tmp_path: Path) -> None:
    """Each flight of it must say so; ``check --all`` lists it all the same."""
    sure = AFTER + "  sure: true\n"
    failed = LOOK.format(look="inspection: preflight-look")
    passed = "- on: 2026-06-20\n  inspection: preflight-look\n"
    said = "flown 1 time while preflight-look was open"
    still, closed, unsure = (
        Hangar(tmp_path / name, with_log(failed + log))
        for name, log in (("1", sure), ("2", sure + passed), ("3", AFTER + passed))
    )

    assert [True, False, True] == [said in one.check for one in (still, closed, unsure)]
    assert said in closed.run("check", str(closed.folder), "--all")[1]


def test_judged_by_what_was_written_by_then(tmp_path: Path) -> None:
    """A flight before the change is no part of it; nor is one after the check."""
    after = STALE.replace("05-17", "06-19") + PASSED + "- on: 2026-06-20\n  flight: 5:00\n"
    hangar = Hangar(tmp_path, with_log(after))

    assert "while" not in hangar.check


def test_flown_without_a_part_and_while_stored(tmp_path: Path) -> None:
    """Each a stretch of its own."""
    log = (
        "- on: 2026-06-19\n  remove: [X-01]\n- on: 2026-06-19\n  alteration: put away\n"
        "  status: stored\n- on: 2026-06-20\n  flight: 5:00\n"
    )
    hangar = Hangar(tmp_path, with_log(log))

    assert "sedge flown 1 time while missing receiver, on 2026-06-20" in hangar.check
    assert "sedge flown 1 time while stored, on 2026-06-20" in hangar.check


LOOK = "- on: 2026-06-19\n  {look}\n  result: fail\n  findings: play in the boom\n  id: boom\n"
AFTER = "- on: 2026-06-20\n  flight: 5:00\n  pack: P-01\n"


@pytest.mark.parametrize(
    ("look", "said"),
    [
        ("inspection: preflight-look", "preflight-look was open"),
        ("inspection: motor-bearings\n  tags: [M-02]", "motor-bearings of M-02 was open"),
        ("check: start-spread\n  stations: [rear-left]", "start-spread of rear-left was open"),
    ],
)
def test_flown_after_a_failed_look_of_any_kind(tmp_path: Path, look: str, said: str) -> None:
    """Of the aircraft, of a part on it, or a check that else would not ground."""
    hangar = Hangar(tmp_path, with_log(LOOK.format(look=look) + AFTER))

    assert f"warning: sedge flown 1 time while {said}, on 2026-06-20" in hangar.check
    assert f"    not passed since: {said.removesuffix(' was open')}\n" in hangar.check


@pytest.mark.parametrize(
    "between",
    [
        "- on: 2026-06-19\n  inspection: preflight-look\n",
        "- on: 2026-06-19\n  cleared: boom\n  how: glued\n",
    ],
)
def test_a_look_that_was_passed_or_cleared_first_is_quiet(tmp_path: Path, between: str) -> None:
    """So is one whose entry says that it is mild."""
    failed = LOOK.format(look="inspection: preflight-look")
    mild = failed.replace("id: boom", "severity: note")
    mended = Hangar(tmp_path / "mended", with_log(failed + between + AFTER))
    noted = Hangar(tmp_path / "noted", with_log(mild + AFTER))

    assert ("flown" in mended.check, "flown" in noted.check) == (False, False)


ON_FLIGHT: Mapping[str, tuple[str, str]] = {
    "a failed look": (
        LOOK.format(look="inspection: preflight-look"),
        "flown while preflight look was open",
    ),
    "a grounding defect": (
        "- on: 2026-06-19\n  defect: arm cracked\n",
        "flown with a grounding defect open",
    ),
    "a pack set aside": (
        "- on: 2026-06-19\n  defect: puffed\n  item: P-01\n",
        "with P-01 set aside",
    ),
    "a part missing": ("- on: 2026-06-19\n  remove: [X-01]\n", "flown without receiver"),
    "stored": (
        "- on: 2026-06-19\n  alteration: put away\n  status: stored\n",
        "flown while stored",
    ),
    "no check flight": (
        "- on: 2026-06-19\n  repair: arm\n  touched: [front-left]\n"
        "- on: 2026-06-19\n  check: range\n  result: pass\n",
        "flown before the check flight",
    ),
}


@pytest.mark.parametrize("what", ON_FLIGHT)
def test_the_flight_is_marked_in_the_logbook_and_the_timeline(tmp_path: Path, what: str) -> None:
    """On its own row; nothing is marked where nothing was open."""
    before, said = ON_FLIGHT[what]
    hangar = Hangar(tmp_path / "open", with_log(before + AFTER))
    quiet = Hangar(tmp_path / "quiet", with_log(AFTER))

    for page in ("aircraft/sedge/logbook.html", "aircraft/sedge/timeline.html"):
        assert said in hangar.page(page)
        assert said not in quiet.page(page)


def test_flights_one_after_the_other_are_one_line_of_the_timeline(tmp_path: Path) -> None:
    """Each is marked in the logbook; a flight on which it was closed again is marked no more."""
    failed = LOOK.format(look="inspection: preflight-look").replace("06-19", "06-18")
    thrice = "".join(AFTER.replace("06-20", day) for day in ("06-18", "06-19"))
    passed = "- on: 2026-06-20\n  inspection: preflight-look\n"
    hangar = Hangar(tmp_path, with_log(failed + thrice + passed + AFTER))

    said = "flown while preflight look was open"
    assert (2, 1) == (
        hangar.page("aircraft/sedge/logbook.html").count(said),
        hangar.page("aircraft/sedge/timeline.html").count(said),
    )


def test_flown_past_a_life_limit_is_marked_too(tmp_path: Path) -> None:
    """A programme that ends the life of a motor after one flight."""
    limit = (
        "programme: few\nbased_on: built-in small-multirotor\n"
        "life_limits:\n  - {limit: motor-life, for: motor, at: {flights: 1}}\n"
    )
    craft = QUIET["aircraft/sedge/aircraft.yaml"].replace("small-multirotor", "few")
    files = {"programmes/few.yaml": limit, "aircraft/sedge/aircraft.yaml": craft}
    hangar = Hangar(tmp_path, with_log(AFTER, **files))

    logbook = hangar.page("aircraft/sedge/logbook.html")
    assert 1 == logbook.count("flown with motor life of M-01 reached")


WET = "- on: 2026-06-19\n  water: a pond\n"
PASSED_AFTER_WATER = "- on: 2026-06-19\n  check: [failsafe, range]\n  result: pass\n"
FAILED_FLIGHT = "- on: 2026-06-19\n  flight: 1:00\n  pack: P-02\n  purpose: check\n  result: fail\n"


@pytest.mark.parametrize(
    ("before", "closed", "said"),
    [
        (WET + PASSED_AFTER_WATER, "- on: 2026-06-19\n  inspection: drying\n", "drying"),
        (FAILED_FLIGHT, "- on: 2026-06-19\n  setting: {rate: less}\n", "check-flight"),
    ],
)
def test_flown_while_wet_or_after_a_failed_check_flight(
    tmp_path: Path, before: str, closed: str, said: str
) -> None:
    """Until it was dried, or something was done about it."""
    after = AFTER.replace("P-01", "P-02")
    hangar = Hangar(tmp_path / "open", with_log(before + after))
    quiet = Hangar(tmp_path / "closed", with_log(before + closed + after))

    told = f"sedge flown 1 time while {said} was open, on 2026-06-20"
    assert (True, False) == (told in hangar.check, told in quiet.check)
