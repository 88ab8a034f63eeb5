"""Where inserts are found in a story: quickly, whatever its lines are made of."""

import time

import pytest

from buildbook.pages.story.insert_places import asked_in, title_line


@pytest.mark.parametrize(
    "text",
    [
        "@ a" + " " * 100_000 + "b",
        "@" + " " * 100_000,
        "{{ a" + " " * 100_000 + "b",
        "{{" + " " * 100_000 + "}}",
        "# a" + " " * 100_000 + "b",
        "# " + "# " * 50_000 + "b",
        "#" + " " * 100_000,
        "~~~x\n" * 20_000,
        "~~~" * 33_000,
        "-|" * 50_000 + "x",
        "a|b\n-|-\n" * 12_000,
    ],
    ids=lambda text: text[:8].replace("\n", " "),
)
def test_a_long_story_takes_a_moment(text: str) -> None:
    """Runs of blanks, and fences that nothing closes, 100,000 characters of each."""
    begin = time.process_time()
    asked_in(text)
    assert time.process_time() - begin < 2  # hundredths of a second; a minute with going back


@pytest.mark.parametrize(
    ("line", "expected"),
    [
        ("# The wing", "The wing"),
        ("#\tThe wing ##  ", "The wing"),
        ("# ###", "#"),
        ("#The wing", None),
        ("#  \t", None),
    ],
)
def test_the_words_of_a_title(line: str, expected: str | None) -> None:
    """Without the signs that close it; a heading of blanks is none."""
    found = title_line(["", line])
    assert expected == (found[1] if found else None)


@pytest.mark.parametrize(
    ("text", "expected"),
    [
        ("@ layout  \t", ["@ layout"]),
        ("@", ["@ "]),
        ("   {{ parts }}  ", ["{{ parts }}"]),
        ("~~~\n@ layout\n~~~\n@ parts", ["@ parts"]),
        ("~~~a\n@ layout\n~~~~\n@ parts", ["@ layout", "@ parts"]),
    ],
)
def test_inserts_alone_on_a_line(text: str, expected: list[str]) -> None:
    """Blanks around them count for nothing; code that is closed holds none."""
    assert expected == [asked.written for asked in asked_in(text)]
