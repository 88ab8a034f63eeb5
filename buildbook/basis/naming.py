"""Names of files and anchors, made from names that a keeper gave; no two share one.

A name of plain ASCII is its own. Any other becomes readable letters and a short digest of itself
after a tilde, which no name of the records can hold; so the result depends on nothing but the
name, and stays when others come and go. How letters of other scripts are spelt in Latin ones is
common practice, no source.
"""

import base64
import hashlib
import re
import unicodedata
from collections.abc import Hashable, Iterable, Iterator, Mapping
from typing import TypeVar

from buildbook.basis.sizes import most

_LONGEST_NAME = most("name")
_LONGEST_READABLE = 40
_DIGEST_BYTES = 5
_MARK = "~"

_PLAIN = re.compile(r"[A-Za-z0-9_](?:[A-Za-z0-9._-]*[A-Za-z0-9_])?").fullmatch
_UNSAFE = re.compile(r"[^A-Za-z0-9_]+")
# Names that Windows keeps for devices, whatever follows the first dot. Source: Microsoft,
# "Naming Files, Paths, and Namespaces".
_DEVICE = re.compile(r"(?:con|prn|aux|nul|com[0-9]|lpt[0-9])(?:\..*)?", re.IGNORECASE).fullmatch

_LETTERS = dict(zip("абвгдезийклмнопрстуфхцыэі", "abvgdezijklmnoprstufhcyei", strict=True))
_LETTERS |= {"ж": "zh", "ч": "ch", "ш": "sh", "щ": "shch", "ю": "yu", "я": "ya", "ё": "e"}
_LETTERS |= {"ї": "i", "є": "ye", "ґ": "g", "ъ": "", "ь": ""}
_LETTERS |= dict(zip("αβγδεζηικλμνξοπρσςτυφω", "abgdezeiklmnxoprsstyfo", strict=True))
_LETTERS |= {"θ": "th", "χ": "ch", "ψ": "ps"}
_LETTERS |= {"ß": "ss", "æ": "ae", "œ": "oe", "ø": "o", "đ": "d", "ð": "d", "ł": "l", "þ": "th"}
_LETTERS |= {"ı": "i", "+": "-plus-"}

_Key = TypeVar("_Key", bound=Hashable)


def file_name(name: str) -> str:
    """The part of a file name, or the anchor, that stands for a name."""
    if _PLAIN(name) and len(name) <= _LONGEST_NAME and not _DEVICE(name):
        return name
    composed = unicodedata.normalize("NFC", name)
    readable = _UNSAFE.sub("-", "".join(_latin(composed)))[:_LONGEST_READABLE].strip("-")
    return f"{readable or 'x'}{_MARK}{_digest(composed)}"


_AS_SPELT = str.maketrans({"ä": "ae", "ö": "oe", "ü": "ue", "å": "a"})
_NO_SLUG = re.compile("[^a-z0-9]+")


def slug_of(name: str) -> str:
    """A name in a-z, 0-9 and hyphens, as a folder has it: ``moewe`` of Möwe. It may be empty.

    Umlauts are spelt as in German.
    """
    small = unicodedata.normalize("NFC", name).lower().translate(_AS_SPELT)
    return _NO_SLUG.sub("-", "".join(_latin(small)).lower()).strip("-")


def without_device(name: str) -> str:
    """The same name where a file or folder may have it on Windows too, else one that may."""
    return f"{name}-1" if _DEVICE(name) else name


def alike(name: str) -> str:
    """What two names have in common that differ in capitals or in how accents are stored."""
    return unicodedata.normalize("NFC", unicodedata.normalize("NFC", name).casefold())


def first_alike(names: Iterable[str]) -> Iterator[tuple[str, str]]:
    """Each name that is another's but for capitals or accents, after the first such name."""
    first: dict[str, str] = {}
    for name in names:
        other = first.setdefault(alike(name), name)
        if other is not name:
            yield other, name


def distinct(wanted: Mapping[_Key, str]) -> dict[_Key, str]:
    """The names that things want, with a digest of the thing's own key where two want one."""
    counts: dict[str, int] = {}
    for name in wanted.values():
        counts[alike(name)] = counts.get(alike(name), 0) + 1
    return {
        key: name if counts[alike(name)] == 1 else f"{name}{_MARK}{_digest(str(key))}"
        for key, name in wanted.items()
    }


def _latin(text: str) -> Iterator[str]:
    for letter in text:
        small = letter.lower()
        if small in _LETTERS:
            found = _LETTERS[small]
            yield found if small == letter else found.capitalize()
        else:
            yield from (
                part
                for part in unicodedata.normalize("NFKD", letter)
                if not unicodedata.combining(part)
            )


def _digest(text: str) -> str:
    found = hashlib.blake2b(text.encode("utf-8", "surrogatepass"), digest_size=_DIGEST_BYTES)
    return base64.b32encode(found.digest()).decode("ascii").lower()
