"""Words of the records that stay private: serial numbers, registrations, people, places.

They are found in any case and spacing: ``SN-77 a`` is found as ``sn77A`` and ``s n 7 7 a``. One
pass over the words of a text; its time does not depend on how many private words there are.
"""

import re
from collections.abc import Iterator, Mapping
from typing import Any

import msgspec

from buildbook.audience.leaks.pattern import words
from buildbook.audience.sharing import Sharing
from buildbook.basis.place import Place
from buildbook.records.entries import Correction, Entry
from buildbook.records.ledger import Ledger
from buildbook.records.record import Record

_TOKEN = re.compile(r"[^\W_]{1,200}")
_LONGEST = 80
_MOST_PARTS = 40
_SHORTEST_NUMBER = 4
_JOINED_NUMBER = 6
"""A serial number of fewer digits is found only in one piece: 12 and 34 are not number 1234."""

ORDINARY = words(
    "art bay bill bob chase chip cliff dale dash dawn dean don drew faith fern flint ford "
    "forest frank gale gene glen grace grant guy hazel heath holly hope hunter ivy jack jay "
    "jet joy kit lance link lane mark mat max may me miles mike olive pat pearl penny pierce "
    "pip ray red reed rich ridge rob robin rose ruby rusty sandy sky skip stew sue summer tab "
    "teddy tip tom trip us van victor wade wanda ward will win wood woody young i self mum "
    "dad club friend helper"
)
"""Names that are words too: only with a capital, and not at the beginning of a sentence."""
COMMON_PLACES = words(
    "home house garden yard street field meadow park hall gym indoors indoor outdoors outside "
    "inside workshop shed bench garage loft club clubfield airfield paddock beach hill slope "
    "school lawn local away elsewhere unknown here there simulator sim none"
)
"""Words for a kind of place, which name none."""


class Private(msgspec.Struct, frozen=True):
    """A private word: what it is, and how it is told from ordinary words.

    kind: ``number`` (letters and digits that somebody was given), ``name`` or ``place``.
    """

    what: str
    kind: str


class RecordWords:
    """The private words of one hangar for one audience."""

    def __init__(self, ledger: Ledger, sharing: Sharing) -> None:
        self._words: dict[str, Private] = {}
        for text, private in _words(ledger, sharing):
            bare = _bare(text)
            if 1 < len(bare) <= _LONGEST:
                self._words.setdefault(bare, private)
        self._firsts = {word[:2] for word in self._words}
        self._longest = max((len(word) for word in self._words), default=0)

    def find(self, text: str) -> Iterator[tuple[str, int]]:
        """What stands there and its offset, for each private word in a flattened text."""
        if not self._words:
            return
        tokens = [(m.start(), m.end()) for m in _TOKEN.finditer(text)]
        bare = [_bare(text[start:end]) for start, end in tokens]
        for at, (start, end) in enumerate(tokens):
            if not self._may_begin(bare, at):
                continue
            word = ""
            for further in range(at, min(at + _MOST_PARTS, len(tokens))):
                if further > at and tokens[further][0] - end > 3:
                    break
                end = tokens[further][1]
                word += bare[further]
                if len(word) > self._longest:
                    break
                private = self._words.get(word)
                if private and _counts(
                    private, word, text[start:end], text[max(0, start - 3) : start]
                ):
                    yield private.what, start

    def _may_begin(self, bare: list[str], at: int) -> bool:
        head = bare[at]
        if len(head) < 2 and at + 1 < len(bare):
            head += bare[at + 1]
        return head[:2] in self._firsts


def _bare(text: str) -> str:
    """Letters and digits only, all in one case."""
    return "".join(sign for sign in text.casefold() if sign.isalnum())


def _counts(private: Private, word: str, written: str, before: str) -> bool:
    """Whether it is that word, and not an ordinary one that is written alike."""
    if private.kind == "number" and word.isdigit():
        return written.isdigit() or (len(word) >= _JOINED_NUMBER and not set(written) & set(",;:/"))
    if private.kind == "name" and word in ORDINARY:
        sentence = not before.strip() or before.rstrip()[-1] in ".!?:#|>-"
        return written[:1].isupper() and not written.isupper() and not sentence
    return True


def _words(ledger: Ledger, sharing: Sharing) -> Iterator[tuple[str, Private]]:
    serial = Private("the serial number of an item", "number")
    for item in ledger.items.values():
        if item.serial and _is_number(item.serial):
            yield item.serial, serial
    registration = Private("the registration of an aircraft", "number")
    for aircraft in ledger.aircraft.values():
        if aircraft.registration and _is_number(aircraft.registration):
            yield aircraft.registration, registration
    yield from _people(ledger, sharing)
    if not sharing.shares("places"):
        place = Private("the name of a place", "place")
        for entry in _all_entries(ledger):
            where = getattr(entry, "where", None)
            if where and _bare(where) not in COMMON_PLACES:
                yield where, place


def _is_number(text: str) -> bool:
    """Whether it is long enough not to be found in ordinary words."""
    bare = _bare(text)
    return len(bare) >= _SHORTEST_NUMBER


def _people(ledger: Ledger, sharing: Sharing) -> Iterator[tuple[str, Private]]:
    """Full names, each part of them, and aliases; ``by`` of those whom nobody listed too."""
    known = {part for name in sharing.people.values() for part in _parts(name)}
    known |= {_bare(alias) for alias in sharing.people}
    names: Mapping[str, str] = {
        alias: who.name
        for alias, who in ledger.keeper.people.items()
        if alias not in sharing.people
    }
    texts = [(ledger.keeper.keeper or "", "the name of the keeper")]
    texts += [(name, "the name of a person") for pair in names.items() for name in pair]
    for entry in _all_entries(ledger):
        for name in (entry.by, entry.checked_by):
            if name and name not in sharing.people:
                texts.append((name, "the name of a person"))
    for text, what in dict.fromkeys(texts):
        for part in (_bare(text), *_parts(text)):
            if len(part) > 1 and part not in known:
                yield part, Private(what, "name")


def _parts(name: str) -> set[str]:
    """The name as a whole, and each word of it that is more than an initial or a particle."""
    parts = {_bare(part) for part in name.split()}
    return {_bare(name)} | {part for part in parts if len(part) > 2 and part not in _PARTICLES}


_PARTICLES = words("van von der den des del dos the and mac san")


def _all_entries(ledger: Ledger) -> Iterator[Entry]:
    for entry in ledger.entries:
        yield entry
        if isinstance(entry, Correction):
            yield entry.becomes


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
