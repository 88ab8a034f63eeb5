"""A propeller's measured coefficients as a table of bench/: hover, full throttle, end of thrust.

The tables are those of Brandt and Selig (AIAA 2011-1255) that the published tests hold.
"""

import csv
import math
from itertools import pairwise
from pathlib import Path

import pytest
from small_hangars import SMALL, SPECS, found, opened, quad, refused
from test_weighed import FLOWN, plane

from buildbook.figures.answers.registry import figures_of_aircraft

DATA = Path(__file__).parents[2] / "published" / "data" / "propellers"
CONSTANTS = "max_current: 18 A, kv: 870 rpm/V, resistance: 90 mΩ, no_load_current: 0.5 A}"


def table(name: str, head: str) -> str:
    """A published table with the heads of bench/."""
    _, *rows = (DATA / name).read_text(encoding="utf-8").splitlines()
    return "\n".join([head, *rows]) + "\n"


def with_table(text: str) -> dict[str, str]:
    """The small quad with motor constants, and the table of its propellers."""
    specs = SPECS.replace("max_current: 18 A}", CONSTANTS)
    specs = specs.replace("figure_of_merit: 0.65", "table: uiuc.csv")
    return {**SMALL, "parts/specs.yaml": specs, "bench/uiuc.csv": text}


STATIC = table("prop_10x4.7_static.csv", "rpm,CT,CP")


def test_hover_of_the_quad_off_a_measured_propeller(tmp_path: Path) -> None:
    """1.2 kg on 10x4.7: 4213.4 rpm and 21.127 W at each shaft (check values, section 4).

    The motor takes Q/K_Q + 0.5 A with Q = P/(2πn), at n/K_V + I·R; the ESC hands on 95 %.
    """
    answers = quad(tmp_path, with_table(STATIC))
    turning, shaft = 4213.4 / 60, 21.127
    amps = shaft / (2 * math.pi * turning) * 2 * math.pi * 870 / 60 + 0.5
    volts = 4213.4 / 870 + amps * 0.09

    tips = found(answers, "tip_speed", "hover").value
    assert pytest.approx(math.pi * 0.254 * turning, rel=1e-3) == tips
    assert pytest.approx(volts / 11.1, rel=1e-3) == found(answers, "hover_throttle").value
    assert pytest.approx(4 * volts * amps / 0.95 / 11.1, rel=1e-3) == (
        found(answers, "hover_current").value
    )
    told = {one.name: one for one in found(answers, "hover_throttle").inputs}
    table_of = told["coefficients of prop-ccw"]
    assert ("bench/uiuc.csv", "measured") == (table_of.value, table_of.basis)


def test_full_throttle_takes_the_coefficients_of_its_own_speed(tmp_path: Path) -> None:
    """The table ends at 6528 rpm; on 8 V the motor balances below it, where CT and CP are read.

    Torques balanced here by bisection with the coefficients on the line between the rows.
    """
    files = with_table(STATIC)
    files["parts/specs.yaml"] = files["parts/specs.yaml"].replace(
        "  cell_resistance: 5 mΩ", "  cell_resistance: 5 mΩ\n  nominal_cell_voltage: 2.6 V"
    )
    rows = [
        (float(one[0]) / 60, float(one[1]), float(one[2]))
        for one in list(csv.reader(STATIC.splitlines()))[1:]
    ]

    def at(turning: float, column: int) -> float:
        for low, high in pairwise(rows):
            if low[0] <= turning <= high[0]:
                way = (turning - low[0]) / (high[0] - low[0])
                return low[column] + way * (high[column] - low[column])
        raise AssertionError(turning)

    def surplus(turning: float) -> float:
        amps = (7.8 - 60 * turning / 870) / 0.09
        drive = (amps - 0.5) * 60 / (2 * math.pi * 870)
        return drive - at(turning, 2) * 1.225 * turning**2 * 0.254**5 / (2 * math.pi)

    low, high = rows[0][0], rows[-1][0]
    for _ in range(60):
        middle = (low + high) / 2
        low, high = (middle, high) if surplus(middle) > 0 else (low, middle)
    thrust = at(low, 1) * 1.225 * low**2 * 0.254**4

    answers = quad(tmp_path, files)
    ratio = 4 * thrust / (1.2 * 9.80665)
    assert pytest.approx(ratio, rel=1e-4) == found(answers, "thrust_to_weight").value


def test_beyond_its_rows_a_table_says_nothing(tmp_path: Path) -> None:
    """On 11.1 V it would turn faster than the last row."""
    why = refused(quad(tmp_path, with_table(STATIC)), "thrust_to_weight")[0]

    assert why.startswith("no bench table of motor: write 'bench' in its spec; and without it: ")
    assert "the table of the propeller must reach " in why


@pytest.mark.parametrize(
    ("text", "why"),
    [
        ("rpm,CT,CP\n4000,0.11,0.04\n",
         "bench/uiuc.csv has no two rows of rpm, CT and CP at standstill"),
        (table("prop_10x4.7_forward_6512rpm.csv", "J,CT,CP,eta"),
         "bench/uiuc.csv has no two rows of rpm, CT and CP at standstill"),
    ],
    ids=["one row", "in flight"],
)  # fmt: skip
def test_a_table_without_rows_at_standstill(tmp_path: Path, text: str, why: str) -> None:
    """Said with the file."""
    because, place = refused(quad(tmp_path, with_table(text)), "hover_throttle")

    assert (why, "bench/uiuc.csv:1") == (because.rpartition(": ")[2], place)


def test_where_thrust_ends_in_flight(tmp_path: Path) -> None:
    """CT of the 10x4.7 passes nothing where its rows change sign: J·n·D, beside n·p."""
    text = "rpm,J,CT,CP\n4000,0,0.11,0.045\n6500,0,0.12,0.05\n,0.4,0.05,0.04\n,0.6,-0.01,0.02\n"
    files = plane(
        "- {on: 2026-02-01, fit: {nose: {motor: M-1, esc: E-1, propeller: R-1}}}\n" + FLOWN
    )
    files["parts/specs.yaml"] = files["parts/specs.yaml"].replace(
        "chemistry: LiPo}", "chemistry: LiPo, nominal_cell_voltage: 2.6 V}"
    )
    specs = SPECS.replace("max_current: 18 A}", CONSTANTS)
    specs = specs.replace("figure_of_merit: 0.65", "table: own.csv")
    files["parts/specs.yaml"] += "".join(
        f"{line}\n"
        for line in specs.split("\n")
        if any(word in line for word in ("kind: motor", "kind: esc", "spec: prop-cw"))
    )
    files["parts/items.yaml"] += (
        "- {tag: M-1, spec: motor, acquired: 2026-01-01}\n"
        "- {tag: E-1, spec: esc, acquired: 2026-01-01}\n"
        "- {tag: R-1, spec: prop-cw, acquired: 2026-01-01}\n"
    )
    files["bench/own.csv"] = text
    figure = found(figures_of_aircraft(opened(tmp_path, files), "teal"), "pitch_speed")
    assert figure.value is not None
    turning = figure.value / (4.7 * 0.0254)

    # 0.05 down to -0.01 over 0.2: nothing at 0.4 + 0.2 · 5/6.
    ends = (0.4 + 0.2 * 5 / 6) * turning * 0.254
    assert pytest.approx(ends, rel=1e-6) == figure.other["thrust ends at, m/s"]
