"""Intervals and limits in words."""

from buildbook.basis.amounts import listed
from buildbook.basis.counting import Interval, amount, shown_parts
from buildbook.records.programmes import Follows, LimitRule, limit_parts


def interval_words(interval: Interval) -> str | None:
    """``50 flights, 10 h or 6 months``; None where nothing counts."""
    return _joined([amount(unit, value) for unit, value in shown_parts(interval).items()])


def follow_words(follows: Follows) -> str:
    """``3 flights after fit motor``."""
    after = listed([str(trigger) for trigger in follows.after], "or")
    return f"{amount('flights', follows.flights)} after {after}"


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
