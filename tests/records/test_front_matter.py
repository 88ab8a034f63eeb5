"""Keys above a build story are no part of it."""

import pytest

from buildbook.records.reading.story_shape import without_front_matter


@pytest.mark.parametrize(
    ("text", "left"),
    [
        ("# Heron\n\nBuilt.\n", "# Heron\n\nBuilt.\n"),
        ("---\nserial: X1\n---\n# Heron\n", "\n\n\n# Heron\n"),
        ("---\r\nserial: X1\r\n---\r\n# Heron\r\n", "\n\n\n# Heron\r\n"),
        ("+++\nserial = 'X1'\n+++\nBuilt.\n", "\n\n\nBuilt.\n"),
        ("---\nnotes:\n\n  - a\n...\nBuilt.\n", "\n\n\n\n\nBuilt.\n"),
        ("---\nserial: X1\nplace: home\n\nBuilt.\n", "\n\n\n\nBuilt.\n"),
        ("---\nserial: X1", "\n\n"),
        ("---\nA rule above, then words.\n", "---\nA rule above, then words.\n"),
        ("Words.\n\n---\n\nserial: X1\n\n---\n", "Words.\n\n---\n\nserial: X1\n\n---\n"),
        ("", ""),
        ("---", "---"),
    ],
)
def test_front_matter_leaves_blank_lines(text: str, left: str) -> None:
    """Closed or not, it is gone, and what follows stands on the line on which it was written."""
    assert left == without_front_matter(text)
