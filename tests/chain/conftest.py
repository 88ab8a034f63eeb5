"""A hangar built from records that nobody here wrote, and the demo hangar opened once."""

import csv
import datetime
from collections.abc import Iterator
from pathlib import Path

import pytest

ROOT = Path(__file__).parents[2]
PUBLISHED = ROOT / "tests" / "published" / "data" / "batteries"
FIRST_DAY = datetime.date(2024, 5, 1)


def rows_of(name: str) -> list[dict[str, str]]:
    """Rows of a published table."""
    with (PUBLISHED / name).open(encoding="utf-8", newline="") as file:
        return list(csv.DictReader(file))


def put(path: Path, text: str) -> None:
    """Write a file and the folders above it."""
    path.parent.mkdir(parents=True, exist_ok=True)
    path.write_text(text, "utf-8")


def flight_entries() -> Iterator[str]:
    """The nano quadrotor flights, five a day: the source gives no days, these are ours."""
    for index, row in enumerate(rows_of("lipo_nano_flights.csv")):
        day = FIRST_DAY + datetime.timedelta(days=index // 5)
        yield (
            f"- on: {day}\n  flight: {row['duration_s']} s\n  pack: NANO\n"
            f"  volts: {{before: {row['start_v']} V, lowest: {row['min_v']} V,"
            f" after: {row['end_v']} V}}\n"
        )


def cell_entries(cell: str) -> Iterator[str]:
    """A published cell history: each discharge is a capacity, and the charge that follows it."""
    for row in rows_of(f"{cell}_capacity.csv"):
        when, ah = row["start_time_local"][:16], row["capacity_ah"]
        yield f"- on: {when}\n  capacity: {cell.upper()}\n  measured: {ah} Ah\n  current: 2 A\n"
        yield f"- on: {when}\n  charge: {cell.upper()}\n  put_in: {ah} Ah\n"


@pytest.fixture(scope="session")
def published_hangar(tmp_path_factory: pytest.TempPathFactory) -> Path:
    """A hangar folder: one nano quadrotor with 155 flights, two cells with 168 discharges each."""
    folder = tmp_path_factory.mktemp("published")
    put(folder / "hangar.yaml", "format: 1\nhangar: Published records\nas_of: 2024-12-31\n")
    put(
        folder / "parts/specs.yaml",
        "- {spec: nano-cell, kind: battery, cells: 1S, capacity: 250 mAh, chemistry: LiPo}\n"
        "- {spec: round-cell, kind: battery, cells: 1S, capacity: 2 Ah, chemistry: LiIon}\n",
    )
    put(
        folder / "parts/items.yaml",
        "- {tag: NANO, spec: nano-cell, acquired: 2024-05-01}\n"
        "- {tag: B0005, spec: round-cell, acquired: 2008-04-01}\n"
        "- {tag: B0007, spec: round-cell, acquired: 2008-04-01}\n",
    )
    put(
        folder / "aircraft/nano/aircraft.yaml",
        "aircraft: Nano\nkind: multirotor\nlayout: quad-x\nprogramme: built-in small-multirotor\n",
    )
    put(folder / "aircraft/nano/logbook.yaml", "".join(flight_entries()))
    for cell in ("b0005", "b0007"):
        put(folder / f"stores/{cell}.yaml", "".join(cell_entries(cell)))
    return folder
