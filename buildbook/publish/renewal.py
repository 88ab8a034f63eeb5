"""A site is renewed in place, file by file, after the whole new one has been written.

The new site is written to a hidden folder inside the site's own folder. When it is whole, that
folder gets its second name: from then on the renewal is under way, and whoever comes next brings
it to its end. Each file then moves into place by one rename, pages that are no longer made go, the
manifest comes last. So a kill leaves the old site and a hidden folder, which the next render
clears, or a renewal under way, which the next render finishes: old or new, whole.

Why not swap two folders: the site's folder would become another one. Its rights, the shell that
stands in it, a link or a mount that leads to it, hard links and all that the keeper put there
would have to be carried across, and a kill between two renames would leave no site at all. In
place nothing of the keeper's is touched or moved: only what the manifest lists, and only where it
is as it was written. A page that comes out the same keeps its file.

What is not held: a reader during the renewal, some milliseconds, sees pages of both. Where the
power fails the disk may lose what it had not written yet, and a page may be there with nothing in
it. Pages are not waited for: asking the disk for each takes as long as half a render, and one
render more makes them again from the records, which are. So what a power cut leaves is mended by
that render: the manifest is on the disk before its name is, and a page that is empty and was not
written so is neither put in the place of a whole one nor taken for the keeper's own change.
"""

import os
import shutil
import stat
import time
from collections.abc import Iterator
from contextlib import contextmanager, suppress
from pathlib import Path, PurePosixPath

from buildbook.basis.naming import alike
from buildbook.publish.held_back import signals_held_back
from buildbook.publish.manifest import (
    NAME,
    Manifest,
    State,
    digest_of,
    files_below,
    has_real_parents,
    is_emptied,
    read_manifest,
    state_of,
)
from buildbook.publish.where import CannotWrite, why
from buildbook.report.reports import Audience

try:
    import fcntl
except ImportError:  # a system without it: two renders at once are not kept apart there
    fcntl = None  # type: ignore[assignment]

_STAGING, _READY = ".buildbook-new", ".buildbook-ready"
_TRIES, _PAUSE_S = 100, 0.05
_FIRST_NAMED = 3


class Renewal:
    """A renewal while it is made. folder: write the new site here.

    kept: afterwards, the addresses of files that were changed by hand and therefore stayed.
    """

    def __init__(self, folder: Path) -> None:
        self.folder = folder
        self.kept: tuple[str, ...] = ()


def audience_for(folder: Path, called: str, asked: Audience | None, replace: bool) -> Audience:
    """The audience to write for: as asked, else as the site has it, if that is its owner.

    replace: whether a site of the other audience may be replaced. CannotWrite: it may not.
    """
    manifest = read_manifest(folder, called)
    if manifest is None:
        return asked or "owner"
    is_public = manifest.audience == "public"
    if asked is None and is_public:
        raise CannotWrite(
            f"{called} is a public site; say --for public to renew it, "
            "or --for owner --replace-audience"
        )
    if asked is not None and asked != manifest.audience and not replace:
        whose = "a public" if is_public else "an owner's"
        raise CannotWrite(
            f"{called} is {whose} site; name another folder, or say --replace-audience"
        )
    return asked or "owner"


def repair(folder: Path, called: str) -> None:
    """Finish a renewal that was cut off, and clear what a killed render left."""
    try:
        if any((folder / name).is_dir() for name in (_STAGING, _READY)):
            with _locked(folder, called):
                _finish(folder, called)
                _clear(folder / _STAGING)
    except OSError as error:
        raise CannotWrite(f"could not repair the site in {called}: {why(error)}") from error


@contextmanager
def renewed(
    folder: Path, called: str, audience: Audience, *, replace_audience: bool = False
) -> Iterator[Renewal]:
    """Give an empty folder, and renew the site from it when the block ends well.

    folder: with links followed; a new one is made, an owner's readable by its owner alone.
    called: how the user names it. CannotWrite: the folder holds what no render wrote, a page was
    changed by hand and the site is public, or the disk says no; then the site is as it was.
    """
    made: list[Path] = []
    try:
        _make(folder, 0o700 if audience == "owner" else 0o777, made)
        with _locked(folder, called):
            _finish(folder, called)
            _refuse_foreign(folder, called)
            audience_for(folder, called, audience, replace_audience)
            staging = folder / _STAGING
            try:
                _clear(staging)
                staging.mkdir(mode=0o700)
                renewal = Renewal(staging)
                yield renewal
                renewal.kept = _renew(folder, called, audience)
            finally:
                _clear(staging)
    except OSError as error:
        raise CannotWrite(f"could not write the site to {called}: {why(error)}") from error
    finally:
        for path in reversed(made):
            with suppress(OSError):  # it holds a site now
                path.rmdir()


def _make(folder: Path, mode: int, made: list[Path]) -> None:
    missing = [path for path in (folder, *folder.parents) if not path.exists()]
    for path in reversed(missing):
        with suppress(FileExistsError):
            path.mkdir(mode=mode if path == folder else 0o777)
            made.append(path)


def _clear(folder: Path) -> None:
    shutil.rmtree(folder, ignore_errors=True)


@contextmanager
def _locked(folder: Path, called: str) -> Iterator[None]:
    """Keep other renders out, until this process and all that it forked have ended."""
    if fcntl is None:
        yield
        return
    handle = os.open(folder, os.O_RDONLY)
    try:
        for _ in range(_TRIES):
            try:
                fcntl.flock(handle, fcntl.LOCK_EX | fcntl.LOCK_NB)
                break
            except BlockingIOError:
                time.sleep(_PAUSE_S)
            except OSError:  # a file system without locks
                break
        else:
            raise CannotWrite(f"another render is writing {called}; wait until it has ended")
        yield
    finally:
        os.close(handle)


def _refuse_foreign(folder: Path, called: str) -> None:
    """A folder that is new to us may hold what publishing needs, and nothing else."""
    if read_manifest(folder, called) is not None:
        return
    names = {entry.name for entry in os.scandir(folder)}
    if os.path.ismount(folder):
        if names - {"lost+found"}:
            raise CannotWrite(f"{called} is a mount point that holds files; name a folder in it")
    elif any(name != "CNAME" and not name.startswith(".") for name in names):
        raise CannotWrite(
            f"{called} holds files that are not a site of ours; name an empty or a new folder"
        )


def _renew(folder: Path, called: str, audience: Audience) -> tuple[str, ...]:
    """Put the new site in place of the old; gives what was changed by hand and stayed."""
    staging = folder / _STAGING
    old = read_manifest(folder, called) or Manifest(audience=audience, files={})
    fresh: dict[str, str] = {}
    for path in files_below(staging):
        fresh[path.relative_to(staging).as_posix()] = digest_of(path) or ""
    folders = {
        parent.as_posix() for address in fresh for parent in PurePosixPath(address).parents
    } - {"."}
    _refuse_obstacles(folder, called, [".", *sorted(folders)])
    changed = tuple(
        address
        for address in sorted(old.files.keys() | fresh.keys())
        if _state(folder, address, old, fresh) == "changed"
    )
    if changed and audience == "public":
        raise CannotWrite(_told_changed(called, changed))
    # A changed page that is no longer made stays ours, so that a public render stumbles over it.
    left = {address: old.files[address] for address in changed if address not in fresh}
    manifest = Manifest(audience=audience, files={**fresh, **left})
    _write_manifest(staging, manifest)
    with signals_held_back():
        staging.rename(folder / _READY)
        try:
            _finish(folder, called)
        except OSError as error:
            raise CannotWrite(
                f"could not finish the site in {called}: {why(error)}; the next render finishes it"
            ) from error
    return changed


def _told_changed(called: str, changed: tuple[str, ...]) -> str:
    named = ", ".join(changed[:_FIRST_NAMED])
    more = f" and {len(changed) - _FIRST_NAMED} more" if len(changed) > _FIRST_NAMED else ""
    return (
        f"{called} holds files that no render wrote or that were changed since: {named}{more}; "
        "move them elsewhere and render again"
    )


def _refuse_obstacles(folder: Path, called: str, names: list[str]) -> None:
    """All folders that are written to must be real ones, on the same disk, and writable."""
    disk = folder.stat().st_dev
    for name in names:
        path = folder / name
        try:
            facts = path.lstat()
        except FileNotFoundError:
            continue
        where = called if name == "." else f"{called}{os.sep}{name}"
        if not stat.S_ISDIR(facts.st_mode):
            raise CannotWrite(f"{where} is not a folder of the site; move it elsewhere")
        if facts.st_dev != disk:
            raise CannotWrite(f"{where} is on another disk than the site; unmount it")
        if not os.access(path, os.W_OK | os.X_OK):
            raise CannotWrite(f"could not write the site to {called}: {where} is not writable")


def _state(folder: Path, address: str, old: Manifest, fresh: dict[str, str]) -> State:
    """The state of a file against what was written and what is to be written there."""
    if old.former and address in fresh and old.files.get(address) is not None:
        is_file = stat.S_ISREG((folder / address).lstat().st_mode)
        return "as written" if is_file else "changed"
    digests = {old.files.get(address, ""), fresh.get(address, "")}
    if address not in old.files:  # on some disks a page whose name changed its capitals is there
        digests |= {old.files[name] for name in old.spellings.get(alike(address), ())}
    return state_of(folder, address, digests - {""}, old.files.get(address))


def _finish(folder: Path, called: str) -> None:
    """Bring a renewal under way to its end; each step may be done again after a kill."""
    ready = folder / _READY
    if not ready.is_dir():
        return
    new = read_manifest(ready, called)
    if new is not None:
        old = read_manifest(folder, called) or Manifest(audience=new.audience, files={})
        lost: list[str] = []
        for address, digest in sorted(new.files.items()):
            if has_real_parents(ready, address) and (ready / address).is_file():
                if is_emptied(ready / address, digest):
                    lost.append(address)
                    continue
                _put(ready, folder, address, digest, _state(folder, address, old, new.files))
        for address in sorted(old.files.keys() - new.files.keys()):
            digest = old.files[address]
            if state_of(folder, address, {digest}, digest) == "as written":
                _remove(folder, address, new)
        if lost:  # what stands in their places is still what was written before
            stands = {**new.files, **{name: old.files.get(name, "") for name in lost}}
            files = {name: digest for name, digest in stands.items() if digest}
            _write_manifest(ready, Manifest(audience=new.audience, files=files))
        (ready / NAME).replace(folder / NAME)
    shutil.rmtree(ready)


def _write_manifest(folder: Path, manifest: Manifest) -> None:
    """Write it whole to the disk: without it nobody knows what a render wrote."""
    with (folder / NAME).open("wb") as file:
        file.write(manifest.encoded())
        file.flush()
        os.fsync(file.fileno())


def _put(ready: Path, folder: Path, address: str, digest: str, state: State) -> None:
    """Move one file into place, unless something of the keeper's or the same is there."""
    path = folder / address
    if state == "changed" or (state == "as written" and digest_of(path) == digest):
        return
    path.parent.mkdir(parents=True, exist_ok=True)
    if state == "as written":
        (ready / address).chmod(stat.S_IMODE(path.stat().st_mode) & 0o777)
    (ready / address).replace(path)


def _remove(folder: Path, address: str, new: Manifest) -> None:
    """Remove a page that is no longer made, and its folders where they are empty now."""
    path = folder / address
    for name in new.spellings.get(alike(address), ()):
        if (folder / name).exists() and path.samefile(folder / name):
            return  # a disk that doesn't tell capitals apart: it is the new page
    path.unlink()
    with suppress(OSError):  # something else is still in it
        for parent in [*PurePosixPath(address).parents][:-1]:
            (folder / parent).rmdir()
