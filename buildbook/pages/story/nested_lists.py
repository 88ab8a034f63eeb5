"""Lists as people write them, for a reader of Markdown that wants four columns a level.

A nested list stands under the words of its item, by two columns or three; a list may follow its
sentence without a blank line between.
"""

import re
from collections.abc import Iterable, Iterator
from typing import NamedTuple

_ITEM = re.compile(r"( *)([-*+]|\d{1,9}\.)( +)(?=\S)")
_RULE = re.compile(r" {0,3}([-*_])(?: *\1){2,} *")
_INTERRUPTS = re.compile(r"(?:[-*+]|1\.)$")  # after CommonMark 0.31.2, section 5.3
_LEVEL = "    "
_LIST_BEGINS_WITHIN = 3


class _Open(NamedTuple):
    """An item around the line: the column at which its words begin, and whether it is numbered."""

    column: int
    numbered: bool


def deepened(lines: Iterable[str], code: set[int]) -> Iterator[str]:
    """The lines with their lists indented by four columns a level. code: lines that are code."""
    open_items: list[_Open] = []
    before, after_item = "", False
    for at, line in enumerate(lines):
        if at in code or line.startswith("\n"):
            open_items, before, after_item = [], "", False
            yield line
            continue
        found = None if _RULE.fullmatch(line) else _ITEM.match(line)
        if found is not None and (open_items or len(found[1]) <= _LIST_BEGINS_WITHIN):
            was_open, last = bool(open_items), None
            while open_items and len(found[1]) < open_items[-1].column:
                last = open_items.pop()
            other_kind = last is not None and last.numbered != found[2][0].isdigit()
            begins = bool(before.strip()) and (
                other_kind or (not after_item and bool(was_open or _INTERRUPTS.match(found[2])))
            )
            yield ("\n" if begins else "") + _LEVEL * len(open_items) + line[len(found[1]) :]
            open_items.append(_Open(found.end(), found[2][0].isdigit()))
        else:
            yield _inside(line, open_items) if not before.strip() else line
        before, after_item = line, found is not None


def _inside(line: str, open_items: list[_Open]) -> str:
    """A line after a blank one: a further paragraph of an item, or the end of the list."""
    if not line.strip():
        return line
    indent = len(line) - len(line.lstrip(" "))
    while open_items and indent < open_items[-1].column:
        open_items.pop()
    if not open_items:
        return line
    return _LEVEL * len(open_items) + " " * (indent - open_items[-1].column) + line.lstrip(" ")
