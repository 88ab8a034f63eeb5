"""The part of a hangar that one thing has to do with: logs that share parts with its own.

What happens in one such part never changes what stands in another, so that it can be folded alone.
"""

from collections.abc import Callable, Iterable, Iterator, Mapping

import msgspec

from buildbook.records.aircraft import Radio, Surface
from buildbook.records.entries import (
    Alteration,
    AnyEntry,
    Capacity,
    Charge,
    Cleared,
    Correction,
    Defect,
    Firmware,
    Fit,
    Flight,
    Incident,
    Inspection,
    Note,
    Overhaul,
    Remove,
    Repair,
    Setting,
    StateChange,
    Void,
    Water,
    Weigh,
)
from buildbook.records.ledger import Ledger


def connected(ledger: Ledger, names: Iterable[str], logs: Iterable[str] = ()) -> Ledger:
    """The ledger with only the aircraft, items and entries that are connected with what is named.

    names: slugs of aircraft and tags. logs: as in ``Entry.log``. Kinds of part, programmes and
    notices are all there; stories, pictures and bench tables are too.
    """
    named = frozenset(names)
    groups = _Groups()
    for slug, one in ledger.aircraft.items():
        for tag in _named(one.surfaces, one.radio):
            if tag in ledger.items:
                groups.join(f"aircraft/{slug}", f"#{tag}")
    for entry in ledger.entries:
        log = entry.log
        for tag in tags_of(entry):
            if tag in ledger.items:
                groups.join(log, f"#{tag}")
        if isinstance(entry, Correction | Void | Cleared):
            groups.join(log, _log_of(entry))
    wanted = {groups.of(f"aircraft/{name}") for name in named if name in ledger.aircraft}
    wanted |= {groups.of(f"#{name}") for name in named}
    wanted |= {groups.of(log) for log in logs}
    aircraft = {
        slug: one
        for slug, one in ledger.aircraft.items()
        if groups.of(f"aircraft/{slug}") in wanted
    }
    homes = {one.file for one in aircraft.values()}
    return msgspec.structs.replace(
        ledger,
        aircraft=aircraft,
        items={
            tag: item
            for tag, item in ledger.items.items()
            if groups.of(f"#{tag}") in wanted or item.file in homes
        },
        entries=tuple(entry for entry in ledger.entries if groups.of(entry.log) in wanted),
    )


def _log_of(entry: Correction | Void | Cleared) -> str:
    """The log of the entry that is spoken of, by its file."""
    uid = entry.target if isinstance(entry, Cleared) else entry.original
    file = uid.partition("#")[0]
    parts = file.split("/")
    return "/".join(parts[:2]) if parts[0] == "aircraft" else file.removesuffix(".yaml")


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


def tags_of(entry: AnyEntry) -> Iterator[str]:
    """Every word of an entry that may be a tag; of a correction also what the entry becomes."""
    if isinstance(entry, Correction):
        yield from tags_of(entry.becomes)
    named = _TAGS.get(type(entry))
    if named is not None:
        yield from named(entry)


def _of_flight(entry: Flight) -> Iterator[str]:
    for row in entry.rows:
        yield from row.packs


def _of_fit(entry: Fit) -> Iterator[str]:
    yield from entry.instead_of
    yield from entry.serves
    for slot in entry.slots:
        yield from slot.tags


def _named(surfaces: Mapping[str, Surface], radio: Radio | None) -> Iterator[str]:
    """The servos of surfaces, and the transmitter."""
    for surface in surfaces.values():
        yield from surface.servos
    if radio is not None and radio.transmitter is not None:
        yield radio.transmitter


def _of_weighing(entry: Weigh) -> Iterator[str]:
    yield from entry.without
    if entry.pack:
        yield entry.pack


_TAGS: Mapping[type, Callable[..., Iterable[str]]] = {
    Flight: _of_flight,
    Fit: _of_fit,
    Weigh: _of_weighing,
    Charge: lambda entry: entry.packs,
    Capacity: lambda entry: (entry.pack,),
    Remove: lambda entry: entry.tags,
    StateChange: lambda entry: entry.states,
    Inspection: lambda entry: entry.tags,
    Overhaul: lambda entry: entry.tags,
    Firmware: lambda entry: entry.versions,
    Incident: lambda entry: (*entry.touched, *entry.packs),
    Repair: lambda entry: entry.touched,
    Defect: lambda entry: (entry.item,) if entry.item else (),
    Note: lambda entry: (entry.item,) if entry.item else (),
    Water: lambda entry: entry.packs,
    Alteration: lambda entry: _named(entry.surfaces, entry.radio),
    Setting: lambda entry: (entry.of,) if entry.of else (),
}
