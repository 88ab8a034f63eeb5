"""What the tests of this room share: a day that stands still, and a way to run the command."""

import datetime
from collections.abc import Callable
from pathlib import Path
from typing import NamedTuple

import pytest

from buildbook.commands.main import main

TODAY = datetime.datetime(2026, 2, 10, 12, tzinfo=datetime.UTC)


@pytest.fixture
def fixed_day(private_cache: Path, monkeypatch: pytest.MonkeyPatch) -> datetime.date:
    """10 February 2026, whatever the clock says."""
    assert private_cache
    monkeypatch.setenv("SOURCE_DATE_EPOCH", str(int(TODAY.timestamp())))
    monkeypatch.setenv("COLUMNS", "80")
    return TODAY.date()


class Ran(NamedTuple):
    """What a command said."""

    status: int
    out: str
    err: str


Run = Callable[..., Ran]


@pytest.fixture
def run(capsys: pytest.CaptureFixture[str], fixed_day: datetime.date) -> Run:
    """Run a command as the script does, wrong options included."""
    assert fixed_day

    def run_command(*words: object) -> Ran:
        capsys.readouterr()
        try:
            status = main([str(word) for word in words])
        except SystemExit as stop:
            status = stop.code if isinstance(stop.code, int) else 1
        printed = capsys.readouterr()
        return Ran(status, printed.out, printed.err)

    return run_command
