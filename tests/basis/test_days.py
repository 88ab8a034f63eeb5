"""Days and months."""

import calendar
import contextlib
import datetime

import pytest
from dateutil.relativedelta import relativedelta
from hypothesis import given, settings
from hypothesis import strategies as st

from buildbook.basis.days import (
    add_months,
    days_in_month,
    end_of_month,
    parse_day,
)
from buildbook.basis.notation import NotationError

DAYS = st.dates(datetime.date(1950, 1, 1), datetime.date(2199, 12, 31))
HINT = "write year-month-day, as in 2026-03-01 or 2026-03-01T16:40"


def test_a_day_with_and_without_a_time() -> None:
    """The two forms that the files know."""
    assert (datetime.date(2026, 3, 1), None) == parse_day("2026-03-01")
    assert (datetime.date(2026, 3, 1), datetime.time(16, 40)) == parse_day("2026-03-01T16:40")
    assert (datetime.date(2026, 3, 1), datetime.time(16, 40)) == parse_day("2026-03-01 16:40")
    assert (datetime.date(2024, 2, 29), None) == parse_day("2024-02-29")


@pytest.mark.parametrize(
    ("reason", "hint", "text"),
    [
        ("'2026-2-1' is not a day", "write 2026-02-01", "2026-2-1"),
        ("'2026/03/01' is not a day", "write 2026-03-01", "2026/03/01"),
        ("'2026-11-20T4:30pm' is not a day", "write 2026-11-20T16:30", "2026-11-20T4:30pm"),
        ("'2026-11-20 12:05 a.m.' is not a day", "write 2026-11-20T00:05", "2026-11-20 12:05 a.m."),
        ("'2026-11-20 4 PM' is not a day", "write 2026-11-20T16:00", "2026-11-20 4 PM"),
        ("'2026-11-20 16:30 pm' is not a day", HINT, "2026-11-20 16:30 pm"),
        ("'2026-11-20 16' is not a day", HINT, "2026-11-20 16"),
        ("'2026-03-01T16:40:30' is not a day", "write 2026-03-01T16:40", "2026-03-01T16:40:30"),
        ("'2026-2-30' is not a day", HINT, "2026-2-30"),
        (
            "'01-03-2026' is not a day",
            "did you mean 2026-03-01 or 2026-01-03?",
            "01-03-2026",
        ),
        ("'3/27/2026' is not a day", "did you mean 2026-03-27?", "3/27/2026"),
        ("'7.3.26' is not a day", "did you mean 2026-03-07?", "7.3.26"),
        ("'7. März 2026' is not a day", "did you mean 2026-03-07?", "7. März 2026"),
        ("'March 7th, 2026' is not a day", "did you mean 2026-03-07?", "March 7th, 2026"),
        ("'31.2.2026' is not a day", HINT, "31.2.2026"),
        ("'20260301' is not a day", "did you mean 2026-03-01?", "20260301"),
        ("'2026-W09-7' is not a day", HINT, "2026-W09-7"),
        ("'yesterday' is not a day", HINT, "yesterday"),
        ("'' is not a day", HINT, ""),
        (
            "'2026-02-30' is not in the calendar",
            "the month ends on 2026-02-28",
            "2026-02-30",
        ),
        ("'2026-03-00' is not in the calendar", "the month ends on 2026-03-31", "2026-03-00"),
        ("'2026-13-01' has no month 13", HINT, "2026-13-01"),
        (
            "'2026-03-01T24:00' has a time that no day has",
            "the time goes from 00:00 to 23:59",
            "2026-03-01T24:00",
        ),
        ("'0206-03-01' is not in the years 1950 to 2199", HINT, "0206-03-01"),
    ],
)
def test_other_forms_are_refused_with_the_right_one(reason: str, hint: str, text: str) -> None:
    """A day that can be guessed is suggested, not taken."""
    with pytest.raises(NotationError) as raised:
        parse_day(text)

    assert (reason, hint) == (raised.value.reason, raised.value.hint)


@given(text=st.one_of(st.text(max_size=20), st.text("0123456789-T:", max_size=16)))
@settings(max_examples=200, deadline=None)
def test_nothing_else_is_raised(text: str) -> None:
    """A day or a refusal, whatever the text."""
    with contextlib.suppress(NotationError):
        assert text.startswith(parse_day(text)[0].isoformat())


@given(day=DAYS, months=st.integers(-1200, 1200))
@settings(max_examples=300, deadline=None)
def test_months_agree_with_dateutil(day: datetime.date, months: int) -> None:
    """Source: python-dateutil's relativedelta, a general library of dates."""
    assert day + relativedelta(months=months) == add_months(day, months)


@given(day=DAYS)
@settings(max_examples=100, deadline=None)
def test_the_end_of_the_month_agrees_with_the_calendar(day: datetime.date) -> None:
    """Source: the calendar of the standard library."""
    length = calendar.monthrange(day.year, day.month)[1]

    assert length == days_in_month(day.year, day.month)
    assert day.replace(day=length) == end_of_month(day)


@pytest.mark.parametrize(
    ("expected", "year"), [(29, 2000), (29, 2400), (28, 2100), (29, 2024), (28, 2026)]
)
def test_february(expected: int, year: int) -> None:
    """A century is a leap year where 400 divides it (the Gregorian rule)."""
    assert expected == days_in_month(year, 2)


def test_outside_the_calendar() -> None:
    """Years go from 1 to 9999."""
    with pytest.raises(
        OverflowError, match=r"^2026-03-01 and 96000 months is outside the calendar$"
    ):
        add_months(datetime.date(2026, 3, 1), 96_000)
