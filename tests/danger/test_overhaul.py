"""R08 and R17: an overhaul is one with a test, and its time stands beside the total."""

from pathlib import Path

import pytest
from hangar_on_disk import ITEMS, QUIET, Hangar, with_log

LOG = "aircraft/sedge/logbook.yaml"
STEPS = "[strip, clean, inspect, reassemble, test]"
OVERHAUL = f"- on: 2026-06-19\n  overhaul: [M-03]\n  steps: {STEPS}\n"
BACK_IN = """\
- on: 2026-06-19
  check: [motor-screws, spin-directions, start-spread, correction-sense, check-flight]
  result: pass
"""
FIVE_HOURS = "- on: 2026-06-20\n  flights:\n" + "  - [15:00, P-01]\n" * 20
CARRIED = ITEMS.replace(
    "M-01..M-05, spec: motor, acquired: 2026-03-01}",
    "M-01..M-05, spec: motor, acquired: 2026-03-01,"
    " carried: {hours: 49.9, flights: 480, basis: measured}}",
)


def lived(hangar: Hangar, tag: str = "M-03") -> str:
    """What the page of a part says of its life."""
    page = hangar.page(f"items/{tag}.html")
    return page.partition("Life to date")[2].partition("Where it has been")[0]


def test_R17_time_since_overhaul_stands_beside_the_total(tmp_path: Path) -> None:
    """50.0 h before, 5.0 h since: the total is never reset, and another motor has no such time."""
    hangar = Hangar(
        tmp_path, with_log(OVERHAUL + BACK_IN + FIVE_HOURS, **{"parts/items.yaml": CARRIED})
    )

    assert "Flown 55.0 h" in lived(hangar)
    assert "Since overhaul 5.0 h, 20 flights; overhauled 19 June 2026" in lived(hangar)
    assert "Since overhaul" not in lived(hangar, "M-02")


def test_R17_a_second_overhaul_begins_anew(tmp_path: Path) -> None:
    """What was flown between the two is in the total only."""
    again = OVERHAUL.replace("06-19", "06-20")
    hangar = Hangar(tmp_path, with_log(OVERHAUL + FIVE_HOURS + again))

    assert "Since overhaul 0.00 h, 0 flights; overhauled 20 June 2026" in lived(hangar)


def test_R17_a_part_overhauled_on_the_bench_between_two_aircraft_entries_of_a_day(
    tmp_path: Path,
) -> None:
    """Out, overhauled in a store, in again and flown, all on one day: that flight is since."""
    log = (
        "- on: 2026-06-20\n  remove: [M-03]\n"
        "- on: 2026-06-20\n  fit: {rear-left: {motor: M-03}}\n"
        "- on: 2026-06-20\n  flight: 6:00\n  pack: P-01\n"
    )
    store = OVERHAUL.replace("06-19", "06-20")
    hangar = Hangar(tmp_path, with_log(log, **{"stores/motors.yaml": store}))

    assert "Since overhaul 0.10 h, 1 flight; overhauled 20 June 2026" in lived(hangar)


@pytest.mark.parametrize(
    ("steps", "at"),
    [("  steps: [strip, clean, reassemble]\n", "steps:"), ("", "overhaul:")],
)
def test_R08_without_a_test_it_is_a_service(tmp_path: Path, steps: str, at: str) -> None:
    """A warning at its steps, and no time since overhaul."""
    hangar = Hangar(tmp_path, with_log(f"- on: 2026-06-19\n  overhaul: [M-03]\n{steps}"))

    place = hangar.line(LOG, at)
    assert (
        "warning: overhaul of M-03 without a test: time since overhaul is not counted from it"
        f" @ {place}\n"
        "    call this a service, or record the test\n"
    ) in hangar.check
    assert "Since overhaul" not in lived(hangar)


def test_R08_a_voided_overhaul_begins_nothing_and_a_corrected_one_does(tmp_path: Path) -> None:
    """What counts is what stands."""
    bare = "- on: 2026-06-19\n  id: bearings\n  overhaul: M-03\n"
    voided = OVERHAUL.replace("  overhaul", "  id: bearings\n  overhaul")
    mended = (
        f"- on: 2026-06-20\n  corrects: bearings\n  set: {{steps: {STEPS}}}\n  because: left out\n"
    )
    gone = "- on: 2026-06-20\n  voids: bearings\n  because: it was M-02\n"
    corrected = Hangar(tmp_path / "corrected", with_log(bare + mended))
    void = Hangar(tmp_path / "void", with_log(voided + gone))

    assert "without a test" not in corrected.check
    assert "overhauled 19 June 2026" in lived(corrected)
    assert "Since overhaul" not in lived(void)


def test_an_overhaul_closes_no_task_and_re_opens_what_fitting_re_opens(tmp_path: Path) -> None:
    """The bearings of M-03 count on; fitted, its direction is to be looked at again."""
    hangar = Hangar(tmp_path, with_log(OVERHAUL))
    before = Hangar(tmp_path / "before", QUIET)

    def bearings(of: Hangar) -> list[dict[str, float]]:
        return [
            row["left"]
            for row in of.json["rows"]
            if (row["name"], row["tag"]) == ("motor-bearings", "M-03")
        ]

    assert [{"flights": 49, "days": 315}] == bearings(before) == bearings(hangar)
    stale = {row["name"]: row["station"] for row in hangar.json["rows"] if row["state"] == "stale"}
    assert {
        "motor-screws": "rear-left",
        "spin-directions": "rear-left",
        "propeller-fit": "rear-left",
        "start-spread": "rear-left",
        "propeller-balance": "rear-left",
        "screws-and-mounts": None,
        "check-flight": None,
    } == stale
    assert (
        "spin directions at rear-left - stale re-opened: motor overhauled on 19 June 2026"
        in (hangar.due[1])
    )
    assert "grounded" == hangar.state()


def test_an_overhaul_in_the_drawer_re_opens_nothing(tmp_path: Path) -> None:
    """Of a spare, in a file of stores."""
    store = OVERHAUL.replace("M-03", "M-05")
    hangar = Hangar(tmp_path, {**QUIET, "stores/motors.yaml": store})

    assert "no problems" in hangar.check
    assert [] == hangar.rows("spin-directions")
    assert "overhauled 19 June 2026" in lived(hangar, "M-05")


@pytest.mark.parametrize(
    ("entry", "said"),
    [
        ("overhaul: [M-99]\n  steps: [test]", "unknown tag 'M-99'"),
        ("overhaul: P-01\n  steps: [test]", "'P-01' is a battery, and packs are not overhauled"),
        ("overhaul: []\n  steps: [test]", "'overhaul' is an empty list"),
        ("overhaul: M-03\n  steps: [strip, tests]", "did you mean 'test'?"),
    ],
)
def test_slips_in_an_overhaul_are_told(tmp_path: Path, entry: str, said: str) -> None:
    """As problems, at the entry."""
    hangar = Hangar(tmp_path, with_log(f"- on: 2026-06-19\n  {entry}\n"))

    assert f"{said}" in hangar.check
    assert 1 == hangar.run("check", str(hangar.folder))[0]


def test_the_logbook_and_the_timeline_say_the_overhaul(tmp_path: Path) -> None:
    """With its steps."""
    hangar = Hangar(tmp_path, with_log(OVERHAUL))

    words = "overhauled M-03: strip, clean, inspect, reassemble, test"
    for page in ("logbook", "timeline"):
        assert words in hangar.page(f"aircraft/sedge/{page}.html").replace(
            "Overh", "overh"
        ).replace(" :", ":")
