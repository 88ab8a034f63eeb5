"""What opens a task: drift, an odd cell, a capacity below the share."""

from pathlib import Path

import pytest
from small_hangars import LOG, SMALL, SPECS, opened
from test_log_and_packs import flights

from buildbook.figures.answers.log.drift import signals_of_aircraft, signals_of_pack
from buildbook.report.upkeep.findings import Drifted
from buildbook.report.upkeep.pack_findings import CapacityLow, OddCell

STEADY = "".join(flights(1, 9.0 + 0.1 * (-1) ** number, number) for number in range(30))
WORSE = "".join(flights(1, 11.0 + 0.1 * (-1) ** number, number) for number in range(30, 42))


def test_a_steady_hangar_shows_nothing(tmp_path: Path) -> None:
    """Scatter is no signal."""
    hangar = opened(tmp_path, {**SMALL, "aircraft/sedge/logbook.yaml": LOG + STEADY})

    assert () == signals_of_aircraft(hangar, "sedge")
    assert () == signals_of_pack(hangar, "P-1")
    assert () == signals_of_pack(hangar, "M-1")


def test_drift_says_of_what_and_how_far(tmp_path: Path) -> None:
    """9 A become 11 A: the average moves up by about 20 %, the time on an Ah down by a sixth."""
    hangar = opened(tmp_path, {**SMALL, "aircraft/sedge/logbook.yaml": LOG + STEADY + WORSE})
    (pack,) = signals_of_pack(hangar, "P-1")
    (aircraft,) = signals_of_aircraft(hangar, "sedge")

    assert "drift" == pack.figure == aircraft.figure
    assert isinstance(pack.found, Drifted)
    assert isinstance(aircraft.found, Drifted)
    assert ("charge a minute", 20) == (pack.found.of, round(pack.found.share * 100))
    assert ("time on an ampere-hour", -17) == (
        aircraft.found.of,
        round(aircraft.found.share * 100),
    )


def test_an_odd_cell_is_named_with_its_charge(tmp_path: Path) -> None:
    """7.5 against 5.0 and 5.1 mΩ."""
    charge = "- {on: 2026-03-01, charge: P-1, resistance: [5.0 mΩ, 5.1 mΩ, 7.5 mΩ]}\n"
    (signal,) = signals_of_pack(opened(tmp_path, {**SMALL, "stores/p-1.yaml": charge}), "P-1")

    assert isinstance(signal.found, OddCell)
    assert (3, 49) == (signal.found.cell, round(signal.found.share * 100))
    assert "stores/p-1.yaml:1" == str(signal.entry.place)


@pytest.mark.parametrize(
    ("measured", "because"),
    [
        (1040, None),
        (1039, CapacityLow(share=1039 / 1300, least_share=0.8)),
    ],
)
def test_capacity_at_the_share_exactly_is_no_signal(
    tmp_path: Path, measured: int, because: CapacityLow | None
) -> None:
    """D18 of the record rules: rated 1300, measured 1040 is ok (80.0 %), 1039 is a review."""
    files = {
        **SMALL,
        "parts/specs.yaml": SPECS.replace("capacity: 2200 mAh", "capacity: 1300 mAh"),
        "stores/p-1.yaml": f"- {{on: 2026-03-01, capacity: P-1, measured: {measured} mAh}}\n",
    }
    signals = signals_of_pack(opened(tmp_path, files), "P-1")

    assert ([] if because is None else [because]) == [signal.found for signal in signals]
