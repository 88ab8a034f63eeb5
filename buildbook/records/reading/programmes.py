"""Programmes and notices from their nodes; programmes are the keeper's own or built in."""

from collections.abc import Mapping
from pathlib import Path
from typing import Any

from buildbook.basis.notation import quoted
from buildbook.basis.problems import Problems
from buildbook.records.keys.fields import complete, fields_of, missing, read_fields
from buildbook.records.keys.scope import Pairs, Scope, pairs_of
from buildbook.records.keys.values import an
from buildbook.records.keys.yaml_nodes import Node, compose
from buildbook.records.notices import Notice
from buildbook.records.programmes import (
    BUILT_IN,
    CheckRule,
    Follows,
    LimitRule,
    Programme,
    TaskRule,
)
from buildbook.records.reading.aircraft import keys_of_file
from buildbook.records.reading.parts import Named, records_in

_FOLDER = Path(__file__).parents[1] / "built_in"
_ROWS: Mapping[str, tuple[str, type[CheckRule | TaskRule | LimitRule]]] = {
    "checks": ("check", CheckRule),
    "tasks": ("task", TaskRule),
    "life_limits": ("limit", LimitRule),
}


def built_in_programmes() -> dict[str, Programme]:
    """The programmes that come with the program, under ``built-in <name>``.

    ValueError: one of them does not read cleanly, which the tests rule out.
    """
    programmes = {}
    for path in sorted(_FOLDER.glob("*.yaml")):
        problems = Problems()
        read = read_programme(
            compose(path.read_bytes()), f"built-in/{path.name}", problems, {}, built_in=True
        )
        if read is None or len(problems):
            raise ValueError(f"built-in programme: {'; '.join(str(each) for each in problems)}")
        programmes[BUILT_IN + read.name] = read
    return programmes


def read_programme(
    root: Node | None,
    file: str,
    problems: Problems,
    known: Mapping[str, Programme],
    *,
    built_in: bool = False,
) -> Programme | None:
    """One file of programmes/. A row that changes one of its base takes over what it leaves out.

    known: the programmes that may be a base, by name.
    """
    scope = Scope(file, 1, problems)
    pairs = keys_of_file(root, scope, "a programme")
    if pairs is None:
        return None
    rows = {key: pairs.pop(key, None) for key in _ROWS}
    fields = fields_of(Programme)
    missing(pairs, fields, scope, None, "a programme")
    read = read_fields(pairs, fields, scope, "a programme")
    base = known.get(read.get("based_on", ""))
    lists: dict[str, Any] = {
        key: _rows(pair[1] if pair else None, scope, key, base) for key, pair in rows.items()
    }
    for key, pair in rows.items():
        if pair:
            scope.remember(key, pair[0])
    if "name" not in read:
        return None
    return Programme(file=file, line=1, lines=scope.lines, built_in=built_in, **read, **lists)


def _rows(root: Node | None, scope: Scope, key: str, base: Programme | None) -> tuple[Any, ...]:
    """The rows of one list of a programme."""
    what, make = _ROWS[key]
    fields = fields_of(make)
    inherited = {getattr(row, what): row for row in getattr(base, key, ())}
    names = Named(what)
    rows: list[Any] = []
    for node in records_in(root, scope, what):
        inner = Scope(scope.file, node.start_mark.line + 1, scope.problems, scope.about)
        pairs = pairs_of(node, inner)
        _turned_round(pairs, inner)
        read = read_fields(pairs, fields, inner, an(what))
        name = read.get(what)
        since = read.get("since")
        earlier: Any = None
        if since is not None:
            earlier = next((row for row in reversed(rows) if getattr(row, what) == name), None)
        old = earlier or (inherited.get(name) if name is not None else None)
        if old is None and missing(pairs, fields, inner, None, _title(what, name)):
            continue
        begins = "" if since is None else f" since {since}"
        if name is None or not names.add(f"{name}{begins}", pairs[what][1], inner):
            continue
        read |= read.pop("at", {})
        written = tuple(dict.fromkeys((*(earlier.written if earlier else ()), *read)))
        whole = {**_inherited(old), **read}
        if what != "limit" and "what" not in whole:
            continue
        if what == "limit" and "each" not in whole:
            continue
        _unclear_interval(what, name, whole, pairs, inner)
        rows.append(
            make(file=inner.file, line=inner.line, lines=inner.lines, written=written, **whole)
        )
    return tuple(rows)


def _turned_round(pairs: Pairs, scope: Scope) -> None:
    """``also_done_by`` was said by the row that is closed; ``covers`` is said by the one that
    closes it."""
    found = pairs.pop("also_done_by", None)
    if found is not None:
        scope.refuse(
            found[0],
            "'also_done_by' is written the other way round now",
            "write covers: with this task on each check or task that does it",
        )


def _title(what: str, name: str | None) -> str:
    return an(what) if name is None else f"{what} {quoted(name)}"


def _inherited(rule: Any) -> dict[str, Any]:
    """The values of a rule of the base, without where it was written."""
    if rule is None:
        return {}
    own = ("file", "line", "lines", "public", "written")
    return {name: getattr(rule, name) for name in rule.__struct_fields__ if name not in own}


_ROUNDS = ("every", "follows", "also_after", "when", "at")


def _unclear_interval(
    what: str, name: str, whole: Mapping[str, Any], pairs: Pairs, scope: Scope
) -> None:
    """A task that never comes round, a limit that never ends: problems.

    Where something stands under a key and could not be read, that is told already.
    """
    told = any(key in pairs and pairs[key][1].value != [] for key in _ROUNDS)
    if what == "task":
        every = whole.get("every")
        counted = every is not None and any(
            getattr(every, unit) is not None for unit in every.__struct_fields__
        )
        follows = whole.get("follows")
        if follows is not None:
            _unclear_follows(name, follows, counted, scope)
        elif not (counted or told or whole.get("also_after") or whole.get("when")):
            scope.refuse(
                None,
                f"task {quoted(name)} never comes round",
                "give it every:, follows:, also_after: or when:",
            )
    elif (
        what == "limit"
        and not told
        and not any(
            whole.get(field.attribute) for field in fields_of(LimitRule, under="at").values()
        )
    ):
        scope.refuse(
            None, f"limit {quoted(name)} has no counter under 'at'", "as in at: {cycles: 300}"
        )


def _unclear_follows(name: str, follows: Follows, counted: bool, scope: Scope) -> None:
    """One row is counted in one way; and time without flying is no moment to count from."""
    if counted:
        scope.refuse(None, f"task {quoted(name)} has 'every' and 'follows'", "make it two tasks")
    for trigger in follows.after:
        if trigger.event == "idle":
            scope.refuse(
                None,
                f"task {quoted(name)} follows {quoted(str(trigger))}, which is not an event",
                f"write also_after: [{trigger}]",
            )


def read_notices(
    root: Node | None, file: str, problems: Problems, names: Named, notices: dict[str, Notice]
) -> None:
    """Read one file of notices into ``notices``."""
    for node in records_in(root, Scope(file, 1, problems), "notice"):
        scope = Scope(file, node.start_mark.line + 1, problems)
        pairs, fields = pairs_of(node, scope), fields_of(Notice)
        read = read_fields(pairs, fields, scope, "a notice")
        name = read.get("notice")
        missing(
            pairs, fields, scope, None, "a notice" if name is None else f"notice {quoted(name)}"
        )
        new = name is not None and names.add(name, pairs["notice"][1], scope)
        if new and complete(read, fields):
            notices[read["notice"]] = Notice(file=file, line=scope.line, lines=scope.lines, **read)
