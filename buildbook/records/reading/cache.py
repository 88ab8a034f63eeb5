"""What was read before: a whole reading kept in the user's cache folder, data only.

It is found by the bytes of every file that took part and by this program's own files, so that it
cannot be stale; whatever is odd about it, it is passed over without a word and read anew.
"""

import hashlib
import os
import stat
import sys
import zlib
from collections.abc import Callable, Iterator
from pathlib import Path

import msgspec

from buildbook import __version__, basis
from buildbook.basis.problems import Problem
from buildbook.records.ledger import Ledger
from buildbook.records.reading.files import Files

_MAGIC = b"buildbook reading 3\n"
_DIGEST = 32
_CHECK = 4
_MOST_BYTES = 256 * 1024 * 1024
_MOST_KEPT = 24
_SUFFIX = ".reading"
_UNFINISHED = ".part"
_BINARY = getattr(os, "O_BINARY", 0)

Kept = tuple[Ledger | None, tuple[Problem, ...]]


def usual_folder() -> Path | None:
    """The cache folder of this program for this user; None where there is no home."""
    base = os.environ.get("XDG_CACHE_HOME", "")
    if os.path.isabs(base):
        return Path(base) / "buildbook"
    try:
        return Path.home() / ".cache" / "buildbook"
    except RuntimeError:
        return None


def digest_of(files: Files, problems: tuple[Problem, ...]) -> bytes:
    """A digest of all that a reading depends on. ``problems``: those of gathering the files."""
    digest = hashlib.blake2b(digest_size=_DIGEST)
    digest.update(f"{__version__} {sys.version_info[:2]} {msgspec.__version__}".encode())
    digest.update(_program())
    for path in sorted(files.content):
        content = files.content[path]
        digest.update(f"\0{path}\0{len(content)}\0".encode())
        digest.update(content)
    rest = (files.slugs, sorted(files.photos.items()), problems)
    digest.update(msgspec.msgpack.encode(rest))
    return digest.digest()


def _program() -> bytes:
    """What tells one state of the reading code from another, in a checkout too."""
    seen: list[tuple[str, int, int]] = []
    for top in (Path(__file__).parents[1], Path(next(iter(basis.__path__)))):
        seen += _state_of(os.fspath(top))
    return msgspec.msgpack.encode(sorted(seen))


def _state_of(folder: str) -> Iterator[tuple[str, int, int]]:
    """Name, time and size of the program's files in a folder and all folders in it."""
    with os.scandir(folder) as entries:
        for entry in entries:
            if entry.name.endswith((".py", ".yaml")):
                facts = entry.stat()
                yield entry.name, facts.st_mtime_ns, facts.st_size
            elif entry.name != "__pycache__" and entry.is_dir():
                yield from _state_of(entry.path)


def recall(folder: Path, hangar: Path, digest: bytes) -> Kept | None:
    """The reading kept for a hangar, where it is of exactly these files; else None."""
    try:
        if not _is_ours(os.lstat(folder), stat.S_ISDIR):
            return None
        data = _content(folder / _name(hangar))
        if data is None:
            return None
        head = len(_MAGIC)
        if data[:head] != _MAGIC or data[head : head + _DIGEST] != digest:
            return None
        check = data[head + _DIGEST : head + _DIGEST + _CHECK]
        payload = memoryview(data)[head + _DIGEST + _CHECK :]
        if _check_of(payload) != check:
            return None
        kept: Kept = msgspec.msgpack.decode(payload, type=Kept)
    except (OSError, msgspec.MsgspecError, ValueError, RecursionError):
        return None
    return kept


def keep(folder: Path, hangar: Path, digest: bytes, kept: Kept) -> None:
    """Keep a reading; where that can't be done, nothing happens."""
    try:
        folder.mkdir(mode=0o700, parents=True, exist_ok=True)
        if not _is_ours(os.lstat(folder), stat.S_ISDIR):
            return
        payload = msgspec.msgpack.encode(kept)
        name = folder / f"{os.urandom(8).hex()}{_UNFINISHED}"
        handle = os.open(name, os.O_WRONLY | os.O_CREAT | os.O_EXCL | _BINARY, 0o600)
        try:
            with os.fdopen(handle, "wb") as file:
                file.write(_MAGIC + digest + _check_of(payload) + payload)
            os.replace(name, folder / _name(hangar))
        except OSError:
            os.unlink(name)
            raise
        _forget_oldest(folder)
    except (OSError, TypeError, ValueError, RecursionError):
        return


def _check_of(payload: bytes | memoryview) -> bytes:
    """What a damaged file is told by; nobody but the user can write there at all."""
    return zlib.crc32(payload).to_bytes(_CHECK, "big")


def _name(hangar: Path) -> str:
    place = os.fsencode(os.path.abspath(hangar))
    return hashlib.blake2b(place, digest_size=16).hexdigest() + _SUFFIX


def _is_ours(facts: os.stat_result, is_kind: Callable[[int], bool]) -> bool:
    """Whether it is of the kind, belongs to this user, and nobody else may touch it."""
    if not is_kind(facts.st_mode):
        return False
    if not hasattr(os, "geteuid"):
        return True
    return facts.st_uid == os.geteuid() and not stat.S_IMODE(facts.st_mode) & 0o077


def _content(path: Path) -> bytes | None:
    flags = os.O_RDONLY | getattr(os, "O_NOFOLLOW", 0) | _BINARY
    handle = os.open(path, flags)
    with os.fdopen(handle, "rb") as file:
        facts = os.fstat(file.fileno())
        if not _is_ours(facts, stat.S_ISREG) or facts.st_size > _MOST_BYTES:
            return None
        return file.read()


def _forget_oldest(folder: Path) -> None:
    with os.scandir(folder) as entries:
        found = [
            (entry.stat(follow_symlinks=False).st_mtime_ns, entry.path)
            for entry in entries
            if entry.name.endswith((_SUFFIX, _UNFINISHED))
        ]
    for _, path in sorted(found)[:-_MOST_KEPT]:
        os.unlink(path)
