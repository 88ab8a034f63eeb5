"""The hangar of the benchmarks is kept with care: what is timed on it is work, not complaints."""

import sys
from pathlib import Path

import pytest

from buildbook.commands.main import main

sys.path.insert(0, str(Path(__file__).parents[1] / "benchmarks"))

import big_hangar


def test_nothing_is_doubted_and_nothing_grounds(
    tmp_path: Path, capsys: pytest.CaptureFixture[str]
) -> None:
    """Two of its aircraft with all their flights: no warning, and no state but ``due soon``."""
    big_hangar.write(tmp_path, aircraft=2, flights=100)

    assert 0 == main(["check", str(tmp_path)])
    said = capsys.readouterr().out
    assert 0 == main(["due", str(tmp_path)])
    due = capsys.readouterr().out

    assert (
        "Read 2 aircraft, 13 items, 454 entries: no problems.\n"
        "For what is open or due, run: buildbook due\n"
    ) == said
    assert (
        "Record to 20 November 2026\n\n  Number 00  due soon\n  Number 01  due soon\n\nNow\n"
        == due[: due.index("  Number 00: ")]
    )
