"""Write a big hangar: by default 60 aircraft, 6,000 flights, about 400 items.

    python tests/benchmarks/big_hangar.py FOLDER [--aircraft 60] [--flights 100]

All of it is invented by a fixed rule, so that the same call writes the same bytes. Its keepers are
careful ones: all checks are done before the first flight, a pack is charged before each flight,
and what recurs is done in its time.
"""

import argparse
import datetime
from collections.abc import Iterator
from pathlib import Path

STATIONS = ("front-left", "front-right", "rear-left", "rear-right")
SPIN = {"front-left": "ccw", "front-right": "cw", "rear-left": "cw", "rear-right": "ccw"}
OUTPUT = {"front-left": 5, "front-right": 7, "rear-left": 2, "rear-right": 6}
START = datetime.date(2024, 6, 1)
# What stands between two flights, days: the hundredth is three weeks before the hangar's day.
APART = 9
CHECKS = (
    "motor-screws, receiver-order, stick-sense, sensors-answer, accelerometer, arming, "
    "throttle-cut, spin-directions, start-spread, correction-sense, failsafe, range, propeller-fit"
)
RECURRING = "full-inspection, motor-bearings, screws-and-mounts, solder-and-leads, level-again"


def write(folder: Path, aircraft: int = 60, flights: int = 100) -> None:
    """Write the hangar; ``flights`` is for each aircraft."""
    _put(
        folder / "hangar.yaml",
        "format: 1\nhangar: Bench hangar\nas_of: 2026-11-20\nsoon: 30 days\n"
        "field_elevation: 200 m\nfield_temperature: 15 °C\nreserve: 20 %\n",
    )
    _put(folder / "parts/specs.yaml", SPECS)
    items: list[str] = []
    for number in range(aircraft):
        items += _items(number)
        home = folder / f"aircraft/a{number:02d}"
        _put(home / "aircraft.yaml", _aircraft(number))
        _put(home / "logbook.yaml", "".join(_log(number, flights)))
        _put(folder / f"stores/p{number:02d}.yaml", "".join(_store(number, flights)))
    _put(folder / "parts/items.yaml", "".join(items))


SPECS = """\
- {spec: motor-a, kind: motor, name: 2312 motor, mass: 58 g, kv: 900 rpm/V, resistance: 95 mohm, no_load_current: 0.6 A, max_current: 22 A}
- {spec: esc-a, kind: esc, mass: 14 g, continuous_current: 25 A, cells: 2S-4S}
- {spec: prop-cw, kind: propeller, mass: 12 g, size: 10x4.5, hand: cw, thrust_coefficient: 0.118, power_coefficient: 0.048}
- {spec: prop-ccw, kind: propeller, mass: 12 g, size: 10x4.5, hand: ccw, thrust_coefficient: 0.118, power_coefficient: 0.048}
- {spec: pack-a, kind: battery, mass: 260 g, cells: 3S, capacity: 3000 mAh, chemistry: LiPo, discharge_rate: 25C, cell_resistance: 5 mohm}
- {spec: frame-a, kind: frame, mass: 340 g}
- {spec: board-a, kind: controller, mass: 30 g}
"""  # noqa: E501


def _put(path: Path, text: str) -> None:
    path.parent.mkdir(parents=True, exist_ok=True)
    path.write_text(text, "utf-8")


def _items(number: int) -> Iterator[str]:
    """Six or seven items an aircraft: four motors, a frame, a pack, and a board on every second."""
    day = START.isoformat()
    for station in range(1, 5):
        yield f"- {{tag: M{number:02d}-{station}, spec: motor-a, acquired: {day}}}\n"
    yield f"- {{tag: F{number:02d}, spec: frame-a, acquired: {day}}}\n"
    yield f"- {{tag: P{number:02d}, spec: pack-a, acquired: {day}, made: {day}}}\n"
    if number % 2 == 0:
        yield f"- {{tag: C{number:02d}, spec: board-a, acquired: {day}}}\n"


def _aircraft(number: int) -> str:
    stations = "".join(
        f"  {name}: {{spin: {SPIN[name]}, output: {OUTPUT[name]}}}\n" for name in STATIONS
    )
    return (
        f"aircraft: Number {number:02d}\nkind: multirotor\nlayout: quad-x\nstatus: flying\n"
        f"programme: built-in small-multirotor\ndiagonal: 420 mm\nstations:\n{stations}"
        "receiver: {order: [throttle, rudder, elevator, aileron]}\n"
        "wiring:\n  - {from: pack, to: distribution, wire: 14 AWG, length: 120 mm}\n"
        "  - {from: distribution, to: each esc, wire: 16 AWG, length: 160 mm}\n"
    )


def _log(number: int, flights: int) -> Iterator[str]:
    slots = ", ".join(
        f"{name}: {{motor: M{number:02d}-{index}}}" for index, name in enumerate(STATIONS, 1)
    )
    board = f", controller: C{number:02d}" if number % 2 == 0 else ""
    yield f"- on: {START}\n  fit: {{{slots}, centre: {{frame: F{number:02d}{board}}}}}\n"
    yield f"- on: {START}\n  check: [{CHECKS}]\n  result: pass\n"
    yield (
        f"- on: {START}\n  gains: first\n"
        "  values: {roll: {p: 37, i: 19, d: 6}, pitch: {p: 39, i: 20, d: 7}, yaw: {p: 53, i: 27}}\n"
    )
    yield f"- on: {START}\n  weigh: 1010 g\n  pack: P{number:02d}\n"
    for flight in range(flights):
        day = START + datetime.timedelta(days=1 + APART * flight)
        seconds = 400 + (flight * 37 + number * 11) % 120
        used = 1500 + (flight * 53 + number * 17) % 500
        yield (
            f"- on: {day}\n  flight: {seconds // 60} min {seconds % 60} s\n"
            f"  pack: P{number:02d}\n  used: {used} mAh\n"
            + ("  purpose: check\n  result: pass\n" if flight == 0 else "")
        )
        if flight % 10 == 9:
            yield f"- on: {day}\n  inspection: [propeller-touch, failsafe-again, range-again]\n"
        if flight % 25 == 24:
            yield f"- on: {day}\n  inspection: [{RECURRING}]\n"
            yield f"- on: {day}\n  note: A quiet evening, nothing to report from number {number}.\n"


def _store(number: int, flights: int) -> Iterator[str]:
    """A charge the day before each flight, the cells read at every fourth."""
    for flight in range(flights):
        day = START + datetime.timedelta(days=APART * flight)
        ohm = 5 + flight / 60
        yield (
            f"- on: {day}\n  charge: P{number:02d}\n"
            f"  put_in: {1500 + (flight * 53 + number * 17) % 500} mAh\n"
        )
        if flight % 4 == 0:
            yield f"  resistance: [{ohm:.1f} mohm, {ohm + 0.2:.1f} mohm, {ohm + 0.1:.1f} mohm]\n"
        if flight % 20 == 0:
            capacity = 3000 - 4 * flight
            yield f"- on: {day}\n  capacity: P{number:02d}\n  measured: {capacity} mAh\n"


if __name__ == "__main__":
    parser = argparse.ArgumentParser(description=__doc__.splitlines()[0])
    parser.add_argument("folder", type=Path)
    parser.add_argument("--aircraft", type=int, default=60)
    parser.add_argument("--flights", type=int, default=100)
    given = parser.parse_args()
    write(given.folder, given.aircraft, given.flights)
