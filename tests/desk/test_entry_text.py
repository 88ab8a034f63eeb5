"""What is written is what is read, for any text and for every kind of entry."""

import datetime
import json
import os
from typing import Any

import msgspec
import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from buildbook.basis.problems import Problems
from buildbook.desk.entry_text import Entry, as_tree, entry_text, scalar, tree_of
from buildbook.desk.spoken import further, own_key
from buildbook.records.entries.kinds import KINDS
from buildbook.records.keys.plain_text import HARMFUL
from buildbook.records.keys.yaml_nodes import compose
from buildbook.records.reading.corrections import amend
from buildbook.records.reading.logs import read_log

TEXTS = st.text(st.characters(codec="utf-8"), max_size=60).map(
    lambda text: HARMFUL.sub("", text).replace("\r", "")
)
SIGNS = st.text("ab1 #:-?,[]{}&*!|>'\"%@`~.=\\/\n\t", max_size=12)
NAMES = st.text("abcXYZ019-._", min_size=1, max_size=12)
TREES = st.recursive(
    TEXTS | SIGNS,
    lambda inner: st.lists(inner, max_size=4) | st.dictionaries(NAMES | SIGNS, inner, max_size=4),
    max_leaves=12,
)


def normal(tree: Any) -> Any:
    """One spelling of each accent, as the reader has it."""
    import unicodedata

    if isinstance(tree, str):
        return unicodedata.normalize("NFC", tree)
    if isinstance(tree, dict):
        return {normal(key): normal(value) for key, value in tree.items()}
    return [normal(each) for each in tree]


@settings(max_examples=int(os.environ.get("TREES", "100")), deadline=None)
@given(st.dictionaries(NAMES | SIGNS, TREES, min_size=1, max_size=4))
def test_any_tree_is_read_back_as_it_was_written(tree: Entry) -> None:
    """Texts of any signs, lists and groups within each other."""
    (node,) = compose(entry_text(tree).encode()).value  # type: ignore[union-attr]

    assert normal(tree) == tree_of(node)


@pytest.mark.parametrize(
    ("written", "text"),
    [
        ("7:20", "7:20"),
        ("1480 mAh", "1480 mAh"),
        ("-5 g", "-5 g"),
        ("Gusty, landed early.", "Gusty, landed early."),
        ('"tried prop #3"', "tried prop #3"),
        ('"left: loose"', "left: loose"),
        ('"- a hyphen"', "- a hyphen"),
        ('"two\\nlines"', "two\nlines"),
        ('""', ""),
    ],
)
def test_quotes_stand_only_where_they_must(written: str, text: str) -> None:
    """Plain words as somebody would write them."""
    assert written == scalar(text)


def test_long_lists_take_a_line_each() -> None:
    """Rows of many flights stay readable."""
    rows = [["7:20", "P-01", "1480 mAh", "hard"]] * 4

    assert entry_text({"on": "2026-03-01", "flights": rows}).splitlines() == [
        "- on: 2026-03-01",
        "  flights:",
        *["    - [7:20, P-01, 1480 mAh, hard]"] * 4,
    ]


def example(kind: str) -> dict[str, Any]:
    """An entry of a kind with every key that it may have, each as the reference shows it."""
    field = own_key(kind)
    values = {field.key: as_tree(field.example) if field.example[0] in "[{" else field.example}
    for key, other in further(kind).items():
        if key not in ("on", "id", "public", "set") and other.example:
            values[key] = as_tree(other.example) if other.example[0] in "[{" else other.example
    if kind == "flights":  # each of its rows has a pack of its own
        del values["pack"]
    return values


def read(text: str) -> tuple[Any, ...]:
    """The entries of a log, without their places."""
    problems = Problems()
    drafts = read_log("aircraft/a", [("a.yaml", compose(text.encode()))], problems, "a")
    amend(drafts)
    assert [str(problem) for problem in problems] == []
    return tuple(
        msgspec.structs.replace(draft.entry, line=0, lines={})
        for draft in drafts
        if draft.entry is not None
    )


def lineless(entry: Any) -> Any:
    """The entry as data, without the lines of rows and runs."""

    def strip(value: Any) -> Any:
        if isinstance(value, dict):
            return {key: strip(each) for key, each in value.items() if key not in ("line", "lines")}
        if isinstance(value, list | tuple):
            return [strip(each) for each in value]
        return value

    return strip(msgspec.to_builtins(entry))


@pytest.mark.parametrize("kind", KINDS)
def test_every_kind_reads_the_same_as_its_json(kind: str) -> None:
    """With all its keys; JSON is YAML that somebody else's program writes."""
    values = example(kind)
    entry: dict[str, Any] = {"on": "2026-03-01T16:40", "id": "x-1", **values}
    if kind == "cleared":
        entry[kind] = "x-0"
    before = [{"on": "2026-02-01", "id": "x-0", "defect": "loose"}]

    own = read(entry_text(before[0]) + entry_text(entry))
    theirs = read(json.dumps([*before, entry], ensure_ascii=False))

    assert len(theirs) == 2
    assert list(map(lineless, theirs)) == list(map(lineless, own))
    assert datetime.date(2026, 3, 1) == own[1].on


@pytest.mark.parametrize(
    "amending",
    [
        {"corrects": "x-0", "set": {"used": "1480 mAh"}, "because": "misread: twice"},
        {"corrects": "x-0", "water": "It was wet.", "because": "wrong key"},
        {"voids": "x-0", "because": "another aircraft"},
    ],
)
def test_corrections_and_voids_read_the_same_as_their_json(amending: dict[str, Any]) -> None:
    """They name an entry of the same log."""
    before = {"on": "2026-02-01", "id": "x-0", "flight": "7:20", "used": "1408 mAh"}
    entry = {"on": "2026-03-01", "id": "x-1", **amending}

    own = read(entry_text(before) + entry_text(entry))
    theirs = read(json.dumps([before, entry]))

    assert list(map(lineless, theirs)) == list(map(lineless, own))
