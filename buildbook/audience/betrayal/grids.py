"""Places in the notation of a grid: UTM, MGRS, national grids, locators of radio amateurs.

The shapes follow the published descriptions of each grid, from memory: bands C to X and squares
without I and O (MGRS, UTM), squares of the British and the Irish grid, eastings from 2,485,000 and
northings from 1,075,000 m of Switzerland (LV95), zones 2 to 5 of Gauss and Krüger.
"""

import re
from collections.abc import Iterator

from buildbook.audience.betrayal.pattern import Betrayal

_ZONE = r"(?<![\w.,/-])(?:0?[1-9]|[1-5]\d|60) ?[C-HJ-NP-X]"
_METRES = r"(?:[.,]\d{1,3})? ?(?:m ?)?"
_MGRS = re.compile(
    rf"{_ZONE} ?[A-HJ-NP-Z][A-HJ-NP-V] ?(?P<one>\d{{3,10}})(?: (?P<other>\d{{3,5}}))?"
    r"(?![\w.]\w)(?!\w)",
    re.IGNORECASE,
)
_UTM = re.compile(
    rf"{_ZONE}[ ,:]{{1,2}}(?:E ?)?[1-8]\d{{5}}{_METRES}E?[ ,;/]{{1,3}}(?:N ?)?\d{{7}}(?!\d)"
    r"|(?<![\w.,-])(?:E ?[1-8]\d{5}[ ,;/]{1,3}N ?\d{7}|[1-8]\d{5} ?m? ?E[ ,;/]{1,3}\d{7} ?m? ?N)"
    r"(?!\w)",
    re.IGNORECASE,
)
_BRITISH = re.compile(
    r"(?<![\w.,/-])[HNOST][A-HJ-Z] ?(?P<one>\d{3,10})(?: (?P<other>\d{3,5}))?(?![\w.,/-]\w)(?!\w)"
)
_IRISH = re.compile(r"(?<![\w.,/-])[A-HJ-Z] \d{5} \d{5}(?![\w.,/-]\w)(?!\w)")
_SWISS = re.compile(
    r"(?<![\w.,'-])2['. ]?[4-8]\d\d['. ]?\d{3}(?:\.\d{1,3})? ?[ ,;/|] ?"
    r"1['. ]?[0-3]\d\d['. ]?\d{3}(?!\d)"
    r"|(?<![\w.,'-])[4-8]\d\d'\d{3} ?[ ,;/|] ?[0-3]\d\d'\d{3}(?!\d)"
)
_GAUSS = re.compile(
    r"(?<![\w.,-])(?:R[A-Za-z]{0,10}[ :]{0,2})?[2-5]\d{6}(?:[.,]\d{1,3})? ?[ ,;/|] ?"
    r"(?:H[A-Za-z]{0,10}[ :]{0,2})?5\d{6}(?!\d)"
)
_LOCATOR = re.compile(
    r"(?<!\w)(?:(?-i:[A-R]{2}\d\d[A-Xa-x]{2}\d\d)"
    r"|(?:(?:qth|grid|maidenhead)[ :-]{0,2}){1,2}(?:locator|square|loc)?[ :]{0,2}"
    r"[A-R]{2}\d\d[A-X]{2})(?!\w)",
    re.IGNORECASE,
)
_WORDS = re.compile(
    r"\b(?:w3w|what3words)[ :=/]{1,3}[^\W\d_]{2,30}\.[^\W\d_]{2,30}\.[^\W\d_]{2,30}(?!\w)",
    re.IGNORECASE,
)


def _squares(text: str) -> Iterator[int]:
    """A square and as many digits to the east as to the north."""
    for pattern, fewest in ((_MGRS, 6), (_BRITISH, 6)):
        for found in pattern.finditer(text):
            one, other = found["one"], found["other"]
            even = len(one) % 2 == 0 and len(one) >= fewest if other is None else False
            if even or (other is not None and len(one) == len(other)):
                yield found.start()


def _numbers(text: str) -> Iterator[int]:
    for pattern in (_UTM, _IRISH, _SWISS, _GAUSS, _LOCATOR):
        for found in pattern.finditer(text):
            yield found.start()


def _three_words(text: str) -> Iterator[int]:
    return (found.start() for found in _WORDS.finditer(text))


GRIDS = (
    Betrayal("looks like a place on a grid", _squares),
    Betrayal("looks like a place on a grid", _numbers),
    Betrayal("looks like a place in three words", _three_words, "anything"),
)
PATTERNS = (_MGRS, _UTM, _BRITISH, _IRISH, _SWISS, _GAUSS, _LOCATOR, _WORDS)
