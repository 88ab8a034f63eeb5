"""Did you mean: the known word that is most like an unknown one."""

from collections.abc import Collection, Iterable

_ALIKE_ENOUGH = 0.6
_LONGEST = 60
_LEAST = 4


def nearest(word: str, choices: Collection[str]) -> str | None:
    """The choice most like ``word``, or None where none is close; ties go by the alphabet.

    Where none is, the only one that has it among its words.

    Capitals, hyphens, underscores and spaces count as nearly the same. Meant for errors only.
    """
    if not word or len(word) > _LONGEST:
        return None
    plain = _plain(word)
    parts = sorted(plain.split("-"))
    best: tuple[float, str] | None = None
    for choice in sorted(set(choices)):
        other = _plain(choice)
        if choice != word and (other == plain or sorted(other.split("-")) == parts):
            return choice
        if abs(len(other) - len(plain)) > max(2, len(plain) // 2):
            continue
        share = alike(plain, other)
        if share >= _ALIKE_ENOUGH and (best is None or share > best[0]):
            best = (share, choice)
    return best[1] if best else _only_one_with(plain, choices)


def _only_one_with(plain: str, choices: Collection[str]) -> str | None:
    """The choice of several words of which the word is one: ``until`` of ``deferred_until``."""
    parts = frozenset(plain.split("-"))
    found = [choice for choice in set(choices) if parts < frozenset(_plain(choice).split("-"))]
    return found[0] if len(found) == 1 and len(plain) >= _LEAST else None


def alike(one: str, other: str) -> float:
    """How much two words have in common: 1 where they are the same."""
    from difflib import SequenceMatcher  # only where something is wrong

    return SequenceMatcher(None, one, other, autojunk=False).ratio()


def did_you_mean(word: str, choices: Iterable[str]) -> str | None:
    """A hint such as ``did you mean 'mass'?``, or None."""
    found = nearest(word, tuple(choices))
    return None if found is None else f"did you mean '{found}'?"


def _plain(word: str) -> str:
    return word.casefold().replace("_", "-").replace(" ", "-")
