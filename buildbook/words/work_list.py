"""What is left, and when it comes: rows and jobs of the work list, and remarks at its end."""

from collections.abc import Iterable, Iterator, Mapping

from buildbook.basis import amounts
from buildbook.basis.counting import UNITS
from buildbook.records.aircraft import Status
from buildbook.records.programmes import CheckRule, TaskRule
from buildbook.report.figures.gains import GainsRaised
from buildbook.report.reports import Reports
from buildbook.report.upkeep.findings import DefectFound
from buildbook.report.upkeep.flown import Remarked
from buildbook.report.upkeep.jobs import GROUPS, Group, Job, Range, in_sight
from buildbook.report.upkeep.work import OPEN_ANYHOW, Reason, Row
from buildbook.words.measures.days import Days
from buildbook.words.names import sentence
from buildbook.words.reasons import (
    amount,
    amount_parts,
    reason_words,
    row_name,
    row_title,
    row_words,
)

GROUP_WORDS: Mapping[Group, tuple[str, str]] = {
    "first": ("Before it flies", "Each of these grounds an aircraft or keeps a pack at home."),
    "now": ("Now", "At its limit, past it, or open; none of these grounds an aircraft by itself."),
    "soon": ("Coming up", "Due soon, or deferred to a limit."),
    "later": ("Later", "In order; what comes next stands first."),
}
"""Heading and meaning of each group of the work list."""

_MOST_REASONS = 3
_NOT_FLYING: Mapping[Status, str] = {
    "building": "It is still being built.",
    "stored": "It is stored.",
}


def job_title(job: Job, days: Days) -> str:
    """The name of what to do, or the reason where no row stands for it."""
    if job.row is not None:
        return row_name(job.row)
    return "" if job.reason is None else reason_words(job.reason, days)


def job_words(job: Job, days: Days) -> str:
    """A job in one sentence, with why: ``spin directions at front-left, rear-left: stale, …``."""
    if job.row is None:
        return job_title(job, days)
    subjects = job.tags or job.stations
    if len(subjects) < 2:
        return row_words(job.row, days)
    return row_words(job.row, days, f"{'of' if job.tags else 'at'} {', '.join(subjects)}")


def instruction(job: Job) -> str:
    """What to do: propellers first, then the cause, then the look; of a defect after its words."""
    if job.defect is not None and job.row is not None:
        return f"{job.what.rstrip('.')}. {defect_advice(job.row)}"
    if not job.instruction:
        return job.what
    rule = None if job.row is None else job.row.rule
    off = "Propellers off. " if isinstance(rule, CheckRule) and rule.off_first else ""
    trigger = None if job.because is None else job.because.trigger
    event = None if trigger is None else trigger.event
    powered = isinstance(rule, CheckRule | TaskRule) and not rule.unplugged
    dry = "Only once it is dry inside. " if event == "water" and powered else ""
    before = "Find out why first. " if event == "noticed" else ""
    if job.state == "failed" and job.because is not None and job.because.why == "failed":
        before = "First repair what was found. "
    return f"{dry}{before}{off}{job.instruction}"


AGEING: Mapping[str, str] = {
    "later": "; today is # later. Days and ages count to the record; what has run out since is"
    " said.",
    "today": "its day is today",
    "past": "its day was # ago",
    "day": "# day",
    "days": "# days",
}
"""What the small script says of a page that is opened later, with the days in place of ``#``."""


def lapse_words(row: Row, days: Days) -> str:
    """How it is told once its day has passed: ``defect of F-11: its deferral ran out on …``."""
    assert row.due_on is not None
    how = {"defect": "its deferral ran out", "limit": "it reached its limit"}
    was = how.get(row.kind, "it was due")
    use = "fly" if row.aircraft else "use"
    return f"{row_title(row)}: {was} {days.on(row.due_on)}: do not {use} it"


def defect_advice(row: Row, *, pack: bool = False) -> str:
    """What to do about a defect as it stands: one that grounds, was deferred, is only noted."""
    if pack and row.grounds:
        return _OF_A_PACK
    found = None if row.because is None else row.because.found
    limited = not isinstance(found, DefectFound) or found.limited
    if row.grounds and row.tag is not None and row.aircraft is None:
        return _ON_NOTHING
    if row.grounds:
        late = "Its deferral has run out. " if row.state == "overdue" else ""
        return f"{late}Do not fly it. Mend or replace what is wrong, then {_CLEAR}."
    if row.state in ("deferred", "due"):
        until = (
            "Mend it by its limit, after which it grounds"
            if limited
            else "Write until when it may wait, or mend it"
        )
        return f"Look at it before each flight. {until}, then {_CLEAR}."
    return f"Look whether it grows. Once it is gone, {_CLEAR}."


_CLEAR = "record it as cleared, with what was done"
_ON_NOTHING = f"Do not fit or use it. Mend it and {_CLEAR}, or take it out of use by its state."
_OF_A_PACK = (
    "Do not charge or fly it. While it is cool, lay it outdoors, away from anything that burns."
    " Take it to a collection point; only if nothing was wrong, record it as cleared, with why, and"
    " on a later day pass a pack-look that names it."
)


def last_passed(row: Row, day: Days) -> str:
    """``passed last on 2 May 2026: distance 62 m``; empty where it never was, or no reading.

    A stale check passed before what re-opened it, perhaps on the same day: that is said.
    """
    if row.kind != "check" or row.done_on is None or not row.readings or row.state == "failed":
        return ""
    read = ", ".join(f"{name} {value}" for name, value in row.readings.items())
    before = ", before that" if row.state == "stale" else ""
    return f"passed last {day.on(row.done_on)}{before}: {read}"


def failsafe_set(row: Row, failsafe: Mapping[str, str]) -> str:
    """What the failsafe shall do, for its check: ``the record says: throttle cut, rest centre``."""
    told = row.because is not None and row.because.why == "link lost"
    if told or row.name not in ("failsafe", "failsafe-again"):
        return ""
    said = ", ".join(f"{name} {does}" for name, does in failsafe.items())
    return f"the record says: {said}" if said else "what it shall do is not recorded"


def left(row: Row, day: Days) -> str:
    """What is left or over, the unit that decides first: ``0.8 h left, or by 15 July 2026``.

    Empty where the row is open whatever is left.
    """
    if row.state in OPEN_ANYHOW:
        return ""
    units = sorted(row.left, key=lambda unit: (unit != row.first_by, unit))
    said = [
        f"{_size(unit, row.left[unit])} {'over' if row.left[unit] < 0 else 'left'}"
        for unit in units
        if unit != "days"
    ]
    if row.due_on is not None:
        by = f"by {day(row.due_on)}"
        days = row.left.get("days")
        if days is not None:
            by += f" ({_days_to(days)})"
        said.insert(0 if row.first_by == "days" else len(said), by)
    return ", or ".join(said)


def job_left(job: Job, day: Days) -> str:
    """The same over all rows of a job: ``4 % (P-33) to 96 % left, or by 15 July 2026``.

    Empty where the job is open whatever is left.
    """
    if job.state in OPEN_ANYHOW:
        return ""
    units = sorted(job.left, key=lambda unit: (unit != job.first_by, unit))
    said = [_range(unit, job.left[unit]) for unit in units if unit != "days"]
    if job.due_on is not None:
        said.insert(0 if job.first_by == "days" else len(said), _by(job, day))
    return ", or ".join(said)


def _range(unit: str, found: Range) -> str:
    low, high = _size(unit, found.low), _size(unit, found.high)
    if (low, found.low < 0) == (high, found.high < 0):
        return f"{low} {'over' if found.low < 0 else 'left'}"
    least = f"{low} over" if found.low < 0 <= found.high else low
    of = f" ({found.least_of})" if found.least_of else ""
    return f"{least}{of} to {high} {'over' if found.high < 0 else 'left'}"


def between(unit: str, low: float, high: float) -> str:
    """From the least to the most of what is left: ``4 to 20 % left``, ``3 days over to 2 left``."""
    least, most = amount(unit, low), amount(unit, high)
    if least == most and (low < 0) == (high < 0):
        return f"{least} {'over' if low < 0 else 'left'}"
    if low < 0 <= high:
        return f"{least} over to {most} left"
    if low < 0:
        return f"{amount_parts(unit, high)[0]} to {least} over"
    return f"{amount_parts(unit, low)[0]} to {most} left"


def _by(job: Job, day: Days) -> str:
    """``by 15 July 2026 (3 days)``; ``between 15 July 2026 and 3 May 2027``."""
    assert job.due_on is not None
    first, last = (day(end) for end in job.due_on)
    if first != last:
        return f"between {first} and {last}"
    to_go = days_to_go(job)
    return f"by {first} {to_go}" if to_go else f"by {first}"


def days_to_go(job: Job) -> str:
    """What stands behind the one day of ``job_left``: ``(3 days)``; empty where nothing does."""
    days = job.left.get("days")
    if job.due_on is None or job.due_on[0] != job.due_on[1] or days is None:
        return ""
    return f"({_days_to(days.low)})" if days.low == days.high else ""


def _size(unit: str, value: float) -> str:
    """``3 flights``, ``0.8 h``, ``no flights``."""
    number, _ = amount_parts(unit, value)
    if unit == "share" or number.strip("0."):
        return amount(unit, value)
    return f"no {UNITS[unit].plural}"


def _days_to(days: float) -> str:
    """``4 days``, ``2 days over``, ``today``."""
    if not days:
        return "today"
    return f"{amount('days', days)} over" if days < 0 else amount("days", days)


def expected(row: Row | Job, day: Days) -> str:
    """When it will come at the keeper's own rate, as an interval; empty where nobody can say."""
    if row.expected is None or row.expected in (row.due_on, (row.due_on, row.due_on)):
        return ""  # the calendar decides, and what is left says the day
    early, late = (day(end) for end in row.expected)
    return f"about {early}" if early == late else f"between {early} and {late}"


def where_forecast(row: Row, tag: str) -> Iterator[str]:
    """Of a limit that readings near, where its day is told: ``due`` counts, and forecasts not."""
    if row.state == "due soon":
        yield f"{row_name(row)}: when to expect it: buildbook figures {tag}"


def grouped(jobs: Iterable[Job]) -> tuple[tuple[Group, tuple[Job, ...]], ...]:
    """Jobs by group, in the order in which to act; empty groups are left out."""
    jobs = tuple(jobs)
    by_group = ((group, tuple(job for job in jobs if job.group == group)) for group in GROUPS)
    return tuple((group, found) for group, found in by_group if found)


def jobs_said(jobs: Iterable[Job], days: Days) -> tuple[str, ...]:
    """The first few jobs and each danger, a sentence each, and how many more there are."""
    shown, more = in_sight(tuple(jobs), _MOST_REASONS)
    return _few((job_words(job, days) for job in shown), more)


def reasons_said(reasons: Iterable[Reason], days: Days) -> tuple[str, ...]:
    """The first few reasons, a sentence each, and how many more there are."""
    found = tuple(reason_words(reason, days) for reason in reasons)
    return _few(found[:_MOST_REASONS], len(found) - _MOST_REASONS)


def _few(said: Iterable[str], more: int) -> tuple[str, ...]:
    found = (f"{sentence(words).rstrip('.')}." for words in said)
    return (*found, *((f"And {more} more.",) if more > 0 else ()))


def not_flying(status: Status) -> tuple[str, ...]:
    """Why an aircraft of that status is not flown."""
    return (_NOT_FLYING[status],) if status in _NOT_FLYING else ()


HEADING = "Your latest notes"
LED = "As you wrote them. Nothing in this list is worked out from them: judge them yourself."
MOST = 6
_LONGEST = 200


def remark_words(found: Remarked, aircraft: str | None) -> str:
    """``Curlew, flight of 23 May 2026: elevator servo buzzes``; of the store its tags first."""
    about = aircraft or ", ".join(found.tags) or "In the store"
    words = found.words
    if len(words) > _LONGEST:
        words = f"{words[:_LONGEST].rsplit(' ', 1)[0]} …"
    return f"{about}, {found.kind} of {amounts.day(found.on)}: {words}"


def raised_words(found: GainsRaised, days: Days) -> str:
    """``crash on 20 June 2026, on gain set sharp, in force since 19 June 2026: roll p 40 → 85``."""
    terms = ", ".join(
        f"{one.axis} {one.term} {one.before:g} → {one.value:g}" for one in found.terms
    )
    return (
        f"{found.what} {days.on(found.on)}, flown on gain set {found.name}, in force since"
        f" {days(found.since)}: {terms}"
    )


def raised_of(reports: Reports, slugs: Iterable[str], days: Days) -> dict[str, str]:
    """The same by aircraft, of those of which there is something to say."""
    found = {slug: reports.gains_raised(slug) for slug in slugs}
    return {slug: raised_words(one, days) for slug, one in found.items() if one is not None}


def more_words(count: int) -> str:
    """``and 3 more in the logs``."""
    return f"and {count} more in the logs"
