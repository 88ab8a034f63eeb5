"""A small hangar without faults, and a way to spoil it."""

from collections.abc import Callable, Mapping
from pathlib import Path

SMALL: dict[str, str] = {
    "hangar.yaml": """\
format: 1
hangar: Test shed
people: {ida: {name: Ida Quill}, jon: {name: Jon Pell}}
""",
    "parts/specs.yaml": """\
- {spec: motor-a, kind: motor, mass: 54 g, kv: 870 rpm/V}
- {spec: prop-a, kind: propeller, size: 10x4.5, hand: cw}
- {spec: pack-a, kind: battery, cells: 3S, capacity: 2200 mAh}
- {spec: esc-a, kind: esc, continuous_current: 30 A}
- {spec: board-a, kind: controller}
""",
    "parts/items.yaml": """\
- {tags: M-01..M-04, spec: motor-a, acquired: 2026-01-05}
- {tags: R-01..R-04, spec: prop-a}
- {tags: P-01..P-02, spec: pack-a}
- {tag: C-01, spec: board-a}
""",
    "aircraft/sedge/aircraft.yaml": """\
aircraft: Sedge
kind: multirotor
layout: quad-x
programme: small-multirotor
stations:
  front-left: {spin: ccw, output: 3}
""",
    "aircraft/sedge/logbook.yaml": """\
- {on: 2026-02-01, fit: {front-left: {motor: M-01, propeller: R-01}, centre: {controller: C-01}}}
- {on: 2026-02-02, flight: 7:20, pack: P-01, used: 1480 mAh}
""",
}

WriteHangar = Callable[[Mapping[str, str | bytes]], Path]


def write_to(folder: Path, files: Mapping[str, str | bytes]) -> Path:
    """Write the small hangar with some files put in the place of its own."""
    for path, content in {**SMALL, **files}.items():
        place = folder / path
        place.parent.mkdir(parents=True, exist_ok=True)
        place.write_bytes(content if isinstance(content, bytes) else content.encode())
    return folder
