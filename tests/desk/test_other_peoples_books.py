"""Books as others keep them: merged heads, two sheets, sums, commas in remarks; nothing is taken
for something else without a word.
"""

import datetime
from pathlib import Path
from typing import Any

import pytest
from hangars import loft
from test_from_table import ITEMS, STORK, flights, read

from buildbook.records.entries import Charge, Flight

MORE_PACKS = f"{ITEMS}- {{tags: A-1..A-3, spec: p, acquired: 2024-01-02}}\n"


@pytest.fixture
def club(tmp_path: Path) -> Path:
    """Two aircraft, and packs of two rows that have their numbers twice."""
    files = {"aircraft/stork/aircraft.yaml": STORK, "parts/items.yaml": MORE_PACKS}
    return loft(tmp_path / "loft", files)


def _clock(minutes: int, seconds: int) -> datetime.time:
    return datetime.time(0, minutes, seconds)


def german_book(path: Path) -> Path:
    """A merged head over two lines, true days beside typed ones, sums, a gap, a second sheet."""
    openpyxl = pytest.importorskip("openpyxl")
    book = openpyxl.Workbook()
    sheet = book.active
    sheet.title = "Flugbuch"
    sheet["A1"] = "Flugbuch 2025"
    sheet.append([])
    sheet.append(["Datum", "Uhrzeit", "Modell", "Flugzeit", "Akku", None, None, "Bemerkung"])
    sheet.append([None, None, None, "min:s", "Nr.", "geladen (mAh)", "Rest [V]", None])
    sheet.merge_cells("E3:G3")
    day = datetime.date(2025, 6, 3)
    ten, eleven = datetime.time(10, 15), datetime.time(11, 15)
    sheet.append([day, ten, "Stork", _clock(12, 0), "Akku 3", 1150, "3,82", "böig"])
    sheet.append(["03.06.25", eleven, "Stork", _clock(9, 41), "Akku 1", "1.075,5", 3.795, None])
    sheet.append([])
    sheet.append(["Summe 06/25", None, None, datetime.timedelta(minutes=21, seconds=41)])
    sheet.append(["14.06.25", ten, "Stork", _clock(5, 6), "Akku 3", "1.210", "3,7", None])
    sheet.append(["Gesamt", None, "3 Flüge"])
    charges = book.create_sheet("Ladungen")
    charges.append(["Datum", "Akku", "Ladestrom A", "geladen mAh", "Ri mΩ", "Bemerkung"])
    charges.append(["02.06.2025", "Akku 3", "2,2", "1100", "3,1 / 3,0 / 3,3", "Lagerladung"])
    charges.append(["03.06.2025", "Akku 1", 2.5, 1150.5, "2,9/3,0/3,1", None])
    book.save(path)
    return path


SHEET_MAPPING = """\
kind: flight
rows: one entry each
heads: 3
days: day-first
decimals: comma
all: {}
skip: [8, 10]
columns:
  Datum: {is: on}
  Uhrzeit: {is: time}
  Modell: {is: aircraft}
  Flugzeit min:s: {is: flight, unit: h:m:s}
  Akku Nr.: {is: pack}
  Bemerkung: {is: note}
names:
  Stork: stork
  Akku 3:
  Akku 1:
# columns that nothing is taken from:
#  Akku geladen (mAh): {is: }
#  Akku Rest [V]: {is: }
"""


def name_packs(mapping: Path) -> str:
    """Say in the mapping which packs are meant; what stood there before."""
    text = mapping.read_text("utf-8")
    named = text.replace("Akku 3:", "Akku 3: A-3").replace("Akku 1:", "Akku 1: A-1")
    mapping.write_text(named, "utf-8")
    return text


def bring_in(run: Any, club: Path, book: Path, table: str) -> None:
    """Write the table down, let its mapping be guessed, and bring it in by that."""
    book.write_text(table, "utf-8")
    run("enter", "--from", book, club)
    run("enter", "--from", book, "--sure", club)


def test_a_sheet_with_a_merged_head_and_sums(club: Path, tmp_path: Path, run: Any) -> None:
    """Both lines of heads are read, columns that nothing is taken from are named, sums are skipped,
    and a pack that could be two is asked for, once.
    """
    book = german_book(tmp_path / "book.xlsx")
    mapping = tmp_path / "book.xlsx.mapping.yaml"

    first = run("enter", "--from", book, club)

    assert SHEET_MAPPING in mapping.read_text("utf-8")
    assert [
        "could not be placed: no item is called 'Akku 3'; did you mean 'P-3' or 'A-3'?"
        " @ book.xlsx:5, 9",
        "could not be placed: no item is called 'Akku 1'; did you mean 'P-1' or 'A-1'?"
        " @ book.xlsx:6",
    ] == first.err.splitlines()
    assert "Not read: sheet 'Ladungen'. Bring one in with --sheet NAME.\n" in first.out
    name_packs(mapping)
    assert (0, "Wrote 3 entries.") == (
        (ran := run("enter", "--from", book, "--sure", club)).status,
        ran.out.splitlines()[-1],
    )
    assert [
        ("2025-06-03", "10:15", 720.0, ("A-3",), "böig"),
        ("2025-06-03", "11:15", 581.0, ("A-1",), None),
        ("2025-06-14", "10:15", 306.0, ("A-3",), None),
    ] == [
        (f"{each.on}", each.time, each.rows[0].duration_s, each.rows[0].packs, each.note)
        for each in flights(club)
        if each.time
    ]


def test_another_sheet_is_read_by_its_name(club: Path, tmp_path: Path, run: Any) -> None:
    """With a mapping of its own; a number that the sheet keeps as one has a point, a typed one a
    comma, and the resistances of all cells may share a cell.
    """
    book = german_book(tmp_path / "book.xlsx")
    command = ("enter", "--from", book, "--sheet", "Ladungen", "--sure", club)
    run(*command)
    guessed = name_packs(tmp_path / "book.xlsx.Ladungen.mapping.yaml")

    assert (0, "Wrote 2 entries.") == ((ran := run(*command)).status, ran.out.splitlines()[-1])

    assert "sheet: Ladungen\nkind: charge\n" in guessed
    assert [
        (("A-3",), 1.1, 2.2, (0.0031, 0.003, 0.0033), "Lagerladung"),
        (("A-1",), 1.1505, 2.5, (0.0029, 0.003, 0.0031), None),
    ] == [
        (
            each.packs,
            each.put_in_ah,
            each.current_a,
            tuple(round(ohms, 6) for ohms in each.resistance_ohm),
            each.note,
        )
        for each in sorted(read(club).entries, key=lambda entry: entry.on)
        if isinstance(each, Charge) and each.current_a
    ]


@pytest.mark.parametrize(
    ("name", "sheet", "reason"),
    [
        ("book.xlsx", "Ladung", "book.xlsx has no sheet 'Ladung'; did you mean 'Ladungen'?"),
        ("book.xlsx", "x", "book.xlsx has no sheet 'x'; there are 'Flugbuch', 'Ladungen'"),
        ("book.csv", "x", "book.csv has no sheets; leave out --sheet"),
    ],
)
def test_a_sheet_that_is_not_there_is_told(
    club: Path, tmp_path: Path, run: Any, name: str, sheet: str, reason: str
) -> None:
    """By its name, with those that are there."""
    german_book(tmp_path / "book.xlsx")
    (tmp_path / "book.csv").write_text(CSV, "utf-8")

    ran = run("enter", "--from", tmp_path / name, "--sheet", sheet, club)

    assert (2, f"buildbook enter: {reason}\n") == (ran.status, ran.err)


CSV = """\
Date,Time,Aircraft,Flight time,Battery,mAh used,bat %,Notes
6/14/2025,11:12 AM,Stork,4:31,P1,"1,885",39%,
6/14/2025,1:20 PM,Stork,7.5 min,P2/P3,"1,104",24%,crash! arm broken
6/15/2025,12:00 PM,Stork,7:30,P3,"1,515",37%,hard landing, bent motor shaft
Total,,,19:31,,,,
"""


def test_two_packs_in_a_cell_and_a_comma_in_a_remark(club: Path, tmp_path: Path, run: Any) -> None:
    """A value may have a unit of its own; what stands beyond the heads is not dropped but told."""
    book = tmp_path / "flights.csv"
    book.write_text(CSV, "utf-8")

    first = run("enter", "--from", book, club)

    assert (
        "could not be placed: 'bent motor shaft' stands beyond the last head; quote a text with a"
        " comma @ flights.csv:4\n"
    ) == first.err
    assert "skip: [5]\n" in (tmp_path / "flights.csv.mapping.yaml").read_text("utf-8")
    assert (
        "Remarks become notes and change nothing else. Where one tells of a hard landing,\n"
        "a crash or a defect, write that too, by enter incident or enter defect:\n"
        "  2025-06-14T13:20: crash! arm broken\n\n"
    ) in first.out
    assert [
        "  2025-06-14T11:12 flight 4:31, pack P-1, used 1885 mAh (aircraft/stork/logbook.yaml)",
        "  2025-06-14T13:20 flight 7:30, pack [P-2, P-3], used 1104 mAh, note crash! arm broken"
        " (aircraft/stork/logbook.yaml)",
    ] == [line for line in first.out.splitlines() if line.startswith("  2025") and "flight" in line]


@pytest.mark.parametrize(
    ("head", "cells", "lengths"),
    [
        ("Airtime", ["7:20:00", "0:45:00", "12:10:00"], [440.0, 45.0, 730.0]),
        ("Airtime (mm:ss)", ["0:07:20", "0:12:00"], [440.0, 720.0]),
        ("Airtime (h:mm)", ["1:20:00", "0:45:00"], [4800.0, 2700.0]),
        ("Airtime", ["0:07:00", "0:12:00"], [420.0, 720.0]),
    ],
)
def test_a_length_that_the_sheet_takes_for_a_time_of_day(
    club: Path, tmp_path: Path, run: Any, head: str, cells: list[str], lengths: list[float]
) -> None:
    """Minutes and seconds typed as 7:20 are hours and minutes to a sheet; others are not."""
    rows = [f"2025-06-{3 + at:02d},10:00,stork,{cell}\n" for at, cell in enumerate(cells)]

    bring_in(run, club, tmp_path / "flights.csv", f"Date,Start,Plane,{head}\n{''.join(rows)}")

    assert lengths == [each.rows[0].duration_s for each in flights(club)]


def test_a_column_without_a_head_is_named_by_its_letter(
    club: Path, tmp_path: Path, run: Any
) -> None:
    """So that nobody wonders where it went."""
    book = tmp_path / "flights.csv"
    book.write_text("Date,Plane,,Airtime\n2025-06-03,stork,gusty,7:20\n", "utf-8")

    run("enter", "--from", book, club)

    assert "# columns that nothing is taken from:\n#  column C: {is: }\n" in (
        tmp_path / "flights.csv.mapping.yaml"
    ).read_text("utf-8")


@pytest.mark.parametrize(
    ("table", "written"),
    [
        (
            "Nr;Datum;Start;Landung;Modell;Akku\n1;Sa 2. Mai 2025;14h30;14h38;Stork;P 3\n"
            "2;So 3. Mai 2025;23:55;0:04;Stork;P 3\n",
            [("2025-05-02", "14:30", 480.0, ("P-3",)), ("2025-05-03", "23:55", 540.0, ("P-3",))],
        ),
        (
            "Timestamp,Model,Duration (sec),Pack #\n2025-05-02T14:30:11Z,Stork,412,P-1\n",
            [("2025-05-02", "14:30", 412.0, ("P-1",))],
        ),
        (
            "Flight #,Date,Start,Aircraft,Minutes,Batteries\n"
            '1,"May 2, 2025",9:10,stork,6.5,"P-1, P-2"\n2,"May 13, 2025",9:00,stork,8,P-3\n',
            [
                ("2025-05-02", "09:10", 390.0, ("P-1", "P-2")),
                ("2025-05-13", "09:00", 480.0, ("P-3",)),
            ],
        ),
    ],
)
def test_days_lengths_and_numbers_in_other_ways(
    club: Path, tmp_path: Path, run: Any, table: str, written: list[tuple[Any, ...]]
) -> None:
    """With the weekday, the month first, a zone; by take-off and landing; a count is no length."""
    bring_in(run, club, tmp_path / "flights.csv", table)

    assert written == [
        (f"{each.on}", each.time, each.rows[0].duration_s, each.rows[0].packs)
        for each in flights(club)
    ]


def test_a_point_between_thousands_is_no_decimal_point(
    club: Path, tmp_path: Path, run: Any
) -> None:
    """1.480 under mAh is 1480 mAh, also where no comma stands in the table."""
    head = "Datum;Start;Modell;Minuten;Verbraucht mAh\n"
    rows = "3.5.2025;9:10;Stork;6;1.480\n3.5.2025;9:30;Stork;7;1.390\n"

    bring_in(run, club, tmp_path / "flights.csv", head + rows)

    assert [1.48, 1.39] == [each.rows[0].used_ah for each in flights(club)]


def test_an_american_sheet_with_sums_in_hours(club: Path, run: Any) -> None:
    """Winds keep the unit of their head, and minutes are no hours because a sum is."""
    (club / "log.csv").write_text(
        "Flying Log,,,,,\nDate,Start,Model,Battery,Flight Time,mAh used,Wind (mph),Notes\n"
        '3/16/2026,9:36 AM,Heron,Batt 1,9:26,"1,245",5-8,"Said ""never again"", did it again"\n'
        "3/16/2026,1:10 PM,Heron,Batt 2,5:41,750,5,\n"
        '3/27/2026,2:05 PM,The Crane,Batt 2,5:45,760,,# 3 nicked\nTotal,,,,2:20:52,"2,755",,\n',
        "utf-8",
    )
    first = run("enter", "--from", club / "log.csv", club)
    mapping = club / "log.csv.mapping.yaml"

    assert 1 == first.status
    assert (
        "Correct the rows; in the mapping file, say under names what a name is here, or under skip"
        " which lines are no entries."
    ) in " ".join(first.out.split())
    assert "  Flight Time: {is: flight, unit: m:s}\n" in mapping.read_text("utf-8")
    text = mapping.read_text("utf-8")
    for name, own in {"The Crane:": "heron", "Batt 1:": "P-1", "Batt 2:": "P-2"}.items():
        text = text.replace(name, f"{name} {own}")
    mapping.write_text(text, "utf-8")
    assert 0 == run("enter", "--from", club / "log.csv", "--sure", club).status
    assert "log.csv" not in run("check", club).out

    assert [
        ("13:10", 341.0, "5 mph", None),
        ("14:05", 345.0, None, "# 3 nicked"),
        ("09:36", 566.0, "5-8 mph", 'Said "never again", did it again'),
    ] == sorted(
        ((one.time, one.rows[0].duration_s, one.wind, one.note) for one in flights(club)),
        key=lambda one: one[1],
    )


def test_a_log_of_a_charger_is_of_charges_though_they_last(
    club: Path, tmp_path: Path, run: Any
) -> None:
    """With a duration and a mode, a mark of the byte order, commas: a discharge is no charge."""
    book = tmp_path / "charger.csv"
    text = (
        "Date;Time;Battery;Mode;Duration;Capacity;IR 1;IR 2;IR 3;End volts\n"
        "3.2.2026;18:20;P1;CHARGE;00:48:10;1420;6,1;6,3;6,0;12,58\n"
        "4.2.2026;18:05;P1;DISCHARGE;01:02:44;1480;;;;9,90\n"
        "5.2.2026;19:11;P2;STORAGE;00:22:00;640;;;;11,48\n"
    )
    book.write_text(text, "utf-8-sig")

    first = run("enter", "--from", book, club)
    assert (
        "  # Not sure: line 3 is a discharge, and left out; enter capacity says what came out of a"
        " full pack"
    ) in first.out.splitlines()
    assert {"  kind: charge", "  skip: [3]", "    CHARGE: full", "    Mode: {is: to}"} <= set(
        first.out.splitlines()
    )
    assert 0 == run("enter", "--from", book, "--sure", club).status
    found = [
        (each.packs, each.to, each.put_in_ah, len(each.resistance_ohm))
        for each in read(club).entries
        if isinstance(each, Charge) and each.on >= datetime.date(2026, 2, 1) and each.time
    ]
    assert [(("P-1",), "full", 1.42, 3), (("P-2",), "storage", 0.64, 0)] == found


def test_a_log_of_a_transmitter_by_the_clock_is_one_flight(
    club: Path, tmp_path: Path, run: Any
) -> None:
    """A row every second with the time of the day in fractions; the charge as far as counted."""
    book = tmp_path / "stork-log.csv"
    rows = [
        f"2026-02-09,16:{20 + at // 60:02d}:{at % 60:02d}.{at % 10}50,-{60 + at % 5},{at * 3}"
        for at in range(0, 381, 2)
    ]
    book.write_text("\n".join(["Date,Time,RSSI(dB),Capa(mAh)", *rows, ""]), "utf-8")

    first = run("enter", "--from", book, club)
    assert {
        "  rows: one entry from all rows",
        "    Time: {is: flight, take: span}",
        "  # Not sure: the flight is taken to last as long as the log runs",
    } <= set(first.out.splitlines())
    assert 0 == run("enter", "--from", book, club).status

    (flight,) = [
        row
        for each in read(club).entries
        if isinstance(each, Flight) and each.aircraft == "stork"
        for row in each.rows
    ]
    assert (380, 1.14) == (flight.duration_s, flight.used_ah)


@pytest.mark.parametrize(
    ("length", "seconds"), [("7:20.5", 440), ("440.3 s", 440), ("7:20,5", 440), ("7.5", 450)]
)
def test_a_fraction_of_a_second_is_left_out(
    club: Path, tmp_path: Path, run: Any, length: str, seconds: int
) -> None:
    """As a clock that stops by hand shows one."""
    book = tmp_path / "stork.csv"
    book.write_text(f"Date;Start;Aircraft;Length\n14.1.26;4:30 pm;Stork;{length}\n", "utf-8-sig")
    run("enter", "--from", book, club)
    assert 0 == run("enter", "--from", book, club).status

    (flight,) = flights(club)
    assert (seconds, "16:30") == (flight.rows[0].duration_s, flight.time)


@pytest.mark.parametrize(
    "text",
    [
        # began and ended, thousands with a point, the one below a thousand alike
        "Datum;Beginn;Ende;Modell;Akku;entnommen mAh\n"
        "14.01.26;10:05;10:12;Stork;P1;0.978\n15.01.26;11:05;11:12;Stork;P2;1.210\n",
        # capitals, a length in letters
        "DATE\tA/C\tDUR\tLIPO\tmAh\nJan 14 2026\tSTORK\t7m00s\tP1\t978\n"
        "Jan 15 2026\tSTORK\t7m00s\tP2\t1210\n",
        # day and time in one cell, charge in Ah, under a head that speaks of both
        'Date & time,Aircraft,Flight time (h:mm:ss),Batteries,Charge used (Ah)\n'
        '"1/14/2026 04:30 PM",stork,0:07:00,P1,0.978\n"1/15/2026 09:10 AM",stork,0:07:00,P2,1.21\n',
    ],
)  # fmt: skip
def test_three_ways_to_write_the_same_flights(
    club: Path, tmp_path: Path, run: Any, text: str
) -> None:
    """Each is guessed whole, with nothing to put right by hand."""
    book = tmp_path / ("book.tsv" if "\t" in text else "book.csv")
    book.write_text(text, "utf-8")
    run("enter", "--from", book, club)
    ran = run("enter", "--from", book, "--sure", club)
    assert (0, "") == (ran.status, ran.err), ran.out

    found = [
        (str(each.on), row.duration_s, row.packs, row.used_ah)
        for each in read(club).entries
        if isinstance(each, Flight) and each.aircraft == "stork"
        for row in each.rows
    ]
    assert [
        ("2026-01-14", 420, ("P-1",), 0.978),
        ("2026-01-15", 420, ("P-2",), 1.21),
    ] == found


CELLS_BY_UNIT = """\
Date,Pack,Charged [Ah],Duration [min],End,IR cell 1 (mOhm),IR cell 2 (mOhm),IR cell 3 (mOhm)
2026-02-03,P-1,1.48,62,18:30,4.1,4.3,4.2
2026-02-04,P-2,1.51,63,18:40,4.4,4.3,4.2
"""
HALF_GERMAN = """\
Zeit;Akku;Geladen;Dauer
03.02.2026 18:30;P-1;1480;62
04.02.2026 18:40;P-2;1510;63
"""
OF_ONE_CHARGE = """\
Time,Voltage,Current,Capacity
00:00:01,11.1,2.0,0
00:20:01,12.0,2.0,660
00:50:01,12.6,0.3,1480
"""


@pytest.mark.parametrize(
    ("name", "text", "expected"),
    [
        ("log.csv", CELLS_BY_UNIT, [(("P-1",), None, 1.48, (4.1, 4.3, 4.2), ()),
                                    (("P-2",), None, 1.51, (4.4, 4.3, 4.2), ())]),
        ("log.csv", HALF_GERMAN, [(("P-1",), "18:30", 1.48, (), ()),
                                  (("P-2",), "18:40", 1.51, (), ())]),
        ("P-1 2026-02-03.csv", OF_ONE_CHARGE, [(("P-1",), None, 1.48, (), ())]),
    ],
)  # fmt: skip
def test_a_log_of_a_charger_is_known_as_one(
    club: Path, tmp_path: Path, run: Any, name: str, text: str, expected: list[Any]
) -> None:
    """By what it put in, whatever lasted or ended; the unit of a head goes before its words."""
    book = tmp_path / name
    book.write_text(text, "utf-8")
    before = {each.uid for each in read(club).entries}

    run("enter", "--from", book, club)
    ran = run("enter", "--from", book, "--sure", club)

    assert 0 == ran.status, ran.err
    found = [
        (
            each.packs,
            each.time,
            each.put_in_ah,
            tuple(round(ohm * 1000, 3) for ohm in each.resistance_ohm),
            each.resting_v,
        )
        for each in read(club).entries
        if isinstance(each, Charge) and each.uid not in before
    ]
    assert expected == sorted(found)


@pytest.mark.parametrize(
    ("text", "doubt"),
    [
        ("Date,Model,Flown,Cell 1 (C)\n2026-02-03,Heron,7:20,12\n",
         "'Cell 1 (C)': its unit does not fit its words; nothing is taken from it"),
        ("Date,Battery,Duration,Capacity out [mAh]\n2026-02-03,P-1,62,1480\n", None),
        ("Datum;Akku;Dauer;Kapazität [mAh]\n03.02.2026;P-1;62;1480\n",
         "kind: nothing says that a row is a flight; it may be a charge"),
        ("Date,Battery,Flight time\n2026-02-03,P-1,7:20\n", None),
    ],
)  # fmt: skip
def test_what_a_head_leaves_open_is_told(
    club: Path, tmp_path: Path, run: Any, text: str, doubt: str | None
) -> None:
    """A unit against the words, and rows that may be flights or charges."""
    book = tmp_path / "book.csv"
    book.write_text(text, "utf-8")

    run("enter", "--from", book, club)

    said = (tmp_path / "book.csv.mapping.yaml").read_text("utf-8")
    if doubt is None:
        assert "# Not sure: kind" not in said
    else:
        assert f"# Not sure: {doubt}\n" in said


def test_names_and_landings_in_other_letters(club: Path, tmp_path: Path, run: Any) -> None:
    """In French; whatever stands between letters; a heat that is none of the air is left out."""
    book = tmp_path / "carnet.csv"
    book.write_text(
        "Date;Modèle;Durée;Batterie;Atterrissage;Max temp ESC (C)\n"
        "03/02/2026;He-ron;7:20;P-1;hard landing;71\n"
        "14/02/2026;Hreon;7:10;P-2;so-so;70\n",
        "utf-8",
    )

    first = run("enter", "--from", book, club)

    said = (tmp_path / "carnet.csv.mapping.yaml").read_text("utf-8")
    assert "  He-ron: heron\n" in said
    assert "  hard landing: hard\n" in said
    assert "  so-so:\n" in said
    assert '#  "Max temp ESC (C)": {is: }' in said or "#  Max temp ESC (C): {is: }" in said
    assert "  Hreon: heron\n" in said
    assert "'Hreon' is taken for heron, the aircraft most like it" in " ".join(first.out.split())


def test_decimal_commas_that_the_mapping_does_not_know_are_told(
    club: Path, tmp_path: Path, run: Any
) -> None:
    """With what to write in it."""
    book = tmp_path / "book.csv"
    book.write_text("Day;Plane;Air;Amps\n2026-02-03;Heron;7,5;1\n", "utf-8")
    (tmp_path / "book.csv.mapping.yaml").write_text(
        "kind: flight\ncolumns: {Day: {is: on}, Plane: {is: aircraft}, Air: {is: flight}}\n"
    )

    ran = run("enter", "--from", book, club)

    assert (
        "could not be placed: '7,5' under 'Air' has a decimal comma; write decimals: comma in the"
        " mapping @ book.csv:2\n"
    ) in ran.err


def test_a_sum_below_the_names_of_aircraft_hides_none_of_them(club: Path, run: Any) -> None:
    """A head that nobody knows is told by what stands below it, but for the word of a sum."""
    (club / "log.csv").write_text(
        "Flown on,Start,Which,Air time\n3.9.26,2:10 pm,Heron,8'39''\n3.9.26,2:45 pm,heron,6'36''\n"
        "5.9.26,2:10 pm,Heron,7'09''\n,,Total,22'24''\n",
        "utf-8",
    )
    run("enter", "--from", club / "log.csv", club)

    text = (club / "log.csv.mapping.yaml").read_text("utf-8")
    assert "  Which: {is: aircraft}\n" in text
    assert "skip: [5]\n" in text
