"""How somebody else's table is read: which column is which key, in which unit, on which day.

It is written for the keeper beside the table at the first try, and read at the second.
"""

from collections.abc import Mapping
from pathlib import Path
from typing import Any, Literal, NoReturn, get_args

import msgspec

from buildbook.basis.nearest import did_you_mean
from buildbook.basis.notation import quoted
from buildbook.desk.bringing_in.foreign import Days
from buildbook.desk.entry_text import Tree, entry_text, scalar, tree_of
from buildbook.records.entries.kinds import KINDS
from buildbook.records.keys.plain_text import Unreadable
from buildbook.records.keys.yaml_nodes import compose

EACH = "one entry each"
ALL = "one entry from all rows"
FOR_EACH = "one entry for each "
Take = Literal["first", "last", "least", "most", "sum", "mean", "span", "amount"]
TAKES: tuple[Take, ...] = get_args(Take)
_WORDS = """\
# How {name} is read. What stands here was guessed: look it over, put right what is wrong, and
# run the same command again. Nothing was written yet.
#
# rows: one entry each, one entry from all rows, or one entry for each COLUMN (whose value changes)
# is: the key of the entry; on, time, aircraft and item say when and whose; landed: when it ended.
# unit: of bare numbers. A time as m:s is minutes and seconds, h:m hours and minutes.
# take: of several rows the first, last, least, most, sum, mean, span (last less first), or the
#   amount, which is current times the seconds of the column under over.
# all: what holds for every row. names: what is written there, and what it is here; where nothing
#   stands behind a name, write whose it is.
# skip: lines of the table that are no entries, as in [57, 58].
"""


class NoScheme(Exception):
    """The mapping file can't be used; the text is one sentence."""


class Column(msgspec.Struct, frozen=True):
    """What a column is. take, over: of the rows that make one entry together."""

    key: str
    unit: str | None = None
    take: Take | None = None
    over: str | None = None


class Scheme(msgspec.Struct, frozen=True, kw_only=True):
    """How a table is read. doubts: what the guess is not sure of, a sentence each."""

    kind: str
    rows: str = EACH
    heads: int = 1
    days: Days = "year-first"
    decimals: Literal["point", "comma"] = "point"
    every: Mapping[str, str] = {}
    columns: Mapping[str, Column] = {}
    names: Mapping[str, str] = {}
    left_out: tuple[str, ...] = ()
    skip: tuple[int, ...] = ()
    doubts: tuple[str, ...] = ()
    sheet: str | None = None


def scheme_text(scheme: Scheme, name: str) -> str:
    """The mapping file."""
    top: dict[str, Tree] = {
        "kind": scheme.kind,
        "rows": scheme.rows,
        "heads": str(scheme.heads),
        "days": scheme.days,
        "decimals": scheme.decimals,
        "all": dict(scheme.every),
        "skip": [str(line) for line in scheme.skip],
    }
    if scheme.sheet is not None:
        top = {"sheet": scheme.sheet, **top}
    lines = [_WORDS.format(name=name)]
    lines += [f"# Not sure: {doubt}\n" for doubt in scheme.doubts]
    lines += [line[2:] + "\n" for line in entry_text(top).splitlines()]
    lines.append("columns:\n")
    for head, column in scheme.columns.items():
        group = {"is": column.key, "unit": column.unit, "take": column.take, "over": column.over}
        shown = ", ".join(
            f"{key}: {scalar(value, in_brackets=True)}" for key, value in group.items() if value
        )
        lines.append(f"  {scalar(head)}: {{{shown}}}\n")
    if scheme.names:
        lines.append("names:\n")
        lines += [
            f"  {scalar(there)}: {scalar(here) if here else ''}".rstrip() + "\n"
            for there, here in scheme.names.items()
        ]
    if scheme.left_out:
        lines.append("# columns that nothing is taken from:\n")
        lines += [f"#  {scalar(head)}: {{is: }}\n" for head in scheme.left_out]
    return "".join(lines)


def write_scheme(path: Path, scheme: Scheme, name: str) -> None:
    """Write a new mapping file; ``name``: of the table. NoScheme: no rights, or no room."""
    try:
        with path.open("x", encoding="utf-8") as file:
            file.write(scheme_text(scheme, name))
    except OSError as error:
        reason = (error.strerror or str(error)).lower()
        raise NoScheme(f"could not write {path}: {reason}; name another by --mapping") from error


def read_scheme(path: Path) -> Scheme:
    """The mapping file as the keeper left it. NoScheme: it can't be read, or says what is none."""
    try:
        node = compose(path.read_bytes())
    except OSError as error:
        raise NoScheme(f"{path} can't be read: {(error.strerror or str(error)).lower()}") from error
    except Unreadable as error:
        fault = error.faults[0]
        raise NoScheme(f"{fault.reason} @ {path.name}:{fault.line}") from error
    tree = {} if node is None else tree_of(node)
    if not isinstance(tree, Mapping):
        raise NoScheme(f"{path.name} is not a group of keys")
    return _Reader(path.name, tree).scheme()


class _Reader:
    """The keys of a mapping file, each with its own refusal."""

    def __init__(self, name: str, tree: Mapping[str, Tree]) -> None:
        self._name = name
        self._tree = tree

    def scheme(self) -> Scheme:
        keys = (
            "sheet",
            "kind",
            "rows",
            "heads",
            "days",
            "decimals",
            "all",
            "skip",
            "columns",
            "names",
        )
        for key in self._tree:
            if key not in keys:
                self._refuse(f"unknown key {quoted(key)}", did_you_mean(key, keys))
        rows = self._text("rows", EACH)
        if rows not in (EACH, ALL) and not rows.startswith(FOR_EACH):
            self._refuse(f"rows: {quoted(rows)} is none of the three ways", None)
        every = {key: str(value) for key, value in self._group("all").items()}
        names = {key: str(value) for key, value in self._group("names").items()}
        return Scheme(
            kind=self._one_of("kind", tuple(KINDS), "flight"),
            rows=rows,
            heads=self._number("heads", self._text("heads", "1")),
            days=self._one_of("days", get_args(Days), "year-first"),
            decimals=self._one_of("decimals", ("point", "comma"), "point"),
            every=every,
            columns=self._columns(),
            names=names,
            skip=tuple(self._number("skip", each) for each in self._list("skip")),
            sheet=_text_or_none(self._tree.get("sheet")),
        )

    def _columns(self) -> dict[str, Column]:
        found = {}
        for head, value in self._group("columns").items():
            group: Tree = {"is": value} if isinstance(value, str) else value
            if not isinstance(group, Mapping):
                self._refuse(f"column {quoted(head)} is not a key", "write {is: used, unit: mAh}")
            for key in group:
                if key not in ("is", "unit", "take", "over"):
                    self._refuse(f"column {quoted(head)}: unknown key {quoted(key)}", None)
            take = group.get("take")
            if take is not None and take not in TAKES:
                self._refuse(f"column {quoted(head)}: take {quoted(str(take))} is none", None)
            if group.get("is"):
                found[head] = Column(
                    str(group["is"]),
                    _text_or_none(group.get("unit")),
                    next((each for each in TAKES if each == take), None),
                    _text_or_none(group.get("over")),
                )
        return found

    def _text(self, key: str, default: str) -> str:
        value = self._tree.get(key, default)
        return value if isinstance(value, str) else default

    def _group(self, key: str) -> Mapping[str, Tree]:
        value = self._tree.get(key) or {}
        if not isinstance(value, Mapping):
            self._refuse(f"{key}: is not a group of keys", None)
        return value

    def _list(self, key: str) -> list[str]:
        value = self._tree.get(key) or []
        return [value] if isinstance(value, str) else [str(each) for each in value]

    def _number(self, key: str, text: str) -> int:
        if not text.isdecimal() or int(text) < 1:
            self._refuse(f"{key}: {quoted(text)} is not a line", None)
        return int(text)

    def _one_of(self, key: str, options: tuple[str, ...], default: str) -> Any:
        value = self._text(key, default)
        if value not in options:
            self._refuse(f"{key}: {quoted(value)} is none", did_you_mean(value, options))
        return value

    def _refuse(self, reason: str, hint: str | None) -> NoReturn:
        raise NoScheme(f"{self._name}: {reason}" + (f"; {hint}" if hint else ""))


def _text_or_none(value: object) -> str | None:
    return value if isinstance(value, str) and value else None
