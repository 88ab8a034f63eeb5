"""``begin``: what it writes for a first aircraft, and what it leaves to the keeper."""

from pathlib import Path

import pytest

from buildbook.desk.begin import First, starter
from buildbook.records.layouts import LAYOUTS

KINDS = [("multirotor", name) for name in LAYOUTS if name != "aeroplane"]
KINDS += [("aeroplane", "aeroplane"), ("aeroplane", "custom")]


def plain_lines(text: str) -> list[str]:
    """The lines that are read, without comments."""
    return [line for line in text.splitlines() if not line.lstrip().startswith("#")]


@pytest.mark.parametrize(("kind", "layout"), KINDS)
def test_no_spin_and_no_output_is_filled_in(kind: str, layout: str) -> None:
    """Whatever the layout, both words stand in comments alone."""
    text = starter(First(kind=kind, layout=layout))["aircraft/first/aircraft.yaml"]
    read = "\n".join(plain_lines(text))

    assert [] == [word for word in ("spin", "output", "cw") if word in read]
    assert "# Left out on purpose: which way" in text


@pytest.mark.parametrize(("kind", "layout"), KINDS)
def test_every_starter_reads_without_a_word(run, tmp_path: Path, kind: str, layout: str) -> None:
    """``check`` has nothing to say against the files of any layout."""
    begun = run("begin", tmp_path / "new", "--kind", kind, "--layout", layout)
    checked = run("check", tmp_path / "new")

    assert begun.out.splitlines()[0] == f"Wrote 5 files to {tmp_path / 'new'}."
    assert (checked.status, checked.out.rsplit(": ", 1)[1]) == (0, "no problems.\n")


def test_it_says_what_is_left_to_the_keeper(run, tmp_path: Path) -> None:
    """On the terminal too, with the reason."""
    begun = run("begin", tmp_path / "new")

    assert [
        f"Wrote 5 files to {tmp_path / 'new'}.",
        "Left to you: which way each motor turns and which output drives it. One wrong line",
        "throws an aircraft over as it takes off; aircraft.yaml says where they go.",
        f"Next: buildbook render {tmp_path / 'new'} --into {tmp_path / 'new'}-site",
    ] == begun.out.splitlines()


def test_a_starter_renders(run, tmp_path: Path) -> None:
    """The command that ``begin`` names next does its work."""
    run("begin", tmp_path / "new")
    rendered = run("render", tmp_path / "new", "--into", tmp_path / "site")

    assert (rendered.status, rendered.err) == (0, "")
    assert (tmp_path / "site/aircraft/first/index.html").is_file()


def test_an_aircraft_is_called_as_asked(run, tmp_path: Path) -> None:
    """The folder has the name in small letters; YAML gives the same name back."""
    run("begin", tmp_path / "new", "--name", "Ida's: No. 7", "--layout", "hexa-x")
    text = (tmp_path / "new/aircraft/ida-s-no-7/aircraft.yaml").read_text("utf-8")

    assert ['aircraft: "Ida\'s: No. 7"', "kind: multirotor", "layout: hexa-x"] == (
        text.splitlines()[:3]
    )
    assert run("check", tmp_path / "new").status == 0


def test_a_layout_of_the_other_kind_is_wrong_use(run, tmp_path: Path) -> None:
    """It says which layouts there are, and writes nothing."""
    assert (
        2,
        "",
        "buildbook begin: 'y6' is no layout of an aeroplane; it is one of aeroplane, custom\n",
    ) == run("begin", tmp_path / "new", "--kind", "aeroplane", "--layout", "y6")
    assert not (tmp_path / "new").exists()


def test_the_demo_takes_no_first_aircraft(run, tmp_path: Path) -> None:
    """An option that would be ignored is refused."""
    assert (2, "", "buildbook begin: --demo copies what is there; leave out --name\n") == run(
        "begin", tmp_path / "new", "--demo", "--name", "Heron"
    )
