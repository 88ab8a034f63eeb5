"""A flight that went on into the reserve of a pack: told once, where one looks, while it matters.

The pack of the quiet hangar holds 2200 mAh; 20 % of them are kept (common practice, no source), so
1760 mAh are to be used, and up to 5 % of 2200 mAh more is what counters err: 1870 mAh.
"""

from pathlib import Path

import pytest
from hangar_on_disk import QUIET, Hangar

STORE = "stores/p-01.yaml"
LOG = "aircraft/sedge/logbook.yaml"
LATER = QUIET["hangar.yaml"].replace("2026-06-20", "2026-06-25")
ROW = "P-01 flown into reserve: due, "


def flown(day: int, used: str, more: str = "") -> str:
    """A flight on P-01 of a day of June."""
    said = f", used: {used}" if used else ""
    return f"- {{on: 2026-06-{day:02d}, flight: 7:00, pack: P-01{said}{more}}}\n"


def full(day: int) -> str:
    """A charge of P-01 that says nothing but that it is full."""
    return f"- {{on: 2026-06-{day:02d}, charge: P-01, to: full}}\n"


def hangar(folder: Path, log: str, entries: str = "", keeper: str = "") -> Hangar:
    """The quiet hangar with these flights and entries of the pack."""
    files = {**QUIET, LOG: QUIET[LOG] + log, STORE: QUIET[STORE] + entries}
    files["hangar.yaml"] = LATER + keeper
    return Hangar(folder, files)


@pytest.mark.parametrize(
    ("log", "entries", "said"),
    [
        (flown(22, "1760 mAh"), "", []),
        (flown(22, "1870 mAh"), "", []),
        (flown(22, "1871 mAh"), "", ["1871 mAh used, 1760 mAh to its reserve"]),
        (flown(22, "2310 mAh"), "", ["2310 mAh used, 1760 mAh to its reserve"]),
        # measured at 2100 mAh: 1680 and 1785
        (flown(22, "1786 mAh"), "- {on: 2026-06-21, capacity: P-01, measured: 2100 mAh}\n",
         ["1786 mAh used, 1680 mAh to its reserve"]),
        (flown(22, "1780 mAh"), "- {on: 2026-06-21, capacity: P-01, measured: 2100 mAh}\n", []),
        # what it was measured at later is not what it held then
        (flown(20, "1786 mAh"), "- {on: 2026-06-21, capacity: P-01, measured: 2100 mAh}\n", []),
        # two on one charge, by what is written; of two days, or without the charge, nobody knows
        (flown(22, "1000 mAh") + flown(22, "950 mAh"), full(21),
         ["1950 mAh out since its charge, 1760 mAh to its reserve"]),
        (flown(21, "1000 mAh") + flown(22, "950 mAh"), full(20), []),
        (flown(22, "1000 mAh") + flown(22, "950 mAh"), "", []),
        (flown(22, "1300 mAh") + flown(22, "1200 mAh"), full(21), []),
    ],
)  # fmt: skip
def test_a_row_where_the_last_flight_went_into_the_reserve(
    tmp_path: Path, log: str, entries: str, said: list[str]
) -> None:
    """By the charge out of it; a little past it is what counters err."""
    reasons = hangar(tmp_path, log, entries).pack("P-01")[1]
    full_for_long = "pack storage charge of P-01: due"

    assert [f"{ROW}{one}" for one in said] == [one for one in reasons if one != full_for_long]


def test_the_reserve_is_the_keepers(tmp_path: Path) -> None:
    """30 % kept: 1540 mAh, and up to 1650; with 10 % kept 1900 mAh are no matter."""
    more = hangar(tmp_path / "30", flown(22, "1651 mAh"), keeper="reserve: 30 %\n")
    less = hangar(tmp_path / "10", flown(22, "1900 mAh"), keeper="reserve: 10 %\n")

    assert [f"{ROW}1651 mAh used, 1540 mAh to its reserve"] == more.pack("P-01")[1]
    assert [] == less.pack("P-01")[1]


@pytest.mark.parametrize(
    ("log", "entries"),
    [
        (flown(23, "1500 mAh"), ""),
        ("", "- {on: 2026-06-23, charge: P-01, to: storage, resting: [3.8 V, 3.8 V, 3.8 V]}\n"),
        ("", "- {on: 2026-06-23, inspection: pack-look, tags: [P-01], result: pass}\n"),
        ("", "- {on: 2026-06-23, capacity: P-01, measured: 2150 mAh}\n"),
    ],
)
def test_it_closes_by_a_flight_with_the_reserve_in_it_or_a_reading(
    tmp_path: Path, log: str, entries: str
) -> None:
    """And stays a quiet note on the page of the pack, and a mark in the logbook."""
    found = hangar(tmp_path, flown(22, "2000 mAh") + log, entries)

    assert ("nothing open", []) == found.pack("P-01")
    assert "2000 mAh used, 1760 mAh to its reserve" in found.page("items/P-01.html")
    assert "flown into the reserve of P-01" in found.page("aircraft/sedge/logbook.html")


def test_a_flight_that_says_nothing_leaves_it_open(tmp_path: Path) -> None:
    """Nobody knows whether that one landed with it; a charge alone says nothing either."""
    found = hangar(tmp_path, flown(22, "2000 mAh") + flown(23, ""), full(23))

    assert [f"{ROW}2000 mAh used, 1760 mAh to its reserve"] == found.pack("P-01")[1]


@pytest.mark.parametrize(
    ("log", "entries", "opened"),
    [
        # where full charges are written, one without its own tells nothing of what was in it
        (flown(24, "1500 mAh"), full(21), True),
        (flown(24, "1500 mAh"), full(21) + full(23), False),
        (flown(24, "1500 mAh"), full(21) + full(23).replace("full", "part"), True),
        # three on one charge, more than it holds: a doubt, and no witness
        (flown(24, "800 mAh") + flown(24, "900 mAh"), full(21), True),
        # who writes no full charge is not asked for them
        (flown(24, "1500 mAh"), "", False),
    ],
)
def test_a_flight_of_which_nobody_knows_the_charge_closes_nothing(
    tmp_path: Path, log: str, entries: str, opened: bool
) -> None:
    """It stays as it was until one landed with the reserve beyond doubt."""
    reasons = hangar(tmp_path, flown(22, "2000 mAh") + log, entries).pack("P-01")[1]
    said = [one for one in reasons if one.startswith(ROW)]

    assert ([f"{ROW}2000 mAh used, 1760 mAh to its reserve"] if opened else []) == said


def test_a_time_closes_nothing(tmp_path: Path) -> None:
    """What a flight took by its usual draw is no figure of its own."""
    found = hangar(tmp_path, USUAL + flown(22, "2000 mAh") + flown(24, ""))

    assert [f"{ROW}2000 mAh used, 1760 mAh to its reserve"] == found.pack("P-01")[1]


def test_a_habit_stays_told_though_the_last_landed_well(tmp_path: Path) -> None:
    """Three of the last six; with fewer it closes, and so it does once the cells are read."""
    deep = "".join(flown(day, f"{1980 + day} mAh") for day in (19, 20, 21))
    well = "".join(flown(day, "1500 mAh") for day in (22, 23, 24))
    read = "- {on: 2026-06-25, charge: P-01, to: storage, resting: [3.8 V, 3.8 V, 3.8 V]}\n"

    assert [f"{ROW}2001 mAh used, 1760 mAh to its reserve; 3 of its last 6 flights"] == (
        hangar(tmp_path / "three", deep + well).pack("P-01")[1]
    )
    assert [] == hangar(tmp_path / "two", deep + well + flown(25, "1500 mAh")).pack("P-01")[1]
    assert [] == hangar(tmp_path / "read", deep + well, read).pack("P-01")[1]


def test_the_last_is_told_and_the_others_are_counted(tmp_path: Path) -> None:
    """One row, one warning at the line of the last, one note."""
    log = "".join(flown(day, f"{1977 + day} mAh") for day in (20, 21, 22))
    found = hangar(tmp_path, log)
    words = "1999 mAh used, 1760 mAh to its reserve; 2 times before"

    assert [f"{ROW}{words}"] == found.pack("P-01")[1]
    assert 1 == found.check.count("flown into its reserve")
    line = found.line(LOG, "1999 mAh")
    assert f"P-01 flown into its reserve on 2026-06-22: {words} @ {line}" in " ".join(
        found.check.split()
    )
    assert 3 == found.due[0]
    assert f"P-01 due flown into reserve - due, {words}" in found.due[1]
    assert 1 == len(found.rows("flown-into-reserve"))
    assert {"expected": "1760 mAh or less", "found": "1999 mAh"}.items() <= (
        found.rows("flown-into-reserve")[0]["because"]["detail"].items()
    )
    for address in ("due.html", "items/P-01.html"):
        assert "1999 mAh used, 1760 mAh to its reserve" in found.page(address), address
    assert "flown into reserve" in found.page("going-flying.html")


def test_one_row_for_one_job(tmp_path: Path) -> None:
    """More than it holds, or a cell too low: those rows ask for the same reading, and say more."""
    over = hangar(tmp_path / "over", flown(22, "2400 mAh"))
    low = hangar(tmp_path / "low", flown(22, "2000 mAh", ", volts: {lowest: 8.7 V}"))

    for found in (over, low):
        assert [] == found.rows("flown-into-reserve")
        assert 1 == len(found.pack("P-01")[1])
        assert "flown into its reserve" not in over.check
    assert "to its reserve" not in over.page("items/P-01.html")


USUAL = "".join(flown(day, f"{1400 + 10 * day} mAh") for day in range(1, 9))


def test_a_flight_without_a_figure_is_judged_by_its_time(tmp_path: Path) -> None:
    """Eight of 420 s used 1410 to 1480 mAh; a quarter of them less than 1430, 3.405 mAh a second.

    600 s at that are 2043 mAh; 540 s are 1839 mAh, which counters may err.
    """
    late = flown(22, "").replace("7:00", "10:00")
    long = flown(22, "").replace("7:00", "9:00")
    found = hangar(tmp_path / "late", USUAL + late)

    assert [
        f"{ROW}10 min 00 s, about 2043 mAh by its usual draw, 1760 mAh to its reserve"
    ] == found.pack("P-01")[1]
    assert (
        "P-01 flown into its reserve on 2026-06-22: about 2043 mAh by its usual draw, 1760 mAh to "
        "its reserve"
    ) in " ".join(found.check.split())
    assert [] == hangar(tmp_path / "long", USUAL + long).pack("P-01")[1]
    few = "".join(flown(day, "1400 mAh") for day in (1, 2, 3))
    assert [] == hangar(tmp_path / "few", few + late).pack("P-01")[1]
    loaded = hangar(tmp_path / "loaded", USUAL + late.replace("P-01", "P-01, payload: 200 g"))
    assert [] == loaded.pack("P-01")[1]


def test_what_is_sure_is_no_warning_and_what_is_long_ago_is_none(tmp_path: Path) -> None:
    """``sure`` silences ``check``; after 90 days only ``check --all`` tells."""
    sure = hangar(tmp_path / "sure", flown(22, "2000 mAh", ", sure: true"))
    old = flown(22, "2000 mAh").replace("2026-06-22", "2026-03-02")
    ago = Hangar(tmp_path / "ago", {**QUIET, "hangar.yaml": LATER, LOG: old + QUIET[LOG]})

    assert "flown into its reserve" not in sure.check
    assert [f"{ROW}2000 mAh used, 1760 mAh to its reserve"] == sure.pack("P-01")[1]
    assert "flown into its reserve" not in ago.check
    assert "flown into its reserve on 2026-03-02" in ago.run("check", str(ago.folder), "--all")[1]


@pytest.mark.parametrize(
    ("before", "flights", "used", "reserve", "doubt"),
    [
        # full the day before: a charge between the flights explains two, and of three it can't
        ("full", 2, 1200, "", ""),
        ("full", 3, 1000, "2000 mAh", ""),
        ("full", 3, 1200, "", "2 flights on one charge of P-01 used 2400 mAh"),
        # at storage the day before: it was charged before the first, and that is no doubt
        ("storage", 2, 900, "", ""),
        ("storage", 2, 1000, "2000 mAh", ""),
        ("storage", 3, 1200, "", "3 flights on one charge of P-01 used 3600 mAh"),
    ],
)
def test_a_charge_without_a_time_stands_where_it_tells_best(
    tmp_path: Path, before: str, flights: int, used: int, reserve: str, doubt: str
) -> None:
    """Of a pack that flew several times on the day of one charge, which is in another log."""
    rows = ", ".join(f"[{6 + one}:00, P-01, {used} mAh]" for one in range(flights))
    charges = full(23).replace("full", before) + full(24)
    found = hangar(tmp_path, f"- {{on: 2026-06-24, flights: [{rows}]}}\n", charges)
    said = [f"{ROW}{reserve} out since its charge, 1760 mAh to its reserve"] if reserve else []

    assert said == [one for one in found.pack("P-01")[1] if one.startswith(ROW)]
    assert bool(reserve) == ("P-01 flown into its reserve on 2026-06-24" in found.check)
    assert bool(doubt) == ("on one charge of P-01" in found.check)
    assert doubt in found.check
    assert "charged or flown last" not in found.check
