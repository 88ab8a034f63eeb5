"""The files of a hangar folder, all read once; whatever cannot be read is told in one sentence."""

import errno
import os
import stat
from collections.abc import Iterator
from difflib import SequenceMatcher
from pathlib import Path

import msgspec

from buildbook.basis.nearest import did_you_mean, nearest
from buildbook.basis.notation import said
from buildbook.basis.place import Place
from buildbook.basis.problems import Problems
from buildbook.basis.sizes import most
from buildbook.records.values import is_slug
from buildbook.records.yaml_nodes import MOST_BYTES

HANGAR = "hangar.yaml"
_IN_AIRCRAFT = ("aircraft.yaml", "logbook.yaml", "write-up.md")
_FOLDERS = ("aircraft", "bench", "notices", "parts", "programmes", "stores")
_SLIP = 0.8  # how alike a folder must be to a known one; site/ and photos/ are not
_MOST_FILES = most("folder")
_TROUBLES = {
    errno.ELOOP: "a link that leads back to itself",
    errno.EACCES: "no right to read it",
    errno.EPERM: "no right to read it",
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
        """The files directly in a folder, in name order."""
        start = folder + "/"
        return tuple(
            sorted(
                path
                for path in self.content
                if path.startswith(start) and "/" not in path[len(start) :]
            )
        )


def about(path: str) -> str | None:
    """The slug of the aircraft that a file belongs to, or None."""
    parts = path.split("/")
    return parts[1] if len(parts) > 2 and parts[0] == "aircraft" else None


def gather(folder: Path, problems: Problems) -> Files | None:
    """All records of a hangar as bytes; None where there is no hangar at all."""
    if not _is_hangar(folder, problems):
        return None
    found = Files()
    _take(folder, HANGAR, found, problems)
    for name in _names(folder, "parts", problems, wanted=("specs.yaml", "items.yaml")):
        _take(folder, f"parts/{name}", found, problems)
    for part in ("parts/specs", "parts/items", "programmes", "notices", "stores"):
        _take_all(folder, part, ".yaml", found, problems)
    _take_all(folder, "bench", ".csv", found, problems)
    slugs = []
    for slug in _names(folder, "aircraft", problems, folders=True):
        if is_slug(slug):
            slugs.append(slug)
            _take_aircraft(folder, slug, found, problems)
        else:
            problems.add(
                f"{said(slug)} is no name for a folder of an aircraft",
                Place(f"aircraft/{slug}", 1),
                hint="use a-z, 0-9 and hyphens",
            )
    found.slugs = tuple(slugs)
    return found


def _take_aircraft(folder: Path, slug: str, found: Files, problems: Problems) -> None:
    home = f"aircraft/{slug}"
    for name in _names(folder, home, problems, wanted=_IN_AIRCRAFT):
        _take(folder, f"{home}/{name}", found, problems)
    _take_all(folder, f"{home}/logbook", ".yaml", found, problems)
    photos = tuple(_names(folder, f"{home}/photos", problems))
    if photos:
        found.photos[slug] = photos


def _is_hangar(folder: Path, problems: Problems) -> bool:
    top = Place(HANGAR, 1)
    hint = "a hangar is a folder with a hangar.yaml"
    try:
        names = os.listdir(folder)
    except OSError as error:
        problems.add(
            f"cannot read the folder {said(str(folder))}: {_trouble(error)}", top, hint=hint
        )
        return False
    except ValueError:
        problems.add(f"{said(str(folder))} is no path", top, hint=hint)
        return False
    if HANGAR in names:
        for name in sorted(names):
            _odd_folder(folder, name, problems)
        return True
    what = "is empty" if not names else "has no hangar.yaml"
    close = nearest(HANGAR, names)
    near = f"rename '{close}' to {HANGAR}" if close else None
    problems.add(f"the folder {said(str(folder))} {what}", top, hint=near or hint)
    return False


def _odd_folder(folder: Path, name: str, problems: Problems) -> None:
    """A folder whose name is a slip of one that is read: a whole log may be missing."""
    if name in _FOLDERS or name.startswith(".") or not name.isprintable():
        return
    close = nearest(name, _FOLDERS)
    if close is None or SequenceMatcher(None, name, close, autojunk=False).ratio() < _SLIP:
        return
    if (folder / name).is_dir():
        hint = f"did you mean '{close}'?"
        problems.warn(f"{said(name)} is a folder that is not read", Place(name, 1), hint=hint)


def _names(
    folder: Path,
    inside: str,
    problems: Problems,
    *,
    wanted: tuple[str, ...] = (),
    folders: bool = False,
) -> Iterator[str]:
    """The visible names in a folder, in order; nothing where there is no such folder.

    wanted: only these, with a warning for a YAML file that is not among them.
    """
    try:
        with os.scandir(folder / inside) as entries:
            names = sorted(
                entry.name
                for entry in entries
                if not entry.name.startswith(".") and (not folders or entry.is_dir())
            )
    except OSError as error:
        if isinstance(error, FileNotFoundError) and not (folder / inside).is_symlink():
            return
        problems.add(
            f"cannot read the folder: {_trouble(error)}",
            Place(inside, 1),
            about=about(f"{inside}/"),
        )
        return
    for name in names[:_MOST_FILES]:
        try:
            name.encode()
        except UnicodeEncodeError:
            problems.add("a file name is not UTF-8 text", Place(inside, 1))
            continue
        if not wanted or name in wanted:
            yield name
        elif name.endswith((".yaml", ".yml")):
            _unread(f"{inside}/{name}", wanted, problems)


def _unread(path: str, wanted: tuple[str, ...], problems: Problems) -> None:
    name = path.rpartition("/")[2]
    problems.warn(
        f"{said(name)} is a file that is not read",
        Place(path, 1),
        hint=did_you_mean(name, wanted) or f"read here: {', '.join(wanted)}",
        about=about(path),
    )


def _take_all(folder: Path, inside: str, suffix: str, found: Files, problems: Problems) -> None:
    for name in _names(folder, inside, problems):
        if name.endswith(suffix):
            _take(folder, f"{inside}/{name}", found, problems)
        elif name.endswith((".yml", ".yaml", ".csv")):
            path = f"{inside}/{name}"
            problems.warn(
                f"{said(name)} is a file that is not read",
                Place(path, 1),
                hint=f"the name should end in {suffix}",
                about=about(path),
            )


def _take(folder: Path, path: str, found: Files, problems: Problems) -> None:
    try:
        mode = os.stat(folder / path)
        if not stat.S_ISREG(mode.st_mode):
            fault = "it is a folder, not a file" if stat.S_ISDIR(mode.st_mode) else "no plain file"
            problems.add(f"cannot read the file: {fault}", Place(path, 1), about=about(path))
            return
        with open(folder / path, "rb") as file:
            found.content[path] = file.read(MOST_BYTES + 1)
    except OSError as error:
        fault = _trouble(error)
        problems.add(f"cannot read the file: {fault}", Place(path, 1), about=about(path))


def _trouble(error: OSError) -> str:
    known = _TROUBLES.get(error.errno or 0)
    return known or (error.strerror or "unknown trouble").lower()
