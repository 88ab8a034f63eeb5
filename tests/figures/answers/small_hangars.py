"""Small hangars in YAML whose figures can be worked out by hand."""

import datetime
from collections.abc import Mapping
from pathlib import Path

from buildbook.figures.answers.registry import figures_of_aircraft, figures_of_item
from buildbook.hangar.fold import fold
from buildbook.records.reading.read import read_hangar
from buildbook.report.figure import Answers, Figure
from buildbook.report.state import Hangar

LAST = datetime.date(2026, 11, 20)

KEEPER = """\
format: 1
hangar: Test shed
currency: EUR
field_elevation: 0 m
field_temperature: 15 °C
reserve: 20 %
pack_end_of_life: 80 %
"""

# Masses: frame 500 g, four arms of 50 + 20 + 10 g, controller 30 g, pack 350 g: 1200 g together.
SPECS = """\
- {spec: frame, kind: frame, mass: 500 g}
- {spec: motor, kind: motor, mass: 50 g, max_current: 18 A}
- {spec: esc, kind: esc, mass: 20 g, continuous_current: 20 A, cells: 2S-4S}
- {spec: prop-cw, kind: propeller, mass: 10 g, size: 10x4.7, hand: cw, figure_of_merit: 0.65}
- {spec: prop-ccw, kind: propeller, mass: 10 g, size: 10x4.7, hand: ccw, figure_of_merit: 0.65}
- {spec: controller, kind: controller, mass: 30 g}
- spec: pack
  kind: battery
  mass: 350 g
  cells: 3S
  capacity: 2200 mAh
  chemistry: LiPo
  discharge_rate: 30C
  charge_rate: 2C
  cell_resistance: 5 mΩ
"""

ITEMS = """\
- {tag: F-1, spec: frame, acquired: 2026-01-01}
- {tags: M-1..M-4, spec: motor, acquired: 2026-01-01}
- {tags: E-1..E-4, spec: esc, acquired: 2026-01-01}
- {tags: R-1..R-2, spec: prop-cw, acquired: 2026-01-01}
- {tags: R-3..R-4, spec: prop-ccw, acquired: 2026-01-01}
- {tag: C-1, spec: controller, acquired: 2026-01-01}
- {tag: P-1, spec: pack, acquired: 2026-01-01}
"""

# Arms so that the motors sit 160 mm forward or aft and 160 mm to the side.
QUAD = """\
aircraft: Sedge
kind: multirotor
layout: quad-x
status: flying
diagonal: 452.548 mm
stations:
  front-left:  {spin: ccw, output: 2}
  front-right: {spin: cw,  output: 4}
  rear-left:   {spin: cw,  output: 1}
  rear-right:  {spin: ccw, output: 3}
wiring:
  - {from: pack, to: distribution, wire: 12 AWG, length: 150 mm}
  - {from: distribution, to: each esc, wire: 16 AWG, length: 120 mm}
positions:
  pack: [0 mm, 0 mm, 30 mm]
bounds: {max_mass: 1300 g}
"""

LOG = """\
- on: 2026-02-01
  fit:
    centre: {frame: F-1, controller: C-1}
    front-left: {motor: M-1, esc: E-1, propeller: R-3}
    front-right: {motor: M-2, esc: E-2, propeller: R-1}
    rear-right: {motor: M-3, esc: E-3, propeller: R-4}
    rear-left: {motor: M-4, esc: E-4, propeller: R-2}
"""

SMALL: Mapping[str, str] = {
    "hangar.yaml": KEEPER,
    "parts/specs.yaml": SPECS,
    "parts/items.yaml": ITEMS,
    "aircraft/sedge/aircraft.yaml": QUAD,
    "aircraft/sedge/logbook.yaml": LOG,
}

LITTLE = "less than the 10 % that is common practice; "
"""How the verdict on a small margin begins."""

BENCH = """\
throttle_%,voltage_V,current_A,thrust_N,rpm
20,11.1,0.5,0.8,2000
40,11.1,2.0,2.4,3500
60,11.1,5.0,4.6,4900
80,11.1,9.5,6.6,5900
100,11.1,15.0,8.4,6600
"""


def written(folder: Path, files: Mapping[str, str]) -> Path:
    """The folder with those files in it."""
    for name, text in files.items():
        path = folder / name
        path.parent.mkdir(parents=True, exist_ok=True)
        path.write_text(text, encoding="utf-8")
    return folder


def opened(folder: Path, files: Mapping[str, str], as_of: datetime.date = LAST) -> Hangar:
    """The hangar of those files on a day; it must read without a problem."""
    reading = read_hangar(written(folder, files), cache=None)
    assert [str(problem) for problem in reading.problems] == []
    assert reading.ledger is not None
    return fold(reading.ledger, as_of)


def logged(log: str, files: Mapping[str, str] = SMALL) -> dict[str, str]:
    """The small quad with more entries in its log."""
    return {**files, "aircraft/sedge/logbook.yaml": files["aircraft/sedge/logbook.yaml"] + log}


def benched(log: str = "") -> dict[str, str]:
    """The small quad with a bench table of its motor, and more entries in its log."""
    specs = SPECS.replace("max_current: 18 A}", "max_current: 18 A, bench: motor.csv}")
    return logged(log, {**SMALL, "parts/specs.yaml": specs, "bench/motor.csv": BENCH})


def flown_daily(*said: str) -> str:
    """Flights of six minutes on P-1, one a day from 1 March on, each with what is said of it."""
    return "".join(
        f"- {{on: 2026-03-0{day}, flight: 6 min, pack: P-1, {one}}}\n"
        for day, one in enumerate(said, 1)
    )


def quad(folder: Path, files: Mapping[str, str] = SMALL) -> Answers:
    """The figures of the small quad."""
    return figures_of_aircraft(opened(folder, files), "sedge")


def pack(folder: Path, files: Mapping[str, str]) -> Answers:
    """The figures of its pack."""
    return figures_of_item(opened(folder, files), "P-1")


def found(answers: Answers, name: str, of: str | None = None) -> Figure:
    """The figure of that name, which must be there."""
    figure = answers.find(name, of)
    assert figure is not None, [one for one in answers.cannot_say if one.name == name]
    return figure


def refused(answers: Answers, name: str, of: str | None = None) -> tuple[str, str | None]:
    """Why a figure cannot be said, and where to write what it lacks."""
    missing = next(
        one for one in answers.cannot_say if one.name == name and (of is None or one.of == of)
    )
    return missing.because, None if missing.place is None else str(missing.place)
