"""A check that grounds nothing may be said not to apply, until a part may have brought it."""

from collections.abc import Mapping

from programmes import built, check, programme, task, the_row, work
from written_files import hangar_of
from written_logs import Log, aircraft

from buildbook.report.upkeep.work import Row
from buildbook.upkeep.work_list import work_list
from buildbook.words.measures.days import EXACT
from buildbook.words.reasons import row_words

FILES = {
    "parts/specs.yaml": """\
- {spec: m, kind: motor}
- {spec: c, kind: controller}
- {spec: g, kind: sensor}
- {spec: p, kind: battery, cells: 3S, capacity: 2200 mAh}
""",
    "parts/items.yaml": """\
- {tags: M-1..M-4, spec: m}
- {tag: C-1, spec: c}
- {tag: G-1, spec: g}
""",
    "aircraft/sedge/aircraft.yaml": """\
aircraft: Sedge
kind: multirotor
layout: quad-x
programme: small-multirotor
""",
}
LOG = """\
- on: 2026-01-06
  fit:
    front-left: {motor: M-1}
    front-right: {motor: M-2}
    rear-left: {motor: M-3}
    rear-right: {motor: M-4}
    centre: {controller: C-1}
- {on: 2026-01-07, check: compass, result: not applicable, because: none on board}
- {on: 2026-01-08, flight: 6:00}
"""


def rows(log: str, *names: str, files: Mapping[str, str] = FILES) -> dict[str, str]:
    """The rows of these names in words, or their state where nothing more is said."""
    hangar = hangar_of({**FILES, **files, "aircraft/sedge/logbook.yaml": log}, "2026-12-01")
    found: list[Row] = [row for row in work_list(hangar).rows if row.name in names]
    return {row.name: row_words(row, EXACT) for row in found}


def test_a_quad_without_a_compass_is_not_asked_for_it() -> None:
    """Neither for the check nor for the task that it covers, whatever else happens."""
    later = "- {on: 2026-02-01, transport: by train}\n- {on: 2026-02-02, flight: 6:00}\n"

    assert {
        "compass": "compass: said not to apply on 7 January 2026",
        "compass-again": "compass recalibration: covered by compass",
    } == rows(LOG + later, "compass", "compass-again")


def test_a_sensor_that_is_fitted_asks_again() -> None:
    """It may have brought a compass."""
    fitted = "- {on: 2026-02-01, fit: {centre: {sensor: G-1}}}\n"

    assert {"compass": "compass: never done"} == rows(LOG + fitted, "compass")


def test_one_motor_starts_with_no_other() -> None:
    """An aeroplane with one motor is not asked when its motors start."""
    plane = "aircraft: Sedge\nkind: aeroplane\nlayout: aeroplane\nprogramme: small-aeroplane\n"
    hangar = hangar_of(
        {
            **FILES,
            "aircraft/sedge/aircraft.yaml": plane,
            "aircraft/sedge/logbook.yaml": "- {on: 2026-01-06, fit: {nose: {motor: M-1}}}\n"
            "- {on: 2026-01-08, flight: 6:00}\n",
        },
        "2026-12-01",
    )

    assert [] == [row for row in work_list(hangar).rows if row.name == "start-spread"]
    assert ["nose"] == [
        row.station for row in work_list(hangar).rows if row.name == "spin-directions"
    ]


def test_a_check_that_grounds_stays_open_though_it_is_said_not_to_apply() -> None:
    """The reader refuses such an entry; where one was written before the check grounded, too."""
    log = Log("aircraft/a")
    log.check("01-02", "failsafe", "not applicable", because="no link")
    plane = aircraft("a", programme="club", kind="aeroplane", layout="aeroplane")
    found = {
        grounds: the_row(
            work([log], [programme(check("failsafe", grounds=grounds))], fleet=[plane]), "failsafe"
        ).state
        for grounds in (False, True)
    }

    assert {False: "not applicable", True: "open"} == found


def test_what_only_disturbs_a_compass_asks_for_none() -> None:
    """Another ESC brings no compass aboard; a controller may."""
    parts = {
        "parts/specs.yaml": FILES["parts/specs.yaml"] + "- {spec: e, kind: esc}\n",
        "parts/items.yaml": FILES["parts/items.yaml"]
        + "- {tags: E-1..E-2, spec: e}\n- {tag: C-2, spec: c}\n",
    }
    esc = (
        "- {on: 2026-02-01, fit: {rear-left: {esc: E-1}}}\n"
        "- {on: 2026-02-02, fit: {rear-left: {esc: E-2}}, instead_of: {E-1: scrapped}}\n"
    )
    other = "- {on: 2026-02-03, fit: {centre: {controller: C-2}}, instead_of: {C-1: retired}}\n"

    assert {
        "compass": "compass: said not to apply on 7 January 2026",
        "compass-again": "compass recalibration: covered by compass",
    } == rows(LOG + esc, "compass", "compass-again", files=parts)
    assert {"compass": "compass: never done"} == rows(LOG + esc + other, "compass", files=parts)


def test_another_esc_asks_for_its_throttle_range_again() -> None:
    """Whether that kind needs it is for its keeper to say once more."""
    parts = {
        "parts/specs.yaml": FILES["parts/specs.yaml"] + "- {spec: e, kind: esc}\n",
        "parts/items.yaml": FILES["parts/items.yaml"] + "- {tag: E-1, spec: e}\n",
    }
    none = (
        "- {on: 2026-01-09, check: esc-endpoints, result: not applicable,"
        " because: it learns them, stations: [rear-left]}\n"
    )
    fitted = "- {on: 2026-02-01, fit: {rear-left: {esc: E-1}}}\n"

    def at_rear_left(log: str) -> str:
        hangar = hangar_of({**FILES, **parts, "aircraft/sedge/logbook.yaml": log}, "2026-12-01")
        (row,) = (
            row
            for row in work_list(hangar).rows
            if (row.name, row.station) == ("esc-endpoints", "rear-left")
        )
        return row.state

    assert ["not applicable", "never done"] == [
        at_rear_left(LOG + none),
        at_rear_left(LOG + none + fitted),
    ]


def test_a_check_that_is_said_not_to_apply_does_no_task_of_its_name() -> None:
    """Nor does it wait for a second person."""
    log = built(Log("aircraft/a"))
    for _ in range(4):
        log.flight("01-02")
    log.check("01-03", "screws", "not applicable", because="glued")

    row = the_row(work([log], [programme(task("screws", {"flights": 3}))]), "screws")

    assert ("overdue", None) == (row.state, row.done_on)
