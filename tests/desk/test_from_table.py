"""Tables that somebody else wrote in their own way are brought in: all or nothing, and once."""

import builtins
import datetime
import json
import shutil
from pathlib import Path
from typing import Any

import pytest
from hangars import LOG, loft, texts

from buildbook.records.entries import Charge, Flight
from buildbook.records.ledger import Ledger
from buildbook.records.reading.read import read_hangar

DATA = Path(__file__).parent / "data"
STORK = "aircraft: Stork\nkind: aeroplane\nlayout: aeroplane\nprogramme: shop\n"
ITEMS = """\
- {tag: M-1, spec: m, acquired: 2024-01-02}
- {tags: P-1..P-3, spec: p, acquired: 2024-01-02}
"""


@pytest.fixture
def club(tmp_path: Path) -> Path:
    """Two aircraft and three packs."""
    files = {"aircraft/stork/aircraft.yaml": STORK, "parts/items.yaml": ITEMS}
    return loft(tmp_path / "loft", files)


def read(folder: Path) -> Ledger:
    """The hangar as it is read."""
    reading = read_hangar(folder, None)
    assert () == reading.problems
    assert reading.ledger is not None
    return reading.ledger


def flights(folder: Path) -> list[Flight]:
    """All flights with a time, which those of the small hangar don't have."""
    return [each for each in read(folder).entries if isinstance(each, Flight) and each.time]


MAPPING = """\
kind: flight
rows: one entry each
heads: 4
days: day-first
decimals: comma
all: {}
skip: [134]
columns:
  Flown on: {is: on}
  Start: {is: time}
  Plane: {is: aircraft}
  Air time [min]: {is: flight, unit: min}
  Batt.: {is: pack}
  Used: {is: used, unit: mAh}
  Down: {is: landing}
  Remarks: {is: note}
names:
  Stork: stork
  Heron: heron
  p-1: P-1
  Batt 3: P-3
  P2: P-2
  P1: P-1
  P 2: P-2
  P03: P-3
  ok: normal
  rough: hard
  smooth: normal
# columns that nothing is taken from:
#  No.: {is: }
"""


def test_a_flying_book_of_120_flights(club: Path, tmp_path: Path, run: Any) -> None:
    """Windows' letters, semicolons, decimal commas, points between thousands, 12-hour times, short
    years, names in many spellings, lines above and sums below: guessed, shown, then written once.
    """
    book = Path(shutil.copy(DATA / "flying-book.csv", tmp_path / "book.csv"))
    mapping = tmp_path / "book.csv.mapping.yaml"
    old = texts(club)

    first = run("enter", "--from", book, club)

    assert (0, "") == (first.status, first.err)
    assert MAPPING in mapping.read_text("utf-8")
    assert [
        "  and 110 entries more; --dry-run shows all",
        "Nothing was written: 120 entries.",
        f"Look over {mapping}, then run the same command again to write.",
    ] == first.out.splitlines()[-3:]
    assert old == texts(club)

    second = run("enter", "--from", book, club)

    assert (0, "") == (second.status, second.err)
    assert "Wrote 120 entries." == second.out.splitlines()[-1]
    found = flights(club)
    rows = [line.split(";") for line in book.read_text("cp1252").splitlines()[4:]]
    numbered = [row for row in rows if row[0]]
    assert 120 == len(found) == len(numbered)
    total = next(row[4] for row in rows if row[3] == "Total")
    minutes = sum(row.duration_s for entry in found for row in entry.rows) / 60
    assert float(total.replace(",", ".")) == minutes
    used = sum(int(row[6].replace(".", "")) for row in numbered)
    assert used == round(1000 * sum(row.used_ah or 0 for entry in found for row in entry.rows))
    assert sum("rough" in row for row in numbered) == sum(
        row.landing == "hard" for entry in found for row in entry.rows
    )
    first_row = min(found, key=lambda entry: (entry.on, entry.time))
    assert (datetime.date(2025, 4, 6), "11:16", "stork") == (
        first_row.on, first_row.time, first_row.aircraft
    )  # fmt: skip

    written = texts(club)
    assert "Wrote 0 entries, 120 there already.\n" == run("enter", "--from", book, club).out
    assert written == texts(club)
    assert 0 == run("enter", "--undo", club).status
    assert old == texts(club)


def test_a_row_without_a_place_keeps_all_from_being_written(
    club: Path, tmp_path: Path, run: Any
) -> None:
    """Each is told with its line; naming the line under skip leaves it out."""
    book = tmp_path / "book.csv"
    book.write_text(
        "Date,Plane,Duration,Pack\n2026-02-01,Heron,6:10,P1\n2026-02-02,Heron,long,P1\n"
        "2026-02-03,Gull,6:30,P1\n2026-02-04,Heron,6:30,P9\n2026-02-05,Heron,,\n"
    )
    run("enter", "--from", book, club)
    old = texts(club)

    ran = run("enter", "--from", book, club)

    assert 1 == ran.status
    assert [
        "could not be placed: 'long' is not a duration @ book.csv:3",
        "could not be placed: no aircraft is called 'Gull' @ book.csv:4",
        "could not be placed: no item is called 'P9' @ book.csv:5",
        "could not be placed: no flight @ book.csv:6",
    ] == ran.err.splitlines()
    assert "Nothing was written: 1 entry, 4 rows without a place." in ran.out.splitlines()
    assert old == texts(club)
    mapping = tmp_path / "book.csv.mapping.yaml"
    mapping.write_text(mapping.read_text("utf-8").replace("skip: []", "skip: [3, 4, 5, 6]"))
    assert "Wrote 1 entry.\n" == run("enter", "--from", book, club).out.splitlines(True)[-1]


def test_rows_that_are_alike_are_counted(club: Path, tmp_path: Path, run: Any) -> None:
    """Two flights of one length on one day are two; a third one later is one more."""
    book = tmp_path / "heron.tsv"
    row = "02/13/2026\t6:00\tP2\n"
    book.write_text(f"Day\tFlight time\tBattery\n{row}{row}")
    assert 0 == run("enter", "--from", book, club, "--sure").status
    assert "Wrote 2 entries." == run("enter", "--from", book, club, "--sure").out.splitlines()[-1]
    book.write_text(book.read_text() + row)

    ran = run("enter", "--from", book, club, "--sure")

    assert "Wrote 1 entry, 2 there already." == ran.out.splitlines()[-1]


def test_a_sheet(club: Path, tmp_path: Path, run: Any) -> None:
    """Days and times as a spreadsheet keeps them; 7:20 typed as a time is minutes and seconds."""
    openpyxl = pytest.importorskip("openpyxl")
    book = openpyxl.Workbook()
    sheet = book.active
    sheet.append(["Date", "Aircraft", "Duration", "mAh used", "Battery"])
    sheet.append([datetime.datetime(2026, 2, 1), "Heron", datetime.time(7, 20), 1480, "P1"])
    sheet.append([datetime.datetime(2026, 2, 9, 16, 40), "heron", datetime.time(6, 50), 1390.0, 2])
    book.save(tmp_path / "log.xlsx")

    run("enter", "--from", tmp_path / "log.xlsx", club)
    ran = run("enter", "--from", tmp_path / "log.xlsx", club)

    assert (0, "") == (ran.status, ran.err)
    log = (club / LOG).read_text("utf-8")
    assert "  flight: 7:20\n  used: 1480 mAh\n  pack: P-1\n" in log
    assert (
        "- on: 2026-02-09T16:40\n  id: 2026-02-09-1\n"
        "  flight: 6:50\n  used: 1390 mAh\n  pack: P-2\n"
    ) in log


def test_without_the_package_for_sheets_it_is_named(
    club: Path, tmp_path: Path, run: Any, monkeypatch: pytest.MonkeyPatch
) -> None:
    """It is optional: a hangar needs no spreadsheets."""
    (tmp_path / "log.xlsx").write_bytes(b"PK")
    true_import = builtins.__import__

    def no_openpyxl(name: str, *more: Any, **named: Any) -> Any:
        if name == "openpyxl":
            raise ImportError(name)
        return true_import(name, *more, **named)

    monkeypatch.setattr(builtins, "__import__", no_openpyxl)

    assert (
        2,
        "",
        "buildbook enter: XLSX needs the package openpyxl: pip install 'buildbook[xlsx]';"
        " or save it as CSV\n",
    ) == run("enter", "--from", tmp_path / "log.xlsx", club)


def test_a_broken_sheet_is_one_sentence(club: Path, tmp_path: Path, run: Any) -> None:
    """Never a traceback."""
    pytest.importorskip("openpyxl")
    (tmp_path / "log.xlsx").write_bytes(b"PK broken")

    ran = run("enter", "--from", tmp_path / "log.xlsx", club)

    assert (2, "") == (ran.status, ran.out)
    assert (
        "buildbook enter: log.xlsx is not a sheet that can be read (BadZipFile: File is not a zip"
        " file)\n" == ran.err
    )


def test_one_row_a_charge(club: Path, tmp_path: Path, run: Any) -> None:
    """A column for each cell becomes one list."""
    book = tmp_path / "charges.csv"
    book.write_text(
        "Date;Pack;Charged (mAh);R1 (mOhm);R2 (mOhm);R3 (mOhm);Temp\n"
        "9.2.2026;P-2;1520;5,1;5,3;5,2;21\n"
    )

    run("enter", "--from", book, club)
    ran = run("enter", "--from", book, club)

    assert (0, "") == (ran.status, ran.err)
    assert (
        "- on: 2026-02-09\n  id: 2026-02-09-1\n  charge: P-2\n  put_in: 1520 mAh\n"
        "  temperature: 21 °C\n  resistance: [5.1 mΩ, 5.3 mΩ, 5.2 mΩ]\n"
    ) == (club / "stores/p-2.yaml").read_text("utf-8")


@pytest.mark.parametrize(
    ("heads", "column"),
    [
        ("Time (s),Current (A),Voltage (V)",
         "Current (A): {is: put_in, unit: A, take: amount, over: Time (s)}"),
        ("Time (s),Current (mA),Capacity (mAh)",
         "Capacity (mAh): {is: put_in, unit: mAh, take: most}"),
    ],
)  # fmt: skip
def test_a_series_of_a_charger_is_summed_to_one_charge(
    club: Path, tmp_path: Path, run: Any, heads: str, column: str
) -> None:
    """2 A for half an hour are 1000 mAh; the day and the pack are those of its name."""
    book = tmp_path / "P1_2026-02-09.csv"
    capacity = "Capacity" in heads
    rows = [
        f"{second},{2000 if capacity else 2.0},{second * 2 / 3.6 if capacity else 12.1:.4f}"
        for second in range(0, 1801, 60)
    ]
    book.write_text("\n".join([heads, *rows]))

    first = run("enter", "--from", book, club)
    ran = run("enter", "--from", book, club)

    assert f"    {column}" in first.out.splitlines()
    assert "  rows: one entry from all rows" in first.out.splitlines()
    assert "  all: {on: 2026-02-09, charge: P-1}" in first.out.splitlines()
    assert (0, "") == (ran.status, ran.err)
    (charge,) = [
        each for each in read(club).entries if isinstance(each, Charge) and each.on.day == 9
    ]
    assert (("P-1",), 1.0) == (charge.packs, charge.put_in_ah)


def test_a_log_of_a_transmitter_becomes_one_flight(club: Path, tmp_path: Path, run: Any) -> None:
    """As long as its clock ran."""
    book = tmp_path / "heron-2026-02-09.csv"
    rows = [f"{500 * at},{at % 7}" for at in range(841)]
    book.write_text("\n".join(["Time (ms),Throttle", *rows]))

    run("enter", "--from", book, club)
    ran = run("enter", "--from", book, club)

    assert (0, "") == (ran.status, ran.err)
    assert "- on: 2026-02-09\n  id: 2026-02-09-1\n  flight: 7:00\n" in (club / LOG).read_text(
        "utf-8"
    )


def test_what_no_column_says_is_asked_for_in_the_mapping(
    club: Path, tmp_path: Path, run: Any
) -> None:
    """Two aircraft, and none is named; a day that may be read in two ways is told."""
    book = tmp_path / "log.csv"
    book.write_text("Date,Minutes\n2/1/2026,6\n3/2/2026,7\n")

    first = run("enter", "--from", book, club)

    assert 1 == first.status
    assert [
        "  # Not sure: days may be day-first or month-first, '2/1/2026' is taken day-first",
        "  # Not sure: no column says aircraft; write it under all",
    ] == [line for line in first.out.splitlines() if "Not sure" in line]
    mapping = tmp_path / "log.csv.mapping.yaml"
    text = mapping.read_text("utf-8").replace('aircraft: ""', "aircraft: heron")
    mapping.write_text(text, "utf-8")
    assert 0 == run("enter", "--from", book, club, "--sure").status
    assert "- on: 2026-01-02\n" in (club / LOG).read_text("utf-8")


@pytest.mark.parametrize(
    ("old", "new", "reason"),
    [
        ("kind: flight", "kind: fligt", "kind: 'fligt' is none; did you mean 'flight'?"),
        ("rows:", "row:", "unknown key 'row'; did you mean 'rows'?"),
        ("one entry each", "one each", "rows: 'one each' is none of the three ways"),
        ("{is: on}", "{is: on, take: all}", "column 'Date': take 'all' is none"),
        ("skip: []", "skip: [x]", "skip: 'x' is not a line"),
    ],
)
def test_a_mapping_with_a_slip_is_one_sentence(
    club: Path, tmp_path: Path, run: Any, old: str, new: str, reason: str
) -> None:
    """With what may be meant."""
    book = tmp_path / "heron.csv"
    book.write_text("Date,Minutes\n2026-02-01,6\n")
    run("enter", "--from", book, club)
    mapping = tmp_path / "heron.csv.mapping.yaml"
    mapping.write_text(mapping.read_text("utf-8").replace(old, new))

    assert (2, "", f"buildbook enter: heron.csv.mapping.yaml: {reason}\n") == run(
        "enter", "--from", book, club
    )


@pytest.mark.parametrize(
    ("old", "new", "reason"),
    [
        (
            "Minutes:",
            "Minuten:",
            "no column is headed 'Minuten', which the mapping names; did you mean 'Minutes'?",
        ),
        (
            "Minutes:",
            "Bemerkung:",
            "no column is headed 'Bemerkung', which the mapping names; rename it there, or take its"
            " line out",
        ),
        ("{is: on}", "{is: onn}", "'flight' has no key 'onn'; did you mean 'on'?"),
    ],
)
def test_a_mapping_of_another_table_is_told(
    club: Path, tmp_path: Path, run: Any, old: str, new: str, reason: str
) -> None:
    """A head that is not there, a key that such an entry doesn't have."""
    book = tmp_path / "heron.csv"
    book.write_text("Date,Minutes\n2026-02-01,6\n")
    run("enter", "--from", book, club)
    mapping = tmp_path / "heron.csv.mapping.yaml"
    mapping.write_text(mapping.read_text("utf-8").replace(old, new))

    assert (2, "", f"buildbook enter: {reason}\n") == run("enter", "--from", book, club)


def test_entries_as_json_need_no_mapping(club: Path, tmp_path: Path, run: Any) -> None:
    """As in a logbook, with whose they are; a second time nothing is added."""
    file = tmp_path / "field.json"
    entries = [
        {"aircraft": "heron", "on": "2026-02-09 16:40", "flight": "7:20", "pack": "P-1"},
        {"aircraft": "Stork", "on": "2026-02-09", "check": "failsafe", "result": "pass"},
        {"item": "P-2", "on": "2026-02-09", "charge": "P-2", "put_in": "1480 mAh"},
        {"aircraft": "heron", "on": "2026-02-09", "defect": "loose", "item": "M-1"},
        {"aircraft": "heron", "on": "2026-02-10", "note": "Calm."},
    ]
    file.write_text(json.dumps({"entries": entries}))

    ran = run("enter", "--from", file, club)

    assert (0, "") == (ran.status, ran.err)
    assert "Wrote 5 entries." == ran.out.splitlines()[-1]
    assert "Wrote 0 entries, 5 there already.\n" == run("enter", "--from", file, club).out
    assert "  defect: loose\n  item: M-1\n" in (club / LOG).read_text("utf-8")


@pytest.mark.parametrize(
    ("text", "told"),
    [
        ('{"entries": 3}', "buildbook enter: field.json is not a list of entries\n"),
        ("[{", "buildbook enter: field.json is no JSON: expecting property name enclosed in double"
         " quotes: line 1 column 3 (char 2)\n"),
        ('[{"on": "2026-02-09", "note": "A"}]',
         "could not be placed: neither aircraft nor item @ field.json:1\n"),
        ('[{"on": "soon", "aircraft": "heron", "note": "A"}]',
         "could not be placed: 'soon' is not a day @ field.json:1\n"),
    ],
)  # fmt: skip
def test_json_that_is_none_of_ours_is_told(
    club: Path, tmp_path: Path, run: Any, text: str, told: str
) -> None:
    """One sentence each, nothing written."""
    (tmp_path / "field.json").write_text(text)
    old = texts(club)

    assert told == run("enter", "--from", tmp_path / "field.json", club).err
    assert old == texts(club)


def test_a_misspelt_aircraft_is_filled_in_and_told(club: Path, tmp_path: Path, run: Any) -> None:
    """Letters that changed places; what is like none stays open."""
    book = tmp_path / "book.csv"
    book.write_text(
        "Date;Model;Time\n9.2.2026;Stokr;7:20\n10.2.2026;Heron;6:10\n11.2.2026;Eagle;5:00\n"
    )
    ran = run("enter", "--from", book, club)

    assert "'Stokr' is taken for stork, the aircraft most like it" in " ".join(ran.out.split())
    text = book.with_name("book.csv.mapping.yaml").read_text("utf-8")
    assert "  Stokr: stork\n" in text
    assert text.endswith("  Eagle:\n")


ODD = """\
Flugbuch;;;;;;;
Nr.;Datum;um;Flieger;Zeit;Akku;verbraucht;Landung
;;;;;(Nr);mAh;
1;3. Okt 25;15h30;Heron;7m20;Accu 1;1.480;weich
2;3. Okt 25;16h05;Heron;6,5;Accu 2;990;gut
3;4. Oktober 2025;9h45;Stork;6 min 5 s;Accu 3;1.010;hart
4;4. Oktober 2025;10h30;Stork;5m00;Accu 1;1.120;gut

;;Summe;;24 h;;4.600;
"""


def test_units_below_the_heads_and_two_columns_of_times(
    club: Path, tmp_path: Path, run: Any
) -> None:
    """A line of units belongs to the heads; of two columns of times one has lengths."""
    table = tmp_path / "flugbuch.csv"
    table.write_text(ODD, "utf-8")

    first = run("enter", "--from", table, club)

    assert 0 == first.status, first.err
    assert [
        "    um: {is: time}",
        "    Zeit: {is: flight, unit: min}",
        "    verbraucht mAh: {is: used, unit: mAh}",
        "    weich: normal",
    ] == [
        line
        for line in first.out.splitlines()
        if line.startswith(("    um:", "    Zeit:", "    verb", "    weich"))
    ]
    assert "2025-10-03T15:30 flight 7:20, pack P-1, used 1480 mAh" in first.out
    assert "2025-10-04T09:45 flight 6:05, pack P-3, used 1010 mAh, landing hard" in first.out


@pytest.mark.parametrize(
    ("rows", "used", "told"),
    [
        (("1,480", "990", "1,210"), ("1480", "990", "1210"), True),
        (("1,480", "1,390", "1,210"), ("1480", "1390", "1210"), True),
        (("1480", "990", "1210"), ("1480", "990", "1210"), False),
    ],
)
@pytest.mark.parametrize("note", ["calm", "flew 2,5 laps", "2,5"])
def test_commas_between_thousands_are_no_decimal_ones(
    club: Path, tmp_path: Path, run: Any, rows: tuple[str, ...], used: tuple[str, ...],
    told: bool, note: str,
) -> None:  # fmt: skip
    """No pack gives a few mAh, whatever a remark has; it is told how it is read."""
    table = tmp_path / "book.tsv"
    lines = ["Date\tPlane\tmins\tBatt\tmAh used\tRemarks"]
    lines += [
        f"2026-01-{day:02d}\tHeron\t7\tP1\t{cell}\t{note}" for day, cell in enumerate(rows, 10)
    ]
    table.write_text("\n".join(lines), "utf-8")

    first = run("enter", "--from", table, "--dry-run", club)

    for amount in used:
        assert f"flight 7:00, pack P-1, used {amount} mAh" in first.out
    assert told == ("'1,480' under 'mAh used' is read as 1480 mAh" in first.out)


@pytest.mark.parametrize(
    ("heads", "clocks"),
    [(("mins", "clock"), "16:40"), (("airtime", "time on"), "16:40"), (("min", "at"), "4:40 pm")],
)
def test_more_heads_are_known(
    club: Path, tmp_path: Path, run: Any, heads: tuple[str, str], clocks: str
) -> None:
    """As people head the columns of a book of their own; common practice, no source."""
    table = tmp_path / "book.csv"
    table.write_text(
        f"date,plane,{heads[0]},{heads[1]}\n"
        + "".join(f"2026-01-{day},heron,7.5,{clocks}\n" for day in (10, 11, 12)),
        "utf-8",
    )

    first = run("enter", "--from", table, club)

    assert "2026-01-10T16:40 flight 7:30" in first.out
