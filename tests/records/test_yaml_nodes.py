"""YAML as the files use it: strings only, one document, nothing hidden."""

from typing import Any

import pytest
from hypothesis import example, given, settings
from hypothesis import strategies as st

from buildbook.records.keys import yaml_nodes
from buildbook.records.keys.nodes import line_of
from buildbook.records.keys.plain_text import (
    HARMFUL,
    MOST_BYTES,
    Unreadable,
    first_harmful,
)
from buildbook.records.keys.yaml_nodes import MappingNode, ScalarNode, compose

Tree = Any


def tree(node: Any) -> Tree:
    """A node with its lines as plain tuples."""
    if isinstance(node, ScalarNode):
        return (line_of(node), node.value)
    if isinstance(node, MappingNode):
        return (line_of(node), {i: (tree(k), tree(v)) for i, (k, v) in enumerate(node.value)})
    return None if node is None else (line_of(node), [tree(member) for member in node.value])


def without_lines_of_nothing(found: Tree) -> Tree:
    """The same tree; an empty text has no line."""
    if isinstance(found, list | dict):
        pairs = found.items() if isinstance(found, dict) else enumerate(found)
        return {key: without_lines_of_nothing(member) for key, member in pairs}
    if not isinstance(found, tuple):
        return found
    if len(found) == 2 and found[1] == "":
        return (None, "")
    return tuple(without_lines_of_nothing(member) for member in found)


def outcome(data: bytes, *, pure: bool) -> Tree:
    """The nodes of a text, or why there are none."""
    try:
        return tree(compose(data, pure=pure))
    except Unreadable as error:
        return error.faults


def faults(text: str | bytes) -> list[tuple[str, int]]:
    """The reasons and lines for which a text is not read."""
    with pytest.raises(Unreadable) as caught:
        compose(text if isinstance(text, bytes) else text.encode())
    return [(reason, line) for reason, line, _ in caught.value.faults]


def test_nothing_is_converted() -> None:
    """Words that other readers take for truths, times, octal numbers or nulls stay as written."""
    words = ["no", "on", "1:30", "012", "0x1f", "1_000", "~", "null", "2026-03-01", ".inf", "yes"]
    node = compose(f"[{', '.join(words)}]".encode())

    assert words == [member.value for member in node.value]


def test_the_line_of_each_value_is_kept() -> None:
    """Lines count from 1, whatever the ends of lines."""
    for end in ("\n", "\r\n", "\r"):
        text = end.join(["# words", "a: 1", "b:", "  - 2", "  - {c: 3}", ""])

        expected = (
            2,
            {
                0: ((2, "a"), (2, "1")),
                1: ((3, "b"), (4, [(4, "2"), (5, {0: ((5, "c"), (5, "3"))})])),
            },
        )
        assert expected == tree(compose(text.encode()))


def test_a_mark_of_byte_order_is_passed_over() -> None:
    """Editors that write one are no problem."""
    assert (1, {0: ((1, "a"), (1, "1"))}) == tree(compose(b"\xef\xbb\xbfa: 1\n"))


def test_an_empty_file_has_no_node() -> None:
    """Nothing, or remarks only."""
    assert compose(b"") is None
    assert compose(b"# later\n\n") is None


def test_files_that_are_no_text() -> None:
    """Binary, another encoding, control characters: each with its line."""
    assert [("binary file, not text", 1)] == faults(b"\x89PNG\r\n\x1a\n\x00\x00")
    assert [("not UTF-8 text: byte 0xe9", 2)] == faults(b"a: 1\nb: caf\xe9\n")
    assert [("not UTF-8 text: byte 0xff", 1)] == faults("a: 1\n".encode("utf-16")[:2] + b"a: 1")
    assert [("control character U+0007", 3)] == faults("a: 1\n\nb: \x07\n")


def test_a_file_of_more_than_four_megabytes() -> None:
    """It is told, not read."""
    reason = "file of 4.0 MB, more than the 4 MB that are read"
    assert [(reason, 1)] == faults(b"a: 1\n" * 838_861)


def test_a_file_of_just_under_four_megabytes_is_read() -> None:
    """The limit is not lower than said."""
    data = b"- 1\n" * (MOST_BYTES // 4)
    assert len(compose(data).value) == MOST_BYTES // 4


def test_all_anchors_aliases_and_tags_are_told_at_once() -> None:
    """A file with several of them names each."""
    text = "a: &x 1\nb: *x\nc: !odd 2\n"
    assert [
        ("anchors and aliases are not read: '&x'", 1),
        ("anchors and aliases are not read: '*x'", 2),
        ("tags of YAML are not read: '!odd'", 3),
    ] == faults(text)


def test_a_bomb_of_aliases_is_not_unfolded() -> None:
    """Nine levels of nine aliases each would be 387 million values."""
    lines = ["a0: &a0 [x, x, x, x, x, x, x, x, x]"]
    for level in range(1, 10):
        inner = ", ".join([f"*a{level - 1}"] * 9)
        lines.append(f"a{level}: &a{level} [{inner}]")

    assert faults("\n".join(lines))[0] == ("anchors and aliases are not read: '&a0'", 1)


@pytest.mark.parametrize(
    "text",
    [
        "[" * 50 + "]" * 50,
        "{a: " * 50 + "}" * 50,
        "[" * 100_000,
        "- " * 50 + "x",
        "- " * 100_000 + "x",
        "? " * 50 + "x",
        "\n".join(" " * level + "a:" for level in range(50)),
        "".join("  " * level + "- a:\n" for level in range(50)),
    ],
    ids=["lists", "groups", "open", "dashes", "many dashes", "queries", "keys", "both"],
)
@pytest.mark.parametrize("pure", [False, True])
def test_a_bomb_of_depth_is_refused(text: str, pure: bool) -> None:
    """No recursion error and no crash, whichever way the depth is written."""
    with pytest.raises(Unreadable) as caught:
        compose(text.encode(), pure=pure)
    assert "nested more than 40 levels deep" == caught.value.faults[0].reason


def test_forty_levels_are_read() -> None:
    """The limit is not lower than said."""
    assert compose(("[" * 40 + "]" * 40).encode()) is not None


TYPICAL = [
    "a: 1\n---\nb: 2\n",
    "a:\n\tb: 1\n",
    "a: 'x\nb: 2\n",
    'a: "x\\q"\n',
    "a: [1, 2\nb: 3\n",
    "a: {x: 1\n",
    "a: b: c\n",
    "a: b\n c: d\n",
    "a: @x\n",
    "a: `x`\n",
    "- a\nb: c\n",
    "- a: 1\n b: 2\n",
    "}",
    "a: !<x",
    "a: *\n",
    "a: |\n x\n\ty\n",
    "a: 1\n...\nb",
    "a: >\n  folded\n  text\n\n  more\nb: 'it''s'\nc: \"\\u00e9\"\n",
]


@pytest.mark.parametrize("text", TYPICAL)
def test_the_pure_parser_says_the_same_of_typical_mistakes(text: str) -> None:
    """Reason, line and hint are the same where libyaml is missing."""
    assert outcome(text.encode(), pure=False) == outcome(text.encode(), pure=True)


_ALPHABET = st.sampled_from(list("ab1 \n\n  --::,[]{}#'\"|>&*!%@é"))


@settings(max_examples=150, deadline=None)
@given(st.text(_ALPHABET, max_size=40))
@example("a: [b, {c: d}]\n")
@example("---")
@example("{-&a:\n}")
def test_where_both_parsers_read_a_text_they_read_the_same(text: str) -> None:
    """Nodes and lines do not depend on libyaml, which puts an empty value beside what follows."""
    fast, pure = outcome(text.encode(), pure=False), outcome(text.encode(), pure=True)
    if not isinstance(fast, list) and not isinstance(pure, list):
        assert without_lines_of_nothing(fast) == without_lines_of_nothing(pure)


def test_without_libyaml_the_pure_parser_is_used(monkeypatch: pytest.MonkeyPatch) -> None:
    """An installation without it reads all the same."""
    monkeypatch.setattr(yaml_nodes, "cyaml", None)
    assert (1, {0: ((1, "a"), (1, "1"))}) == tree(compose(b"a: 1\n"))


def test_the_quick_look_for_harmful_characters_misses_none() -> None:
    """Of every character alone, and among others, it says what the slow one says."""
    for code in range(0x110000):
        sign = chr(code)
        slow = HARMFUL.search(sign)
        quick = first_harmful(sign)
        assert (slow is None) == (quick is None), f"U+{code:04X}"
    assert "\u202e" == first_harmful("line\n\ta\u00a0b\u202ec")[0]  # type: ignore[index]


def test_a_prefix_is_too_deep_on_the_first_line_and_on_a_later_one() -> None:
    """Whichever line it stands on, it is told there."""
    deep = "- " * 60 + "a"
    for start in ("", "- b\n"):
        assert [("nested more than 40 levels deep", 1 + start.count("\n"))] == faults(start + deep)
