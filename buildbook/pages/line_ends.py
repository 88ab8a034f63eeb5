"""Where a line of a page may not end: between a number and its unit, or what it counts or dates.

Only what a browser lays out is changed. What is copied, run or sent on keeps its plain spaces:
code, choices of a form, attributes, and the words of drawings, which break no lines.
"""

import re
from itertools import chain

from buildbook.basis import amounts
from buildbook.basis.units import UNITS

NO_BREAK = "\u00a0"

_SYMBOLS = {*chain(*(quantity.units for quantity in UNITS.values())), *amounts.FIGURES}
_WORDS = {"", "in", "ratio", "count"}  # "in" is nearly always the word
_COUNTED = ("flight", "charge", "cycle", "year", "month", "week", "day", "hour", "minute")
_UNITS = _SYMBOLS - _WORDS | {*_COUNTED, *map(amounts.plural, _COUNTED), *amounts.MONTHS}
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
    pieces[::3] = [_TORN.sub(NO_BREAK, piece) for piece in pieces[::3]]
    del pieces[2::3]
    return "".join(pieces)
