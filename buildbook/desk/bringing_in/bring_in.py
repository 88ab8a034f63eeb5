"""Rows of somebody else's table become entries; what can't be placed is told with its line."""

import json
import re
from collections.abc import Callable, Iterator, Mapping, Sequence
from functools import partial
from itertools import pairwise
from pathlib import Path
from statistics import mean
from typing import Any

import msgspec

from buildbook.basis.amounts import listed
from buildbook.basis.days import parse_day
from buildbook.basis.nearest import did_you_mean
from buildbook.basis.notation import NotationError, quoted
from buildbook.basis.sizes import most
from buildbook.desk.bringing_in.foreign import (
    between,
    day_of,
    duration_of,
    names_of_packs,
    numbered,
    plain_number,
    second_of_day,
    time_of,
)
from buildbook.desk.bringing_in.heads import MEASURED
from buildbook.desk.bringing_in.scheme import ALL, EACH, FOR_EACH, Column, Scheme
from buildbook.desk.bringing_in.tables import NoTable, Row, Table
from buildbook.desk.entry_text import Tree
from buildbook.desk.placing import Wanted
from buildbook.desk.said.flights_said import packs_of
from buildbook.desk.spoken import NewEntry, WrongWords, further, own_key
from buildbook.desk.word_values import measurements
from buildbook.records.entries.kinds import AMENDING, KINDS
from buildbook.records.keys.fields import Group
from buildbook.records.ledger import Ledger, named_aircraft

_MOST_BYTES = most("facts")
_CELLS = ("resistance", "resting")
_DURATIONS = ("flight", "motor_run")
_TAKEN: Mapping[str, Callable[[list[float]], float]] = {
    "least": min,
    "most": max,
    "sum": sum,
    "mean": mean,
    "span": lambda numbers: numbers[-1] - numbers[0],
}
_NUMBER_OR_SPAN = re.compile(r"[-+]?[\d.]+(?: ?[-–] ?[\d.]+)?").fullmatch  # a wind of 5-8
_COMMA = re.compile(r"[-+]?\d+,\d{1,2}(?: ?[^\W\d]+)?").fullmatch
_UNIT_IN_HEAD = re.compile(r"[(\[]\s*(ms|s|min|h)\s*[)\]]").search
_SECONDS: Mapping[str, float] = {"ms": 0.001, "s": 1, "min": 60, "h": 3600}


class Unplaced(msgspec.Struct, frozen=True):
    """A row that makes no entry, and why."""

    line: int
    reason: str


class Brought(msgspec.Struct, frozen=True):
    """What a table gives: entries, and rows that could not be placed."""

    wanted: tuple[Wanted, ...]
    unplaced: tuple[Unplaced, ...] = ()
    assumed: tuple[str, ...] = ()


def entries_of(table: Table, scheme: Scheme, ledger: Ledger) -> Brought:
    """The entries of a table as the scheme says. NoTable: the scheme names what is not there."""
    _check(table, scheme)
    wanted: list[Wanted] = []
    unplaced: list[Unplaced] = []
    assumed: list[str] = []
    for rows in _groups(table, scheme):
        entry = NewEntry(scheme.kind, {}, assumed=assumed, missing=[])
        try:
            _fill(entry, rows, scheme, ledger)
        except (WrongWords, NotationError) as error:
            unplaced.append(Unplaced(rows[0].line, str(error)))
            continue
        wanted.append(Wanted(entry.entry, entry.aircraft, entry.item))
    return Brought(tuple(wanted), tuple(unplaced), tuple(dict.fromkeys(assumed)))


def _check(table: Table, scheme: Scheme) -> None:
    named = [*scheme.columns, *(one.over for one in scheme.columns.values() if one.over)]
    if scheme.rows.startswith(FOR_EACH):
        named.append(scheme.rows.removeprefix(FOR_EACH))
    for head in named:
        if head not in table.heads:
            hint = did_you_mean(head, table.heads)
            raise NoTable(
                f"no column is headed {quoted(head)}, which the mapping names"
                + (f"; {hint}" if hint else "; rename it there, or take its line out")
            )
    keys = {"on", "time", "landed", "aircraft", "item", scheme.kind, *further(scheme.kind)}
    for key in (*scheme.every, *(one.key for one in scheme.columns.values())):
        if key.partition(".")[0] not in keys:
            hint = did_you_mean(key, keys)
            reason = f"{quoted(scheme.kind)} has no key {quoted(key)}"
            raise NoTable(reason + (f"; {hint}" if hint else ""))


def _groups(table: Table, scheme: Scheme) -> Iterator[Sequence[Row]]:
    rows = [row for row in table.rows if row.line not in scheme.skip]
    if scheme.rows == EACH:
        yield from ([row] for row in rows)
    elif scheme.rows == ALL:
        if rows:
            yield rows
    else:
        head = scheme.rows.removeprefix(FOR_EACH)
        block: list[Row] = []
        for row in rows:
            if block and row.cells.get(head) != block[-1].cells.get(head):
                yield block
                block = []
            block.append(row)
        if block:
            yield block


def _fill(entry: NewEntry, rows: Sequence[Row], scheme: Scheme, ledger: Ledger) -> None:
    """Say all keys. WrongWords: a cell that is no value of its kind, or something is missing."""
    for beyond in (cell for row in rows for cell in row.beyond):
        raise WrongWords(f"{quoted(beyond)} stands beyond the last head; quote a text with a comma")
    lists: dict[str, list[Tree]] = {}
    time = landed = None
    for key, text in scheme.every.items():
        if text:
            _say(entry, Column(key), text, scheme, ledger, lists)
    for head, column in scheme.columns.items():
        cell = _taken(rows, head, column, scheme)
        if not cell:
            continue
        if column.key == "time":
            time = time_of(cell)
            if time is None:
                hint = f"; write {quoted(head)}: {{is: on}}" if day_of(cell, scheme.days) else ""
                raise WrongWords(f"{quoted(cell)} is not a time of the day{hint}")
        elif column.key == "landed":
            landed = cell
        else:
            _say(entry, column, cell, scheme, ledger, lists)
    for key, values in lists.items():
        entry.entry[key] = values if key != "note" else "; ".join(str(each) for each in values)
    if landed is not None and not entry.entry.get(entry.kind):
        length = between(time or str(entry.entry.get("on", ""))[11:], landed)
        if length is None or entry.kind != "flight":
            raise WrongWords(f"{quoted(landed)} is not when a flight ended that has its beginning")
        entry.add(own_key("flight"), length)
    _complete(entry, time)


def _complete(entry: NewEntry, time: str | None) -> None:
    on = entry.entry.get("on")
    if not on:
        raise WrongWords("no day")
    if time is not None and "T" not in str(on):
        on = f"{on}T{time}"
    if not entry.entry.get(entry.kind):
        raise WrongWords(f"no {entry.kind}")
    if entry.kind in ("charge", "capacity", "state") and entry.aircraft is None:
        packs = entry.entry[entry.kind]
        entry.item = packs if isinstance(packs, str) else next(iter(map(str, packs)))
    if entry.aircraft is None and entry.item is None:
        raise WrongWords("no aircraft")
    needed = [key for key, field in further(entry.kind).items() if field.required]
    for key in needed:
        if key not in ("on", *entry.entry):
            raise WrongWords(f"no {key}")
    rest = {key: value for key, value in entry.entry.items() if key not in ("on", entry.kind)}
    entry.entry = {"on": on, entry.kind: entry.entry[entry.kind], **rest}


def _say(
    entry: NewEntry,
    column: Column,
    cell: str,
    scheme: Scheme,
    ledger: Ledger,
    lists: dict[str, list[Tree]],
) -> None:
    """Say one key of the entry, or more of a list."""
    key = column.key
    cell = scheme.names.get(cell) or cell
    if key == "on":
        day = day_of(cell, scheme.days)
        if day is None:
            raise WrongWords(f"{quoted(cell)} is not a day, read {scheme.days}")
        parse_day(day)
        entry.entry["on"] = day
    elif key == "aircraft":
        entry.aircraft = named_aircraft(cell, ledger)
        if entry.aircraft is None:
            raise WrongWords(_no_aircraft(cell, ledger))
    elif key == "item" and key not in further(entry.kind):
        entry.item = cell
    elif key in ("pack", "charge", "item"):
        entry.add(
            own_key(key) if key == entry.kind else further(entry.kind)[key],
            ",".join(_tags(cell, scheme, ledger)),
        )
    elif key in _DURATIONS:
        length = duration_of(cell, column.unit or "min")
        if length is None:
            raise WrongWords(f"{quoted(cell)} is not a duration")
        entry.add(own_key(key) if key == entry.kind else further(entry.kind)[key], length)
    elif key in _CELLS:
        for each in measurements(cell):
            _say_value(entry, key, _with_unit(each, column.unit), lists)
    else:
        _say_value(entry, key, _with_unit(cell, column.unit), lists)


def _no_aircraft(name: str, ledger: Ledger) -> str:
    names = [*ledger.aircraft, *(one.aircraft for one in ledger.aircraft.values())]
    hint = did_you_mean(name, names)
    return f"no aircraft is called {quoted(name)}" + (f"; {hint}" if hint else "")


def _tags(cell: str, scheme: Scheme, ledger: Ledger) -> list[str]:
    """The items that a cell names, one or several. WrongWords: one of them is nobody's."""
    names = names_of_packs(cell, [*ledger.items, *scheme.names])
    tags = [scheme.names.get(name) or name for name in names]
    for tag in tags:
        if tag not in ledger.items:
            alike = numbered(tag, packs_of(ledger))
            hint = did_you_mean(tag, ledger.items)
            if len(alike) > 1:
                hint = f"did you mean {listed([quoted(each) for each in alike], 'or')}?"
            raise WrongWords(f"no item is called {quoted(tag)}" + (f"; {hint}" if hint else ""))
    return tags


def _say_value(entry: NewEntry, key: str, text: str, lists: dict[str, list[Tree]]) -> None:
    outer, _, inner = key.partition(".")
    field = own_key(key) if key == entry.kind else further(entry.kind)[outer]
    if inner:
        group = field.value.fields if isinstance(field.value, Group) else {}
        if inner not in group:
            raise WrongWords(f"{quoted(outer)} has no key {quoted(inner)}")
        old = entry.entry.get(outer)
        more = {inner: entry.value(group[inner], text)}
        entry.entry[outer] = {**(old if isinstance(old, Mapping) else {}), **more}
    elif key in _CELLS:
        value = entry.value(field, text)
        lists.setdefault(key, []).extend([value] if isinstance(value, str) else value)
    elif key == "note":
        lists.setdefault(key, []).append(text)
    else:
        entry.add(field, text)


def _with_unit(cell: str, unit: str | None) -> str:
    """The cell with the unit of its column where it is a bare number."""
    plain = cell.removesuffix(unit).strip() if unit else cell
    return f"{plain} {unit}" if unit and _NUMBER_OR_SPAN(plain) else cell


def _taken(rows: Sequence[Row], head: str, column: Column, scheme: Scheme) -> str:
    """The cell of the row; of several rows what the scheme takes."""
    commas = scheme.decimals == "comma"
    texts = column.key in ("on", "note", "wind", "handling", "place", "aircraft")
    cells = [
        text if texts else plain_number(text, commas=commas, unit=column.unit)
        for row in rows
        if (text := row.cells.get(head, "").strip())
    ]
    if not cells:
        return ""
    if not texts and column.key in MEASURED:
        for cell in filter(_COMMA, cells):
            raise WrongWords(
                f"{quoted(cell)} under {quoted(head)} has a decimal comma; write decimals: comma"
                " in the mapping"
            )
    take = column.take or "last"
    if len(rows) == 1 and column.take is None:
        return cells[0]
    if take in ("first", "last"):
        return cells[0 if take == "first" else -1]
    of_day = column.key in _DURATIONS and second_of_day(cells[0]) is not None
    numbers = [
        at_s if of_day and (at_s := second_of_day(cell)) is not None else _number(cell, head)
        for cell in cells
    ]
    if take == "amount":
        return _amount(rows, head, column, scheme)
    value = _TAKEN[take](numbers)
    if column.key in _DURATIONS:
        return f"{value * (1 if of_day else _SECONDS.get(column.unit or 'min', 60)):.0f} s"
    return f"{value:.6g}"


def _amount(rows: Sequence[Row], head: str, column: Column, scheme: Scheme) -> str:
    """Charge in mAh: current times time, by the trapezium rule; in seconds unless the head says."""
    fix = partial(plain_number, commas=scheme.decimals == "comma", unit=None)
    pairs = [
        (_number(fix(row.cells.get(column.over or "", "")), column.over or "over"),
         _number(fix(row.cells.get(head, "")), head))
        for row in rows
    ]  # fmt: skip
    unit = _UNIT_IN_HEAD(column.over or "")
    seconds = _SECONDS[unit[1] if unit else "s"]
    amps = 0.001 if column.unit == "mA" else 1.0
    area = sum((t1 - t0) * (one + two) / 2 for (t0, one), (t1, two) in pairwise(pairs))
    return f"{area * seconds * amps / 3.6:.0f} mAh"


def _number(text: str, head: str) -> float:
    try:
        return float(text)
    except ValueError:
        raise WrongWords(f"{quoted(text)} under {quoted(head)} is not a number") from None


def holds_entries(path: Path) -> bool:
    """Whether a file is JSON rather than a table: by its name, or a text that begins like it.

    Telephones share entries as .txt, which they let through where they stop .json.
    """
    suffix = path.suffix.lower()
    if suffix != ".txt":
        return suffix == ".json"
    try:
        with path.open("rb") as file:
            begins = file.read(64).removeprefix(b"\xef\xbb\xbf").lstrip()
    except OSError:
        return False
    return begins.startswith((b"{", b"["))


def read_entries(path: Path, ledger: Ledger) -> Brought:
    """Entries that were written as JSON: a list, or ``{"entries": [...]}``, each as in a logbook.

    Each has ``aircraft`` (slug or name) or ``item`` (tag) beside the keys of the entry; one with an
    ``id`` is told by it, whatever else is like it. NoTable: it is none such.
    """
    try:
        data = path.read_bytes()
        if len(data) > _MOST_BYTES:
            raise NoTable(
                f"{path.name} is larger than the {_MOST_BYTES // 1048576} MB that are read"
            )
        whole = json.loads(data.decode("utf-8-sig"), parse_float=str, parse_int=str)
    except OSError as error:
        raise NoTable(f"{path} can't be read: {(error.strerror or str(error)).lower()}") from error
    except (ValueError, RecursionError) as error:
        raise NoTable(f"{path.name} is no JSON: {str(error).lower()}") from error
    rows = whole.get("entries") if isinstance(whole, dict) else whole
    if not isinstance(rows, list) or not all(isinstance(row, dict) for row in rows):
        raise NoTable(f"{path.name} is not a list of entries")
    wanted: list[Wanted] = []
    unplaced: list[Unplaced] = []
    for number, row in enumerate(rows, 1):
        try:
            wanted.append(_from_json(row, ledger))
        except (WrongWords, NotationError) as error:
            unplaced.append(Unplaced(number, str(error)))
    return Brought(tuple(wanted), tuple(unplaced))


def _from_json(row: dict[str, Any], ledger: Ledger) -> Wanted:
    entry = {str(key): _tree(value) for key, value in row.items()}
    kind = next((key for key in (*KINDS, *AMENDING) if key in entry and key != "note"), "note")
    name = entry.pop("aircraft", None)
    item = entry.get("item") if kind == "defect" else entry.pop("item", None)
    if kind == "inspection" and name is None and item is not None:
        entry.setdefault("tags", [item])
    slug = None if name is None else named_aircraft(str(name), ledger)
    if name is not None and slug is None:
        raise WrongWords(_no_aircraft(str(name), ledger))
    if slug is None and item is None and kind in ("charge", "capacity"):
        packs = entry[kind]
        item = packs if isinstance(packs, str) else next(iter(packs), None)
    if slug is None and item is None:
        raise WrongWords("neither aircraft nor item")
    on = str(entry.get("on", "")).replace(" ", "T", 1)
    parse_day(on)
    return Wanted({**entry, "on": on}, slug, None if slug or item is None else str(item))


def _tree(value: Any) -> Tree:
    if isinstance(value, dict):
        return {str(key): _tree(each) for key, each in value.items()}
    if isinstance(value, list):
        return [_tree(each) for each in value]
    if isinstance(value, bool):
        return "true" if value else "false"
    return "" if value is None else str(value)
