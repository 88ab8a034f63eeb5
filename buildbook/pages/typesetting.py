"""Finished HTML made easier to read: numbers stay with their units, cells know their column.

A line may not end between a number and its unit, or what it counts or dates. Only what a browser
lays out is changed. What is copied, run or sent on keeps its plain spaces:
code, choices of a form, attributes, and the words of drawings, which break no lines. On a phone
a row of a table becomes lines of its own, each with the name of its column.
"""

import re
from collections.abc import Sequence
from itertools import chain

from markupsafe import Markup, escape

from buildbook.basis import amounts
from buildbook.basis.days import MONTHS
from buildbook.basis.units import UNITS

_SYMBOLS = {*chain(*(quantity.units for quantity in UNITS.values())), *amounts.FIGURES}
_WORDS = {"", "in", "ratio", "count"}  # "in" is nearly always the word
_COUNTED = ("flight", "charge", "cycle", "year", "month", "week", "day", "hour", "minute")
_UNITS = _SYMBOLS - _WORDS | {*_COUNTED, *map(amounts.plural, _COUNTED), *MONTHS}
_UNIT = "|".join(sorted(map(re.escape, _UNITS), key=len, reverse=True))
# With the space first the search goes from space to space; the last part holds in text alone.
_TORN = re.compile(
    rf" (?:(?<=[0-9] )(?=(?:{_UNIT}|[A-Z]{{3}})(?:[/·]|(?![\w²³])))|(?<=[0-9] min )(?=[0-9]+ s\b))"
    r"(?=[^<>]*<)"
)
_AS_WRITTEN = re.compile(
    r"(<(head|script|style|pre|code|kbd|textarea|select|svg)\b.*?</\2>)", re.DOTALL
)


def kept_together(html: str) -> str:
    """A page in which no number leaves its unit at the end of a line."""
    pieces = _AS_WRITTEN.split(html)
    # Text, then what stays as written, then its tag, over and over.
    pieces[::3] = [_TORN.sub(amounts.NO_BREAK, piece) for piece in pieces[::3]]
    del pieces[2::3]
    return "".join(pieces)


_ROW = re.compile(r"<tr\b[^>]*>.*?</tr>", re.DOTALL)
_CELL = re.compile(r"<t([hd])\b([^>]*)>(</t)?")
_ROWSPAN = re.compile(r'rowspan="(\d+)"')
_COLSPAN = re.compile(r'colspan="(\d+)"')


def labelled(rows: str, columns: Sequence[str]) -> Markup:
    """The rows of a table body, each data cell with the name of its column."""
    below = [0] * len(columns)  # rows that a cell from above still reaches down to

    def row(found: re.Match[str]) -> str:
        at = 0

        def cell(opening: re.Match[str]) -> str:
            nonlocal at
            while at < len(columns) and below[at]:
                below[at] -= 1
                at += 1
            kind, said, empty = opening.groups()
            deep, wide = _ROWSPAN.search(said), _COLSPAN.search(said)
            name = columns[at] if at < len(columns) else ""
            if deep and at < len(columns):
                below[at] = int(deep[1]) - 1
            at += int(wide[1]) if wide else 1
            told = kind == "d" and name and not (wide or empty)
            label = f' data-label="{escape(name)}"' if told else ""
            return f"<t{kind}{said}{label}>{empty or ''}"

        return _CELL.sub(cell, found[0])

    return Markup(_ROW.sub(row, str(rows)))
