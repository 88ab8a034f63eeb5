"""Where an entry goes: into which log, and where in its text, which else stays byte for byte."""

import datetime
import re
import textwrap
from collections import Counter
from collections.abc import Iterator, Mapping, Sequence

import msgspec

from buildbook.basis.days import parse_day
from buildbook.basis.naming import slug_of, without_device
from buildbook.basis.notation import NotationError
from buildbook.desk.entry_text import Entry, Tree, entry_text, flow, tree_of
from buildbook.hangar.fold import fold
from buildbook.records.entries import (
    AnyEntry,
    Capacity,
    Charge,
    Correction,
    Inspection,
    Note,
    StateChange,
)
from buildbook.records.keys.nodes import line_of
from buildbook.records.keys.plain_text import Unreadable
from buildbook.records.keys.yaml_nodes import MappingNode, Node, SequenceNode, compose
from buildbook.records.ledger import Ledger
from buildbook.records.reading.reread import HeldFiles

_BOM = b"\xef\xbb\xbf"
_LINE = re.compile(rb"[^\r\n]*(?:\r\n|\r|\n)|[^\r\n]+$")
_HYPHEN = re.compile(rb"( *)-(?:[ \t]|$)").match


class CannotPlace(Exception):
    """The log can't be written to; the text is one sentence."""


class Written(msgspec.Struct, frozen=True):
    """An entry as it now stands in a file: its id, its day, its first line from 1, and its text.

    number: which of the entries given it is, from 0.
    """

    file: str
    line: int
    id: str
    on: datetime.date
    text: str
    number: int


def one_line(entry: Written) -> str:
    """An entry in a line: ``2026-03-01 flight 7:20, pack P-01 (aircraft/…/logbook.yaml)``."""
    lines = [line.strip().removeprefix("- ") for line in entry.text.splitlines()]
    on = lines[0].removeprefix("on: ")
    rest = ", ".join(line.replace(": ", " ", 1) for line in lines if line[:3] not in ("on:", "id:"))
    return f"{on} {rest} ({entry.file})"


class NewPart(msgspec.Struct, frozen=True):
    """A part on its way into its file. facts: the keys of its line; like: the tag of one alike."""

    facts: Mapping[str, Tree]
    file: str
    like: str


class Wanted(msgspec.Struct, frozen=True):
    """An entry, and whose it is: an aircraft's, an item's, or that of an item on an aircraft.

    part: one that is recorded with it.
    """

    entry: Entry
    aircraft: str | None = None
    item: str | None = None
    part: NewPart | None = None


class Placed(msgspec.Struct, frozen=True):
    """The text of a log with the new entries. added: as in ``keeping.Change``."""

    data: bytes
    added: tuple[tuple[int, int], ...]
    entries: tuple[Written, ...]


class _Text:
    """A log as lines of bytes, and where its entries begin."""

    def __init__(self, path: str, data: bytes) -> None:
        self.path = path
        self.data = data
        self.lines: list[bytes] = _LINE.findall(data.removeprefix(_BOM))
        self.bom = len(_BOM) if data.startswith(_BOM) else 0
        self.end = _usual_end(data)
        self.entries = _entries(path, data)
        self.starts = [self._start(node) for node in self.entries]
        first = _HYPHEN(self.lines[self.starts[0]]) if self.starts else None
        self.indent = len(first[1]) if first else 0

    def _start(self, node: Node) -> int:
        """The index of the line with the hyphen of an entry."""
        at: int = node.start_mark.line
        while at >= 0 and not _HYPHEN(self.lines[at]):
            at -= 1
        if at < 0:
            raise CannotPlace(f"{self.path} is not a list of entries with hyphens; write it there")
        return at

    def before(self, index: int) -> int:
        """The line before which an entry stands that comes before that one: above its comments."""
        if index == len(self.starts):
            return len(self.lines)
        at = self.starts[index]
        lowest = self.starts[index - 1] + 1 if index else 0
        while at > lowest and self._is_comment(self.lines[at - 1]):
            at -= 1
        return at

    def _is_comment(self, line: bytes) -> bool:
        return line.startswith(b" " * self.indent + b"#")

    @property
    def spaced(self) -> bool:
        """Whether the keeper leaves a line free between most entries."""
        free = [not self.lines[self.before(at) - 1].strip() for at in range(1, len(self.starts))]
        return 2 * sum(free) > len(free)


def placed(path: str, data: bytes, entries: Sequence[Entry]) -> Placed:
    """The log with the entries in their places by day: each behind all of its day, with an id.

    CannotPlace: the log is no list of entries, or would not read the same with them in it.
    """
    text = _Text(path, data)
    days = [_day_of(node) for node in text.entries]
    ids = _Ids(text.entries, days)
    new: dict[int, list[tuple[Entry, int]]] = {}
    in_order = sorted(enumerate(entries), key=lambda pair: _day(str(pair[1]["on"])))
    for number, entry in in_order:
        on = _day(str(entry["on"]))
        whole: Entry = {"on": entry["on"], "id": str(entry.get("id") or ids.free(on)), **entry}
        new.setdefault(_index(days, on), []).append((whole, number))
    added = []
    for index in sorted(new, reverse=True):
        at, block = _block(text, index, [entry for entry, _ in new[index]])
        data = data[:at] + block + data[at:]
        added.append((at, len(block)))
    return Placed(data, tuple(added), _held(path, text, new, data))


def standing(data: bytes, line: int) -> str:
    """The entry that begins on that line of a log, in the way of this program, without comments."""
    lines: list[bytes] = _LINE.findall(data.removeprefix(_BOM))
    hyphens = [(at, len(found[1])) for at, each in enumerate(lines) if (found := _HYPHEN(each))]
    start, depth = max(pair for pair in hyphens if pair[0] < line)
    end = next((at for at, indent in hyphens if at > start and indent <= depth), None)
    node, *_ = _entries("", b"".join(lines[start:end]))
    tree = tree_of(node)
    return entry_text(tree) if isinstance(tree, Mapping) else ""


def _block(text: _Text, index: int, entries: Sequence[Entry]) -> tuple[int, bytes]:
    """Where the bytes of new entries come in, and what they are."""
    at_line = text.before(index)
    at = text.bom + sum(map(len, text.lines[:at_line]))
    each = [textwrap.indent(entry_text(entry), " " * text.indent) for entry in entries]
    block = ("\n" if text.spaced else "").join(each)
    above = text.lines[at_line - 1] if at_line else b"\n"
    if text.spaced and index < len(text.starts):
        block += "\n"
    elif text.spaced and above.strip():
        block = "\n" + block
    if not above.endswith((b"\r", b"\n")):
        block = "\n" + block
    return at, block.encode().replace(b"\n", text.end)


def _held(
    path: str, text: _Text, new: Mapping[int, Sequence[tuple[Entry, int]]], data: bytes
) -> tuple[Written, ...]:
    """The new entries as they are read back from the new text.

    CannotPlace: it does not say what the old text said, and the new entries.
    """
    wanted: list[tuple[Tree, int | None]] = []
    for index in range(len(text.entries) + 1):
        wanted += new.get(index, ())
        wanted += [(tree_of(node), None) for node in text.entries[index : index + 1]]
    try:
        now = _entries(path, data)
    except CannotPlace:
        now = ()
    if [tree_of(node) for node in now] != [tree for tree, _ in wanted]:
        raise CannotPlace(
            f"an entry does not fit into {path} as it is laid out; write it there by hand"
        )
    return tuple(
        Written(
            file=path,
            line=line_of(node),
            id=_value(node, "id") or "",
            on=_day(str(entry["on"])),
            text=entry_text(entry),
            number=number,
        )
        for node, (entry, number) in zip(now, wanted, strict=True)
        if number is not None and isinstance(entry, Mapping)
    )


def _entries(path: str, data: bytes) -> Sequence[Node]:
    try:
        root = compose(data)
    except Unreadable as error:
        fault = error.faults[0]
        raise CannotPlace(f"{fault.reason} @ {path}:{fault.line}") from None
    if root is None:
        return ()
    if not isinstance(root, SequenceNode) or (root.flow_style and root.value):
        raise CannotPlace(f"{path} is not a list of entries with hyphens; write it there by hand")
    nodes: Sequence[Node] = root.value
    if any(not isinstance(node, MappingNode) for node in nodes):
        raise CannotPlace(f"{path} holds something that is not an entry; put that right first")
    return nodes


def _usual_end(data: bytes) -> bytes:
    """How most lines of a file end."""
    found = Counter(re.findall(rb"\r\n|\r|\n", data))
    return found.most_common(1)[0][0] if found else b"\n"


def _day(text: str) -> datetime.date:
    return parse_day(text)[0]


def _day_of(node: Node) -> datetime.date | None:
    try:
        return _day(_value(node, "on") or "")
    except NotationError:
        return None


def _value(node: Node, key: str) -> str | None:
    for each, value in node.value:
        if each.value == key and isinstance(value.value, str):
            return value.value
    return None


def _index(days: Sequence[datetime.date | None], on: datetime.date) -> int:
    """Behind the last entry of the day; where there is none, behind the last of an earlier day."""
    same = [at for at, day in enumerate(days) if day == on]
    earlier = [at for at, day in enumerate(days) if day is not None and day <= on]
    found = same or earlier
    return found[-1] + 1 if found else 0


class _Ids:
    """The ids of a log: ``<day>-<n>`` as a reader counts them, or as written."""

    def __init__(self, nodes: Sequence[Node], days: Sequence[datetime.date | None]) -> None:
        self._counts: Counter[datetime.date] = Counter()
        self._taken: set[str] = set()
        for node, day in zip(nodes, days, strict=True):
            if day is not None:
                self._counts[day] += 1
                self._taken.add(_value(node, "id") or f"{day}-{self._counts[day]}")

    def free(self, on: datetime.date) -> str:
        """The next of the day that no entry has."""
        self._counts[on] += 1
        while f"{on}-{self._counts[on]}" in self._taken:
            self._counts[on] += 1
        name = f"{on}-{self._counts[on]}"
        self._taken.add(name)
        return name


_ON = re.compile(rb"^ *-? *on: *[\"']?([0-9-]{10})", re.MULTILINE)


def log_of_aircraft(content: Mapping[str, bytes], slug: str, on: str) -> str:
    """The file of its log: of several the last one that begins on that day or earlier."""
    home = f"aircraft/{slug}"
    single = f"{home}/logbook.yaml"
    paths = [path for path in sorted(content) if path.startswith(f"{home}/logbook/")]
    if single in content:
        paths.insert(0, single)
    if not paths:
        return single
    day = parse_day(on)[0].isoformat()
    begun = [path for path in paths if (first := _first_day(content[path])) and first <= day]
    return begun[-1] if begun else paths[0]


def _first_day(data: bytes) -> str | None:
    days = [found.decode() for found in _ON.findall(data)]
    return min((day for day in days if _is_day(day)), default=None)


def _is_day(text: str) -> bool:
    try:
        parse_day(text)
    except NotationError:
        return False
    return True


def log_of_item(ledger: Ledger, tag: str, *, together: bool = False) -> str:
    """The file in which most is written of the item's charges, capacities and looks.

    Where nothing is: a file of its own in stores/, or one of all packs where the entry is about
    several together.
    """
    named: Counter[str] = Counter()
    alone: Counter[str] = Counter()
    for entry in ledger.entries:
        tags = tuple(_tags(entry))
        if tag in tags:
            named[entry.file] += isinstance(entry, Charge | Capacity)
            alone[entry.file] += len(tags) == 1
    stores = [path for path in named if path.startswith("stores/")]
    found = [path for path in stores if named[path] or alone[path]] or [
        path for path in named if named[path]
    ]
    if found:
        return max(found, key=lambda path: (named[path], alone[path], path))
    if together:
        return "stores/packs.yaml"
    stem = slug_of(tag) or "shelf"
    return f"stores/{without_device(stem)}.yaml"


def aircraft_under(part: Ledger, tag: str, on: str) -> str | None:
    """The aircraft on which the item sits at the end of a day; None: on none.

    part: of the hangar, what is connected with the item.
    """
    item = fold(part, parse_day(on)[0]).items.get(tag)
    return None if item is None else item.aircraft


def _tags(entry: AnyEntry) -> Iterator[str]:
    said = entry.becomes if isinstance(entry, Correction) else entry
    if isinstance(said, Charge):
        yield from said.packs
    elif isinstance(said, Capacity):
        yield said.pack
    elif isinstance(said, StateChange):
        yield from said.states
    elif isinstance(said, Inspection):
        yield from said.tags
    elif isinstance(said, Note) and said.item is not None:
        yield said.item


def placed_in_logs(held: HeldFiles, ledger: Ledger, wanted: Sequence[Wanted]) -> dict[str, Placed]:
    """The texts of the logs that the entries go into, by path."""
    content = held.files.content
    by_path: dict[str, dict[int, Entry]] = {}
    for number, each in enumerate(wanted):
        if each.aircraft is not None:
            path = log_of_aircraft(content, each.aircraft, str(each.entry["on"]))
        else:
            several = isinstance(each.entry.get("charge"), list | tuple)
            path = log_of_item(ledger, each.item or "shelf", together=several)
        by_path.setdefault(path, {})[number] = each.entry
    texts = {}
    for path, entries in by_path.items():
        text = placed(path, content.get(path, b""), tuple(entries.values()))
        numbers = tuple(entries)
        texts[path] = msgspec.structs.replace(
            text,
            entries=tuple(
                msgspec.structs.replace(each, number=numbers[each.number]) for each in text.entries
            ),
        )
    for part in (each.part for each in wanted if each.part is not None):
        data = texts[part.file].data if part.file in texts else content.get(part.file, b"")
        texts[part.file] = appended(data, f"- {flow(part.facts)}\n")
    return texts


def appended(data: bytes, text: str) -> Placed:
    """A file with lines at its end, which end as its others do."""
    end = _usual_end(data)
    more = text.encode().replace(b"\n", end)
    if data and not data.endswith((b"\n", b"\r")):
        more = end + more
    return Placed(data + more, ((len(data), len(more)),), ())
