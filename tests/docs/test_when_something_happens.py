"""Each block of the page is taken without a word of complaint, and does what stands there."""

import datetime
import re
import shutil
from pathlib import Path

import pytest

from buildbook.commands.main import main
from buildbook.reporting.opening import open_reports

ROOT = Path(__file__).parents[2]
TEXT = (ROOT / "docs/when-something-happens.md").read_text("utf-8")
BLOCKS = re.findall(r"In `([\w/.-]+)`.*?```yaml\n(.*?)```", TEXT, re.S)


@pytest.mark.parametrize("number", range(5))
def test_a_block_is_taken(
    tmp_path: Path, number: int, private_cache: Path, capsys: pytest.CaptureFixture[str]
) -> None:
    """Alone, at the end of its file."""
    assert private_cache
    assert 5 == len(BLOCKS)
    shutil.copytree(ROOT / "content", tmp_path / "content")
    file, block = BLOCKS[number]
    path = tmp_path / "content" / file
    path.write_text(path.read_text("utf-8").rstrip("\n") + "\n" + block, "utf-8")

    status = main(["check", str(tmp_path / "content")])

    assert (0, "") == (status, "".join(re.findall("^problem.*", capsys.readouterr().out, re.M)))


def test_the_crash_sets_its_pack_aside(tmp_path: Path, private_cache: Path) -> None:
    """As the page says."""
    assert private_cache
    shutil.copytree(ROOT / "content", tmp_path / "content")
    file, block = BLOCKS[1]
    path = tmp_path / "content" / file
    path.write_text(path.read_text("utf-8").rstrip("\n") + "\n" + block, "utf-8")
    opened = open_reports(tmp_path / "content", None, datetime.date(2026, 11, 20))
    assert opened.reports is not None

    packs = {pack.tag: pack.state for pack in opened.reports.work.packs}
    assert "quarantined" == packs["P-11"]


def test_after_water_drying_comes_first(tmp_path: Path, private_cache: Path) -> None:
    """As the page says."""
    assert private_cache
    shutil.copytree(ROOT / "content", tmp_path / "content")
    file, block = BLOCKS[2]
    path = tmp_path / "content" / file
    path.write_text(path.read_text("utf-8").rstrip("\n") + "\n" + block, "utf-8")
    opened = open_reports(tmp_path / "content", None, datetime.date(2026, 11, 20))
    assert opened.reports is not None

    first = opened.reports.aircraft_standing("trefoil").reasons[0]
    assert ("wet", True) == (first.because.why, first.grounding)
