"""Tags that end in a number, ``M-07``: what they begin with, and which are free."""

import re
from collections.abc import Collection, Iterable, Iterator, Mapping
from itertools import count

LETTERS: Mapping[str, str] = {
    "motor": "M",
    "esc": "E",
    "propeller": "R",
    "battery": "P",
    "servo": "S",
    "frame": "F",
    "controller": "C",
    "receiver": "X",
}
"""What the tags of a kind of part begin with where a keeper has none of it yet."""

_NUMBERED = re.compile(r"(.*?)([0-9]+)").fullmatch


def stem_of(tags: Iterable[str]) -> str:
    """What these tags begin with before their number; nothing where that differs."""
    stems = {found[1] for tag in tags if (found := _NUMBERED(tag))}
    return stems.pop() if len(stems) == 1 else ""


def free_tags(kind: str, alike: Iterable[str], taken: Collection[str]) -> Iterator[str]:
    """Tags as those alike have them, numbered on from the highest that is taken."""
    stem = stem_of(alike) or f"{LETTERS[kind]}-"
    numbers = [int(found[2]) for tag in taken if (found := _NUMBERED(tag)) and found[1] == stem]
    yield from (f"{stem}{number}" for number in count(max(numbers, default=0) + 1))
