"""What the words of a flight, or of a day of flights, say."""

import re
from collections.abc import Iterator, Sequence
from itertools import pairwise

from buildbook.basis.nearest import did_you_mean
from buildbook.basis.notation import NotationError, duration_s, quoted
from buildbook.desk.bringing_in.foreign import same_name
from buildbook.desk.entry_text import Tree
from buildbook.desk.new_entry import NewEntry, further, own_key, tags_said
from buildbook.desk.word_values import WrongWords, bare
from buildbook.records.ledger import Ledger

SEVERAL = "flights burdock 6:10,P-01,1290mAh 5:50,P-02,hard"
"""How several are written, by an example of the demo."""
_IN_BRACKETS = re.compile(r"\[([^\[\]]+)\]").findall
is_charge = re.compile(r"[\d.,]* ?m?ah", re.IGNORECASE).fullmatch


def flight(entry: NewEntry, words: list[str], ledger: Ledger) -> None:
    """A duration; then, in any order, a pack, a charge and a landing."""
    fields = further("flight")
    time: list[str] = []
    for word in _rows_apart(words):
        tag = same_name(word, ledger.items)
        if word in ("normal", "hard", "crash"):
            entry.entry["landing"] = word
        elif tag is not None:
            packs = [*tags_said(entry.entry.get("pack", [])), entry.meant(word, tag)]
            entry.entry["pack"] = packs[0] if len(packs) == 1 else packs
        elif is_charge(word):
            apart = not word[0].isdigit() and bool(time)  # 1480 mAh as two words
            entry.add(fields["used"], f"{time.pop()} {word}" if apart else word)
        elif bare(word) and time and (":" in time[-1] or _is_no_amount(time[-1])):
            entry.add(fields["used"], word)
        else:
            time.append(word)
    _refuse_beside_duration(time, ledger)
    if time:
        entry.add(own_key(entry.kind), " ".join(time))


def _rows_apart(words: Sequence[str]) -> list[str]:
    """``7:20,P-01,1480mAh``, a row of several flights, as three words."""
    rows = [word.split(",") if ":" in word else [word] for word in words]
    return [part for row in rows for part in row if part]


def _refuse_beside_duration(words: list[str], ledger: Ledger) -> None:
    """WrongWords: the first words are a duration, and the next is nothing that a flight has."""
    if _is_duration(" ".join(words)):
        return
    for at in range(len(words) - 1, 0, -1):
        if _is_duration(" ".join(words[:at])):
            packs = packs_of(ledger)
            near = did_you_mean(words[at], packs) if packs else _NO_PACKS
            hint = f"write {words[at]}mAh" if bare(words[at]) else near
            key, equals, value = words[at].partition("=")
            if equals and key in further("flight"):
                hint = f"write --{key} {value}"
            if ":" in words[at] and _is_duration(words[at]):
                hint = f"of several write {SEVERAL}"
            elif words[at] in ("check", "test", "maiden"):
                hint = "of a check flight write --purpose check --result pass"
            elif not hint and not equals and words[at][0].isalpha():
                hint = "words of your own stand behind --note"
            raise WrongWords(
                f"{quoted(words[at])} is neither a pack of this hangar nor a charge or a landing"
                + (f"; {hint}" if hint else "")
            )


def packs_of(ledger: Ledger) -> tuple[str, ...]:
    """Their tags, also of those that were never flown."""
    specs = ledger.specs
    return tuple(
        tag for tag, item in ledger.items.items()
        if item.spec in specs and specs[item.spec].kind == "battery"
    )  # fmt: skip


_NO_PACKS = "no pack is recorded yet: its spec in parts/specs.yaml, the pack in parts/items.yaml"

_is_no_amount = re.compile(r"\d+(?:[.,]\d\d?|(?:m|min|')\d\d)").fullmatch
"""5.5, 7.20, 7,20 and 7m20: what comes after them is no part of a duration."""


def _is_duration(text: str) -> bool:
    try:
        duration_s(text)
    except NotationError:
        return False
    return True


def flights(entry: NewEntry, words: list[str], ledger: Ledger) -> None:
    """A row a word: ``7:20,P-01,1480mAh``; or in brackets, or each begun by its clock."""
    used = further("flight")["used"]
    rows: list[Tree] = []
    for first, *rest in _rows_said(words):
        row: list[Tree] = [first]
        for part in rest:
            tag = None if part in ledger.items else same_name(part, ledger.items)
            if is_charge(part) or (bare(part) and tag is None):
                row.append(entry.value(used, part))
            else:
                row.append(part if tag is None else entry.meant(part, tag))
        rows.append(row)
    entry.entry["flights"] = rows


def _rows_said(words: Sequence[str]) -> Iterator[list[str]]:
    """The parts of each flight."""
    text = " ".join(words)
    if "[" in text:
        rows = _IN_BRACKETS(text)
    elif any("," in word.strip(",") or " " in word for word in words):
        rows = list(words)
    else:  # 6:40 P-1 990 7:10 P-2 1150, with or without commas behind
        words = [bare_word for word in words if (bare_word := word.strip(","))]
        begun = [at for at, word in enumerate(words) if ":" in word or at == 0]
        rows = [" ".join(words[at:end]) for at, end in pairwise((*begun, len(words)))]
    for row in rows:
        parts = row.split("," if "," in row else None)
        yield [part.strip() for part in parts]
