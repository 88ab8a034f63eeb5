"""Write-ups that would take minutes to set are refused; what is not refused is set in a moment."""

import time
from collections.abc import Callable

import pytest
from small_hangar import WriteHangar

from buildbook.basis.sizes import most
from buildbook.pages.story.story_text import story
from buildbook.records.reading.read import read_hangar
from buildbook.records.reading.story_shape import faults_of

# Shapes of Markdown, each made as long as it is asked for, in characters.
SHAPES: dict[str, Callable[[int], str]] = {
    "open brackets": lambda size: "[" * size,
    "open pictures": lambda size: "![" * (size // 2),
    "links without an end": lambda size: "[a](" * (size // 4),
    "links in links": lambda size: "[x](<" * (size // 5),
    "stars": lambda size: "*a **b " * (size // 7),
    "underscores": lambda size: "*_" * (size // 2),
    "uneven backticks": lambda size: "``a`" * (size // 4),
    "open tags": lambda size: "<a " * (size // 3),
    "open data": lambda size: "<![CDATA[" * (size // 9),
    "open comments": lambda size: "<!--" * (size // 4),
    "quotations in quotations": lambda size: ">" * size,
    "lists in lists": lambda size: "- " * (size // 2) + "a",
    "numbers in numbers": lambda size: "1. " * (size // 3) + "a",
    "lists further in": lambda size: "\n".join(f"{'    ' * n}- a" for n in range(size // 50)),
    "definitions": lambda size: "a\n: b\n" * (size // 6),
    "headings": lambda size: "# a\n" * (size // 4),
    "underlined headings": lambda size: "a\n===\n\n" * (size // 7),
    "a table": lambda size: "|a|b|\n|-|-|\n" + "|a|b|\n" * (size // 6),
    "a wide table": lambda size: "|a" * (size // 4) + "\n" + "|-" * (size // 4),
    "one word": lambda size: "a" * size,
    "lines": lambda size: "lorem ipsum\n" * (size // 12),
    "paragraphs of brackets": lambda size: f"{'[' * 400}\n\n" * (size // 402),
    "paragraphs of tags": lambda size: f"{'<a ' * 150}\n\n" * (size // 452),
    "paragraphs of data": lambda size: f"{'<![CDATA[' * 60}\n\n" * (size // 542),
    "a fence": lambda size: "```\n" * (size // 4),
}


@pytest.mark.parametrize("shape", SHAPES)
@pytest.mark.parametrize("size", [600, 2_400, 19_000, 190_000])
def test_a_story_is_refused_or_set_in_a_moment(shape: str, size: int) -> None:
    """Ten seconds of a busy machine, where without bounds each of these takes minutes."""
    text = SHAPES[shape](size)
    if faults_of(text):
        return
    begun = time.process_time()
    story(text)
    assert 10 > time.process_time() - begun


FAULTS = {
    "[" * 100_000: "paragraph of 100,000 characters, more than 20,000 @ 1",
    "a\n\n" + "[" * 601: "paragraph of 601 square brackets, more than 600 @ 3",
    ("[" * 600 + "\n\n") * 6: "write-up of more than 3,000 square brackets @ 11",
    "x " * 100_001: "write-up of 200,002 characters, more than 200,000 @ 1",
    "a\n\n" + "> " * 9 + "a": "lists or quotations 9 levels deep, more than 8 @ 3",
    " " * 32 + "- a": "lists or quotations 9 levels deep, more than 8 @ 1",
    "a\n" + ": b\n" * 51: "paragraph of 51 definitions, more than 50 @ 1",
    "# a\n" * 501: "write-up of more than 500 headings @ 501",
    "a\nb &#8233; c": "control character U+2029, written as &#8233; @ 2",
    "a &#x1b;": "control character U+001B, written as &#x1b; @ 1",
}


@pytest.mark.parametrize("text", FAULTS, ids=list(FAULTS.values()))
def test_each_bound_is_told_with_its_line(text: str) -> None:
    """The reason names what was found and what is the most."""
    assert FAULTS[text] in [f"{fault.reason} @ {fault.line}" for fault in faults_of(text)]


def test_a_usual_story_is_in_bounds() -> None:
    """Lists, a quotation, a table, a ruler of hyphens and stars, entities."""
    text = "# A\n\n- a\n    - b\n        - c\n\n> > said\n\n" + "- " * 30 + "\n\n|a|b|\n|-|-|\n"
    assert () == faults_of(text + "a &amp; b &nbsp; &#215;\n\n* * * * * * * * * *\n")
    assert 8 == most("quotes")


def test_a_refused_story_is_told_at_its_file(write_hangar: WriteHangar) -> None:
    """One sentence each, with what to do."""
    folder = write_hangar({"aircraft/sedge/write-up.md": "# Sedge\n\n" + "[" * 601})
    (problem,) = (one for one in read_hangar(folder, None).problems if one.severity == "problem")
    reason = "paragraph of 601 square brackets, more than 600"
    assert f"{reason} @ aircraft/sedge/write-up.md:3" == str(problem)
    assert "break it with an empty line" == problem.hint
