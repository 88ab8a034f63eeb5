"""A small hangar, written anew for each test, and a way to run a command on it."""

from pathlib import Path

import pytest

FILES = {
    "hangar.yaml": "format: 1\nhangar: Loft\nas_of: 2026-11-20\nprogramme: shop\n",
    "programmes/shop.yaml": """\
programme: shop
checks:
  - check: spin-directions
    what: Run each motor up alone.
    per: motor station
    stale_after: [fit motor]
tasks:
  - task: motor-bearings
    what: Turn each motor by hand.
    for: motor
    every: {flights: 3}
life_limits: []
""",
    "parts/specs.yaml": """\
- {spec: m, kind: motor, mass: 50 g, kv: 900 rpm/V}
- {spec: e, kind: esc, mass: 20 g}
- {spec: r, kind: propeller, mass: 10 g, size: 10x5}
""",
    "parts/items.yaml": """\
- {tag: M-1, spec: m, acquired: 2026-01-02}
- {tag: E-1, spec: e, acquired: 2026-01-02}
- {tag: R-1, spec: r, acquired: 2026-01-02}
""",
    "aircraft/heron/aircraft.yaml": """\
aircraft: Heron
kind: aeroplane
layout: aeroplane
programme: shop
stations:
  nose: {spin: cw}
""",
    "aircraft/heron/logbook.yaml": """\
- on: 2026-02-01
  fit: {nose: {motor: M-1, esc: E-1, propeller: R-1}}
- on: 2026-02-01
  check: spin-directions
  result: pass
- on: 2026-02-08
  flights: [[6:00], [6:00], [6:00]]
""",
}


@pytest.fixture
def loft(tmp_path: Path) -> Path:
    """The small hangar."""
    folder = tmp_path / "loft"
    for name, text in FILES.items():
        path = folder / name
        path.parent.mkdir(parents=True, exist_ok=True)
        path.write_text(text, "utf-8")
    return folder
