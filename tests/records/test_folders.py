"""The folder: which files are read, and what is said where that fails."""

import os
from pathlib import Path

import pytest
from small_hangar import WriteHangar

from buildbook.records.reading import files as files_module
from buildbook.records.reading.read import read_hangar

ROOT = hasattr(os, "geteuid") and os.geteuid() == 0


def told(folder: Path) -> list[str]:
    """What is told of a folder."""
    return [str(problem) for problem in read_hangar(folder, None).problems]


def test_a_folder_without_a_hangar_is_named_as_given(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    """Missing, empty, a file, without hangar.yaml, with a slip in its name."""
    monkeypatch.chdir(tmp_path)
    Path("empty").mkdir()
    Path("file").write_text("x")
    Path("other").mkdir()
    (Path("other") / "readme.txt").write_text("x")

    there = "it is not there, or a link that leads nowhere"
    assert [f"cannot read the folder 'none': {there} @ hangar.yaml:1"] == told(Path("none"))
    assert ["the folder 'empty' is empty @ hangar.yaml:1"] == told(Path("empty"))
    reason = "cannot read the folder 'file': it is a file, not a folder"
    assert [f"{reason} @ hangar.yaml:1"] == told(Path("file"))
    assert ["the folder 'other' has no hangar.yaml @ hangar.yaml:1"] == told(Path("other"))

    (Path("other") / "hangar.yml").write_text("hangar: x\n")
    (problem,) = read_hangar(Path("other"), None).problems
    assert "rename 'hangar.yml' to hangar.yaml" == problem.hint


def test_a_path_with_a_zero_byte() -> None:
    """No traceback for what the system refuses."""
    (line,) = told(Path("a\0b"))
    assert line.endswith("is not a path @ hangar.yaml:1")


def test_links_that_lead_back_to_themselves(write_hangar: WriteHangar) -> None:
    """A file, a folder of the hangar, and the hangar itself."""
    folder = write_hangar({})
    (folder / "bench").symlink_to("bench")
    (folder / "aircraft/sedge/logbook").symlink_to("logbook")
    (folder / "stores").mkdir()
    (folder / "stores/packs.yaml").symlink_to("packs.yaml")
    (folder.parent / "loop").symlink_to("loop")

    back = "a link that leads back to itself"
    assert [
        f"cannot read the folder: {back} @ aircraft/sedge/logbook:1",
        f"cannot read the folder: {back} @ bench:1",
        f"cannot read the file: {back} @ stores/packs.yaml:1",
    ] == told(folder)
    assert told(folder.parent / "loop")[0].endswith(f"{back} @ hangar.yaml:1")


def test_a_link_that_leads_nowhere_and_a_folder_for_a_file(write_hangar: WriteHangar) -> None:
    """Each is told at its own path."""
    folder = write_hangar({})
    (folder / "stores").mkdir()
    (folder / "stores/a.yaml").symlink_to("gone.yaml")
    (folder / "stores/b.yaml").mkdir()
    os.mkfifo(folder / "stores/c.yaml")

    assert [
        "cannot read the file: it is not there, or a link that leads nowhere @ stores/a.yaml:1",
        "cannot read the file: it is a folder, not a file @ stores/b.yaml:1",
        "cannot read the file: not a plain file @ stores/c.yaml:1",
    ] == told(folder)


@pytest.mark.skipif(ROOT, reason="nothing is closed to root")
def test_without_rights(write_hangar: WriteHangar) -> None:
    """A file and a folder that may not be read."""
    folder = write_hangar({})
    (folder / "parts/items.yaml").chmod(0)
    (folder / "aircraft/sedge").chmod(0)
    try:
        assert [
            "cannot read the folder: no permission to read it @ aircraft/sedge:1",
            "cannot read the file: no permission to read it @ parts/items.yaml:1",
        ] == told(folder)
    finally:
        (folder / "aircraft/sedge").chmod(0o700)


def test_a_right_that_is_refused(
    write_hangar: WriteHangar, monkeypatch: pytest.MonkeyPatch
) -> None:
    """The same sentence, with the system's refusal played by the test, for root too."""
    folder = write_hangar({})

    def refuse(path: Path) -> None:
        raise PermissionError(13, "Permission denied", str(path))

    monkeypatch.setattr(files_module.os, "listdir", refuse)

    (line,) = told(folder)
    assert line.endswith("no permission to read it @ hangar.yaml:1")


def test_a_file_that_vanishes_while_it_is_read(
    write_hangar: WriteHangar, monkeypatch: pytest.MonkeyPatch
) -> None:
    """It was listed, then it is gone."""
    folder = write_hangar({"stores/packs.yaml": "[]\n"})
    look = os.stat

    def vanish(path: Path, *args: object, **more: object) -> os.stat_result:
        if str(path).endswith("packs.yaml"):
            (folder / "stores/packs.yaml").unlink(missing_ok=True)
        return look(path, *args, **more)  # type: ignore[arg-type]

    monkeypatch.setattr(files_module.os, "stat", vanish)

    reason = "cannot read the file: it is not there, or a link that leads nowhere"
    assert [f"{reason} @ stores/packs.yaml:1"] == told(folder)


def test_files_that_are_not_read_are_warned_about(write_hangar: WriteHangar) -> None:
    """A slip in a name must not lose a logbook in silence."""
    folder = write_hangar(
        {
            "aircraft/sedge/logbok.yaml": "[]\n",
            "parts/specs.yml": "[]\n",
            "stores/packs.yml": "[]\n",
            "aircraft/sedge/notes.txt": "mine\n",
        }
    )
    reading = read_hangar(folder, None)

    assert [
        "'logbok.yaml' is a file that is not read @ aircraft/sedge/logbok.yaml:1",
        "'specs.yml' is a file that is not read @ parts/specs.yml:1",
        "'packs.yml' is a file that is not read @ stores/packs.yml:1",
    ] == [str(problem) for problem in reading.problems]
    assert {"warning"} == {problem.severity for problem in reading.problems}
    assert "did you mean 'logbook.yaml'?" == reading.problems[0].hint


def test_folders_of_aircraft(write_hangar: WriteHangar) -> None:
    """A name that is no slug, and a folder without aircraft.yaml."""
    folder = write_hangar({"aircraft/Big One/aircraft.yaml": "", "aircraft/rush/write-up.md": "x"})

    assert [
        "'Big One' is not a name for a folder of an aircraft @ aircraft/Big One:1",
        "the folder has no aircraft.yaml @ aircraft/rush/aircraft.yaml:1",
    ] == told(folder)


def test_one_broken_aircraft_does_not_silence_the_others(write_hangar: WriteHangar) -> None:
    """Its problems say whom they are about; the others are read."""
    folder = write_hangar(
        {
            "aircraft/rush/aircraft.yaml": "aircraft: Rush\nkind: multirotor\nlayout: quad-x\n",
            "aircraft/rush/logbook.yaml": "- {on: 2026-02-01, note: one}\n",
            "aircraft/sedge/logbook.yaml": "- {on: 2026-02-01\n",
        }
    )
    reading = read_hangar(folder, None)
    assert reading.ledger is not None

    assert ["sedge"] == [problem.about for problem in reading.problems]
    assert ["rush", "sedge"] == sorted(reading.ledger.aircraft)
    assert ["aircraft/rush"] == [entry.log for entry in reading.ledger.entries]


def test_an_unreadable_file_of_parts_brings_no_second_mistake(write_hangar: WriteHangar) -> None:
    """Tags that may stand in a file that could not be read are not called unknown."""
    folder = write_hangar({"parts/items.yaml": "- {tag: M-01\n"})

    assert ["bracket without an end, or a comma missing @ parts/items.yaml:1"] == told(folder)


def test_the_whole_folder_is_read(write_hangar: WriteHangar) -> None:
    """Folders of parts, a logbook in several files, stores, a table, a story, pictures."""
    folder = write_hangar(
        {
            "parts/specs/more.yaml": "- {spec: cam-a, kind: camera}\n",
            "parts/items/more.yaml": "- {tag: K-01, spec: cam-a}\n",
            "aircraft/sedge/logbook/2026-04.yaml": "- {on: 2026-04-01, note: later}\n",
            "aircraft/sedge/logbook/2026-03.yaml": "- {on: 2026-03-01, note: earlier}\n",
            "aircraft/sedge/write-up.md": "# Sedge\n",
            "aircraft/sedge/photos/b.jpg": b"\xff\xd8",
            "aircraft/sedge/photos/a.jpg": b"\xff\xd8",
            "stores/p-01.yaml": "- {on: 2026-02-01, charge: P-01}\n",
            "bench/a.csv": "throttle_%,thrust_g,current_A,rpm\n50,400,4.2,6000\n",
        }
    )
    reading = read_hangar(folder, None)
    ledger = reading.ledger
    assert ledger is not None

    assert () == reading.problems
    assert "cam-a" in ledger.specs
    assert "K-01" in ledger.items
    logs = [(entry.log, entry.index, str(entry.on)) for entry in ledger.entries]
    assert [
        ("aircraft/sedge", 0, "2026-02-01"),
        ("aircraft/sedge", 1, "2026-02-02"),
        ("aircraft/sedge", 2, "2026-03-01"),
        ("aircraft/sedge", 3, "2026-04-01"),
        ("stores/p-01", 0, "2026-02-01"),
    ] == logs
    assert ("a.jpg", "b.jpg") == ledger.photos["sedge"]
    assert "# Sedge\n" == ledger.write_ups["sedge"].text
    (row,) = ledger.bench["a.csv"].rows
    # 400 g under standard gravity of 9.80665 m/s² (CGPM 1901) are 3.92266 N.
    assert (0.5, 3.92266, 4.2, 6000.0) == (
        row.throttle_share,
        round(row.thrust_n or 0, 9),
        row.current_a,
        row.rotation_rpm,
    )


def test_folders_with_a_slip_in_their_name_are_warned_about(write_hangar: WriteHangar) -> None:
    """A whole log may be missing; what is like no name of ours is the keeper's own business."""
    folder = write_hangar({})
    for name in ("aircrafts", "part", "store", "programs", "notice", "benches", "site", ".stores"):
        (folder / name).mkdir()
    (folder / "stores.txt").write_text("")

    assert [
        f"'{name}' is a folder that is not read @ {name}:1 (did you mean '{meant}'?)"
        for name, meant in (
            ("aircrafts", "aircraft"),
            ("benches", "bench"),
            ("notice", "notices"),
            ("part", "parts"),
            ("programs", "programmes"),
            ("store", "stores"),
        )
    ] == [f"{problem} ({problem.hint})" for problem in read_hangar(folder).problems]


def test_a_link_to_a_folder_that_is_gone_is_told(write_hangar: WriteHangar) -> None:
    """A whole log may be missing; a folder that was never there is fine."""
    folder = write_hangar({})
    (folder / "stores").symlink_to(folder / "gone")

    assert ["cannot read the folder: it is not there, or a link that leads nowhere @ stores:1"] == [
        str(problem) for problem in read_hangar(folder).problems
    ]
