"""A2: a look that failed is open until it passes or what it found is cleared, and grounds."""

from pathlib import Path

import pytest
from hangar_on_disk import Hangar, with_log

FAILED = """\
- inspection: [preflight-look]
  on: 2026-06-19
  result: fail
  findings: cracked arm, rear-left
"""


@pytest.mark.parametrize("look", ["preflight-look", "postflight-look", "link-loss-action"])
def test_a_failed_look_of_each_flight_grounds(tmp_path: Path, look: str) -> None:
    """Those that come round at no interval too: on every page, at its line."""
    hangar = Hangar(tmp_path, with_log(FAILED.replace("preflight-look", look)))

    place = hangar.line("aircraft/sedge/logbook.yaml", f"inspection: [{look}]")
    found = "failed on 19 June 2026: cracked arm, rear-left"
    assert ("grounded", [f"{look.replace('-', ' ')}: {found}"]) == (
        hangar.state(),
        hangar.reasons(),
    )
    assert 3 == hangar.due[0]
    assert f"Sedge: {look.replace('-', ' ')} - failed the last one {found}" in hangar.due[1]
    assert [("task", "failed", place)] == [
        (row["kind"], row["state"], row["place"]) for row in hangar.rows(look)
    ]
    assert [] == hangar.silent_pages(look)


def test_the_same_look_passed_closes_it(tmp_path: Path) -> None:
    """Next day, all whole."""
    passed = "- on: 2026-06-20\n  inspection: preflight-look\n"
    hangar = Hangar(tmp_path, with_log(FAILED + passed))

    assert ("nothing open", []) == (hangar.state(), hangar.reasons())


def test_what_it_found_can_be_cleared(tmp_path: Path) -> None:
    """By the id of the entry, as a defect is."""
    cleared = "- on: 2026-06-20\n  cleared: arm\n  how: arm replaced\n"
    hangar = Hangar(tmp_path, with_log(FAILED + "  id: arm\n" + cleared))

    assert ("nothing open", []) == (hangar.state(), hangar.reasons())
    assert "no problems" in hangar.check


def test_a_part_that_a_failed_look_names_grounds_its_carrier(tmp_path: Path) -> None:
    """On the page of the part as well."""
    entry = "- inspection: motor-bearings\n  on: 2026-06-19\n  tags: [M-02]\n  result: fail\n"
    entry += "  note: gritty\n"
    hangar = Hangar(tmp_path, with_log(entry))

    assert ("grounded", ["motor bearings of M-02 at front-right: failed on 19 June 2026"]) == (
        hangar.state(),
        hangar.reasons(),
    )
    assert [] == hangar.silent_pages("motor bearings", "sedge", "items/M-02.html")


def test_a_failed_look_in_passing_names_a_part_too(tmp_path: Path) -> None:
    """A look that no programme has for that kind of part."""
    entry = "- inspection: preflight-look\n  on: 2026-06-19\n  tags: [M-02]\n  result: fail\n"
    entry += "  note: gritty\n"
    hangar = Hangar(tmp_path, with_log(entry))

    assert ("grounded", ["preflight look of M-02 at front-right: failed on 19 June 2026"]) == (
        hangar.state(),
        hangar.reasons(),
    )


@pytest.mark.parametrize(("severity", "state"), [("defer", "due soon"), ("note", "due soon")])
def test_severity_says_how_mild_it_is(tmp_path: Path, severity: str, state: str) -> None:
    """A scratch grounds nothing where the keeper says so; it stays open."""
    hangar = Hangar(tmp_path, with_log(FAILED + f"  severity: {severity}\n"))

    said = "preflight look: failed on 19 June 2026: cracked arm, rear-left"
    assert (state, [said]) == (hangar.state(), hangar.reasons())


def test_a_preflight_list_that_was_not_gone_through_is_a_mark_only(tmp_path: Path) -> None:
    """Or people write nothing."""
    entry = "- on: 2026-06-19\n  flight: 5:00\n  pack: P-01\n  preflight: not done\n"
    hangar = Hangar(tmp_path, with_log(entry))

    assert "grounded" != hangar.state()


def test_a_defect_that_waits_without_a_limit_stands_before_what_comes_round(tmp_path: Path) -> None:
    """Flown with twice: among what is now, on all pages; and check counts."""
    crack = "- {on: 2026-06-20, id: arm, defect: arm cracked at the motor, severity: defer}\n"
    flown = "- {on: 2026-06-20, flight: 4:00, pack: P-01}\n" * 2
    hangar = Hangar(tmp_path, with_log(crack + flown))

    assert "Now Sedge: defect - deferred arm cracked at the motor" in hangar.due[1]
    assert "warning: defect arm is deferred without a limit, 2 flights since @" in hangar.check
    assert [] == hangar.silent_pages("arm cracked at the motor")


DEFERRED = (
    "- {on: 2026-06-20, id: mark, defect: boom marked, severity: defer, deferred_until: %s}\n"
)


@pytest.mark.parametrize(
    ("until", "said"),
    [
        ("{on: 2040-01-01}", "until 2040-01-01"),
        ("{flights: 9000}", "for 9000 flights"),
        ("{hours: 60}", "for 60.0 h"),
        ("{on: 2040-01-01, flights: 9000}", "until 2040-01-01 or for 9000 flights"),
        ("{on: 2040-01-01, flights: 5}", ""),
        ("{on: 2027-06-20}", ""),
        ("{flights: 250}", ""),
    ],
)
def test_a_limit_that_is_far_away_is_none(tmp_path: Path, until: str, said: str) -> None:
    """What comes first of several decides; whoever is sure of it says so."""
    found = Hangar(tmp_path, with_log(DEFERRED % until)).check
    sure = Hangar(tmp_path / "sure", with_log(DEFERRED % until.replace("}", "}, sure: true")))

    assert (f"warning: defect mark is deferred {said} @" in found) == bool(said)
    assert "deferred" not in sure.check


@pytest.mark.parametrize(
    ("look", "said"),
    [
        ("check: range, result: fail", "range"),
        ("inspection: preflight-look, result: fail, findings: slack", "preflight-look"),
        ("inspection: pack-look, tags: [P-01], result: fail, findings: torn wrap", "pack-look"),
        ("check: spin-directions, result: fail", "spin-directions"),
    ],
)
def test_a_failed_look_that_is_put_off_has_no_limit(tmp_path: Path, look: str, said: str) -> None:
    """It grounds nothing, for as long as nobody looks again: doubted once, unless it is sure."""
    entry = f"- {{on: 2026-06-20, {look}, severity: defer}}\n"
    sure = entry.replace("}", ", sure: true}")
    warned = (
        f"warning: {said} failed and is deferred without a limit @ aircraft/sedge/logbook.yaml:24\n"
    )

    assert 1 == Hangar(tmp_path, with_log(entry)).check.count(warned)
    assert "deferred" not in Hangar(tmp_path / "sure", with_log(sure)).check


FOUND = "- inspection: propeller-touch\n  findings: %s\n  on: 2026-06-20\n"


@pytest.mark.parametrize(
    ("found", "asked"),
    [
        ("rear-left motor loose", True),
        ("one screw loose", True),
        ("strap frayed, not replaced yet", True),
        ("rear-left motor loose\n  result: pass", False),
        ("rear-left motor loose\n  sure: true", False),
        ("rear-left motor loose, tightened", False),
        ("nick in one blade. New propeller on", False),
        ("'none cracked, nothing loose'", False),
        ("All tight.", False),
        ("slight play", False),
    ],
)
def test_what_was_found_without_a_result_is_asked_back(
    tmp_path: Path, found: str, asked: bool
) -> None:
    """It counts as passed; whether it was put right only its keeper knows."""
    hangar = Hangar(tmp_path, with_log(FOUND % found))
    place = hangar.line("aircraft/sedge/logbook.yaml", "findings: ")

    doubt = (
        f"warning: '{found}' was found, and nothing says whether it was put right @ {place}\n"
        "    add result: pass if it was or may stay so, result: fail if not\n"
    )
    assert asked == hangar.check.startswith(doubt)
    assert asked == ("put right" in hangar.check)


def test_a_result_on_the_same_line_is_one(tmp_path: Path) -> None:
    """As in every other entry; what a later entry corrects it to is one as well."""
    line = "- {on: 2026-06-20, id: found, inspection: propeller-touch, %sfindings: strap frayed}\n"
    mended = "- {on: 2026-06-20, corrects: found, set: {result: pass}, because: new strap}\n"

    told = {
        name: "nothing says whether" in Hangar(tmp_path / name, with_log(entry)).check
        for name, entry in {
            "none": line % "",
            "said": line % "result: pass, ",
            "corrected": line % "" + mended,
        }.items()
    }
    assert {"none": True, "said": False, "corrected": False} == told
