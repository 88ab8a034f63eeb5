"""A word and what it means."""

import msgspec


class Term(msgspec.Struct, frozen=True, kw_only=True):
    """A word and what it means.

    kind: what it is (``key``, ``check`` …). where: the files, entries or programmes that have it.
    details: further lines, each with its label.
    """

    word: str
    kind: str
    what: str
    where: tuple[str, ...] = ()
    details: tuple[tuple[str, str], ...] = ()
