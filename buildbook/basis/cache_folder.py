"""What was worked out before: files in the user's cache folder, each found by a digest.

A digest is of all that the content depends on, so that nothing is stale; whatever is odd about a
file, it is passed over without a word, and what it held is worked out anew.
"""

import hashlib
import os
import stat
import zlib
from collections.abc import Callable, Iterator
from functools import cache
from pathlib import Path

_MAGIC = b"buildbook cache 4\n"
DIGEST_SIZE = 32
_CHECK = 4
_MOST_BYTES = 256 * 1024 * 1024
_MOST_KEPT = 24
_UNFINISHED = ".part"
_BINARY = getattr(os, "O_BINARY", 0)


def usual_folder() -> Path | None:
    """The cache folder of this program for this user; None where there is no home."""
    base = os.environ.get("XDG_CACHE_HOME", "")
    if os.path.isabs(base):
        return Path(base) / "buildbook"
    try:
        return Path.home() / ".cache" / "buildbook"
    except RuntimeError:
        return None


@cache
def state_of_program(folders: tuple[Path, ...]) -> bytes:
    """What tells one state of the program's files in folders from another, in a checkout too."""
    seen = sorted(fact for top in folders for fact in _state_of(os.fspath(top)))
    return repr(seen).encode()


def _state_of(folder: str) -> Iterator[tuple[str, int, int]]:
    """Name, time and size of the program's files in a folder and all folders in it."""
    with os.scandir(folder) as entries:
        for entry in entries:
            if entry.name.endswith((".py", ".yaml")):
                facts = entry.stat()
                yield entry.name, facts.st_mtime_ns, facts.st_size
            elif entry.name != "__pycache__" and entry.is_dir():
                yield from _state_of(entry.path)


def recalled(folder: Path, name: str, digest: bytes) -> memoryview | None:
    """The content kept under a name, where it is of exactly this digest; else None."""
    try:
        if not _is_ours(os.lstat(folder), stat.S_ISDIR):
            return None
        data = _content(folder / name)
    except OSError:
        return None
    if data is None:
        return None
    head = len(_MAGIC)
    if data[:head] != _MAGIC or data[head : head + DIGEST_SIZE] != digest:
        return None
    check = data[head + DIGEST_SIZE : head + DIGEST_SIZE + _CHECK]
    payload = memoryview(data)[head + DIGEST_SIZE + _CHECK :]
    return payload if _check_of(payload) == check else None


def keep_under(
    folder: Path, name: str, digest: bytes, payload: bytes, most: int = _MOST_KEPT
) -> None:
    """Keep content under a name; where that can't be done, nothing happens.

    most: so many files of its suffix stay, the latest.
    """
    try:
        folder.mkdir(mode=0o700, parents=True, exist_ok=True)
        if not _is_ours(os.lstat(folder), stat.S_ISDIR):
            return
        unfinished = folder / f"{os.urandom(8).hex()}{_UNFINISHED}"
        handle = os.open(unfinished, os.O_WRONLY | os.O_CREAT | os.O_EXCL | _BINARY, 0o600)
        try:
            with os.fdopen(handle, "wb") as file:
                file.write(_MAGIC + digest + _check_of(payload) + payload)
            os.replace(unfinished, folder / name)
        except OSError:
            os.unlink(unfinished)
            raise
        _forget_oldest(folder, os.path.splitext(name)[1], most)
    except (OSError, ValueError):
        return


def _check_of(payload: bytes | memoryview) -> bytes:
    """What a damaged file is told by; nobody but the user can write there at all."""
    return zlib.crc32(payload).to_bytes(_CHECK, "big")


def name_for(path: Path, suffix: str) -> str:
    """The name under which something of a folder is kept."""
    place = os.fsencode(os.path.abspath(path))
    return hashlib.blake2b(place, digest_size=16).hexdigest() + suffix


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


def _forget_oldest(folder: Path, suffix: str, most: int) -> None:
    with os.scandir(folder) as entries:
        alike = [entry for entry in entries if entry.name.endswith((suffix, _UNFINISHED))]
    if len(alike) > most:
        found = [(one.stat(follow_symlinks=False).st_mtime_ns, one.path) for one in alike]
        for _, path in sorted(found)[:-most]:
            os.unlink(path)
