"""What a keeper wants to know before the first flight of the day, a line each.

What to pull at, and which motors answer a tipped frame: common practice, no source.
"""

import datetime
from collections.abc import Iterable, Iterator, Mapping, Sequence
from typing import NamedTuple

from buildbook.basis import amounts
from buildbook.basis.units import FREEZING_K
from buildbook.records.aircraft import Aircraft, Radio, Status
from buildbook.report.figure import (
    AT_FREEZING_S,
    FLIGHTS_BEHIND,
    LOADED_AT_FREEZING_S,
    LOADED_S,
    PAYLOAD_KG,
    Figure,
)
from buildbook.report.upkeep.jobs import Job, in_sight
from buildbook.report.upkeep.work import Row, Standing
from buildbook.words.measures.days import Days
from buildbook.words.names import sentence
from buildbook.words.reasons import amount, row_title
from buildbook.words.work_list import job_left, job_title, job_words, lapse_words

PULL_AT = "each propeller and motor, each arm, the plugs and leads, the strap of the pack"
PULL_AT_MOTORLESS = "wing bolts, each servo, horn and plug, the tow hook, the strap of the pack"
PULL_AT_WINGED = "propeller and motor, wing bolts, each servo, horn and plug, the strap of the pack"

CORRECTION = (
    "propellers off: tipped nose down, the front motors speed up; tipped left, the left ones"
)


def state_words(standing: Standing, jobs: Sequence[Job], as_of: datetime.date, goes: bool) -> str:
    """One sentence: ``Grounded, leave at home: arm cracked; and 2 more``, ``Nothing open
    to 20 November 2026; look yourself``, ``Due soon: screws, 2 flights left``.

    jobs: what is open, due or soon due, worst first. Dangers are all named.
    """
    more = _more(jobs)
    if not goes:
        state = standing.state.capitalize()
        return f"{state}, leave at home: {_reason(jobs[0])}{more}" if jobs else state
    if not jobs:
        return f"Nothing open to {amounts.day(as_of)}; look yourself"
    left = job_left(jobs[0], Days())
    what = f"{job_title(jobs[0], Days())}{f', {left}' if left else ''}"
    return f"{standing.state.capitalize()}: {what}{more}"


def lapsed_words(standing: Standing) -> str:
    """The same once a day has passed that grounds it: ``Grounded, leave at home: defect of …``."""
    row = standing.lapse
    return f"Grounded, leave at home: {lapse_words(row, Days())}." if row else ""


def until_words(row: Row | None) -> str:
    """``Defect of F-11: grounded after 24 November 2026``; nothing where no day grounds it."""
    if row is None or row.due_on is None:
        return ""
    return sentence(f"{row_title(row)}: grounded after {amounts.day(row.due_on)}.")


def resting_words(status: Status, left: int, failed: int) -> str:
    """The same of an aircraft that is not in use: ``Still being built: do not fly it; 18 set-up
    checks left, 2 of them failed``, ``Stored: do not fly it``.

    left, failed: set-up checks, while it is built.
    """
    state = "Still being built" if status == "building" else status.capitalize()
    checks = f"; {amounts.count('set-up check', left)} left" if left else ""
    of_them = f", {failed} of them failed" if left and failed else ""
    return f"{state}: do not fly it{checks}{of_them}"


def bench_words(standing: Standing, jobs: Sequence[Job]) -> str:
    """The same for the bench: ``Grounded: arm cracked; and 2 more``."""
    state = standing.state.capitalize()
    return f"{state}: {_reason(jobs[0])}{_more(jobs)}" if jobs else state


def _more(jobs: Sequence[Job]) -> str:
    also, more = in_sight(jobs[1:], 0)
    said = "".join(f"; {_reason(job)}{_deferred(job)}" for job in also)
    return f"{said}; and {more} more" if more else said


def _deferred(job: Job) -> str:
    return " (deferred)" if job.state == "deferred" else ""


def _reason(job: Job) -> str:
    """What was found, in the words of the keeper; else what is open, and why."""
    if job.defect is not None and job.defect.words:
        words = job.defect.words.rstrip(".")
        return f"{words[:1].lower()}{words[1:]}"
    return job_words(job, Days())


def pull_at(record: Aircraft) -> str:
    """What to pull at, by what it has."""
    if not record.has_motor:
        return PULL_AT_MOTORLESS
    return PULL_AT_WINGED if record.kind == "aeroplane" else PULL_AT


def transmitter_words(radio: Radio | None, *, motor: bool = True) -> str:
    """``memory 4, mode 2; throttle low, cut on (left rear switch)``; of a glider no throttle."""
    memory = f"memory {radio.memory}" if radio and radio.memory else "memory not recorded"
    mode = f", mode {radio.mode}" if radio and radio.mode else ""
    if not motor:
        return f"{memory}{mode}"
    cut = f"cut on ({radio.throttle_cut})" if radio and radio.throttle_cut else "cut not recorded"
    return f"{memory}{mode}; throttle low, {cut}"


def link_lost_words(radio: Radio | None, proofs: Iterable[Row]) -> str:
    """``throttle: cut, rest: hold; proved on 14 July 2026``; what the failsafe test says of it."""
    does = radio.failsafe if radio else {}
    said = ", ".join(f"{name}: {what}" for name, what in does.items()) or "not recorded"
    days = [day for row in proofs for day in (row.done_on, row.again_on) if day is not None]
    proved = f"proved {Days().on(max(days))}" if days else "never proved"
    return f"{said}; {proved}"


def holds_words(rows: Sequence[Row], as_of: datetime.date) -> str:
    """Until when a card may be used: for one day, and until what comes round first is due.

    That is by the calendar or, at the keeper's rate of flying, by flights or hours.
    """
    ahead = [(day, row) for row in rows if (day := _earliest(row)) and day > as_of]
    if not ahead:
        return "For one day’s flying."
    _, first = min(ahead, key=lambda found: (found[0], row_title(found[1])))
    until = "" if first.due_on is None else f"before {amounts.day(first.due_on)}"
    if first.first_by in _FLOWN:
        until = f"{amount(first.first_by, first.left[first.first_by])} at most"
    return f"For one day’s flying, {until}; then due: {row_title(first)}."


_FLOWN = ("flights", "hours")


def _earliest(row: Row) -> datetime.date | None:
    """The first day on which it may fall due."""
    if row.first_by in _FLOWN and row.expected is not None and row.left[row.first_by] > 0:
        return row.expected[0]
    return row.due_on


ABREAST = 5
"""So many packs stand beside each other on a phone."""

AS_READ = "about 20 °C"
ASSUMED = "how much the cold takes is assumed: common practice, no source"


class Timer(NamedTuple):
    """A timer of a pack. land_at: volts to land at with the payload flown, in words."""

    tag: str
    figure: Figure
    land_at: str = ""


class Line(NamedTuple):
    """``with 140 g:`` and, for each pack, its tag and its words."""

    lead: str
    packs: tuple[tuple[str, str], ...]


class Setting(NamedTuple):
    """Timers of a few packs, a column each. rows: ``at 14 °C``, then what stands under each tag."""

    lead: str
    tags: tuple[str, ...]
    rows: tuple[tuple[str, tuple[str, ...]], ...]


def kind_of_timer(*, by_motor: bool) -> str:
    """A glider's counts the time that its motor runs."""
    return "motor timer" if by_motor else "timer"


def air_words(field_k: float | None) -> str:
    """Said once of all timers: ``timers are for a pack at 14 °C, and at 0 °C; how much …``.

    field_k: the air that the keeper plans for.
    """
    colder = field_k is None or field_k > FREEZING_K
    return (
        f"timers are for a pack at {_air(field_k)}{f', and at 0 °C; {ASSUMED}' if colder else ''}"
    )


def _air(field_k: float | None) -> str:
    return AS_READ if field_k is None else amounts.temperature(field_k)


def at_freezing(timers: Sequence[Timer]) -> Mapping[str, str]:
    """What is left of each at 0 °C, by pack."""
    return {
        one.tag: _left(one.figure.other[AT_FREEZING_S])
        for one in timers
        if AT_FREEZING_S in one.figure.other
    }


def guessed(timers: Sequence[Timer]) -> Mapping[str, str]:
    """``assumed``, by pack, where no flight says what it draws and theory lacked something."""
    return {one.tag: "assumed" for one in timers if FLIGHTS_BEHIND in one.figure.other}


def settings(
    timers: Sequence[Timer], field_k: float | None, *, by_motor: bool
) -> tuple[Setting, ...]:
    """Each pack's timer as it is set and at freezing, then those with the payload flown."""
    loaded = [one for one in timers if LOADED_S in one.figure.other]
    kind = kind_of_timer(by_motor=by_motor)
    most = max((one.figure.other[PAYLOAD_KG] for one in loaded), default=0.0)
    return (
        *(_setting(kind, some, field_k, AT_FREEZING_S) for some in _abreast(timers)),
        *(
            _setting(f"with {amounts.mass(most)}", some, field_k, LOADED_AT_FREEZING_S)
            for some in _abreast(loaded)
        ),
    )


def _abreast(timers: Sequence[Timer]) -> Iterator[Sequence[Timer]]:
    return (timers[at : at + ABREAST] for at in range(0, len(timers), ABREAST))


def _setting(lead: str, timers: Sequence[Timer], field_k: float | None, cold: str) -> Setting:
    """cold: the name of what is left at freezing, with the payload or without."""
    with_payload = cold == LOADED_AT_FREEZING_S
    figures = [one.figure for one in timers]
    no_flight = {} if with_payload else guessed(timers)
    rows = {
        f"at {_air(field_k)}": tuple(
            _left((figure.other[LOADED_S] if with_payload else figure.value) or 0.0)
            for figure in figures
        ),
        "at 0 °C": tuple(
            _left(figure.other[cold]) if cold in figure.other else "" for figure in figures
        ),
        "land at": tuple(one.land_at if with_payload else "" for one in timers),
        "draw": tuple(no_flight.get(one.tag, "") for one in timers),
    }
    return Setting(
        lead,
        tuple(one.tag for one in timers),
        tuple((label, cells) for label, cells in rows.items() if any(cells)),
    )


def payload_lines(timers: Sequence[Timer]) -> tuple[Line, ...]:
    """With the heaviest payload flown: its time, that at freezing, where to land."""
    loaded = [one for one in timers if LOADED_S in one.figure.other]
    if not loaded:
        return ()
    most = max(one.figure.other[PAYLOAD_KG] for one in loaded)
    each = tuple((one.tag, ", ".join(_with_payload(one))) for one in loaded)
    return (Line(f"with {amounts.mass(most)}:", each),)


def _with_payload(one: Timer) -> Iterator[str]:
    yield _with_cold(one.figure, LOADED_AT_FREEZING_S, one.figure.other[LOADED_S])
    if one.land_at:
        yield f"land at {one.land_at}"


def _with_cold(figure: Figure, cold: str, seconds: float | None) -> str:
    said = _left(seconds or 0.0)
    return f"{said}, at 0 °C {_left(figure.other[cold])}" if cold in figure.other else said


def _as_set(seconds: float) -> str:
    """As a timer is set: ``12:52``."""
    minutes, left = divmod(amounts.whole_seconds(seconds), 60)
    return f"{minutes}:{left:02d}"


def _left(seconds: float) -> str:
    """A time to plan with; of a pack that cannot give the power, that."""
    return _as_set(seconds) if seconds > 0 else "none"
