"""What the words behind a kind of entry and its aircraft say, kind by kind."""

from collections.abc import Callable, Mapping, Sequence
from typing import get_args

from buildbook.basis.amounts import listed
from buildbook.basis.nearest import did_you_mean
from buildbook.basis.notation import quoted
from buildbook.desk.bringing_in.foreign import same_name
from buildbook.desk.entry_text import Tree, as_tree
from buildbook.desk.new_entry import NewEntry, further, own_key, tags_said
from buildbook.desk.said.flights_said import SEVERAL, flight, flights, is_charge
from buildbook.desk.word_values import WrongWords, bare, value_said
from buildbook.records.entries import Cleared, Defect, Looked, Void
from buildbook.records.entries.kinds import KINDS
from buildbook.records.keys.shapes import ByName, FreeText, Several
from buildbook.records.ledger import Ledger
from buildbook.records.parts import KINDS as KINDS_OF_PART
from buildbook.records.readings import READ_IN

_FEW = 4
_RESULTS: tuple[str, ...] = get_args(Looked)
_CHARGED_TO = ("full", "part", "storage")


def plain(entry: NewEntry, words: list[str], _: Ledger) -> None:
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
    amount = next((name for name in looks if name[0].isdigit()), None)
    if amount is not None and "readings" in fields:
        raise WrongWords(
            f"{quoted(amount)} is no check; the name of a reading stands before it, as in"
            f" distance={amount}"
        )
    if looks and not set(words) & set(_RESULTS):
        _refuse_result(looks[-1])
    plain(entry, looks, ledger)
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
        entry.add(fields["readings"], ",".join(_measured(each, entry) for each in readings))


def _measured(reading: str, entry: NewEntry) -> str:
    """``distance=60`` with the unit in which that is read; it is told."""
    name, _, said = reading.partition("=")
    if name not in READ_IN or not bare(said):
        return reading
    return f"{name}={entry.meant(said, f'{said} {READ_IN[name]}')}"


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
    amounts = [word for word in words if is_charge(word) or _is_amount(word, ledger)]
    if amounts:
        entry.add(further("capacity")["measured"], " ".join(amounts))
    plain(entry, [word for word in words if word not in amounts], ledger)


def _firmware(entry: NewEntry, words: list[str], ledger: Ledger) -> None:
    """``C-01=2.4.1``, or the item and then its version."""
    if len(words) == 2 and "=" not in words[0] and words[0] in ledger.items:
        words = ["=".join(words)]
    if len(words) == 1 and "=" not in words[0] and words[0][:1] != "{":
        raise WrongWords(
            f"firmware: {quoted(words[0])} stands alone; write the tag of the part and its version,"
            " as in C-01=2.4.1"
        )
    plain(entry, words, ledger)


def _corrects(entry: NewEntry, words: list[str], ledger: Ledger) -> None:
    """The id, then the keys with their correct values: ``2026-03-01-2 used=1480mAh``."""
    values = [word for word in words if "=" in word]
    plain(entry, [word for word in words if word not in values], ledger)
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
    loose = next((word for word in values if "." not in word.partition("=")[0]), None)
    if loose is not None and "{" not in loose:
        raise WrongWords(f"gains: {quoted(loose)} has no axis; write roll.{loose}")
    if values:
        entry.add(further("gains")["values"], ",".join(values))


def _fit(entry: NewEntry, words: list[str], ledger: Ledger) -> None:
    """``front-left.motor=M-01``, or a station and what goes there: ``front-left M-01 E-02``.

    The kind may be left out, the item has it; or stand before it: ``front-left motor M-01``.
    """
    slots: dict[str, dict[str, Tree]] = {}
    station = said = ""
    words = [part for word in words for part in _kind_and_tag(word.strip(",")) if part]
    for at, word in enumerate(words):
        if word[:1] == "{":
            entry.entry["fit"] = as_tree(word)
            return
        if station and _is_kind(word.rstrip(":"), words[at + 1 : at + 2], station in slots, ledger):
            said = word.rstrip(":")
            continue
        place, equals, tag = word.partition("=")
        if not equals and station and _are_tags(word, ledger):
            place, equals, tag = station, "=", word
        elif not equals and any(_are_tags(each, ledger) for each in words[at + 1 :]):
            _refuse_empty(station, word, slots, ledger)
            station = word
            continue
        station, _, kind = place.partition(".")
        if not equals and words[at + 1 :]:
            _kind_of(words[at + 1], ledger)
        if not equals or not tag:
            raise WrongWords(
                f"{quoted(word)} is not a part in its place; write front-left.motor=M-01"
            )
        for each in tag.split(","):
            own = kind or said or _kind_of(each, ledger)
            here = slots.setdefault(station, {})
            tags = [*tags_said(here.get(own, [])), each]
            here[own] = tags[0] if len(tags) == 1 else tags
        said = ""
    entry.entry["fit"] = slots


def _kind_and_tag(word: str) -> tuple[str, ...]:
    """``propeller:R-03`` as two words."""
    kind, _, tag = word.partition(":")
    return (kind, tag) if tag and kind in KINDS_OF_PART else (word,)


def _are_tags(word: str, ledger: Ledger) -> bool:
    return all(each in ledger.items for each in word.split(","))


def _is_kind(word: str, behind: Sequence[str], filled: bool, ledger: Ledger) -> bool:
    """Whether the word is the kind of the part behind it; ``wing`` and ``tail`` are stations too,
    once the one before has its part."""
    if word not in KINDS_OF_PART or not behind:
        return False
    return not filled or _kind_of(behind[0].split(",")[0], ledger) == word


def _refuse_empty(
    station: str, word: str, slots: Mapping[str, Mapping[str, Tree]], ledger: Ledger
) -> None:
    """WrongWords: what was taken for a station got no part before the next one came."""
    if station and station not in slots:
        near = did_you_mean(word, ledger.items)
        hint = f"{near} Or {NEW}" if near else f"write {station}.motor=M-01, or {station} M-01"
        raise WrongWords(f"{quoted(station)} gets no part: {quoted(word)} is none; {hint}")


NEW = "add --like and the tag of one alike if it is a new part"
"""How a part is recorded in the breath in which it is first named."""


def _kind_of(tag: str, ledger: Ledger) -> str:
    """The kind of an item, as its spec has it. WrongWords: there is no such item."""
    item = ledger.items.get(tag)
    if item is None:
        near = did_you_mean(tag, ledger.items)
        raise WrongWords(f"unknown tag {quoted(tag)}; {f'{near} Or ' if near else ''}{NEW}")
    return ledger.specs[item.spec].kind if item.spec in ledger.specs else ""


def _named_words(entry: NewEntry, words: list[str], ledger: Ledger) -> None:
    """``calm=steady``, or a name and what is said of it: ``calm "steady, but slow"``."""
    if len(words) > 1 and not any("=" in word for word in words):
        words = [f"{words[0]}={' '.join(words[1:])}"]
    plain(entry, words, ledger)


def _cleared(entry: NewEntry, words: list[str], ledger: Ledger) -> None:
    """The id of a defect, or words of it while it is the only such one; then how."""
    own = [each for each in ledger.entries if each.aircraft == entry.aircraft]
    if words and any(words[0] in (each.id, each.uid) for each in own):
        if words[1:]:
            entry.add(further("cleared")["how"], " ".join(words[1:]))
        return plain(entry, words[:1], ledger)
    done = {each.target for each in own if isinstance(each, Cleared)}
    done |= {each.original for each in own if isinstance(each, Void)}
    left = [each for each in own if isinstance(each, Defect) and each.uid not in done]
    for many in range(len(words), 0, -1):
        said = " ".join(words[:many])
        found = [each for each in left if said.casefold() in each.words.casefold()]
        if len(found) == 1:
            if words[many:]:
                entry.add(further("cleared")["how"], " ".join(words[many:]))
            return plain(entry, [entry.meant(said, found[0].id)], ledger)
    said = " ".join(words)
    if said and left:
        names = listed([f"{each.id} ({each.words})" for each in left[-_FEW:]], "or")
        raise WrongWords(f"no open defect is called {quoted(said)}; write {names}")
    return plain(entry, words, ledger)


def _charge(entry: NewEntry, words: list[str], ledger: Ledger) -> None:
    """Packs, what was put in (``P-01 1520mAh``, a bare number that is no pack), and how full."""
    amounts = [word for word in words if is_charge(word) or _is_amount(word, ledger)]
    for amount in amounts:
        entry.add(further("charge")["put_in"], amount)
    for word in (each for each in words if each in _CHARGED_TO):
        entry.add(further("charge")["to"], word)
    plain(entry, [word for word in words if word not in (*amounts, *_CHARGED_TO)], ledger)


def _is_amount(word: str, ledger: Ledger) -> bool:
    return bare(word) is not None and same_name(word, ledger.items) is None


def _weigh(entry: NewEntry, words: list[str], ledger: Ledger) -> None:
    """A mass, and the pack that was on."""
    tags = {word: tag for word in words if (tag := same_name(word, ledger.items)) is not None}
    for word, tag in tags.items():
        entry.entry["pack"] = entry.meant(word, tag)
    plain(entry, [word for word in words if word not in tags], ledger)


def _state(entry: NewEntry, words: list[str], ledger: Ledger) -> None:
    """``R-01=scrapped``, or the items and then their state: ``R-01 R-02 scrapped``."""
    if len(words) > 1 and not any("=" in word for word in words):
        *tags, state = words
        words = [f"{tag}={state}" for each in tags for tag in each.split(",")]
    plain(entry, words, ledger)


IN_WORDS: Mapping[str, str] = {
    "charge": "charge P-01 P-02 2900mAh",
    "check": "check burdock failsafe pass",
    "corrects": 'corrects burdock 2026-09-06-2 used=1290 --because "digits swapped"',
    "fit": "fit trefoil rear-upper M-05 --instead-of M-15=serviceable",
    "flight": "flight burdock 6:10 P-01 1290mAh",
    "flights": SEVERAL,
    "inspection": "inspection P-01 pack-look pass",
    "setting": "setting burdock idle 6%",
    "state": "state P-01 P-02 quarantined",
    "weigh": "weigh burdock 742g P-01",
}
"""An example of each kind that is shorter than its keys; all are of the demo."""

READERS: Mapping[str, Callable[[NewEntry, list[str], Ledger], None]] = {
    "capacity": _capacity,
    "cleared": _cleared,
    "corrects": _corrects,
    "charge": _charge,
    "firmware": _firmware,
    "setting": _named_words,
    "verdict": _named_words,
    "weigh": _weigh,
    "state": _state,
    "flight": flight,
    "flights": flights,
    "check": _looked,
    "calibration": _looked,
    "inspection": _looked,
    "gains": _gains,
    "fit": _fit,
}
