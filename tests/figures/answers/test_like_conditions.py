"""Readings of a pack are compared under like conditions, or not at all."""

import datetime
from pathlib import Path

import pytest
from small_hangars import SMALL, found, opened, pack

from buildbook.report.packs.like_conditions import (
    Conditions,
    charges_by,
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


# Of 5 mΩ at 22 °C: exp(3006.8·(1/283.15 - 1/295.15)) = 1.540 times as much at 10 °C (Arrhenius).
AT_10 = 7.70


@pytest.mark.parametrize(
    ("chemistry", "alike"), [("LiPo", [1, 2, 3]), ("LiIon", [1, 2, 3]), ("NiMH", [1, 2])]
)
def test_resistances_of_lithium_cells_are_brought_to_one_temperature(
    tmp_path: Path, chemistry: str, alike: list[int]
) -> None:
    """Two readings at 22 °C and one at 10 °C; of other cells nobody says how they go."""
    specs = SMALL["parts/specs.yaml"].replace("chemistry: LiPo", f"chemistry: {chemistry}")
    entries = resistances((22, 5.0), (22, 5.0), (10, AT_10))
    hangar = opened(tmp_path, {**hangar_files(entries), "parts/specs.yaml": specs})

    assert alike == [number for number, _ in like_resistances(hangar.items["P-1"]).alike]


def resistances(*rows: tuple[float, float]) -> str:
    """A charge a day with all cells alike: °C and mΩ."""
    return "".join(
        f"- {{on: 2026-03-{day:02d}, charge: P-1, to: full, temperature: {warm} °C, "
        f"resistance: [{ohm} mΩ, {ohm} mΩ, {ohm} mΩ]}}\n"
        for day, (warm, ohm) in enumerate(rows, 1)
    )


def test_readings_of_resistance_and_capacity_count_charges_alike(tmp_path: Path) -> None:
    """Three to full and two to storage between: the third to full is the third, not the fifth."""
    stored = [f"- {{on: 2026-03-0{day}, charge: P-1, to: storage}}" for day in (1, 2)]
    first, second, third = resistances((22, 5.0), (22, 5.1), (22, 5.2)).splitlines()
    measured = "- {on: 2026-03-03, capacity: P-1, measured: 2200 mAh, temperature: 22 °C}"
    entries = "\n".join((first, stored[0], second, stored[1], third, measured, ""))
    item = opened(tmp_path, hangar_files(entries)).items["P-1"]

    assert 5 == len(item.charges)
    assert [1, 2, 3] == [number for number, _ in like_resistances(item).alike]
    assert (3,) == charges_by(item, [item.capacities[-1].seq])


def test_a_cold_day_is_no_trend(tmp_path: Path) -> None:
    """What only the cold raises shows as no trend; the pack has what was read last."""
    entries = resistances((22, 5.0), (10, AT_10), (22, 5.0), (10, AT_10), (22, 5.0), (10, AT_10))
    figures = pack(tmp_path, hangar_files(entries))
    whole, cell = found(figures, "pack_resistance"), found(figures, "pack_resistance", "cell 1")

    assert pytest.approx(3 * AT_10 / 1000) == whole.value
    assert "no trend to be seen" == cell.verdict
    assert pytest.approx(1.0, rel=1e-3) == cell.other["of the first"]
    assert (
        "for the trend all are brought to 10 °C: R goes with exp(E_a/RT), E_a 25 kJ/mol, a "
        "default (20 to 35; from memory)"
    ) in whole.notes
    # exp(3006.8·(1/288.15 - 1/283.15)) = 0.8317 of it at the 15 °C of the field.
    assert (
        pytest.approx(3 * AT_10 * 0.8317 / 1000, rel=1e-3)
        == (whole.other["at the field's 15 °C, Ω"])
    )


def test_a_trend_is_said_in_milliohms_a_charge(tmp_path: Path) -> None:
    """0.1 mΩ a charge on a cell, all at 20 °C."""
    entries = resistances(*((20, 5 + 0.1 * charge) for charge in range(9)))
    cell = found(pack(tmp_path, hangar_files(entries)), "pack_resistance", "cell 2")

    assert "0.10 mΩ more a charge" == cell.verdict


def test_a_warm_reading_after_a_cold_one_goes_on_its_own_series(tmp_path: Path) -> None:
    """One at 6 °C between those at 20 °C draws no later one to itself."""
    entries = resistances((20, 5.0), (20, 5.0), (6, 9.0), (16, 5.5), (20, 5.0))
    hangar = opened(tmp_path, hangar_files(entries))
    likes = like_resistances(hangar.items["P-1"])

    assert [1, 2, 4, 5] == [number for number, _ in likes.alike]
    assert [("temperature",)] == [differs for _, differs in likes.unlike]


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


@pytest.mark.parametrize(
    ("ohms", "said"),
    [
        ((6.2, 6.0), None),
        ((6.2, 6.0, 5.8), "too few readings for a trend: 3, it takes 5"),
        ((6.2, 6.0, 5.8, 5.6), "too few readings for a trend: 4, it takes 5"),
        ((6.2, 6.0, 5.8, 5.6, 5.4), "0.20 mΩ less a charge"),
        ((5.4, 5.6, 5.8, 6.0, 6.2), "0.20 mΩ more a charge"),
        ((5.4, 5.6, 5.5, 5.4, 5.5), "no trend to be seen"),
    ],
)
def test_no_trend_of_a_cell_from_few_readings(
    tmp_path: Path, ohms: tuple[float, ...], said: str | None
) -> None:
    """All slopes of four readings hold the true one less often than 95 times in 100."""
    figures = pack(tmp_path, hangar_files(resistances(*((22, ohm) for ohm in ohms))))
    cell = found(figures, "pack_resistance", "cell 1")

    assert said == cell.verdict
    assert (len(ohms) >= 5) == ("change a charge, Ω" in cell.other or said == "no trend to be seen")


def test_a_capacity_trend_has_limits_from_five_readings_on(tmp_path: Path) -> None:
    """3 mAh less a charge throughout; of four readings the slope alone."""
    few = found(pack(tmp_path / "few", capacities(40)), "pack_capacity", "change a charge")
    more = found(pack(tmp_path / "more", capacities(50)), "pack_capacity", "change a charge")

    assert ("too few readings for limits: 4, it takes 5", None) == (few.verdict, few.low)
    assert (None, 0.95) == (more.verdict, more.level)
    assert pytest.approx((-0.003, -0.003)) == (few.value, more.value)
