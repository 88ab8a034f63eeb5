"""What ``render`` is asked and won't do: one sentence, status 2, nothing written or lost."""

import os
import resource
import shutil
import stat
import subprocess
import sys
from pathlib import Path

import pytest

ELSEWHERE = "name a folder outside it for the site, with --into"


def bytes_of(folder: Path) -> dict[str, bytes]:
    """Each file below a folder."""
    return {
        path.relative_to(folder).as_posix(): path.read_bytes()
        for path in folder.rglob("*")
        if path.is_file()
    }


def refused(run, *words: object) -> str:
    """The sentence."""
    ran = run("render", *words)
    assert (2, "") == (ran.status, ran.out)
    (sentence,) = ran.err.splitlines()
    return sentence.removeprefix("buildbook render: ")


def test_records_that_were_copied_into_a_site_are_not_lost(run, loft: Path, tmp_path: Path) -> None:
    """A site, then the records moved into it, then rendered from there into the same folder."""
    site = tmp_path / "rc"
    assert run("render", loft, "--into", site).status == 0
    shutil.copytree(loft, site / "hangar")
    before = bytes_of(site)

    assert (
        refused(run, site / "hangar", "--into", site) == f"{site} contains the hangar; {ELSEWHERE}"
    )
    assert before == bytes_of(site)
    assert run("render", loft, "--into", site).status == 0
    assert bytes_of(loft) == bytes_of(site / "hangar")


def test_the_site_of_a_hangar_is_not_put_into_it(
    run, loft: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    """Not even by default, by somebody who stands in it."""
    before = bytes_of(loft)
    monkeypatch.chdir(loft)

    assert refused(run) == f"site lies in the hangar; {ELSEWHERE}"
    assert refused(run, "--into", ".") == f". is the hangar; {ELSEWHERE}"
    assert before == bytes_of(loft)


def test_from_within_the_site(
    run, loft: Path, tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    """Somebody who stands in the site's folder still does afterwards."""
    site = tmp_path / "site"
    site.mkdir()
    monkeypatch.chdir(site)

    for _ in range(2):
        ran = run("render", loft, "--into", ".")
        assert (0, "") == (ran.status, ran.err)
        assert Path("index.html").is_file()


def test_a_link_stays_a_link(run, loft: Path, tmp_path: Path) -> None:
    """What it leads to is renewed."""
    (tmp_path / "disk").mkdir()
    (tmp_path / "site").symlink_to("disk")

    assert run("render", loft, "--into", tmp_path / "site").status == 0
    assert (tmp_path / "site").is_symlink()
    assert (tmp_path / "disk" / "index.html").is_file()


def test_the_folder_of_this_project_keeps_its_ignore_file(
    run, demo: Path, loft: Path, tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    """The first command of the README, on a fresh checkout of a smaller demo, twice."""
    loft.rename(tmp_path / "content")
    shutil.copytree(demo.parent / "site", tmp_path / "site", ignore=lambda _folder, names: {
        name for name in names if name != ".gitignore"
    })  # fmt: skip
    ignored = (tmp_path / "site" / ".gitignore").read_bytes()
    monkeypatch.chdir(tmp_path)

    for _ in range(2):
        ran = run("render", "content", "--into", "site")
        assert (0, "") == (ran.status, ran.err)
    assert ignored == (tmp_path / "site" / ".gitignore").read_bytes()


def test_audiences_are_not_mixed(run, loft: Path, tmp_path: Path) -> None:
    """Each way is refused; with the option it goes, and the folder holds one site only."""
    site, owners = tmp_path / "public", tmp_path / "mine"
    assert run("render", loft, "--into", site, "--for", "public").status == 0
    assert run("render", loft, "--into", owners).status == 0
    public, owner = bytes_of(site), bytes_of(owners)

    assert refused(run, loft, "--into", site) == (
        f"{site} is a public site; say --for public to renew it, or --for owner --replace-audience"
    )
    assert refused(run, loft, "--into", site, "--for", "owner") == (
        f"{site} is a public site; name another folder, or say --replace-audience"
    )
    assert refused(run, loft, "--into", owners, "--for", "public") == (
        f"{owners} is an owner's site; name another folder, or say --replace-audience"
    )
    assert (public, owner) == (bytes_of(site), bytes_of(owners))

    assert run("render", loft, "--into", site, "--for", "owner", "--replace-audience").status == 0
    assert owner == bytes_of(site)
    assert run("render", loft, "--into", site, "--for", "public", "--replace-audience").status == 0
    assert public == bytes_of(site)


def test_a_page_changed_by_hand(run, loft: Path, tmp_path: Path) -> None:
    """Kept and told in an owner's site; stops a public render."""
    site, owners = tmp_path / "public", tmp_path / "mine"
    run("render", loft, "--into", site, "--for", "public")
    run("render", loft, "--into", owners)
    for folder in (site, owners):
        (folder / "style.css").write_text("mine", "utf-8")

    ran = run("render", loft, "--into", owners)
    assert (0, "kept, as no render wrote it in this form: style.css\n") == (ran.status, ran.err)
    assert refused(run, loft, "--into", site, "--for", "public") == (
        f"{site} holds files that no render wrote or that were changed since: style.css; "
        "move them elsewhere and render again"
    )
    assert {"mine"} == {(folder / "style.css").read_text("utf-8") for folder in (site, owners)}


def test_names_that_no_site_can_have(run, loft: Path, tmp_path: Path) -> None:
    """Too long, a file, below a file, empty."""
    (tmp_path / "file").write_text("words", "utf-8")
    long = tmp_path / ("x" * 300)

    assert refused(run, loft, "--into", long) == (
        f"could not write the site to {long}: file name too long"
    )
    assert refused(run, loft, "--into", tmp_path / "file") == (
        f"{tmp_path / 'file'} is a file, not a folder"
    )
    assert refused(run, loft, "--into", tmp_path / "file" / "x") == (
        f"could not write the site to {tmp_path / 'file' / 'x'}: not a directory"
    )
    assert refused(run, loft, "--into", "") == ("the name of the site's folder is empty; name one")
    assert (tmp_path / "file").read_text("utf-8") == "words"


@pytest.mark.skipif(os.geteuid() == 0, reason="the superuser may read anything")
def test_below_a_folder_that_cannot_be_read(run, loft: Path, tmp_path: Path) -> None:
    """Neither looked into nor written to."""
    closed = tmp_path / "closed"
    closed.mkdir(mode=0)
    try:
        assert refused(run, loft, "--into", closed / "a" / "site") == (
            f"could not write the site to {closed / 'a' / 'site'}: permission denied"
        )
    finally:
        closed.chmod(stat.S_IRWXU)


@pytest.mark.skipif(os.geteuid() == 0, reason="the superuser may write anywhere")
def test_a_parent_that_cannot_be_written_to_is_no_matter(run, loft: Path, tmp_path: Path) -> None:
    """All that is written is written in the site's own folder."""
    site = tmp_path / "closed" / "site"
    site.mkdir(parents=True)
    site.parent.chmod(0o500)
    try:
        assert run("render", loft, "--into", site).status == 0
        assert run("render", loft, "--into", site).status == 0
    finally:
        site.parent.chmod(stat.S_IRWXU)


def test_a_disk_that_is_full(loft: Path, tmp_path: Path) -> None:
    """A limit on the size of files stands for it: a sentence, and the old site stays."""
    site = tmp_path / "site"
    words = [sys.executable, "-m", "buildbook", "render", str(loft), "--into", str(site)]
    ways = {**os.environ, "XDG_CACHE_HOME": str(tmp_path / "cache")}
    subprocess.run(words, env=ways, check=True, capture_output=True)
    before = bytes_of(site)
    log = loft / "aircraft/heron/logbook.yaml"
    log.write_text(log.read_text("utf-8") + "- {on: 2026-03-01, note: later}\n", "utf-8")

    done = subprocess.run(
        words,
        env=ways,
        check=False,
        capture_output=True,
        text=True,
        preexec_fn=lambda: resource.setrlimit(resource.RLIMIT_FSIZE, (9000, 9000)),
    )

    assert (2, f"buildbook render: could not write the site to {site}: file too large\n") == (
        done.returncode,
        done.stderr,
    )
    assert before == bytes_of(site)


def test_themes_that_are_none(run, loft: Path, tmp_path: Path) -> None:
    """A folder of something else, and a name that isn't known."""
    site = tmp_path / "site"

    assert refused(run, loft, "--into", site, "--theme", "/etc") == (
        "--theme: /etc is not a theme: it holds neither templates/ nor style.css"
    )
    assert refused(run, loft, "--into", site, "--theme", "velvet") == (
        "--theme: no theme is called 'velvet', and there is no such folder"
    )
    assert not site.exists()


@pytest.mark.parametrize(
    ("name", "text", "sentence"),
    [
        (
            "hangar.html.j2",
            "line one\n{% if %}\n",
            "the template hangar.html.j2, line 2 can't be used: Expected an expression, "
            "got 'end of statement block'",
        ),
        (
            "hangar.html.j2",
            "one\ntwo\n{{ nobody.knows }}\n",
            "the template hangar.html.j2, line 3 can't be used: 'nobody' is undefined",
        ),
        (
            "hangar.html.j2",
            "{{ 1 / 0 }}",
            "the template hangar.html.j2, line 1 can't be used: division by zero",
        ),
        (
            "hangar.html.j2",
            '{% extends "gone.html.j2" %}',
            "the template hangar.html.j2, line 1 can't be used: 'gone.html.j2' not found in "
            "search path",
        ),
    ],
    ids=["syntax", "missing name", "other error", "missing template"],
)
def test_a_broken_template(run, loft: Path, tmp_path: Path, name, text, sentence) -> None:
    """With the template, the line, and what is wrong; the old site stays."""
    site = tmp_path / "site"
    run("render", loft, "--into", site)
    before = bytes_of(site)
    theme = tmp_path / "velvet"
    (theme / "templates").mkdir(parents=True)
    (theme / "templates" / name).write_text(text, "utf-8")

    assert refused(run, loft, "--into", site, "--theme", theme).startswith(f"--theme: {sentence}")
    assert before == bytes_of(site)


def test_a_broken_template_in_several_processes(
    run, loft: Path, tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    """A process that makes pages hands the sentence on."""
    monkeypatch.setattr("buildbook.publish.share_out._WORTH_A_PROCESS", 2)
    monkeypatch.setattr(os, "cpu_count", lambda: 2)
    theme = tmp_path / "velvet"
    (theme / "templates").mkdir(parents=True)
    (theme / "templates" / "due.html.j2").write_text("{{ nobody }}", "utf-8")

    assert refused(run, loft, "--into", tmp_path / "site", "--theme", theme) == (
        "--theme: the template due.html.j2, line 1 can't be used: 'nobody' is undefined"
    )


def test_a_style_that_is_no_text(run, loft: Path, tmp_path: Path) -> None:
    """Bytes that are not UTF-8."""
    theme = tmp_path / "velvet"
    theme.mkdir()
    (theme / "style.css").write_bytes(b"body { color: \xff }")

    assert refused(run, loft, "--into", tmp_path / "site", "--theme", theme) == (
        f"--theme: {theme / 'style.css'} is not UTF-8 text"
    )
