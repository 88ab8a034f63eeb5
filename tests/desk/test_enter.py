"""``enter`` writes an entry where it belongs, says what it changed, and nothing that is wrong."""

import contextlib
import datetime
import os
import random
import re
import sys
from pathlib import Path
from typing import Any

import msgspec
import pytest
from hangars import FILES, LOG, loft, texts

from buildbook.desk.entry_text import as_tree
from buildbook.desk.placing import placed
from buildbook.records.entries.kinds import KINDS, common
from buildbook.records.reading.connected import Connections, tags_of
from buildbook.records.reading.read import read_hangar
from buildbook.records.reading.reread import read_held, with_texts
from buildbook.reporting.opening import open_reading


def added(folder: Path, file: str) -> str:
    """What a file has at its end that it did not have at first."""
    now = (folder / file).read_text("utf-8")
    then = FILES.get(file, "")
    assert now.startswith(then)
    return now[len(then) :]


def test_a_flight_says_where_it_is_and_what_comes_next(tmp_path: Path, run: Any) -> None:
    """The unit that was taken is told, and the task that comes first."""
    folder = loft(tmp_path / "loft")

    ran = run("enter", "flight", "heron", "7:20", "--pack", "P-1", "--used", "1480", folder)

    assert [
        f"{LOG}:10",
        "  - on: 2026-02-10",
        "    id: 2026-02-10-1",
        "    flight: 7:20",
        "    pack: P-1",
        "    used: 1480 mAh",
        "assumed: 1480 → 1480 mAh",
        "motor bearings of M-1 at nose due in 3 flights",
    ] == ran.out.splitlines()
    assert ("", 0) == (ran.err, ran.status)
    assert (
        "- on: 2026-02-10\n  id: 2026-02-10-1\n  flight: 7:20\n  pack: P-1\n  used: 1480 mAh\n"
        == (added(folder, LOG))
    )


@pytest.mark.parametrize(
    ("words", "file", "lines"),
    [
        (("flight", "Heron", "7:20", "P-3", "1480mAh", "hard"), LOG,
         ["flight: 7:20", "pack: P-3", "used: 1480 mAh", "landing: hard"]),
        (("flight", "heron", "7:20", "P1", "1480"), LOG,
         ["flight: 7:20", "pack: P-1", "used: 1480 mAh"]),
        (("flights", "heron", "7:20,p01,1480"), LOG, ["flights: [[7:20, P-1, 1480 mAh]]"]),
        (("charge", "p1,p2"), "stores/p-1.yaml", ["charge: [P-1, P-2]"]),
        (("inspection", "heron", "motor-bearings", "M-1", "fail", "--findings", "rough"), LOG,
         ["inspection: motor-bearings", "tags: M-1", "result: fail", "findings: rough"]),
        (("flights", "heron", "7:20,P-1,1480mAh", "6:50,P-2"), LOG,
         ["flights: [[7:20, P-1, 1480 mAh], [6:50, P-2]]"]),
        (("flight", "7:20", "--wind", "3 m/s, gusts"), LOG, ["flight: 7:20", "wind: 3 m/s, gusts"]),
        (("flight", "heron", "7", "min", "20", "s"), LOG, ["flight: 7 min 20 s"]),
        (("flight", "heron", "7:20", "--volts", "before=12.5,after=11.4V"), LOG,
         ["flight: 7:20", "volts: {before: 12.5 V, after: 11.4 V}"]),
        (("charge", "P-1", "--put-in", "1520mAh", "--resting", "4.18,4.19,4.18"), "stores/p-1.yaml",
         ["charge: P-1", "put_in: 1520 mAh", "resting: [4.18 V, 4.19 V, 4.18 V]"]),
        (("charge", "P-2", "--to", "storage"), "stores/p-2.yaml", ["charge: P-2", "to: storage"]),
        (("charge", "P-2", "full"), "stores/p-2.yaml", ["charge: P-2", "to: full"]),
        (("charge", "P-2", "900mAh", "storage"), "stores/p-2.yaml",
         ["charge: P-2", "put_in: 900 mAh", "to: storage"]),
        (("capacity", "P-1", "--measured", "2140"), "stores/p-1.yaml",
         ["capacity: P-1", "measured: 2140 mAh"]),
        (("state", "P-1=quarantined", "--because", "a dent"), "stores/p-1.yaml",
         ["state: {P-1: quarantined}", "because: a dent"]),
        (("check", "heron", "failsafe", "pass", "throttle=cut"), LOG,
         ["check: failsafe", "result: pass", "readings: {throttle: cut}"]),
        (("inspection", "heron", "motor-bearings", "--tags", "M-1"), LOG,
         ["inspection: motor-bearings", "tags: M-1"]),
        (("gains", "heron", "calm", "roll.p=38", "roll.i=21", "yaw.p=50"), LOG,
         ["gains: calm", "values: {roll: {p: 38, i: 21}, yaw: {p: 50}}"]),
        (("remove", "heron", "M-1", "--because", "worn"), LOG, ["remove: M-1", "because: worn"]),
        (("setting", "heron", "start_throttle=14 %", "buzzer=on loss, always"), LOG,
         ["setting: {start_throttle: 14 %, buzzer: \"on loss, always\"}"]),
        (("weigh", "heron", "1342g", "--pack", "P-1", "--cg", "4mm,0mm,10mm"), LOG,
         ["weigh: 1342 g", "pack: P-1", "cg: [4 mm, 0 mm, 10 mm]"]),
        (("incident", "heron", "clipped", "a", "branch", "--severity", "light"), LOG,
         ["incident: clipped a branch", "severity: light"]),
        (("defect", "heron", "mode switch: sticks", "--station", "nose"), LOG,
         ["defect: \"mode switch: sticks\"", "station: nose"]),
        (("defect", "P-1", "swollen"), "stores/p-1.yaml", ["defect: swollen", "item: P-1"]),
        (("note", "P-1", "new", "strap"), "stores/p-1.yaml", ["note: new strap", "item: P-1"]),
        (("corrects", "heron", "2026-02-08-1", "--because", "it was hard",
          "--set", "landing=hard"), LOG,
         ["corrects: 2026-02-08-1", "because: it was hard", "set: {landing: hard}"]),
        (("voids", "heron", "2026-02-08-1", "--because", "another aircraft"), LOG,
         ["voids: 2026-02-08-1", "because: another aircraft"]),
        (("firmware", "heron", "M-1=2.4.1"), LOG, ["firmware: {M-1: 2.4.1}"]),
        (("firmware", "heron", "M-1", "2.4.1"), LOG, ["firmware: {M-1: 2.4.1}"]),
        (("inspection", "motor-bearings", "M-1"), LOG,
         ["inspection: motor-bearings", "tags: [M-1]"]),
        (("flights", "heron", "7:20", "P-1", "1480,", "6:50", "P-2", "1390"), LOG,
         ["flights: [[7:20, P-1, 1480 mAh], [6:50, P-2, 1390 mAh]]"]),
        (("check", "failsafe", "heron", "pass"), LOG, ["check: failsafe", "result: pass"]),
        (("capacity", "P-1", "2140mAh"), "stores/p-1.yaml",
         ["capacity: P-1", "measured: 2140 mAh"]),
        (("charge", "P-1", "--resistance", "4.1 4.3/4.0"), "stores/p-1.yaml",
         ["charge: P-1", "resistance: [4.1 mΩ, 4.3 mΩ, 4.0 mΩ]"]),
        (("charge", "P-1", "--together", "--put-in", "1500mAh"), "stores/p-1.yaml",
         ["charge: P-1", "together: true", "put_in: 1500 mAh"]),
        (("incident", "heron", "hit a child", "--injury", "no", "--packs", "P-1"), LOG,
         ["incident: hit a child", "injury: false", "packs: P-1"]),
        (("incident", "heron", "hit a child", "--injury=none", "--packs", "P-1"), LOG,
         ["incident: hit a child", "injury: false", "packs: P-1"]),
        (("incident", "heron", "--injury", "yes", "hit a child", "--packs", "P-1"), LOG,
         ["incident: hit a child", "injury: true", "packs: P-1"]),
        (("weigh", "heron", "1342g", "--pack", "P-1", "--cg", "4mm,0mm"), LOG,
         ["weigh: 1342 g", "pack: P-1", "cg: [4 mm, 0 mm]"]),
        (("weigh", "heron", "1342g", "--pack", "P-1", "--cg", "-4,0,10"), LOG,
         ["weigh: 1342 g", "pack: P-1", "cg: [-4 mm, 0 mm, 10 mm]"]),
    ],
)  # fmt: skip
def test_one_line_for_the_common_things(
    tmp_path: Path, run: Any, words: tuple[str, ...], file: str, lines: list[str]
) -> None:
    """Each goes into the log it belongs to, in the words of the logbook."""
    folder = loft(tmp_path / "loft")

    ran = run("enter", *words, "--sure", folder)

    assert ("", 0) == (ran.err, ran.status)
    assert [
        "- on: 2026-02-10",
        "  id: 2026-02-10-1",
        *(f"  {line}" for line in lines),
    ] == added(folder, file).splitlines()


def test_what_is_said_of_a_part_stands_where_it_sits(tmp_path: Path, run: Any) -> None:
    """In the logbook of its aircraft on that day; else, or where it has one, in its store file."""
    folder = loft(tmp_path / "loft")

    ran = run("enter", "note", "M-1", "bell", "scratched", "--sure", folder)
    assert "M-1 sits on heron: written in its logbook" in ran.out.splitlines()
    assert added(folder, LOG).endswith("  note: bell scratched\n  item: M-1\n")
    ran = run("enter", "note", "M-1", "unpacked", "--on", "2026-01-20", "--sure", folder)
    assert "sits on" not in ran.out
    assert "  note: unpacked\n  item: M-1\n" in added(folder, "stores/m-1.yaml")
    run("enter", "defect", "M-1", "grinds", "--sure", folder)

    assert added(folder, "stores/m-1.yaml").endswith("  defect: grinds\n  item: M-1\n")


def test_parts_of_several_stations_may_stand_between_commas(tmp_path: Path, run: Any) -> None:
    """None of them is left out."""
    items = "- {tags: M-1..M-3, spec: m}\n"
    plan = "aircraft: Heron\nkind: multirotor\nlayout: tri-y\ndiagonal: 400 mm\n"
    folder = loft(
        tmp_path / "loft",
        {"parts/items.yaml": items, "aircraft/heron/aircraft.yaml": plan, LOG: "",
         "stores/p-1.yaml": ""},
    )  # fmt: skip

    words = ("front-left", "M-1,", "front-right", "M-2", ",", "rear", "M-3")
    ran = run("enter", "fit", "heron", *words, folder)

    assert ("", 0) == (ran.err, ran.status)
    fit = "{front-left: {motor: M-1}, front-right: {motor: M-2}, rear: {motor: M-3}}"
    assert f"  fit: {fit}\n" in (folder / LOG).read_text("utf-8")


@pytest.mark.parametrize("words", [("M-1", "M-2"), ("M-1,", "M-2"), ("M-1,M-2",)])
def test_an_inspection_of_two_parts_names_both(
    tmp_path: Path, run: Any, words: tuple[str, ...]
) -> None:
    """However they are listed; it stands where the first one sits."""
    items = "- {tags: M-1..M-2, spec: m}\n"
    files = {"parts/items.yaml": items, LOG: LOG_OF_ONE, "stores/p-1.yaml": ""}
    folder = loft(tmp_path / "loft", files)

    ran = run("enter", "inspection", "motor-bearings", *words, "--sure", folder)

    assert ("", 0) == (ran.err, ran.status)
    assert "  tags: [M-1, M-2]\n" in (folder / LOG).read_text("utf-8")


LOG_OF_ONE = "- {on: 2026-02-01, fit: {nose: {motor: M-1}}}\n"


def test_a_long_text_is_no_file_name(tmp_path: Path, run: Any) -> None:
    """The last word may be the folder of the hangar; one longer than any name is not looked for."""
    folder = loft(tmp_path / "loft")
    text = "the wing tip scraped the grass on landing, " * 9 + "and held"

    ran = run("enter", "note", "heron", text, "--hangar", folder)

    assert ("", 0) == (ran.err, ran.status)
    assert text in added(folder, LOG)


def test_a_part_goes_to_its_place(tmp_path: Path, run: Any) -> None:
    """Its kind is that of the item, unless it is said."""
    log = "- {on: 2026-02-01, note: New.}\n"
    folder = loft(tmp_path / "loft", {LOG: log})

    assert 0 == run("enter", "fit", "heron", "nose=M-1", folder).status
    assert "  fit: {nose: {motor: M-1}}\n" in (folder / LOG).read_text("utf-8")


@pytest.mark.parametrize(
    "words",
    [
        ("nose", "motor", "M-1"),
        ("nose", "motor:", "M-1"),
        ("nose", "motor:M-1"),
        ("nose.motor=M-1",),
    ],
)
def test_the_kind_of_a_part_may_stand_before_it(tmp_path: Path, run: Any, words) -> None:
    """As one reads it off the bench: station, kind, tag."""
    folder = loft(tmp_path / "loft", {LOG: "- {on: 2026-02-01, note: New.}\n"})

    assert 0 == run("enter", "fit", "heron", *words, folder).status
    assert "  fit: {nose: {motor: M-1}}\n" in (folder / LOG).read_text("utf-8")


def test_a_station_may_be_called_like_a_kind(tmp_path: Path, run: Any) -> None:
    """The tail of an aeroplane has servos in it, and a wing another."""
    specs = "- {spec: m, kind: motor}\n- {spec: s, kind: servo}\n"
    items = "- {tag: M-1, spec: m}\n- {tags: S-1..S-3, spec: s}\n"
    files = {LOG: "- {on: 2026-02-01, note: New.}\n", "parts/items.yaml": items,
             "parts/specs.yaml": specs, "stores/p-1.yaml": ""}  # fmt: skip
    folder = loft(tmp_path / "loft", files)

    ran = run("enter", "fit", "heron", "nose", "M-1", "wing", "S-1", "tail", "S-2,S-3", folder)

    assert (0, "") == (ran.status, ran.err)
    written = "  fit: {nose: {motor: M-1}, wing: {servo: S-1}, tail: {servo: [S-2, S-3]}}\n"
    assert written in (folder / LOG).read_text("utf-8")


def test_the_first_word_of_a_name_is_enough_where_it_is_one(tmp_path: Path, run: Any) -> None:
    """Who has a Dunlin II and no other says Dunlin; of two nobody guesses."""
    second = "aircraft: Dunlin II\nkind: aeroplane\nlayout: aeroplane\nprogramme: shop\n"
    files = {"aircraft/dunlin-ii/aircraft.yaml": second}
    folder = loft(tmp_path / "loft", files)
    ran = run("enter", "note", "dunlin", "calm", folder)

    assert (0, "assumed: dunlin → dunlin-ii") == (ran.status, ran.out.splitlines()[-1])
    third = folder / "aircraft/dunlin-iii/aircraft.yaml"
    third.parent.mkdir()
    third.write_text(second.replace("II", "III"), "utf-8")
    assert run("enter", "note", "dunlin", "calm", folder).status == 2


def test_which_defect_is_cleared_is_asked_with_those_that_are_open(
    tmp_path: Path, run: Any
) -> None:
    """By their ids, which nobody knows by heart; one that is cleared is none of them."""
    folder = loft(tmp_path / "loft")
    for words in ("horn loose", "arm cracked"):
        assert 0 == run("enter", "defect", "heron", words, folder).status
    assert run("enter", "cleared", "heron", folder).err == (
        "buildbook enter: cleared: which defect? 2026-02-10-1 (horn loose) or 2026-02-10-2"
        " (arm cracked)\n"
    )
    assert 0 == run("enter", "cleared", "heron", "2026-02-10-1", "tightened", folder).status
    assert run("enter", "cleared", "heron", folder).err == (
        "buildbook enter: cleared: which defect? 2026-02-10-2 (arm cracked)\n"
    )


def test_a_kind_that_the_part_has_not_is_told(tmp_path: Path, run: Any) -> None:
    """With the kind that it has."""
    folder = loft(tmp_path / "loft", {LOG: "- {on: 2026-02-01, note: New.}\n"})

    assert run("enter", "fit", "heron", "nose", "esc", "M-1", folder).err.startswith(
        "problem: 'M-1' is a motor, not an esc\n    write nose.motor=M-1\n"
    )


def test_what_is_overdue_by_days_is_not_said_to_be_due_in_flights(tmp_path: Path, run: Any) -> None:
    """Three flights are left, and the day has passed: the day is what is told, as in ``due``."""
    programme = FILES["programmes/shop.yaml"].replace("{flights: 6}", "{flights: 6, days: 7}")
    folder = loft(tmp_path / "loft", {"programmes/shop.yaml": programme})
    said = run("enter", "flight", "heron", "6:10", "P-1", "--sure", folder)

    assert [line for line in said.out.splitlines() if line.startswith("motor bearings")] == [
        "motor bearings of M-1 at nose is overdue, 2 days past"
    ]


def test_what_is_stale_is_not_said_to_be_due_later(tmp_path: Path, run: Any) -> None:
    """A hard landing re-opened it: its flights go on being counted, and it is open now."""
    programme = FILES["programmes/shop.yaml"].replace(
        "    every: {flights: 6}\n", "    every: {flights: 6}\n    also_after: [hard landing]\n"
    )
    folder = loft(tmp_path / "loft", {"programmes/shop.yaml": programme})
    assert 0 == run("enter", "flight", "heron", "6:00", "P-3", "hard", folder).status
    said = run("enter", "flight", "heron", "6:10", "P-1", folder)

    assert ("motor bearings of M-1 at nose is stale\n" in said.out, " due in " in said.out) == (
        True,
        False,
    )


@pytest.mark.parametrize(
    ("words", "reason"),
    [
        (("fit", "heron", "nose", "thing", "M-1"),
         "'nose' gets no part: 'thing' is none; write nose.motor=M-01, or nose M-01"),
        (("flight", "heron"), "flight: missing flight (as in 7:20)"),
        (("flight", "hern", "7:20"), "no aircraft is called 'hern'; did you mean 'Heron'?"),
        (("flihgt", "heron", "7:20"), "'flihgt' is not a kind of entry; did you mean 'flight'?"),
        (("flight", "heron", "7:20", "--packs", "P-1"),
         "'flight' has no key 'packs'; did you mean 'pack'?"),
        (("fit", "heron", "nose", "M-9", "tail", "M-1"),
         "'nose' gets no part: 'M-9' is none; did you mean 'M-1'? Or add --like"
             " and the tag of one alike if it is a new part"),
        (("flight", "heron", "7:20", "P-9", "1480"),
         "'P-9' is neither a pack of this hangar nor a charge or a landing; did you mean 'P-1'?"),
        (("flight", "heron", "7:20", "P-1", "1480V"),
         "'1480V' is neither a pack of this hangar nor a charge or a landing"),
        (("flight", "heron", "7", "min", "20", "s", "P-1", "1480"),
         "'1480' is neither a pack of this hangar nor a charge or a landing; write 1480mAh"),
        (("flight", "heron", "7,20", "P-1", "1480"),
         "flight: '7,20' has a comma; did you mean 7:20, or 7.20 min?"
         " write it as in 7 min 20 s, 7:20, 90 s or 1.5 h"),
        (("charge", "P-1", "--resting", "4,18 4,19 4,18"),
         "'4,18 4,19 4,18' has decimal commas; write 4.18 4.19 4.18"),
        (("charge", "P-1", "--resistance", "4,1/4,3/4,0 mohm"),
         "'4,1/4,3/4,0 mohm' has decimal commas; write 4.1/4.3/4.0 mohm"),
        (("flight", "heron", "440"),
         "flight: '440' has no unit; write it as in 7 min 20 s, 7:20, 90 s or 1.5 h"),
        (("flight", "heron", "7:20", "--used", "1.48"),
         "used: '1.48' has no unit; write it with mAh or Ah, as in 1.48 Ah"),
        (("flight", "heron", "7:20", "--landing", "ok"),
         "landing: 'ok' is not normal, hard or crash; did you mean 'normal'?"),
        (("flight", "heron", "7:20", "--pack"), "--pack has no value"),
        (("flight", "heron", "7:20", "--on", "2/1/2026"),
         "--on: '2/1/2026' is not a day; did you mean 2026-01-02 or 2026-02-01?"),
        (("check", "heron", "failsafe", "n/a"),
         "'n/a' is not a result; write pass, fail or 'not applicable'"),
        (("swap", "heron", "M-1"),
         "'swap' is not a kind of entry; write fit, as in fit sedge rear-left.motor=M-09"
         " --instead-of M-02=scrapped"),
        (("remove", "P-2"), "no aircraft is called 'P-2'; write the aircraft before 'P-2'"),
        (("check", "heron", "failsafe"), "check: missing --result (as in pass)"),
        (("capacity", "P-1"), "capacity: missing --measured (as in 2140 mAh)"),
        ((), "what? one of fit, remove, state, flight, flights, opening, charge, capacity, check,"
         " calibration, setting, gains, verdict, weigh, incident, repair, overhaul, inspection,"
         " defect, cleared, firmware, alteration, transport, water, note, corrects, voids"),
    ],
)  # fmt: skip
def test_what_is_missing_or_no_value_is_said_and_nothing_asked(
    tmp_path: Path, run: Any, words: tuple[str, ...], reason: str
) -> None:
    """Without a terminal: one sentence, exit status 2, nothing written."""
    folder = loft(tmp_path / "loft")
    old = texts(folder)

    ran = run("enter", *words, "--hangar", folder)

    assert (2, "", f"buildbook enter: {reason}\n") == ran
    assert old == texts(folder)


@pytest.mark.parametrize("words", [("note", "heron", "A"), ("--undo",), ("--from", "a.json")])
def test_a_folder_that_is_no_hangar_is_told(
    tmp_path: Path, run: Any, words: tuple[str, ...]
) -> None:
    """Whatever is to be entered there; nothing is made."""
    ran = run("enter", *words, "--hangar", tmp_path)

    assert (2, "", f"buildbook enter: {tmp_path} is not a hangar: it has no hangar.yaml\n") == ran
    assert {} == texts(tmp_path)


def test_a_hangar_that_cannot_be_read_is_told(tmp_path: Path, run: Any) -> None:
    """With the reason and its place."""
    folder = loft(tmp_path / "loft", {"hangar.yaml": "hangar: 'Loft\n"})

    assert (
        2,
        "",
        f"buildbook enter: {folder}/hangar.yaml can't be read:"
        " quotation mark without an end @ hangar.yaml:1\n",
    ) == run("enter", "note", "heron", "A", "--hangar", folder)


def test_what_would_be_wrong_is_not_written(tmp_path: Path, run: Any) -> None:
    """The whole hangar is read with the entry in it."""
    folder = loft(tmp_path / "loft")
    old = texts(folder)

    ran = run("enter", "flight", "heron", "7:20", "--pack", "P-9", folder)

    assert (
        1,
        "",
        "problem: unknown tag 'P-9'\n    did you mean 'P-1'?\nNothing was written.\n",
    ) == ran
    assert old == texts(folder)


def test_a_fault_elsewhere_keeps_nobody_from_entering(tmp_path: Path, run: Any) -> None:
    """What was wrong before is not held against the entry."""
    folder = loft(tmp_path / "loft", {"stores/shelf.yaml": "- {on: 2026-02-01, charge: P-77}\n"})

    assert 0 == run("enter", "flight", "heron", "7:20", folder).status


def test_what_comes_once_more_is_no_new_fault(tmp_path: Path, run: Any) -> None:
    """A fault told before, whose count a new entry raises, keeps nobody from entering."""
    building = FILES["aircraft/heron/aircraft.yaml"] + "status: building\n"
    log = FILES[LOG] + "- {on: 2026-02-09, flight: 6:30, pack: P-3}\n"
    folder = loft(tmp_path / "loft", {"aircraft/heron/aircraft.yaml": building, LOG: log})
    told = "heron flown on 2026-02-08, though building, %s times in all"
    assert told % 2 in run("check", folder).out

    assert 0 == run("enter", "flight", "heron", "7:20", folder).status
    assert told % 3 in run("check", folder).out


def test_a_doubt_is_told_and_written_only_when_it_is_sure(tmp_path: Path, run: Any) -> None:
    """Without a terminal nobody can be asked."""
    folder = loft(tmp_path / "loft")
    old = texts(folder)
    words = ("enter", "charge", "P-1", "--put-in", "9520mAh", folder)

    assert (
        1,
        "",
        "doubt: battery 'P-1' charged with 9520 mAh, though rated 3000 mAh\n"
        "    if so, look at the pack, its cells and the charger before it is charged\n"
        "    again; else correct the figure, or the capacity of the spec\n"
        "Nothing was written.\nAdd --sure if it is right.\n",
    ) == run(*words)
    assert old == texts(folder)
    assert 0 == run(*words, "--sure").status
    assert old != texts(folder)


@pytest.mark.skipif("sure" not in common(), reason="the records have no key that says it")
def test_what_is_sure_says_so_in_the_log(tmp_path: Path, run: Any) -> None:
    """So that it is not asked again by every check."""
    folder = loft(tmp_path / "loft")

    assert 0 == run("enter", "charge", "P-1", "--put-in", "9520mAh", folder, "--sure").status
    assert added(folder, "stores/p-1.yaml").endswith("  put_in: 9520 mAh\n  sure: true\n")
    assert 0 == run("enter", "note", "P-1", "Calm.", folder, "--sure").status
    assert added(folder, "stores/p-1.yaml").endswith("  note: Calm.\n  item: P-1\n")


def test_a_real_terminal_is_asked(tmp_path: Path, fixed_day: datetime.date) -> None:
    """Through a terminal of the system, as somebody types."""
    pty = pytest.importorskip("pty")
    assert fixed_day
    folder = loft(tmp_path / "loft")
    child, terminal = pty.fork()
    if child == 0:
        words = ["-m", "buildbook", "enter", "flight", "heron", "--hangar", str(folder)]
        os.execv(sys.executable, [sys.executable, *words])
    shown = b""
    for question, answer in ((b"[6:30]: ", b"7:10\n"), (b"[P-1]: ", b"P-2\n"), (b" mAh]: ", b"\n")):
        while question not in shown:
            shown += os.read(terminal, 1024)
        os.write(terminal, answer)
        shown = b""
    with contextlib.suppress(OSError):  # what Linux says at the end of a terminal
        while more := os.read(terminal, 1024):
            shown += more
    assert 0 == os.waitstatus_to_exitcode(os.waitpid(child, 0)[1])
    assert ["  flight: 7:10", "  pack: P-2", "  used: 1450 mAh"] == (
        added(folder, LOG).splitlines()[2:]
    )
    assert b"motor bearings of M-1 at nose due in 3 flights" in shown


def test_an_entry_of_tomorrow_is_doubted(tmp_path: Path, run: Any) -> None:
    """Perhaps a slip of the pen."""
    folder = loft(tmp_path / "loft")

    ran = run("enter", "note", "heron", "New.", "--on", "2026-02-11", folder)

    assert 1 == ran.status
    assert "doubt: the entry is dated after today (2026-02-10)" == ran.err.splitlines()[0]


def test_on_a_terminal_what_is_missing_is_asked_for(
    tmp_path: Path, run: Any, monkeypatch: pytest.MonkeyPatch
) -> None:
    """What is usual is offered; an empty answer takes it. A doubt is asked back."""
    folder = loft(tmp_path / "loft")
    monkeypatch.setattr("buildbook.commands.enter._can_ask", lambda: True)
    asked = []

    def answer(prompt: str) -> str:
        asked.append(prompt)
        return {"pack [P-1]: ": "P-3"}.get(prompt.replace("--pack (as in P-01)", "pack"), "")

    monkeypatch.setattr("builtins.input", answer)

    assert 0 == run("enter", "flight", "heron", folder).status
    assert [
        "flight (as in 7:20) [6:30]: ",
        "--pack (as in P-01) [P-1]: ",
        "--used (as in 1480 mAh) [1450 mAh]: ",
    ] == asked
    assert [
        "  flight: 6:30", "  pack: P-3", "  used: 1450 mAh",
    ] == added(folder, LOG).splitlines()[2:]  # fmt: skip
    asked.clear()
    assert 1 == run("enter", "charge", "P-1", "--put-in", "9520mAh", folder).status
    assert ["Write it all the same? y or n [n]: "] == asked


def test_a_forgotten_entry_goes_to_its_place_and_the_seal_is_silent(
    tmp_path: Path, run: Any
) -> None:
    """It says when it was written; what was sealed still says what it said."""
    folder = loft(tmp_path / "loft")
    assert 0 == run("check", folder, "--seal").status

    assert 0 == run("enter", "flight", "heron", "6:10", "--on", "2026-02-04", folder).status

    assert (
        "  result: pass\n- on: 2026-02-04\n  id: 2026-02-04-1\n  flight: 6:10\n"
        "  entered: 2026-02-10\n- on: 2026-02-08\n"
    ) in (folder / LOG).read_text("utf-8")
    said = run("check", folder).out.splitlines()
    assert "Read 1 aircraft, 4 items, 5 entries: no problems." == said[0]


def test_json_says_the_same(tmp_path: Path, run: Any) -> None:
    """For scripts."""
    folder = loft(tmp_path / "loft")

    ran = run("enter", "note", "heron", "New.", "--json", "--dry-run", folder)

    assert {
        "done": False,
        "written": [
            {
                "file": LOG,
                "line": 10,
                "id": "2026-02-10-1",
                "text": "- on: 2026-02-10\n  id: 2026-02-10-1\n  note: New.\n",
            }
        ],
        "assumed": [],
        "changed": [],
        "problems": [],
    } == msgspec.json.decode(ran.out)


def test_a_kind_lists_its_keys(tmp_path: Path, run: Any) -> None:
    """Made from the declarations."""
    lines = run("enter", "capacity", "--help", "--hangar", loft(tmp_path / "loft")).out.splitlines()

    assert lines[:2] == [
        "buildbook enter capacity: The pack, as in P-01",
        "  --measured: Charge that came out, as in 2140 mAh",
    ]


def test_a_log_read_alone_is_as_if_all_was_read(demo: Path, private_cache: Path) -> None:
    """Notes and flights at random days of the demo, into every log."""
    assert private_cache
    held = read_held(demo, None)
    assert held is not None
    held = msgspec.structs.replace(held, reading=msgspec.structs.replace(held.reading, problems=()))
    draw = random.Random(5)
    ledger = held.reading.ledger
    assert ledger is not None
    for path in sorted({entry.file for entry in ledger.entries}):
        on = f"2026-{draw.randint(1, 9):02d}-{draw.randint(1, 28):02d}"
        entry = {"on": on, "inspection": "pack-look", "tags": ["P-01"]} if "stores" in path else {
            "on": on, "flight": "5:00", "pack": "P-02"
        }  # fmt: skip
        text = placed(path, held.files.content[path], [entry]).data
        whole = msgspec.structs.replace(
            held, reading=msgspec.structs.replace(held.reading, ledger=None)
        )

        assert with_texts(whole, {path: text}).reading == with_texts(held, {path: text}).reading


def test_a_connected_part_is_told_the_same_as_in_the_whole(demo: Path, private_cache: Path) -> None:
    """The standing of each aircraft and pack, and what is told of the records."""
    assert private_cache
    reading = read_hangar(demo, None)
    ledger = reading.ledger
    assert ledger is not None
    assert ledger.keeper.as_of is not None
    day = ledger.keeper.as_of
    connections = Connections()
    connections.add(ledger)
    whole = open_reading(demo, reading, day, day)
    assert whole.reports is not None
    for slug in ledger.aircraft:
        part = msgspec.structs.replace(reading, ledger=connections.part(ledger, [slug]))
        opened = open_reading(demo, part, day, day)
        assert opened.reports is not None
        found = opened.reports.work
        assert [one for one in whole.reports.work.aircraft if one.slug == slug] == [
            one for one in found.aircraft if one.slug == slug
        ]
        packs = {one.tag: one for one in whole.reports.work.packs}
        assert [packs[one.tag] for one in found.packs] == list(found.packs)
        assert set(opened.problems) <= set(whole.problems)


@pytest.mark.parametrize("kind", KINDS)
def test_every_tag_of_an_entry_connects(kind: str) -> None:
    """All keys that hold tags, as in the examples of the reference."""
    from test_entry_text import example, lineless, read

    from buildbook.desk.entry_text import entry_text

    values = example(kind)
    if kind == "cleared":
        values[kind] = "x-0"
    before = {"on": "2026-02-01", "id": "x-0", "defect": "loose"}
    entry = read(entry_text(before) + entry_text({"on": "2026-03-01", **values}))[1]
    said = set(re.findall(r"\b[MERPCS]-\d+\b", str(lineless(entry))))
    assert said <= set(tags_of(entry))
    assert as_tree("[a]") == ["a"]
