"""Begin a hangar: an almost empty one with a first aircraft, or a copy of the demo hangar."""

import json
import shutil
from collections.abc import Mapping
from pathlib import Path

import msgspec

from buildbook.basis.naming import slug_of, without_device
from buildbook.basis.notation import NotationError, quantity
from buildbook.desk.entry_text import scalar
from buildbook.desk.keeping import NOTE
from buildbook.pages.shipped import shipped
from buildbook.records.keys.values import an
from buildbook.records.layouts import LAYOUTS, WINGED, Layout
from buildbook.records.outputs.schema import schema_of, shape_of
from buildbook.records.reading.programmes import built_in_programmes


class CannotBegin(Exception):
    """The folder can't be begun in; the text is one sentence for the terminal."""


class First(msgspec.Struct, frozen=True, kw_only=True):
    """The first aircraft: its name, its kind as it is begun, and a layout of that kind.

    kind: ``multirotor``, ``aeroplane`` or ``glider``, which is an aeroplane without a motor.
    layout: None takes the one that is most usual for the kind. across: the diagonal of a
    multirotor, the span of another, as one writes it. programme: its maintenance programme.
    """

    name: str = "First"
    kind: str = "multirotor"
    layout: str | None = None
    across: str | None = None
    programme: str | None = None

    @property
    def of(self) -> str:
        """Its kind as its record has it."""
        return "multirotor" if self.kind == "multirotor" else "aeroplane"

    @property
    def slug(self) -> str:
        """Its folder: the name in a-z, 0-9 and hyphens."""
        return without_device(slug_of(self.name) or "first")


USUAL: Mapping[str, str] = {
    "multirotor": "quad-x",
    "aeroplane": "aeroplane",
    "glider": "glider",
}
"""The kinds that can be begun, each with its most usual layout."""

HANGAR = """\
format: 1
hangar: My hangar
# keeper: <your name; it stays private>
currency: EUR
soon: 30 days
# Where you fly; thrust and hover current follow from both. Unless said: sea level, 15 °C.
# field_elevation: <in m>
# field_temperature: <in °C>
reserve: 20 %
"""
SPECS = """\
# Kinds of part, one a line. Say under `sheet` where the numbers come from. As in:
# - {spec: m-2306, kind: motor, name: motor 2306, mass: <in g>, kv: <rpm/V>}
# - {spec: lp-3s, kind: battery, cells: 3S, capacity: <in mAh>, mass: <in g>, chemistry: LiPo}
"""
ITEMS = """\
# Physical parts, each with a tag of its own: write the tag on the part. As in:
# - {tag: M-1, spec: m-2306, acquired: <the day>}
"""
ABOVE = """\
# Left out on purpose: which way each motor turns and which output of the controller drives it.
# Nobody can know that for you, and one line that is wrong flips the aircraft at take-off.
# Read both from the drawing in your controller's manual, then write a line for each station:
# stations:
#   <station>: {spin: <cw or ccw, seen from above>, output: <number>}
"""
BEHIND = """\
# Left out on purpose: which way the motor turns, and which socket of the receiver drives what.
# Read them on the bench, propeller off, then write them down:
# stations:
#   nose: {spin: <cw or ccw, seen from behind>}
"""
UNPOWERED = """\
# Left out on purpose: which socket of the receiver drives what. Read it on the bench, then write
# it down:
"""
SOCKETS = """\
# sockets: [<channel>, <channel>]
# Where a controller stands between receiver and servos, also its leads:
# receiver: {order: [<channel>, <channel>]}
"""
LOG = """\
# What happened, oldest first. `buildbook enter` writes here as well.
"""


def starter(first: First) -> Mapping[str, str]:
    """The files of a new hangar, by path. CannotBegin: a layout, size or name that can't be."""
    name = first.layout or USUAL[first.kind]
    if name not in layouts_of(first.kind):
        choices = ", ".join(layouts_of(first.kind))
        raise CannotBegin(f"{name!r} is not a layout of {an(first.kind)}; it is one of {choices}")
    return hangar_files(
        first, aircraft=heading(first, name) + _size(first) + _left_out(LAYOUTS[name], first)
    )


def heading(first: First, layout: str) -> str:
    """The first lines of an aircraft's record. CannotBegin: there is no such programme."""
    return (
        f"aircraft: {scalar(first.name)}\nkind: {first.of}\nlayout: {scalar(layout)}\n"
        f"status: building\nprogramme: {_programme(first)}\n"
    )


def _programme(first: First) -> str:
    """The programme by its whole name, however it was asked for."""
    known = built_in_programmes()
    asked = first.programme or f"small-{first.kind}"
    for name in (asked, f"built-in {asked}"):
        if name in known:
            return name
    raise CannotBegin(f"{asked!r} is not a built-in programme; it is one of {', '.join(known)}")


def hangar_files(
    first: First, *, aircraft: str, specs: str = SPECS, items: str = ITEMS, log: str = LOG
) -> Mapping[str, str]:
    """All files of a hangar with these texts, each with its schema for editors."""
    home = f"aircraft/{first.slug}"
    files = {
        "hangar.yaml": f"{HANGAR}programme: {_programme(first)}\n",
        "parts/specs.yaml": specs,
        "parts/items.yaml": items,
        f"{home}/aircraft.yaml": aircraft,
        f"{home}/logbook.yaml": log,
    }
    ignored = {".gitignore": f"{NOTE}\n"}  # what enter remembers for --undo is no record
    return (
        {path: f"{_modeline(path)}{text}" for path, text in files.items()}
        | ignored
        | {
            f"{SCHEMAS}/{name}.json": json.dumps(schema_of(name), ensure_ascii=False, indent=1)
            + "\n"
            for name in sorted({shape_of(path) for path in files})
        }
    )


_SMALLEST_M, _LARGEST_M = 0.03, 20  # what a keeper builds; common practice, no source
SCHEMAS = ".schemas"
"""The folder of the JSON Schemas that the files of a new hangar name for editors."""


def _modeline(path: str) -> str:
    up = "../" * path.count("/")
    return f"# yaml-language-server: $schema={up}{SCHEMAS}/{shape_of(path)}.json\n"


def _size(first: First) -> str:
    """How large it is, as far as it was said."""
    if first.across is None:
        return ""
    written = " ".join(first.across.split())
    try:
        metres = quantity(written, "length")
    except NotationError as error:
        raise CannotBegin(f"{error.reason}; {error.hint}") from error
    if not _SMALLEST_M <= metres <= _LARGEST_M:
        raise CannotBegin(f"{written} across can hardly be right")
    if first.of == "aeroplane":
        return f"wing: {{span: {written}}}\n"
    return f"diagonal: {written}\n"


def layouts_of(kind: str) -> tuple[str, ...]:
    """The layouts that an aircraft of a kind may have."""
    if kind == "glider":
        return ("glider",)
    if kind == "aeroplane":
        return ("aeroplane", "custom")
    return tuple(name for name in LAYOUTS if name not in WINGED)


def _left_out(layout: Layout, first: First) -> str:
    """What only the keeper can fill in, as comments."""
    if first.of == "aeroplane":
        span = "" if first.across else "# wing: {span: <tip to tip>}\n"
        return f"{_placed(UNPOWERED if layout.motorless else BEHIND, layout)}{SOCKETS}{span}"
    if layout.free:
        return _placed(ABOVE, layout)
    stations = f"# The stations of {layout.name}: {', '.join(layout.names)}.\n"
    across = "# diagonal: <motor shaft to motor shaft through the centre>\n"
    return f"{ABOVE}{stations}{'' if first.across else across}"


def _placed(example: str, layout: Layout) -> str:
    """A layout of one's own also wants the place of each station."""
    places = ", at: [<forward>, <right>, <down>]}\n"
    return example.replace("}\n", places) if layout.name == "custom" else example


def check_is_free(folder: Path) -> None:
    """CannotBegin: the folder holds something."""
    if (folder / "hangar.yaml").is_file():
        raise CannotBegin(f"{folder} is a hangar already; --name adds an aircraft to it")
    if folder.exists() and (not folder.is_dir() or any(folder.iterdir())):
        raise CannotBegin(f"{folder} is not an empty folder; name a new one")


def begin(folder: Path, files: Mapping[str, str] | None = None, *, another: bool = False) -> int:
    """Write the first files, or copy the demo where there are none; gives how many.

    another: in a hangar write those of the aircraft alone. CannotBegin: the folder holds something
    else, or that aircraft, or rights are missing.
    """
    try:
        if another and files is not None and (folder / "hangar.yaml").is_file():
            return _add(folder, files)
        check_is_free(folder)
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


def _add(folder: Path, files: Mapping[str, str]) -> int:
    """Write the aircraft of these files into a hangar. CannotBegin: it is there already."""
    own = {name: text for name, text in files.items() if name.startswith("aircraft/")}
    home = folder / Path(next(iter(own))).parent
    if home.exists():
        raise CannotBegin(f"{home} is there already; give the new aircraft another name")
    home.mkdir(parents=True)
    for name, text in own.items():
        without = text.partition("\n")[2] if not (folder / SCHEMAS).is_dir() else text
        (folder / name).write_text(without, "utf-8")
    return len(own)
