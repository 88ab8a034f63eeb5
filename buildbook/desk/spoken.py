"""Words of a command line become an entry: where it goes, its kind key, its further keys."""

from collections.abc import Callable, Mapping, Sequence
from typing import get_args

import msgspec

from buildbook.basis.amounts import listed
from buildbook.basis.nearest import did_you_mean
from buildbook.basis.notation import quoted
from buildbook.desk.bringing_in.foreign import same_name
from buildbook.desk.entry_text import Tree, as_tree
from buildbook.desk.word_values import ASSUMED, WrongWords, bare, value_said
from buildbook.records.entries import Looked
from buildbook.records.entries.kinds import KINDS, common
from buildbook.records.keys.fields import Field, Fields
from buildbook.records.keys.shapes import ByName, FreeText, Several
from buildbook.records.ledger import Ledger
from buildbook.records.reading.corrections import CORRECTS, VOIDS

__all__ = [
    "ASSUMED",
    "NewEntry",
    "WrongWords",
    "further",
    "named_aircraft",
    "own_key",
    "understood",
]

_OF_ITEMS = ("charge", "capacity", "state")
_ANYWHERE = ("inspection", "defect", "note", "cleared", "corrects", "voids")
_LOOKS = ("check", "calibration", "inspection")
_RESULTS: tuple[str, ...] = get_args(Looked)


class NewEntry(msgspec.Struct):
    """An entry on its way. aircraft: its slug; or item: the tag in whose store it goes.

    assumed: what was taken for granted, as in ``1480 → 1480 mAh``. missing: keys that it must have.
    """

    kind: str
    entry: dict[str, Tree]
    aircraft: str | None = None
    item: str | None = None
    assumed: list[str] = []
    missing: list[str] = []

    def add(self, field: Field, text: str) -> None:
        """Say a key in words. WrongWords: they are none of its kind."""
        self.entry[field.key] = self.value(field, text)

    def meant(self, word: str, name: str) -> str:
        """The name that a word was taken for; that is told where they differ."""
        if word != name:
            self.assumed.append(f"{word} → {name}")
        return name

    def value(self, field: Field, text: str) -> Tree:
        """A value as it stands in a file."""
        return value_said(field.value, text, field.key, self.assumed)


def further(kind: str) -> Fields:
    """The keys that an entry of a kind may have beside its kind key."""
    own = {"corrects": CORRECTS, "voids": VOIDS}.get(kind)
    if own is None:
        own = KINDS[kind].fields
    return {**own, **{key: field for key, field in common().items() if key != "id"}}


def own_key(kind: str) -> Field:
    """The kind key of a kind."""
    return (
        (CORRECTS if kind == "corrects" else VOIDS)[kind]
        if kind not in KINDS
        else (KINDS[kind].own_key)
    )


def understood(
    kind: str, words: Sequence[str], options: Mapping[str, str], ledger: Ledger, on: str
) -> NewEntry:
    """What the words say. options: by key. on: the day, where they name none.

    WrongWords: an unknown name, or a value that is none. What is missing is noted, not refused.
    """
    entry = NewEntry(kind, {"on": options.get("on", on), kind: ""}, assumed=[], missing=[])
    rest = _where(entry, list(words), ledger)
    fields = further(kind)
    if kind == "corrects":  # keys of the entry that is corrected
        correct = {key: text for key, text in options.items() if key not in fields}
        rest += [f"{key}={text}" for key, text in correct.items()]
        options = {key: text for key, text in options.items() if key not in correct}
    _READERS.get(kind, _plain)(entry, rest, ledger)
    for key, text in options.items():
        if key == "on":
            continue
        if key not in fields:
            hint = did_you_mean(key, fields)
            raise WrongWords(
                f"{quoted(kind)} has no key {quoted(key)}" + (f"; {hint}" if hint else "")
            )
        entry.add(fields[key], text)
    for key in {"pack", kind} & {"pack", "charge", "capacity"} & entry.entry.keys():
        entry.entry[key] = _packs(entry, entry.entry[key], ledger)
    if kind in _OF_ITEMS and entry.aircraft is None:
        entry.item = next(iter(_tags(entry.entry[kind])), None)
    if kind in ("defect", "note", "inspection") and entry.item and entry.aircraft is None:
        name = "tags" if kind == "inspection" else "item"
        entry.entry.setdefault(name, [entry.item] if kind == "inspection" else entry.item)
    _note_missing(entry, fields)
    return entry


def _note_missing(entry: NewEntry, fields: Fields) -> None:
    if entry.aircraft is None and entry.item is None and entry.kind not in _OF_ITEMS:
        entry.missing.append("aircraft")
    if not entry.entry[entry.kind]:
        entry.missing.append(entry.kind)
    needed = [key for key, field in fields.items() if field.required and key != "on"]
    if entry.kind in ("corrects", "voids"):
        needed = ["because"]
    entry.missing += [key for key in needed if key not in entry.entry]


def _where(entry: NewEntry, words: list[str], ledger: Ledger) -> list[str]:
    """Take the aircraft or the item off the words; the only aircraft needs no naming."""
    first = words[0] if words else ""
    slug = named_aircraft(first, ledger)
    if slug is not None:
        entry.aircraft = slug
        return words[1:]
    if entry.kind in _OF_ITEMS:
        return words
    if entry.kind in _ANYWHERE and first in ledger.items:
        entry.item = first
        return words[1:]
    if entry.kind in _LOOKS:  # the name of the look may come first
        for at, word in enumerate(words[1:], 1):
            if named_aircraft(word, ledger) or (entry.kind in _ANYWHERE and word in ledger.items):
                return _where(entry, [word, *words[:at], *words[at + 1 :]], ledger)
    names = [*ledger.aircraft, *(record.aircraft for record in ledger.aircraft.values())]
    hint = did_you_mean(first, names) if first else None
    if first in ledger.items:
        hint = f"write the aircraft before {quoted(first)}"
    if hint is not None or (len(words) > 1 and len(names) > 2):
        raise WrongWords(f"no aircraft is called {quoted(first)}" + (f"; {hint}" if hint else ""))
    if len(ledger.aircraft) == 1:
        (entry.aircraft,) = ledger.aircraft
    return words


def named_aircraft(word: str, ledger: Ledger) -> str | None:
    """The slug of the aircraft of that slug or name, whatever its capitals."""
    if word in ledger.aircraft:
        return word
    low = word.casefold()
    return next(
        (slug for slug, one in ledger.aircraft.items() if one.aircraft.casefold() == low), None
    )


def _plain(entry: NewEntry, words: list[str], _: Ledger) -> None:
    """The kind key takes all words: one text, or a list of names."""
    field = own_key(entry.kind)
    if not words:
        return
    if isinstance(field.value, Several):
        names = [name for word in words for name in word.split(",") if name]
        listed_up = [
            value_said(field.value.each, name, entry.kind, entry.assumed) for name in names
        ]
        entry.entry[entry.kind] = listed_up[0] if len(listed_up) == 1 else listed_up
    elif isinstance(field.value, ByName | FreeText):
        entry.add(field, ",".join(words))
    else:
        entry.add(field, " ".join(words))


def _looked(entry: NewEntry, words: list[str], ledger: Ledger) -> None:
    """Checks and tasks, then pass or fail, then readings."""
    names = [word for word in words if word not in _RESULTS and "=" not in word]
    fields = further(entry.kind)
    tags = [name for name in names if name in ledger.items] if "tags" in fields else []
    looks = [name for name in names if name not in tags]
    if looks and not set(words) & set(_RESULTS):
        _refuse_result(looks[-1])
    _plain(entry, looks, ledger)
    if tags:
        entry.add(fields["tags"], ",".join(tags))
    results = [word for word in words if word in _RESULTS]
    if len(results) > 1:
        raise WrongWords(f"both {listed([quoted(word) for word in results])}; write two entries")
    if results:
        entry.entry["result"] = results[0]
    readings = [word for word in words if "=" in word]
    if readings:
        if "readings" not in fields:
            raise WrongWords(f"{quoted(entry.kind)} takes no {quoted(readings[0])}")
        entry.add(fields["readings"], ",".join(readings))


def _refuse_result(word: str) -> None:
    """WrongWords: the word stands for a result, and is not one of those that there are."""
    if word.casefold() in _NO_RESULTS:
        options = [f"'{each}'" if " " in each else each for each in _RESULTS]
        raise WrongWords(f"{quoted(word)} is not a result; write {listed(options, 'or')}")


_NO_RESULTS = frozenset((
    "bad", "done", "failed", "good", "n/a", "na", "no", "none", "ok", "okay", "passed", "skip",
    "skipped", "yes",
))  # fmt: skip
"""Words that a person may put there."""


def _capacity(entry: NewEntry, words: list[str], ledger: Ledger) -> None:
    """A pack, and the charge that came out: ``P-01 2110mAh``."""
    amounts = [word for word in words if word.endswith("Ah") or _is_amount(word, ledger)]
    if amounts:
        entry.add(further("capacity")["measured"], " ".join(amounts))
    _plain(entry, [word for word in words if word not in amounts], ledger)


def _firmware(entry: NewEntry, words: list[str], ledger: Ledger) -> None:
    """``C-01=2.4.1``, or the item and then its version."""
    if len(words) == 2 and "=" not in words[0] and words[0] in ledger.items:
        words = ["=".join(words)]
    _plain(entry, words, ledger)


def _flight(entry: NewEntry, words: list[str], ledger: Ledger) -> None:
    """A duration; then, in any order, a pack, a charge and a landing."""
    fields = further("flight")
    time: list[str] = []
    for word in words:
        tag = same_name(word, ledger.items)
        if word in ("normal", "hard", "crash"):
            entry.entry["landing"] = word
        elif tag is not None:
            packs = [*_tags(entry.entry.get("pack", [])), entry.meant(word, tag)]
            entry.entry["pack"] = packs[0] if len(packs) == 1 else packs
        elif word.endswith("Ah"):
            apart = not word[0].isdigit() and bool(time)  # 1480 mAh as two words
            entry.add(fields["used"], f"{time.pop()} {word}" if apart else word)
        elif bare(word) and time and ":" in time[-1]:
            entry.add(fields["used"], word)
        else:
            time.append(word)
    _plain(entry, time, ledger)


def _flights(entry: NewEntry, words: list[str], ledger: Ledger) -> None:
    """A row a word: ``7:20,P-01,1480mAh``."""
    used = further("flight")["used"]
    rows: list[Tree] = []
    for word in words:
        first, *rest = [part.strip() for part in word.strip("[]").split(",")]
        row: list[Tree] = [first]
        for part in rest:
            tag = None if part in ledger.items else same_name(part, ledger.items)
            if part.endswith("Ah") or (bare(part) and tag is None):
                row.append(entry.value(used, part))
            else:
                row.append(part if tag is None else entry.meant(part, tag))
        rows.append(row)
    entry.entry["flights"] = rows


def _corrects(entry: NewEntry, words: list[str], ledger: Ledger) -> None:
    """The id, then the keys with their correct values: ``2026-03-01-2 used=1480mAh``."""
    values = [word for word in words if "=" in word]
    _plain(entry, [word for word in words if word not in values], ledger)
    if not values:
        return
    old = [
        type(each)
        for each in ledger.entries
        if entry.entry["corrects"] in (each.id, each.uid) and each.aircraft == entry.aircraft
    ]
    kinds = [kind for kind in KINDS.values() if kind.make in old]
    fields = {key: field for kind in kinds for key, field in kind.all.items()}
    correct: dict[str, Tree] = {}
    for word in values:
        key, _, text = word.partition("=")
        correct[key] = entry.value(fields[key], text) if key in fields else text
    entry.entry["set"] = correct


def _gains(entry: NewEntry, words: list[str], _: Ledger) -> None:
    """The name of the set, then ``roll.p=38``."""
    names = [word for word in words if "=" not in word]
    if names:
        entry.add(own_key("gains"), " ".join(names))
    values = [word for word in words if "=" in word]
    if values:
        entry.add(further("gains")["values"], ",".join(values))


def _fit(entry: NewEntry, words: list[str], ledger: Ledger) -> None:
    """``front-left.motor=M-01``; the kind may be left out, the item has it."""
    slots: dict[str, dict[str, Tree]] = {}
    for word in words:
        if word[:1] == "{":
            entry.entry["fit"] = as_tree(word)
            return
        place, equals, tag = word.partition("=")
        station, _, kind = place.partition(".")
        if not equals or not tag:
            raise WrongWords(
                f"{quoted(word)} is not a part in its place; write front-left.motor=M-01"
            )
        for each in tag.split(","):
            own = kind or _kind_of(each, ledger)
            here = slots.setdefault(station, {})
            tags = [*_tags(here.get(own, [])), each]
            here[own] = tags[0] if len(tags) == 1 else tags
    entry.entry["fit"] = slots


def _kind_of(tag: str, ledger: Ledger) -> str:
    """The kind of an item, as its spec has it. WrongWords: there is no such item."""
    item = ledger.items.get(tag)
    if item is None:
        hint = did_you_mean(tag, ledger.items)
        raise WrongWords(f"unknown tag {quoted(tag)}" + (f"; {hint}" if hint else ""))
    return ledger.specs[item.spec].kind if item.spec in ledger.specs else ""


def _charge(entry: NewEntry, words: list[str], ledger: Ledger) -> None:
    """Packs, and what was put in: ``P-01 1520mAh``, or a bare number that is no pack."""
    amounts = [word for word in words if word.endswith("Ah") or _is_amount(word, ledger)]
    for amount in amounts:
        entry.add(further("charge")["put_in"], amount)
    _plain(entry, [word for word in words if word not in amounts], ledger)


def _is_amount(word: str, ledger: Ledger) -> bool:
    return bare(word) is not None and same_name(word, ledger.items) is None


def _weigh(entry: NewEntry, words: list[str], ledger: Ledger) -> None:
    """A mass, and the pack that was on."""
    tags = {word: tag for word in words if (tag := same_name(word, ledger.items)) is not None}
    for word, tag in tags.items():
        entry.entry["pack"] = entry.meant(word, tag)
    _plain(entry, [word for word in words if word not in tags], ledger)


def _state(entry: NewEntry, words: list[str], ledger: Ledger) -> None:
    """``R-01=scrapped``, or the items and then their state: ``R-01 R-02 scrapped``."""
    if len(words) > 1 and not any("=" in word for word in words):
        *tags, state = words
        words = [f"{tag}={state}" for each in tags for tag in each.split(",")]
    _plain(entry, words, ledger)


_READERS: Mapping[str, Callable[[NewEntry, list[str], Ledger], None]] = {
    "capacity": _capacity,
    "corrects": _corrects,
    "charge": _charge,
    "firmware": _firmware,
    "weigh": _weigh,
    "state": _state,
    "flight": _flight,
    "flights": _flights,
    "check": _looked,
    "calibration": _looked,
    "inspection": _looked,
    "gains": _gains,
    "fit": _fit,
}


def _packs(entry: NewEntry, value: Tree, ledger: Ledger) -> Tree:
    """Tags as the records have them: P1 is P-01 where nothing else is."""
    packs = [entry.meant(tag, same_name(tag, ledger.items) or tag) for tag in _tags(value)]
    return packs[0] if len(packs) == 1 else packs if packs else value


def _tags(value: Tree) -> list[str]:
    if isinstance(value, str):
        return [value] if value else []
    return [str(each) for each in value]
