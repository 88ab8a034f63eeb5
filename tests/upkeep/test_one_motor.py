"""One motor is replaced on a fully checked quad: what it re-opened is open, and nothing else.

From the files of a keeper to the work list. The rows are those of section 3 of the record rules
for a motor (common practice, no source): spin direction, handedness and balance at its station,
the throttle at which it starts, its screws and all others, a check flight; screws again after
3 flights.
"""

from collections.abc import Iterator

from written_files import hangar_of

from buildbook.report.upkeep import ranks
from buildbook.report.upkeep.work import Row, Standing
from buildbook.upkeep.work_list import work_list

STATIONS = ("front-left", "front-right", "rear-left", "rear-right")
SPINS = ("ccw", "cw", "cw", "ccw")
PARTS = {
    "parts/specs.yaml": """\
- {spec: motor-a, kind: motor, mass: 54 g}
- {spec: esc-a, kind: esc, mass: 14 g}
- {spec: prop-a, kind: propeller, size: 10x4.5, mass: 11 g}
- {spec: board-a, kind: controller, mass: 30 g}
- {spec: radio-a, kind: receiver, mass: 9 g}
- {spec: pack-a, kind: battery, cells: 3S, capacity: 2200 mAh, mass: 180 g}
""",
    "parts/items.yaml": """\
- {tags: M-1..M-5, spec: motor-a, acquired: 2026-01-05}
- {tags: E-1..E-4, spec: esc-a, acquired: 2026-01-05}
- {tags: R-1..R-4, spec: prop-a, acquired: 2026-01-05}
- {tag: C-1, spec: board-a, acquired: 2026-01-05}
- {tag: X-1, spec: radio-a, acquired: 2026-01-05}
- {tag: P-1, spec: pack-a, acquired: 2026-01-05}
""",
    "aircraft/sedge/aircraft.yaml": """\
aircraft: Sedge
kind: multirotor
layout: quad-x
programme: small-multirotor
stations:
  front-left: {spin: ccw, output: 1}
  front-right: {spin: cw, output: 3}
  rear-left: {spin: cw, output: 4}
  rear-right: {spin: ccw, output: 2}
radio: {failsafe: {throttle: cut}}
""",
}
CHECKS = (
    "stick-sense",
    "receiver-neutral",
    "receiver-order",
    "propeller-fit",
    "propeller-balance",
    "esc-endpoints",
    "start-spread",
    "throttle-cut",
    "failsafe",
    "arming",
    "accelerometer",
    "compass",
    "sensors-answer",
    "correction-sense",
    "mode-switches",
    "low-voltage-alarm",
    "range",
    "balance-point",
    "motor-screws",
)
SPUN = ", ".join(f"{station}: {spin}" for station, spin in zip(STATIONS, SPINS, strict=True))


def whole() -> str:
    """Built, checked all over, weighed, flown, and looked at again after the first flights."""
    slots = ", ".join(
        f"{station}: {{motor: M-{n}, esc: E-{n}, propeller: R-{n}}}"
        for n, station in enumerate(STATIONS, start=1)
    )
    flight = "- {on: 2026-02-03, flight: 6:00, pack: P-1, used: 1400 mAh}\n"
    return (
        f"- {{on: 2026-02-01, fit: {{{slots}, centre: {{controller: C-1, receiver: X-1}}}}}}\n"
        f"- {{on: 2026-02-02, check: [{', '.join(CHECKS)}], result: pass}}\n"
        f"- {{on: 2026-02-02, check: spin-directions, result: pass, readings: {{{SPUN}}}}}\n"
        "- {on: 2026-02-02, weigh: 820 g, pack: P-1}\n"
        "- {on: 2026-02-02, inspection: [screws-and-mounts, solder-and-leads]}\n"
        "- {on: 2026-02-03, flight: 6:00, pack: P-1, purpose: check, result: pass}\n"
        f"{flight * 2}"
        "- {on: 2026-02-03, inspection: [screws-and-mounts, screws-after-motor]}\n"
    )


SWAP = "- {on: 2026-02-10, fit: {front-left: {motor: M-5}}, instead_of: {M-1: scrapped}}\n"
CLOSING = """\
- {on: 2026-02-10, check: spin-directions, result: pass, stations: front-left}
- {on: 2026-02-10, check: [propeller-fit, propeller-balance], result: pass, stations: front-left}
- {on: 2026-02-10, check: [start-spread, motor-screws], result: pass, stations: [front-left]}
- {on: 2026-02-10, inspection: screws-and-mounts}
- {on: 2026-02-11, flight: 6:00, pack: P-1, purpose: check, result: pass}
"""


def sedge(log: str, as_of: str = "2026-02-11") -> Standing:
    """How it stands, with these entries in its logbook."""
    files = {**PARTS, "aircraft/sedge/logbook.yaml": log}
    (standing,) = work_list(hangar_of(files, as_of)).aircraft
    return standing


def rows_open(standing: Standing) -> dict[tuple[str, str | None], str]:
    return {(row.name, row.station): row.state for row in standing.rows if row.rank < ranks.FINE}


def test_a_quad_that_was_checked_all_over_has_nothing_open() -> None:
    """The ground that the rest stands on."""
    assert ("nothing open", {}) == (sedge(whole()).state, rows_open(sedge(whole())))


def test_one_motor_re_opens_its_station_the_screws_and_the_check_flight() -> None:
    """At once, and nothing of the other three stations."""
    standing = sedge(whole() + SWAP)

    assert {
        ("spin-directions", "front-left"): "stale",
        ("propeller-fit", "front-left"): "stale",
        ("propeller-balance", "front-left"): "stale",
        ("start-spread", "front-left"): "stale",
        ("motor-screws", "front-left"): "stale",
        ("screws-and-mounts", None): "stale",
        ("check-flight", None): "stale",
    } == rows_open(standing)
    assert "grounded" == standing.state


def test_each_of_them_names_the_entry_that_re_opened_it() -> None:
    """The trigger, and the line of the swap."""
    place = f"aircraft/sedge/logbook.yaml:{whole().count(chr(10)) + 1}"
    found = [row for row in sedge(whole() + SWAP).rows if row.rank < ranks.FINE]

    assert {("fit motor", place)} == {
        (str(row.because.trigger), str(row.because.place))
        for row in found
        if row.because is not None
    }


def test_nothing_else_changes_but_the_counters_of_the_new_motor() -> None:
    """Row by row: what was fine before is fine after, for every other station and item."""
    before, after = (dict(_by_row(sedge(log))) for log in (whole(), whole() + SWAP))
    new = {key for key in after if before.get(key) != after[key]}

    assert {
        ("spin-directions", "front-left"),
        ("propeller-fit", "front-left"),
        ("propeller-balance", "front-left"),
        ("start-spread", "front-left"),
        ("motor-screws", "front-left"),
        ("motor-bearings", "front-left"),  # of M-5 now: it counts its own flights
        ("screws-and-mounts", None),
        ("screws-after-motor", None),  # to come after three flights
        ("check-flight", None),
    } == new
    assert before.keys() == after.keys()


def _by_row(standing: Standing) -> Iterator[tuple[tuple[str, str | None], object]]:
    for row in standing.rows:
        yield (row.name, row.station), (row.tag, row.state, dict(row.left), row.due_on)


def test_doing_them_closes_them() -> None:
    """All but the screws after three flights, which are soon; then those too."""
    once = sedge(whole() + SWAP + CLOSING)
    assert ("nothing open", {}) == (once.state, rows_open(once))
    assert {"flights": 2} == _row(once, "screws-after-motor").left

    flights = "- {on: 2026-02-11, flight: 6:00, pack: P-1}\n"
    soon = sedge(whole() + SWAP + CLOSING + flights)
    assert ("due soon", {("screws-after-motor", None): "due soon"}) == (
        soon.state,
        rows_open(soon),
    )
    due = sedge(whole() + SWAP + CLOSING + flights * 2)
    assert {("screws-after-motor", None): "due"} == rows_open(due)

    done = sedge(
        whole()
        + SWAP
        + CLOSING
        + flights * 2
        + "- {on: 2026-02-11, inspection: screws-after-motor}\n"
    )
    assert ("nothing open", {}) == (done.state, rows_open(done))


def test_doing_all_but_one_leaves_that_one() -> None:
    """Each row is closed by its own entry only."""
    lines = CLOSING.splitlines(keepends=True)
    expected = (
        {("spin-directions", "front-left")},
        {("propeller-fit", "front-left"), ("propeller-balance", "front-left")},
        {("start-spread", "front-left"), ("motor-screws", "front-left")},
        {("screws-and-mounts", None)},
        {("check-flight", None)},
    )

    assert expected
    for left_out, names in enumerate(expected):
        rest = "".join(line for index, line in enumerate(lines) if index != left_out)
        assert names == set(rows_open(sedge(whole() + SWAP + rest)))


def _row(standing: Standing, name: str) -> Row:
    (row,) = (row for row in standing.rows if row.name == name)
    return row
