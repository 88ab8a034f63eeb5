"""Where each text of the records was written, and whether its record may be public as it is."""

from collections.abc import Iterator, Mapping
from typing import Any

import msgspec

from buildbook.basis.place import Place
from buildbook.records.ledger import Ledger
from buildbook.records.record import Record


class Written:
    """The texts of a ledger by their own words.

    A text that a record with ``public: ok`` holds may stand anywhere: the keeper has looked at it.
    """

    def __init__(self, ledger: Ledger) -> None:
        self._places: dict[str, list[tuple[Record, Place]]] = {}
        self._passed: set[str] = set()
        self._home = ledger.keeper.place()
        for record in _records(ledger):
            self._note(record, record, "", record.public == "ok")

    def may_pass(self, text: str) -> bool:
        """Whether the keeper lets this text stand."""
        return text in self._passed

    def places(self, text: str, near: Place) -> tuple[Place, ...]:
        """The lines on which it stands in the record at ``near``; else ``near`` itself.

        What has no place of its own, such as the present state of an aircraft, is told wherever
        the records have that text.
        """
        known = self._places.get(text, ())
        found = (place for record, place in known if not near.file or near in _lines_of(record))
        return tuple(dict.fromkeys(found)) or (near if near.file else self._home,)

    def _note(self, value: Any, record: Record, path: str, passed: bool) -> None:
        if isinstance(value, str):
            self._places.setdefault(value, []).append((record, _place(record, path)))
            if passed:
                self._passed.add(value)
        elif isinstance(value, Record) and value is not record:
            self._note(value, value, "", passed or value.public == "ok")
        elif isinstance(value, msgspec.Struct):
            for name in value.__struct_fields__:
                if name not in ("file", "lines"):
                    self._note(getattr(value, name), record, f"{path}.{name}", passed)
        elif isinstance(value, Mapping):
            for key, part in value.items():
                self._note(key, record, f"{path}.{key}", passed)
                self._note(part, record, f"{path}.{key}", passed)
        elif isinstance(value, tuple):
            for index, part in enumerate(value):
                self._note(part, record, f"{path}.{index}", passed)


def _records(ledger: Ledger) -> Iterator[Record]:
    yield ledger.keeper
    for by_name in (ledger.specs, ledger.items, ledger.aircraft, ledger.notices):
        yield from by_name.values()
    yield from (each for each in ledger.programmes.values() if not each.built_in)
    yield from ledger.entries


def _place(record: Record, path: str) -> Place:
    """The line of a value. The value of an entry of a kind has the kind for a key."""
    inner = path.removeprefix(".")
    place = record.place(inner)
    tag = type(record).__struct_config__.tag
    if place != record.place() or not isinstance(tag, str):
        return place
    return record.place(f"{tag}.{inner.partition('.')[2]}")


def _lines_of(record: Record) -> set[Place]:
    return {record.place(), *(Place(record.file, line) for line in record.lines.values())}
