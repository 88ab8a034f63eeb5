"""Intervals and limits in words, and whether one is weaker than another."""

from buildbook.basis.amounts import listed
from buildbook.basis.counting import UNITS, Interval, parts, shown_parts
from buildbook.records.programmes import CheckRule, Follows, LimitRule, TaskRule


def amount(unit: str, value: float) -> str:
    """A number and its unit: ``25 flights``, ``1 month``, ``10 h``; a share as ``80 %``."""
    return f"{round(value * 100, 1):g} %" if unit == "share" else UNITS[unit].said(value)


def interval_words(interval: Interval) -> str | None:
    """``50 flights, 10 h or 6 months``; None where nothing counts."""
    return _joined([amount(unit, value) for unit, value in shown_parts(interval).items()])


def follow_words(follows: Follows) -> str:
    """``3 flights after fit motor``."""
    after = listed([str(trigger) for trigger in follows.after], "or")
    return f"{amount('flights', follows.flights)} after {after}"


def limit_parts(rule: LimitRule) -> dict[str, float]:
    """What ends the life, by unit; shares as ratios."""
    found = shown_parts(rule)
    if rule.capacity_share is not None:
        found["capacity"] = rule.capacity_share
    if rule.cell_resistance_share is not None:
        found["cell_resistance"] = rule.cell_resistance_share
    return found


def limit_words(rule: LimitRule) -> str | None:
    """``300 cycles, 4 years, capacity 80 % or cell resistance 200 %``."""
    said = [
        f"{unit.replace('_', ' ')} {amount('share', value)}"
        if unit in ("capacity", "cell_resistance")
        else amount(unit, value)
        for unit, value in limit_parts(rule).items()
    ]
    return _joined(said)


def _joined(said: list[str]) -> str | None:
    if len(said) < 2:
        return said[0] if said else None
    return f"{', '.join(said[:-1])} or {said[-1]}"


def choice_words(own: Interval, usual: Interval) -> str:
    """A keeper's interval beside the usual one: ``25 flights (owner's choice; default 10)``."""
    mine, theirs = shown_parts(own), shown_parts(usual)
    default = interval_words(usual) or "none"
    if len(mine) == 1 and mine.keys() == theirs.keys():
        unit = next(iter(mine))
        if not UNITS[unit].symbol:
            default = f"{theirs[unit]:g}"
    return f"{interval_words(own) or 'no interval'} (owner's choice; default {default})"


def looser_interval(own: Interval, usual: Interval) -> bool:
    """Whether a unit of the usual interval is longer in the own one, or no longer counts."""
    mine = parts(own)
    return any(unit not in mine or mine[unit] > value for unit, value in parts(usual).items())


def looser_task(own: TaskRule, usual: TaskRule) -> bool:
    """Whether the own task is weaker: interval, tolerance, counting, triggers, second person."""
    allowed, usually = parts(own.tolerance), parts(usual.tolerance)
    return (
        looser_interval(own.every, usual.every)
        or any(value > usually.get(unit, 0) for unit, value in allowed.items())
        or (usual.counted_from == "earlier" and own.counted_from != "earlier")
        or (usual.month_rule == "exact" and own.month_rule != "exact")
        or _looser_follows(own.follows, usual.follows)
        or not set(usual.also_after) <= set(own.also_after)
        or (usual.second_person and not own.second_person)
        or (usual.propellers == "off" and own.propellers == "on")
    )


def _looser_follows(own: Follows | None, usual: Follows | None) -> bool:
    if usual is None:
        return False
    return own is None or own.flights > usual.flights or not set(usual.after) <= set(own.after)


def looser_check(own: CheckRule, usual: CheckRule) -> bool:
    """Whether the own check is weaker: triggers, grounding, what it goes by, second person."""
    return (
        not set(usual.stale_after) <= set(own.stale_after)
        or (usual.grounds and not own.grounds)
        or (usual.per is not None and own.per is None)
        or (usual.second_person and not own.second_person)
        or (usual.propellers == "off" and own.propellers == "on")
    )


def looser_limit(own: LimitRule, usual: LimitRule) -> bool:
    """Whether a limit of the usual rule is further away in the own one, or gone."""
    mine = limit_parts(own)
    for unit, value in limit_parts(usual).items():
        if unit not in mine:
            return True
        if (mine[unit] < value) if unit == "capacity" else (mine[unit] > value):
            return True
    return False
