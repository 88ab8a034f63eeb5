"""Tables of bench/: CSV with the unit of each column in its header."""

import csv
import re

from buildbook.basis import notation
from buildbook.basis.nearest import did_you_mean
from buildbook.basis.notation import NotationError, quoted
from buildbook.basis.place import Place
from buildbook.basis.problems import Problems
from buildbook.basis.sizes import most
from buildbook.basis.units import STANDARD_GRAVITY_M_S2
from buildbook.records.keys.plain_text import Unreadable, decoded
from buildbook.records.ledger import BenchRow, BenchTable

_FORCE = STANDARD_GRAVITY_M_S2 / 1000  # of a gram

# The columns by their header: the attribute, the factor to SI, the least and the most.
COLUMNS: dict[str, tuple[str, float, float, float]] = {
    "throttle_%": ("throttle_share", 0.01, 0, 100),
    "voltage_V": ("voltage_v", 1.0, 0, 200),
    "voltage_mV": ("voltage_v", 0.001, 0, 200_000),
    "current_A": ("current_a", 1.0, 0, 1000),
    "current_mA": ("current_a", 0.001, 0, 1_000_000),
    "thrust_g": ("thrust_n", _FORCE, 0, 200_000),
    "thrust_kg": ("thrust_n", _FORCE * 1000, 0, 200),
    "thrust_oz": ("thrust_n", _FORCE * 28.349523125, 0, 7000),
    "thrust_lb": ("thrust_n", _FORCE * 453.59237, 0, 440),
    "thrust_N": ("thrust_n", 1.0, 0, 2000),
    "rpm": ("rotation_rpm", 1.0, 0, 200_000),
    "J": ("advance_ratio", 1.0, 0, 3),
    "CT": ("thrust_coefficient", 1.0, -1, 1),
    "CP": ("power_coefficient", 1.0, -1, 1),
}
PASSED_OVER = ("eta",)  # J·CT/CP, which published tables of propellers have too
_BY_FOLDED = {name.casefold(): name for name in (*COLUMNS, *PASSED_OVER)}
_UNIT_APART = re.compile(r"\s*[(\[]\s*|\s+")
_MOST_ROWS = most("bench")


def read_bench(data: bytes, file: str, problems: Problems) -> BenchTable | None:
    """One file of bench/; None where its header cannot be read."""
    try:
        text = decoded(data)
        lines = list(csv.reader(text.splitlines(), strict=True))
    except Unreadable as error:
        for reason, line, hint in error.faults:
            problems.add(reason, Place(file, line), hint=hint)
        return None
    except csv.Error as error:
        problems.add(f"not readable as CSV: {error}", Place(file, 1))
        return None
    header = [_head(name) for name in lines[0]] if lines else []
    if not _header(header, file, problems):
        return None
    if len(lines) > _MOST_ROWS:
        problems.add(f"table of {len(lines)} rows, more than {_MOST_ROWS}", Place(file, 1))
        return None
    rows = []
    for number, cells in enumerate(lines[1:], start=2):
        if any(cell.strip() for cell in cells):
            row = _row(header, cells, file, number, problems)
            if row is not None:
                rows.append(row)
    if len(lines) == 1:
        problems.add("the table has no rows", Place(file, 1), hint="a row for each throttle")
        return None
    return BenchTable(file=file, rows=tuple(rows), heads=tuple(header))


def _head(written: str) -> str:
    """The column that is meant: ``Thrust (g)`` and ``thrust [g]`` are ``thrust_g``."""
    plain = _UNIT_APART.sub("_", written.strip().rstrip(")]").strip())
    return _BY_FOLDED.get(plain.casefold(), written.strip())


def _header(header: list[str], file: str, problems: Problems) -> bool:
    top, before = Place(file, 1), len(problems)
    if not any(header):
        problems.add("the table has no header", top, hint=f"columns: {', '.join(COLUMNS)}")
        return False
    known = [name for name in header if name in COLUMNS]
    for name in header:
        if name not in COLUMNS and name not in PASSED_OVER:
            hint = did_you_mean(name, COLUMNS) or f"columns: {', '.join(COLUMNS)}"
            problems.add(f"unknown column {quoted(name)}", top, hint=hint)
    attributes = [COLUMNS[name][0] for name in known]
    if len(set(attributes)) < len(attributes):
        problems.add("a column exists twice", top)
    of_propeller = {"thrust_coefficient", "power_coefficient"} <= set(attributes)
    if "thrust_n" not in attributes and not of_propeller:
        problems.add("the table has no column of thrust", top, hint="thrust_g or thrust_N")
    return len(problems) == before


def _row(
    header: list[str], cells: list[str], file: str, number: int, problems: Problems
) -> BenchRow | None:
    place = Place(file, number)
    if len(cells) != len(header):
        problems.add(f"row of {len(cells)} values below {len(header)} columns", place)
        return None
    read: dict[str, float] = {}
    for name, cell in zip(header, cells, strict=True):
        if name in PASSED_OVER:
            continue
        attribute, factor, least, most = COLUMNS[name]
        if not cell.strip():
            continue
        try:
            value = notation.number(cell)
        except NotationError as error:
            problems.add(f"{error.reason} in column {quoted(name)}", place, hint=error.hint)
            return None
        if not least <= value <= most:
            problems.add(
                f"{quoted(cell)} in column {quoted(name)} is not from {least:g} to {most:g}", place
            )
            return None
        read[attribute] = value * factor
    return BenchRow(line=number, **read)
