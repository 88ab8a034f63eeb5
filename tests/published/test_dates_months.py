"""Month arithmetic, against published examples (rows D01 to D15 of the check values).

Sources are named at each row. "From memory" and "computed" say how the row came about: recalled
from the standard, or worked out from its rule.
"""

import datetime
from datetime import date, timedelta

import pytest

from buildbook.basis.days import add_months, end_of_month
from buildbook.basis.notation import age, duration_s


@pytest.mark.parametrize(
    ("expected", "anchor", "months"),
    [
        pytest.param(date(2024, 2, 29), date(2024, 1, 31), 1, id="D01 leap year, dateutil"),
        pytest.param(date(2023, 2, 28), date(2023, 1, 31), 1, id="D01 common year, dateutil"),
        pytest.param(date(2025, 2, 28), date(2024, 2, 29), 12, id="D03 in months, computed"),
        pytest.param(date(2024, 7, 31), date(2024, 5, 31), 2, id="D04 in one step, computed"),
        pytest.param(date(2024, 2, 29), date(2024, 3, 31), -1, id="D05 backwards, computed"),
    ],
)
def test_months_clip_to_the_end_of_the_month(expected: date, anchor: date, months: int) -> None:
    """Source: the clamping rule of python-dateutil's relativedelta."""
    assert expected == add_months(anchor, months)


def test_a_leap_day_plus_a_year() -> None:
    """D03, computed by the same rule."""
    assert date(2025, 2, 28) == add_months(date(2024, 2, 29), 12)


def test_steps_from_the_last_result_lose_days() -> None:
    """D04, computed: two steps of a month from 31 May end a day early, so always step from it."""
    in_two = add_months(add_months(date(2024, 5, 31), 1), 1)

    assert date(2024, 7, 30) == in_two
    assert date(2024, 7, 31) == add_months(date(2024, 5, 31), 2)


def test_months_that_lack_the_day_are_the_clipped_ones() -> None:
    """D06, RFC 5545 section 3.3.10: a monthly rule from 31 January skips the short months.

    Ours clips instead: both agree in the months that the rule keeps.
    """
    anchor = date(2024, 1, 31)
    stepped = [add_months(anchor, months) for months in range(7)]

    kept = [date(2024, 1, 31), date(2024, 3, 31), date(2024, 5, 31), date(2024, 7, 31)]
    assert kept == [day for day in stepped if day.day == anchor.day]
    assert [date(2024, 2, 29), date(2024, 4, 30), date(2024, 6, 30)] == stepped[1::2]


def test_the_15th_and_the_30th_of_each_month() -> None:
    """D07, RFC 5545 section 3.8.5.3 (from memory): MONTHLY, BYMONTHDAY=15,30, five of them."""
    stepped = [add_months(date(2007, 1, day), months) for months in range(3) for day in (15, 30)]
    unclipped = [day for day in stepped if day.day in (15, 30)]

    expected = [(1, 15), (1, 30), (2, 15), (3, 15), (3, 30)]
    assert [date(2007, month, day) for month, day in expected] == unclipped


def test_the_first_and_the_last_of_each_month() -> None:
    """D08, RFC 5545 section 3.8.5.3 (from memory): MONTHLY, BYMONTHDAY=1,-1, ten of them."""
    starts = [add_months(date(1997, 9, 1), months) for months in range(6)]
    both = [day for start in starts for day in (start, end_of_month(start))]
    from_the_30th = [day for day in both if day >= date(1997, 9, 30)]

    expected = (
        "1997-09-30 1997-10-01 1997-10-31 1997-11-01 1997-11-30 "
        "1997-12-01 1997-12-31 1998-01-01 1998-01-31 1998-02-01"
    )
    assert expected.split() == [day.isoformat() for day in from_the_30th[:10]]


def test_the_last_of_each_month() -> None:
    """D09, RFC 5545, computed: MONTHLY, BYMONTHDAY=-1 from 31 January 2024."""
    ends = [end_of_month(add_months(date(2024, 1, 31), months)) for months in range(3)]

    assert [date(2024, 1, 31), date(2024, 2, 29), date(2024, 3, 31)] == ends


def test_months_come_before_days_and_time() -> None:
    """D10, W3C XML Schema part 2, appendix E (from memory): + P1Y3M5DT7H10M3.3S."""
    start = datetime.datetime(2000, 1, 12, 12, 13, 14)
    rest = timedelta(days=5, seconds=duration_s("7 h 10 min 3.3 s"))

    expected = datetime.datetime(2001, 4, 17, 19, 23, 17, 300_000)
    assert expected == datetime.datetime.combine(add_months(start.date(), 15), start.time()) + rest


def test_a_day_and_a_month_do_not_commute() -> None:
    """D11, W3C XML Schema part 2, appendix E (from memory)."""
    start, day = date(2000, 3, 30), timedelta(days=1)

    assert date(2000, 4, 30) == add_months(start + day, 1)
    assert date(2000, 5, 1) == add_months(start, 1) + day


def test_durations_of_a_fixed_length() -> None:
    """D12, ISO 8601-1:2019, computed: PT1H30M is 5400 s, P4W is 28 days."""
    assert 5400.0 == duration_s("1 h 30 min")
    assert (28, 0) == age("4 weeks")


@pytest.mark.parametrize(
    ("expected", "done", "months"),
    [
        pytest.param(date(2015, 6, 30), date(2014, 6, 6), 12, id="D13 14 CFR 91.409(a)"),
        pytest.param(date(2022, 7, 31), date(2020, 7, 22), 24, id="D13 14 CFR 91.411, 91.413"),
        pytest.param(date(2024, 2, 29), date(2024, 1, 31), 1, id="D15 computed, leap year"),
        pytest.param(date(2024, 3, 31), date(2023, 12, 1), 3, id="D15 computed, over new year"),
    ],
)
def test_calendar_months_last_to_the_end_of_the_month(
    expected: date, done: date, months: int
) -> None:
    """Source: the calendar months of 14 CFR part 91: valid to the last day of the month."""
    assert expected == end_of_month(add_months(done, months))
