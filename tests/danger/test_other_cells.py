"""A pack of more cells than a part takes, on one of its aircraft: there it is not to be flown."""

from pathlib import Path

from hangar_on_disk import QUIET, Hangar, with_four_cells, with_log

FLIGHT = "- {on: 2026-06-20, flight: 5:00, pack: Q-01%s}\n"
RANGE = "cells: 2S-4S"


def two_aircraft(more: str = "") -> dict[str, str]:
    """Sedge takes three cells, Teasel any; Q-01, of four, was flown on both."""
    files = with_four_cells(with_log(FLIGHT % more))
    return {
        **files,
        "parts/specs.yaml": files["parts/specs.yaml"].replace(RANGE, "cells: 2S-3S"),
        "aircraft/teasel/aircraft.yaml": "aircraft: Teasel\nkind: aeroplane\nlayout: aeroplane\n"
        "in_service: 2026-05-01\nwing: {span: 1200 mm}\n",
        "aircraft/teasel/logbook.yaml": "- {on: 2026-06-18, flight: 5:00, pack: Q-01}\n",
    }


def test_the_flight_is_a_warning_that_names_the_part(tmp_path: Path) -> None:
    """Not that other packs had other cells; whoever is sure of the flight says so."""
    found = Hangar(tmp_path, two_aircraft())
    line = found.line("aircraft/sedge/logbook.yaml", "Q-01")

    assert (
        f"warning: sedge flew on Q-01, which is 4S, where E-01 takes 2S-3S @ {line}\n"
        in found.check
    )
    assert "cells, sedge flew on" not in found.check
    assert "flew on" not in Hangar(tmp_path / "sure", two_aircraft(", sure: true")).check


def test_it_stays_at_home_for_that_aircraft_alone(tmp_path: Path) -> None:
    """On the card of Sedge it is grounded and has no voltage to land at; Teasel flies it."""
    found = Hangar(tmp_path, two_aircraft())
    said = "pack cells of Q-01: failed, E-01 takes 2S to 3S, Q-01 is 4S"

    assert ("due soon", [said]) == found.pack("Q-01")
    assert 3 == found.due[0]
    assert "Q-01 grounded" in found.page("cards/sedge-field.html")
    assert "Q-01 grounded" not in found.page("cards/teasel-field.html")
    assert said.partition(": ")[2] in found.page("items/Q-01.html")


def test_no_flight_from_before_that_part_was_fitted(tmp_path: Path) -> None:
    """What was fitted then may have taken it."""
    files = two_aircraft()
    log = "aircraft/sedge/logbook.yaml"
    fitted = files[log].replace(
        "- on: 2026-05-01", "- {on: 2026-04-30, flight: 5:00, pack: Q-01}\n- on: 2026-05-01", 1
    )
    files[log] = fitted.replace(FLIGHT % "", "")

    assert "flew on Q-01, which is" not in Hangar(tmp_path, files).check


def test_enter_asks_back(tmp_path: Path) -> None:
    """Before the flight is written."""
    files = with_four_cells(QUIET)
    files["parts/specs.yaml"] = files["parts/specs.yaml"].replace(RANGE, "cells: 2S-3S")
    found = Hangar(tmp_path, files)
    words = ("enter", "--hangar", str(found.folder), "--on", "2026-06-20", "flight", "sedge")
    status, said = found.run(*words, "5:00", "Q-01")

    assert (1, True) == (status, "flew on Q-01, which is 4S, where E-01 takes 2S-3S" in said)
