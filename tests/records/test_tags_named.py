"""Which items a keeper's words name."""

import pytest

from buildbook.records.entries.entry import tags_named

TAGS = ("P-01", "P-1", "A", "2", "B3")


@pytest.mark.parametrize(
    ("words", "named"),
    [
        ("P-01 came down warm", ("P-01",)),
        ("p-01's plug, and b3, P-1.", ("P-01", "P-1", "B3")),
        ("P-01..P-1 sag", ("P-01", "P-1")),
        ("P-011, XP-01 and P-01-b", ()),
        ("a windy day, 2 packs", ()),
        ("", ()),
    ],
)
def test_a_tag_is_named_where_it_stands_alone(words: str, named: tuple[str, ...]) -> None:
    """In any case and beside any stop; one without a letter or a digit is a word of its own."""
    assert named == tags_named(words, TAGS)
