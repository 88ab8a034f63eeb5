"""Swapping a folder in: whole or not at all."""

from pathlib import Path

import pytest

from buildbook.publish.swap import CannotWrite, fresh_folder


def write_site(target: Path, text: str) -> None:
    """A site of one page."""
    with fresh_folder(target) as folder:
        (folder / "index.html").write_text(text, "utf-8")


def write_half(target: Path) -> None:
    """A site that its maker gives up on."""
    with fresh_folder(target) as folder:
        (folder / "index.html").write_text("half", "utf-8")
        raise RuntimeError("out of ideas")


def names(folder: Path) -> list[str]:
    """What is in a folder, sorted."""
    return sorted(path.name for path in folder.iterdir())


def test_a_new_folder_is_made(tmp_path: Path) -> None:
    """The parents are made too, and nothing else stays beside it."""
    write_site(tmp_path / "a" / "site", "one")

    assert names(tmp_path / "a") == ["site"]
    assert names(tmp_path / "a" / "site") == [".buildbook-site", "index.html"]


def test_the_old_site_goes_whole(tmp_path: Path) -> None:
    """No file of the old site is left in the new one."""
    target = tmp_path / "site"
    write_site(target, "one")
    (target / "old.html").write_text("old", "utf-8")

    write_site(target, "two")

    assert names(target) == [".buildbook-site", "index.html"]
    assert (target / "index.html").read_text("utf-8") == "two"
    assert names(tmp_path) == ["site"]


def test_hidden_files_of_the_keeper_stay(tmp_path: Path) -> None:
    """A repository that publishes the folder survives a render."""
    target = tmp_path / "site"
    write_site(target, "one")
    (target / ".git").mkdir()
    (target / ".git" / "HEAD").write_text("ref", "utf-8")
    (target / ".nojekyll").write_text("", "utf-8")

    write_site(target, "two")

    assert names(target) == [".buildbook-site", ".git", ".nojekyll", "index.html"]
    assert (target / ".git" / "HEAD").read_text("utf-8") == "ref"


def test_a_failure_leaves_the_old_site(tmp_path: Path) -> None:
    """An error while writing changes nothing that was there."""
    target = tmp_path / "site"
    write_site(target, "one")

    with pytest.raises(RuntimeError, match=r"^out of ideas$"):
        write_half(target)

    assert (target / "index.html").read_text("utf-8") == "one"
    assert names(tmp_path) == ["site"]


def test_a_full_disk_is_one_sentence(tmp_path: Path) -> None:
    """The system's own word for it is passed on."""
    target = tmp_path / "site"

    with pytest.raises(CannotWrite) as told, fresh_folder(target):
        raise OSError(28, "No space left on device")

    assert str(told.value) == f"could not write the site to {target}: no space left on device"
    assert names(tmp_path) == []


def test_a_folder_of_somebody_else_is_left_alone(tmp_path: Path) -> None:
    """Files that no render wrote are never replaced."""
    target = tmp_path / "pictures"
    target.mkdir()
    (target / "cat.jpg").write_text("cat", "utf-8")

    with pytest.raises(CannotWrite) as told:
        write_site(target, "one")

    assert str(told.value) == (
        f"{target} holds files that are not a site of ours; name an empty or a new folder"
    )
    assert names(target) == ["cat.jpg"]


def test_records_are_never_replaced(tmp_path: Path) -> None:
    """A hangar folder is no place for a site."""
    target = tmp_path / "hangar"
    target.mkdir()
    (target / "hangar.yaml").write_text("format: 1\n", "utf-8")

    with pytest.raises(CannotWrite) as told:
        write_site(target, "one")

    assert str(told.value) == f"{target} holds records; name another folder for the site"


def test_a_file_in_the_way_is_named(tmp_path: Path) -> None:
    """A site is a folder."""
    target = tmp_path / "site"
    target.write_text("words", "utf-8")

    with pytest.raises(CannotWrite) as told:
        write_site(target, "one")

    assert str(told.value) == f"{target} is a file, not a folder"
