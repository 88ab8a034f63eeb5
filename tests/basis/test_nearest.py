"""Did you mean."""

import pytest

from buildbook.basis.nearest import did_you_mean, nearest

KEYS = ["mass", "note", "no_load_current", "no_load_voltage", "max_current", "kv"]


@pytest.mark.parametrize(
    ("expected", "word"),
    [
        ("mass", "mas"),
        ("mass", "Mass"),
        ("no_load_current", "no-load-current"),
        ("no_load_voltage", "no load voltage"),
        ("max_current", "max_curent"),
        ("kv", "KV"),
        (None, "colour"),
        (None, ""),
        (None, "x" * 5000),
    ],
)
def test_the_word_most_like_it(expected: str | None, word: str) -> None:
    """Slips of the finger, capitals and hyphens; nothing where nothing is like it."""
    assert expected == nearest(word, KEYS)


def test_ties_do_not_hang_on_the_order() -> None:
    """Two equally good words: the first of the alphabet, however they were listed."""
    assert "P-01" == nearest("P-0", ["P-02", "P-01"])
    assert "P-01" == nearest("P-0", ["P-01", "P-02"])


def test_as_a_hint() -> None:
    """A question with the word, or nothing."""
    assert "did you mean 'mass'?" == did_you_mean("mas", KEYS)
    assert did_you_mean("colour", KEYS) is None
