"""The seal: a digest for each entry, so that a silent change shows.

It is tamper-evident for honest users and no proof: whoever changes an entry can change the seal.
What is sealed is what an entry says, not the line it stands on or how it is laid out.
"""

import hashlib
import os
from collections.abc import Iterator, Mapping
from pathlib import Path
from typing import Any

import msgspec

from buildbook.basis.place import Place
from buildbook.basis.problems import Problem
from buildbook.records.entries import AnyEntry
from buildbook.records.ledger import Ledger

SEAL = "seal.json"
_DIGEST = 16
_WHERE = frozenset(("file", "line", "lines", "index"))


class BrokenSeal(Exception):
    """The seal file can't be read; the text is one sentence."""


class _SealFile(msgspec.Struct, frozen=True):
    entries: dict[str, str]


def read_seal(folder: Path) -> Mapping[str, str]:
    """The digests by uid; empty where nothing was sealed. BrokenSeal: it is not a seal."""
    path = folder / SEAL
    if not os.path.lexists(path):
        return {}
    if not path.is_file():
        raise BrokenSeal(f"{SEAL} cannot be read: it is no plain file")
    try:
        return msgspec.json.decode(path.read_bytes(), type=_SealFile).entries
    except (OSError, msgspec.DecodeError, RecursionError) as error:
        raise BrokenSeal(f"{SEAL} cannot be read: {str(error).lower()}") from error


def digests(ledger: Ledger) -> dict[str, str]:
    """The digest of each entry, by uid."""
    return {entry.uid: digest_of_entry(entry) for entry in ledger.entries}


def digest_of_entry(entry: AnyEntry) -> str:
    """A digest of what the entry says; that it may be public is no word of it."""
    import json  # only where there is a seal

    whole = _said(entry)
    for part in (whole, whole.get("becomes", {})):
        for beside in ("public", "assumed"):
            part.pop(beside, None)
    said = json.dumps(whole, sort_keys=True, ensure_ascii=False)
    return hashlib.blake2b(said.encode(), digest_size=_DIGEST).hexdigest()


def changed_entries(ledger: Ledger, seal: Mapping[str, str]) -> Iterator[Problem]:
    """A warning for each sealed entry that says something else now, or is gone."""
    if not seal:
        return
    now = {entry.uid: entry for entry in ledger.entries}
    odd = {
        uid: digest
        for uid, digest in sorted(seal.items())
        if uid not in now or digest_of_entry(now[uid]) != digest
    }
    moved = _moved(ledger, odd)
    elsewhere = set(moved.values())
    for uid in odd:
        file, _, name = uid.rpartition("#")
        if uid in moved:
            continue
        if uid not in now or uid in elsewhere:
            yield Problem(
                f"the sealed entry {name!r} is gone",
                Place(file, 1),
                "warning",
                hint="put it back and write an entry that voids it",
            )
        else:
            yield Problem(
                f"the sealed entry {name!r} was changed in place",
                now[uid].place(),
                "warning",
                hint="put back what it said and write an entry that corrects it",
                about=now[uid].aircraft,
            )


def _moved(ledger: Ledger, odd: Mapping[str, str]) -> Mapping[str, str]:
    """Sealed entries that say what they said and only count otherwise: the uid then, and now.

    An entry without an id of its own is called by its day and a count, which an entry more or
    less above it changes.
    """
    files = {uid.rpartition("#")[0] for uid in odd}
    entries = [entry for entry in ledger.entries if entry.file in files]
    found: dict[str, str] = {}
    for uid, digest in odd.items():
        file, _, name = uid.rpartition("#")
        for entry in entries:
            if entry.file == file and entry.on.isoformat() == name[:10] == entry.id[:10]:
                as_then = msgspec.structs.replace(entry, id=name)
                if entry.uid not in found.values() and digest_of_entry(as_then) == digest:
                    found[uid] = entry.uid
                    break
    return found


def _said(value: Any) -> Any:
    """The value in plain types, records without where they were written.

    Only records know their place: a setting may be called ``line`` and is sealed like the rest.
    """
    if isinstance(value, msgspec.Struct):
        config = value.__struct_config__
        kind = {} if config.tag_field is None else {config.tag_field: config.tag}
        names = zip(value.__struct_fields__, value.__struct_encode_fields__, strict=True)
        said = {key: _said(getattr(value, name)) for name, key in names if name not in _WHERE}
        return {**kind, **said}
    if isinstance(value, Mapping):
        return {msgspec.to_builtins(key): _said(part) for key, part in value.items()}
    if isinstance(value, list | tuple):
        return [_said(part) for part in value]
    if value is None or isinstance(value, str | int | float):
        return value
    return msgspec.to_builtins(value)
