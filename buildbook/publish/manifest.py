"""What a render wrote into a site: names, digests, audience. Kept in the site as a hidden file."""

import errno
import hashlib
import os
import stat
from collections.abc import Iterator
from functools import cached_property
from pathlib import Path, PurePosixPath
from typing import Literal

import msgspec

from buildbook.basis.naming import alike
from buildbook.publish.where import CannotWrite
from buildbook.report.reports import Audience

NAME = ".buildbook-site"
FORMAT = 1
State = Literal["missing", "as written", "changed"]

_FORMER_MARK = b"This folder is replaced whole by each render.\n"
_MOST_BYTES = 256 * 1024 * 1024
_OPEN = os.O_RDONLY | getattr(os, "O_NONBLOCK", 0) | getattr(os, "O_NOFOLLOW", 0)
_BINARY = getattr(os, "O_BINARY", 0)

UNKNOWN = ""
"""Instead of a digest: a file that a render without a manifest may have written."""


class Manifest(msgspec.Struct, frozen=True, kw_only=True, dict=True):
    """files: hexadecimal SHA-256 by address from the top of the site, with slashes.

    former: the site was written before there were manifests, so that what belongs to it is
    guessed: each file that has the address of a page is one.
    """

    audience: Audience
    files: dict[str, str]
    former: bool = False

    @cached_property
    def spellings(self) -> dict[str, list[str]]:
        """The addresses by what a file system takes for one that doesn't tell capitals apart."""
        found: dict[str, list[str]] = {}
        for name in self.files:
            found.setdefault(alike(name), []).append(name)
        return found

    def encoded(self) -> bytes:
        """The bytes of the hidden file, one line a file."""
        shape = {
            "format": FORMAT,
            "audience": self.audience,
            "files": dict(sorted(self.files.items())),
        }
        return msgspec.json.format(msgspec.json.encode(shape), indent=1) + b"\n"


class _Written(msgspec.Struct):
    format: int
    audience: Audience
    files: dict[str, str]


def read_manifest(folder: Path, called: str) -> Manifest | None:
    """The manifest in a folder; None where there is none.

    called: how the user names the folder. CannotWrite: it is damaged or of a later format.
    """
    path = folder / NAME
    try:
        if not stat.S_ISREG(path.lstat().st_mode):
            raise CannotWrite(
                f"{called}: {NAME} was not written by this program; name another folder"
            )
        with path.open("rb") as file:
            data = file.read(_MOST_BYTES)
    except (FileNotFoundError, NotADirectoryError):
        return None
    if data == _FORMER_MARK:
        return _former(folder)
    damaged = f"{called}: the list of its files, {NAME}, is damaged; name another folder"
    try:
        later = msgspec.json.decode(data, type=dict[str, msgspec.Raw]).get("format")
        if later is not None and msgspec.json.decode(later, type=int) > FORMAT:
            raise CannotWrite(f"{called} was written by a later version of this program")
        written = msgspec.json.decode(data, type=_Written)
    except (msgspec.MsgspecError, UnicodeDecodeError, RecursionError) as error:
        raise CannotWrite(damaged) from error
    if not all(map(_is_address, written.files)):
        raise CannotWrite(damaged)
    return Manifest(audience=written.audience, files=written.files)


def _is_address(name: str) -> bool:
    """Whether a name stays in the site."""
    if os.name == "nt" and any(sign in name for sign in "\\:"):
        return False
    return "\0" not in name and all(part not in ("", ".", "..") for part in name.split("/"))


def _former(folder: Path) -> Manifest:
    """A site without a manifest. Only an owner's one has a work list."""
    files = {
        path.relative_to(folder).as_posix(): UNKNOWN
        for path in files_below(folder)
        if not path.relative_to(folder).parts[0].startswith(".") and path.name != "CNAME"
    }
    is_owner = (folder / "due.html").is_file()
    return Manifest(audience="owner" if is_owner else "public", files=files, former=True)


def files_below(folder: Path) -> Iterator[Path]:
    """Each file below a folder, in the order of names; links are not followed."""
    for entry in sorted(os.scandir(folder), key=lambda found: found.name):
        if entry.is_dir(follow_symlinks=False):
            yield from files_below(Path(entry.path))
        else:
            yield Path(entry.path)


def digest_of(path: Path) -> str | None:
    """SHA-256 of a regular file; None where it is something else, a link too."""
    try:
        handle = os.open(path, _OPEN | _BINARY)
    except OSError as error:
        # A link, a socket or a device without a driver: nothing that a render wrote.
        if error.errno in (errno.ELOOP, errno.ENXIO, errno.ENODEV):
            return None
        raise
    with os.fdopen(handle, "rb") as file:
        if not stat.S_ISREG(os.fstat(handle).st_mode):
            return None
        return hashlib.file_digest(file, "sha256").hexdigest()


_OF_NOTHING = hashlib.sha256().hexdigest()


def is_emptied(path: Path, digest: str) -> bool:
    """Whether of a file that was written nothing is left, as a power cut leaves it."""
    return digest != _OF_NOTHING and path.lstat().st_size == 0


def state_of(folder: Path, address: str, digests: set[str], written: str | None = None) -> State:
    """Whether a file is there, and as one of the digests says.

    written: the digest of what a render wrote there; emptied since, it is as good as written.
    """
    if not has_real_parents(folder, address):
        return "missing"
    path = folder / address
    try:
        facts = path.lstat()
    except (FileNotFoundError, NotADirectoryError):
        return "missing"
    if not stat.S_ISREG(facts.st_mode):
        return "changed"
    if written is not None and is_emptied(path, written):
        return "as written"
    return "as written" if digest_of(path) in digests else "changed"


def has_real_parents(folder: Path, address: str) -> bool:
    """Whether all folders on the way to an address are folders and no links."""
    for parent in [*PurePosixPath(address).parents][:-1]:
        try:
            if not stat.S_ISDIR((folder / parent).lstat().st_mode):
                return False
        except (FileNotFoundError, NotADirectoryError):
            return False
    return True
