"""The transmitter is equipment of the radio: it never weighs, and another one re-opens checks."""

from pathlib import Path

from aeroplane_on_disk import CRAFT, plane
from hangar_on_disk import Hangar

RADIO = "radio: {memory: 7"
NAMED = "radio: {transmitter: T-01, memory: 7"


def _mass(hangar: Hangar) -> str:
    return hangar.run("figures", "heron", str(hangar.folder))[1]


def test_a_fitted_transmitter_weighs_nothing_in_the_air(tmp_path: Path) -> None:
    """720 g on the ground: mass, balance and the scales know nothing of it."""
    fitted = "- on: 2026-06-19\n  fit: {hand: {transmitter: T-01}}\n"
    quiet = Hangar(tmp_path / "quiet", plane())
    hangar = Hangar(tmp_path / "fitted", plane(fitted))

    assert [line for line in _mass(quiet).splitlines() if "all-up mass" in line.lower()] == [
        line for line in _mass(hangar).splitlines() if "all-up mass" in line.lower()
    ]
    assert [] == [row["state"] for row in hangar.rows("weighing")]
    assert "T-01" not in _mass(hangar)


def test_another_transmitter_re_opens_what_depends_on_it(tmp_path: Path) -> None:
    """Written as an alteration of the radio; the first one that is named is no other."""
    first = Hangar(tmp_path / "first", plane("", (CRAFT, RADIO, NAMED)))
    other = "- on: 2026-06-19\n  alteration: new transmitter\n  radio: {transmitter: T-02}\n"
    hangar = Hangar(tmp_path / "other", plane(other, (CRAFT, RADIO, NAMED)))

    assert "nothing open" == first.state("heron")
    stale = {row["name"] for row in hangar.json["rows"] if row["state"] == "stale"}
    assert {"receiver-order", "receiver-neutral", "stick-sense", "failsafe", "range"} <= stale
    assert [] == hangar.silent_pages("receiver order", "heron")


def test_firmware_of_the_transmitter_re_opens_the_range_of_all_that_it_flies(
    tmp_path: Path,
) -> None:
    """It sits on no aircraft; the radio says whose it is."""
    flashed = "- on: 2026-06-19\n  firmware: {T-01: '4.2'}\n"
    hangar = Hangar(tmp_path, plane(flashed, (CRAFT, RADIO, NAMED)))

    assert ["stale"] == [row["state"] for row in hangar.rows("range")]


def test_one_memory_number_of_two_transmitters_is_no_twin(tmp_path: Path) -> None:
    """Where it is not written which, it may be the same."""
    files = plane("", (CRAFT, RADIO, NAMED))
    second = files[CRAFT].replace("aircraft: Heron", "aircraft: Egret").replace("T-01", "T-02")
    bare = second.replace("transmitter: T-02, ", "").partition("surfaces:")[0]
    second = second.partition("surfaces:")[0]
    apart = Hangar(tmp_path / "apart", {**files, "aircraft/egret/aircraft.yaml": second})
    maybe = Hangar(tmp_path / "maybe", {**files, "aircraft/egret/aircraft.yaml": bare})

    assert [] == apart.rows("memory")
    assert ["heron", "egret"] == [row["aircraft"] for row in maybe.rows("memory")][::-1]
    assert "same memory" not in apart.page("radio.html")
    assert "same memory" in maybe.page("radio.html")
