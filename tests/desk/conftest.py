"""What the tests of this room share: a day that stands still, and a way to run the command."""

import datetime
from collections.abc import Callable
from pathlib import Path
from typing import Any

import pytest

TODAY = datetime.datetime(2026, 2, 10, 12, tzinfo=datetime.UTC)


@pytest.fixture
def fixed_day(private_cache: Path, monkeypatch: pytest.MonkeyPatch) -> datetime.date:
    """10 February 2026, whatever the clock says."""
    assert private_cache
    monkeypatch.setenv("SOURCE_DATE_EPOCH", str(int(TODAY.timestamp())))
    return TODAY.date()


@pytest.fixture
def run(run: Callable[..., Any], fixed_day: datetime.date) -> Callable[..., Any]:
    """The same on that day."""
    assert fixed_day
    return run
