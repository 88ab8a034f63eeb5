"""What a keeper types at the bench without looking anything up."""

import builtins
import datetime
import sys
from pathlib import Path
from typing import Any

import pytest
from hangars import FILES, LOG, loft


@pytest.fixture
def hangar(tmp_path: Path) -> Path:
    """One aircraft, a motor, three packs."""
    files = {
        "parts/specs.yaml": "- {spec: m, kind: motor, mass: 50 g}\n- {spec: x, kind: receiver}\n"
        "- {spec: c, kind: controller}\n"
        "- {spec: p, kind: battery, cells: 3S, capacity: 3000 mAh}\n",
        "parts/items.yaml": "- {tags: M-1..M-2, spec: m}\n- {tag: X-1, spec: x}\n"
        "- {tag: C-1, spec: c}\n- {tags: P-1..P-3, spec: p, acquired: 2026-01-02}\n",
    }
    return loft(tmp_path / "loft", files)


@pytest.mark.parametrize(
    ("words", "lines"),
    [
        (("fit", "heron", "centre=X-1,C-1"), ["fit: {centre: {receiver: X-1, controller: C-1}}"]),
        (("charge", "P-1", "1290"), ["charge: P-1", "put_in: 1290 mAh"]),
        (("charge", "P-1", "P2", "1290mAh"), ["charge: [P-1, P-2]", "put_in: 1290 mAh"]),
        (("weigh", "heron", "640g", "P1"), ["weigh: 640 g", "pack: P-1"]),
        (("state", "M-2", "scrapped", "--because", "bent"), ["state: {M-2: scrapped}",
                                                            "because: bent"]),
        (("state", "P-1,P-2", "quarantined"), ["state: {P-1: quarantined, P-2: quarantined}"]),
        (("state", "M-2=scrapped"), ["state: {M-2: scrapped}"]),
    ],
)  # fmt: skip
def test_words_are_understood(
    hangar: Path, run: Any, words: tuple[str, ...], lines: list[str]
) -> None:
    """As they come, without options or brackets."""
    ran = run("enter", *words, "--sure", hangar)

    assert (0, "") == (ran.status, ran.err)
    written = [line.strip() for line in ran.out.splitlines()]
    assert lines == [line for line in written if line in lines]


@pytest.mark.parametrize(
    ("words", "told"),
    [
        (
            ("fit", "heron", "centre=X-1,C-9"),
            "unknown tag 'C-9'; did you mean 'C-1'? Or add --like and the tag of one alike"
            " if it is a new part",
        ),
        (("crash", "heron", "hit a tree"), "'crash' is not a kind of entry; write incident"),
        (
            ("scrap", "M-2"),
            "'scrap' is not a kind of entry; write state, as in state R-01 scrapped",
        ),
        (("fly", "heron", "6:00"), "'fly' is not a kind of entry; write flight"),
        (
            ("flight", "6:00", "--aircraft", "heron"),
            "'flight' has no key 'aircraft'; its name stands behind the kind, as in enter flight"
            " sedge 7:20",
        ),
        (("weigt", "heron", "640g"), "'weigt' is not a kind of entry; did you mean 'weigh'?"),
    ],
)
def test_a_word_of_their_own_is_told(
    hangar: Path, run: Any, words: tuple[str, ...], told: str
) -> None:
    """With what is meant."""
    assert (2, "", f"buildbook enter: {told}\n") == run("enter", *words, hangar)


@pytest.mark.parametrize(
    ("on", "written"),
    [
        ("9:05", "2026-02-10T09:05"),
        ("today 11:40", "2026-02-10T11:40"),
        ("11:40 am", "2026-02-10T11:40"),
        ("yesterday 4:40 pm", "2026-02-09T16:40"),
        ("yesterday 16:40", "2026-02-09T16:40"),
        ("yesterday", "2026-02-09"),
        ("gestern 16:40", "2026-02-09T16:40"),
        ("hier", "2026-02-09"),
        ("saturday", "2026-02-07"),
        ("last saturday 4:40 pm", "2026-02-07T16:40"),
        ("on Sunday, 11:05", "2026-02-08T11:05"),
        ("last tuesday", "2026-02-03"),
        ("tuesday", "2026-02-10"),
        ("letzten Samstag", "2026-02-07"),
        ("samedi dernier", "2026-02-07"),
        ("sábado", "2026-02-07"),
        ("3 days ago", "2026-02-07"),
        ("24 Dec", "2025-12-24"),
        ("24.12.", "2025-12-24"),
        ("24.12. 16:40", "2025-12-24T16:40"),
        ("1. Februar", "2026-02-01"),
        ("Feb 7th", "2026-02-07"),
        ("31/1", "2026-01-31"),
        ("31.1.26 16:40", "2026-01-31T16:40"),
    ],
)
def test_a_time_of_today_needs_no_day(hangar: Path, run: Any, on: str, written: str) -> None:
    """The day that is meant stands in the log."""
    ran = run("enter", "note", "heron", "calm", "--on", on, hangar)

    assert f"  - on: {written}" in ran.out.splitlines()


def test_a_day_without_its_year_is_told(hangar: Path, run: Any) -> None:
    """Also where its words are not put in quotes."""
    ran = run("enter", "note", "heron", "--on", "7", "Feb", "calm", hangar)

    assert ["  - on: 2026-02-07", "assumed: 7 Feb → 2026-02-07"] == [
        line for line in ran.out.splitlines() if "2026-02-07" in line and "id:" not in line
    ]
    assert "    note: calm" in ran.out.splitlines()


def test_a_day_of_another_year_is_asked_back(hangar: Path, run: Any) -> None:
    """The latest that is not to come may be long ago."""
    told = (
        "doubt: the latest such day is 2025-11-24, 78 days ago\n    write its year\n"
        "Nothing was written.\nAdd --sure if it is right.\n"
    )

    assert (1, "", told) == run("enter", "note", "heron", "calm", "--on", "24 Nov", hangar)
    sure = run("enter", "note", "heron", "calm", "--on", "24 Nov", "--sure", hangar)
    assert "  - on: 2025-11-24" in sure.out.splitlines()


@pytest.mark.parametrize(
    ("on", "told"),
    [
        ("5/1", "'5/1' may be two days; did you mean 2026-01-05 or 2026-05-01?"),
        (
            "tomorrow",
            "'tomorrow' is not a day; write it as in yesterday 16:40, last saturday, 24 Nov or"
            " 2026-03-01",
        ),
        ("31.11.", "'31.11.' is not a day; write it as in yesterday 16:40, last saturday, 24 Nov"),
        ("yesterday 25:10", "'2026-02-09T25:10' has a time that no day has; the time goes from"),
    ],
)
def test_a_day_that_cannot_be_told_is_refused(hangar: Path, run: Any, on: str, told: str) -> None:
    """With what to write."""
    ran = run("enter", "note", "heron", "calm", "--on", on, hangar)

    assert 2 == ran.status
    assert ran.err.startswith(f"buildbook enter: --on: {told}")


@pytest.mark.parametrize("on", ["16:40", "4:40 pm", "today 4:40pm", "2026-02-10T16:40"])
def test_a_time_of_today_that_is_to_come_is_doubted(hangar: Path, run: Any, on: str) -> None:
    """It is noon: who writes after midnight means the evening before."""
    words = ("enter", "note", "heron", "calm", "--on", on)
    told = (
        'doubt: 16:40 today is still to come\n    write "yesterday 16:40" if that is meant\n'
        "Nothing was written.\nAdd --sure if it is right.\n"
    )

    assert (1, "", told) == run(*words, hangar)
    sure = run(*words, "--sure", hangar)
    assert "  - on: 2026-02-10T16:40" in sure.out.splitlines()


def test_a_clock_that_was_fixed_to_a_day_tells_no_time(
    hangar: Path, run: Any, monkeypatch: pytest.MonkeyPatch
) -> None:
    """Midnight sharp stands for the whole day: any time of it may have been."""
    midnight = datetime.datetime(2026, 2, 10, tzinfo=datetime.UTC)
    monkeypatch.setenv("SOURCE_DATE_EPOCH", str(int(midnight.timestamp())))

    ran = run("enter", "note", "heron", "calm", "--on", "2026-02-10T09:00", hangar)

    assert (0, "") == (ran.status, ran.err)


@pytest.mark.parametrize(("answer", "status"), [("y", 0), ("n", 1), ("", 1)])
def test_on_a_terminal_a_time_to_come_is_asked_back(
    hangar: Path, run: Any, monkeypatch: pytest.MonkeyPatch, answer: str, status: int
) -> None:
    """As any other doubt is."""
    asked: list[str] = []
    monkeypatch.setattr(sys.stdin, "isatty", lambda: True, raising=False)
    monkeypatch.setattr(sys.stdout, "isatty", lambda: True, raising=False)
    monkeypatch.setattr(builtins, "input", lambda question: asked.append(question) or answer)

    ran = run("enter", "note", "heron", "calm", "--on", "16:40", hangar)

    assert ["Write it all the same? y or n [n]: "] == asked
    assert ran.err.startswith("doubt: 16:40 today is still to come\n")
    assert status == ran.status


def test_a_charge_is_not_asked_about_the_flights_after_it(hangar: Path, run: Any) -> None:
    """It shows that two of 1500 and 1300 mAh were on one charge of 3000: ``check`` tells that."""
    told = "P-3 flown into its reserve on 2026-02-09: 2800 mAh used, 2400 mAh to its reserve"
    for used in ("1500mAh", "1300mAh"):
        words = ("heron", "6:00", "P-3", used, "--on", "2026-02-09")
        assert run("enter", "flight", *words, hangar).status == 0
    assert told not in " ".join(run("check", hangar).out.split())

    charged = run("enter", "charge", "P-3", "--on", "2026-02-08", hangar)

    assert (0, "") == (charged.status, charged.err)
    assert "charge: P-3" in charged.out
    checked = run("check", hangar)
    assert told in " ".join((checked.out + checked.err).split())


def test_a_flight_into_the_reserve_is_asked_about(hangar: Path, run: Any) -> None:
    """Where the flight itself is entered."""
    words = ("heron", "9:00", "P-2", "2700mAh", "--on", "2026-02-09")
    flown = run("enter", "flight", *words, hangar)

    assert flown.status == 1
    assert "doubt: P-2 flown into its reserve on 2026-02-09: 2700 mAh used" in flown.out + flown.err


def test_what_is_new_and_in_order_is_not_told(hangar: Path, run: Any) -> None:
    """A first charge begins rows of a pack, all of them fine: there is nothing to say."""
    assert "is ok" not in run("enter", "charge", "P-3", hangar).out


LATE = """\
- {on: 2025-05-01, fit: {nose: {motor: M-1}}}
- {on: 2025-05-01, check: failsafe, result: pass}
- {on: 2025-05-02, flight: 2:00, landing: crash}
- {on: 2025-06-02, check: failsafe, result: pass}
"""


def test_a_forgotten_flight_of_long_ago_is_told_what_was_open(tmp_path: Path, run: Any) -> None:
    """Not only that something was, somewhere."""
    programme = FILES["programmes/shop.yaml"].replace(
        "stale_after: [crash]", "stale_after: [crash]\n    grounds: true"
    )
    folder = loft(tmp_path / "loft", {LOG: LATE, "programmes/shop.yaml": programme})

    ran = run("enter", "flight", "heron", "6:00", "--on", "2025-05-20", folder)

    assert (
        "doubt: heron flown 1 time while failsafe was open, on 2025-05-20\n"
        "    passed or cleared on 2025-06-02\n"
    ) in ran.err


def test_a_check_flight_may_come_while_it_is_being_built(tmp_path: Path, run: Any) -> None:
    """It is the last of the set-up checks; any other flight is doubted."""
    plane = FILES["aircraft/heron/aircraft.yaml"] + "status: building\n"
    log = "- {on: 2026-02-01, fit: {nose: {motor: M-1}}}\n"
    folder = loft(tmp_path / "loft", {LOG: log, "aircraft/heron/aircraft.yaml": plane})
    check = ("--purpose", "check", "--result", "pass")

    assert (0, "") == run("enter", "flight", "heron", "2:00", *check, folder)[::2]
    assert (
        "doubt: heron flown on 2026-02-10, though building, see aircraft/heron/aircraft.yaml:7\n"
    ) in run("enter", "flight", "heron", "3:00", folder).err


def test_only_what_was_entered_last_is_taken_back(hangar: Path, run: Any) -> None:
    """A second time it says how an earlier entry is taken back."""
    run("enter", "note", "heron", "one", hangar)
    run("enter", "note", "heron", "two", hangar)

    assert 0 == run("enter", "--undo", hangar).status
    assert (
        "buildbook enter: nothing to take back: only what was entered last can be, once;"
        " void an earlier entry by enter voids\n"
    ) == run("enter", "--undo", hangar).err


def test_a_wrong_propeller_is_told_while_it_is_being_built(tmp_path: Path, run: Any) -> None:
    """At its fit, and from where a hand and a spin are seen."""
    plane = FILES["aircraft/heron/aircraft.yaml"] + "status: building\n"
    files = {
        LOG: "- {on: 2026-02-01, fit: {nose: {motor: M-1}}}\n",
        "aircraft/heron/aircraft.yaml": plane,
        "parts/specs.yaml": FILES["parts/specs.yaml"]
        + "- {spec: r, kind: propeller, size: 10x5, hand: cw}\n",
        "parts/items.yaml": FILES["parts/items.yaml"] + "- {tag: R-1, spec: r}\n",
    }
    folder = loft(tmp_path / "loft", files)

    ran = run("enter", "fit", "heron", "nose=R-1", folder)

    assert (
        "doubt: heron: nose: R-1 is cw, not ccw\n"
        "    Unplug the pack. A hand is seen from ahead, a spin from behind: fit a\n"
        "    propeller of the other hand, or correct the records where they are wrong;\n"
        "    then pull at each one.\n"
    ) in ran.err


def test_a_check_without_its_readings_is_told(tmp_path: Path, run: Any) -> None:
    """It is written all the same; what was read is not known."""
    programme = FILES["programmes/shop.yaml"].replace(
        "stale_after: [crash]", "stale_after: [crash]\n    readings: {failsafe: what it did}"
    )
    folder = loft(tmp_path / "loft", {"programmes/shop.yaml": programme})

    assert (
        "no readings written of failsafe (failsafe: what it did)\n"
        in run("enter", "check", "heron", "failsafe", "pass", folder).out
    )
    assert (
        "no readings"
        not in run("enter", "check", "heron", "failsafe", "pass", "failsafe=cut", folder).out
    )


@pytest.mark.parametrize(
    ("words", "lines"),
    [
        (("fit", "heron", "centre", "X-1", "C-1"),
         ["fit: {centre: {receiver: X-1, controller: C-1}}"]),
        (("flights", "heron", "6:40 P-1 990", "7:10, P-2, 1100 mAh, hard"),
         ["flights: [[6:40, P-1, 990 mAh], [7:10, P-2, 1100 mAh, hard]]"]),
        (("flights", "heron", "[6:40, P-1, 990mah],", "[7:10, P-2]"),
         ["flights: [[6:40, P-1, 990 mAh], [7:10, P-2]]"]),
        (("flights", "heron", "6:40", "P-1", "990", "7:10", "hard"),
         ["flights: [[6:40, P-1, 990 mAh], [7:10, hard]]"]),
        (("flight", "heron", "1:02:10", "P-1", "990mah", "--on", "2/9/2026 3:30pm"), None),
        (("flight", "heron", "1:02:10", "P-1", "990mah", "--on", "2026-02-09 3:30pm"),
         ["- on: 2026-02-09T15:30", "flight: 1 h 2 min 10 s", "used: 990 mAh"]),
        (("weigh", "heron", "3 lb 4.5 oz", "--on", "9 feb 2026"),
         ["- on: 2026-02-09", "weigh: 52.5 oz"]),
        (("defect", "heron", "gear loose", "--severity", "defer", "--deferred-until", "5 flights"),
         ["deferred_until: {flights: 5}"]),
        (("defect", "heron", "gear loose", "--severity", "defer", "--deferred-until",
          "2026-12-24,3 flights"), ["deferred_until: {on: 2026-12-24, flights: 3}"]),
        (("setting", "heron", "idle", "6 %"), ["setting: {idle: 6 %}"]),
        (("flight", "heron", "9:00,P-1,990"), ["flight: 9:00", "pack: P-1", "used: 990 mAh"]),
        (("check", "heron", "failsafe", "pass", "distance=60"), ["readings: {distance: 60 m}"]),
        (("check", "M-1", "failsafe", "pass"),
         ["check: failsafe", "stations: [nose]", "result: pass"]),
        (("remove", "M-1"), ["remove: M-1"]),
        (("flight", "heron", "5m20", "P-1", "990"), ["flight: 5:20", "used: 990 mAh"]),
    ],
)  # fmt: skip
def test_impatient_words_are_understood(
    hangar: Path, run: Any, words: tuple[str, ...], lines: list[str] | None
) -> None:
    """What can mean but one thing; a day that may be in two months is not."""
    ran = run("enter", *words, "--sure", hangar)

    if lines is None:
        assert 2 == ran.status
    else:
        assert (0, lines) == (
            ran.status,
            [line for each in ran.out.splitlines() if (line := each.strip()) in lines],
        )


@pytest.mark.parametrize(
    ("words", "told"),
    [
        (("flight", "heron", "6:00", "--noticed", "lost link"),
         "noticed: 'lost link' is not link lost, flutter, power dip, shaking or wrong way;"
         " did you mean 'link lost'?"),
        (("flight", "heron", "5.5", "P-1", "1310"),
         "flight: '5.5' has no unit; did you mean 5.5 min? write it as in 7 min 20 s, 7:20, 90 s or"
         " 1.5 h"),
        (("flight", "heron", "5:20", "S-1"),
         "'S-1' is neither a pack of this hangar nor a charge or a landing; did you mean 'P-1'?"),
        (("defect", "heron", "loose", "--until", "2026-03-01"),
         "'defect' has no key 'until'; did you mean 'deferred_until'?"),
        (("fit", "heron", "nose", "M-2", "--instead-of", "M-1"),
         "instead_of: 'M-1' stands alone; write M-1=STATE, one of serviceable, quarantined,"
         " retired or scrapped"),
        (("flight", "heron", "4:00", "P-1", "900", "check", "pass"),
         "'check' is neither a pack of this hangar nor a charge or a landing; of a check flight"
         " write --purpose check --result pass"),
        (("flight", "heron", "4:00", "P-1", "gusty"),
         "'gusty' is neither a pack of this hangar nor a charge or a landing; words of your own"
         " stand behind --note"),
        (("flight", "heron", "9:00,P-1,990", "8:30,P-2"),
         "'8:30' is neither a pack of this hangar nor a charge or a landing; of several write"
         " flights burdock 6:10,P-01,1290mAh 5:50,P-02,hard"),
        (("check", "heron", "range", "pass", "60m"),
         "'60m' is no check; the name of a reading stands before it, as in distance=60m"),
        (("gains", "heron", "soft", "p=38"), "gains: 'p=38' has no axis; write roll.p=38"),
        (("firmware", "heron", "4.5.1"),
         "firmware: '4.5.1' stands alone; write the tag of the part and its version, as in"
         " C-01=2.4.1"),
        (("fit", "heron", "nose", "M-2", "--new", "--sure"),
         "--new has no value; the tag stands behind it, as in --new M-61"),
        (("charge", "P-1", "P-2", "--put-in", "1950,1500"),
         "put_in: '1950,1500' has a comma; write one number"),
        (("trim", "heron", "up"),
         "'trim' is not a kind of entry; write setting, as in setting sedge"
         " trim.elevator='2 mm up'"),
        (("check", "P-1", "pack-look", "pass"),
         "no aircraft is called 'P-1'; of a part that is not fitted write enter inspection P-1"),
    ],
)  # fmt: skip
def test_impatient_words_are_led_on(
    hangar: Path, run: Any, words: tuple[str, ...], told: str
) -> None:
    """With how it is written."""
    assert (2, "", f"buildbook enter: {told}\n") == run("enter", *words, hangar)


def test_a_defect_is_cleared_by_its_words(hangar: Path, run: Any) -> None:
    """While it is the only open one with them; what changes names it by them too."""
    ran = run("enter", "defect", "heron", "landing gear bent", hangar)
    assert "is open: defect 'landing gear bent'" in ran.out.splitlines()
    run("enter", "defect", "heron", "gear door missing", hangar)

    ran = run("enter", "cleared", "heron", "gear", hangar)
    assert (
        "buildbook enter: no open defect is called 'gear'; write 2026-02-10-1 (landing gear bent)"
        " or 2026-02-10-2 (gear door missing)\n"
    ) == ran.err
    ran = run("enter", "cleared", "heron", "gear", "bent", "pressed", "flat", hangar)
    assert ["    cleared: 2026-02-10-1", "    how: pressed flat"] == [
        line for line in ran.out.splitlines() if line.startswith(("    cleared", "    how"))
    ]
    ran = run("enter", "cleared", "heron", "2026-02-10-2", "made", "anew", hangar)
    assert "    how: made anew" in ran.out.splitlines()


def test_a_pack_of_a_hangar_without_packs_is_no_servo(tmp_path: Path, run: Any) -> None:
    """What is meant is recorded first; a part that is like it in letters is not offered."""
    folder = loft(tmp_path / "loft", {
        "parts/specs.yaml": "- {spec: s, kind: servo, name: S}\n",
        "parts/items.yaml": "- {tag: S-1, spec: s, acquired: 2024-01-02}\n",
        LOG: "", "stores/p-1.yaml": "",
    })  # fmt: skip

    ran = run("enter", "flight", "heron", "1:20", "P-1", folder)

    assert (
        "buildbook enter: 'P-1' is neither a pack of this hangar nor a charge or a landing; no pack"
        " is recorded yet: its spec in parts/specs.yaml, the pack in parts/items.yaml\n"
    ) == ran.err


def test_a_row_of_packs_is_understood_as_in_the_parts_files(hangar: Path, run: Any) -> None:
    """Charged together."""
    ran = run("enter", "charge", "P-1..P-3", "900mAh", "--on", "2026-02-09", "--sure", hangar)
    assert (0, True) == (ran.status, "    charge: [P-1, P-2, P-3]\n" in ran.out)


def test_a_check_flight_without_a_result_is_told(hangar: Path, run: Any) -> None:
    """It closes nothing, which nobody would see before the next list of what is due."""
    words = (
        "enter",
        "flight",
        "heron",
        "2:00",
        "--purpose",
        "check",
        "--on",
        "2026-02-09",
        "--sure",
    )
    told = "the check flight has no result: pass or fail, and closes nothing until it has"
    assert told in " ".join(run(*words, hangar).out.split())
    assert told not in " ".join(run(*words, "--result", "pass", hangar).out.split())


def test_two_durations_lead_to_a_day_of_flights(hangar: Path, run: Any) -> None:
    """With its words."""
    assert (
        "buildbook enter: '4:50' is neither a pack of this hangar nor a charge or a landing;"
        " of several write flights burdock 6:10,P-01,1290mAh 5:50,P-02,hard\n"
    ) == run("enter", "flight", "heron", "5:10", "4:50", "P-2", hangar).err


def test_a_weighing_without_a_pack_is_told(hangar: Path, run: Any) -> None:
    """Whoever had one on would find it counted twice."""
    told = "no pack is named, so none was on, and its mass is added"
    words = ("enter", "weigh", "heron", "900g", "--on", "2026-02-09", "--sure")
    assert told in " ".join(run(*words, hangar).out.split())
    assert told not in " ".join(run(*words, "--pack", "P-1", hangar).out.split())


def test_a_key_among_the_words_leads_to_its_option(hangar: Path, run: Any) -> None:
    """As it stands in the file, with an equals sign."""
    ran = run("enter", "flight", "heron", "3:00", "P-1", "used=800mAh", hangar)
    assert ran.err.endswith("nor a charge or a landing; write --used 800mAh\n")


def test_a_correction_that_changes_nothing_is_doubted(hangar: Path, run: Any) -> None:
    """Flights of a day that each have their charge take none for all; the whole list is taken."""
    words = ("enter", "corrects", "heron", "2026-02-08-1", "--because", "digits swapped")
    ran = run(*words, "used=1290", hangar)
    assert (1, "doubt: 'used' of all rows changes nothing: each row has its own") == (
        ran.status,
        ran.err.splitlines()[0],
    )
    assert 0 == run(*words, "flights=[[6:00, P-1, 1400mAh], [7:00, P-2, 1290mAh]]", hangar).status


def test_a_charge_for_all_flights_of_which_one_has_none_fills_that(
    tmp_path: Path, run: Any
) -> None:
    """Nothing is said of it."""
    log = (
        FILES[LOG] + "- {on: 2026-02-09, flights: [[6:00, P-1], [7:00, P-2, 1.2 Ah]], used: 1 Ah}\n"
    )
    assert "changes nothing" not in run("check", loft(tmp_path / "own", {LOG: log})).out
