"""What was read before: a whole reading kept in the user's cache folder, data only.

It is found by the bytes of every file that took part and by this program's own files, so that it
cannot be stale.
"""

import hashlib
import sys
from pathlib import Path

import msgspec

from buildbook import __version__, basis
from buildbook.basis.cache_folder import (
    DIGEST_SIZE,
    keep_under,
    name_for,
    recalled,
    state_of_program,
)
from buildbook.basis.problems import Problem
from buildbook.records.ledger import Ledger
from buildbook.records.reading.files import Files

_SUFFIX, _OF_PARTS = ".reading", ".files"

Kept = tuple[Ledger | None, tuple[Problem, ...]]


def digest_of(files: Files, problems: tuple[Problem, ...]) -> bytes:
    """A digest of all that a reading depends on. ``problems``: those of gathering the files."""
    digest = _of_program()
    for path in sorted(files.content):
        content = files.content[path]
        digest.update(f"\0{path}\0{len(content)}\0".encode())
        digest.update(content)
    rest = (files.slugs, sorted(files.photos.items()), problems)
    digest.update(msgspec.msgpack.encode(rest))
    return digest.digest()


def _of_program() -> "hashlib.blake2b":
    digest = hashlib.blake2b(digest_size=DIGEST_SIZE)
    digest.update(f"{__version__} {sys.version_info[:2]} {msgspec.__version__}".encode())
    digest.update(state_of_program((Path(__file__).parents[1], Path(next(iter(basis.__path__))))))
    return digest


def recall(folder: Path, hangar: Path, digest: bytes) -> Kept | None:
    """The reading kept for a hangar, where it is of exactly these files; else None."""
    payload = recalled(folder, name_for(hangar, _SUFFIX), digest)
    if payload is None:
        return None
    try:
        kept: Kept = msgspec.msgpack.decode(payload, type=Kept)
    except (msgspec.MsgspecError, ValueError, RecursionError):
        return None
    return kept


def keep(folder: Path, hangar: Path, digest: bytes, kept: Kept, files: Files) -> None:
    """Keep a reading; where that can't be done, nothing happens."""
    try:
        payload = msgspec.msgpack.encode(kept)
        parts = msgspec.msgpack.encode((digest, _parts(files)))
    except (TypeError, ValueError, RecursionError):
        return
    keep_under(folder, name_for(hangar, _SUFFIX), digest, payload)
    keep_under(folder, name_for(hangar, _OF_PARTS), _of_program().digest(), parts)


def _parts(files: Files) -> dict[str, bytes]:
    """A digest of each file, by its path; of what else was gathered, by none."""
    rest = msgspec.msgpack.encode((files.slugs, sorted(files.photos.items())))
    content = {"": rest, **files.content}
    return {
        path: hashlib.blake2b(text, digest_size=DIGEST_SIZE).digest()
        for path, text in content.items()
    }


def recall_last(folder: Path, hangar: Path, files: Files) -> tuple[Kept, frozenset[str]] | None:
    """The reading kept last of a hangar, and the files that changed since; None where there is
    none, where a file came or went, or where more changed than files."""
    payload = recalled(folder, name_for(hangar, _OF_PARTS), _of_program().digest())
    try:
        last = payload and msgspec.msgpack.decode(payload, type=tuple[bytes, dict[str, bytes]])
    except (msgspec.MsgspecError, ValueError, RecursionError):
        return None
    if not last:
        return None
    digest, before = last
    now = _parts(files)
    if before.keys() != now.keys() or before[""] != now[""]:
        return None
    kept = recall(folder, hangar, digest)
    changed = frozenset(path for path, part in now.items() if part != before[path])
    return None if kept is None else (kept, changed)
