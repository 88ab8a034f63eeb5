"""Exact days in words and figures, for renders that tell months only."""

import re
from collections.abc import Iterator

from buildbook.audience.betrayal.pattern import Betrayal, words

MONTHS = words(
    "january february march april may june july august september october november december "
    "jan feb mar apr jun jul aug sept sep oct nov dec januar jänner februar märz maerz mai "
    "juni juli oktober dezember dez okt janvier février fevrier mars avril juin juillet août "
    "aout septembre octobre novembre décembre enero febrero marzo abril mayo junio julio "
    "agosto septiembre octubre noviembre diciembre gennaio febbraio aprile maggio giugno "
    "luglio settembre ottobre dicembre januari februari maart april mei augustus"
)
"""Names of months in English, German, French, Spanish, Italian and Dutch, and short ones."""

_WORDS = frozenset(
    ("may", "march", "mars", "mar", "mai", "dec", "sept", "jan", "mei", "jun", "sep")
)
"""Months that are words, names or units too: alone with a number they need a capital."""

_NAME = "|".join(sorted({*MONTHS}, key=lambda name: (-len(name), name)))
_DAY_FIRST = re.compile(
    rf"(?<![\w.,:/-])(?P<day>\d{{1,2}})(?P<mark>st|nd|rd|th|\.|er|º|°)? ?(?:of |de |- ?)?"
    rf"(?P<month>{_NAME})\b\.?(?P<year>(?: |, | de |-)(?:19|20)\d\d(?!\d))?",
    re.IGNORECASE,
)
_MONTH_FIRST = re.compile(
    rf"(?<!\w)(?P<month>{_NAME})\b\.? ?(?:the )?(?P<day>\d{{1,2}})(?P<mark>st|nd|rd|th)?"
    rf"(?![\w.:/]\d)(?!\w)(?P<year>,? (?:19|20)\d\d(?!\d))?",
    re.IGNORECASE,
)
_YEAR_FIRST = re.compile(
    r"(?<![\w.,-])(?:19|20)\d\d(?P<sign>[-/. ]|)(?P<month>\d{1,2})(?P=sign)(?P<day>\d{1,2})"
    r"(?:T\d\d:\d\d\S{0,20})?(?![\w-])(?![.,/]\d)"
)
_YEAR_LAST = re.compile(
    r"(?<![\w.,/-])(?P<one>\d{1,2})(?P<sign>[./-]) ?(?P<other>\d{1,2})(?P=sign) ?(?:19|20)\d\d"
    r"(?![\w/-])(?!\.\d)"
)
_SHORT_YEAR = re.compile(
    r"(?<![\w.,/-])(?P<one>\d\d)(?P<sign>[./])(?P<other>\d\d)(?P=sign)\d\d(?![\w./-])"
)
_AFTER_A_NUMBER = re.compile(r" ?(?:of|times|%|V\b|A\b|g\b|mm\b)")


def _in_words(text: str) -> Iterator[int]:
    for pattern in (_DAY_FIRST, _MONTH_FIRST):
        for found in pattern.finditer(text):
            name = found["month"]
            sure = found["mark"] not in (None, "°") or found["year"]
            if not 1 <= int(found["day"]) <= 31:
                continue
            if not sure and name.lower() in _WORDS and not name[0].isupper():
                continue
            if not sure and name.isupper():  # an abbreviation: MAR 3
                continue
            if pattern is _MONTH_FIRST and _AFTER_A_NUMBER.match(text, found.end()):
                continue
            yield found.start()


def _in_figures(text: str) -> Iterator[int]:
    for found in _YEAR_FIRST.finditer(text):
        packed = not found["sign"] and len(found["month"] + found["day"]) != 4
        if _is_day(found["day"], found["month"]) and not packed:
            yield found.start()
    for found in _YEAR_LAST.finditer(text):
        if _is_day(found["one"], found["other"]) or _is_day(found["other"], found["one"]):
            yield found.start()
    for found in _SHORT_YEAR.finditer(text):  # with a nought in front: 12.10.25 may be a version
        padded = "0" in (found["one"][0], found["other"][0])
        if padded and (
            _is_day(found["one"], found["other"]) or _is_day(found["other"], found["one"])
        ):
            yield found.start()


def _is_day(day: str, month: str) -> bool:
    return 1 <= int(day) <= 31 and 1 <= int(month) <= 12


DAYS = (
    Betrayal("an exact day", _in_words, dated=True),
    Betrayal("an exact day", _in_figures, dated=True),
)
PATTERNS = (_DAY_FIRST, _MONTH_FIRST, _YEAR_FIRST, _YEAR_LAST, _SHORT_YEAR, _AFTER_A_NUMBER)
