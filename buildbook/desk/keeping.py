"""Files of records are replaced whole and all together, by one writer at a time.

Each new text is written beside the old one, what is about to happen is noted in
``.buildbook-entered``, and then the new texts take the places of the old ones. Whoever writes
next finishes or takes back what a killed writer left; ``--undo`` reads the same note.
"""

import hashlib
import os
import stat
from collections.abc import Iterator, Sequence
from contextlib import contextmanager, suppress
from pathlib import Path

import msgspec

NOTE = ".buildbook-entered"
_NEW = ".entering"
_LEFT = tuple(
    f"{inside}.*{_NEW}"
    for inside in ("", "parts/", "parts/*/", "stores/", "aircraft/*/", "aircraft/*/logbook/")
)
_NO_FOLLOW = getattr(os, "O_NOFOLLOW", 0)

try:
    import fcntl
except ImportError:  # Windows: a file that only one can make
    fcntl = None  # type: ignore[assignment]


class CannotWrite(Exception):
    """The records can't be written; nothing was changed. The text is one sentence."""


class Overtaken(Exception):
    """A file is not what it was when the change was worked out; work it out anew."""


class Change(msgspec.Struct, frozen=True):
    """A file before and after; None: it is not there. added: where bytes came in, and how many.

    added is in the order in which they came, each as the file was then.
    """

    path: str
    before: bytes | None
    after: bytes | None
    added: tuple[tuple[int, int], ...] = ()


class _File(msgspec.Struct, frozen=True):
    path: str
    before: str | None  # digests
    after: str | None
    added: tuple[tuple[int, int], ...] = ()


class Note(msgspec.Struct, frozen=True):
    """What was written last. summary: of it, a line each."""

    files: tuple[_File, ...] = ()
    summary: tuple[str, ...] = ()


@contextmanager
def alone(folder: Path) -> Iterator[None]:
    """Wait until no other writer is at the hangar, and keep others waiting meanwhile.

    The lock is on the folder itself, so that a killed writer leaves none behind.
    CannotWrite: the folder can't be locked.
    """
    try:
        if fcntl is None:
            handle = os.open(folder / ".buildbook-lock", os.O_RDWR | os.O_CREAT)
        else:
            handle = os.open(folder, os.O_RDONLY)
    except OSError as error:
        raise CannotWrite(f"could not lock {folder}: {_why(error)}") from error
    try:
        _lock(handle)
        _finish(folder)
        yield
    except OSError as error:
        raise CannotWrite(f"could not write in {folder}: {_why(error)}") from error
    finally:
        os.close(handle)


def _lock(handle: int) -> None:
    if fcntl is not None:
        fcntl.flock(handle, fcntl.LOCK_EX)
    else:
        import msvcrt

        msvcrt.locking(handle, msvcrt.LK_LOCK, 1)


def replace(folder: Path, changes: Sequence[Change], summary: Sequence[str] = ()) -> None:
    """Write all of the changes or none. Only within ``alone``.

    Overtaken: a file was changed meanwhile. CannotWrite: no rights, or no room.
    """
    files = tuple(
        _File(each.path, _digest(each.before), _digest(each.after), each.added) for each in changes
    )
    _exchange(folder, changes, Note(files, tuple(summary)))


def take_back(folder: Path) -> tuple[tuple[str, str], ...]:
    """Take back what was written last; gives summaries, each with its text. Only in ``alone``.

    CannotWrite: nothing was written, or something was written in those files since.
    """
    note = _read_note(folder)
    if note is None or not note.files:
        raise CannotWrite(
            "nothing to take back: only what was entered last can be, once;"
            " void an earlier entry by enter voids"
        )
    changes = []
    texts: list[str] = []
    for each in note.files:
        data = _content(folder / each.path)
        if data is None or _digest(data) != each.after:
            raise CannotWrite(f"{each.path} was changed since; void the entry with one of its own")
        old, gone = data, b""
        for at, length in reversed(each.added):
            gone += old[at : at + length]
            old = old[:at] + old[at + length :]
        texts.append(gone.decode(errors="replace"))
        if old if each.before is None else _digest(old) != each.before:
            raise CannotWrite(f"{each.path} can't be put back as it was")
        changes.append(Change(each.path, data, None if each.before is None else old))
    files = tuple(_File(each.path, each.after, each.before) for each in note.files)
    _exchange(folder, changes, Note(files, note.summary))
    (folder / NOTE).unlink()
    return tuple(zip(note.summary, texts, strict=False))


def _exchange(folder: Path, changes: Sequence[Change], note: Note) -> None:
    made: list[Path] = []
    try:
        for change in changes:
            place = _place(folder, change.path)
            if _content(place) != change.before:
                raise Overtaken(change.path)
            if change.after is not None:
                _make(place.parent)
                made.append(_beside(place))
                _write(made[-1], change.after, place)
                settle(place.parent)
        made.append(_beside(folder / NOTE))
        _write(made[-1], msgspec.json.encode(note), folder / NOTE)
        for change in changes:  # a last look, as close to the exchange as it can be
            if _content(_place(folder, change.path)) != change.before:
                raise Overtaken(change.path)
        os.replace(made[-1], folder / NOTE)
        settle(folder)
    except (OSError, Overtaken) as error:
        for path in made:
            with suppress(OSError):
                path.unlink(missing_ok=True)
        if isinstance(error, Overtaken):
            raise
        raise CannotWrite(f"nothing was written: {_why(error)}") from error
    for change in changes:
        _put(_place(folder, change.path), change.after is not None)


def _put(place: Path, is_there: bool) -> None:
    if is_there:
        os.replace(_beside(place), place)
    else:
        place.unlink(missing_ok=True)
    settle(place.parent)


def _finish(folder: Path) -> None:
    """Finish what a killed writer began to exchange; take back what it only prepared."""
    note = _read_note(folder)
    files = () if note is None else note.files
    waiting = [each for each in files if _beside(_place(folder, each.path)).exists()]
    gone = [each for each in files if each.after is None]
    if waiting or gone:
        now = {each.path: _digest(_content(_place(folder, each.path))) for each in files}
        begun = any(now[each.path] == each.after for each in files)
        for each in (*waiting, *gone):
            place = _place(folder, each.path)
            ready = each.after is None or _digest(_content(_beside(place))) == each.after
            if begun and ready and now[each.path] == each.before:
                _put(place, each.after is not None)
            else:
                _beside(place).unlink(missing_ok=True)
        if not begun and note is not None:
            os.unlink(folder / NOTE)
    for pattern in _LEFT:
        for path in folder.glob(pattern):
            path.unlink(missing_ok=True)


def _place(folder: Path, path: str) -> Path:
    """Where a file of the hangar is: what a link leads to, not the link. CannotWrite: outside."""
    place = Path(os.path.realpath(folder / path))
    if not place.is_relative_to(os.path.realpath(folder)):
        raise CannotWrite(f"{path} leads out of the hangar")
    return place


def _beside(place: Path) -> Path:
    return place.with_name(f".{place.name}{_NEW}")


def _content(path: Path) -> bytes | None:
    try:
        return path.read_bytes()
    except FileNotFoundError:
        return None


def _write(path: Path, data: bytes, place: Path) -> None:
    """Write a new file to the disk, with the rights of the one whose place it takes."""
    path.unlink(missing_ok=True)
    flags = os.O_WRONLY | os.O_CREAT | os.O_EXCL | _NO_FOLLOW | getattr(os, "O_BINARY", 0)
    handle = os.open(path, flags, 0o666)
    with os.fdopen(handle, "wb") as file:
        file.write(data)
        file.flush()
        os.fsync(file.fileno())
    if place.exists():
        path.chmod(stat.S_IMODE(place.stat().st_mode))


def _make(folder: Path) -> None:
    """Make a folder of the hangar, and let the disk know it by its name."""
    missing = [path for path in (folder, *folder.parents) if not path.exists()]
    folder.mkdir(parents=True, exist_ok=True)
    for path in reversed(missing):
        settle(path.parent)


def settle(folder: Path) -> None:
    """Let the disk know the names in a folder, where the system can be asked to."""
    with suppress(OSError):
        handle = os.open(folder, os.O_RDONLY)
        try:
            os.fsync(handle)
        finally:
            os.close(handle)


def _read_note(folder: Path) -> Note | None:
    data = _content(folder / NOTE)
    if data is None:
        return None
    try:
        return msgspec.json.decode(data, type=Note)
    except msgspec.DecodeError:
        return None


def _digest(data: bytes | None) -> str | None:
    return None if data is None else hashlib.blake2b(data, digest_size=16).hexdigest()


def _why(error: OSError) -> str:
    return (error.strerror or str(error)).lower()
