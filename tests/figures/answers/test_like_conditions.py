"""Readings of a pack are compared under like conditions, or not at all."""

import datetime
from pathlib import Path

import pytest
from small_hangars import SMALL, found, opened, pack

from buildbook.report.packs.like_conditions import (
    Conditions,
    cutoff_cell_v,
    like_capacities,
    like_readings,
    like_resistances,
)

WARM, COOL, COLD = 295.15, 291.15, 278.15


@pytest.mark.parametrize(
    ("one", "other", "differs"),
    [
        (Conditions(WARM), Conditions(COOL), ()),
        (Conditions(WARM), Conditions(WARM - 5), ()),
        (Conditions(WARM), Conditions(COLD), ("temperature",)),
        (Conditions(WARM), Conditions(), ()),
        (Conditions(current_a=2.0), Conditions(current_a=2.4), ()),
        (Conditions(current_a=2.0), Conditions(current_a=2.5), ("current",)),
        (Conditions(cell_v=3.3), Conditions(cell_v=3.2), ()),
        (
            Conditions(WARM, 2.0, 3.3),
            Conditions(COLD, 4.0, 3.0),
            ("temperature", "current", "cut-off"),
        ),
    ],
)
def test_what_differs_too_much(
    one: Conditions, other: Conditions, differs: tuple[str, ...]
) -> None:
    """Over 5 °C, a fifth of the current, 0.1 V a cell; what is not recorded is taken as like."""
    assert differs == one.unlike(other)


@pytest.mark.parametrize(
    ("temperatures", "alike"),
    [
        ([WARM, WARM, COLD], [0, 1]),
        ([WARM, COLD, WARM], [0, 2]),
        ([COLD, WARM, WARM], [1, 2]),
        ([WARM, WARM, COLD, COLD], [2, 3]),
        ([WARM, WARM, COLD, COLD, WARM], [0, 1, 4]),
        ([COLD, None, WARM, WARM], [2, 3]),
        ([WARM], [0]),
        ([], []),
    ],
)
def test_the_newest_series_of_two_is_compared(
    temperatures: list[float | None], alike: list[int]
) -> None:
    """One odd reading is left out; a second like it makes a series; an old one is taken up again.

    A reading without a temperature bridges nothing: what is known of its series stays known.
    """
    numbered = list(enumerate(temperatures))
    likes = like_readings(numbered, lambda one: Conditions(one[1]))

    assert alike == [number for number, _ in likes.alike]
    assert len(temperatures) - len(alike) == len(likes.unlike)


def hangar_files(entries: str) -> dict[str, str]:
    """The small hangar with a log of its pack, a 3S of 2200 mAh."""
    return {**SMALL, "stores/p-1.yaml": entries}


def capacities(count: int, more: str = "") -> dict[str, str]:
    """Measured every tenth of so many charges: 2200 mAh less 3 mAh a charge, at 22 °C and 2 A."""
    first, lines = datetime.date(2026, 1, 1), []
    for number in range(count):
        day = first + datetime.timedelta(days=2 * number)
        lines.append(f"- {{on: {day}, charge: P-1, put_in: 1000 mAh}}\n")
        if number % 10 == 0:
            lines.append(
                f"- {{on: {day}, capacity: P-1, measured: {2200 - 3 * number} mAh, "
                "temperature: 22 °C, current: 2 A, down_to: 9.9 V}\n"
            )
    return hangar_files("".join(lines) + more)


COLD_ONE = (
    "- {on: 2026-07-01, capacity: P-1, measured: 1500 mAh, temperature: 2 °C, current: 2 A, "
    "down_to: 9.9 V}\n"
)


def test_a_cold_capacity_moves_no_forecast(tmp_path: Path) -> None:
    """1500 mAh at 2 °C after 1890 at 22 °C: shown as the last, left out of trend and forecast."""
    plain = pack(tmp_path / "a", capacities(90))
    cold = pack(tmp_path / "b", capacities(90, COLD_ONE))
    left_out = "not comparable, so left out: 2026-07-01, other temperature (2 °C)"
    end = found(cold, "pack_end_of_life")

    assert found(plain, "pack_end_of_life").value == end.value
    assert left_out in end.notes
    trend = found(cold, "pack_capacity", "change a charge")
    assert -0.003 == pytest.approx(trend.value, rel=1e-6)
    assert left_out in trend.notes
    assert 1.5 == found(cold, "pack_capacity").value


def test_a_cold_resistance_is_left_out(tmp_path: Path) -> None:
    """5 mΩ a cell at 22 °C, 12 mΩ at 2 °C: the pack is not worn out by a cold day."""
    entries = "".join(
        f"- {{on: 2026-03-0{day}, charge: P-1, resistance: [5 mΩ, 5 mΩ, 5.2 mΩ], "
        "temperature: 22 °C}\n"
        for day in (1, 2, 3)
    )
    entries += (
        "- {on: 2026-03-09, charge: P-1, resistance: [12 mΩ, 12 mΩ, 12.1 mΩ], temperature: 2 °C}\n"
    )
    hangar = opened(tmp_path, hangar_files(entries))
    likes = like_resistances(hangar.items["P-1"])

    assert [1, 2, 3] == [number for number, _ in likes.alike]
    assert [("temperature",)] == [differs for _, differs in likes.unlike]
    figure = found(pack(tmp_path, hangar_files(entries)), "pack_resistance")
    assert pytest.approx(0.0152) == figure.value
    assert "not comparable, so left out: 2026-03-09, other temperature (2 °C)" in figure.notes


@pytest.mark.parametrize(("down_to", "cell"), [(9.9, 3.3), (3.3, 3.3), (12.0, 4.0), (None, None)])
def test_volts_of_a_pack_or_of_a_cell(
    tmp_path: Path, down_to: float | None, cell: float | None
) -> None:
    """Of a 3S: 9.9 V are 3.3 V a cell; 3.3 V can only be a cell's."""
    item = opened(tmp_path, SMALL).items["P-1"]

    assert cell == pytest.approx(cutoff_cell_v(item, down_to))


def test_the_volts_of_a_cell_for_those_of_the_pack_are_doubted(tmp_path: Path) -> None:
    """The line, and what to write."""
    entry = "- {on: 2026-03-01, capacity: P-1, measured: 2100 mAh, down_to: 3.3 V}\n"
    hangar = opened(tmp_path, hangar_files(entry))

    assert [
        "battery 'P-1' discharged down to 3.3 V, which is that of one cell of 3 @ stores/p-1.yaml:1"
    ] == [str(one).partition(" (")[0].splitlines()[0] for one in hangar.problems]


def test_a_larger_current_is_another_series(tmp_path: Path) -> None:
    """Five at 2 A, one at 5 A: the one is left out."""
    entries = "".join(
        f"- {{on: 2026-03-0{day}, capacity: P-1, measured: 2100 mAh, current: {amperes} A}}\n"
        for day, amperes in ((1, 2), (2, 2), (3, 2.1), (4, 2), (5, 5))
    )
    likes = like_capacities(opened(tmp_path, hangar_files(entries)).items["P-1"])

    assert 4 == len(likes.alike)
    assert [("current",)] == [differs for _, differs in likes.unlike]
