"""Thrust-stand tables that cannot be, or not in every row: what is used of them and what is said.

The truth is the table of `small_hangars`; each case spoils it in one way. The least power of a
10 inch propeller for 8.4 N is 8.4^1.5 / √(2·1.225·0.050671) = 69.1 W by actuator disk theory; the
table takes 166.5 W.
"""

from pathlib import Path

import pytest
from small_hangars import BENCH, benched, found, opened, quad, refused

from buildbook.report.figure import Answers
from buildbook.upkeep.warnings.plausible_parts import doubted_parts

AIR = "the bench table is taken to be of this propeller, in air of 1.225 kg/m³"
BY_MOMENTUM = 88.135 / (0.78 * 0.95)  # W from the pack: check values, section 3


def with_table(table: str) -> dict[str, str]:
    """The small quad with that table."""
    return {**benched(), "bench/motor.csv": table}


def spoilt(column: int, factor: float) -> str:
    """The table with one column times a factor."""
    head, *rows = BENCH.splitlines()
    mended = []
    for row in rows:
        cells = row.split(",")
        cells[column] = f"{float(cells[column]) * factor:g}"
        mended.append(",".join(cells))
    return "\n".join([head, *mended]) + "\n"


def said(folder: Path, table: str) -> tuple[Answers, list[str]]:
    """Its figures, and what ``check`` doubts of it, with line and hint."""
    hangar = opened(folder, with_table(table))
    doubts = [
        f"{one} ({one.hint})" for one in doubted_parts(hangar, frozenset()) if "bench" in one.reason
    ]
    return quad(folder, with_table(table)), doubts


LEAST = "{} has {} W for {} g of thrust, and any propeller of 254 mm takes {} W at the least"


@pytest.mark.parametrize(
    ("column", "factor", "line", "why", "meant"),
    [
        (2, 0.1, 2, LEAST.format("line 2", 0.6, 81.6, 2) + " (so on 5 of 5 rows)",
         "current_A 15, not 1.5"),
        (2, 10, 5, "line 5 has 95 A, over 3 times the 18 A that the motor may carry"
         " (so on 2 of 5 rows)", "current_A 15, not 150"),
        (3, 10, 2, LEAST.format("line 2", 5.6, 815.8, 64) + " (so on 5 of 5 rows)",
         "thrust_N 8.4, not 84"),
        (3, 0.1, 1, "it takes over ten times the power that the air needs for its thrust",
         "thrust_N 8.4, not 0.84"),
        (1, 0.1, 2, LEAST.format("line 2", 0.6, 81.6, 2) + " (so on 5 of 5 rows)",
         "voltage_V 11.1, not 1.11"),
        (0, 0.01, 1, "its throttle is never above 1 %", "throttle_% 100, not 1"),
    ],
)  # fmt: skip
def test_a_column_in_another_unit_is_used_by_no_figure(
    tmp_path: Path, column: int, factor: float, line: int, why: str, meant: str
) -> None:
    """A tenth, ten times, a share for per cent: hover and time rest on theory, and say why."""
    answers, doubts = said(tmp_path, spoilt(column, factor))
    told = (
        f"bench/motor.csv cannot be right, and none of it is used: {why}; line 6 probably means "
        f"{meant}"
    )
    hint = "no figure uses it; correct the column, or the limits of the motor"

    assert [f"{told} @ bench/motor.csv:{line} ({hint})"] == doubts
    for name, of in (("hover_power", None), ("hover_current", None), ("flight_time", "P-1")):
        assert f"not off the bench: {told}" in found(answers, name, of).notes
    assert pytest.approx(BY_MOMENTUM, rel=1e-4) == found(answers, "hover_power").value
    asked = (
        f"neither a bench table nor the motor's constants give it: {told}",
        f"bench/motor.csv:{line}",
    )
    assert asked == refused(answers, "hover_throttle")
    ratio = f"{told}; and without it: kv of motor is not recorded: write 'kv' in its spec"
    assert ratio == refused(answers, "thrust_to_weight")[0]


def test_a_column_ten_times_too_large_without_a_limit_of_the_motor(tmp_path: Path) -> None:
    """No drive puts as little of its power into the air; the pull in N under grams is as poor."""
    for table, meant in (
        (spoilt(2, 10), "current_A 15, not 150"),
        (BENCH.replace("thrust_N", "thrust_g"), "thrust_g 857, not 8.4"),
    ):
        files = with_table(table)
        files["parts/specs.yaml"] = files["parts/specs.yaml"].replace("max_current: 18 A, ", "")
        why = refused(quad(tmp_path / meant[:8], files), "hover_throttle")[0]

        assert why.endswith(
            "it takes over ten times the power that the air needs for its thrust; line 6 probably "
            f"means {meant}"
        )


@pytest.mark.parametrize(
    ("row", "spoilt_row", "why"),
    [
        ("80,11.1,9.5,", "80,11.1,0.95,",
         "11 W for 673 g of thrust, and any propeller of 254 mm takes 48 W at the least; line 5"
         " probably means current_A 9.5, not 0.95"),
        ("80,11.1,9.5,", "80,11.1,95,",
         "95 A, over 3 times the 18 A that the motor may carry; line 5 probably means current_A"
         " 9.5, not 95"),
        ("80,11.1,9.5,6.6", "80,11.1,9.5,0.66",
         "thrust and power do not rise with the throttle there; line 5 probably means thrust_N"
         " 6.6, not 0.66"),
        ("80,11.1,9.5,", "80,11.1,,", "current not written"),
        ("80,11.1,9.5,6.6", "80,,9.5,", "voltage and thrust not written"),
    ],
)  # fmt: skip
def test_a_row_that_cannot_be_is_left_out_alone(
    tmp_path: Path, row: str, spoilt_row: str, why: str
) -> None:
    """The others are used: the hover lies between lines 3 and 4, the same as before."""
    assert row in BENCH
    answers, doubts = said(tmp_path, BENCH.replace(row, spoilt_row))
    told = f"line 5 of bench/motor.csv left out: {why}"
    good = quad(tmp_path / "good", benched())

    assert [f"{told} @ bench/motor.csv:5 (correct it, or delete the line)"] == doubts
    for name in ("hover_power", "hover_throttle", "thrust_to_weight"):
        figure = found(answers, name)
        assert (told, AIR) == tuple(one for one in figure.notes if "bench" in one)
        assert found(good, name).value == figure.value


def test_a_table_without_a_column_that_is_needed(tmp_path: Path) -> None:
    """No row has a current: one sentence, not one a row."""
    table = "throttle_%,voltage_V,thrust_g\n50,11.1,400\n100,11.1,850\n"
    answers, doubts = said(tmp_path, table)

    assert [] == doubts
    assert "bench/motor.csv has no column of current" in refused(answers, "hover_throttle")[0]


def test_a_battery_that_sags_under_the_bench(tmp_path: Path) -> None:
    """12.0 V at rest, 9.9 V at full throttle; each row is as good as throttle times its voltage.

    The last row, 84 % of 11.78 V put on the motor at the same thrust, becomes full throttle at
    9.9 V; nothing is left out, and the hover between lines 3 and 4 stays where it was.
    """
    rows = [(20, 12.0), (40, 11.8), (60, 11.4), (80, 10.9), (100, 9.9)]
    truth = [line.split(",") for line in BENCH.splitlines()[1:]]
    lines = [BENCH.splitlines()[0]]
    for (throttle, volts), (_, _, amps, thrust, rpm) in zip(rows, truth, strict=True):
        lines.append(f"{throttle},{volts},{float(amps) * 11.1 / volts:.6f},{thrust},{rpm}")
    answers, doubts = said(tmp_path, "\n".join(lines) + "\n")
    way = (1.2 * 9.80665 / 4 - 2.4) / 2.2

    assert [] == doubts
    throttle = (0.4 * 11.8 + way * (0.6 * 11.4 - 0.4 * 11.8)) / 11.1
    assert pytest.approx(throttle, rel=1e-4) == found(answers, "hover_throttle").value
    assert pytest.approx(4 * (22.2 + way * 33.3), rel=1e-4) == found(answers, "hover_power").value
    full = 4 * 8.4 * (11.1 / 9.9) ** 1.65 / (1.2 * 9.80665)
    assert pytest.approx(full, rel=1e-4) == found(answers, "thrust_to_weight").value


@pytest.mark.parametrize(
    ("head", "factor"),
    [
        ("throttle_%,voltage_V,current_A,thrust_g,rpm", (1, 1, 1000 / 9.80665)),
        ("Throttle (%),Voltage [V],Current (A),Thrust (N),RPM", (1, 1, 1)),
        ("throttle %,voltage mV,current mA,thrust kg,rpm", (1000, 1000, 1 / 9.80665)),
        ("throttle_%,voltage_V,current_A,thrust_oz,rpm", (1, 1, 1000 / 9.80665 / 28.349523125)),
        ("throttle_%,voltage_V,current_A,thrust_lb,rpm", (1, 1, 1000 / 9.80665 / 453.59237)),
    ],
)
def test_columns_in_the_units_of_the_bench(
    tmp_path: Path, head: str, factor: tuple[float, float, float]
) -> None:
    """The head says the unit, with underscore, space or brackets; the figures are the same."""
    lines = [head]
    for line in BENCH.splitlines()[1:]:
        throttle, *values, rpm = line.split(",")
        mended = [f"{float(one) * by:.9g}" for one, by in zip(values, factor, strict=True)]
        lines.append(",".join([throttle, *mended, rpm]))
    answers, doubts = said(tmp_path, "\n".join(lines) + "\n")
    good = quad(tmp_path / "good", benched())

    assert [] == doubts
    for name in ("hover_power", "hover_throttle", "thrust_to_weight"):
        assert pytest.approx(found(good, name).value, rel=1e-6) == found(answers, name).value


def test_the_tips_in_thin_air_turn_faster_for_the_same_thrust(tmp_path: Path) -> None:
    """2.942 N at 2000 m: 1.00649 kg/m³ on the pressure scale of the standard atmosphere.

    Thrust goes with density and the square of the speed, so the row is read at 2.942·1.225/ρ N:
    nearest is 4.6 N at 4900 rpm, times the root of the ratio.
    """
    files = benched()
    files["hangar.yaml"] = files["hangar.yaml"].replace("elevation: 0 m", "elevation: 2000 m")
    files["hangar.yaml"] = files["hangar.yaml"].replace("15 °C", "2 °C")
    answers = quad(tmp_path, files)
    density = found(answers, "air_density").value
    assert density is not None
    on_bench = 1.2 * 9.80665 / 4 * 1.225 / density

    assert pytest.approx(1.00649, rel=1e-3) == density
    rpm = 4900 * (on_bench / 4.6) ** 0.5
    assert pytest.approx(3.14159265 * 0.254 * rpm / 60, rel=1e-5) == (
        found(answers, "tip_speed", "hover").value
    )
