"""Parts that come back as they were, or from a crash of another aircraft."""

from pathlib import Path

import pytest
from hangar_on_disk import AIRCRAFT, LOGBOOK, Hangar, with_log

LOG = "aircraft/sedge/logbook.yaml"
SWAPPED = """\
- {on: 2026-06-19, id: cuts, defect: ESC cuts out in the air, item: E-02}
- {on: 2026-06-19, remove: E-02}
- {on: 2026-06-20, cleared: cuts, how: ESC swapped}
"""
AGAIN = "- {on: 2026-06-20, fit: {front-right: {esc: E-02}}}\n"
FLOWN = "- {on: 2026-06-20, flight: 5:00, pack: P-01}\n"
CHECKED = (
    "- on: 2026-06-20\n  check: [spin-directions, esc-endpoints, start-spread, compass]\n"
    "  result: pass\n"
    "- {on: 2026-06-20, inspection: [solder-and-leads]}\n"
    "- {on: 2026-06-20, flight: 5:00, pack: P-01, purpose: check, result: pass}\n"
)
LOOKED = "- {on: 2026-06-20, inspection: part-look, tags: [E-02], result: %s, findings: joint}\n"


ENDPOINTS = (
    "- {on: 2026-06-20, check: esc-endpoints, result: pass, stations: [%s]}\n"
    "- {on: 2026-06-20, check: check-flight, result: pass, sure: true}\n"
)


def test_the_part_of_a_cleared_defect_is_fitted_again(tmp_path: Path) -> None:
    """Cleared while it was out, by another part: nobody looked at this one."""
    found = Hangar(tmp_path, with_log(SWAPPED + AGAIN + FLOWN))
    line = found.line(LOG, AGAIN.strip())

    assert (
        "part look of E-02 at front-right: due, fitted again, not looked at since defect cuts was"
        " found on 19 June 2026"
    ) in found.reasons()
    assert f"E-02, the part of the cleared defect cuts, is fitted again @ {line}\n" in found.check
    assert [] == found.silent_commands("part look", "defect cuts was found")
    said = Hangar(tmp_path / "said", with_log(SWAPPED + AGAIN + CHECKED))
    assert [] == said.silent_pages("part look")


@pytest.mark.parametrize(
    "log",
    [
        SWAPPED + AGAIN + LOOKED % "pass",
        SWAPPED + LOOKED % "pass" + AGAIN,
        SWAPPED + "- {on: 2026-06-20, repair: new leads, touched: [E-02]}\n" + AGAIN,
        SWAPPED + AGAIN + "- {on: 2026-06-20, inspection: full-inspection}\n",
        SWAPPED + AGAIN + ENDPOINTS % "front-right",
        SWAPPED + AGAIN.replace("E-02", "E-05"),
        # mended where it sits
        SWAPPED.replace("- {on: 2026-06-19, remove: E-02}\n", ""),
    ],
)
def test_nothing_of_one_that_was_looked_at_or_mended(tmp_path: Path, log: str) -> None:
    """By its tag, with the whole aircraft, or because it never left."""
    found = Hangar(tmp_path, with_log(log + FLOWN))

    assert "no problems" in found.check
    assert [] == found.rows("part-look")
    assert "is fitted again" not in found.check


def test_a_look_that_failed_leaves_it_open(tmp_path: Path) -> None:
    """Whether by this row or that of the failed look."""
    found = Hangar(tmp_path, with_log(SWAPPED + AGAIN + LOOKED % "fail"))

    assert found.rows("part-look")


REED = LOGBOOK.replace("P-01", "P-02")
for kind, count in (("M", 4), ("E", 4), ("L", 2), ("R", 2)):
    for number in range(count, 0, -1):
        more = number + (4 if kind in "ME" else 2)
        REED = REED.replace(f"{kind}-0{number}", f"{kind}-0{more}")
REED = REED.replace("F-01", "F-02").replace("C-01", "C-02").replace("X-01", "X-02")


def crashed(after: str, event: str = "incident: dived, severity: total") -> dict[str, str]:
    """Reed crashed, and its receiver went to Sedge."""
    log = REED + (f"- {{on: 2026-06-19, {event}}}\n- {{on: 2026-06-19, remove: [X-02, C-02]}}\n")
    files = with_log(
        "- {on: 2026-06-20, remove: X-01}\n- {on: 2026-06-20, fit: {centre: {receiver: X-02}}}\n"
        + after
    )
    items = "parts/items.yaml"
    files[items] = files[items].replace("M-05", "M-08").replace("E-05", "E-08")
    return {
        **files,
        "aircraft/reed/aircraft.yaml": AIRCRAFT.replace("Sedge", "Reed").replace(
            "memory: 4", "memory: 5"
        ),
        "aircraft/reed/logbook.yaml": log,
    }


def test_a_part_of_a_crash_of_another_aircraft(tmp_path: Path) -> None:
    """Its row stands with the aircraft that got it."""
    found = Hangar(tmp_path, crashed(FLOWN))

    assert (
        "part look of X-02 at centre: due, not looked at since X-02 was in the crash of Reed on"
        " 19 June 2026"
    ) in found.reasons()
    assert ["sedge"] == [row["aircraft"] for row in found.rows("part-look")]


@pytest.mark.parametrize(
    "files",
    [
        crashed("- {on: 2026-06-20, inspection: part-look, tags: [X-02]}\n"),
        crashed("- {on: 2026-06-20, inspection: full-inspection}\n"),
        crashed("", "note: landed well"),
        crashed("", "incident: dived, severity: total, touched: [rear-left]"),
    ],
)
def test_not_of_one_that_was_looked_at_or_untouched(tmp_path: Path, files: dict[str, str]) -> None:
    """Closed by its tag or with the whole aircraft; and a crash touches what it names."""
    assert [] == Hangar(tmp_path, files).rows("part-look")


WATER = "water: landed in the pond"
DRIED = "- {on: 2026-06-19, inspection: drying}\n- {on: 2026-06-19, remove: [X-02"


def test_a_part_that_got_wet_with_another_aircraft(tmp_path: Path) -> None:
    """Receiver and controller may rot unseen; what to do is to dry it, then to try it alone."""
    found = Hangar(tmp_path, crashed(FLOWN, WATER))
    why = "neither opened nor looked at since X-02 got wet with Reed on 19 June 2026"

    assert f"part look of X-02 at centre: due, {why}" in found.reasons()
    assert ["sedge"] == [row["aircraft"] for row in found.rows("part-look")]
    assert [] == found.silent_commands("part look", why)
    assert "let it dry for days; then try it alone" in found.due[1]


def test_not_of_a_frame_nor_of_what_was_dried_before(tmp_path: Path) -> None:
    """A frame rots not; the aircraft was opened and dried while the part was aboard."""
    before = crashed("", WATER)
    log = "aircraft/reed/logbook.yaml"
    dried = {**before, log: before[log].replace("- {on: 2026-06-19, remove: [X-02", DRIED)}
    frame = {
        path: text.replace("X-02, C-02", "F-02").replace(
            "- {on: 2026-06-20, remove: X-01}\n- {on: 2026-06-20, fit: {centre: {receiver: X-02}}}",
            "- {on: 2026-06-20, remove: F-01}\n- {on: 2026-06-20, fit: {centre: {frame: F-02}}}",
        )
        for path, text in before.items()
    }

    for name, one in (("dried", dried), ("frame", frame)):
        assert [] == Hangar(tmp_path / name, one).rows("part-look"), name


@pytest.mark.parametrize(
    "look",
    [
        ENDPOINTS % "rear-left",
        (ENDPOINTS % "front-right").replace("esc-endpoints", "propeller-fit"),
        "- {on: 2026-06-20, inspection: full-inspection, tags: [E-01]}\n",
    ],
)
def test_a_look_elsewhere_or_at_something_else_leaves_it_open(tmp_path: Path, look: str) -> None:
    """Another station, another kind, another tag."""
    assert Hangar(tmp_path, with_log(SWAPPED + AGAIN + look)).rows("part-look")


OWN = """\
programme: own
based_on: small-multirotor
tasks:
  - {task: winter-look, what: All of it on the bench., every: {months: 12}, %s}
"""


@pytest.mark.parametrize(
    ("covers", "left"), [("covers: [full-inspection]", 0), ("covers: [solder-and-leads]", 1)]
)
def test_a_full_inspection_of_the_keepers_own(tmp_path: Path, covers: str, left: int) -> None:
    """By what its programme says that it covers."""
    aircraft, hangar = "aircraft/sedge/aircraft.yaml", "hangar.yaml"
    files = with_log(SWAPPED + AGAIN + "- {on: 2026-06-20, inspection: winter-look}\n")
    files["programmes/own.yaml"] = OWN % covers
    files[aircraft] = files[aircraft].replace("small-multirotor", "own")
    files[hangar] = files[hangar].replace("small-multirotor", "own")

    assert left == len(Hangar(tmp_path, files).rows("part-look"))


OUT_WHILE = """\
- {on: 2026-06-19, water: in the ditch}
- {on: 2026-06-19, remove: [X-01]}
%s- {on: 2026-06-20, fit: {centre: {receiver: X-01}}}
"""


@pytest.mark.parametrize(
    ("looked", "rows"),
    [
        ("- {on: 2026-06-20, inspection: drying}\n", 1),
        ("- {on: 2026-06-20, inspection: drying}\n" + LOOKED.replace("E-02", "X-01") % "pass", 0),
        ("- {on: 2026-06-20, inspection: drying, result: fail, findings: mud}\n", 0),
        ("", 0),
    ],
)
def test_a_part_that_was_out_while_its_own_aircraft_dried(
    tmp_path: Path, looked: str, rows: int
) -> None:
    """It came back as wet as it went; while the aircraft itself waits for drying, it is that."""
    found = Hangar(tmp_path, with_log(OUT_WHILE % looked))

    why = "neither opened nor looked at since X-01 got wet with Sedge on 19 June 2026"
    assert rows == len(found.rows("part-look"))
    assert (rows == 1) == (f"part look of X-01 at centre: due, {why}" in found.reasons())


def test_a_part_that_was_out_while_its_own_aircraft_was_inspected(tmp_path: Path) -> None:
    """After a crash: the rest was gone through without it."""
    crash = OUT_WHILE.replace("water: in the ditch", "incident: dived, severity: hard")
    looked = "- {on: 2026-06-20, inspection: full-inspection}\n"

    said = "part look of X-01 at centre: due, not looked at since X-01 was in the crash of Sedge"
    with_look, without = (
        [one for one in Hangar(tmp_path / name, with_log(crash % more)).reasons() if said in one]
        for name, more in (("a", looked), ("b", ""))
    )
    assert ([f"{said} on 19 June 2026"], []) == (with_look, without)
