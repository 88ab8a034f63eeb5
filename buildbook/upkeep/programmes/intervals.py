"""Whether an interval, a limit or a check is weaker than another."""

from buildbook.basis.counting import Interval, parts
from buildbook.records.programmes import CheckRule, Follows, LimitRule, TaskRule, limit_parts


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
        or (usual.grounds and not own.grounds)
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
