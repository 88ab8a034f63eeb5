"""Did you mean, remembered: the same slip in a thousand entries is looked up once."""

from functools import lru_cache

from buildbook.basis.nearest import did_you_mean


@lru_cache(4096)
def meant(word: str, choices: frozenset[str]) -> str | None:
    """A hint such as ``did you mean 'used'?``, or None where no choice is close."""
    return did_you_mean(word, choices)
