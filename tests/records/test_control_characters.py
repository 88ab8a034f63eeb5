"""Characters that mislead a terminal, a calendar or a reader are problems with their line."""

import pytest
from small_hangar import WriteHangar

from buildbook.records.reading.read import read_hangar

TURNS = "character that turns the direction of writing"
ESCAPED = {
    '"\\e"': "control character U+001B",
    '"\\0"': "control character U+0000",
    '"a\\x07b"': "control character U+0007",
    '"a\\rb"': "control character U+000D",
    '"a\\N"': "control character U+0085",
    '"\\u2028"': "control character U+2028",
    '"a\\u202Eb"': f"{TURNS} U+202E",
    '"\\u2066"': f"{TURNS} U+2066",
    '"\\uFEFF"': "control character U+FEFF",
    '"\\U0001FFFF"': "control character U+1FFFF",
}
RAW = {
    "\x1b[31m": "control character U+001B",
    "\x7f": "control character U+007F",
    "\x85": "control character U+0085",
    "\u2029": "control character U+2029",
    "\u202d": f"{TURNS} U+202D",
    "\u2069": f"{TURNS} U+2069",
}


def told(write_hangar: WriteHangar, path: str, text: str) -> list[str]:
    """The problems of the small hangar with one file replaced."""
    problems = read_hangar(write_hangar({path: text}), None).problems
    return [str(problem) for problem in problems if problem.severity == "problem"]


@pytest.mark.parametrize("value", ESCAPED)
def test_an_escape_in_quotes_is_told(write_hangar: WriteHangar, value: str) -> None:
    """As a value deep in an entry, and as a key."""
    path = "aircraft/sedge/logbook.yaml"
    text = f"- on: 2026-02-01\n  note: x\n- on: 2026-02-02\n  setting: {{buzzer: {value}}}\n"
    assert [f"{ESCAPED[value]} @ {path}:4"] == told(write_hangar, path, text)
    text = f"- on: 2026-02-01\n  setting: {{{value}: on}}\n"
    assert [f"{ESCAPED[value]} @ {path}:2"] == told(write_hangar, path, text)


@pytest.mark.parametrize("raw", RAW)
@pytest.mark.parametrize(
    ("path", "before"),
    [
        ("parts/specs.yaml", "- spec: a\n  kind: motor\n  note: x"),
        ("aircraft/sedge/write-up.md", "# Sedge\n\nIt flew"),
        ("bench/a.csv", "thrust_g,rpm\n1,2\n3,4"),
    ],
)
def test_the_character_itself_is_told(
    write_hangar: WriteHangar, raw: str, path: str, before: str
) -> None:
    """In YAML, in a write-up, in a table."""
    assert f"{RAW[raw]} @ {path}:3" in told(write_hangar, path, f"{before}{raw}\n")


def test_other_scripts_and_signs_are_fine(write_hangar: WriteHangar) -> None:
    """Right-to-left letters with their marks, joined emoji, accents of their own, tabs, lines."""
    text = "\u05d0\u200f \u0627\u200d A\u0308 \U0001f468\u200d\U0001f527 \u200b"
    path = "aircraft/sedge/logbook.yaml"
    note = f'- on: 2026-02-01\n  note: "{text} a\\tb\\nc"\n'
    assert [] == told(write_hangar, path, note)


def test_a_half_surrogate_is_told(write_hangar: WriteHangar) -> None:
    """Whatever the parser makes of it, it never reaches a page."""
    path = "aircraft/sedge/logbook.yaml"
    (line,) = told(write_hangar, path, '- on: 2026-02-01\n  note: "\\uD800"\n')
    assert line.endswith(f" @ {path}:2")
