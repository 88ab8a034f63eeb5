"""Words of a command line become an entry: where it goes, its kind key, its further keys."""

import re
from collections.abc import Mapping, Sequence

from buildbook.basis.amounts import listed
from buildbook.basis.nearest import did_you_mean
from buildbook.basis.notation import NotationError, quoted
from buildbook.desk.bringing_in.foreign import same_name
from buildbook.desk.entry_text import Tree
from buildbook.desk.new_entry import NewEntry, further, own_key, tags_said
from buildbook.desk.said.kinds_said import READERS, plain
from buildbook.desk.word_values import ASSUMED, WrongWords
from buildbook.records.entries import Cleared, Defect, Fit
from buildbook.records.entries.kinds import KINDS
from buildbook.records.keys.fields import Fields
from buildbook.records.ledger import Ledger, named_aircraft
from buildbook.records.parts import DRIVE

__all__ = [
    "ASSUMED",
    "NewEntry",
    "WrongWords",
    "further",
    "own_key",
    "understood",
]

_ANYWHERE = ("inspection", "defect", "note", "cleared", "corrects", "voids")
_LOOKS = ("check", "calibration", "inspection")
_OF_FITTED = ("check", "remove", "firmware", "overhaul")


def understood(
    kind: str, words: Sequence[str], options: Mapping[str, str], ledger: Ledger, on: str
) -> NewEntry:
    """What the words say. options: by key. on: the day, where they name none.

    WrongWords: an unknown name, or a value that is none. What is missing is noted, not refused.
    """
    entry = NewEntry(kind, {"on": options.get("on", on), kind: ""}, assumed=[], missing=[])
    rest = _where(entry, _names_apart(words) if kind in _LOOKS else list(words), ledger)
    fields = further(kind)
    if kind == "corrects":  # keys of the entry that is corrected
        correct = {key: text for key, text in options.items() if key not in fields}
        rest += [f"{key}={text}" for key, text in correct.items()]
        options = {key: text for key, text in options.items() if key not in correct}
    READERS.get(kind, plain)(entry, rest, ledger)
    for key, text in options.items():
        if key == "on":
            continue
        if key not in fields:
            hint = _PLACED.get(key) or did_you_mean(key, fields)
            raise WrongWords(
                f"{quoted(kind)} has no key {quoted(key)}" + (f"; {hint}" if hint else "")
            )
        entry.add(fields[key], text)
    for key in {"pack", kind} & {"pack", "charge", "capacity"} & entry.entry.keys():
        entry.entry[key] = _packs(entry, entry.entry[key], ledger)
    if _names_items(kind) and entry.aircraft is None:
        entry.item = next(iter(tags_said(entry.entry[kind])), None)
    if kind in ("defect", "note") and entry.item and entry.aircraft is None:
        entry.entry.setdefault("item", entry.item)
    if kind == "inspection" and entry.item and entry.aircraft is None:
        tags = [entry.item, *tags_said(entry.entry.get("tags", []))]
        entry.entry["tags"] = list(dict.fromkeys(tags))
    _note_missing(entry, fields)
    if kind == "cleared" and kind in entry.missing:
        _refuse_unnamed(entry, ledger)
    return entry


def _names_apart(words: Sequence[str]) -> list[str]:
    """Names one by one, however they are listed; readings and what is in brackets stay whole."""
    whole = [each for word in words for each in ([word] if _IS_GROUP(word) else word.split(","))]
    return [word.strip() for word in whole if word.strip()]


def _refuse_unnamed(entry: NewEntry, ledger: Ledger) -> None:
    """WrongWords: no defect is named, and there are some that could be; the last few are told."""
    cleared = {each.target for each in ledger.entries if isinstance(each, Cleared)}
    defects = [
        f"{each.id} ({each.words})"
        for each in ledger.entries
        if isinstance(each, Defect) and each.aircraft == entry.aircraft and each.uid not in cleared
    ]
    if defects:
        raise WrongWords(f"cleared: which defect? {listed(defects[-_FEW:], 'or')}")


_FEW = 4
_PLACED: Mapping[str, str] = {
    "aircraft": "its name stands behind the kind, as in enter flight sedge 7:20",
    "tag": "the tag stands behind the kind, as in enter charge P-01",
}
"""What is no key, as the words have their places."""
_IS_GROUP = re.compile(r"[=\[{]").search


def _names_items(kind: str) -> bool:
    """Whether its words name items wherever they are; others name those on an aircraft."""
    found = KINDS.get(kind)
    return found is not None and found.make.of_items and kind not in _OF_FITTED


def _note_missing(entry: NewEntry, fields: Fields) -> None:
    if entry.aircraft is None and entry.item is None and not _names_items(entry.kind):
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
    if slug is None and first not in ledger.items and (slug := _first_word_of(first, ledger)):
        entry.meant(first, slug)
    if slug is not None:
        entry.aircraft = slug
        return words[1:]
    if _names_items(entry.kind):
        return words
    if entry.kind in _ANYWHERE and first in ledger.items:
        entry.item = first
        return words[1:]
    if entry.kind in _LOOKS:  # the name of the look may come first
        for at, word in enumerate(words[1:], 1):
            if named_aircraft(word, ledger) or (entry.kind in _ANYWHERE and word in ledger.items):
                return _where(entry, [word, *words[:at], *words[at + 1 :]], ledger)
    if entry.kind in _OF_FITTED and first in ledger.items and _of_fitted(entry, first, ledger):
        return words[1:] if entry.kind == "check" else words
    names = [*ledger.aircraft, *(record.aircraft for record in ledger.aircraft.values())]
    hint = did_you_mean(first, names) if first else None
    if first in ledger.items:
        hint = f"write the aircraft before {quoted(first)}"
        if entry.kind == "check":
            hint = f"of a part that is not fitted write enter inspection {first}"
    if hint is not None or (len(words) > 1 and len(names) > 2):
        raise WrongWords(f"no aircraft is called {quoted(first)}" + (f"; {hint}" if hint else ""))
    if len(ledger.aircraft) == 1:
        (entry.aircraft,) = ledger.aircraft
    return words


def _of_fitted(entry: NewEntry, tag: str, ledger: Ledger) -> bool:
    """Whose aircraft it is by what was fitted last; a check of a motor is one of its station."""
    fitted = [
        (each.aircraft, slot.station)
        for each in ledger.entries
        if isinstance(each, Fit)
        for slot in each.slots
        if tag in slot.tags
    ]
    item = ledger.items[tag]
    if not fitted or item.spec not in ledger.specs:
        return False
    slug, station = fitted[-1]
    entry.aircraft = slug
    entry.meant(tag, f"{tag} of {slug}")
    if entry.kind == "check" and ledger.specs[item.spec].kind in DRIVE:
        entry.entry["stations"] = [station]
    return slug is not None


def _first_word_of(word: str, ledger: Ledger) -> str | None:
    """The slug of the only aircraft whose name goes on after that word: ``dunlin``, Dunlin II."""
    found = [slug for slug in ledger.aircraft if word and slug.startswith(f"{word.casefold()}-")]
    return found[0] if len(found) == 1 else None


def _spread(text: str, ledger: Ledger) -> tuple[str, ...]:
    """The tags of a row as the parts files have it; of any other text itself."""
    if ".." not in text or text in ledger.items:
        return (text,)
    from buildbook.records.reading.parts import spread  # rarely said

    try:
        return spread(text)
    except NotationError:
        return (text,)


def _packs(entry: NewEntry, value: Tree, ledger: Ledger) -> Tree:
    """Tags as the records have them: P1 is P-01 where nothing else is; P-1..P-3 are three."""
    said = [tag for row in tags_said(value) for tag in _spread(row, ledger)]
    packs = [entry.meant(tag, same_name(tag, ledger.items) or tag) for tag in said]
    return packs[0] if len(packs) == 1 else packs if packs else value
