"""The part of a hangar that one thing has to do with: logs that share parts with its own.

What happens in one such part never changes what stands in another, so that it can be folded alone.
"""

from collections.abc import Callable, Iterable, Iterator, Mapping, Sequence

import msgspec

from buildbook.records.aircraft import Radio
from buildbook.records.entries import (
    Alteration,
    AnyEntry,
    Cleared,
    Correction,
    Fit,
    Flight,
    Incident,
    Repair,
    Setting,
    Void,
)
from buildbook.records.entries.entry import tagged
from buildbook.records.ledger import Ledger
from buildbook.records.surfaces import Surface


class Connections:
    """Which logs, aircraft and items of a hangar have to do with each other, as far as added."""

    def __init__(self) -> None:
        self._groups = _Groups()

    def add(self, ledger: Ledger) -> None:
        """Those of a ledger."""
        for slug, one in ledger.aircraft.items():
            for tag in _named(one.surfaces, one.radio):
                if tag in ledger.items:
                    self._groups.join(f"aircraft/{slug}", f"#{tag}")
        self.add_entries(ledger, ledger.entries)

    def add_entries(self, ledger: Ledger, entries: Sequence[AnyEntry]) -> None:
        """Those of some entries of a ledger."""
        join, items = self._groups.join, ledger.items
        joined: dict[str, set[str]] = {}
        for entry in entries:
            log = entry.log
            known = joined.get(log)
            if known is None:
                known = joined[log] = set()
            for tag in tags_of(entry):
                if tag not in known:
                    known.add(tag)
                    if tag in items:
                        join(log, f"#{tag}")
        for speaker in that_speak_of_others(entries):
            join(speaker.log, log_spoken_of(speaker))

    def part(self, ledger: Ledger, names: Iterable[str], logs: Iterable[str] = ()) -> Ledger:
        """An added ledger with only the aircraft, items and entries connected with what is named.

        names: slugs of aircraft and tags. logs: as in ``Entry.log``. Kinds of part, programmes and
        notices are all there; stories, pictures and bench tables are too. What another ledger that
        was added connects too is one part.
        """
        of = self._groups.of
        named = frozenset(names)
        wanted = {of(f"aircraft/{name}") for name in named if name in ledger.aircraft}
        wanted |= {of(f"#{name}") for name in named}
        wanted |= {of(log) for log in logs}
        aircraft = {
            slug: one for slug, one in ledger.aircraft.items() if of(f"aircraft/{slug}") in wanted
        }
        homes = {one.file for one in aircraft.values()}
        there = {entry.log for entry in ledger.entries}
        there = {log for log in there if of(log) in wanted}
        return msgspec.structs.replace(
            ledger,
            aircraft=aircraft,
            items={
                tag: item
                for tag, item in ledger.items.items()
                if of(f"#{tag}") in wanted or item.file in homes
            },
            entries=tuple([entry for entry in ledger.entries if entry.log in there]),
        )


Speaker = Correction | Void | Cleared
"""An entry that speaks of another one."""


def that_speak_of_others(entries: Iterable[AnyEntry]) -> list[Speaker]:
    """Those of the entries."""
    return [
        entry
        for entry in entries
        if type(entry) is Correction or type(entry) is Void or type(entry) is Cleared
    ]


def log_spoken_of(entry: Speaker) -> str:
    """The log of the entry that is corrected, voided or cleared."""
    uid = entry.target if isinstance(entry, Cleared) else entry.original
    return log_of_file(uid.partition("#")[0])


def log_of_file(path: str) -> str:
    """The log that a file belongs to, as in ``Entry.log``."""
    parts = path.split("/")
    return "/".join(parts[:2]) if parts[0] == "aircraft" else path.removesuffix(".yaml")


class _Groups:
    """Names that belong together, joined pair by pair."""

    def __init__(self) -> None:
        self._above: dict[str, str] = {}

    def of(self, name: str) -> str:
        """The name that stands for all of its group."""
        above = self._above
        top = name
        while (next_up := above.get(top, top)) != top:
            top = next_up
        while name != top:
            name, above[name] = above.get(name, top), top
        return top

    def join(self, one: str, other: str) -> None:
        """Let the groups of both be one."""
        first, second = self.of(one), self.of(other)
        if first != second:
            self._above[second] = first


def tags_of(entry: AnyEntry) -> Iterable[str]:
    """Every word of an entry that may be a tag; of a correction also what the entry becomes."""
    if type(entry) is Correction:
        return tags_of(entry.becomes)
    kind = type(entry)
    further = _FURTHER.get(kind)
    declared = [tag for field in tagged(kind) for tag in field.tags(entry)]
    return declared if further is None else [*declared, *further(entry)]


def _named(surfaces: Mapping[str, Surface], radio: Radio | None) -> Iterator[str]:
    """The servos of surfaces, and the transmitter."""
    for surface in surfaces.values():
        yield from surface.servos
    if radio is not None and radio.transmitter is not None:
        yield radio.transmitter


_FURTHER: Mapping[type, Callable[..., Iterable[str]]] = {
    Flight: lambda entry: (tag for row in entry.rows for tag in row.packs),
    Fit: lambda entry: (tag for slot in entry.slots for tag in slot.tags),
    Incident: lambda entry: entry.touched,
    Repair: lambda entry: entry.touched,
    Alteration: lambda entry: _named(entry.surfaces, entry.radio),
    Setting: lambda entry: (entry.of,) if entry.of else (),
}
"""What may be a tag beside the fields that are declared to be one."""
