"""A pack that must not be flown on an aircraft gets no timer for it: nobody shall set one."""

from pathlib import Path

import pytest
from hangar_on_disk import AIRCRAFT, QUIET, Hangar, with_four_cells, with_log

FLOWN = "- {on: 2026-06-20, flight: 6:00, pack: Q-01, used: 900 mAh, sure: true}\n"
FIELD = "cards/sedge-field.html"


def said(hangar: Hangar) -> str:
    """All that the figures of Sedge say."""
    return " ".join(hangar.run("figures", "sedge", str(hangar.folder))[1].split())


@pytest.mark.parametrize(
    ("limit", "told"), [("1200 g", False), ("1150 g", True)], ids=["within", "over"]
)
def test_over_the_mass_limit(tmp_path: Path, limit: str, told: bool) -> None:
    """1096 g weighed with P-01 of 220 g: 1156 g with Q-01 of 280 g, above 1150."""
    path = "aircraft/sedge/aircraft.yaml"
    files = with_four_cells(with_log(FLOWN))
    files[path] = AIRCRAFT + f"bounds: {{max_mass: {limit}}}\n"
    hangar = Hangar(tmp_path, files)
    words = f"3 figures wait: Q-01 takes it over the mass limit of 1150 g @ {path}"

    assert told == (words in said(hangar))
    assert told == ("over the mass limit with q-01" in hangar.page(FIELD).lower())


def test_cells_that_a_part_does_not_take(tmp_path: Path) -> None:
    """An ESC for 2S to 3S, a pack of four cells that was flown all the same."""
    files = with_four_cells(with_log(FLOWN))
    files["parts/specs.yaml"] = files["parts/specs.yaml"].replace("2S-4S", "2S-3S")

    told = said(Hangar(tmp_path, files))
    assert "3 figures wait: Q-01 is 4S, and E-01 does not take that" in told
    assert "flown_time, Q-01" not in told
    assert "does not take that" not in said(Hangar(tmp_path / "quiet", QUIET))
