"""What can hardly be right is doubted with what was probably meant; ``sure: true`` silences it.

Thresholds are common practice, no source.
"""

from pathlib import Path

import pytest
from hangar_on_disk import QUIET, Hangar, with_log, with_text

LOG = "aircraft/sedge/logbook.yaml"


def warned(hangar: Hangar) -> list[str]:
    """The first lines of the warnings of ``check``."""
    return [line for line in hangar.check.splitlines() if line.startswith("warning: ")]


@pytest.mark.parametrize(
    ("entry", "words", "doubt"),
    [
        (
            "- {on: 2026-06-20, flight: '72:00', pack: P-02}\n",
            "72:00",
            "a flight of 1 h 12 min 00 s, while the longest other one of sedge took 6 min 10 s",
        ),
        (
            "- {on: 2026-06-20, flight: '6:00', pack: P-02, motor_run: '7:00'}\n",
            "motor_run",
            "the motor ran 7 min 00 s in a flight of 6 min 00 s",
        ),
        (
            "- {on: 2026-06-20, weigh: 10960 g, pack: P-01}\n",
            "10960",
            "weighed 10.96 kg, the last time 1096 g",
        ),
        (
            "- {on: 2026-06-20, inspection: motor-bearings, tags: [R-01]}\n",
            "motor-bearings",
            "motor-bearings is for a motor, but R-01 is a propeller",
        ),
        (
            "- {on: 2026-06-20, inspection: propeller-touch, tags: [E-03]}\n",
            "[E-03]",
            "propeller-touch is for a propeller, but E-03 is an ESC",
        ),
        (
            "- {on: 2026-06-20, flight: '6:00', pack: P-02, used: 1.48 mAh}\n",
            "1.48",
            "battery 'P-02' gave 1.48 mAh",
        ),
        (
            "- {on: 2026-06-20, charge: P-02, put_in: 1.5 mAh, to: part}\n",
            "1.5 mAh",
            "battery 'P-02' charged with 1.5 mAh",
        ),
        (
            "- {on: 2026-06-20, capacity: P-02, measured: 2.14 mAh}\n",
            "2.14",
            "battery 'P-02' measured at 2.14 mAh",
        ),
    ],
)
def test_a_slip_of_the_pen_is_doubted(tmp_path: Path, entry: str, words: str, doubt: str) -> None:
    """At its line, and not where the keeper is sure."""
    hangar = Hangar(tmp_path / "doubted", with_log(entry))
    sure = Hangar(tmp_path / "sure", with_log(entry.replace("}\n", ", sure: true}\n")))

    told = [line.partition(", and ")[0] for line in warned(hangar)]
    assert [f"warning: {doubt} @ {hangar.line(LOG, words)}"] == told
    assert doubt not in sure.check


def test_what_was_meant_is_told_and_a_tiny_pack_is_left_alone(tmp_path: Path) -> None:
    """Ten milliampere hours are nothing for a pack of 2200, and much for one of 80."""
    used = "- {on: 2026-06-20, flight: '6:00', pack: P-02, used: 9.9 mAh}\n"
    usual = Hangar(tmp_path / "usual", with_log(used))
    tiny = with_text("parts/specs.yaml", "capacity: 2200 mAh", "capacity: 80 mAh", used)
    small = Hangar(tmp_path / "tiny", tiny)

    assert "did you mean 9.9 Ah?" in usual.check
    assert "did you mean" not in small.check


def test_an_unusual_flight_that_can_be_is_not_doubted(tmp_path: Path) -> None:
    """Three times the longest, but no twenty minutes; twenty minutes, but not three times."""
    for number, length in enumerate(("18:40", "18:30")):
        hangar = Hangar(
            tmp_path / str(number), with_log(f"- {{on: 2026-06-20, flight: '{length}'}}\n")
        )
        assert [] == warned(hangar)


def test_the_same_flight_twice_and_two_at_once_are_doubted(tmp_path: Path) -> None:
    """Alike in day, length, pack and charge; or begun while the other went on."""
    twice = "- {on: 2026-06-20, flight: '6:00', pack: P-02, used: 1400 mAh}\n"
    once = twice.replace("'6:00'", "'6:05'")
    timed = once.replace("2026-06-20", "2026-06-20T10:00")
    later = timed.replace("10:00", "10:04").replace("6:05", "6:07")

    assert ["the same flight of 2026-06-20 is written twice"] == [
        line.removeprefix("warning: ").split(" @ ")[0]
        for line in warned(Hangar(tmp_path / "twice", with_log(twice + twice)))
        if "twice" in line
    ]
    at_once = "a flight of 2026-06-20 began while another one of sedge went on"
    assert at_once in Hangar(tmp_path / "at-once", with_log(timed + later)).check
    assert at_once not in Hangar(tmp_path / "after", with_log(timed + later[:24])).check


def test_more_than_a_day_in_a_day_is_doubted(tmp_path: Path) -> None:
    """Hours written where minutes were meant."""
    hangar = Hangar(tmp_path, with_log("- {on: 2026-06-20, flights: [[9 h], [9 h], [9 h]]}\n"))

    assert "sedge flew 27.0 h on 2026-06-20, which has 24 h" in hangar.check


def test_a_weighing_against_the_parts(tmp_path: Path) -> None:
    """The first one: a third of what its parts have is a slip, as they are all on the scales."""
    changed = {**QUIET, LOG: QUIET[LOG].replace("weigh: 1096 g", "weigh: 109.6 g")}

    assert "weighed 109.6 g, its parts add up to" in Hangar(tmp_path, changed).check


def test_what_follows_a_doubted_weighing_is_held_against_the_one_before(tmp_path: Path) -> None:
    """1096 g, 10.96 kg, 1100 g: the second alone is a slip."""
    log = "".join(
        f"- {{on: 2026-06-{day}, weigh: {mass}, pack: P-01}}\n"
        for day, mass in ((19, "10960 g"), (20, "1100 g"))
    )

    told = [one for one in warned(Hangar(tmp_path, with_log(log))) if "weighed" in one]
    assert 1 == len(told)
    assert "weighed 10.96 kg, the last time 1096 g" in told[0]


def test_a_price_in_another_currency_is_doubted(tmp_path: Path) -> None:
    """A bag is told once."""
    changed = {
        **QUIET,
        "hangar.yaml": QUIET["hangar.yaml"] + "currency: EUR\n",
        "parts/items.yaml": QUIET["parts/items.yaml"].replace(
            "spec: esc,", "price: 12 USD, spec: esc,"
        ),
    }

    assert ["warning: E-01 is priced in USD, the hangar keeps EUR @ parts/items.yaml:2"] == warned(
        Hangar(tmp_path, changed)
    )


@pytest.mark.parametrize(
    ("note", "lost"),
    [
        ("note: tried prop #3 today", "#3 today"),
        ("note: tried prop # 3 today", None),
        ('note: "tried prop #3 today"', None),
        ("note: tried prop#3 today", None),
        ("note: |\n    tried prop #3 today", None),
    ],
)
def test_text_that_yaml_takes_for_a_comment_is_told(
    tmp_path: Path, note: str, lost: str | None
) -> None:
    """A # that follows a space and stands before a letter or digit ends the text."""
    said = Hangar(tmp_path, with_log(f"- on: 2026-06-20\n  {note}\n")).check

    assert (lost is not None) == ("is a comment" in said)
    if lost is not None:
        assert f"'{lost}' is a comment: a # after a space ends the text before it @ {LOG}" in said


def test_a_storage_charge_written_as_its_task_closes_it(tmp_path: Path) -> None:
    """B8: a full pack that was brought down, by ``inspection: pack-storage-charge``."""
    full = QUIET["stores/p-01.yaml"].replace("2026-06-19", "2026-06-10").replace("storage", "full")
    done = "- {on: 2026-06-12, inspection: pack-storage-charge, tags: [P-01]}\n"

    waiting = Hangar(tmp_path / "full", {**QUIET, LOG: FLOWN_EARLIER, "stores/p-01.yaml": full})
    brought = {**QUIET, LOG: FLOWN_EARLIER, "stores/p-01.yaml": full + done}

    assert ["overdue"] == [row["state"] for row in waiting.rows("pack-storage-charge")]
    assert [] == Hangar(tmp_path / "brought", brought).rows("pack-storage-charge")


FLOWN_EARLIER = QUIET[LOG].replace("2026-06-18", "2026-06-08")


def test_alike_at_different_times_are_two_flights(tmp_path: Path) -> None:
    """Round numbers repeat themselves; the clock says that both were."""
    entry = "- {on: 2026-06-20T10:00, flight: '6:00', pack: P-02, used: 500 mAh}\n"
    later = entry.replace("10:00", "10:20")

    assert [] == warned(Hangar(tmp_path / "two", with_log(entry + later)))


@pytest.mark.parametrize(
    ("first", "again", "told"),
    [
        ("", "", True),
        ("T18:00", "", True),
        ("T18:00", "T18:00", True),
        ("T18:00", "T20:30", False),
    ],
)
def test_the_same_charge_twice_is_doubted(
    tmp_path: Path, first: str, again: str, told: bool
) -> None:
    """Alike in packs, day and charge, unless their times differ."""
    charge = "- {on: 2026-06-19DAY, charge: [P-01, P-02], put_in: 900 mAh}\n"
    entries = charge.replace("DAY", first) + charge.replace("DAY", again)
    store = {"stores/evening.yaml": entries}

    expected = ["the same charge of P-01 on 2026-06-19 is written twice"] if told else []
    doubts = warned(Hangar(tmp_path / "x", with_log("", **store)))

    assert expected == [line.removeprefix("warning: ").partition(" @ ")[0] for line in doubts]


@pytest.mark.parametrize(("pack", "told"), [("P-02", True), ("P-01", False)])
def test_a_pack_flown_on_that_day_may_take_the_same_charge_twice(
    tmp_path: Path, pack: str, told: bool
) -> None:
    """The flight may lie between them; one on another pack does not."""
    flight = f"- {{on: 2026-06-19, flight: '6:00', pack: {pack}, used: 900 mAh}}\n"
    charge = "- {on: 2026-06-19, charge: P-01, put_in: 900 mAh}\n"
    hangar = Hangar(tmp_path / "x", with_log(flight, **{"stores/evening.yaml": charge * 2}))

    assert told == any("the same charge of P-01" in line for line in warned(hangar))


def test_readings_of_one_pack_are_not_those_of_another(tmp_path: Path) -> None:
    """Of several packs nobody knows whose they are; on one lead they rest alike."""
    charge = "- {on: 2026-06-19, charge: [P-01, P-02], resting: [4.18 V, 4.19 V, 4.18 V]}\n"
    apart = {"stores/evening.yaml": charge}
    together = {"stores/evening.yaml": charge.replace("]}", "], together: true}")}

    (told,) = [
        line for line in warned(Hangar(tmp_path / "a", with_log("", **apart))) if "same" in line
    ]
    assert (
        "warning: the same resting of each cell for battery 'P-02' as for 'P-01'"
        " @ stores/evening.yaml:1"
    ) == told
    assert "same resting" not in Hangar(tmp_path / "b", with_log("", **together)).check
