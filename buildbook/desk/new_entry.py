"""An entry on its way from words into a file, and the keys that its kind may have."""

import msgspec

from buildbook.desk.entry_text import Tree
from buildbook.desk.word_values import value_said
from buildbook.records.entries.kinds import KINDS, common
from buildbook.records.keys.fields import Field, Fields
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
