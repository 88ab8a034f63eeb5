"""Begin a hangar: an almost empty one with a first aircraft, or a copy of the demo hangar."""

import shutil
from collections.abc import Mapping
from pathlib import Path

from buildbook.pages.shipped import shipped


class CannotBegin(Exception):
    """The folder can't be begun in; the text is one sentence for the terminal."""


STARTER: Mapping[str, str] = {
    "hangar.yaml": """\
format: 1
hangar: My hangar
currency: EUR
soon: 30 days
field_elevation: 100 m
field_temperature: 15 °C
reserve: 20 %
programme: built-in small-multirotor
""",
    "parts/specs.yaml": """\
# Kinds of part. Say under `sheet` where the numbers come from.
- {spec: motor-first, kind: motor, name: first motor, mass: 60 g, kv: 900 rpm/V}
""",
    "parts/items.yaml": """\
# Physical parts, each with a tag of its own: write the tag on the part.
- {tag: M-1, spec: motor-first, acquired: 2026-01-10}
""",
    "aircraft/first/aircraft.yaml": """\
aircraft: First
kind: multirotor
layout: quad-x
status: building
diagonal: 400 mm
stations:
  front-left: {spin: cw, output: 1}
  front-right: {spin: ccw, output: 2}
  rear-right: {spin: cw, output: 3}
  rear-left: {spin: ccw, output: 4}
""",
    "aircraft/first/logbook.yaml": """\
# What happened, oldest first.
- on: 2026-01-12
  fit: {front-left: {motor: M-1}}
  note: The first motor is on its arm.
""",
}
"""The files of a new hangar, by path."""


def begin(folder: Path, *, demo: bool) -> int:
    """Write the first files; gives how many.

    CannotBegin: the folder holds something, or there are no rights.
    """
    try:
        if folder.exists() and (not folder.is_dir() or any(folder.iterdir())):
            raise CannotBegin(f"{folder} is not an empty folder; name a new one")
        if demo:
            shutil.copytree(shipped("content"), folder, dirs_exist_ok=True)
            return sum(path.is_file() for path in folder.rglob("*"))
        for name, text in STARTER.items():
            path = folder / name
            path.parent.mkdir(parents=True, exist_ok=True)
            path.write_text(text, "utf-8")
    except OSError as error:
        reason = (error.strerror or str(error)).lower()
        raise CannotBegin(f"could not begin in {folder}: {reason}") from error
    return len(STARTER)
