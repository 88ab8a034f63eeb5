"""Crashes, hard landings, repairs, and what they touched."""

import pytest
from test_fold_fitting import events
from written_logs import Log, day, folded, problems

from buildbook.basis.place import Place
from buildbook.records.entries import FlightRow
from buildbook.report.state import Hangar

QUAD = {
    "front-left": {"motor": "M-1", "propeller": "R-1"},
    "rear-right": {"motor": "M-3"},
    "centre": {"controller": "C-1"},
}
PARTS = ["M-1", "R-1", "M-3", "C-1", "P-1", "P-2"]


def built() -> Log:
    """A log that begins with the parts above."""
    log = Log("aircraft/a")
    log.fit("03-01", QUAD)
    return log


def crashes(hangar: Hangar) -> dict[str, int]:
    """The crashes that each item lived through."""
    return {tag: now.counters.crashes for tag, now in hangar.items.items()}


def test_a_crash_that_names_nothing_touches_everything_and_the_pack_flown() -> None:
    """What is fitted, and P-1; not the pack that stayed in the box."""
    log = built()
    log.flight("03-02", packs="P-1", landing="crash")

    hangar = folded([log], PARTS)

    assert "crash - - P-1 everything" == events(hangar)[-1]
    assert {"M-1": 1, "R-1": 1, "M-3": 1, "C-1": 1, "P-1": 1, "P-2": 0} == crashes(hangar)
    assert 1 == hangar.aircraft["a"].counters.crashes
    (incident,) = hangar.aircraft["a"].incidents
    assert ("hard", None, incident.uid) == (
        incident.severity,
        incident.incident,
        incident.flight_uid,
    )


def test_a_crash_written_as_flight_and_as_incident_counts_once() -> None:
    """The incident stands, names the flight, and says what was touched."""
    log = built()
    flight = log.flight("03-02", packs="P-1", landing="crash")
    log.incident("03-02", severity="total", touched=("front-left",))

    hangar = folded([log], PARTS)

    now = hangar.aircraft["a"]
    assert "crash - front-left M-1,R-1,P-1" == events(hangar)[-1]
    assert {"M-1": 1, "R-1": 1, "M-3": 0, "C-1": 0, "P-1": 1, "P-2": 0} == crashes(hangar)
    assert [("total", flight.uid, ("front-left",), ("M-1", "R-1"))] == [
        (done.severity, done.flight_uid, done.stations, done.tags) for done in now.incidents
    ]
    assert 1 == now.counters.crashes


@pytest.mark.parametrize("first", ["incident", "flight"])
def test_the_order_of_flight_and_incident_does_not_matter(first: str) -> None:
    """The event has the moment of the flight."""
    log = built()
    if first == "incident":
        log.incident("03-02")
    flight = log.flight("03-02", packs="P-1", landing="crash")
    if first == "flight":
        log.incident("03-02")

    now = folded([log], PARTS).aircraft["a"]

    assert [flight.uid] == [event.uid for event in now.events if event.event == "crash"]
    assert [flight.uid] == [done.flight_uid for done in now.incidents]


def test_two_crashes_of_a_day_with_one_incident_are_two() -> None:
    """The incident tells of the one before it; the other stands for itself."""
    log = built()
    rows = [FlightRow(duration_s=60.0, landing="crash", line=line) for line in (21, 22)]
    log.flights("03-02", *rows)
    log.incident("03-02")

    now = folded([log], PARTS).aircraft["a"]

    assert [None, "came down"] == [
        done.incident.words if done.incident else None for done in now.incidents
    ]
    assert 2 == now.counters.crashes
    assert [21, 22] == [event.place.line for event in now.events if event.event == "crash"]


def test_an_incident_of_another_day_is_another_event() -> None:
    """Nothing says that they are the same."""
    log = built()
    log.flight("03-02", landing="crash")
    log.incident("03-03")

    assert 2 == folded([log], PARTS).aircraft["a"].counters.crashes


@pytest.mark.parametrize(
    ("landing", "severity", "expected"),
    [
        ("hard", None, "hard landing"),
        ("crash", None, "crash"),
        ("hard", "light", "hard landing"),
        ("hard", "hard", "crash"),
        ("crash", "light", "crash"),
        ("normal", "light", "hard landing"),
        ("normal", "hard", "crash"),
        ("normal", "total", "crash"),
    ],
)
def test_the_worse_of_landing_and_incident_names_the_event(
    landing: str, severity: str | None, expected: str
) -> None:
    """An incident that is hard or total is a crash, a light one a hard landing."""
    log = built()
    log.flight("03-02", landing=landing)
    if severity is not None:
        log.incident("03-02", severity=severity)

    assert [expected] == [
        event.event
        for event in folded([log], PARTS).aircraft["a"].events
        if event.event in ("crash", "hard landing")
    ]


def test_a_voided_incident_tells_of_nothing() -> None:
    """The crash is that of the flight alone, and touches everything again."""
    log = built()
    log.flight("03-02", landing="crash")
    wrong = log.incident("03-02", touched=("front-left",))
    log.voids("03-03", wrong)

    assert ["crash - - - everything"] == events(folded([log], PARTS))[-1:]


def test_a_crash_quarantines_the_pack_until_it_is_inspected() -> None:
    """An inspection that names another pack, or fails, doesn't return it."""
    log = built()
    log.flight("03-02", packs="P-1", landing="crash")
    log.inspection("03-03", "pack-look", "P-2")
    log.inspection("03-04", "pack-look", "P-1", result="fail")
    log.inspection("03-05", "pack-look")
    log.inspection("03-06", "pack-look", "P-1", findings="no dents")

    states = [
        folded([log], PARTS, as_of=on).items["P-1"].state
        for on in ("03-01", "03-02", "03-05", "03-06")
    ]

    assert [
        ("serviceable", None, None),
        ("quarantined", day("03-02"), "crash of a"),
        ("quarantined", day("03-02"), "crash of a"),
        ("serviceable", day("03-06"), "no dents"),
    ] == [(state.state, state.on, state.because) for state in states]
    assert Place("aircraft/a/logbook.yaml", 20) == states[1].place


def test_R51_a_quarantined_pack_that_is_flown_or_charged_is_a_warning() -> None:
    """NFPA, USFA: stop using it. Repeats are one line."""
    log, store = Log("aircraft/a"), Log("stores/P-1")
    store.state("06-01", because="puffed", P_1="quarantined")
    log.flight("06-02", packs="P-1")
    log.flight("06-03", packs="P-1")
    store.charge("06-04", "P-1")
    store.charge("06-05", "P-1")

    hangar = folded([log, store], ["P-1"])

    assert [
        "warning: battery 'P-1' flown on a on 2026-06-02 though quarantined since 2026-06-01,"
        " 2 times in all @ aircraft/a/logbook.yaml:10",
        "warning: battery 'P-1' charged on 2026-06-04 though quarantined since 2026-06-01,"
        " 2 times in all @ stores/P-1.yaml:20",
    ] == problems(hangar)
    assert {(Place("stores/P-1.yaml", 10),)} == {problem.also for problem in hangar.problems}


def test_leaving_quarantine_needs_a_reason() -> None:
    """Without one it stays; with one it returns."""
    store = Log("stores/P-1")
    store.state("06-01", P_1="quarantined")
    store.state("06-02", P_1="serviceable")
    before = folded([store], ["P-1"])
    store.state("06-03", because="looked at, cells even", P_1="serviceable")
    after = folded([store], ["P-1"])

    assert [
        "warning: battery 'P-1' leaves quarantine without a reason, so it stays there"
        " @ stores/P-1.yaml:20"
    ] == problems(before)
    assert ["quarantined", "serviceable"] == [
        hangar.items["P-1"].state.state for hangar in (before, after)
    ]


def test_a_crash_does_not_return_a_scrapped_pack_to_quarantine() -> None:
    """It is out of service anyway."""
    log, store = Log("aircraft/a"), Log("stores/P-1")
    store.state("06-01", P_1="scrapped")
    log.flight("06-02", packs="P-1", landing="crash")

    assert "scrapped" == folded([log, store], ["P-1"]).items["P-1"].state.state


def test_a_repair_touches_what_it_names_else_what_its_incident_named() -> None:
    """With neither, everything."""
    log = built()
    incident = log.incident("03-02", touched=("rear-right",))
    log.repair("03-03", touched=("M-1",))
    log.repair("03-04", after=incident.id)
    log.repair("03-05")

    hangar = folded([log], PARTS)

    assert [
        "crash - rear-right M-3",
        "repair - front-left M-1",
        "repair - rear-right M-3",
        "repair - - - everything",
    ] == events(hangar)[-4:]
    assert [None, incident.uid, None] == [done.after_uid for done in hangar.aircraft["a"].repairs]


def test_transport_and_water_touch_everything_fitted_then() -> None:
    """A part that came later was not on the trip."""
    log = built()
    log.transport("03-02")
    log.fit("03-03", {"rear-left": {"motor": "M-4"}})
    log.water("03-04")

    items = folded([log], [*PARTS, "M-4"]).items

    assert [["fit", "transport", "water"], ["fit", "water"], []] == [
        [event.event for event in items[tag].events] for tag in ("M-1", "M-4", "P-1")
    ]


def test_a_pack_may_have_been_charged_before_it_crashed_that_day() -> None:
    """Another log doesn't say which came first, so nothing is said; the next day it is."""
    log, store = Log("aircraft/a"), Log("stores/P-1")
    log.flight("06-02", packs="P-1", landing="crash")
    store.charge("06-02", "P-1")
    store.charge("06-03", "P-1")

    assert [
        "warning: battery 'P-1' charged on 2026-06-03 though quarantined since 2026-06-02"
        " @ stores/P-1.yaml:20"
    ] == problems(folded([log, store], ["P-1"]))


def test_a_pack_flown_on_after_its_crash_in_the_same_log_is_a_warning() -> None:
    """There the order is known."""
    log = Log("aircraft/a")
    log.flight("06-02", packs="P-1", landing="crash")
    log.flight("06-02", packs="P-1")

    assert [
        "warning: battery 'P-1' flown on a on 2026-06-02 though quarantined since 2026-06-02"
        " @ aircraft/a/logbook.yaml:20"
    ] == problems(folded([log], ["P-1"]))


def test_a_repair_means_the_incident_of_its_own_file_first() -> None:
    """Ids are unique in a file only; without one there, that of the other file of the log."""
    log, later = Log("aircraft/a", "aircraft/a/logbook/1.yaml"), Log("aircraft/a")
    first = log.incident("03-02", touched=("front-left",))
    later.file = "aircraft/a/logbook/2.yaml"
    second = later.incident("03-02", index=1, touched=("rear-left",))
    later.repair("03-03", after="2026-03-02-1", index=2)
    later.repair("03-04", after="2026-03-05-1", index=3)
    log.repair("03-05", after="2026-03-02-1", index=4)
    second_only = log.incident("03-06", index=5)
    later.repair("03-07", after=second_only.id, index=6)

    repairs = folded([log, later]).aircraft["a"].repairs

    assert [second.uid, None, first.uid, second_only.uid] == [done.after_uid for done in repairs]


def test_an_incident_tells_of_the_bad_row_not_of_the_good_ones() -> None:
    """Written before the flights: the second of three rows is the crash."""
    log = built()
    log.incident("03-02", touched=("rear-right",))
    rows = [
        FlightRow(duration_s=60.0, line=line, landing="crash" if line == 32 else "normal")
        for line in (31, 32, 33)
    ]
    log.flights("03-02", *rows)

    hangar = folded([log], PARTS)

    assert ["crash - rear-right M-3"] == events(hangar)[4:]
    assert 32 == hangar.aircraft["a"].events[-1].place.line


def test_what_happens_at_a_station_touches_the_esc_that_serves_it() -> None:
    """The shared ESC sits in the centre; the others of its stations are not touched."""
    log = Log("aircraft/a")
    log.fit(
        "03-01",
        {"centre": {"esc": "E-9"}, "front-left": {"motor": "M-1"}, "rear-right": {"motor": "M-3"}},
        serves={"E-9": ("front-left", "front-right")},
    )
    log.repair("03-02", touched=("front-left",))
    log.repair("03-03", touched=("rear-right",))

    assert ["repair - front-left M-1,E-9", "repair - rear-right M-3"] == events(
        folded([log], ["M-1", "M-3", "E-9"])
    )[-2:]


@pytest.mark.parametrize(
    ("charged", "asked"),
    [
        ("05-18", "P-2"),  # fourteen days before
        ("05-17", "P-1 or P-2"),
    ],
)
def test_a_crash_without_a_pack_asks_for_those_charged_lately_else_flown_before(
    charged: str, asked: str
) -> None:
    """Charged and not flown since; where none was, those that ever flew on it. What is gone, and
    what is no pack, was not aboard."""
    log, store = built(), Log("stores/packs")
    for number, pack in enumerate(("P-1", "P-2", "P-3"), start=2):
        log.flight(f"03-0{number}", packs=pack)
    store.charge(charged, "P-2", 1.0, to="full")
    store.charge("05-30", "P-3", 1.0, to="full")
    store.state("05-31", "swollen", P_3="scrapped")
    log.incident("06-01", severity="hard")

    asks = [told for told in problems(folded([log, store], [*PARTS, "P-3"])) if "aboard" in told]

    assert [
        f"warning: crash of a on 2026-06-01 does not say which pack was aboard: {asked}"
        " @ aircraft/a/logbook.yaml:50"
    ] == asks
