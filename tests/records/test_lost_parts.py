"""A file of parts that is lost or empty is told once."""

import datetime
import shutil
from pathlib import Path

import pytest
from small_hangar import WriteHangar

from buildbook.records.reading.read import read_hangar
from buildbook.reporting.opening import open_reports

HINT = "bring it back, from a backup or from version control"


@pytest.mark.parametrize("empty", [True, False])
@pytest.mark.parametrize(("name", "what"), [("items", "tag"), ("specs", "spec")])
def test_a_lost_file_of_parts_is_one_sentence(
    write_hangar: WriteHangar, name: str, what: str, empty: bool
) -> None:
    """Not one for each of the four that name what was in it."""
    folder = write_hangar({f"parts/{name}.yaml": ""})
    if not empty:
        (folder / f"parts/{name}.yaml").unlink()

    told = [(str(problem), problem.hint) for problem in read_hangar(folder).problems]

    assert [
        (
            f"the file is lost or empty: no {what} is known, though 4 {what}s are named"
            f" @ parts/{name}.yaml:1",
            HINT,
        )
    ] == told


@pytest.mark.parametrize("empty", [True, False])
def test_one_lost_file_of_several_is_one_sentence(demo: Path, tmp_path: Path, empty: bool) -> None:
    """Twenty packs are named in hundreds of entries; the tags that are there lead nowhere."""
    folder = tmp_path / "copy"
    shutil.copytree(demo, folder)
    packs = folder / "parts/items/packs.yaml"
    if empty:
        packs.write_text("", "utf-8")
    else:
        packs.unlink()

    found = [each for each in read_hangar(folder).problems if each.severity == "problem"]

    assert [
        (
            "13 tags are in no file of parts/items: 'P-01', 'P-02', 'P-03', 'P-04' and 9 more",
            f"is one of them lost or empty? {HINT}",
        )
    ] == [(each.reason, each.hint) for each in found]
    assert found[0].place.file.startswith("aircraft/burdock/logbook")


def test_a_single_name_is_told_where_it_stands(write_hangar: WriteHangar) -> None:
    """A hangar that has no items yet, and one slip."""
    log = "- {on: 2026-02-02, flight: 7:20, pack: P-01}\n"
    folder = write_hangar({"parts/items.yaml": "", "aircraft/sedge/logbook.yaml": log})

    assert ["unknown tag 'P-01' @ aircraft/sedge/logbook.yaml:1"] == [
        str(problem) for problem in read_hangar(folder).problems
    ]


@pytest.mark.parametrize("name", ["items", "specs"])
def test_a_lost_file_takes_nothing_else_with_it(demo: Path, tmp_path: Path, name: str) -> None:
    """All that is said of the demo without it: one problem, and no objection of the fold."""
    folder = tmp_path / "copy"
    shutil.copytree(demo, folder)
    shutil.rmtree(folder / "parts" / name)

    opened = open_reports(folder, None, datetime.date(2026, 11, 20))

    assert [f"parts/{name}.yaml"] == [
        problem.place.file for problem in opened.problems if problem.severity == "problem"
    ]
