"""When it will be due: intervals from the keeper's own recent rate, tested by simulation."""

import datetime
import math
import random
from collections.abc import Callable, Iterator, Sequence
from pathlib import Path

import pytest
from hypothesis import given
from hypothesis import strategies as st
from programmes import date, hangar, programme, task, the_row, work
from written_logs import Log, aircraft

from buildbook.hangar.fold import fold
from buildbook.records.reading.read import read_hangar
from buildbook.report.history import FlightDone
from buildbook.upkeep.counted.expected import NEVER, SILENT, flown_days, pace, pack_days, window

START = datetime.date(2024, 1, 1)
Days = dict[datetime.date, dict[str, float]]
PLANE = aircraft("a", programme="club", kind="aeroplane", layout="aeroplane")

KEEPERS: dict[str, Callable[[int, int], float]] = {
    "weekends": lambda _, weekday: 0.45 if weekday >= 5 else 0.03,
    "whenever": lambda _, __: 0.15,
    "keen": lambda _, __: 0.5,
    "seldom": lambda _, __: 0.05,
    "every Saturday": lambda _, weekday: 0.9 if weekday == 5 else 0.0,
    "by fits and starts": lambda day, _: 0.4 if (day // 20) % 2 == 0 else 0.04,
    "by the season": lambda day, _: 0.12 * (1 + 0.9 * math.sin(day / 365.25 * 2 * math.pi + 2)),
    "weekends in summer": lambda day, weekday: (
        (0.5 if weekday >= 5 else 0.06) * (1 + 0.7 * math.sin(day / 365.25 * 2 * math.pi))
    ),
}
WANTED = (
    ("flights", 4),
    ("flights", 10),
    ("flights", 25),
    ("flights", 50),
    ("hours", 0.5),
    ("hours", 3),
)


def simulated(keeper: str, chance: random.Random) -> Days:
    """Nearly three years of flying days."""
    days: Days = {}
    for number in range(1000):
        day = START + datetime.timedelta(days=number)
        if chance.random() < KEEPERS[keeper](number, day.weekday()):
            flights = 1 + int(chance.expovariate(1 / 2.5))
            minutes = sum(chance.lognormvariate(math.log(7), 0.3) for _ in range(flights))
            days[day] = {"flights": float(flights), "hours": minutes / 60}
    return days


def held(keeper: str, unit: str, amount: float, chance: random.Random) -> bool | None:
    """Whether the true day lay in the interval; None where none was given or it never came."""
    days = simulated(keeper, chance)
    as_of = START + datetime.timedelta(days=chance.randint(150, 500))
    rate = pace({day: brought for day, brought in days.items() if day <= as_of}, as_of)
    expected = None if rate is None else window(rate, unit, amount, as_of)
    if expected is None:
        return None
    total = 0.0
    for day in sorted(day for day in days if day > as_of):
        total += days[day][unit]
        if total >= amount:
            return expected.early <= day <= expected.late
    return None


@pytest.mark.parametrize("keeper", sorted(KEEPERS))
def test_the_80_percent_interval_holds_75_to_90_percent(keeper: str) -> None:
    """Back-test on simulated hangars; method: own, so coverage is what can be checked."""
    chance = random.Random(f"held {keeper}")
    found = [held(keeper, unit, amount, chance) for unit, amount in WANTED for _ in range(60)]
    counted = [hit for hit in found if hit is not None]

    assert len(counted) > 250
    assert 0.75 <= sum(counted) / len(counted) <= 0.90


def test_with_little_data_nothing_is_expected() -> None:
    """Four flying days are too few."""
    days = {START + datetime.timedelta(days=7 * week): {"flights": 2.0} for week in range(5)}

    assert pace(dict(list(days.items())[:4]), datetime.date(2024, 2, 1)) is None
    rate = pace(days, datetime.date(2024, 2, 1))
    assert rate is not None
    assert (7.0, 2.0) == (round(rate.gap.mean, 9), rate.brings["flights"].mean)
    assert 3.8 < rate.worth < 4


def test_a_silence_counts_and_an_old_year_does_not() -> None:
    """Flying weekly, then not for ten weeks; then not for more than a year."""
    days = {START + datetime.timedelta(days=7 * week): {"flights": 2.0} for week in range(10)}
    last = max(days)

    at_once, lately = pace(days, last), pace(days, last + datetime.timedelta(days=70))
    assert at_once is not None
    assert lately is not None
    assert 7.0 == round(at_once.gap.mean, 9)
    assert lately.gap.mean > (9 * 7 + 70) / 10
    assert SILENT == pace(days, last + datetime.timedelta(days=400))


def test_flying_in_the_unfinished_oldest_month_alone() -> None:
    """Five days just before the oldest whole month of the year: a rate, and a wide interval."""
    days = {START + datetime.timedelta(days=number): {"flights": 1.0} for number in range(5)}
    as_of = START + datetime.timedelta(days=119)

    rate = pace(days, as_of)
    assert rate is not None
    assert 0.08 > rate.overdispersion
    assert window(rate, "flights", 1, as_of) is not None


@given(
    st.sets(st.integers(0, 400), min_size=1, max_size=12),
    st.integers(0, 3650),
    st.sampled_from(["flights", "hours"]),
    st.floats(0.01, 500),
)
def test_every_day_after_the_first_flight_can_be_looked_at(
    flown: set[int], after: int, unit: str, amount: float
) -> None:
    """Whenever somebody flew, for ten years on: an interval in order, or none."""
    days = {START + datetime.timedelta(days=n): {"flights": 1.0, "hours": 0.1} for n in flown}
    as_of = min(days) + datetime.timedelta(days=after)
    rate = pace(days, as_of)
    expected = None if rate is None else window(rate, unit, amount, as_of)

    assert expected is None or as_of < expected.early <= expected.late


def test_late_gaps_weigh_more_than_early_ones() -> None:
    """A keeper who flew every other day and now flies every tenth."""
    often = [START + datetime.timedelta(days=2 * number) for number in range(30)]
    days = {day: {"flights": 1.0} for day in often}
    seldom = {often[-1] + datetime.timedelta(days=10 * n): {"flights": 1.0} for n in range(1, 10)}
    rate = pace({**days, **seldom}, max(seldom))

    assert rate is not None
    assert (29 * 2 + 9 * 10) / 38 + 1 < rate.gap.mean < 10


def test_overdispersion_makes_the_interval_wider() -> None:
    """The same number of flying days in a year, evenly and in two seasons."""
    as_of = START + datetime.timedelta(days=360)
    even = {START + datetime.timedelta(days=10 * n): {"flights": 1.0} for n in range(37)}
    odd = {
        START + datetime.timedelta(days=first + 5 * n): {"flights": 1.0}
        for first in (0, 270)
        for n in range(19)
    }
    calm, restless = pace(even, as_of), pace(odd, as_of)
    assert calm is not None
    assert restless is not None

    assert round(4 * 0.08 / 16, 9) == round(calm.overdispersion, 9)
    assert restless.overdispersion > 10 * calm.overdispersion


def test_a_unit_that_never_comes_is_never_expected() -> None:
    """And what is too far away is not told."""
    days = {START + datetime.timedelta(days=7 * week): {"flights": 2.0} for week in range(10)}
    as_of = max(days)
    rate = pace(days, as_of)
    assert rate is not None

    assert window(rate, "cycles", 5, as_of) is None
    assert NEVER == window(rate, "flights", 5000, as_of)
    assert window(rate, "flights", 1, as_of) is not None


def weekly(until: int) -> Log:
    """Two flights each week from 5 January on."""
    log = Log("aircraft/a")
    log.inspection("01-04", "look")
    for week in range(until):
        on = datetime.date(2026, 1, 5) + datetime.timedelta(days=7 * week)
        log.flight(str(on))
        log.flight(str(on))
    return log


def expected(log: Log, as_of: str, **interval: int) -> tuple[str, str] | None:
    found = the_row(
        work([log], [programme(task("look", interval))], fleet=[PLANE], as_of=as_of), "look"
    ).expected
    return None if found is None else (str(found[0]), str(found[1]))


def test_a_steady_keeper_gets_an_interval_about_the_day() -> None:
    """Twelve weeks flown, 26 flights left: thirteen weeks on is 29 June; never quite certain."""
    found = expected(weekly(12), "03-30", flights=50)

    assert found is not None
    assert "2026-05-15" < found[0] < "2026-06-29" < found[1] < "2026-08-15"


def test_whichever_comes_first_bounds_the_interval() -> None:
    """Flights in June, the calendar in April or next January."""
    assert ("2026-04-04", "2026-04-04") == expected(weekly(12), "03-30", flights=50, months=3)
    by_flights = expected(weekly(12), "03-30", flights=50)
    assert by_flights == expected(weekly(12), "03-30", flights=50, months=12)
    early, late = expected(weekly(12), "03-30", flights=50, months=6) or ("", "")
    assert (by_flights[0], "2026-07-04") == (early, late)


def test_the_unit_that_is_expected_first_is_named_whatever_its_share() -> None:
    """4 of 16 flights left, two weeks at this rate; 24 of 110 days left, a smaller share."""
    log = Log("aircraft/a")
    log.inspection("01-04", "look")
    for week in range(6):
        on_day = datetime.date(2026, 2, 23) + datetime.timedelta(days=7 * week)
        log.flight(str(on_day))
        log.flight(str(on_day))
    club = programme(task("look", {"flights": 16, "days": 110}))

    row = the_row(
        work([log], [club], fleet=[PLANE], as_of="03-31", soon_days=10, soon_flights=1), "look"
    )

    assert ("ok", "flights", {"flights": 4, "days": 24}) == (row.state, row.first_by, row.left)
    assert round(12 / 16 + 0.0, 9) < round(86 / 110, 9) == round(row.used or 0, 9)


def test_little_data_is_told_honestly_and_a_silent_hangar_gets_the_calendar() -> None:
    """Three weeks: the flights may come first, so no day is named. Never flown: the calendar."""
    assert expected(weekly(3), "01-25", flights=50, months=12) is None
    assert ("2027-01-04", "2027-01-04") == expected(weekly(0), "01-25", flights=50, months=12)
    assert expected(weekly(0), "01-25", flights=50) is None


def test_nothing_is_expected_of_what_is_due() -> None:
    """It is."""
    assert expected(weekly(12), "03-30", flights=24) is None


def test_what_a_flying_day_brings() -> None:
    """Flights, hours and the day itself; of a pack also charges, and cycles of rated capacity."""
    log = Log("aircraft/a")
    log.flight("2024-12-01", 100.0)
    log.flight("2026-01-01", 1800.0, packs="P-1", used_ah=0.5)
    log.flight("2026-01-01", 5400.0, packs="P-1 P-2", used_ah=2.0)
    log.flight("2026-02-01", 3600.0, packs="P-1")
    now = hangar([log], items=["P-1", "P-2"])

    first, second = date("01-01"), date("02-01")
    assert {
        first: {"flights": 2.0, "hours": 2.0, "flying_days": 1.0},
        second: {"flights": 1.0, "hours": 1.0, "flying_days": 1.0},
    } == flown_days(now.aircraft["a"].flights)
    pack = pack_days(now.items["P-1"])
    assert {**pack[first]} == {
        "flights": 2.0,
        "hours": 2.0,
        "flying_days": 1.0,
        "charges": 2.0,
        "cycles": 0.75,
    }
    assert "cycles" not in pack[second]


def fortnights(flights: Sequence[FlightDone]) -> Iterator[datetime.date]:
    """A day every two weeks while the aircraft was flown."""
    day = flights[0].on + datetime.timedelta(days=14)
    while day < flights[-1].on:
        yield day
        day += datetime.timedelta(days=14)


def test_on_the_demo_the_80_percent_interval_holds_75_to_90_percent() -> None:
    """Every fortnight of its log, for the next 1 to 40 flights of each aircraft."""
    ledger = read_hangar(Path(__file__).parents[2] / "content").ledger
    assert ledger is not None
    found = []
    for now in fold(ledger, datetime.date(2026, 11, 20)).aircraft.values():
        for day in fortnights(now.flights) if now.flights else ():
            rate = pace(flown_days([one for one in now.flights if one.on <= day]), day)
            coming = [one.on for one in now.flights if one.on > day]
            for wanted in (1, 3, 8, 15, 25, 40):
                if rate is None or len(coming) < wanted:
                    continue
                told = window(rate, "flights", wanted, day)
                if told is not None and told.late < datetime.date.max:
                    found.append(told.early <= coming[wanted - 1] <= told.late)

    assert len(found) > 300
    assert 0.75 <= sum(found) / len(found) <= 0.90
