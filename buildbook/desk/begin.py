"""Begin a hangar: an almost empty one with a first aircraft, or a copy of the demo hangar."""

import json
import re
import shutil
from collections.abc import Mapping
from pathlib import Path

import msgspec

from buildbook.pages.shipped import shipped
from buildbook.records.layouts import LAYOUTS, Layout


class CannotBegin(Exception):
    """The folder can't be begun in; the text is one sentence for the terminal."""


class First(msgspec.Struct, frozen=True):
    """The first aircraft: its name, ``multirotor`` or ``aeroplane``, and a layout of that kind.

    layout: None takes the one that is most usual for the kind.
    """

    name: str = "First"
    kind: str = "multirotor"
    layout: str | None = None

    @property
    def slug(self) -> str:
        """Its folder: the name in a-z, 0-9 and hyphens."""
        return re.sub("[^a-z0-9]+", "-", self.name.lower()).strip("-") or "first"


USUAL: Mapping[str, str] = {"multirotor": "quad-x", "aeroplane": "aeroplane"}

SPECS = """\
# Kinds of part. Say under `sheet` where the numbers come from.
- {spec: motor-first, kind: motor, name: first motor, mass: 60 g, kv: 900 rpm/V}
"""
ITEMS = """\
# Physical parts, each with a tag of its own: write the tag on the part.
- {tag: M-1, spec: motor-first, acquired: 2026-01-10}
"""
ABOVE = """\
# Left out on purpose: which way each motor turns and which output of the controller drives it.
# Nobody can know that for you, and one line that is wrong throws the aircraft over as it takes off.
# Read both from the drawing in your controller's manual, then write a line for each station:
# stations:
#   <station>: {spin: <cw or ccw, seen from above>, output: <number>}
"""
BEHIND = """\
# Left out on purpose: which way the motor turns, and which lead of the receiver drives what.
# Read them on the bench, propeller off, then write them down:
# stations:
#   nose: {spin: <cw or ccw, seen from behind>}
# receiver: {order: [<channel>, <channel>]}
"""


def starter(first: First) -> Mapping[str, str]:
    """The files of a new hangar, by path. CannotBegin: the layout is none of that kind."""
    name = first.layout or USUAL[first.kind]
    if name not in _layouts_of(first.kind):
        choices = ", ".join(_layouts_of(first.kind))
        kind = "an aeroplane" if first.kind == "aeroplane" else "a multirotor"
        raise CannotBegin(f"{name!r} is no layout of {kind}; it is one of {choices}")
    programme = f"built-in small-{first.kind}"
    home = f"aircraft/{first.slug}"
    return {
        "hangar.yaml": (
            "format: 1\nhangar: My hangar\ncurrency: EUR\nsoon: 30 days\nfield_elevation: 100 m\n"
            f"field_temperature: 15 °C\nreserve: 20 %\nprogramme: {programme}\n"
        ),
        "parts/specs.yaml": SPECS,
        "parts/items.yaml": ITEMS,
        f"{home}/aircraft.yaml": (
            f"aircraft: {_written(first.name)}\nkind: {first.kind}\nlayout: {name}\n"
            f"status: building\nprogramme: {programme}\n{_left_out(LAYOUTS[name], first.kind)}"
        ),
        f"{home}/logbook.yaml": f"# What happened, oldest first.\n{_first_entry(LAYOUTS[name])}",
    }


def _layouts_of(kind: str) -> tuple[str, ...]:
    if kind == "aeroplane":
        return ("aeroplane", "custom")
    return tuple(name for name in LAYOUTS if name != "aeroplane")


def _written(name: str) -> str:
    """A name as YAML reads it back: in quotes unless it is plain words."""
    return name if re.fullmatch(r"[A-Z][a-z]+( [A-Z]?[a-z]+)*", name) else json.dumps(name)


def _left_out(layout: Layout, kind: str) -> str:
    """What only the keeper can fill in, as comments."""
    if kind == "aeroplane":
        return BEHIND
    if layout.free:
        return (
            f"{ABOVE}# A layout of your own also wants places: at: [<forward>, <right>, <down>]\n"
        )
    across = "# diagonal: <motor shaft to motor shaft through the centre>\n"
    return f"{ABOVE}# The stations of {layout.name}: {', '.join(layout.names)}.\n{across}"


def _first_entry(layout: Layout) -> str:
    if layout.name == "custom":
        return "- on: 2026-01-12\n  note: The first motor has come.\n"
    station = "nose" if layout.free else layout.names[0]
    return (
        f"- on: 2026-01-12\n  fit: {{{station}: {{motor: M-1}}}}\n"
        f"  note: The first motor is in its place, {station}.\n"
    )


def begin(folder: Path, *, first: First | None = None) -> int:
    """Write the first files, or copy the demo where there is no ``first``; gives how many.

    CannotBegin: the folder holds something, the layout is of another kind, or rights are missing.
    """
    files = None if first is None else starter(first)
    try:
        if folder.exists() and (not folder.is_dir() or any(folder.iterdir())):
            raise CannotBegin(f"{folder} is not an empty folder; name a new one")
        if files is None:
            shutil.copytree(shipped("content"), folder, dirs_exist_ok=True)
            return sum(path.is_file() for path in folder.rglob("*"))
        for name, text in files.items():
            path = folder / name
            path.parent.mkdir(parents=True, exist_ok=True)
            path.write_text(text, "utf-8")
    except OSError as error:
        reason = (error.strerror or str(error)).lower()
        raise CannotBegin(f"could not begin in {folder}: {reason}") from error
    return len(files)
