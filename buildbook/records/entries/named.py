"""Which items a keeper's words name by their tags; what the words say of them nothing reads."""

import re
from collections.abc import Iterable

_WORDS = re.compile(r"\w+(?:-\w+)*")


def tags_named(words: str, tags: Iterable[str]) -> tuple[str, ...]:
    """The tags that stand in the words as a word of their own, in whatever case.

    Only tags with a letter and a digit: ``A`` and ``2`` are words of other meaning.
    """
    said = {word.casefold() for word in _WORDS.findall(words)}
    return tuple(tag for tag in tags if tag.casefold() in said and _is_no_word(tag))


def _is_no_word(tag: str) -> bool:
    return any(map(str.isdigit, tag)) and any(map(str.isalpha, tag))
