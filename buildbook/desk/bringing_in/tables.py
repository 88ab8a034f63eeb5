"""Tables of other programs become rows of texts: CSV, TSV, XLSX."""

import csv
import datetime
import io
import re
from collections.abc import Iterable, Iterator, Sequence
from itertools import zip_longest
from pathlib import Path
from typing import Any

import msgspec

from buildbook.basis.nearest import did_you_mean
from buildbook.basis.notation import quoted
from buildbook.basis.sizes import most
from buildbook.desk.bringing_in.heads import KNOWN_UNITS

_MOST_BYTES = most("table")
_MOST_ROWS = most("rows")
_MOST_COLUMNS = most("columns")
_LOOKED_AT = 30
_SEPARATORS = (",", ";", "\t", "|")


class NoTable(Exception):
    """The file can't be read as a table; the text is one sentence."""


class Numeral(str):
    """A number that the sheet keeps as one: with a point, however people write theirs."""


class Row(msgspec.Struct, frozen=True):
    """A row: its line (or row of the sheet) from 1, and its cells by their heads.

    beyond: what stands to the right of all heads, as after a comma inside a remark.
    """

    line: int
    cells: dict[str, str]
    beyond: tuple[str, ...] = ()


class Table(msgspec.Struct, frozen=True):
    """A table with the heads of its columns, each different. head_line: where they begin.

    other_sheets: those of the book that were not read, though something stands in them.
    """

    heads: tuple[str, ...]
    rows: tuple[Row, ...]
    head_line: int
    other_sheets: tuple[str, ...] = ()


def read_table(path: Path, head_line: int | None = None, sheet: str | None = None) -> Table:
    """The table in a file. head_line: where the heads begin, else the likeliest of the first lines.

    sheet: which of a book, else the first. NoTable: not there, too large, no table, or a kind of
    file that is not read.
    """
    try:
        if path.stat().st_size > _MOST_BYTES:
            raise NoTable(f"{path} is larger than the {_MOST_BYTES // 1048576} MB that are read")
        others: tuple[str, ...] = ()
        if path.suffix.lower() in (".xlsx", ".xlsm"):
            lines, others = _sheet(path, sheet)
        elif sheet is not None:
            raise NoTable(f"{path.name} has no sheets; leave out --sheet")
        elif path.suffix.lower() in (".csv", ".tsv", ".txt", ".log"):
            lines = _separated(path.read_bytes(), path)
        else:
            raise NoTable(f"{path.name} is none of .csv, .tsv, .xlsx and .json; save it as one")
    except OSError as error:
        raise NoTable(f"{path} can't be read: {(error.strerror or str(error)).lower()}") from error
    if len(lines) > _MOST_ROWS:
        raise NoTable(f"{path} has more than {_MOST_ROWS:,} rows; split it")
    return _table(path, lines, head_line, others)


def _table(
    path: Path, lines: Sequence[Sequence[str]], head_line: int | None, others: tuple[str, ...]
) -> Table:
    at = _head_at(lines) if head_line is None else head_line - 1
    if at is None or not 0 <= at < len(lines) or not any(lines[at]):
        raise NoTable(f"{path.name} has no row of heads over its columns")
    two = at + 1 < len(lines) and _goes_on(lines[at], lines[at + 1])
    body = lines[at + (2 if two else 1) :]
    heads = tuple(_distinct(_heads(lines[at], lines[at + 1] if two else (), body)))
    if len(heads) > _MOST_COLUMNS:
        raise NoTable(f"{path.name} has more than {_MOST_COLUMNS} columns")
    rows = (
        Row(
            number,
            {head: _bare(cell) for head, cell in zip(heads, line, strict=False) if head},
            tuple(cell for cell in line[len(heads) :] if cell.strip()),
        )
        for number, line in enumerate(body, at + (3 if two else 2))
    )
    return Table(
        tuple(head for head in heads if head),
        tuple(row for row in rows if row.beyond or any(row.cells.values())),
        at + 1,
        others,
    )


def _bare(cell: str) -> str:
    return cell if isinstance(cell, Numeral) else cell.strip()


def _goes_on(first: Sequence[str], second: Sequence[str]) -> bool:
    """Whether the heads have a second line: words below a gap in the first, and no number."""
    filled = [cell for cell in second if cell.strip()]
    if filled and all(map(_is_unit, filled)):
        return True
    gaps = [
        below for above, below in zip_longest(first, second, fillvalue="")
        if below.strip() and not above.strip()
    ]  # fmt: skip
    return bool(gaps) and not any(re.search(r"\d", cell) for cell in filled)


def _is_unit(cell: str) -> bool:
    """A unit, or something in brackets: it belongs to the head above it."""
    text = cell.strip()
    return text.casefold() in KNOWN_UNITS or bool(re.fullmatch(r"[(\[][^)\]\d]*[)\]]", text))


def _heads(
    first: Sequence[str], second: Sequence[str], body: Sequence[Sequence[str]]
) -> Iterator[str]:
    """The head of each column, that of a merged cell for all below it; ``column G`` for none."""
    over = ""
    for at, pair in enumerate(zip_longest(first, second, fillvalue="")):
        above, below = (cell.strip() for cell in pair)
        over = above or (over if below else "")
        head = " ".join(part for part in (over, below) if part)
        filled = any(at < len(line) and line[at].strip() for line in body)
        yield head or (f"column {_letter(at)}" if filled else "")


def _letter(at: int) -> str:
    """The name that sheets give a column: A to Z, then AA."""
    return ("" if at < 26 else _letter(at // 26 - 1)) + chr(ord("A") + at % 26)


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


def _sheet(path: Path, name: str | None) -> tuple[list[list[str]], tuple[str, ...]]:
    """The rows of a sheet, dates and times as texts that say which is the day; other sheets."""
    try:
        import openpyxl
    except ImportError:
        raise NoTable(
            "XLSX needs the package openpyxl: pip install 'buildbook[xlsx]'; or save it as CSV"
        ) from None
    try:
        book = openpyxl.load_workbook(path, read_only=True, data_only=True)
        sheets = {sheet.title: sheet for sheet in book.worksheets}
        if name is not None and name not in sheets:
            hint = did_you_mean(name, sheets) or f"there are {', '.join(map(quoted, sheets))}"
            raise NoTable(f"{path.name} has no sheet {quoted(name)}; {hint}")
        sheet = book.worksheets[0] if name is None else sheets[name]
        rows = [
            [_cell(value) for value in row[:_MOST_COLUMNS]]
            for row in sheet.iter_rows(max_row=_MOST_ROWS + 1, values_only=True)
        ]
        others = tuple(
            other.title for other in book.worksheets
            if other is not sheet and any(
                any(cell is not None for cell in row)
                for row in other.iter_rows(max_row=_LOOKED_AT, values_only=True)
            )
        )  # fmt: skip
        book.close()
    except (OSError, NoTable):
        raise
    except Exception as error:  # whatever the package meets in a broken file
        reason = f"{type(error).__name__}: {error}".splitlines()[0]
        raise NoTable(f"{path.name} is not a sheet that can be read ({reason})") from error
    return rows, others


def _cell(value: Any) -> str:
    """A value of a sheet as text; a length of time is in hours, minutes and seconds."""
    if value is None:
        return ""
    if isinstance(value, datetime.datetime) and value.year < 1901:
        value -= datetime.datetime(1899, 12, 31)  # hours past 24 that a sheet shows as a day
    if isinstance(value, datetime.datetime):
        day = value.date().isoformat()
        return day if value.time() == datetime.time() else f"{day}T{value:%H:%M}"
    if isinstance(value, datetime.timedelta):
        minutes, seconds = divmod(round(value.total_seconds()), 60)
        return f"{minutes // 60}:{minutes % 60:02d}:{seconds:02d}"
    if isinstance(value, datetime.time):
        return f"{value.hour}:{value:%M:%S}"
    if isinstance(value, float):
        return Numeral(f"{value:.10g}")
    return Numeral(value) if isinstance(value, int) else str(value)
