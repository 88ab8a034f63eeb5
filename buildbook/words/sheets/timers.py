"""Timers for the field in a line: for which air they hold, what cold and a payload leave of them.

What cold takes is assumed: half a per cent of the capacity a degree, common practice, no source.
"""

from collections.abc import Iterator, Mapping, Sequence
from typing import NamedTuple

from buildbook.basis import amounts
from buildbook.basis.units import FREEZING_K
from buildbook.report.figure import (
    AT_FREEZING_S,
    FLIGHTS_BEHIND,
    LOADED_AT_FREEZING_S,
    LOADED_S,
    PAYLOAD_KG,
    Figure,
)

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


def kind_of_timer(*, by_motor: bool) -> str:
    """A glider's counts the time that its motor runs."""
    return "motor timer" if by_motor else "timer"


def air_words(field_k: float | None, how: str) -> str:
    """Said once of all timers: ``timers are for a pack at 14 °C, in brackets at 0 °C; what …``.

    field_k: the air that the keeper plans for. how: where those at freezing stand.
    """
    air = AS_READ if field_k is None else amounts.temperature(field_k)
    colder = field_k is None or field_k > FREEZING_K
    return f"timers are for a pack at {air}{f', {how} at 0 °C; {ASSUMED}' if colder else ''}"


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


def going_lines(timers: Sequence[Timer], *, by_motor: bool) -> tuple[Line, ...]:
    """Each pack's timer as it is set, at freezing in brackets, and those with the payload flown."""
    if not timers:
        return ()
    no_flight = guessed(timers)
    each = tuple(
        (one.tag, " ".join(filter(None, (_ordinary(one), no_flight.get(one.tag)))))
        for one in timers
    )
    return (Line(kind_of_timer(by_motor=by_motor), each), *payload_lines(timers))


def payload_lines(timers: Sequence[Timer]) -> tuple[Line, ...]:
    """With the heaviest payload flown: its time, in brackets that at freezing, where to land."""
    loaded = [one for one in timers if LOADED_S in one.figure.other]
    if not loaded:
        return ()
    most = max(one.figure.other[PAYLOAD_KG] for one in loaded)
    each = tuple((one.tag, ", ".join(_with_payload(one))) for one in loaded)
    return (Line(f"with {amounts.mass(most)}:", each),)


def _ordinary(one: Timer) -> str:
    return _with_cold(one.figure, AT_FREEZING_S, one.figure.value)


def _with_payload(one: Timer) -> Iterator[str]:
    yield _with_cold(one.figure, LOADED_AT_FREEZING_S, one.figure.other[LOADED_S])
    if one.land_at:
        yield f"land at {one.land_at}"


def _with_cold(figure: Figure, cold: str, seconds: float | None) -> str:
    said = _left(seconds or 0.0)
    return f"{said} ({_left(figure.other[cold])})" if cold in figure.other else said


def _as_set(seconds: float) -> str:
    """As a timer is set: ``12:52``."""
    minutes, left = divmod(amounts.whole_seconds(seconds), 60)
    return f"{minutes}:{left:02d}"


def _left(seconds: float) -> str:
    """A time to plan with; of a pack that cannot give the power, that."""
    return _as_set(seconds) if seconds > 0 else "none"
