"""Values of the records written again as their files have them: key by key, in trade notation.

What stands here can be read back by the reader of the records; a test does so. Lengths, masses and
the like are told to twelve digits, so that nothing is rounded away: what comes out long in our unit
was written in another, and is said in that.
"""

from collections.abc import Callable, Mapping
from typing import Any

import msgspec

from buildbook.basis.amounts import cells, trimmed
from buildbook.basis.units import UNITS, Dimension
from buildbook.records.declare import shown
from buildbook.records.keys.fields import fields_of
from buildbook.records.keys.values import Cells, PropellerSize, Wire

_FINE = 9  # decimals; beyond them is only what halves and thousands leave behind

_LONG = 3
"""So many decimals are written in millimetres or grams; more come of another unit."""

_UNITS: Mapping[str, tuple[Dimension, str]] = {
    "_rpm_v": ("speed_constant", "rpm/V"),
    "_ohm": ("resistance", "mΩ"),
    "_ah": ("charge", "mAh"),
    "_kg": ("mass", "g"),
    "_m2": ("area", "cm²"),
    "_m_s": ("speed", "m/s"),
    "_nm": ("torque", "N·cm"),
    "_a": ("current", "A"),
    "_m": ("length", "mm"),
    "_v": ("voltage", "V"),
    "_w": ("power", "W"),
}
"""By the end of the name of a field: what it is of, and the unit that it is written in."""

Written = dict[str, Any]


def written_keys(
    record: msgspec.Struct, kind: str = "", without: frozenset[str] = frozenset()
) -> Written:
    """What everybody may see of a record, key by key as in its file; nothing that is not there.

    kind: of the record, where its keys go by it. without: keys that are left out.
    """
    marks = shown(type(record))
    found: Written = {}
    for key, field in fields_of(type(record), kind).items():
        value = getattr(record, field.attribute, None)
        if key in without or marks.get(field.attribute) != "public" or value in (None, (), {}):
            continue
        found[key] = _written(field.attribute, value)
    return found


def length(length_m: float) -> str:
    """With all of its decimals, so that it reads back as the same length."""
    return _amount("_m", length_m)


def place(at: tuple[float, float, float]) -> list[str]:
    """A place as forward, right and down."""
    return [length(along_m) for along_m in at]


def share(ratio: float) -> str:
    """In per cent, with all of its decimals."""
    return f"{trimmed(ratio * 100, _FINE)} %"


def _written(attribute: str, value: Any) -> Any:
    for kind, say in _SIZES.items():
        if isinstance(value, kind):
            return say(value)
    if isinstance(value, msgspec.Struct):
        return written_keys(value)
    if isinstance(value, bool | str | int):
        return value
    if attribute == "at":
        return place(value)
    if isinstance(value, Mapping):
        return {name: _written(attribute, part) for name, part in value.items()}
    if isinstance(value, tuple):
        return [_written("", part) for part in value]
    if attribute.endswith("_c"):
        return f"{trimmed(value, _FINE)}C"
    for end in _UNITS:
        if attribute.endswith(end):
            return _amount(end, value)
    return float(trimmed(value, _FINE))


def _amount(end: str, value: float) -> str:
    dimension, ours = _UNITS[end]
    said = {
        name: trimmed(value * unit.over / unit.times, _FINE)
        for name, unit in UNITS[dimension].units.items()
    }
    short = (name for name in (ours, *said) if len(said[name].partition(".")[2]) <= _LONG)
    unit = next(short, ours)
    return f"{said[unit]} {unit}"


def _cells(value: Cells) -> str:
    most = value.series_most if value.series_most != value.series else None
    return cells(value.series, most, value.parallel)


_SIZES: Mapping[type, Callable[[Any], str]] = {
    Cells: _cells,
    PropellerSize: lambda size: size.written,
    Wire: lambda wire: wire.written,
}
