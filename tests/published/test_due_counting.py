"""Next due after early or late work, against published rules; ids are those of the check values.

The rule of a window (inside it the grid stays, outside it counts from the work) is not one of the
three ways of counting: its rows are held against the way that gives the same inside or outside.
"""

import datetime

import pytest

from buildbook.basis.place import Place
from buildbook.records.keeper import Keeper
from buildbook.records.programmes import Interval, TaskRule
from buildbook.report.upkeep.programme import Applied
from buildbook.report.upkeep.work import Row
from buildbook.upkeep.context import Context, Subject
from buildbook.upkeep.counted.counting import CountedFrom, Step, due_day, next_count
from buildbook.upkeep.counted.expected import pace
from buildbook.upkeep.rows.tasks import task_row

DAY = datetime.date.fromisoformat
HOUR = 3600


class Steady:
    """A life that began on a day and has flown so many hours by now, none of it before that."""

    def __init__(self, began: str, hours: float) -> None:
        self.began = DAY(began)
        self._seconds = round(hours * HOUR)

    def knows(self, unit: str) -> bool:
        """From the first day on."""
        return bool(unit)

    def ticks(self, unit: str, seq: int = 0) -> int:
        """All of it, whatever the moment."""
        return self._seconds if unit == "hours" else seq * 0


def row(as_of: str, began: str, hours: float, rule: TaskRule, flown_daily_h: float = 0.0) -> Row:
    """The row of a task that was never done."""
    today = DAY(as_of)
    days = {}
    if flown_daily_h:
        days = {
            today - datetime.timedelta(days=back): {"hours": flown_daily_h} for back in range(60)
        }
    return task_row(
        Context(today, Keeper(file="hangar.yaml", line=1, hangar="Shed")),
        Applied(rule),
        Subject("a", None, None, Place("aircraft/a/aircraft.yaml", 1)),
        Steady(began, hours),
        pace(days, today),
        (),
        None,
    )


def rule(every: Interval, tolerance: Interval | None = None) -> TaskRule:
    """A task of an aircraft."""
    return TaskRule(
        file="programmes/a.yaml",
        line=1,
        task="look",
        what="Look.",
        every=every,
        tolerance=tolerance or Interval(),
    )


@pytest.mark.parametrize(
    ("source", "how", "interval_h", "due_h", "done_h", "next_h"),
    [
        ("D17 14 CFR 91.409(b), the excess counts", "earlier", 100, 2000, 2010, 2100),
        ("D18 14 CFR 91.409(b), within the hours before", "earlier", 100, 2000, 1990, 2090),
        ("D19 EASA AMC M.A.302(i), 2015", "planned", 100, 2000, 2010, 2100),
        ("D20 AMC1 ML.A.302(d), 2020", "done", 100, 2000, 2010, 2110),
        ("D23 US Army TM 1-1500-328-23, inside", "planned", 75, 1609.4, 1612.0, 1684.4),
        ("D24 US Army TM 1-1500-328-23, outside", "done", 75, 1609.4, 1615.0, 1690.0),
    ],
)
def test_hours_next_due(
    source: str, how: CountedFrom, interval_h: float, due_h: float, done_h: float, next_h: float
) -> None:
    """In whole seconds, as the tasks count."""
    found = next_count(how, round(due_h * HOUR), round(done_h * HOUR), round(interval_h * HOUR))

    assert round(next_h * HOUR) == found, source


@pytest.mark.parametrize(
    ("hours", "state"), [(2000.0, "due"), (2010.0, "in tolerance"), (2010.1, "overdue")]
)
def test_D21_beyond_the_tolerance_of_ten_hours_it_is_overdue(hours: float, state: str) -> None:
    """AMC1 ML.A.302(d): due 2000 h, tolerance 10 h, done 2010.1 h; the 10 h limit."""
    task = rule(Interval(duration_s=2000.0 * HOUR), Interval(duration_s=10.0 * HOUR))

    assert state == row("2024-01-01", "2020-01-01", hours, task).state


@pytest.mark.parametrize(
    ("as_of", "state"),
    [
        ("2024-05-31", "due"),
        ("2024-06-01", "in tolerance"),
        ("2024-06-30", "in tolerance"),
        ("2024-07-01", "overdue"),
    ],
)
def test_D22_an_annual_task_with_a_month_of_tolerance(as_of: str, state: str) -> None:
    """AMC1 ML.A.302(d), clamp assumed: due 2024-05-31, overdue from 2024-07-01."""
    task = rule(Interval(years=1), Interval(months=1))

    assert state == row(as_of, "2023-05-31", 0.0, task).state


def test_D27_the_grid_of_months_stays_after_early_and_late_work() -> None:
    """US Army TM 1-1500-328-23: 6 months, due 1999-01-31, done 01-13 to 02-18 -> 1999-07-31."""
    for done in ("1999-01-13", "1999-01-31", "1999-02-18"):
        found = due_day("planned", DAY("1998-07-31"), [DAY(done)], Step(months=6))
        assert DAY("1999-07-31") == found


def test_D28_the_first_of_hours_and_months_decides_and_is_named() -> None:
    """Computed: 100 h or 12 months since 2024-03-10, 0.5 h flown a day -> 2024-09-26, by hours."""
    task = rule(Interval(duration_s=100.0 * HOUR, months=12))
    as_of = DAY("2024-08-01")
    hours = (as_of - DAY("2024-03-10")).days * 0.5

    found = row("2024-08-01", "2024-03-10", hours, task, flown_daily_h=0.5)

    assert ("ok", "hours", DAY("2025-03-10")) == (found.state, found.first_by, found.due_on)
    early, late = found.expected or (as_of, as_of)
    assert as_of < early < DAY("2024-09-26") < late < DAY("2024-11-15")
