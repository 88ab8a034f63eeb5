"""A11: flown while something that grounds was open."""

from pathlib import Path

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
    for check in ("failsafe", "range", "arming"):
        assert (
            f"warning: sedge flown 4 times while {check} was open,"
            f" 2026-05-17 to 2026-06-18 @ {first}\n"
        ) in hangar.check
    assert "grounded" != hangar.state()


def test_what_ended_long_ago_is_one_count_until_asked_for(tmp_path: Path) -> None:
    """After 90 days; ``check --all`` lists them."""
    hangar = _hangar(tmp_path, "2026-12-20")

    assert "times before 2026-09-21 it was flown while something that grounds was open" in (
        hangar.check
    )
    assert "while failsafe was open" not in hangar.check
    asked = hangar.run("check", str(hangar.folder), "--all")[1]
    assert "sedge flown 4 times while failsafe was open" in asked


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

    assert "sedge flown 1 time while missing a part, on 2026-06-20" in hangar.check
    assert "sedge flown 1 time while stored, on 2026-06-20" in hangar.check
