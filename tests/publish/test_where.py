"""Where a site may stand."""

import os
from pathlib import Path

import pytest

from buildbook.publish.where import CannotWrite, site_folder

ELSEWHERE = "name a folder outside it for the site, with --into"


@pytest.fixture
def hangar(tmp_path: Path) -> Path:
    """A folder of records."""
    folder = tmp_path / "rc" / "hangar"
    (folder / "aircraft").mkdir(parents=True)
    (folder / "hangar.yaml").write_text("format: 1\n", "utf-8")
    return folder


def refusal(target: str | Path, hangar: Path) -> str:
    """Why there may be no site."""
    with pytest.raises(CannotWrite) as told:
        site_folder(str(target), hangar)
    return str(told.value)


def test_a_folder_beside_the_hangar_is_fine(hangar: Path, tmp_path: Path) -> None:
    """There or not yet there, with a name that begins like the hangar's."""
    (tmp_path / "rc" / "site").mkdir()

    assert tmp_path / "rc" / "site" == site_folder(str(tmp_path / "rc" / "site"), hangar)
    assert tmp_path / "rc" / "hangar-site" == site_folder(f"{hangar}-site", hangar)
    assert tmp_path / "a" / "b" == site_folder(str(tmp_path / "a" / "b"), hangar)


def test_the_hangar_and_what_is_around_and_in_it(hangar: Path, tmp_path: Path) -> None:
    """Is, contains, lies in; written straight or by way of dots."""
    around = tmp_path / "rc"
    roundabout = f"{hangar}/aircraft/../../hangar"

    assert refusal(hangar, hangar) == f"{hangar} is the hangar; {ELSEWHERE}"
    assert refusal(roundabout, hangar) == f"{roundabout} is the hangar; {ELSEWHERE}"
    assert refusal(around, hangar) == f"{around} contains the hangar; {ELSEWHERE}"
    assert refusal(hangar / "site", hangar) == f"{hangar / 'site'} lies in the hangar; {ELSEWHERE}"
    assert refusal(hangar / "new" / "site", hangar) == (
        f"{hangar / 'new' / 'site'} lies in the hangar; {ELSEWHERE}"
    )


def test_links_make_no_difference(hangar: Path, tmp_path: Path) -> None:
    """A link to the hangar, a link into it, and a hangar that is named by a link."""
    link = tmp_path / "link"
    link.symlink_to(hangar)

    assert refusal(link, hangar) == f"{link} is the hangar; {ELSEWHERE}"
    assert refusal(link / "site", hangar) == f"{link / 'site'} lies in the hangar; {ELSEWHERE}"
    assert refusal(hangar / "s", link) == f"{hangar / 's'} lies in the hangar; {ELSEWHERE}"
    assert refusal(tmp_path / "rc", link) == f"{tmp_path / 'rc'} contains the hangar; {ELSEWHERE}"


def test_a_link_to_a_folder_is_followed(hangar: Path, tmp_path: Path) -> None:
    """The site is in the folder that the link leads to; one to nowhere is told, and a circle."""
    (tmp_path / "disk").mkdir()
    (tmp_path / "site").symlink_to(tmp_path / "disk")
    (tmp_path / "gone").symlink_to(tmp_path / "nowhere")
    (tmp_path / "circle").symlink_to(tmp_path / "circle")

    assert tmp_path / "disk" == site_folder(str(tmp_path / "site"), hangar)
    for name in ("gone", "circle"):
        assert refusal(tmp_path / name, hangar) == (
            f"{tmp_path / name} is a link that leads nowhere"
        )


def test_roots_and_homes(hangar: Path, tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    """Empty or not."""
    home = tmp_path / "people" / "me"
    home.mkdir(parents=True)
    monkeypatch.setenv("HOME", str(home))

    assert refusal("/", hangar) == "/ is the root of a disk; name a folder for the site"
    assert refusal(home, hangar) == f"{home} is a home folder; name a folder in it for the site"
    assert refusal(home.parent, hangar) == (
        f"{home.parent} contains a home folder; name another for the site"
    )
    assert home / "site" == site_folder(str(home / "site"), hangar)


def test_other_records_are_no_place_for_a_site(hangar: Path, tmp_path: Path) -> None:
    """Another hangar than the one that is rendered."""
    other = tmp_path / "other"
    other.mkdir()
    (other / "hangar.yaml").write_text("format: 1\n", "utf-8")

    assert refusal(other, hangar) == f"{other} holds records; name another folder for the site"


def test_what_is_no_folder(hangar: Path, tmp_path: Path) -> None:
    """A file, a name below a file, a name that no disk takes, no name at all, a pipe."""
    file = tmp_path / "words"
    file.write_text("words", "utf-8")
    os.mkfifo(tmp_path / "pipe")
    long = tmp_path / ("x" * 300)

    assert refusal(file, hangar) == f"{file} is a file, not a folder"
    assert refusal(tmp_path / "pipe", hangar) == f"{tmp_path / 'pipe'} is a file, not a folder"
    assert refusal(long, hangar) == f"could not write the site to {long}: file name too long"
    assert refusal("a\0b", hangar) == "could not write the site to a\0b: embedded null byte"
    assert refusal("", hangar) == "the name of the site's folder is empty; name one"
