"""Renewing a site in place: nothing of the keeper's is lost, and a failure leaves the old site."""

import hashlib
import json
import os
import stat
from collections.abc import Mapping
from pathlib import Path

import pytest

from buildbook.publish.renewal import audience_for, renewed, repair
from buildbook.publish.where import CannotWrite

PAGES = {"index.html": "one", "aircraft/reed/index.html": "reed", "style.css": "ink"}
FORMER_MARK = "This folder is replaced whole by each render.\n"


def write(target: Path, pages: Mapping[str, str], audience="owner", **more) -> tuple[str, ...]:
    """A site of these pages; gives what was kept."""
    with renewed(target, str(target), audience, **more) as renewal:
        for name, text in pages.items():
            path = renewal.folder / name
            path.parent.mkdir(parents=True, exist_ok=True)
            path.write_text(text, "utf-8")
    return renewal.kept


def refusal(target: Path, pages: Mapping[str, str] = PAGES, audience="owner", **more) -> str:
    """Why a site is not written, after making sure that nothing changed."""
    before = everything(target)
    with pytest.raises(CannotWrite) as told:
        write(target, pages, audience, **more)
    assert before == everything(target)
    return str(told.value)


def everything(folder: Path) -> dict[str, str | None]:
    """Each path below a folder with its text; None for what is no regular file."""
    return {
        path.relative_to(folder).as_posix(): path.read_text("utf-8")
        if path.is_file() and not path.is_symlink()
        else None
        for path in folder.rglob("*")
    }


def files(folder: Path) -> dict[str, str | None]:
    """Each file but the manifest."""
    return {
        name: text
        for name, text in everything(folder).items()
        if text is not None and name != ".buildbook-site"
    }


@pytest.fixture
def site(tmp_path: Path) -> Path:
    """An owner's site of three pages."""
    target = tmp_path / "site"
    write(target, PAGES)
    return target


def test_a_new_folder_is_made(tmp_path: Path) -> None:
    """The parents are made too, and nothing else stays beside it or in it."""
    write(tmp_path / "a" / "site", PAGES)

    assert ["site"] == [path.name for path in (tmp_path / "a").iterdir()]
    assert {".buildbook-site", "index.html", "style.css", "aircraft"} == {
        path.name for path in (tmp_path / "a" / "site").iterdir()
    }


def test_the_manifest_lists_what_was_written(site: Path, tmp_path: Path) -> None:
    """Format, audience, SHA-256 of each file; the same site has the same manifest."""
    write(tmp_path / "other", PAGES)
    manifest = (site / ".buildbook-site").read_bytes()

    assert {
        "format": 1,
        "audience": "owner",
        "files": {name: hashlib.sha256(PAGES[name].encode()).hexdigest() for name in sorted(PAGES)},
    } == json.loads(manifest)
    assert manifest == (tmp_path / "other" / ".buildbook-site").read_bytes()


def test_pages_that_are_no_longer_made_go(site: Path) -> None:
    """With their folder, where nothing else is in it."""
    write(site, {"index.html": "two"})

    assert {"index.html": "two"} == files(site)
    assert not (site / "aircraft").exists()


@pytest.mark.parametrize("audience", ["owner", "public"])
def test_a_page_that_a_power_cut_emptied_is_made_again(tmp_path: Path, audience: str) -> None:
    """It is no change by hand; one that is no longer made goes."""
    site = tmp_path / "site"
    write(site, PAGES, audience)
    for name in PAGES:
        (site / name).write_text("")

    assert () == write(site, {"index.html": "two", "style.css": "ink"}, audience)
    assert {"index.html": "two", "style.css": "ink"} == files(site)


def test_an_empty_file_of_the_keeper_is_not_overwritten(site: Path) -> None:
    """No render wrote it: it stays where a new page would come."""
    (site / "due.html").write_text("")

    assert ("due.html",) == write(site, {**PAGES, "due.html": "due"})
    assert "" == (site / "due.html").read_text()


def test_a_page_that_was_empty_from_the_start_is_known_by_its_digest(site: Path) -> None:
    """Filled by hand it stays; emptied it cannot be told from what was written."""
    write(site, {**PAGES, "none.html": ""})
    (site / "none.html").write_text("mine")

    assert ("none.html",) == write(site, {**PAGES, "none.html": ""})


def test_a_renewal_under_way_puts_no_emptied_page_in_place_of_a_whole_one(site: Path) -> None:
    """After a power cut: the old page stays and stays known, and the next render renews it."""
    other = site.parent / "other"
    write(other, {**PAGES, "index.html": "two", "style.css": "new ink", "due.html": "due"})
    other.rename(site / ".buildbook-ready")
    for name in ("index.html", "due.html"):
        (site / ".buildbook-ready" / name).write_text("")
    repair(site, "site")

    assert {**PAGES, "style.css": "new ink"} == files(site)
    assert () == write(site, {"index.html": "three", "due.html": "due"})
    assert {"index.html": "three", "due.html": "due"} == files(site)


@pytest.mark.skipif(not Path("/proc/self/fd").is_dir(), reason="names of open files by /proc")
def test_the_manifest_is_on_the_disk_before_it_has_its_name(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    """The one file of a site that is waited for; without it the next render has to refuse."""
    kept: list[str] = []
    really = os.fsync

    def keep(handle: int) -> None:
        kept.append(os.readlink(f"/proc/self/fd/{handle}").rpartition("site/")[2])
        really(handle)

    monkeypatch.setattr(os, "fsync", keep)
    write(tmp_path / "site", PAGES)

    assert [".buildbook-new/.buildbook-site"] == kept


def test_what_the_keeper_added_stays(site: Path) -> None:
    """At the top, in a folder of ours, in a folder of its own; hidden or not; links too."""
    added = {
        ".git/HEAD": "ref",
        ".nojekyll": "",
        "CNAME": "hangar.example",
        "robots.txt": "all",
        "aircraft/reed/sketch.txt": "a sketch",
        "records/hangar.yaml": "format: 1",
    }
    for name, text in added.items():
        (site / name).parent.mkdir(parents=True, exist_ok=True)
        (site / name).write_text(text, "utf-8")
    (site / "elsewhere").symlink_to("/nowhere")
    os.mkfifo(site / "aircraft" / "pipe")
    (site / "empty").mkdir()

    kept = write(site, {"index.html": "two"})

    assert kept == ()
    assert {"index.html": "two", **added} == files(site)
    assert (site / "elsewhere").readlink() == Path("/nowhere")
    assert (site / "aircraft" / "pipe").is_fifo()
    assert (site / "empty").is_dir()


def test_a_page_changed_by_hand_is_kept_and_told(site: Path) -> None:
    """In an owner's site, again at each render, until it is away; then it is written anew."""
    (site / "index.html").write_text("mine", "utf-8")

    assert ("index.html",) == write(site, {**PAGES, "index.html": "two"})
    assert ("index.html",) == write(site, {**PAGES, "index.html": "three"})
    assert (site / "index.html").read_text("utf-8") == "mine"
    (site / "index.html").unlink()
    assert () == write(site, {**PAGES, "index.html": "four"})
    assert (site / "index.html").read_text("utf-8") == "four"


def test_a_changed_page_that_is_no_longer_made_stays_known(site: Path) -> None:
    """So that a public render over the site stumbles over it, however much later."""
    (site / "style.css").write_text("my ink", "utf-8")
    fewer = {name: text for name, text in PAGES.items() if name != "style.css"}

    assert ("style.css",) == write(site, fewer)
    assert ("style.css",) == write(site, fewer)
    assert refusal(site, fewer, "public", replace_audience=True) == (
        f"{site} holds files that no render wrote or that were changed since: style.css; "
        "move them elsewhere and render again"
    )


def test_a_file_changed_by_hand_stops_a_public_render(tmp_path: Path) -> None:
    """Changed, added where a page comes to stand, or replaced by a link: one sentence."""
    site = tmp_path / "site"
    write(site, PAGES, "public")
    (site / "index.html").write_text("mine", "utf-8")
    (site / "about.html").write_text("mine too", "utf-8")
    (site / "style.css").unlink()
    (site / "style.css").symlink_to("index.html")

    assert refusal(site, {**PAGES, "about.html": "ours"}, "public") == (
        f"{site} holds files that no render wrote or that were changed since: about.html, "
        "index.html, style.css; move them elsewhere and render again"
    )


def test_a_file_at_the_address_of_a_new_page_is_not_overwritten(site: Path) -> None:
    """The keeper's file stays and is told."""
    (site / "about.html").write_text("mine", "utf-8")

    assert ("about.html",) == write(site, {**PAGES, "about.html": "ours"})
    assert (site / "about.html").read_text("utf-8") == "mine"


def test_nothing_is_written_through_a_link(site: Path, tmp_path: Path) -> None:
    """A folder of ours that became a link to elsewhere, or a file, is told."""
    (tmp_path / "elsewhere" / "reed").mkdir(parents=True)
    (tmp_path / "elsewhere" / "reed" / "index.html").write_text("reed", "utf-8")
    (site / "aircraft" / "reed" / "index.html").unlink()
    (site / "aircraft" / "reed").rmdir()
    (site / "aircraft").rmdir()
    (site / "aircraft").symlink_to(tmp_path / "elsewhere")

    assert refusal(site) == f"{site}/aircraft is not a folder of the site; move it elsewhere"
    write(site, {"index.html": "two"})
    assert (tmp_path / "elsewhere" / "reed" / "index.html").read_text("utf-8") == "reed"


def test_a_hard_link_elsewhere_keeps_its_text(site: Path, tmp_path: Path) -> None:
    """A backup made of links is not written into."""
    os.link(site / "index.html", tmp_path / "backup.html")

    write(site, {**PAGES, "index.html": "two"})

    assert (tmp_path / "backup.html").read_text("utf-8") == "one"


def test_a_page_that_comes_out_the_same_keeps_its_file(site: Path) -> None:
    """No new file, so that copying a site copies what changed."""
    before = (site / "style.css").stat()

    write(site, {**PAGES, "index.html": "two"})

    after = (site / "style.css").stat()
    assert (before.st_ino, before.st_mtime_ns) == (after.st_ino, after.st_mtime_ns)


def test_a_failure_leaves_the_old_site(site: Path) -> None:
    """An error while writing changes nothing that was there."""
    before = everything(site)

    def half() -> None:
        with renewed(site, "site", "owner") as renewal:
            (renewal.folder / "index.html").write_text("half", "utf-8")
            raise RuntimeError("out of ideas")

    with pytest.raises(RuntimeError, match=r"^out of ideas$"):
        half()
    assert before == everything(site)


def test_a_full_disk_is_one_sentence(tmp_path: Path) -> None:
    """The system's own word for it is passed on, and no folder is left."""
    target = tmp_path / "new" / "site"

    with pytest.raises(CannotWrite) as told, renewed(target, "the site", "owner"):
        raise OSError(28, "No space left on device")

    assert str(told.value) == "could not write the site to the site: no space left on device"
    assert [] == list(tmp_path.iterdir())


def test_a_folder_of_somebody_else_is_left_alone(tmp_path: Path) -> None:
    """Files that no render wrote are never replaced."""
    target = tmp_path / "pictures"
    target.mkdir()
    (target / "cat.jpg").write_text("cat", "utf-8")

    assert refusal(target) == (
        f"{target} holds files that are not a site of ours; name an empty or a new folder"
    )


def test_hidden_files_and_a_cname_are_fine_to_begin_with(tmp_path: Path) -> None:
    """A folder that was prepared for publishing."""
    target = tmp_path / "site"
    (target / ".git").mkdir(parents=True)
    (target / ".git/HEAD").write_text("ref", "utf-8")
    (target / ".gitignore").write_text("*", "utf-8")
    (target / "CNAME").write_text("hangar.example", "utf-8")
    before = target.stat()

    write(target, PAGES)

    assert {**PAGES, ".git/HEAD": "ref", ".gitignore": "*", "CNAME": "hangar.example"} == files(
        target
    )
    assert (before.st_ino, before.st_mode) == (target.stat().st_ino, target.stat().st_mode)


def test_a_damaged_manifest_is_told(site: Path) -> None:
    """Cut off, leading outside, or of a later version: nothing is touched."""
    mark = site / ".buildbook-site"
    damaged = f"{site}: the list of its files, .buildbook-site, is damaged; name another folder"

    mark.write_bytes(mark.read_bytes()[:40])
    assert refusal(site) == damaged
    for outside in ("../keep.txt", "/etc/passwd", "a//b", "a/./b", ""):
        mark.write_text(
            json.dumps({"format": 1, "audience": "owner", "files": {outside: "00"}}), "utf-8"
        )
        assert refusal(site) == damaged
    mark.write_text('{"format": 2, "who": "all"}', "utf-8")
    assert refusal(site) == f"{site} was written by a later version of this program"


def test_a_site_of_the_former_mark_is_taken_over(tmp_path: Path) -> None:
    """Pages at their addresses are renewed; what else an owner's site holds is kept and told."""
    target = tmp_path / "site"
    target.mkdir()
    for name in (*PAGES, "due.html", "old.html"):
        (target / name).parent.mkdir(parents=True, exist_ok=True)
        (target / name).write_text("old", "utf-8")
    (target / ".buildbook-site").write_text(FORMER_MARK, "utf-8")

    assert ("old.html",) == write(target, {**PAGES, "due.html": "due"})
    assert {**PAGES, "due.html": "due", "old.html": "old"} == files(target)
    assert ("old.html",) == write(target, {**PAGES, "due.html": "due"})


def test_a_public_site_of_the_former_mark_keeps_no_unknown_page(tmp_path: Path) -> None:
    """What a render no longer makes could betray something, so it stops."""
    target = tmp_path / "site"
    target.mkdir()
    (target / "index.html").write_text("old", "utf-8")
    (target / "old.html").write_text("old", "utf-8")
    (target / ".buildbook-site").write_text(FORMER_MARK, "utf-8")

    assert refusal(target, PAGES, "public") == (
        f"{target} holds files that no render wrote or that were changed since: old.html; "
        "move them elsewhere and render again"
    )
    (target / "old.html").unlink()
    assert () == write(target, PAGES, "public")


@pytest.mark.parametrize(
    ("was", "asked", "replace", "expected"),
    [
        (None, None, False, "owner"),
        (None, "public", False, "public"),
        ("owner", None, False, "owner"),
        ("owner", "owner", False, "owner"),
        ("owner", "public", True, "public"),
        ("owner", None, True, "owner"),
        ("public", "public", False, "public"),
        ("public", "owner", True, "owner"),
    ],
)
def test_the_audience_of_a_render(tmp_path: Path, was, asked, replace, expected) -> None:
    """As asked; an owner's by default where that changes nothing."""
    if was:
        write(tmp_path / "site", PAGES, was)

    assert expected == audience_for(tmp_path / "site", "site", asked, replace)


@pytest.mark.parametrize(
    ("was", "asked", "replace", "expected"),
    [
        (
            "public",
            None,
            False,
            "site is a public site; say --for public to renew it, "
            "or --for owner --replace-audience",
        ),
        (
            "public",
            None,
            True,
            "site is a public site; say --for public to renew it, "
            "or --for owner --replace-audience",
        ),
        (
            "public",
            "owner",
            False,
            "site is a public site; name another folder, or say --replace-audience",
        ),
        (
            "owner",
            "public",
            False,
            "site is an owner's site; name another folder, or say --replace-audience",
        ),
    ],
)
def test_a_site_of_the_other_audience_is_refused(
    tmp_path: Path, was, asked, replace, expected
) -> None:
    """With what to say instead."""
    write(tmp_path / "site", PAGES, was)

    with pytest.raises(CannotWrite) as told:
        audience_for(tmp_path / "site", "site", asked, replace)

    assert str(told.value) == expected


def test_the_audience_is_looked_at_again_when_the_site_is_written(site: Path) -> None:
    """Another render may have made it in the meantime."""
    assert refusal(site, PAGES, "public") == (
        f"{site} is an owner's site; name another folder, or say --replace-audience"
    )


def test_rights_of_a_new_site(tmp_path: Path) -> None:
    """An owner's is for its owner alone, a public one as the system's mask says."""
    mask = os.umask(0o027)
    try:
        write(tmp_path / "mine", PAGES)
        write(tmp_path / "ours", PAGES, "public")
    finally:
        os.umask(mask)

    assert 0o700 == stat.S_IMODE((tmp_path / "mine").stat().st_mode)
    assert 0o750 == stat.S_IMODE((tmp_path / "ours").stat().st_mode)
    assert 0o640 == stat.S_IMODE((tmp_path / "ours" / "index.html").stat().st_mode)


def test_rights_that_were_given_stay(site: Path) -> None:
    """Those of the folder and those of a page."""
    site.chmod(0o711)
    (site / "index.html").chmod(0o604)

    write(site, {**PAGES, "index.html": "two"})

    assert 0o711 == stat.S_IMODE(site.stat().st_mode)
    assert 0o604 == stat.S_IMODE((site / "index.html").stat().st_mode)


def test_the_folder_stays_the_same_folder(
    site: Path, tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    """A shell that stands in it stands in it still."""
    monkeypatch.chdir(site)
    before = site.stat().st_ino

    write(site, {**PAGES, "index.html": "two"})

    assert before == site.stat().st_ino == Path.cwd().stat().st_ino
    assert Path("index.html").read_text("utf-8") == "two"
    assert ["site"] == [path.name for path in tmp_path.iterdir()]


def test_two_renders_at_once_are_kept_apart(site: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    """The second waits a while and then gives up; the first one's pages stand."""
    monkeypatch.setattr("buildbook.publish.renewal._TRIES", 2)

    with renewed(site, "site", "owner") as renewal:
        (renewal.folder / "index.html").write_text("two", "utf-8")
        with pytest.raises(CannotWrite) as told:
            write(site, PAGES)
        with pytest.raises(CannotWrite):
            repair(site, "site")

    assert str(told.value) == f"another render is writing {site}; wait until it has ended"
    assert {"index.html": "two"} == files(site)


def test_a_renewal_that_the_disk_cuts_off_is_finished_by_the_next_command(
    site: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    """Some pages are new when the disk is full; the sentence says what comes next."""
    moved = 0
    replace = Path.replace

    def fill_up(path: Path, to: Path) -> Path:
        nonlocal moved
        moved += 1
        if moved == 2:
            raise OSError(28, "No space left on device")
        return replace(path, to)

    new = {name: f"{text} more" for name, text in PAGES.items()}
    with monkeypatch.context() as patched:
        patched.setattr(Path, "replace", fill_up)
        with pytest.raises(CannotWrite) as told:
            write(site, new)

    assert str(told.value) == (
        f"could not finish the site in {site}: no space left on device; the next render finishes it"
    )
    repair(site, "site")
    assert new == files(site)


def test_a_mount_point_is_fine_while_it_is_empty_or_ours(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    """A new disk has a folder of its own for what was found; anything else is somebody's."""
    disk = tmp_path / "disk"
    (disk / "lost+found").mkdir(parents=True)
    monkeypatch.setattr(os.path, "ismount", lambda path: Path(path) == disk)

    (disk / ".Trash").mkdir()
    assert refusal(disk) == f"{disk} is a mount point that holds files; name a folder in it"
    (disk / ".Trash").rmdir()
    for text in ("one", "two"):
        write(disk, {"index.html": text})
        assert {"index.html": text} == files(disk)
    assert (disk / "lost+found").is_dir()


def test_a_page_whose_capitals_change(site: Path) -> None:
    """The old one goes, the new one comes, also where both names are one file."""
    write(site, {"Index.html": "one"})

    assert {"Index.html": "one"} == files(site)
