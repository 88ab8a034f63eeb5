"""Looks, checks and a weighing to write next: lines with a place for each reading."""

from collections.abc import Iterator

from buildbook.records.programmes import CheckRule
from buildbook.records.readings import READ_IN
from buildbook.records.row_names import (
    PROPELLER_FIT,
    RECEIVER_NEUTRAL,
    RECEIVER_ORDER,
    SPIN_DIRECTIONS,
    START_SPREAD,
)
from buildbook.report.next_step import NextStep, Seat


def check_lines(step: NextStep) -> Iterator[str]:
    """A line a key, as they stand in a log."""
    for look in step.looks:
        yield f"- on: {step.day}"
        yield f"  inspection: {look.task}"
        yield "  result: <pass or fail>"
    for rule in step.checks:
        yield f"- on: {step.day}"
        yield f"  check: {rule.check}"
        yield "  result: <pass or fail>"
        readings = ", ".join(f"{name}: {what}" for name, what in _readings(step, rule))
        if readings:
            yield f"  readings: {{{readings}}}"
    if step.weigh:
        yield f"- on: {step.day}"
        yield "  weigh: <mass> g"
        if step.packs:
            yield f"  pack: {of_seat(step.packs)}"


def _readings(step: NextStep, rule: CheckRule) -> Iterator[tuple[str, str]]:
    """What to read, each with a place to write it in."""
    for name, what in rule.readings.items():
        if name != "each":
            yield name, _to_fill(what) + (f" {READ_IN[name]}" if name in READ_IN else "")
        elif rule.check == RECEIVER_ORDER:
            yield from ((f'"{at}"', "<channel>") for at, _ in enumerate(step.channels, 1))
        elif rule.check == RECEIVER_NEUTRAL:
            yield from ((channel, "<as in 1500 µs>") for channel in step.centred)
        elif rule.per == "motor station":
            turns = rule.check in (SPIN_DIRECTIONS, PROPELLER_FIT)
            unit = " %" if rule.check == START_SPREAD else ""
            yield from (
                (station, spin_of(step) if turns else f"{_to_fill(what)}{unit}")
                for station in step.motors
            )


def _to_fill(what: str) -> str:
    """The words of a reading as far as a comma or colon, which would end a value."""
    words = what
    for sign in ",:(":
        words = words.partition(sign)[0]
    return f"<{words.strip()}>"


def spin_of(step: NextStep) -> str:
    """A place for a spin: of an aeroplane it is seen from behind."""
    return f"<cw or ccw seen from {'above' if step.kind == 'multirotor' else 'behind'}>"


def of_seat(seat: Seat) -> str:
    """The tags that can only be meant, or a place for one."""
    if len(seat.tags) > 1:
        return f"[{', '.join(seat.tags)}]"
    return seat.tags[0] if seat.tags else f"{seat.stem}<{'number' if seat.stem else 'its tag'}>"
