"""Packs that are old, emptied too far or charged at a rate that nobody knows, and alarms too low.

Thresholds are common practice, no source.
"""

from pathlib import Path

import pytest
from hangar_on_disk import ITEMS, PACK, SPECS, Hangar, with_log

ALARM = "- {on: 2026-06-20, check: low-voltage-alarm, result: pass, readings: {alarm: %s}}\n"
CHEMISTRY = "chemistry: LiPo"
PACKS = "{tags: P-01..P-02, spec: pack, acquired: 2026-03-01}"


def of_spec(more: str, chemistry: str = "LiPo", log: str = "") -> dict[str, str]:
    """The quiet hangar with more in the spec of its packs."""
    text = SPECS.replace(CHEMISTRY, f"chemistry: {chemistry}, {more}")
    return with_log(log, **{"parts/specs.yaml": text})


@pytest.mark.parametrize(
    ("alarm", "said"),
    [
        ("3.1 V", "sounds at 3.10 V a cell, under load P-01 is near empty at 3.20 V"),
        ("3.2 V", "sounds at 3.20 V a cell, the reserve of P-01 begins at 3.67 V"),
        ("3.65 V", ""),
        ("3 V", "sounds at 3.00 V a cell, lowest of P-01 is 3.00 V"),
    ],
)
def test_an_alarm_near_empty(tmp_path: Path, alarm: str, said: str) -> None:
    """It grounds nothing; at the lowest of a cell that is the reason, as before."""
    found = Hangar(tmp_path, with_log(ALARM % alarm))
    whole = [f"low voltage alarm {said}"] if said else []

    assert (whole, bool(whole)) == (found.reasons(), found.state() == "due soon")


def test_an_alarm_above_a_recorded_cut_off_is_the_keepers(tmp_path: Path) -> None:
    """He knows his pack, so it is not near empty there; the reserve that he leaves is gone."""
    found = Hangar(tmp_path, of_spec("cutoff_cell_voltage: 3.0 V", log=ALARM % "3.1 V"))
    said = "low voltage alarm sounds at 3.10 V a cell, the reserve of P-01 begins at 3.67 V"

    assert [said] == found.reasons()


def test_a_low_alarm_is_told_beside_a_meter_that_reads_otherwise(tmp_path: Path) -> None:
    """One check with two things wrong says both, to machines as well."""
    found = Hangar(tmp_path, with_log(ALARM % "2.9 V, shown: 11.9 V, meter: 11.4 V"))
    read = "pack voltage shown read as 11.9 V, by meter 11.4 V"
    low = "2.90 V a cell, lowest of P-01 is 3.00 V"

    assert [f"low voltage alarm: failed, {read}; sounds at {low}"] == found.reasons()
    (row,) = found.rows("low-voltage-alarm")
    assert low == row["because"]["detail"]["alarm"]


@pytest.mark.parametrize(
    ("chemistry", "more", "said"),
    [
        ("LiPo", "2.3 V", "below 2.50 V, which harms a LiPo cell"),
        ("LiPo", "2.5 V", ""),
        ("LiIon", "2.4 V", ""),
        ("LiIon", "1.8 V", "below 2.00 V, which harms a LiIon cell"),
        ("LiPo", "2.3 V, volts: {lowest: 2.3 V}", ""),
        ("LiPo", "2.3 V, sure: true", ""),
        ("NiMH", "0.9 V", ""),
    ],
)  # fmt: skip
def test_a_cut_off_that_no_cell_bears(tmp_path: Path, chemistry: str, more: str, said: str) -> None:
    """A warning at the spec, unless its keeper gives a lowest voltage of his own."""
    found = Hangar(tmp_path, of_spec(f"cutoff_cell_voltage: {more}", chemistry))
    line = found.line("parts/specs.yaml", "cutoff")
    warned = f"warning: cut-off {more[:3]}0 V of pack is {said} @ {line}\n"

    assert (warned in found.check) == bool(said)
    assert ("cut-off" in found.check) == bool(said)


LOOK = "- {on: %s, inspection: pack-look, tags: [P-02]}\n"


@pytest.mark.parametrize(
    ("made", "look", "years"),
    [
        ("2016-01-01", "", 10),
        ("2018-06-20", "", 8),
        ("2018-06-21", "", 0),
        ("2016-01-01", LOOK % "2025-06-21", 0),
        ("2016-01-01", LOOK % "2025-06-20", 10),
    ],
)
def test_an_old_lithium_pack(tmp_path: Path, made: str, look: str, years: int) -> None:
    """From its eighth year it is looked at once a year; P-01 was, the day before."""
    aged = PACKS.replace("acquired: 2026-03-01", f"acquired: {made}")
    files = with_log("", **{"parts/items.yaml": ITEMS.replace(PACKS, aged)})
    found = Hangar(tmp_path, {**files, "stores/p-02.yaml": look} if look else files)
    said = [f"pack age of P-02: due, {years} years old"] if years else []

    assert said == [one for one in found.pack("P-02")[1] if "pack age" in one]
    assert (len(said), []) == (len(found.rows("pack-age")), [
        one for one in found.pack("P-01")[1] if "pack age" in one
    ])  # fmt: skip


FLOWN = "- {on: 2026-06-20, flight: 5:00, pack: P-01, volts: {after: %s}}\n"


def test_a_pack_that_reads_too_little_after_a_flight_was_flown_low(tmp_path: Path) -> None:
    """Under load it read less than that, so check warns; the row is to read it at rest, as ever."""
    low = Hangar(tmp_path / "low", with_log(FLOWN % "8.7 V"))
    read = Hangar(tmp_path / "read", with_log(FLOWN % "9.3 V"))

    assert "warning: battery 'P-01' flown down to 2.90 V a cell, less than 3.00 V @" in low.check
    assert "flown down" not in read.check
    assert (1, 1) == (len(low.rows("read-at-rest")), len(read.rows("read-at-rest")))


CHARGE = "- {on: 2026-06-20, charge: P-01, to: storage, current: %s}\n"


@pytest.mark.parametrize(
    ("current", "rate", "said"),
    [
        ("20 A", "", "P-01 charged at 20 A, 9.1 times the capacity, and pack says no charge_rate"),
        ("2.4 A", "", ""),
        ("4 A", "charge_rate: 2 C", ""),
        ("20 A, sure: true", "", ""),
    ],
)
def test_a_current_without_a_rate(tmp_path: Path, current: str, rate: str, said: str) -> None:
    """1 C needs none; with one it is held against that."""
    files = of_spec(rate or "mark: blue") if rate else with_log("")
    found = Hangar(tmp_path, {**files, "stores/p-01.yaml": PACK + CHARGE % current})

    assert (f"warning: {said} @" in found.check) == bool(said)
    assert ("charged at" in found.check) == bool(said)
