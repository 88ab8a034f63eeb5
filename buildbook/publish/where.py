"""Where a site may stand: never over records, a home or a root, whatever the path is written like.

Folders are compared by device and number, not by their names, so that links, capital letters
and folders mounted twice make no difference.
"""

import errno
import os
from collections.abc import Iterator
from pathlib import Path

_PARENTS_OF_HOMES = ("home", "Users")


class CannotWrite(Exception):
    """The site can't be written there; the text is one sentence for the terminal."""


def why(error: OSError | ValueError) -> str:
    """What the system says of an error, in lower case and without the path."""
    return ((error.strerror if isinstance(error, OSError) else None) or str(error)).lower()


def site_folder(target: str, hangar: Path) -> Path:
    """The folder that ``target`` stands for, links followed; it need not be there yet.

    CannotWrite: the name can't be used, it is no folder, or it is a root or a home folder, or
    contains, is, or lies in the hangar.
    """
    if not target:
        raise CannotWrite("the name of the site's folder is empty; name one")
    try:
        folder = Path(os.path.realpath(target))
        if _is_link_to_nowhere(Path(target)):
            raise CannotWrite(f"{target} is a link that leads nowhere")
        if _facts(folder) is not None and not folder.is_dir():
            raise CannotWrite(f"{target} is a file, not a folder")
        _refuse_place(target, folder, Path(os.path.realpath(hangar)))
    except (OSError, ValueError) as error:
        raise CannotWrite(f"could not write the site to {target}: {why(error)}") from error
    return folder


def _refuse_place(target: str, folder: Path, hangar: Path) -> None:
    another = "name a folder outside it for the site, with --into"
    if folder.parent == folder:
        raise CannotWrite(f"{target} is the root of a disk; name a folder for the site")
    if _same(folder, hangar):
        raise CannotWrite(f"{target} is the hangar; {another}")
    if _contains(hangar, folder):
        raise CannotWrite(f"{target} lies in the hangar; {another}")
    if _contains(folder, hangar):
        raise CannotWrite(f"{target} contains the hangar; {another}")
    if _facts(folder / "hangar.yaml") is not None:
        raise CannotWrite(f"{target} holds records; name another folder for the site")
    for home in _homes(folder):
        if _same(folder, home):
            raise CannotWrite(f"{target} is a home folder; name a folder in it for the site")
        if _contains(folder, home):
            raise CannotWrite(f"{target} contains a home folder; name another for the site")


def _is_link_to_nowhere(path: Path) -> bool:
    try:
        return path.is_symlink() and _facts(path) is None
    except OSError as error:
        if error.errno == errno.ELOOP:
            return True
        raise


def _homes(folder: Path) -> Iterator[Path]:
    """The home folders that are known: the caller's, and the folder where it lies beside others."""
    try:
        home = Path(os.path.realpath(Path.home()))
    except RuntimeError:
        home = None
    if home is not None and home.parent != home:
        yield home
    top = Path(folder.anchor)
    if folder.parent in [top / name for name in _PARENTS_OF_HOMES] and _facts(folder) is not None:
        yield folder


def _facts(path: Path) -> os.stat_result | None:
    """What the system says of a path; None where there is nothing."""
    try:
        return path.stat()
    except (FileNotFoundError, NotADirectoryError):
        return None


def _same(one: Path, other: Path) -> bool:
    first, second = _facts(one), _facts(other)
    return first is not None and second is not None and os.path.samestat(first, second)


def _contains(outer: Path, inner: Path) -> bool:
    """Whether ``inner``, there or not, lies below ``outer``."""
    return any(_same(outer, parent) for parent in inner.parents)
