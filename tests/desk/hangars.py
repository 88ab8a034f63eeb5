"""Small hangars on disk for the tests of this room, and children that are killed."""

import sys
from collections.abc import Callable, Mapping
from functools import partial
from pathlib import Path

import killing

FILES: Mapping[str, str] = {
    "hangar.yaml": "format: 1\nhangar: Loft\nprogramme: shop\n",
    "programmes/shop.yaml": """\
programme: shop
checks:
  - check: failsafe
    what: Switch the transmitter off, propellers off.
    stale_after: [crash]
tasks:
  - task: motor-bearings
    what: Turn each motor by hand.
    for: motor
    every: {flights: 6}
life_limits: []
""",
    "parts/specs.yaml": """\
- {spec: m, kind: motor, mass: 50 g, kv: 900 rpm/V}
- {spec: p, kind: battery, cells: 3S, capacity: 3000 mAh}
""",
    "parts/items.yaml": """\
- {tag: M-1, spec: m, acquired: 2026-01-02}
- {tags: P-1..P-3, spec: p, acquired: 2026-01-02}
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
# The log of Heron.
- on: 2026-02-01
  fit: {nose: {motor: M-1}}
- on: 2026-02-01
  check: failsafe
  result: pass
- on: 2026-02-08
  flights: [[6:00, P-1, 1400 mAh], [7:00, P-2, 1500 mAh]]
# the end
""",
    "stores/p-1.yaml": """\
- on: 2026-02-07
  charge: P-1
  put_in: 1450 mAh
""",
}
LOG = "aircraft/heron/logbook.yaml"


def loft(folder: Path, files: Mapping[str, str | bytes] | None = None) -> Path:
    """Write the hangar, with some files in the place of its own."""
    for name, content in {**FILES, **(files or {})}.items():
        path = folder / name
        path.parent.mkdir(parents=True, exist_ok=True)
        path.write_bytes(content if isinstance(content, bytes) else content.encode())
    return folder


def texts(folder: Path) -> dict[str, bytes]:
    """All files, hidden ones too, by path."""
    return {
        path.relative_to(folder).as_posix(): path.read_bytes()
        for path in sorted(folder.rglob("*"))
        if path.is_file()
    }


_STEPS = {"os.rename", "os.remove", "os.mkdir", "os.chmod", "open"}


def count_steps(root: Path, at: Callable[[int], None]) -> None:
    """Call ``at`` with 1, 2, 3... at each touch of the disk below ``root``, reading too."""
    done = 0

    def hook(event: str, arguments: tuple[object, ...]) -> None:
        nonlocal done
        if event in _STEPS and str(arguments[0]).startswith(str(root)):
            done += 1
            at(done)

    sys.addaudithook(hook)


killed_at = partial(killing.killed_at, count_steps)
steps_of = partial(killing.steps_of, count_steps)
