"""The end of life of a pack as the keeper sees it, on published histories put into a hangar.

Source of the data and of the ends: NASA Prognostics Center of Excellence, Battery Data Set,
B. Saha and K. Goebel, 2007; check values of upkeep, section 1, B10: below 1.6 Ah for good from
discharge 91 (B0005) and 94 (B0007).
"""

import csv
import datetime
from pathlib import Path

import pytest

from buildbook.figures.answers.registry import figures_of_item
from buildbook.hangar.fold import fold
from buildbook.records.reading.read import read_hangar
from buildbook.report.figure import Answers
from buildbook.report.state import Hangar

FIRST = datetime.date(2020, 1, 1)
ENDS = {"b0005": 91, "b0007": 94}
DATA = Path(__file__).parent / "data" / "batteries"


def capacities(cell: str) -> list[float]:
    """Capacity in Ah of each discharge."""
    with (DATA / f"{cell}_capacity.csv").open(encoding="utf-8") as file:
        return [float(row["capacity_ah"]) for row in csv.DictReader(file)]


def hangar_of(folder: Path, cell: str, upto: int, *, charges: bool, every: int = 1) -> Hangar:
    """The history of a cell, one discharge a day, as of a discharge number."""
    (folder / "parts").mkdir()
    (folder / "stores").mkdir()
    (folder / "hangar.yaml").write_text("format: 1\nhangar: Bench\n")
    (folder / "parts" / "specs.yaml").write_text(
        "- {spec: cell, kind: battery, cells: 1S, capacity: 2000 mAh, chemistry: LiIon}\n"
    )
    (folder / "parts" / "items.yaml").write_text("- {tag: P-1, spec: cell, acquired: 2020-01-01}\n")
    entries = []
    for number, measured in enumerate(capacities(cell), 1):
        day = FIRST + datetime.timedelta(days=number)
        if charges:
            entries.append(f"- {{on: {day}, charge: P-1}}\n")
        if number % every == 0:
            entries.append(f"- {{on: {day}, capacity: P-1, measured: {measured:.6f} Ah}}\n")
    (folder / "stores" / "p-1.yaml").write_text("".join(entries))
    reading = read_hangar(folder, cache=None)
    assert reading.problems == ()
    assert reading.ledger is not None
    return fold(reading.ledger, FIRST + datetime.timedelta(days=upto))


def answers_of(folder: Path, cell: str, upto: int, *, charges: bool, every: int = 1) -> Answers:
    """The figures of the cell."""
    return figures_of_item(hangar_of(folder, cell, upto, charges=charges, every=every), "P-1")


@pytest.mark.parametrize("cell", sorted(ENDS))
@pytest.mark.parametrize("charges", [True, False])
def test_b10_the_whole_history_gives_the_end(tmp_path: Path, cell: str, charges: bool) -> None:
    """With all 168 discharges known the number is the published one, charges written or not."""
    figure = answers_of(tmp_path, cell, 168, charges=charges).find("pack_end_of_life")
    assert figure is not None

    assert ENDS[cell] == figure.value
    assert (None, None) == (figure.low, figure.high)  # nothing to be unsure of
    assert "reached" == figure.verdict


@pytest.mark.parametrize("cell", sorted(ENDS))
def test_b10_at_three_quarters_of_life_the_wide_interval_holds_the_end(
    tmp_path: Path, cell: str
) -> None:
    """As of three quarters of life the figure has an interval, and a day with its own."""
    answers = answers_of(tmp_path, cell, ENDS[cell] * 3 // 4, charges=True)
    figure, day = answers.find("pack_end_of_life"), answers.find("pack_end_of_life_date")
    assert figure is not None
    assert day is not None

    assert 0.8 == figure.level
    assert figure.other["low at 95 %"] <= ENDS[cell] <= figure.other["high at 95 %"]
    assert day.low_day is not None
    assert day.high_day is not None
    assert day.low_day <= FIRST + datetime.timedelta(days=ENDS[cell]) <= day.high_day


@pytest.mark.parametrize("cell", sorted(ENDS))
def test_b10_a_measurement_now_and_then_is_enough(tmp_path: Path, cell: str) -> None:
    """Every tenth discharge measured: charges are counted, and the end is within ten of them."""
    figure = answers_of(tmp_path, cell, 168, charges=True, every=10).find("pack_end_of_life")
    assert figure is not None
    assert figure.value is not None

    assert abs(figure.value - ENDS[cell]) <= 10
    assert any(note.startswith("charges since the first are counted") for note in figure.notes)


def test_too_early_to_say_is_said(tmp_path: Path) -> None:
    """Three readings say nothing; the words name how many it takes."""
    answers = answers_of(tmp_path, "b0005", 3, charges=True)
    missing = {one.name: one.because for one in answers.cannot_say}

    assert "too early to say: 3 readings, 4 are needed" == missing["pack_end_of_life"]
    assert "too early to say: 3 readings, 4 are needed" == missing["pack_end_of_life_date"]
