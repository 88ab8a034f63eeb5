"""Logbooks from their nodes: heads first (day, id, kind), then what each kind says."""

import datetime
from collections.abc import Collection, Sequence
from typing import Any

from msgspec import UNSET

from buildbook.basis.amounts import listed
from buildbook.basis.notation import quoted
from buildbook.basis.place import Place
from buildbook.basis.problems import Problems
from buildbook.records.entries import AnyEntry
from buildbook.records.entries.flying import idle_of_day
from buildbook.records.entries.kinds import AMENDING, KINDS, EntryKind, common, owners
from buildbook.records.keys.fields import Fields, missing, read_fields
from buildbook.records.keys.hints import meant
from buildbook.records.keys.scope import Pairs, Scope, pairs_of
from buildbook.records.keys.values import MOMENT, NAME
from buildbook.records.keys.yaml_nodes import Node
from buildbook.records.reading.parts import records_in


class Draft:
    """An entry on its way: what its head says, its keys, and what was read of them.

    read: the values by attribute, before the kind builds its type from them.
    """

    __slots__ = ("entry", "head", "kind", "pairs", "read", "scope")

    def __init__(self, head: dict[str, Any], kind: str, pairs: Pairs, scope: Scope) -> None:
        self.head = head
        self.kind = kind
        self.pairs = pairs
        self.scope = scope
        self.read: dict[str, Any] | None = None
        self.entry: AnyEntry | None = None

    @property
    def id(self) -> str:
        """As written, or made from the day and a count."""
        return str(self.head["id"])

    @property
    def uid(self) -> str:
        """Unique in the hangar."""
        return f"{self.scope.file}#{self.id}"

    @property
    def on(self) -> datetime.date:
        """The day of the entry."""
        day: datetime.date = self.head["on"]
        return day

    def place(self) -> Place:
        """Where the entry begins."""
        return self.scope.place()


def read_log(
    log: str, files: Sequence[tuple[str, Node | None]], problems: Problems, slug: str | None
) -> list[Draft]:
    """The entries of one log, its files in order. Amending ones are not worked out yet."""
    drafts: list[Draft] = []
    for file, root in files:
        _read_file(log, file, root, problems, slug, drafts)
    return drafts


def _read_file(
    log: str,
    file: str,
    root: Node | None,
    problems: Problems,
    slug: str | None,
    drafts: list[Draft],
) -> None:
    counts: dict[datetime.date, int] = {}
    ids: dict[str, Place] = {}
    latest: Draft | None = None
    early: dict[str, list[tuple[Draft, Node]]] = {}  # by the id of the later entry above them
    above: dict[str, Draft] = {}
    for node in records_in(root, Scope(file, 1, problems, slug), "entry"):
        scope = Scope(file, node.start_mark.line + 1, problems, slug)
        pairs = pairs_of(node, scope)
        moment = _moment(pairs, scope)
        kind = kind_of(pairs, scope)
        if moment is None:
            continue
        on, time = moment
        counts[on] = counts.get(on, 0) + 1
        name = _id(pairs, scope, f"{on}-{counts[on]}")
        if name in ids:
            here = pairs["id"][1] if "id" in pairs else None
            hint = "ids are unique within a file: give one of them another, or leave it out"
            scope.refuse(here, f"id {quoted(name)} is used twice", hint, (ids[name],))
            continue
        ids[name] = scope.place()
        if kind is None:
            continue
        head = {"log": log, "aircraft": slug, "index": len(drafts), "id": name, "on": on}
        if time is not None:
            head["time"] = time
        draft = Draft(head, kind, pairs, scope)
        if latest is not None and on < latest.on:
            early.setdefault(latest.id, []).append((draft, pairs["on"][1]))
            above[latest.id] = latest
        else:
            latest = draft
        if kind not in AMENDING:
            read_plain(draft)
        drafts.append(draft)
    for name, group in early.items():
        _tell_order(above[name], group)


def _tell_order(above: Draft, early: Sequence[tuple[Draft, Node]]) -> None:
    """Entries of days before that of one above them: told once, whichever was misplaced."""
    (first, node), *more = early
    also = f", and so are {len(more)} more below it" if more else ""
    scope, once = first.scope, f"dated {first.on}, before the entry of {above.on} above it"
    scope.problems.warn(
        f"{once}{also}",
        scope.place(node),
        hint="oldest first",
        also=(above.place(),),
        about=scope.about,
        once=once,
    )


_ON = frozenset(("on",))


def _moment(pairs: Pairs, scope: Scope) -> tuple[datetime.date, str | None] | None:
    if "on" not in pairs:
        for key, (node, _) in pairs.items():
            if meant(key, _ON):
                scope.refuse(node, f"entry has no 'on', but {quoted(key)}", "write on: 2026-03-01")
                return None
        scope.refuse(None, "entry has no 'on'", "as in on: 2026-03-01")
        return None
    moment = MOMENT.read(pairs["on"][1], scope, "on")
    return None if moment is UNSET else moment


def _id(pairs: Pairs, scope: Scope, default: str) -> str:
    if "id" not in pairs:
        return default
    name = NAME.read(pairs["id"][1], scope, "id")
    return default if name is UNSET else str(name)


def kind_of(pairs: Pairs, scope: Scope) -> str | None:
    """The kind key of an entry; None, with a problem, where there is none or more than one."""
    found = [key for key in pairs if key in _KIND_KEYS and key != "note"]
    if len(found) == 1:
        return found[0]
    amending = [key for key in found if key in AMENDING]
    if amending:
        if len(amending) == 1:
            return amending[0]
        found = amending
    if not found:
        if "note" in pairs and not _slip_of_kind(pairs, scope, owners().of):
            return "note"
        if "note" not in pairs and not _slip_of_kind(pairs, scope, ()):
            hint = f"one of {', '.join((*KINDS, *AMENDING))}"
            scope.refuse(None, "entry has no kind key", hint)
        return None
    if len(found) > 1:
        inner = {key for key in found for other in found if key in _further(other)}
        found = [key for key in found if key not in inner] or found
    if len(found) > 1:
        names = listed([quoted(key) for key in found])
        scope.refuse(pairs[found[1]][0], f"an entry of two kinds: {names}", "write two entries")
        return None
    return found[0]


_KIND_KEYS = frozenset((*KINDS, *AMENDING))


def _further(kind: str) -> Fields:
    return KINDS[kind].fields if kind in KINDS else {}


def _slip_of_kind(pairs: Pairs, scope: Scope, owned: Collection[str]) -> bool:
    """Whether a key was meant as a kind key, which is told. owned: keys that some kind has."""
    for key in pairs:
        hint = None if key in common() or key in owned else meant(key, _KIND_KEYS)
        if hint:
            scope.refuse(pairs[key][0], f"entry has no kind key, but {quoted(key)}", hint)
            return True
    return False


def read_plain(draft: Draft) -> None:
    """Read what an entry of a plain kind says, and make it."""
    kind = KINDS[draft.kind]
    pairs = dict(draft.pairs)
    pairs.pop("on", None)
    pairs.pop("id", None)
    draft.read = read_kind(kind, pairs, draft.scope)
    if draft.read is not None:
        draft.entry = made(kind, draft.read, draft.head, draft.scope)


def read_kind(kind: EntryKind, pairs: Pairs, scope: Scope) -> dict[str, Any] | None:
    """The values of an entry by attribute; None where what is required is missing or broken."""
    required = kind.required
    if required:
        missing(pairs, kind.fields, scope, None, quoted(kind.key))
    what = f"'{kind.key}'"
    read = read_fields(pairs, kind.all, scope, what, kind=kind.key, owners=owners().of)
    if kind.own_key.attribute not in read:
        return None
    value = pairs[kind.key][1]
    if value.value == [] and not read[kind.own_key.attribute]:
        example = f"as in {kind.key}: {kind.own_key.example}"
        scope.refuse(value, f"{quoted(kind.key)} says nothing", example)
        return None
    if any(field.attribute not in read for field in required):
        return None
    read["line_of_value"] = pairs[kind.key][1].start_mark.line + 1
    return read


def made(kind: EntryKind, read: dict[str, Any], head: dict[str, Any], scope: Scope) -> Any:
    """The entry of a kind from the values that were read."""
    values = dict(read)
    for idle in idle_of_day(values) if kind.key == "flights" else ():
        scope.problems.warn(
            f"{quoted(idle)} of all rows changes nothing: each row has its own",
            Place(scope.file, scope.lines.get(idle, scope.line)),
            hint="write it in the rows: flights: [[7:20, P-01, 1480 mAh]]",
            about=scope.about,
        )
    if kind.build is not None:
        values = kind.build(values)
    values.pop("line_of_value", None)
    return kind.make(file=scope.file, line=scope.line, lines=scope.lines, **head, **values)
