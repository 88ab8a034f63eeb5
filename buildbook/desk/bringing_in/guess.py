"""A first guess of how somebody else's table is to be read, from its heads and its cells."""

import re
from collections.abc import Iterator, Mapping, Sequence, Set
from itertools import pairwise
from statistics import median

import msgspec

from buildbook.basis.amounts import listed
from buildbook.basis.notation import quoted
from buildbook.desk.bringing_in.foreign import (
    Days,
    are_clocks,
    day_of,
    has_commas,
    is_no_time_of_day,
    likely_days,
    same_name,
    second_of_day,
    thousands,
    time_of,
    with_points,
)
from buildbook.desk.bringing_in.heads import (
    DISCHARGED,
    MEASURED,
    UNITS,
    contradicted,
    is_of_flight,
    key_of,
    mode_of,
    plain_head,
)
from buildbook.desk.bringing_in.names import LANDINGS, aircraft_in, names_there, pack_in, surely
from buildbook.desk.bringing_in.scheme import ALL, EACH, Column, Scheme
from buildbook.desk.bringing_in.tables import Numeral, Table
from buildbook.desk.said.flights_said import packs_of
from buildbook.desk.spoken import further
from buildbook.records.ledger import Ledger

_LIST_KEYS = ("resistance", "resting", "note")
_SERIES_ROWS = 15
_LONGEST_STEP_S = 10
"""A transmitter writes more often than that; common practice, no source."""

_IN_NAME = re.compile(r"20\d\d[-_.]?\d\d[-_.]?\d\d").search
_BARE = re.compile(r"-?\d+(?:\.\d+)?").fullmatch


def guess(table: Table, ledger: Ledger, file: str, sheet: str | None = None) -> Scheme:
    """The likeliest scheme. file: the name of the file, which may say a day. sheet: of a book."""
    commas = has_commas(cell for row in table.rows for cell in row.cells.values())
    commas = commas or any(_has_thousands(table, head) for head in table.heads)
    cells = _cells(table, commas)
    series = _is_series(table, cells)
    columns = dict(_series_columns(cells) if series else _columns(cells, ledger))
    keys = {column.key for column in columns.values()}
    kind = _kind(keys)
    if kind == "charge":
        named = {"pack": "charge", **({} if "put_in" in keys else {"used": "put_in"})}
        columns = {
            head: msgspec.structs.replace(one, key=named.get(one.key, one.key))
            for head, one in columns.items()
        }
    columns = _fitting(columns, kind, keys)
    doubts = [*_doubts_of_heads(table, kind, columns, series), *_whole(table, columns, commas)]
    days = [text for head, one in columns.items() if one.key == "on" for text in cells[head]]
    order, sure = likely_days([day for day in days if day])
    if not sure:
        doubts.append(f"days may be day-first or month-first, {quoted(days[0])} is taken {order}")
    if any(day.endswith("Z") for day in days):
        doubts.append("times that end in Z are of UTC, and are taken as they stand")
    skip = () if series else tuple(_sums(table, columns, order))
    if given := tuple(_discharges(table, columns)):
        are = "is a discharge" if len(given) == 1 else "are discharges"
        doubts.append(
            f"{listed([f'line {line}' for line in given], 'and')} {are}, and left out; enter"
            " capacity says what came out of a full pack"
        )
        skip = tuple(sorted({*skip, *given}))
    if series and kind == "flight":
        doubts.append("the flight is taken to last as long as the log runs")
    if skip:  # a sum may be hours where the rows are minutes
        own = _cells(table, commas, skip)
        columns = {
            head: msgspec.structs.replace(
                one, unit=_unit(one.key, head, own[head]) if one.unit else None
            )
            for head, one in columns.items()
        }
    every, more = _for_every(kind, columns, ledger, file)
    scheme = Scheme(
        kind=kind,
        rows=ALL if series else EACH,
        heads=table.head_line,
        days=order,
        decimals="comma" if commas else "point",
        every=every,
        columns=columns,
        skip=skip,
        left_out=tuple(head for head in table.heads if head not in columns),
        doubts=(*doubts, *more),
        sheet=sheet,
    )
    return _with_names(scheme, dict(names_there(table, scheme, ledger)), ledger)


def _with_names(scheme: Scheme, names: dict[str, str], ledger: Ledger) -> Scheme:
    """The scheme with what its cells are taken for, and a doubt of each that is only like one."""
    taken = tuple(
        f"{quoted(cell)} is taken for {slug}, the aircraft most like it"
        for cell, slug in names.items()
        if slug in ledger.aircraft and not surely(cell, ledger)
    )
    return msgspec.structs.replace(scheme, names=names, doubts=(*scheme.doubts, *taken))


def _kind(keys: Set[str]) -> str:
    """What a row is. A charger's log has a duration as well, but neither aircraft nor landing."""
    flown = not keys.isdisjoint(("aircraft", "landing", "motor_run"))
    charged = not keys.isdisjoint(("put_in", "to", "resistance", "current"))
    if charged and not flown:
        return "charge"
    timed = "flight" in keys or {"time", "landed"} <= set(keys)
    return "flight" if timed or "put_in" not in keys else "charge"


def _fitting(columns: dict[str, Column], kind: str, keys: Set[str]) -> dict[str, Column]:
    """The columns that an entry of the kind can have."""
    if "flight" in keys or kind != "flight":
        columns = {head: one for head, one in columns.items() if one.key != "landed"}
    allowed = {"on", "time", "landed", "aircraft", "item", kind, *further(kind)}
    columns = {head: one for head, one in columns.items() if one.key.partition(".")[0] in allowed}
    if kind == "flight":  # there it is that of the air
        columns = {
            head: one
            for head, one in columns.items()
            if one.key != "temperature" or "pack" not in _words_mean(head)
        }
    return columns


def _doubts_of_heads(
    table: Table, kind: str, columns: Mapping[str, Column], series: bool
) -> list[str]:
    """What the heads leave open: a unit against its words, a flight or a charge."""
    doubts = [
        f"{quoted(head)}: its unit does not fit its words; nothing is taken from it"
        for head in table.heads
        if contradicted(head) and head not in columns
    ]
    if kind == "flight" and not series and _may_be_charges(columns):
        doubts.append("kind: nothing says that a row is a flight; it may be a charge")
    return doubts


def _may_be_charges(columns: Mapping[str, Column]) -> bool:
    """Whether rows that were taken for flights have a pack, and nothing that a charge has not."""
    keys = {column.key for column in columns.values()}
    if "pack" not in keys or not keys.isdisjoint(_FLOWN):
        return False
    worded = [head for head, column in columns.items() if column.key in ("flight", "used")]
    return not any(
        is_of_flight(head)
        or (columns[head].key == "used" and key_of(plain_head(head)[0]) == "used")
        for head in worded
    )


_FLOWN = ("aircraft", "landing", "motor_run", "wind", "place")


def _words_mean(head: str) -> set[str | None]:
    return {key_of(word) for word in plain_head(head)[0].split()}


def _discharges(table: Table, columns: Mapping[str, Column]) -> Iterator[int]:
    """The lines of a charger's log that are no charges."""
    for head in (head for head, column in columns.items() if column.key == "to"):
        yield from (
            row.line for row in table.rows if mode_of(row.cells.get(head, "")) == DISCHARGED
        )


def _whole(table: Table, columns: Mapping[str, Column], commas: bool) -> Iterator[str]:
    """Numbers of which the comma may be either, each column once."""
    for head, column in columns.items():
        cells = [cell for cell in _column(table, head) if thousands(cell)]
        if cells and column.unit in ("mAh", "Ah"):
            read = cells[0].replace(",", "." if commas and column.unit == "Ah" else "")
            yield f"{quoted(cells[0])} under {quoted(head)} is read as {read} {column.unit}"


def _has_thousands(table: Table, head: str) -> bool:
    """Whether ``1.480`` under mAh has a point between thousands: no pack gives a few mAh."""
    cells = [cell for cell in _column(table, head) if not isinstance(cell, Numeral)]
    pointed = [cell for cell in cells if re.fullmatch(r"\d{1,2}\.\d{3}", cell)]
    return plain_head(head)[1] == "mah" and bool(pointed) and len(pointed) * 2 > len(cells)


_SUMS = (
    "total", "totals", "sum", "sums", "summe", "gesamt", "gesamtzeit", "subtotal", "zwischensumme",
    "übertrag", "carried",
)  # fmt: skip


def _sums(table: Table, columns: Mapping[str, Column], order: Days) -> Iterator[int]:
    """The lines of rows that have no day and say that they are sums."""
    days = [head for head, column in columns.items() if column.key == "on"]
    for row in table.rows:
        words = {
            word.strip(":.") for cell in row.cells.values() for word in cell.casefold().split()
        }
        dated = days and day_of(row.cells.get(days[0], ""), order)
        if days and not dated and words & set(_SUMS):
            yield row.line


def _cells(table: Table, commas: bool, without: Sequence[int] = ()) -> dict[str, list[str]]:
    """What stands under each head, but in some lines."""
    return {
        head: [with_points(text) if commas else text for text in _column(table, head, without)]
        for head in table.heads
    }


def _column(table: Table, head: str, without: Sequence[int] = ()) -> list[str]:
    rows = [row for row in table.rows if row.line not in without]
    return [text for row in rows if (text := row.cells.get(head, ""))]


def _key_by_cells(cells: Sequence[str], ledger: Ledger) -> str | None:
    """What a column is by what stands in it, where its head is no word that is known."""
    few = {cell for cell in cells if cell.casefold().strip(":.") not in _SUMS}
    if len(cells) < 3:
        return None
    if all(cell.casefold() in (*LANDINGS, "normal", "hard", "crash") for cell in few):
        return "landing"
    if all(day_of(cell, "day-first") or day_of(cell, "month-first") for cell in few):
        return "on"
    names = [*ledger.aircraft, *(one.aircraft for one in ledger.aircraft.values())]
    if all(any(same_name(cell, [name]) for name in names) for cell in few):
        return "aircraft"
    return "pack" if all(same_name(cell, packs_of(ledger)) for cell in few) else None


def _columns(cells: Mapping[str, Sequence[str]], ledger: Ledger) -> Iterator[tuple[str, Column]]:
    """Each head with its key; of two heads for one key the better one, except for lists."""
    keys = {head: key_of(head) for head in cells}
    for head, key in keys.items():
        if key is None:
            keys[head] = _key_by_cells(cells[head], ledger)
    for head, key in keys.items():  # a column 'Zeit' may be the day with its time
        if key == "time" and "on" not in keys.values() and _are_moments(cells[head]):
            keys[head] = "on"
    if "on" in keys.values() and not {"time", "landed"} & {*keys.values()}:
        clocks = [h for h, key in keys.items() if key is None and are_clocks(cells[h])]
        keys.update(dict.fromkeys(clocks[:1], "time"))
    for head, key in keys.items():  # a column 'Landung' or 'End' may be when it landed
        if key == "landed" and plain_head(head)[1] in UNITS["voltage"]:
            keys[head] = None
        if key == "landing" and cells[head] and all(map(time_of, cells[head])):
            keys[head] = "landed"
    by_clock = {"time", "landed"} <= set(keys.values())
    if "flight" not in keys.values() and not by_clock:  # a column 'Time' may be how long it was
        lengths = {
            head: sum(map(is_no_time_of_day, cells[head]))
            for head, key in keys.items() if key == "time"
        }  # fmt: skip
        most = max(lengths, key=lambda head: lengths[head], default=None)
        if most is not None and lengths[most]:
            keys[most] = "flight"
    taken: set[str] = set()
    for head, key in keys.items():
        if key is None or (key in taken and key not in _LIST_KEYS) or not cells[head]:
            continue
        taken.add(key)
        yield head, Column(key, _unit(key, head, cells[head]))


def _are_moments(cells: Sequence[str]) -> bool:
    """Whether days stand there, each with its time."""
    days = (day_of(cell, "day-first") or day_of(cell, "month-first") for cell in cells)
    return bool(cells) and all(day is not None and "T" in day for day in days)


def _unit(key: str, head: str, cells: Sequence[str]) -> str | None:
    """The unit of bare numbers: that of the head, else the one that their size makes likely."""
    measured = MEASURED.get(key)
    if measured is None:
        return None
    unit = UNITS[measured].get(plain_head(head)[1])
    if measured == "duration":
        return _duration_unit(unit, cells)
    bare = [float(cell) for cell in cells if _BARE(cell)]
    if unit is not None or not bare:
        return unit
    if measured == "charge":
        return "mAh" if median(bare) >= 20 else "Ah"
    usual = {"current": "A", "temperature": "°C", "resistance": "mΩ", "voltage": "V"}
    return usual.get(measured)


def _duration_unit(unit: str | None, cells: Sequence[str]) -> str:
    clocks = [cell for cell in cells if ":" in cell]
    if clocks:
        three = [cell for cell in clocks if cell.count(":") == 2]
        if three and unit not in ("h:m", "h:m:s"):
            round_ones = all(cell.endswith(":00") for cell in three)
            hours = any(not re.match(r"0?0:", cell) for cell in three)
            # typed as 7:20, taken by the sheet for hours and minutes
            return "m:s" if round_ones and hours else "h:m:s"
        return unit if unit in ("h:m", "h:m:s", "m:s") else "m:s"
    bare = [float(cell) for cell in cells if _BARE(cell)]
    return unit or ("s" if bare and median(bare) > 60 else "min")


def _is_series(table: Table, cells: Mapping[str, Sequence[str]]) -> bool:
    """Whether rows follow each other in seconds: a clock that runs, and no day a row."""
    heads = [head for head in cells if plain_head(head)[0] in ("time", "t", "zeit", "seconds")]
    charger = _is_of_one_charge(table)
    if not heads or (len(table.rows) < _SERIES_ROWS and not charger):
        return False
    clock = cells[heads[0]]
    bare = [float(cell) for cell in clock if _BARE(cell)]
    if not bare:  # the time of the day, to the second
        bare = [at_s for cell in clock if (at_s := second_of_day(cell)) is not None]
        if not charger and len(bare) > 1 and bare[-1] - bare[0] > _LONGEST_STEP_S * len(bare):
            return False
    rising = all(one <= two for one, two in pairwise(bare))
    return len(bare) >= len(table.rows) - 1 and rising


def _is_of_one_charge(table: Table) -> bool:
    """Whether rows, however few, are of one charge: voltage and current, and no day or name."""
    names = {plain_head(head)[0] for head in table.heads}
    keys = {key_of(head) for head in table.heads}
    read = any("volt" in name or "spannung" in name for name in names)
    no_names = keys.isdisjoint(("on", "aircraft", "pack", "landing", "flight"))
    return len(table.rows) > 2 and read and no_names and not keys.isdisjoint(("current", "put_in"))


def _series_columns(cells: Mapping[str, Sequence[str]]) -> Iterator[tuple[str, Column]]:
    """A charger counts what it puts in, or tells the current; a transmitter runs a clock."""
    plain = {head: plain_head(head) for head in cells}
    clock = next(
        head for head, (name, _) in plain.items() if name in ("time", "t", "zeit", "seconds")
    )
    of_day = second_of_day(next(iter(cells[clock]), "")) is not None
    unit = None if of_day else UNITS["duration"].get(plain[clock][1]) or "s"
    is_flight = any(
        word in name.split()
        for name, _ in plain.values()
        for word in ("throttle", "thr", "rssi", "altitude", "alt", "gps")
    )
    amount = "used" if is_flight else "put_in"
    if is_flight:
        yield clock, Column("flight", unit, "span")
    counted = [h for h, (name, u) in plain.items() if u in ("mah", "ah") or "capacity" in name]
    current = [h for h, (name, u) in plain.items() if "current" in name or u == "a"]
    if counted:
        yield counted[0], Column(amount, _unit("used", counted[0], cells[counted[0]]), "most")
    elif current:
        yield (
            current[0],
            Column(amount, (plain[current[0]][1] == "ma" and "mA") or "A", "amount", clock),
        )
    for head in cells:
        key = key_of(head)
        if key in ("on", "aircraft", "pack"):
            yield head, Column(key, None, "first")
        elif key == "temperature":
            yield head, Column(key, _unit(key, head, cells[head]), "most")


def _for_every(
    kind: str, columns: Mapping[str, Column], ledger: Ledger, file: str
) -> tuple[dict[str, str], list[str]]:
    """What holds for all rows because no column says it, and what has to be written there."""
    keys = {column.key for column in columns.values()}
    every: dict[str, str] = {}
    missing = []
    if "on" not in keys:
        named = _IN_NAME(file)
        day = day_of(re.sub(r"[_.]", "-", named[0]), "year-first") if named else None
        every["on"] = day or ""
    if kind == "charge" and "charge" not in keys:
        every["charge"] = pack_in(file, ledger) or ""
    if kind == "flight" and "aircraft" not in keys:
        only = next(iter(ledger.aircraft)) if len(ledger.aircraft) == 1 else None
        every["aircraft"] = aircraft_in(file, ledger) or only or ""
    missing = [
        f"no column says {key}; write it under all" for key, value in every.items() if not value
    ]
    return every, missing
