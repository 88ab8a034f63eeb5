"""The word for a pack follows the worst that was read of it, on the front page and on its own.

Limits are those of the rows of danger.md A4, A5 and A15, and of record rule D16; a recorded
cut-off is the keeper's.
"""

from pathlib import Path

import pytest
from hangar_on_disk import QUIET, SPECS, Hangar, with_log

STORE = "stores/p-01.yaml"
MEASURED = "- {on: 2026-05-10, capacity: P-01, measured: 2100 mAh}\n"


def read(day: str, *milliohms: float) -> str:
    """A charge with the resistance of each cell."""
    each = ", ".join(f"{one} mΩ" for one in milliohms)
    return f"- {{on: 2026-{day}, charge: P-01, resistance: [{each}], temperature: 20 °C}}\n"


def rested(day: str, *volts: float) -> str:
    """A charge with the voltage of each cell at rest."""
    each = ", ".join(f"{one:.2f} V" for one in volts)
    return f"- {{on: 2026-{day}, charge: P-01, resting: [{each}], to: storage}}\n"


def flown(lowest: str) -> str:
    """A flight of today with the lowest voltage of the pack."""
    return (
        "- {on: 2026-06-20, flight: 6:00, pack: P-01, volts: {before: 12.5 V, lowest: "
        f"{lowest} V}}}}\n"
    )


def words(folder: Path, store: str, log: str = "", capacity: str = MEASURED) -> str:
    """What the front page says of P-01, which its own page says too."""
    files = with_log(log, **{STORE: capacity + QUIET[STORE] + store})
    files["parts/specs.yaml"] = SPECS.replace(
        "chemistry: LiPo}", "chemistry: LiPo, cutoff_cell_voltage: 3.40 V}"
    )
    hangar = Hangar(folder, files)
    page = hangar.page("index.html")
    said = max((one for one in SAID if f" P-01 {one} " in page), key=len)
    assert f"P-01: {said}" in hangar.source("items/P-01.html")
    for other in ("due.html", "stock.html"):
        assert f" P-01 {said} " in hangar.page(other)
    return said


SAID = (
    "good, 95 %",
    "near limit, 81 %",
    "resistance high, 95 %",
    "resistance doubled, 95 %",
    "cells uneven, 95 %",
    "cells uneven",
    "voltage low, 95 %",
    "not measured",
)


@pytest.mark.parametrize(
    ("expected", "store", "log"),
    [
        ("good, 95 %", "", ""),
        ("good, 95 %", read("06-10", 6.0, 6.0, 6.0) + read("06-18", 8.9, 8.9, 8.9), ""),
        ("resistance high, 95 %", read("06-10", 6, 6, 6) + read("06-18", 9, 9, 9), ""),
        (
            "resistance doubled, 95 %",
            read("06-10", 6, 6, 6) + read("06-17", 12, 12, 12) + read("06-18", 12, 12, 12),
            "",
        ),
        ("good, 95 %", rested("06-20", 3.84, 3.81, 3.84), ""),
        ("cells uneven, 95 %", rested("06-20", 3.84, 3.73, 3.84), ""),
        ("cells uneven, 95 %", read("06-18", 6, 6, 9), ""),
        ("voltage low, 95 %", rested("06-20", 3.29, 3.29, 3.29), ""),
        ("good, 95 %", "", flown("10.25")),
        ("voltage low, 95 %", "", flown("10.2")),
    ],
)
def test_the_worst_decides(tmp_path: Path, expected: str, store: str, log: str) -> None:
    """Of a pack that holds 95 %; the first values of each are just in order."""
    assert expected == words(tmp_path, store, log)


def test_what_is_not_measured_is_not_called_good(tmp_path: Path) -> None:
    """But what is known is said."""
    assert "not measured" == words(tmp_path / "no", "", capacity="")
    assert "cells uneven" == words(tmp_path / "odd", read("06-18", 6, 6, 9), capacity="")


def test_capacity_near_its_limit_is_still_told_as_that(tmp_path: Path) -> None:
    """Both as bad: the capacity is named."""
    low = "- {on: 2026-05-10, capacity: P-01, measured: 1785 mAh}\n"

    assert "near limit, 81 %" == words(tmp_path, rested("06-20", 3.84, 3.73, 3.84), capacity=low)


@pytest.mark.parametrize(
    ("lowest", "said"),
    [
        ("10.2", "Voltage low: the flight of 20 June 2026 came down to its cut-off, 3.40 V a cell"),
        (
            "9.9",
            "Voltage low: the flight of 20 June 2026 came down to 3.30 V a cell, below its "
            "cut-off of 3.40 V",
        ),
        ("10.25", ""),
    ],
)
def test_a_low_voltage_in_flight_is_told_on_its_page(
    tmp_path: Path, lowest: str, said: str
) -> None:
    """The word of its health has its reason beside it; nothing becomes due by it."""
    files = with_log(flown(lowest), **{STORE: MEASURED + QUIET[STORE]})
    files["parts/specs.yaml"] = SPECS.replace(
        "chemistry: LiPo}", "chemistry: LiPo, cutoff_cell_voltage: 3.40 V}"
    )
    hangar = Hangar(tmp_path, files)
    page = hangar.page("items/P-01.html")

    assert ("nothing open", []) == hangar.pack("P-01")
    assert (said in page) if said else ("Voltage low" not in page)
    assert bool(said) == ("Nothing due; noted:" in page)
