"""An entry on its way from words into a file, and the keys that its kind may have."""

import re

import msgspec

from buildbook.basis.nearest import did_you_mean
from buildbook.basis.notation import quoted
from buildbook.desk.entry_text import Tree
from buildbook.desk.placing import NewPart
from buildbook.desk.word_values import WrongWords, value_said
from buildbook.records.entries.kinds import KINDS, common
from buildbook.records.keys.fields import Field, Fields, fields_of
from buildbook.records.ledger import Ledger
from buildbook.records.parts import Item, stem_of
from buildbook.records.reading.corrections import CORRECTS, VOIDS


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


_OF_A_PART = ("acquired", "made", "mass", "mark", "serial", "price")


def with_new_part(
    kind: str, words: list[str], options: dict[str, str], ledger: Ledger
) -> tuple[Ledger, NewPart | None]:
    """The ledger with the part that ``new`` or ``like`` say is new; both, and its facts, are taken
    off the options, and a tag that no word names is added to the words.

    new: its tag, else that word which nobody has of those that begin like the tag of ``like``.
    like: a tag, else what it is fitted instead of. WrongWords: it is not clear which, or of what.
    """
    tag, like = options.pop("new", None), options.pop("like", None)
    if tag is None and like is None:
        return ledger, None
    like = like or next(iter(_TAGS(options.get("instead_of", ""))), "")
    if like not in ledger.items:
        near = did_you_mean(like, ledger.items) or "add --like and the tag of a part of that kind"
        raise WrongWords(f"{quoted(like or tag or '')} is no part that another is like; {near}")
    parts = [part for word in words for part in _TAGS(word)]
    own = stem_of([like])
    tag = tag or next(
        (each for each in parts if each not in ledger.items and own == stem_of([each])), None
    )
    if tag is None:
        raise WrongWords(f"no new part like {like} is named; add --new and its tag")
    if tag in ledger.items:
        raise WrongWords(f"{tag} is recorded already; leave out --new and --like")
    if tag not in parts:
        words.append(tag)
    old = ledger.items[like]
    known, facts, assumed = fields_of(Item), {"tag": tag, "spec": old.spec}, list[str]()
    for key in (each for each in _OF_A_PART if each in options and each not in further(kind)):
        facts[key] = str(value_said(known[key].value, options.pop(key), key, assumed))
    alike = [each.file for each in ledger.items.values() if each.spec == old.spec]
    homes = [file for file in (old.file, *alike) if file.startswith("parts/")]
    items = {**ledger.items, tag: msgspec.structs.replace(old, tag=tag)}
    return (
        msgspec.structs.replace(ledger, items=items),
        NewPart(facts, homes[0] if homes else _ITEMS, like),
    )


_ITEMS = "parts/items.yaml"
_TAGS = re.compile(r"[^\s,=:{}\[\]]+").findall


def further(kind: str) -> Fields:
    """The keys that an entry of a kind may have beside its kind key."""
    own = {"corrects": CORRECTS, "voids": VOIDS}.get(kind)
    if own is None:
        own = KINDS[kind].fields
    return {**own, **{key: field for key, field in common().items() if key != "id"}}


def own_key(kind: str) -> Field:
    """The key that says which kind an entry is; of a correction and a void their own."""
    if kind in KINDS:
        return KINDS[kind].own_key
    return (CORRECTS if kind == "corrects" else VOIDS)[kind]


def tags_said(value: Tree) -> list[str]:
    """One tag, or a list of them, as a list; empty where none is said."""
    if isinstance(value, str):
        return [value] if value else []
    return [str(each) for each in value]
