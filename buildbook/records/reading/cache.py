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

_SUFFIX = ".reading"

Kept = tuple[Ledger | None, tuple[Problem, ...]]


def digest_of(files: Files, problems: tuple[Problem, ...]) -> bytes:
    """A digest of all that a reading depends on. ``problems``: those of gathering the files."""
    digest = hashlib.blake2b(digest_size=DIGEST_SIZE)
    digest.update(f"{__version__} {sys.version_info[:2]} {msgspec.__version__}".encode())
    digest.update(state_of_program((Path(__file__).parents[1], Path(next(iter(basis.__path__))))))
    for path in sorted(files.content):
        content = files.content[path]
        digest.update(f"\0{path}\0{len(content)}\0".encode())
        digest.update(content)
    rest = (files.slugs, sorted(files.photos.items()), problems)
    digest.update(msgspec.msgpack.encode(rest))
    return digest.digest()


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


def keep(folder: Path, hangar: Path, digest: bytes, kept: Kept) -> None:
    """Keep a reading; where that can't be done, nothing happens."""
    try:
        payload = msgspec.msgpack.encode(kept)
    except (TypeError, ValueError, RecursionError):
        return
    keep_under(folder, name_for(hangar, _SUFFIX), digest, payload)
