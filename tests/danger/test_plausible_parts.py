"""Specs, thrust tables, programmes, balance and charges that can hardly be right are doubted.

Thresholds are common practice, no source; the ideal power of a rotor is actuator disk theory.
"""

from pathlib import Path

import pytest
from hangar_on_disk import LOGBOOK, QUIET, SPECS, Hangar, with_log, with_text

SPEC = "parts/specs.yaml"
LOG = "aircraft/sedge/logbook.yaml"
STORE = "stores/p-01.yaml"


def warned(hangar: Hangar) -> list[str]:
    """The first lines of the warnings of ``check``."""
    return [
        line.removeprefix("warning: ")
        for line in hangar.check.splitlines()
        if line.startswith("warning: ")
    ]


@pytest.mark.parametrize(("burst", "doubted"), [("30 A", False), ("29 A", True)])
def test_a_burst_below_the_continuous_current(tmp_path: Path, burst: str, doubted: bool) -> None:
    """Section C; the figures of one ESC are exchanged."""
    files = with_text(
        SPEC, "continuous_current: 30 A", f"continuous_current: 30 A, burst_current: {burst}"
    )
    hangar = Hangar(tmp_path, files)

    said = "burst current 29 A of esc is less than the continuous 30 A"
    assert ([f"{said} @ {hangar.line(SPEC, 'spec: esc')}"] if doubted else []) == warned(hangar)


@pytest.mark.parametrize(
    ("capacity", "told"),
    [("2200 mAh", False), ("22000 mAh", True), ("22000 mAh, sure: true", False)],
)
def test_a_capacity_that_its_mass_cannot_hold(tmp_path: Path, capacity: str, told: bool) -> None:
    """3 cells of 22 Ah in 220 g are 300 Ah a kilogram; LiPo has some 40, common practice.

    No figure believes it either: neither flight time nor the margin of the pack.
    """
    files = with_text(SPEC, "capacity: 2200 mAh", f"capacity: {capacity}")
    hangar = Hangar(tmp_path, files)
    said = "capacity of pack is 22000 mAh, more than 220 g of cells can hold"

    assert ([f"{said} @ {hangar.line(SPEC, 'spec: pack')}"] if told else []) == warned(hangar)


def with_bench(rows: str) -> dict[str, str]:
    """The quiet hangar with a thrust table of its motor; its propellers measure 11 inches."""
    files = with_text(SPEC, "max_current: 22 A}", "max_current: 22 A, bench: motor.csv}")
    return {**files, "bench/motor.csv": f"throttle_%,voltage_V,current_A,thrust_g\n{rows}"}


@pytest.mark.parametrize(
    ("rows", "said"),
    [
        # 600 g on 0.0613 m²: (0.6 · 9.80665)^1.5 / √(2 · 1.225 · 0.0613) = 36.8 W at the least.
        ("50,11.1,3.4,600\n100,11.1,12,1000\n", []),
        ("50,11.1,3.3,600\n100,11.1,12,1000\n120,11.1,13,1010\n".replace("120", "99"),
         ["line 2 of bench/motor.csv left out: 37 W for 600 g of thrust, and any propeller of"
          " 279.4 mm takes 37 W at the least @ bench/motor.csv:2"]),
        ("0.5,11.1,9,600\n1,11.1,18,1000\n",
         ["bench/motor.csv cannot be right, and none of it is used: its throttle is never above"
          " 1 %; line 3 probably means throttle_% 100, not 1 @ bench/motor.csv:1"]),
        ("50,11.1,90,600\n100,11.1,220,1100\n",
         ["bench/motor.csv cannot be right, and none of it is used: line 2 has 90 A, over 3 times"
          " the 22 A that the motor may carry (so on 2 of 2 rows); line 3 probably means"
          " current_A 22, not 220 @ bench/motor.csv:2"]),
    ],
)  # fmt: skip
def test_a_thrust_table_that_cannot_be(tmp_path: Path, rows: str, said: list[str]) -> None:
    """Section C: less than the ideal power, throttle as a share, ten times the limit."""
    told = " ".join(Hangar(tmp_path, with_bench(rows)).check.split())
    assert len(said) == told.count("warning: ") == told.count("bench/motor.csv:")
    assert [] == [one for one in said if one not in told]


def test_a_hover_at_next_to_no_throttle(tmp_path: Path) -> None:
    """Section C: 274 g a motor, a table that lifts ten times as much at 20 %."""
    rows = "3,11.1,8,250\n4,11.1,9,300\n50,11.1,60,3000\n100,11.1,120,9000\n"
    files = with_bench(rows)
    files[SPEC] = files[SPEC].replace("max_current: 22 A", "max_current: 130 A")
    said = [one for one in warned(Hangar(tmp_path, files)) if "would hover at" in one]

    assert 1 == len(said), said


def test_a_tolerance_above_its_interval(tmp_path: Path) -> None:
    """Section C: of the keeper's own programme, with its line."""
    own = """\
programme: mine
tasks:
  - task: arms
    what: Look at the arms.
    every: {flights: 10}
    tolerance: {flights: %d}
"""
    fine = Hangar(tmp_path / "1", {**QUIET, "programmes/mine.yaml": own % 10})
    wide = Hangar(tmp_path / "2", {**QUIET, "programmes/mine.yaml": own % 11})

    said = "tolerance of 'arms' in 'mine' is above its interval: 11 of 10 @ programmes/mine.yaml:6"
    assert ([], [said]) == (
        [one for one in warned(fine) if "tolerance" in one],
        [one for one in warned(wide) if "tolerance" in one],
    )


@pytest.mark.parametrize(
    ("cg", "doubted"), [("12 mm", False), ("144 mm", False), ("146 mm", True), ("120 cm", True)]
)
def test_a_balance_point_outside_the_aircraft(tmp_path: Path, cg: str, doubted: bool) -> None:
    """Section C: its rotors are 145 mm ahead, on a square with a diagonal of 410 mm."""
    entry = f"- {{on: 2026-06-20, weigh: 1096 g, pack: P-01, cg: [{cg}, 0 mm, 0 mm]}}\n"
    sure = entry.replace("}\n", ", sure: true}\n")

    said = "the balance point of 2026-06-20 lies outside sedge"
    assert doubted == (said in Hangar(tmp_path / "1", with_log(entry)).check)
    assert said not in Hangar(tmp_path / "2", with_log(sure)).check


def test_more_flights_on_a_charge_than_it_holds(tmp_path: Path) -> None:
    """Section C: three of 1500 mAh on 2200 mAh; not before the first charge that is recorded."""
    rows = ", ".join(f"[{length}, P-01, 1500 mAh]" for length in ("6:00", "6:10", "6:20"))
    flights = f"- {{on: 2026-06-20, flights: [{rows}]}}\n"
    hangar = Hangar(tmp_path / "1", with_log(flights))
    earlier = {**QUIET, LOG: LOGBOOK + flights.replace("06-20", "06-17")}

    said = "3 flights on one charge of P-01 used 4500 mAh, though it is rated 2200 mAh"
    assert f"{said} @ {hangar.line(LOG, 'flights:')}" in warned(hangar)
    assert said not in Hangar(tmp_path / "2", earlier).check
    charged = "- {on: 2026-06-20, charge: P-01, to: full}\n"
    files = with_log(flights, **{STORE: QUIET[STORE] + charged})
    assert said in Hangar(tmp_path / "3", files).check  # whichever came first


def test_what_came_after_today(tmp_path: Path) -> None:
    """Section C: acquired in a year to come, where the day is not frozen."""
    files = with_text("parts/items.yaml", "{tags: F-01..F-02, spec: frame, acquired: 2026-03-01}",
                      "{tags: F-01..F-02, spec: frame, acquired: 2062-03-01}")  # fmt: skip
    files["hangar.yaml"] = files["hangar.yaml"].replace("as_of: 2026-06-20\n", "")

    assert "is acquired 2062-03-01, after today" in Hangar(tmp_path, files).check


def test_packs_of_unequal_cells_on_one_charge(tmp_path: Path) -> None:
    """A23: 3S and 4S on one lead."""
    files = with_log("", **{STORE: QUIET[STORE] + "- {on: 2026-06-20, charge: [P-01, Q-01]}\n"})
    files[SPEC] = SPECS + (
        "- {spec: four, kind: battery, cells: 4S, capacity: 1500 mAh, chemistry: LiPo}\n"
    )
    files["parts/items.yaml"] += "- {tag: Q-01, spec: four, acquired: 2026-03-01}\n"
    hangar = Hangar(tmp_path, files)

    said = "P-01 and Q-01 charged as one: cells or chemistry differ, not on one lead"
    assert f"{said} @ {hangar.line(STORE, 'Q-01')}" in " ".join(hangar.check.split())


@pytest.mark.parametrize(("ohms", "moved"), [("3.9", "halved"), ("4.1", None), ("24", "tripled")])
def test_a_cell_that_halved_or_tripled(tmp_path: Path, ohms: str, moved: str | None) -> None:
    """Section C: 8 mΩ before, under like conditions; colder by ten degrees nothing is said."""
    entries = (
        "- {on: 2026-06-19, charge: P-01, resistance: [8 mΩ, 8 mΩ, 8 mΩ], temperature: 22 °C}\n"
        f"- {{on: 2026-06-20, charge: P-01, resistance: [8 mΩ, 8 mΩ, {ohms} mΩ],"
        " temperature: 21 °C}\n"
    )
    like = Hangar(tmp_path / "1", with_log("", **{STORE: QUIET[STORE] + entries}))
    cold = entries.replace("21 °C", "11 °C")
    unlike = Hangar(tmp_path / "2", with_log("", **{STORE: QUIET[STORE] + cold}))

    said = f"cell 3 of battery 'P-01' {moved or ''}"
    assert (moved is not None) == (said in " ".join(like.check.split()) and moved is not None)
    assert "cell 3" not in unlike.check


def test_one_pack_on_two_aircraft_at_once(tmp_path: Path) -> None:
    """Section C: by the times of both flights."""
    log = "- {on: 2026-06-20T10:00, flight: 6:00, pack: P-01}\n"
    second = "aircraft/teal/logbook.yaml"
    files = with_log(log, **{
        "aircraft/teal/aircraft.yaml": "aircraft: Teal\nkind: aeroplane\nlayout: aeroplane\n",
        second: "- {on: 2026-06-20T10:04, flight: 6:00, pack: P-01}\n",
    })  # fmt: skip
    hangar = Hangar(tmp_path, files)

    said = "battery 'P-01' flown on teal and on sedge at once"
    assert f"{said} @ {second}:1" in " ".join(hangar.check.split())


@pytest.mark.parametrize(
    ("channel", "meant"),
    [("elevator", None), ("slider", None), ("rudder-left", None), ("ele", "elevator"),
     ("elevater", "elevator"), ("Elevator", "elevator")],
)  # fmt: skip
def test_a_channel_that_is_misspelt(tmp_path: Path, channel: str, meant: str | None) -> None:
    """A lead is followed by its name: another spelling of it would lead nowhere."""
    plan = "aircraft/sedge/aircraft.yaml"
    hangar = Hangar(tmp_path, with_text(plan, "rudder, elevator,", f"rudder, {channel},"))

    said = (
        f"the channel '{channel}' is no surface and not aileron, elevator, rudder or throttle"
        f" @ {hangar.line(plan, 'receiver:')}"
    )
    assert ([said] if meant else []) == warned(hangar)
    assert meant is None or f"did you mean '{meant}'?" in hangar.check
