"""Each block of the page is taken without a word of complaint, and does what stands there."""

import datetime
import re
from pathlib import Path

import pytest

from buildbook.commands.main import main
from buildbook.report.reports import Reports
from buildbook.reporting.opening import open_reports

ROOT = Path(__file__).parents[2]
TEXT = (ROOT / "docs/when-something-happens.md").read_text("utf-8")
BLOCKS = re.findall(r"In `([\w/.-]+)`.*?```yaml\n(.*?)```", TEXT, re.S)


def write_block(number: int) -> None:
    """Put a block at the end of its file in the copy of the demo."""
    file, block = BLOCKS[number]
    path = Path("content") / file
    path.write_text(path.read_text("utf-8").rstrip("\n") + "\n" + block, "utf-8")


def reports_with(number: int) -> Reports:
    """What the demo says once a block is written."""
    write_block(number)
    reports = open_reports(Path("content"), None, datetime.date(2026, 11, 20)).reports
    assert reports is not None
    return reports


@pytest.mark.usefixtures("beside_the_demo")
@pytest.mark.parametrize("number", range(6))
def test_a_block_is_taken(number: int, capsys: pytest.CaptureFixture[str]) -> None:
    """Alone, at the end of its file."""
    assert 6 == len(BLOCKS)
    write_block(number)

    status = main(["check", "content"])

    assert (0, "") == (status, "".join(re.findall("^problem.*", capsys.readouterr().out, re.M)))


@pytest.mark.usefixtures("beside_the_demo")
@pytest.mark.parametrize("number", [1, 5])
def test_the_crash_and_the_swelling_set_their_pack_aside(number: int) -> None:
    """As the page says."""
    packs = {pack.tag: pack.state for pack in reports_with(number).work.packs}

    assert "quarantined" == packs["P-11"]


@pytest.mark.usefixtures("beside_the_demo")
def test_after_water_drying_comes_first() -> None:
    """As the page says."""
    first = reports_with(2).aircraft_standing("trefoil").reasons[0]

    assert ("wet", True) == (first.because.why, first.grounding)
