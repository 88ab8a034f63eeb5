"""Reading the published data that lies beside these tests."""

import csv
from collections.abc import Callable
from pathlib import Path

import pytest

DATA = Path(__file__).parent / "data"
Rows = list[dict[str, str]]


@pytest.fixture(scope="session")
def rows() -> Callable[[str], Rows]:
    """Rows of a file below data/, each a dict by column name."""

    def read(name: str) -> Rows:
        with (DATA / name).open(encoding="utf-8", newline="") as file:
            found = list(csv.DictReader(file))
        assert found, f"{name} has no rows"
        return found

    return read
