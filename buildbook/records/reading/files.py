"""The files of a hangar folder, all read once; whatever cannot be read is told in one sentence.

Nothing is opened that is no regular file, and nothing outside of the folder: a pipe would block,
a device would never end, and a link may lead anywhere.
"""

import errno
import os
import stat
from collections.abc import Collection, Iterator
from pathlib import Path
from typing import NamedTuple

import msgspec

from buildbook.basis.nearest import nearest
from buildbook.basis.notation import quoted
from buildbook.basis.place import Place
from buildbook.basis.problems import Problems
from buildbook.basis.sizes import most
from buildbook.records.keys.plain_text import HARMFUL, MOST_BYTES, control_words
from buildbook.records.keys.values import is_slug
from buildbook.records.reading.unread import (
    MAPPING,
    copied_from,
    copy_hint,
    like_folder,
    looks_like_records,
    top_hint,
    wanted_hint,
)

HANGAR = "hangar.yaml"
_IN_AIRCRAFT = ("aircraft.yaml", "logbook.yaml", "write-up.md")
_AIRCRAFT_FOLDERS = ("logbook", "photos")
_IN_PARTS = ("specs.yaml", "items.yaml")
_PARTS_FOLDERS = ("specs", "items")
_FOLDERS = ("aircraft", "bench", "notices", "parts", "programmes", "stores")
_MOST_FILES = most("folder")
_MOST_LEVELS = most("folders")
_OUTSIDE = "it is a link that leads out of the hangar"
_TROUBLES = {
    errno.ELOOP: "a link that leads back to itself",
    errno.EACCES: "no permission to read it",
    errno.EPERM: "no permission to read it",
    errno.ENOENT: "it is not there, or a link that leads nowhere",
    errno.ENOTDIR: "it is a file, not a folder",
    errno.EISDIR: "it is a folder, not a file",
}


class Files(msgspec.Struct):
    """What was found: bytes by path relative to the hangar, with forward slashes.

    slugs: the aircraft folders. photos: file names by slug.
    """

    content: dict[str, bytes] = {}
    slugs: tuple[str, ...] = ()
    photos: dict[str, tuple[str, ...]] = {}

    def under(self, folder: str) -> tuple[str, ...]:
        """The files in a folder and in the folders of it, by name."""
        start = folder + "/"
        return tuple(sorted(path for path in self.content if path.startswith(start)))


def about(path: str) -> str | None:
    """The slug of the aircraft that a file belongs to, or None."""
    parts = path.split("/")
    return parts[1] if len(parts) > 2 and parts[0] == "aircraft" else None


def gather(folder: Path, problems: Problems) -> Files | None:
    """All records of a hangar as bytes; None where there is no hangar at all."""
    if not _is_hangar(folder, problems):
        return None
    gathering = _Gathering(folder, problems)
    gathering.take(HANGAR)
    gathering.take_wanted("parts", _IN_PARTS, _PARTS_FOLDERS)
    for part in ("parts/specs", "parts/items", "programmes", "notices", "stores"):
        gathering.take_all(part, ".yaml")
    gathering.take_all("bench", ".csv")
    gathering.take_fleet()
    return gathering.found


class _Name(NamedTuple):
    """Something in a folder. A link is what it leads to."""

    name: str
    is_folder: bool


class _Gathering:
    """One walk through a hangar."""

    def __init__(self, folder: Path, problems: Problems) -> None:
        self._folder = os.fspath(folder)
        self._plain = {"": True}
        self._real = os.path.realpath(folder)
        self._problems = problems
        self._bytes = 0
        self.found = Files()

    def take_fleet(self) -> None:
        """The folders of aircraft."""
        slugs = []
        for slug, is_folder in self._names("aircraft"):
            if not is_folder:
                if looks_like_records(slug):
                    hint = "each aircraft has a folder of its own: aircraft/<name>/"
                    self._unread(f"aircraft/{slug}", "file", hint)
            elif not self._is_inside(f"aircraft/{slug}"):
                self._cannot_read(f"aircraft/{slug}", _OUTSIDE, "folder")
            elif is_slug(slug):
                slugs.append(slug)
                home = f"aircraft/{slug}"
                self.take_wanted(home, _IN_AIRCRAFT, _AIRCRAFT_FOLDERS)
                self.take_all(f"{home}/logbook", ".yaml")
                self._take_photos(slug)
            else:
                self._problems.add(
                    f"{quoted(slug)} is not a name for a folder of an aircraft",
                    Place(f"aircraft/{slug}", 1),
                    hint=f"use a-z, 0-9 and hyphens, at most {most('name')}",
                )
        self.found.slugs = tuple(slugs)

    def take_wanted(self, inside: str, wanted: tuple[str, ...], folders: tuple[str, ...]) -> None:
        """Files of these names, with a warning for what may have been meant as one."""
        for name, is_folder in self._names(inside):
            path = f"{inside}/{name}"
            if name in wanted:
                self.take(path)
            elif is_folder:
                if name not in folders:
                    self._unread(path, "folder", wanted_hint(name, folders))
            elif looks_like_records(name):
                original = copied_from(name, wanted)
                hint = copy_hint(original) if original else wanted_hint(name, wanted)
                self._unread(path, "file", hint)

    def take_all(self, inside: str, suffix: str, level: int = 1) -> None:
        """Every file of an ending in a folder and in the folders of it."""
        found = tuple(self._names(inside))
        names = {one.name for one in found}
        for name, is_folder in found:
            path = f"{inside}/{name}"
            if is_folder and not looks_like_records(name):
                if os.path.islink(self._at(path)):
                    self._unread(path, "folder", "write a folder here, not a link to one")
                elif level < _MOST_LEVELS:
                    self.take_all(path, suffix, level + 1)
                else:
                    hint = f"at most {_MOST_LEVELS} folders within each other are read"
                    self._unread(path, "folder", hint)
            elif looks_like_records(name):
                self._take_or_tell(path, suffix, names)

    def _take_or_tell(self, path: str, suffix: str, names: Collection[str]) -> None:
        name = path.rpartition("/")[2]
        original = copied_from(name, names)
        if original is not None:
            self._unread(path, "file", copy_hint(original))
        elif name.endswith(suffix):
            self.take(path)
        else:
            self._unread(path, "file", f"the name should end in {suffix}")

    def _take_photos(self, slug: str) -> None:
        inside = f"aircraft/{slug}/photos"
        photos = []
        for name, is_folder in self._names(inside):
            path = f"{inside}/{name}"
            if is_folder:
                self._unread(path, "folder", "put the pictures into photos/ itself")
            elif fault := self._fault_of_file(path):
                self._unread(path, "file", fault)
            else:
                photos.append(name)
        if photos:
            self.found.photos[slug] = tuple(photos)

    def take(self, path: str) -> None:
        """Read one file, where it is a regular one of this hangar."""
        if self._bytes > most("hangar"):
            return
        fault = self._fault_of_file(path)
        if fault is not None:
            self._cannot_read(path, fault)
            return
        try:
            handle = os.open(self._at(path), os.O_RDONLY | _NO_WAIT)
            with os.fdopen(handle, "rb") as file:
                content = file.read(MOST_BYTES + 1)
        except OSError as error:
            self._cannot_read(path, _trouble(error))
            return
        self.found.content[path] = content
        self._bytes += len(content)
        if self._bytes > most("hangar"):
            size = f"{most('hangar') // 1048576} MB"
            self._problems.add(
                f"the files up to here exceed the {size} that are read",
                Place(path, 1),
                hint="move old records into a hangar of their own",
            )

    def _fault_of_file(self, path: str) -> str | None:
        """Why it may not be opened. The folder it is in was looked at when it was listed."""
        try:
            mode = os.stat(self._at(path)).st_mode
        except OSError as error:
            return _trouble(error)
        if os.path.islink(self._at(path)) and not self._is_inside(path):
            return _OUTSIDE
        if stat.S_ISDIR(mode):
            return "it is a folder, not a file"
        return None if stat.S_ISREG(mode) else "not a plain file"

    def _is_inside(self, path: str) -> bool:
        """Whether a path, its links followed, stays within the hangar."""
        if self._is_plain(path):
            return True
        real = os.path.realpath(self._at(path))
        return os.path.commonpath((self._real, real)) == self._real

    def _is_plain(self, path: str) -> bool:
        """Whether neither a path nor a folder above it is a link that would have to be followed."""
        known = self._plain.get(path)
        if known is None:
            above = self._is_plain(path.rpartition("/")[0])
            known = self._plain[path] = above and not os.path.islink(self._at(path))
        return known

    def _at(self, path: str) -> str:
        return os.path.join(self._folder, path)

    def _names(self, inside: str) -> Iterator[_Name]:
        """The visible names in a folder, in order; nothing where there is no such folder."""
        try:
            if not self._is_inside(inside):
                self._cannot_read(inside, _OUTSIDE, "folder")
                return
            with os.scandir(self._at(inside)) as entries:
                names = sorted(
                    _Name(entry.name, _is_folder(entry))
                    for entry in entries
                    if not entry.name.startswith(".")
                )
        except OSError as error:
            lost = os.path.islink(self._at(inside))
            if not isinstance(error, FileNotFoundError) or lost:
                self._cannot_read(inside, _trouble(error), "folder")
            return
        if len(names) > _MOST_FILES:
            reason = f"folder of {len(names):,} files, more than {_MOST_FILES:,}"
            self._problems.add(reason, Place(inside, 1), about=about(f"{inside}/"))
        for one in names[:_MOST_FILES]:
            fault = _fault_of_name(one.name)
            if fault is None:
                yield one
            else:
                self._problems.add(fault, Place(inside, 1), about=about(f"{inside}/"))

    def _cannot_read(self, path: str, why: str, what: str = "file") -> None:
        whose = about(path if what == "file" else f"{path}/")
        hint = "copy what it leads to into the hangar" if why == _OUTSIDE else None
        self._problems.add(f"cannot read the {what}: {why}", Place(path, 1), hint=hint, about=whose)

    def _unread(self, path: str, what: str, hint: str) -> None:
        name = path.rpartition("/")[2]
        reason = f"{quoted(name)} is a {what} that is not read"
        self._problems.warn(reason, Place(path, 1), hint=hint, about=about(path))


_NO_WAIT = getattr(os, "O_NONBLOCK", 0) | getattr(os, "O_BINARY", 0)


def _is_folder(entry: os.DirEntry[str]) -> bool:
    try:
        return entry.is_dir()
    except OSError:  # a link back to itself: told when it is read
        return False


def _fault_of_name(name: str) -> str | None:
    try:
        name.encode()
    except UnicodeEncodeError:
        return "a file name is not UTF-8 text"
    if HARMFUL.search(name):
        return f"a file name with a {control_words(name)}"
    return "a file name with a tab or a line break" if "\t" in name or "\n" in name else None


def _is_hangar(folder: Path, problems: Problems) -> bool:
    top = Place(HANGAR, 1)
    hint = "a hangar is a folder with a hangar.yaml"
    try:
        names = os.listdir(folder)
    except OSError as error:
        problems.add(
            f"cannot read the folder {quoted(str(folder))}: {_trouble(error)}", top, hint=hint
        )
        return False
    except ValueError:
        problems.add(f"{quoted(str(folder))} is not a path", top, hint=hint)
        return False
    if HANGAR in names:
        for name in sorted(names):
            _odd_at_the_top(folder, name, problems)
        return True
    what = "is empty" if not names else "has no hangar.yaml"
    close = nearest(HANGAR, names)
    near = f"rename '{close}' to {HANGAR}" if close else None
    problems.add(f"the folder {quoted(str(folder))} {what}", top, hint=near or hint)
    return False


def _odd_at_the_top(folder: Path, name: str, problems: Problems) -> None:
    """A folder whose name is a slip of one that is read, or a file of records: told as unread."""
    if name == HANGAR or name in _FOLDERS or name.startswith(".") or not name.isprintable():
        return
    if (folder / name).is_dir():
        close = like_folder(name, _FOLDERS)
        if close is not None:
            hint = f"did you mean '{close}'?"
            problems.warn(f"{quoted(name)} is a folder that is not read", Place(name, 1), hint=hint)
    elif name.endswith(MAPPING) or (folder / f"{name}{MAPPING}").exists():
        return  # a table that is brought in
    elif looks_like_records(name) and not name.lower().endswith(".md"):
        original = copied_from(name, (HANGAR,))
        hint = copy_hint(original) if original else top_hint(name)
        problems.warn(f"{quoted(name)} is a file that is not read", Place(name, 1), hint=hint)


def _trouble(error: OSError) -> str:
    known = _TROUBLES.get(error.errno or 0)
    return known or (error.strerror or "unknown error").lower()
