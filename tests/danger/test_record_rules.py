"""Rules for records that are about what an aircraft carries along: their number is at each test.

The rules restate law and guidance that bind no model; see the table of them for the sources.
"""

import re
from pathlib import Path

import pytest
from hangar_on_disk import QUIET, Hangar, with_log, with_text

CRAFT = "aircraft/sedge/aircraft.yaml"
LOGBOOK = "aircraft/sedge/logbook.html"
FIELD = "cards/sedge-field.html"
BENCH = "cards/sedge-bench.html"
SLEEVED = "- on: 2026-05-10\n  repair: sleeve of 40 mm on arm 2\n  touched: [front-right]\n"
PASSED = """\
- on: 2026-05-11
  check: [range, balance-point, check-flight]
  result: pass
- on: 2026-05-11
  inspection: screws-and-mounts
"""


LOOK = "- on: 2026-06-19\n  id: look\n  inspection: preflight-look\n  result: fail\n"
MEND = "- on: 2026-06-19\n  corrects: look\n  because: it was late\n  set: {%s}\n"
VOID = "- on: 2026-06-19\n  voids: look\n  because: another aircraft\n"


def test_R06_a_failed_look_needs_a_finding(tmp_path: Path) -> None:
    """A problem at the result, and nothing is rendered; its row stands on due all the same."""
    hangar = Hangar(tmp_path, with_log(LOOK))

    place = hangar.line("aircraft/sedge/logbook.yaml", "result: fail")
    assert (
        f"problem: 'preflight-look' failed, and nothing says what was found @ {place}\n"
        "    add findings:, or in an entry that corrects it set: {findings: …}\n"
        "1 problem\n"
    ) == hangar.check
    assert 1 == hangar.run("render", str(hangar.folder), "--into", str(tmp_path / "site"))[0]
    assert "Sedge: preflight look - failed" in hangar.due[1]


@pytest.mark.parametrize(
    ("log", "told"),
    [
        (LOOK + "  findings: boom cracked\n", False),
        (LOOK + "  note: boom cracked\n", False),
        (LOOK + "  readings: {boom: cracked}\n", False),
        (LOOK + MEND % "findings: boom cracked", False),
        (LOOK + MEND % "by: kim", True),
        (LOOK + VOID, False),
        ("- on: 2026-06-19\n  inspection: preflight-look\n", False),
    ],
)
def test_R06_what_counts_as_one(tmp_path: Path, log: str, told: bool) -> None:
    """Findings, a note or readings, in the entry or in one that corrects it later."""
    check = Hangar(tmp_path, with_log(log)).check

    assert told == ("nothing says what was found" in check)


def test_R33_a_repair_is_listed_until_what_was_repaired_is_replaced(tmp_path: Path) -> None:
    """On the page of the aircraft and its cards; after another frame only in the logbook."""
    frame = "- on: 2026-06-19\n  fit: {centre: {frame: F-02}}\n  instead_of: {F-01: retired}\n"
    before = Hangar(tmp_path / "before", with_log(SLEEVED + PASSED))
    after = Hangar(tmp_path / "after", with_log(SLEEVED + PASSED + frame))

    page, words = "aircraft/sedge/index.html", "Repairs in place"
    assert f"{words} 10 May 2026 : Sleeve of 40 mm on arm 2 (front-right)" in before.page(page)
    for card in (FIELD, BENCH):
        assert f"{words}: sleeve of 40 mm on arm 2." in before.page(card)
    assert [] == [one for one in (page, FIELD, BENCH) if words in after.page(one)]
    assert "leeve of 40 mm on arm 2" in after.page(LOGBOOK)


def test_R33_the_bench_card_has_all_current_repairs(tmp_path: Path) -> None:
    """The field card the newest three, and how many more there are."""
    numbers = range(1, 6)
    repairs = "".join(SLEEVED.replace("arm 2", f"arm {number}") for number in numbers)
    hangar = Hangar(tmp_path, with_log(repairs + PASSED))

    every = "; ".join(f"sleeve of 40 mm on arm {number}" for number in numbers)
    assert f"Repairs in place: {every}." in hangar.page(BENCH)
    newest = every.partition("arm 2; ")[2]
    assert f"Repairs in place: {newest}; and 2 more." in hangar.page(FIELD)


def test_R33_a_repair_of_a_part_goes_with_the_part(tmp_path: Path) -> None:
    """A motor that was repaired here, and then came out."""
    repaired = SLEEVED.replace("front-right", "M-02").replace(
        "sleeve of 40 mm on arm 2", "new bell"
    )
    out = "- on: 2026-06-19\n  fit: {front-right: {motor: M-05}}\n  instead_of: {M-02: scrapped}\n"
    here = Hangar(tmp_path / "here", with_log(repaired))
    gone = Hangar(tmp_path / "gone", with_log(repaired + out))

    assert "Repairs in place: new bell." in here.page(FIELD)
    assert "Repairs in place" not in gone.page(FIELD)


def test_R34_each_flight_has_the_firmware_in_force(tmp_path: Path) -> None:
    """1.2 to 1.3 on 1 June: the flight before shows 1.2, the one after 1.3; else nothing."""
    log = (
        "- on: 2026-05-20\n  firmware: {C-01: '1.2'}\n"
        "- on: 2026-05-30\n  flight: 4:04\n  pack: P-01\n"
        "- on: 2026-06-01\n  firmware: {C-01: '1.3'}\n"
        "- on: 2026-06-02\n  flight: 5:05\n  pack: P-01\n"
    )
    book = Hangar(tmp_path, with_log(log)).page(LOGBOOK)

    flown = dict(
        re.findall(
            r"flight (?:[a-z ]+\. )?(\d min \d\d s).*?firmware (C-01 [\d.]+)", book, re.IGNORECASE
        )
    )
    expected = {"4 min 04 s": "C-01 1.2", "5 min 05 s": "C-01 1.3", "6 min 10 s": "C-01 1.3"}
    assert expected == flown


def test_R36_without_a_limit_of_mass_it_says_so(tmp_path: Path) -> None:
    """Not "within", and not nothing."""
    bounds = with_text(CRAFT, "radio: {memory: 4", "bounds: {max_mass: 1300 g}\nradio: {memory: 4")
    none = Hangar(tmp_path / "none", QUIET)
    some = Hangar(tmp_path / "some", bounds)

    said = "no limit recorded"
    page = "aircraft/sedge/figures.html"
    assert (said in none.page(page).lower(), said in some.page(page).lower()) == (True, False)


@pytest.mark.parametrize(
    ("written", "said"), [("", "not recorded"), ("  preflight: done\n", "done")]
)
def test_R37_a_preflight_look_that_nobody_wrote_is_not_recorded(
    tmp_path: Path, written: str, said: str
) -> None:
    """Never "done"."""
    log = QUIET["aircraft/sedge/logbook.yaml"].replace(
        "  flight: 6:10\n", f"  flight: 6:10\n{written}"
    )
    hangar = Hangar(tmp_path, {**QUIET, "aircraft/sedge/logbook.yaml": log})

    assert f"preflight {said}" in hangar.page(LOGBOOK)


@pytest.mark.parametrize(
    ("marking", "said"),
    [
        ("{present: true}", "Marking on the aircraft"),
        ("{present: true, checked: 2026-05-03}", "Marking on the aircraft, read 3 May 2026"),
        ("{present: false}", "Marking not on the aircraft"),
    ],
)
def test_R49_whether_it_is_marked_and_never_its_number(
    tmp_path: Path, marking: str, said: str
) -> None:
    """Yes or no and a day, for the owner and the public."""
    files = with_text(CRAFT, "layout: quad-x", f"layout: quad-x\nmarking: {marking}")

    assert said in Hangar(tmp_path, files).page("aircraft/sedge/index.html")


@pytest.mark.parametrize(
    ("look", "when"),
    [
        ("preflight-look", "before each flight"),
        ("link-loss-action", "each session"),
        ("postflight-look", "after each flying day"),
    ],
)
def test_D01_to_D03_are_asked_for_at_the_field(tmp_path: Path, look: str, when: str) -> None:
    """They come round at no interval: they stand on *going flying*, under their moment."""
    page = Hangar(tmp_path, QUIET).page("going-flying.html").lower()

    assert when in page
    assert look.replace("-", " ") in page[page.index(when) :]


def test_D20_the_full_inspection_comes_round_and_closes_what_it_holds(tmp_path: Path) -> None:
    """A year after it went into service; one entry of it closes the looks that it covers."""
    keeper = QUIET["hangar.yaml"].replace("2026-06-20", "2027-05-01")
    late = Hangar(tmp_path / "late", {**QUIET, "hangar.yaml": keeper})
    done = "- on: 2027-05-01\n  inspection: full-inspection\n"
    closed = Hangar(tmp_path / "closed", with_log(done, **{"hangar.yaml": keeper}))

    covered = {"full-inspection", "motor-bearings", "failsafe-again", "range-again"}

    def open_(hangar: Hangar) -> set[str]:
        states = ("due", "in tolerance", "overdue")
        return {row["name"] for row in hangar.json["rows"] if row["state"] in states} & covered

    assert "full-inspection" in open_(late)
    assert set() == open_(closed)


def test_SW1_stands_in_the_calendar_at_work_with_the_propellers_off(tmp_path: Path) -> None:
    """In the event itself, before what is to be done; not where the propellers stay on."""
    hangar = Hangar(tmp_path, QUIET)
    text = hangar.source("calendar.ics").replace("\r", "").replace("\n ", "")
    events = {
        found[1]: event
        for event in text.split("BEGIN:VEVENT")[1:]
        if (found := re.search(r"SUMMARY:(.*)", event))
    }

    failsafe = next(said for name, said in events.items() if name.startswith("Sedge: failsafe"))
    assert failsafe.index("Take the propellers off") < failsafe.index("switch the transmitter off")
