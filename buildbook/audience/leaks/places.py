"""Places: coordinates in all usual notations, links to maps, open location codes.

Ranges of latitude and longitude, and the order of degrees, minutes and seconds, after ISO 6709; the
alphabet and the shape of open location codes after their published specification. The shapes of
grids follow the published descriptions of each, from memory: bands C to X and squares without I and
O (MGRS, UTM), squares of the British and the Irish grid, eastings from 2,485,000 and northings from
1,075,000 m of Switzerland (LV95), zones 2 to 5 of Gauss and Krüger.
"""

import re
from collections.abc import Iterator

from buildbook.audience.leaks.pattern import Leak

_ONE = re.compile(
    r"(?<![\w.])"
    r"(?P<label>(?:latitude|longitude|lat|lon|lng|long)\b[ :=\"']{0,4})?"
    r"(?P<before>[NSEWO] ?)?"
    r"(?P<sign>[+-] ?)?"
    r"(?P<whole>\d{1,3})(?P<point>[.,])(?P<part>\d{2,15})(?!\d)"
    r"(?P<degrees> ?(?:°|deg\b))?"
    r"(?(before)|(?:(?P<gap> ?)(?P<after>[NSEWO](?!\w)))?)"
)
_LABEL = re.compile(r"(?:lat|lon|lng)", re.IGNORECASE)
_BETWEEN = re.compile(r"[ ,;/|()\[\]\"':&]{1,6}(?:(?:and|by|x) )?")
_UNIT = re.compile(
    r" ?(?:[munkM]?(?:V|A|W|Ah|Wh|Ω|ohm|s|g|m|N|Nm|Hz|Pa|F|H)|kg|cm|in|rpm|min|h|deg|°C|%)"
    r"(?![A-Za-z])"
)
_FEW = 3  # decimals: a hundred metres
_MANY = 4  # decimals: ten metres

_DMS = re.compile(
    r"(?<![\w.])(?:"
    r"(?P<first>[NSEWO] ?)?\d{1,3} ?(?:°|deg\b\.?) ?\d{1,2}(?:[.,]\d{1,6})? ?(?:['`]|min\b)?"
    r"(?: ?\d{1,2}(?:[.,]\d{1,6})? ?(?:\"|''|sec\b)?)?"
    r"(?P<last> ?[NSEWO](?!\w))?"
    r"|[NS] ?\d{1,2} \d{1,2}[.,]\d{1,6}[ ,;/]{1,3}[EWO] ?\d{1,3} \d{1,2}[.,]\d{1,6}"
    r"|\d{1,2}[ :-]\d{1,2}[ :-]\d{1,2}(?:[.,]\d{1,6})? ?[NS][ ,;/]{1,3}"
    r"\d{1,3}[ :-]\d{1,2}[ :-]\d{1,2}(?:[.,]\d{1,6})? ?[EWO](?!\w)"
    r")"
)
_LINK = re.compile(r"\b(?:https?://|geo:|www\.)[^\s<>\"]{1,2000}", re.IGNORECASE)
_IN_LINK = re.compile(r"\d{1,3}\.\d{3,15}")
_NEAR_IN_LINK = re.compile(r"(?<![\d.])-?\d{1,3}\.\d{1,15}")
_GEO = re.compile(r"geo:-?\d", re.IGNORECASE)
_MAP = re.compile(
    r"(?:https?://)?(?:[\w-]{1,60}\.){0,4}(?:(?:maps?|karten?|cartes?|mapa)\.[\w.-]{3,60}"
    r"|[\w.-]{3,60}/(?:[\w-]{1,20}/)?maps?(?:[/?#@]|$))",
    re.IGNORECASE,
)
MAP_HOSTS = (
    "goo.gl/maps",
    "g.page",
    "osm.org",
    "openstreetmap.org",
    "plus.codes",
    "w3w.co",
    "what3words.com",
    "waze.com",
    "bing.com/maps",
)
"""Hosts that shorten links to places, or that have a page for each place."""

_CODE = re.compile(
    r"(?<![\w+])(?P<code>(?:[23456789CFGHJMPQRVWX]{4,8}|[23456789CFGHJMPQRVWX]{2,6}0{2,6})"
    r"\+[23456789CFGHJMPQRVWX]{0,7})(?![\w+])",
    re.IGNORECASE,
)
_CODE_LENGTHS = (4, 6, 8)
_THREE_WORDS = re.compile(r"(?<![:/\w])///[^\W\d_]{2,30}\.[^\W\d_]{2,30}\.[^\W\d_]{2,30}(?!\w)")


def _coordinates(text: str) -> Iterator[int]:
    """Decimal degrees: a pair, or one that says of itself that it is a coordinate."""
    earlier: re.Match[str] | None = None
    run = 0  # how many numbers stand before in the same list
    for found in _ONE.finditer(text):
        near = earlier is not None and bool(_BETWEEN.fullmatch(text, earlier.end(), found.start()))
        run = run + 1 if near else 0
        if _alone(found):
            yield found.start()
        elif near and earlier is not None and _pair(earlier, found, run, text):
            yield earlier.start()
        earlier = found


def _alone(found: re.Match[str]) -> bool:
    if len(found["part"]) < _FEW or int(found["whole"]) > 180:
        return False
    letter = found["before"] or found["after"]
    labelled = found["label"] is not None and bool(_LABEL.match(found["label"]))
    return labelled or (found["degrees"] is not None and letter is not None)


def _pair(one: re.Match[str], other: re.Match[str], run: int, text: str) -> bool:
    first, second = int(one["whole"]), int(other["whole"])
    if max(first, second) > 180 or min(first, second) > 90 or first == second == 0:
        return False
    if one["degrees"] and other["degrees"]:
        return True
    letters = _letter(one), _letter(other)
    if all(letters) and (letters[0] in "NS") != (letters[1] in "NS"):
        units = letters in (("N", "W"), ("W", "N"))  # newtons and watts
        return not (units and one["gap"] and other["gap"] and one["after"] and other["after"])
    if any(letters):
        return False
    fewest = min(len(one["part"]), len(other["part"]))
    if one["point"] == "," or other["point"] == ",":
        return one["point"] == other["point"] and fewest >= _MANY and not _measured(other, text)
    if fewest < _FEW or _measured(other, text):
        return False
    listed = run > 1 or _goes_on(other, text)
    return bool(fewest >= _MANY or one["sign"] or other["sign"] or not listed)


def _letter(found: re.Match[str]) -> str:
    return (found["before"] or found["after"] or "").strip()


def _measured(found: re.Match[str], text: str) -> bool:
    """Whether a unit follows: then it is a measured value."""
    return bool(_UNIT.match(text, found.end("part")))


def _goes_on(found: re.Match[str], text: str) -> bool:
    following = _ONE.match(text, min(len(text), found.end() + 1)) or _ONE.match(
        text, min(len(text), found.end() + 2)
    )
    return following is not None


def _degrees_and_minutes(text: str) -> Iterator[int]:
    for found in _DMS.finditer(text):
        angle = "°" in found.group() or "deg" in found.group()
        if not angle or found["first"] or found["last"]:
            yield found.start()


def _map_links(text: str) -> Iterator[int]:
    for found in _LINK.finditer(text):
        link = found.group()
        if (
            _GEO.match(link)
            or len(_IN_LINK.findall(link)) >= 2
            or _MAP.match(link)
            or any(f"/{host}" in link or f".{host}" in link for host in MAP_HOSTS)
            or ("map" in link.lower() and len(_NEAR_IN_LINK.findall(link)) >= 2)
        ):
            yield found.start()


def _location_codes(text: str) -> Iterator[int]:
    """Open location codes; a sum of digits alone is none."""
    for found in _CODE.finditer(text):
        code = found["code"]
        before, _, after = code.partition("+")
        shaped = len(before) in _CODE_LENGTHS and (len(after) != 1) and (after or "0" in before)
        letters = any(sign.isalpha() for sign in code)
        plain = code.isupper() or any(sign.isdigit() for sign in code)
        if shaped and letters and plain:
            yield found.start()


def _three_words(text: str) -> Iterator[int]:
    return (found.start() for found in _THREE_WORDS.finditer(text))


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


def _named_place(text: str) -> Iterator[int]:
    return (found.start() for found in _WORDS.finditer(text))


PLACES = (
    Leak("looks like coordinates", _coordinates),
    Leak("looks like coordinates", _degrees_and_minutes),
    Leak("a link to a map", _map_links, "anything"),
    Leak("looks like an open location code", _location_codes),
    Leak("looks like a place in three words", _three_words, "anything"),
    Leak("looks like a place on a grid", _squares),
    Leak("looks like a place on a grid", _numbers),
    Leak("looks like a place in three words", _named_place, "anything"),
)
PATTERNS = (
    *(_ONE, _LABEL, _BETWEEN, _UNIT, _DMS, _LINK, _IN_LINK, _NEAR_IN_LINK, _GEO, _MAP, _CODE),
    *(_THREE_WORDS, _MGRS, _UTM, _BRITISH, _IRISH, _SWISS, _GAUSS, _LOCATOR, _WORDS),
)
