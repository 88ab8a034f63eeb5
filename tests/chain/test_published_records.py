"""The whole chain on published records: what comes out agrees with the source.

Flights: R. Craciun 2025, Crazyflie battery data, doi:10.1007/978-3-031-87537-3_10, CC BY-SA 4.0.
Cells: B. Saha and K. Goebel 2007, Battery Data Set, NASA Prognostics Data Repository.
Notices and licences stand beside the data in ``tests/published/data``.
"""

import datetime
import json
from pathlib import Path

import pytest

from buildbook.commands.main import main
from buildbook.hangar.fold import fold
from buildbook.records.reading.read import read_hangar
from buildbook.report.state import Hangar
from tests.pages.sites import as_read

pytestmark = pytest.mark.usefixtures("private_cache")
DAY = datetime.date(2024, 12, 31)


@pytest.fixture(scope="module")
def hangar(published_hangar: Path) -> Hangar:
    """The folded hangar."""
    reading = read_hangar(published_hangar)
    assert reading.ledger is not None
    assert [str(problem) for problem in reading.problems] == []
    return fold(reading.ledger, DAY)


def figures(folder: Path, name: str, capsys: pytest.CaptureFixture[str]) -> dict[str, dict]:
    """The figures of an aircraft or item as the command prints them, by name."""
    assert main(["figures", name, str(folder), "--json"]) == 0
    printed = json.loads(capsys.readouterr().out)
    return {figure["name"]: figure for figure in printed["figures"]}


def test_flights_and_hours_are_those_of_the_source(hangar: Hangar) -> None:
    """Check values F01: 155 flights, 12915.11 s, 3.587531 h."""
    counters = hangar.aircraft["nano"].counters

    assert counters.flights == 155
    assert counters.duration_s == pytest.approx(12915.11, rel=1e-6)
    assert counters.flying_days == 31


def test_the_pack_carries_the_same_flights(hangar: Hangar) -> None:
    """The one cell of the source was flown in all of them."""
    assert hangar.items["NANO"].counters.flights == 155


def test_lowest_voltages_are_those_of_the_source(hangar: Hangar) -> None:
    """Check values F03 and F04: 22 flights below 3.0 V, the lowest 2.6921 V."""
    lowest = [
        flight.volts.lowest_v
        for flight in hangar.aircraft["nano"].flights
        if flight.volts is not None and flight.volts.lowest_v is not None
    ]

    assert sum(volts < 3.0 for volts in lowest) == 22
    assert min(lowest) == pytest.approx(2.6921)


@pytest.mark.parametrize(
    ("cell", "cycles", "first", "lowest"),
    [("B0005", 132.090, 1.856487, 1.287453), ("B0007", 138.131, 1.891052, 1.400455)],
)
def test_cells_have_the_cycles_and_capacities_of_the_source(
    hangar: Hangar, cell: str, cycles: float, first: float, lowest: float
) -> None:
    """Check values B01, B02, B03 and B14: discharges, capacities, equivalent full cycles."""
    pack = hangar.items[cell]

    assert len(pack.capacities) == 168
    assert pack.counters.charges == 168
    assert pack.counters.cycles == pytest.approx(cycles, abs=1e-3)
    assert pack.capacities[0].measured_ah == pytest.approx(first)
    assert min(done.measured_ah for done in pack.capacities) == pytest.approx(lowest)


@pytest.mark.parametrize(("cell", "end"), [("B0005", 91), ("B0007", 94)])
def test_a_pack_past_its_end_says_when_that_was(
    published_hangar: Path, capsys: pytest.CaptureFixture[str], cell: str, end: int
) -> None:
    """Check value B10: below 80 % of rated (1.6 Ah) for good from that discharge on."""
    found = figures(published_hangar, cell, capsys)

    assert found["pack_end_of_life"]["value"] == end


def test_figures_of_the_aircraft_agree_with_the_source(
    published_hangar: Path, capsys: pytest.CaptureFixture[str]
) -> None:
    """Hours and flights of the airframe, as the command prints them."""
    found = figures(published_hangar, "nano", capsys)

    assert found["aircraft_flights"]["value"] == 155
    assert found["aircraft_hours"]["value"] == pytest.approx(3.587531, rel=1e-6)


def test_due_says_what_was_never_done(
    published_hangar: Path, capsys: pytest.CaptureFixture[str]
) -> None:
    """A flight log alone holds no check: the aircraft is grounded, and 3 is the exit status."""
    status = main(["due", str(published_hangar), "--json"])

    printed = json.loads(capsys.readouterr().out)
    never = {row["name"] for row in printed["rows"] if row["state"] == "never done"}
    assert status == 3
    assert printed["aircraft"][0]["state"] == "grounded"
    assert "spin-directions" in never


@pytest.mark.parametrize("audience", ["owner", "public"])
def test_the_site_of_published_records_is_written(
    published_hangar: Path, tmp_path: Path, audience: str
) -> None:
    """The pages tell the totals of the source."""
    site = tmp_path / "site"

    assert main(["render", str(published_hangar), "--into", str(site), "--for", audience]) == 0
    page = as_read((site / "aircraft/nano/index.html").read_text("utf-8"))
    assert "155 flights" in page
    assert (audience == "owner") == (site / "items/B0005.html").exists()
