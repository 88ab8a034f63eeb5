"""Begin after a published build: its parts, layout and wiring as the files of a new hangar.

Nothing of it is trusted: it is read as text, written as records, and those are read by the reader
of all records before anything stands on the disk. No spin and no output is filled in.
"""

import datetime
import json
import tempfile
import textwrap
from collections.abc import Iterator, Mapping, Sequence
from pathlib import Path
from typing import Any

from buildbook.basis.amounts import count
from buildbook.basis.notation import quoted
from buildbook.basis.sizes import most
from buildbook.desk.begin import (
    ABOVE,
    BEHIND,
    ITEMS,
    LOG,
    SOCKETS,
    SPECS,
    UNPOWERED,
    USUAL,
    CannotBegin,
    First,
    hangar_files,
    heading,
)
from buildbook.desk.entry_text import Tree, flow, scalar
from buildbook.pages.outputs.build_file import CAUTION, FORMAT
from buildbook.reporting.opening import open_reports

__all__ = ["CAUTION", "files_after"]

_MOST_BYTES = most("build")
_TOP: Mapping[str, type] = {"build": str, "aircraft": dict, "specs": list, "fitted": dict}
_TAKEN = ("wing", "surfaces", "wiring", "positions", "sundries", "bounds")
"""Groups of aircraft.yaml that are written as they stand there, in this order."""

_NOTED = {"surfaces": "# To each of the surfaces add servo: <its tag>, when it is fitted.\n"}
_NEVER_OF_A_SPEC = ("bench", "note", "public")
_SPINS = ("cw", "ccw")
_WIDTH = 96


def files_after(
    path: Path, name: str | None, programme: str | None, today: datetime.date
) -> tuple[First, Mapping[str, str]]:
    """The aircraft of the build in a file, and the files of a hangar that begins with it, by path.

    name: of the aircraft; else that of the build. CannotBegin: it is no build, one of a newer
    program, or something in it can't be a record.
    """
    build = _read(path)
    aircraft = build["aircraft"]
    kind = aircraft.get("kind")
    if kind not in USUAL:
        raise CannotBegin(f"{path.name} builds neither a multirotor nor an aeroplane")
    layout = _plain(aircraft.get("layout", ""))
    if layout == "glider" and kind == "aeroplane":
        kind = layout  # as it is begun
    first = First(name=name or _plain(build["build"]), kind=kind, programme=programme)
    try:
        tree: Any = _tree(build)
        files = hangar_files(
            first,
            aircraft=heading(first, layout) + _aircraft(first, tree),
            specs=SPECS + _specs(tree["specs"]),
            items=ITEMS + _items(tree),
            log=LOG + _log(tree),
        )
    except (AttributeError, TypeError, RecursionError) as error:
        raise CannotBegin(
            f"{path.name} is no build: one of its groups has another shape"
        ) from error
    _prove(files, path.name, today)
    return first, files


def _read(path: Path) -> dict[str, Any]:
    try:
        with path.open("rb") as file:
            data = file.read(_MOST_BYTES + 1)
        if len(data) > _MOST_BYTES:
            raise CannotBegin(f"{path.name} is larger than the 1 MB that are read of a build")
        build = json.loads(data.decode("utf-8-sig"), parse_constant=_refuse)
    except OSError as error:
        reason = (error.strerror or str(error)).lower()
        raise CannotBegin(f"{path} can't be read: {reason}") from error
    except (ValueError, RecursionError) as error:
        raise CannotBegin(f"{path.name} is no JSON, so no build.json either") from error
    if not isinstance(build, dict) or type(build.get("format")) is not int:
        raise CannotBegin(f"{path.name} is not a build.json of a published site")
    if build["format"] != FORMAT:
        raise CannotBegin(
            f"{path.name} has format {build['format']}, and this program reads {FORMAT}"
        )
    for key, shape in _TOP.items():
        if not isinstance(build.get(key), shape):
            raise CannotBegin(
                f"{path.name} is no build: {quoted(key)} is missing, or of another kind"
            )
    return build


def _refuse(text: str) -> None:
    raise ValueError(text)


def _tree(value: Any) -> Tree:
    """What stands there as the texts that a file of records has; what is nothing is left out."""
    if isinstance(value, dict):
        return {str(key): _tree(each) for key, each in value.items() if each is not None}
    if isinstance(value, list):
        return [_tree(each) for each in value]
    if isinstance(value, bool):
        return "true" if value else "false"
    return str(value)


def _plain(text: object) -> str:
    """A name or line on one line, of a length that a comment bears."""
    words = " ".join("".join(c if c.isprintable() else " " for c in str(text)).split())
    return textwrap.shorten(words, 120, placeholder=" …") or "First"


def _comment(text: str) -> str:
    lines = textwrap.wrap(text, _WIDTH, break_long_words=False, break_on_hyphens=False)
    return "".join(f"# {line}\n" for line in lines)


def _aircraft(first: First, build: Any) -> str:
    record = build["aircraft"]
    licence = f", under {_plain(build['licence'])}" if build.get("licence") else ""
    where = f" of {_plain(build['hangar'])}" if build.get("hangar") else ""
    text = f"diagonal: {scalar(record['diagonal'])}\n" if "diagonal" in record else ""
    text += _comment(
        f"Begun after the build {_plain(build['build'])}{where}{licence}. Lengths and masses are "
        "those of that aircraft: measure yours."
    )
    for name in _TAKEN:
        if record.get(name):
            text += _NOTED.get(name, "") + _group(name, record[name])
    text += _comment(CAUTION)
    stations = record.get("stations", {})
    places = {name: {"at": plan["at"]} for name, plan in stations.items() if "at" in plan}
    above = ABOVE
    if first.of == "aeroplane":
        above = (BEHIND if first.kind == "aeroplane" else UNPOWERED) + SOCKETS
    text += above.replace("# stations:\n", "# to the stations below:\n") if places else above
    spins = [(name, plan.get("spin")) for name, plan in stations.items()]
    if any(spin in _SPINS for _, spin in spins):
        text += (
            "# There the motors were planned to turn like this; whether yours do is to be seen:\n"
        )
        text += "".join(f"#   {_plain(name)}: {spin}\n" for name, spin in spins if spin in _SPINS)
    return text + (_group("stations", places) if places else "")


def _group(name: str, value: Tree) -> str:
    """A group of a record file, a line for each member."""
    if isinstance(value, str):
        return f"{name}: {scalar(value)}\n"
    if isinstance(value, Mapping) and not any(isinstance(each, Mapping) for each in value.values()):
        return f"{name}: {flow(value)}\n"
    if isinstance(value, Mapping):
        lines = (f"  {scalar(key)}: {flow(each)}\n" for key, each in value.items())
    else:
        lines = (f"  - {flow(each)}\n" for each in value)
    return f"{name}:\n{''.join(lines)}"


def _specs(specs: Sequence[Mapping[str, Tree]]) -> str:
    kept = (
        {key: value for key, value in spec.items() if key not in _NEVER_OF_A_SPEC} for spec in specs
    )
    return "".join(f"- {flow(spec)}\n" for spec in kept)


def _items(build: Any) -> str:
    """What the build is made of, as lines to complete."""
    places: dict[str, list[str]] = {}
    for station, slots in build["fitted"].items():
        for names in slots.values():
            for name in names:
                places.setdefault(name, []).append(station)
    lines = [
        f"# - {{{'tags' if len(stations) > 1 else 'tag'}: <{count('tag', len(stations))}>, "
        f"spec: {_plain(name)}, acquired: <the day>}}  # {_plain(', '.join(stations))}\n"
        for name, stations in places.items()
    ]
    lines += [
        f"# - {{tag: <1 tag>, spec: {_plain(name)}, acquired: <the day>}}  # a pack\n"
        for name in build.get("packs", ())
    ]
    return (
        f"# What the build is made of; complete a line when you have the parts:\n{''.join(lines)}"
    )


def _log(build: Any) -> str:
    """What sat where, as an entry to complete."""
    return "".join(f"# {line}\n" for line in _fit_lines(build))


def _fit_lines(build: Any) -> Iterator[str]:
    yield "How the build is put together; write your tags when you have fitted the parts:"
    yield "- on: <the day>"
    yield "  fit:"
    for station, slots in build["fitted"].items():
        parts = (
            f"{_plain(kind)}: {', '.join(f'<tag of {_plain(name)}>' for name in names)}"
            for kind, names in slots.items()
        )
        yield f"    {_plain(station)}: {{{', '.join(parts)}}}"
    served = build.get("serves", ())
    if served:
        each = (
            f"<tag of {_plain(one['spec'])}>: [{', '.join(map(_plain, one['stations']))}]"
            for one in served
        )
        yield f"  serves: {{{', '.join(each)}}}"


def _prove(files: Mapping[str, str], name: str, today: datetime.date) -> None:
    """Read the files as records. CannotBegin: they have a problem; it names the first."""
    with tempfile.TemporaryDirectory() as folder:
        for path, text in files.items():
            target = Path(folder) / path
            target.parent.mkdir(parents=True, exist_ok=True)
            target.write_text(text, "utf-8")
        opened = open_reports(Path(folder), today, today)
    wrong = [each for each in opened.problems if each.severity == "problem"]
    if wrong:
        more = f", and {count('more problem', len(wrong) - 1)}" if len(wrong) > 1 else ""
        hint = f"; {wrong[0].hint}" if wrong[0].hint else ""
        raise CannotBegin(f"{name} can't be used: {wrong[0].reason}{hint}{more}")
