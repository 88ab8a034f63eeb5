"""Rows and reasons in words, the same on a terminal and on a page."""

import datetime
from collections.abc import Callable, Iterable, Mapping

from buildbook.basis import amounts
from buildbook.basis.counting import UNITS
from buildbook.report.jobs import GROUPS, Group, Job, Range
from buildbook.report.work import Because, Row
from buildbook.words.packs import set_aside

GROUP_WORDS: Mapping[Group, tuple[str, str]] = {
    "first": ("Before it flies", "What stands here grounds an aircraft, or keeps a pack at home."),
    "now": ("Now", "At its limit, past it, or open; nothing here grounds by itself."),
    "soon": ("Coming up", "Soon, or put off to a limit."),
    "later": ("Later", "In order. What comes first stands first."),
}
"""Heading and meaning of each group of the work list."""

SayDay = Callable[[datetime.date], str]


def subject(row: Row) -> str:
    """What a row is about, after its name: ``of M-03``, ``at front-left``, or nothing."""
    if row.tag and row.station:
        return f"of {row.tag} at {row.station}"
    if row.tag:
        return f"of {row.tag}"
    return f"at {row.station}" if row.station else ""


def title(row: Row) -> str:
    """The name of a row with its subject, in plain words."""
    return f"{row.name} {subject(row)}".strip()


def amount(unit: str, value: float) -> str:
    """An amount of what is left, without its sign: ``3 flights``, ``0.8 h``, ``12 %``."""
    size = abs(value)
    if unit == "share":
        return amounts.share(size)
    counted = UNITS[unit]
    if counted.symbol == "h":
        return amounts.hours(size * 3600)
    if counted.divisible:
        return f"{amounts.fixed(size, 1)} {counted.plural}"
    return amounts.count(counted.noun, round(size))


def left(row: Row, day: SayDay) -> str:
    """What is left or over, the unit that decides first: ``0.8 h left, or by 15 July 2026``."""
    units = sorted(row.left, key=lambda unit: (unit != row.first_by, unit))
    said = [
        f"{amount(unit, row.left[unit])} {'over' if row.left[unit] < 0 else 'left'}"
        for unit in units
        if unit != "days"
    ]
    if row.due_on is not None:
        by = f"by {day(row.due_on)}"
        days = row.left.get("days")
        if days is not None:
            over = f"{amount('days', days)} over" if days < 0 else amount("days", days)
            by += f" ({over})"
        said.insert(0 if row.first_by == "days" else len(said), by)
    return ", or ".join(said)


def job_left(job: Job, day: SayDay) -> str:
    """The same over all rows of a job: ``4 % (P-33) to 96 % left, or by 15 July 2026``."""
    units = sorted(job.left, key=lambda unit: (unit != job.first_by, unit))
    said = [_range(unit, job.left[unit]) for unit in units if unit != "days"]
    if job.due_on is not None:
        said.insert(0 if job.first_by == "days" else len(said), _by(job, day))
    return ", or ".join(said)


def _range(unit: str, found: Range) -> str:
    low, high = amount(unit, found.low), amount(unit, found.high)
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
        return f"{most.split()[0]} to {least} over"
    return f"{least.split()[0]} to {most} left"


def _by(job: Job, day: SayDay) -> str:
    """``by 15 July 2026 (3 days)``; ``between 15 July 2026 and 3 May 2027``."""
    assert job.due_on is not None
    first, last = (day(end) for end in job.due_on)
    if first != last:
        return f"between {first} and {last}"
    days = job.left.get("days")
    if days is None or days.low != days.high:
        return f"by {first}"
    over = f"{amount('days', days.low)} over" if days.low < 0 else amount("days", days.low)
    return f"by {first} ({over})"


def one_line(instruction: str, most: int = 76) -> str:
    """So many whole sentences of an instruction as fit on a line; of a longer first one its head.

    A step that begins with the pack unplugged keeps that.
    """
    if len(instruction) <= most:
        return instruction
    head = instruction[: most - 2]
    end = max(head.rfind(". "), head.rfind("; "))
    if end > most // 2:
        return f"{head[: end + 1]} …"
    return f"{head[: head.rfind(' ')].rstrip(',;:')} …"


def on_day(date: datetime.date, day: SayDay) -> str:
    """``on 14 June 2026``, or ``in June 2026`` where only months are told."""
    said = day(date)
    return f"{'on' if said[:1].isdigit() else 'in'} {said}"


def because(row_because: Because | None, day: SayDay) -> str:
    """Why, in a few words; empty where there is nothing to add to the state."""
    if row_because is None:
        return ""
    tell = _WHY.get(row_because.why)
    words = tell(row_because) if tell else row_because.why
    on = row_because.on if row_because.why in _DATED else None
    when = f" {on_day(on, day)}" if on else ""
    return f"{words}{when}"


def expected(row: Row | Job, day: SayDay) -> str:
    """When it will come at the keeper's own rate, as an interval; empty where nobody can say."""
    if row.expected is None:
        return ""
    early, late = (day(end) for end in row.expected)
    return f"about {early}" if early == late else f"between {early} and {late}"


def _detail(found: Because) -> str:
    return ", ".join(f"{name} {value}" for name, value in sorted(found.detail.items()))


def _with_detail(words: str) -> Callable[[Because], str]:
    def tell(found: Because) -> str:
        detail = _detail(found)
        return f"{words}: {detail}" if detail else words

    return tell


def _open_for(days: str | None) -> str:
    return "found" if days is None else f"open for {amounts.count('day', int(days))}, found"


_DATED = frozenset(
    (
        "notice",
        "trigger",
        "failed",
        "second person",
        "item state",
        "set aside",
        "defect",
        "check flight",
    )
)
_WHY: Mapping[str, Callable[[Because], str]] = {
    "never done": lambda _: "no entry of it",
    "interval": lambda _: "",  # what is left says it
    "trigger": lambda found: f"re-opened by {found.trigger}",
    "failed": lambda _: "the last one failed",
    "reading": _with_detail("the reading contradicts the layout"),
    "second person": lambda _: "done, not yet checked by a second person",
    "limit": lambda found: f"life limit by {found.unit}" if found.unit else "life limit",
    "unknown history": lambda _: "earlier life unknown, what is left cannot be stated",
    "defect": lambda found: _open_for(found.detail.get("days_open")),
    "set aside": set_aside,
    "item state": _with_detail("an item that is set aside is fitted"),
    "empty station": _with_detail("the station is not complete"),
    "missing part": _with_detail("the aircraft is not complete"),
    "hand": _with_detail("the propeller contradicts the spin"),
    "plan": _with_detail("the spins planned leave no yaw"),
    "link lost": _with_detail("when the link is lost"),
    "memory": _with_detail("the same memory of the transmitter"),
    "nut": _with_detail("does this nut tighten?"),
    "bounds": _with_detail("outside its bounds"),
    "rating": _with_detail("past what is recorded"),
    "noticed": _with_detail("noticed in flight"),
    "check flight": lambda found: (
        f"fly a check flight next, after: {found.trigger}"
        if found.trigger
        else "fly a check flight"
    ),
    "weighing": _with_detail("computed, not weighed"),
    "signal": _with_detail("a figure moved away from its own history"),
    "notice": _with_detail("a notice about this kind of part"),
    "covered": lambda found: f"done with {found.detail['by']}",
    "dropped": _with_detail("dropped by the keeper"),
    "no programme": lambda _: "no maintenance programme recorded",
}


def grouped(jobs: Iterable[Job]) -> tuple[tuple[Group, tuple[Job, ...]], ...]:
    """Jobs by group, in the order in which to act; empty groups are left out."""
    jobs = tuple(jobs)
    by_group = ((group, tuple(job for job in jobs if job.group == group)) for group in GROUPS)
    return tuple((group, found) for group, found in by_group if found)
