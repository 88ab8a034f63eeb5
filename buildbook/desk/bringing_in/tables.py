"""Tables of other programs become rows of texts: CSV, TSV, XLSX."""

import csv
import datetime
import io
import re
from collections.abc import Iterable, Iterator, Sequence
from pathlib import Path
from typing import Any

import msgspec

_MOST_BYTES = 20 * 1024 * 1024
_MOST_ROWS = 50_000
_MOST_COLUMNS = 200
_LOOKED_AT = 30
_SEPARATORS = (",", ";", "\t", "|")


class NoTable(Exception):
    """The file can't be read as a table; the text is one sentence."""


class Row(msgspec.Struct, frozen=True):
    """A row: its line (or row of the sheet) from 1, and its cells by their heads."""

    line: int
    cells: dict[str, str]


class Table(msgspec.Struct, frozen=True):
    """A table with the heads of its columns, each different. head_line: where they stand."""

    heads: tuple[str, ...]
    rows: tuple[Row, ...]
    head_line: int


def read_table(path: Path, head_line: int | None = None) -> Table:
    """The table in a file. head_line: where the heads stand, else the likeliest of the first lines.

    NoTable: not there, too large, no table, or a kind of file that is not read.
    """
    try:
        if path.stat().st_size > _MOST_BYTES:
            raise NoTable(f"{path} is larger than the {_MOST_BYTES // 1048576} MB that are read")
        if path.suffix.lower() in (".xlsx", ".xlsm"):
            lines = _sheet(path)
        elif path.suffix.lower() in (".csv", ".tsv", ".txt", ".log"):
            lines = _separated(path.read_bytes(), path)
        else:
            raise NoTable(f"{path.name} is none of .csv, .tsv, .xlsx and .json; save it as one")
    except OSError as error:
        raise NoTable(f"{path} can't be read: {(error.strerror or str(error)).lower()}") from error
    if len(lines) > _MOST_ROWS:
        raise NoTable(f"{path} has more than {_MOST_ROWS:,} rows; split it")
    return _table(path, lines, head_line)


def _table(path: Path, lines: Sequence[Sequence[str]], head_line: int | None) -> Table:
    at = _head_at(lines) if head_line is None else head_line - 1
    if at is None or not 0 <= at < len(lines) or not any(lines[at]):
        raise NoTable(f"{path.name} has no row of heads over its columns")
    heads = tuple(_distinct(cell.strip() for cell in lines[at]))
    if len(heads) > _MOST_COLUMNS:
        raise NoTable(f"{path.name} has more than {_MOST_COLUMNS} columns")
    rows = (
        Row(number, {head: cell.strip() for head, cell in zip(heads, line, strict=False) if head})
        for number, line in enumerate(lines[at + 1 :], at + 2)
    )
    return Table(
        tuple(head for head in heads if head),
        tuple(row for row in rows if any(row.cells.values())),
        at + 1,
    )


def _head_at(lines: Sequence[Sequence[str]]) -> int | None:
    """The first line with as many words, and no numbers, as the widest of the first lines."""
    first = lines[:_LOOKED_AT]
    widest = max((sum(map(bool, line)) for line in first), default=0)
    for at, line in enumerate(first):
        filled = [cell for cell in line if cell]
        numbers = sum(bool(re.fullmatch(r"[\d.,:/ -]+", cell)) for cell in filled)
        if len(filled) >= max(2, widest * 2 // 3) and not numbers:
            return at
    return None


def _distinct(heads: Iterable[str]) -> Iterator[str]:
    seen: dict[str, int] = {}
    for head in heads:
        name = " ".join(head.split())
        seen[name] = seen.get(name, 0) + 1
        yield f"{name} ({seen[name]})" if name and seen[name] > 1 else name


def _separated(data: bytes, path: Path) -> list[list[str]]:
    if b"\0" in data and data[:2] not in (b"\xff\xfe", b"\xfe\xff"):
        raise NoTable(f"{path.name} is not text; save it as CSV in UTF-8")
    if data[:2] in (b"\xff\xfe", b"\xfe\xff"):
        text = data.decode("utf-16", "replace")
    else:
        try:
            text = data.decode("utf-8-sig")
        except UnicodeDecodeError:
            text = data.decode("cp1252", "replace")  # what older spreadsheets write
    first = "\n".join(text.splitlines()[:_LOOKED_AT])
    separator = max(_SEPARATORS, key=lambda sign: _evenness(first, sign))
    try:
        return [list(line) for line in csv.reader(io.StringIO(text), delimiter=separator)]
    except csv.Error as error:
        raise NoTable(f"{path.name} can't be read as a table: {error}") from error


def _evenness(text: str, separator: str) -> tuple[int, int]:
    """How many lines have the usual number of columns, and how many columns that is."""
    widths = [len(line) for line in csv.reader(io.StringIO(text), delimiter=separator) if line]
    usual = max(set(widths), key=lambda width: (widths.count(width), width), default=0)
    return (widths.count(usual) if usual > 1 else 0), usual


def _sheet(path: Path) -> list[list[str]]:
    """The rows of the first sheet, dates and times as texts that say which is the day."""
    try:
        import openpyxl
    except ImportError:
        raise NoTable(
            "XLSX needs the package openpyxl: pip install 'buildbook[xlsx]'; or save it as CSV"
        ) from None
    try:
        book = openpyxl.load_workbook(path, read_only=True, data_only=True)
        sheet = book.worksheets[0]
        rows = [
            [_cell(value) for value in row[:_MOST_COLUMNS]]
            for row in sheet.iter_rows(max_row=_MOST_ROWS + 1, values_only=True)
        ]
        book.close()
    except OSError:
        raise
    except Exception as error:  # whatever the package meets in a broken file
        reason = f"{type(error).__name__}: {error}".splitlines()[0]
        raise NoTable(f"{path.name} is not a sheet that can be read ({reason})") from error
    return rows


def _cell(value: Any) -> str:
    """A value of a sheet as text; a length of time is in hours, minutes and seconds."""
    if value is None:
        return ""
    if isinstance(value, datetime.datetime):
        day = value.date().isoformat()
        return day if value.time() == datetime.time() else f"{day}T{value:%H:%M}"
    if isinstance(value, datetime.timedelta):
        minutes, seconds = divmod(round(value.total_seconds()), 60)
        return f"{minutes // 60}:{minutes % 60:02d}:{seconds:02d}"
    if isinstance(value, datetime.time):
        return f"{value.hour}:{value:%M:%S}"
    if isinstance(value, float):
        return f"{value:.10g}"
    return str(value)
