"""Rows of a table whose cells name their column: on a phone a row becomes lines of its own."""

import re
from collections.abc import Sequence

from markupsafe import Markup, escape

_ROW = re.compile(r"<tr\b[^>]*>.*?</tr>", re.DOTALL)
_CELL = re.compile(r"<t([hd])\b([^>]*)>")
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
            kind, said = opening.groups()
            deep, wide = _ROWSPAN.search(said), _COLSPAN.search(said)
            name = columns[at] if at < len(columns) else ""
            if deep and at < len(columns):
                below[at] = int(deep[1]) - 1
            at += int(wide[1]) if wide else 1
            label = f' data-label="{escape(name)}"' if kind == "d" and not wide and name else ""
            return f"<t{kind}{said}{label}>"

        return _CELL.sub(cell, found[0])

    return Markup(_ROW.sub(row, str(rows)))
