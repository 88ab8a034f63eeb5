"""Random but valid histories: what must hold whatever happened, against a plain model of it."""

import datetime
from dataclasses import dataclass, field

import hypothesis.strategies as st
from hypothesis import HealthCheck, given, settings
from hypothesis.stateful import RuleBasedStateMachine, invariant, rule
from programmes import (
    STATIONS,
    WHOLE,
    built,
    check,
    hangar,
    limit,
    on,
    programme,
    rows,
    task,
    worded,
)
from written_logs import Log, aircraft

from buildbook.report.state import Hangar
from buildbook.report.upkeep import ranks
from buildbook.report.upkeep.work import WorkList
from buildbook.upkeep.work_list import work_list

CLUB = programme(
    check("spin-directions", "fit motor, firmware controller, crash", per="motor station"),
    check("failsafe", "crash"),
    check("check-flight", "fit motor, crash"),
    task("bearings", {"flights": 6}, "motor", tolerance={"flights": 2}, also_after="crash"),
    task("look", {"flights": 9}),
    limit("motor-out", "motor", flights=25),
)
FLEET = [aircraft(slug, programme="club") for slug in "ab"]
SPARES = [f"M-{number}" for number in range(21, 25)]
ITEMS = [*WHOLE, *(f"{kind}-{n}" for kind in "MER" for n in range(11, 15)), *SPARES, "C-1", "C-2"]
START = datetime.date(2026, 1, 1)
SLUGS = st.sampled_from("ab")
SOME = st.lists(st.sampled_from(STATIONS), max_size=3, unique=True)


@dataclass
class Model:
    """What a keeper would remember: by station and by motor, counted in steps."""

    step: int = 0
    passed: dict[tuple[str, str], int] = field(default_factory=dict)
    opened: dict[tuple[str, str], int] = field(default_factory=dict)
    motors: dict[tuple[str, str], str] = field(default_factory=dict)
    flown: dict[str, int] = field(default_factory=dict)
    shaken: dict[str, int] = field(default_factory=dict)
    looked: dict[str, int] = field(default_factory=dict)


class Histories(RuleBasedStateMachine):
    """Two quads, four spare motors, and all that can happen to them."""

    def __init__(self) -> None:
        super().__init__()
        self.day = START
        self.logs = {slug: Log(f"aircraft/{slug}") for slug in "ab"}
        self.last = ""
        self.model = Model()
        self.spares = list(SPARES)
        self.seen: dict[datetime.date, WorkList] = {}
        for first, slug in ((0, "a"), (10, "b")):
            slots = {
                station: {
                    "motor": f"M-{first + n}",
                    "esc": f"E-{first + n}",
                    "propeller": f"R-{first + n}",
                }
                for n, station in enumerate(STATIONS, start=1)
            }
            self.logs[slug].fit(
                str(self.day), {**slots, "centre": {"controller": f"C-{1 + first // 10}"}}
            )
            for station, kinds in slots.items():
                self.model.motors[slug, station] = kinds["motor"]
                self.model.opened[slug, station] = 0

    def write(self, slug: str) -> tuple[Log, str]:
        """The log and the day of the next entry; another log starts another day."""
        self.model.step += 1
        if slug != self.last:
            self.next_day()
        self.last = slug
        return self.logs[slug], str(self.day)

    @rule()
    def next_day(self) -> None:
        """A night passes; what the list said of the day must stay true."""
        self.seen[self.day] = work_list(self.folded())
        self.day += datetime.timedelta(days=1)

    @rule(slug=SLUGS, times=st.integers(1, 4))
    def fly(self, slug: str, times: int) -> None:
        for _ in range(times):
            log, day = self.write(slug)
            log.flight(day)
            for station in STATIONS:
                motor = self.model.motors[slug, station]
                self.model.flown[motor] = self.model.flown.get(motor, 0) + 1

    @rule(slug=SLUGS, station=st.sampled_from(STATIONS))
    def replace_motor(self, slug: str, station: str) -> None:
        log, day = self.write(slug)
        old, new = self.model.motors[slug, station], self.spares.pop(0)
        log.fit(day, {station: {"motor": new}}, instead_of={old: "serviceable"})
        self.spares.append(old)
        self.model.motors[slug, station] = new
        self.model.opened[slug, station] = self.model.step

    @rule(slug=SLUGS, stations=SOME)
    def check_spin(self, slug: str, stations: list[str]) -> None:
        log, day = self.write(slug)
        log.check(day, "spin-directions", stations=tuple(stations))
        for station in stations or STATIONS:
            self.model.passed[slug, station] = self.model.step

    @rule(slug=SLUGS, touched=SOME)
    def crash(self, slug: str, touched: list[str]) -> None:
        log, day = self.write(slug)
        log.incident(day, severity="hard", touched=tuple(touched))
        for station in touched or STATIONS:
            self.model.opened[slug, station] = self.model.step
            self.model.shaken[self.model.motors[slug, station]] = self.model.step

    @rule(slug=SLUGS)
    def flash_controller(self, slug: str) -> None:
        log, day = self.write(slug)
        log.firmware(day, **{"C_1" if slug == "a" else "C_2": "4.4"})
        for station in STATIONS:
            self.model.opened[slug, station] = self.model.step

    @rule(slug=SLUGS, station=st.sampled_from(STATIONS))
    def look_at_bearings(self, slug: str, station: str) -> None:
        log, day = self.write(slug)
        motor = self.model.motors[slug, station]
        log.inspection(day, "bearings", motor)
        self.model.looked[motor] = self.model.step

    def folded(self, as_of: datetime.date | None = None) -> Hangar:
        return hangar(
            list(self.logs.values()), [CLUB], items=ITEMS, fleet=FLEET, as_of=str(as_of or self.day)
        )

    @invariant()
    def spin_is_ok_only_where_nothing_came_after_it(self) -> None:
        listed = work_list(self.folded())
        model = self.model
        for row in rows(listed, "spin-directions"):
            key = (row.aircraft or "", row.station or "")
            passed = model.passed.get(key)
            if passed is None:
                assert row.state == "never done"
            else:
                assert row.state == ("ok" if passed > model.opened[key] else "stale")

    @invariant()
    def motors_keep_their_flights_wherever_they_go(self) -> None:
        listed = work_list(self.folded())
        for row in rows(listed, "motor-out"):
            assert 25 - row.left["flights"] == self.model.flown.get(row.tag or "", 0)
        fitted = set(self.model.motors.values())
        assert fitted == {row.tag for row in rows(listed, "bearings")}

    @invariant()
    def bearings_are_stale_only_where_a_crash_was_not_looked_at(self) -> None:
        listed = work_list(self.folded())
        for row in rows(listed, "bearings"):
            shaken = self.model.shaken.get(row.tag or "")
            stale = shaken is not None and shaken > self.model.looked.get(row.tag or "", 0)
            assert stale is (row.state == "stale")

    @invariant()
    def grounded_means_that_something_is_told(self) -> None:
        for standing in work_list(self.folded()).aircraft:
            grounding = {worded(row) for row in standing.rows if row.grounds}
            told = {worded(reason) for reason in standing.reasons if reason.grounding}
            assert grounding <= told
            assert ("grounded" == standing.state) is bool(told)
            assert [reason.rank for reason in standing.reasons] == sorted(
                reason.rank for reason in standing.reasons
            )
            open_rows = [worded(row) for row in standing.rows if row.rank < ranks.FINE]
            assert set(open_rows) <= {worded(reason) for reason in standing.reasons}

    @invariant()
    def the_past_stays_as_it_was(self) -> None:
        for day in list(self.seen)[-2:]:
            assert self.seen[day] == work_list(self.folded(day))


Histories.TestCase.settings = settings(
    max_examples=15, stateful_step_count=15, deadline=None, derandomize=True
)
TestHistories = Histories.TestCase


def states(listed: WorkList) -> dict[tuple[str, str | None, str | None, str | None], str]:
    return {(row.name, row.aircraft, row.station, row.tag): row.state for row in listed.rows}


def checked_and_flown() -> Log:
    log = built(Log("aircraft/a"))
    log.fit("01-01", {"centre": {"controller": "C-1"}})
    for name in ("spin-directions", "failsafe"):
        log.check("01-02", name)
    log.flight("01-02", purpose="check", result="pass")
    log.inspection("01-03", "bearings")
    return log


@given(number=st.integers(0, 3))
@settings(max_examples=4, deadline=None)
def test_replacing_one_motor_reopens_at_once_and_only_what_it_touches(number: int) -> None:
    """The keeper sees the spin of that station, a check flight, and nothing else."""
    log, station = checked_and_flown(), STATIONS[number]
    before = states(work_list(hangar([log], [CLUB], items=ITEMS, fleet=FLEET[:1], as_of="01-03")))
    assert (
        "nothing open"
        == on(
            work_list(hangar([log], [CLUB], items=ITEMS, fleet=FLEET[:1], as_of="01-03")), "a"
        ).state
    )
    old = f"M-{number + 1}"
    log.fit("01-04", {station: {"motor": "M-21"}}, instead_of={old: "serviceable"})
    after = states(work_list(hangar([log], [CLUB], items=ITEMS, fleet=FLEET[:1], as_of="01-04")))

    changed = {key: state for key, state in after.items() if before.get(key) != state}
    assert {
        ("spin-directions", "a", station, None): "stale",
        ("check-flight", "a", None, None): "stale",
        ("bearings", "a", station, "M-21"): "ok",
        ("motor-out", "a", station, "M-21"): "ok",
    } == changed
    assert {key for key in before if key not in after} == {
        ("bearings", "a", station, old),
        ("motor-out", "a", station, old),
    }


@given(
    at=st.integers(0, 20),
    kind=st.sampled_from(["note", "flight of another", "setting", "charge"]),
)
@settings(max_examples=20, deadline=None, suppress_health_check=[HealthCheck.too_slow])
def test_a_later_unrelated_entry_changes_nothing_of_an_earlier_day(at: int, kind: str) -> None:
    """As of a day means the end of that day, whatever is written later."""
    log, other = checked_and_flown(), Log("aircraft/b")
    day = datetime.date(2026, 1, 3) + datetime.timedelta(days=at)
    before = work_list(
        hangar([log, other], [CLUB], items=[*ITEMS, "P-1"], fleet=FLEET, as_of=str(day))
    )
    later = str(day + datetime.timedelta(days=1))
    if kind == "note":
        log.note(later)
    elif kind == "setting":
        log.setting(later, start_throttle="14 %")
    elif kind == "charge":
        log.charge(later, "P-1", 1.0)
    else:
        other.flight(later)

    after = work_list(
        hangar([log, other], [CLUB], items=[*ITEMS, "P-1"], fleet=FLEET, as_of=str(day))
    )
    assert before == after
