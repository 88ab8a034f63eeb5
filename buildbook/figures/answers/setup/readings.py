"""Readings of set-up checks: neutral values of the receiver, throttle at which motors start."""

from collections.abc import Iterator, Mapping
from typing import NamedTuple

from buildbook.figures.answers.craft import Craft
from buildbook.figures.answers.gathering import (
    Lacking,
    declared,
    default,
    in_per_cent,
    measured,
    number,
)
from buildbook.figures.answers.spec import FigureSpec
from buildbook.figures.answers.working import Answer, attempt, by_method, given_value
from buildbook.figures.laws.law import CUSTOM
from buildbook.figures.laws.numbers import median
from buildbook.records.readings import number_read, throttle_read
from buildbook.records.row_names import RECEIVER_NEUTRAL, START_SPREAD
from buildbook.report.figure import Figure, Input, Name, Table
from buildbook.report.figures.known_figures import Headline
from buildbook.report.history import Completion
from buildbook.report.state import AircraftNow

# Where a channel rests, and how far it may be from there, by the unit that it is read in. A bare
# number is taken as % of the travel, about a middle of many hundreds as a length of pulses in µs.
NEUTRAL_AT = {"%": 0.0, "µs": 1500.0}
NEUTRAL_BAND = {"%": 2.0, "µs": 12.0}
PULSE = 500.0
START_BAND = 0.02  # of the throttle
NOT_CENTRED = ("throttle", "gear", "flap", "slider", "mode")

FROM_NEUTRAL = by_method("the last reading that is furthest from neutral", CUSTOM)
HIGHEST = by_method("the highest of the last readings, one a station", CUSTOM)


def start_spread(craft: Craft) -> Iterator[Answer]:
    """The throttle that the slowest motor needs to start, and which start apart."""
    if craft.now.motor_stations or craft.hovers:
        yield attempt("start_spread", None, _start, craft)


def _last(craft: Craft, name: str) -> Completion:
    """The last check of that name with readings. Lacking: there is none, or it has no such thing
    since.
    """
    for check in reversed(craft.now.checks):
        if check.name == name and check.result == "not applicable":
            raise Lacking(f"{name} does not apply, by its last entry", check.place)
        if check.name == name and check.readings:
            return check
    raise Lacking(
        f"no readings of {name} are recorded: do the check and write its 'readings'",
        craft.home,
    )


class NeutralRead(NamedTuple):
    """Readings of the channels that rest in the middle, and which are outside the band.

    bare: they were written without a unit.
    """

    found: Mapping[str, float]
    unit: str
    bare: bool
    neutral: Input
    band: float
    outside: tuple[str, ...]


def neutral_read(now: AircraftNow, check: Completion) -> NeutralRead | None:
    """What a check of the neutral read; None where nothing of it is a number."""
    found, unit = _alike(check)
    if not found:
        return None
    bare = not unit
    if bare:
        unit = "µs" if abs(median(found.values())) >= PULSE else "%"
    neutral, band = _neutral_of(now, unit), NEUTRAL_BAND[unit]
    outside = (name for name, value in found.items() if abs(value - number(neutral)) > band)
    return NeutralRead(found, unit, bare, neutral, band, tuple(outside))


def receiver_neutral(craft: Craft) -> Figure:
    """How far the last readings are from neutral, and the channels that are outside."""
    check = _last(craft, RECEIVER_NEUTRAL)
    read = neutral_read(craft.now, check)
    if read is None:
        raise Lacking(f"the readings of {RECEIVER_NEUTRAL} hold no number", check.place)
    found, unit, bare, neutral, _, outside = read
    band = default("band", read.band, unit, CUSTOM)
    apart = {name: value - number(neutral) for name, value in found.items()}
    rows = tuple(
        (name, value, apart[name], "outside" if name in outside else "inside")
        for name, value in found.items()
    )
    verdict = f"outside: {', '.join(outside)}" if outside else "none is outside"
    return given_value(
        "receiver_neutral",
        max(apart.values(), key=abs),
        unit=unit,
        way=FROM_NEUTRAL,
        basis="measured",
        inputs=[*_inputs(check, found, unit), neutral, band],
        verdict=verdict if check.result == "pass" else f"{verdict}; the check failed",
        table=Table(
            columns=("channel", f"reading, {unit}", f"from neutral, {unit}", "where"), rows=rows
        ),
        notes=(
            "throttle and switches are left out: they do not rest in the middle",
            *((f"written without a unit, taken as {unit}",) if bare else ()),
        ),
        other={f"spread, {unit}": max(found.values()) - min(found.values())},
    )


def _neutral_of(now: AircraftNow, unit: str) -> Input:
    """The neutral that a setting states in that unit; else the middle of all travel."""
    setting = now.settings.get((None, "neutral"))
    read = None if setting is None else number_read(setting.value)
    if setting is not None and read is not None and read[1] in (unit, ""):
        return declared("neutral", read[0], unit, setting.place)
    words = f"{CUSTOM}; 'neutral' in a setting replaces it"
    return default("neutral", NEUTRAL_AT[unit], unit, words)


def _alike(check: Completion) -> tuple[dict[str, float], str]:
    """Readings of the channels that rest in the middle, those in the unit of the first of them."""
    found: dict[str, float] = {}
    of_first = ""
    for channel, words in check.readings.items():
        read = None if any(word in channel for word in NOT_CENTRED) else number_read(words)
        if read is None:
            continue
        value, unit = read
        if not found:
            of_first = unit
        if unit == of_first:
            found[channel] = value
    return found, of_first


def _inputs(check: Completion, found: Mapping[str, float], unit: str) -> list[Input]:
    return [
        measured(Name("reading", "of", name), value, unit, check.place)
        for name, value in found.items()
    ]


def starts_read(now: AircraftNow) -> Mapping[str, tuple[float, Completion]]:
    """The last throttle at which the motor of each station started, and the check that read it."""
    found: dict[str, tuple[float, Completion]] = {}
    for station in now.motor_stations:
        for check in reversed(now.checks):
            value = _reading_at(check, station)
            if value is not None:
                found[station] = value, check
                break
    return found


def starts_of(now: AircraftNow, check: Completion) -> Mapping[str, float]:
    """The throttle at which the motor of each station started, as one check read it."""
    read = ((station, _reading_at(check, station)) for station in now.motor_stations)
    return {station: value for station, value in read if value is not None}


def starts_apart(starts: Mapping[str, float]) -> tuple[str, ...]:
    """The stations whose start is further from the middle one than the band. starts: not none."""
    middle = median(starts.values())
    return tuple(name for name, one in starts.items() if abs(one - middle) > START_BAND + 1e-9)


def _start(craft: Craft) -> Figure:
    read = starts_read(craft.now)
    found = {station: value for station, (value, _) in read.items()}
    stale = [station for station, (_, one) in read.items() if _changed_since(craft, station, one)]
    inputs = [
        in_per_cent(measured(Name("start", "of", station), value, "ratio", check.place))
        for station, (value, check) in read.items()
    ]
    if not found:
        _last(craft, START_SPREAD)
        raise Lacking(
            f"no reading of {START_SPREAD} is a share of the throttle at a station", craft.home
        )
    apart = starts_apart(found)
    missing = [name for name in craft.now.motor_stations if name not in found]
    several = len(found) > 1
    band = [in_per_cent(default("band", START_BAND, "ratio", CUSTOM))] if several else []
    beside = {name: "apart" if name in apart else "together" for name in found if several}
    rows = tuple((name, value, beside.get(name, "")) for name, value in found.items())
    alike = "all start together" if several else ""
    return given_value(
        "start_spread",
        max(found.values()),
        unit="ratio",
        way=HIGHEST,
        basis="measured",
        inputs=[*inputs, *band],
        verdict=f"starts apart: {', '.join(apart)}" if apart else alike,
        table=Table(columns=("station", "start", "where"), rows=rows),
        notes=(
            *((f"motor or ESC changed since: {', '.join(stale)}",) if stale else ()),
            *((f"no reading of {', '.join(missing)}",) if missing else ()),
        ),
        other={"spread": max(found.values()) - min(found.values())} if several else {},
    )


def _reading_at(check: Completion, station: str) -> float | None:
    if check.name != START_SPREAD:
        return None
    return throttle_read(
        check.readings.get(station, check.readings.get(f"{START_SPREAD}.{station}"))
    )


def _changed_since(craft: Craft, station: str, check: Completion) -> bool:
    seated = [craft.now.at(station, kind) for kind in ("motor", "esc")]
    return any(one is not None and one.since_seq > check.seq for one in seated)


FIGURES = (
    FigureSpec(
        name="receiver_neutral",
        title="Receiver neutral",
        line="How far the last readings are from neutral.",
        about="The reading that is furthest from neutral, and which channels are outside.",
        topic="Layout and control",
        unit="%",
        further_units=("µs",),
        shown="public",
        of_aircraft=receiver_neutral,
        methods=(FROM_NEUTRAL,),
        held_by=("tests/figures/answers/test_log_and_packs.py",),
    ),
    FigureSpec(
        name="start_spread",
        title="Motors start at",
        line="The throttle at which each motor starts.",
        about="The throttle at which the slowest motor starts.",
        topic="Layout and control",
        unit="ratio",
        worded="throttle",
        shown="public",
        of_aircraft=start_spread,
        methods=(HIGHEST,),
        held_by=("tests/figures/answers/test_log_and_packs.py",),
        headline=Headline(place=13),
    ),
)
