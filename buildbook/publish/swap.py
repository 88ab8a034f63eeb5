"""A folder is written beside the old one and swapped in whole; a failure leaves the old one."""

import os
import shutil
import tempfile
from collections.abc import Iterator
from contextlib import contextmanager
from pathlib import Path

MARK = ".buildbook-site"
"""A file that tells a folder of ours, which may be replaced, from somebody else's."""


class CannotWrite(Exception):
    """The site can't be written there; the text is one sentence for the terminal."""


@contextmanager
def fresh_folder(target: Path) -> Iterator[Path]:
    """Give an empty folder that becomes ``target`` when the block ends well.

    Hidden files at the top of the old folder (``.git``, ``.nojekyll``) are carried over, nothing
    else is. CannotWrite: the target holds something that isn't a site of ours, or the disk says no.
    """
    target = Path(os.path.abspath(target))
    _refuse_foreign(target)
    try:
        target.parent.mkdir(parents=True, exist_ok=True)
        beside = Path(tempfile.mkdtemp(prefix=f".{target.name}-", dir=target.parent))
    except OSError as error:
        raise CannotWrite(_told(error, target)) from error
    try:
        yield beside
        (beside / MARK).write_text("This folder is replaced whole by each render.\n", "utf-8")
        beside.chmod(0o755)
        _swap(beside, target)
    except OSError as error:
        raise CannotWrite(_told(error, target)) from error
    finally:
        shutil.rmtree(beside, ignore_errors=True)


def _refuse_foreign(target: Path) -> None:
    if target.is_symlink() and not target.exists():
        raise CannotWrite(f"{target} is a link that leads nowhere")
    if not target.exists():
        return
    if not target.is_dir():
        raise CannotWrite(f"{target} is a file, not a folder")
    try:
        visible = [entry.name for entry in os.scandir(target) if not entry.name.startswith(".")]
    except OSError as error:
        raise CannotWrite(_told(error, target)) from error
    if (target / "hangar.yaml").exists():
        raise CannotWrite(f"{target} holds records; name another folder for the site")
    if visible and not (target / MARK).exists():
        raise CannotWrite(
            f"{target} holds files that are not a site of ours; name an empty or a new folder"
        )


def _swap(beside: Path, target: Path) -> None:
    if not target.exists():
        beside.rename(target)
        return
    for entry in sorted(os.scandir(target), key=lambda found: found.name):
        if entry.name.startswith(".") and entry.name != MARK:
            if entry.is_dir(follow_symlinks=False):
                shutil.copytree(entry.path, beside / entry.name, symlinks=True)
            else:
                shutil.copy2(entry.path, beside / entry.name, follow_symlinks=False)
    old = Path(tempfile.mkdtemp(prefix=f".{target.name}-old-", dir=target.parent))
    old.rmdir()
    target.rename(old)
    try:
        beside.rename(target)
    except OSError:
        old.rename(target)
        raise
    shutil.rmtree(old, ignore_errors=True)


def _told(error: OSError, target: Path) -> str:
    reason = (error.strerror or str(error)).lower()
    return f"could not write the site to {target}: {reason}"
