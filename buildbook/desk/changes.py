"""What entries change, and which are there already: a table brought in twice adds nothing."""

import datetime
from collections import Counter
from collections.abc import Callable, Iterable, Iterator, Mapping
from functools import cache
from typing import Any

from buildbook.basis import amounts
from buildbook.basis.counting import UNITS
from buildbook.basis.notation import quoted
from buildbook.hangar.fold import fold
from buildbook.records.entries import AnyEntry, Charge, Defect, Flight
from buildbook.records.entries.kinds import said_of
from buildbook.records.ledger import Ledger
from buildbook.report.reports import Reports
from buildbook.report.state import Hangar
from buildbook.report.upkeep.work import PackStanding, Reason, Row, RowKey, Standing, WorkList
from buildbook.upkeep.work_list import work_list
from buildbook.words.measures.days import EXACT
from buildbook.words.reasons import amount, reason_words, row_title
from buildbook.words.upkeep.packs import returns

_COUNTED = frozenset(key for key, one in UNITS.items() if one.foreseen and not one.by_calendar)
_OPEN = frozenset(("due soon", "due", "in tolerance", "overdue", "reached", "stale", "failed"))
_MOST = 12


AsItWas = Callable[[datetime.date], tuple[Hangar, WorkList]]


def as_it_was(ledger: Ledger) -> AsItWas:
    """The hangar and its work list at the end of a day, by what was written before; each once."""

    @cache
    def on(day: datetime.date) -> tuple[Hangar, WorkList]:
        hangar = fold(ledger, day)
        return hangar, work_list(hangar)

    return on


def what_changed(
    old: WorkList, after: Reports | None, names: frozenset[str], flown: frozenset[str]
) -> tuple[str, ...]:
    """Sentences on what is another now, of the aircraft and items named; then what comes next.

    flown: the aircraft that flew or that something happened to: what grounds them is told in any
    case. A pack that is set aside is told though no entry names it.
    """
    if after is None:
        return ()
    new = after.work
    told = [*_standings(old.aircraft, new.aircraft, names, flown)]
    told += _packs(old.packs, new.packs, names)
    entries = after.hangar.ledger.entries
    defects = {entry.uid: entry.words for entry in entries if isinstance(entry, Defect)}
    told += _rows(_of(old, names), _of(new, names), defects)
    if len(told) > _MOST:
        told = [*told[: _MOST - 1], f"and {amounts.count('more change', len(told) - _MOST + 1)}"]
    return tuple(told)


def _of(work: WorkList, names: frozenset[str]) -> dict[RowKey, Row]:
    return {row.key: row for row in work.rows if row.aircraft in names or row.tag in names}


def _standings(
    old: Iterable[Standing],
    new: Iterable[Standing],
    names: frozenset[str],
    flown: frozenset[str],
) -> Iterator[str]:
    was = {each.slug: each.state for each in old}
    for each in new:
        why = f" ({reason_words(each.reasons[0], EXACT)})" if each.reasons else ""
        if each.slug in names and was.get(each.slug) != each.state:
            yield f"{each.name} {_standing(was.get(each.slug), each.state)}{why}"
        elif each.slug in flown and each.reasons and _comes_first(each.reasons[0]):
            yield f"{each.name} is {each.state}{why}"


def _standing(was: str | None, now: str) -> str:
    """``was due soon, is grounded``; with nothing open a thing has that, and is not it."""
    then = "" if was is None else f"{'had' if was == 'nothing open' else 'was'} {was}, "
    return f"{then}{'has' if now == 'nothing open' else 'is'} {now}"


def _comes_first(reason: Reason) -> bool:
    """What is told after each flight: what grounds it, or a check flight that was not flown."""
    return reason.grounding or reason.because.why == "check flight"


def _packs(
    old: Iterable[PackStanding], new: Iterable[PackStanding], names: frozenset[str]
) -> Iterator[str]:
    was = {each.tag: each.state for each in old}
    for each in new:
        if each.tag in names and was.get(each.tag) == each.state == "quarantined":
            yield f"pack {each.tag} stays quarantined: {returns(each)}"
        told = each.tag in names or each.state == "quarantined"
        if told and was.get(each.tag) != each.state:
            aside = each.state == "quarantined" and each.reasons
            why = f" ({reason_words(each.reasons[0], EXACT)})" if aside else ""
            yield f"pack {each.tag} {_standing(was.get(each.tag), each.state)}{why}"


def _title(row: Row, defects: Mapping[str, str]) -> str:
    """What a row is called; a defect by what the keeper wrote, as ids are counted."""
    words = defects.get(row.because.entry or "") if row.because and row.kind == "defect" else None
    return row_title(row) if words is None else f"defect {quoted(words)}"


def _rows(
    old: Mapping[RowKey, Row], new: Mapping[RowKey, Row], defects: Mapping[str, str]
) -> Iterator[str]:
    coming: list[Row] = []
    changed: dict[tuple[str, str], dict[str, list[Row]]] = {}
    for key, row in new.items():
        before = old.get(key)
        if before is None or before.state != row.state:
            if row.state == "not applicable" or (before is None and row.state == "ok"):
                continue  # something else stands for it, which is listed; or all is well
            name = _title(row, defects) if row.kind == "defect" else row.name
            if row.rule is None and row.kind != "defect":  # no row of a programme has that name
                name = name.replace("-", " ")
            was: str = "" if before is None else before.state
            if row.state == "ok" and row.because is not None:
                name += ", not judged"
            changed.setdefault((was, row.state), {}).setdefault(name, []).append(row)
        elif _nearer(before, row):
            coming.append(row)
    for (then, now), by_name in changed.items():
        names = "; ".join(f"{name}{_about(rows)}" for name, rows in by_name.items())
        yield f"{f'was {then}, ' if then else ''}is {now}: {names}"
    if coming:
        first = min(coming, key=lambda row: (row.state not in _OPEN, -(row.used or 0)))
        yield f"{_title(first, defects)} {_due_in(first)}"


def _about(rows: Iterable[Row]) -> str:
    """The items or stations of rows of one name."""
    about = [name for row in rows if (name := row.tag or row.station)]
    return f" of {', '.join(dict.fromkeys(about))}" if about else ""


def _nearer(before: Row, after: Row) -> bool:
    """Whether something that is counted has gone on."""
    return any(
        unit in _COUNTED and left != before.left.get(unit) for unit, left in after.left.items()
    )


def _due_in(row: Row) -> str:
    """``due in 3 flights``, by the unit that was counted and comes first; else that it is open."""
    if row.state in ("stale", "failed"):
        return f"is {row.state}"
    if row.state == "overdue" and (by := row.first_by) is not None and by in row.left:
        return f"is overdue, {amount(by, row.left[by])} past"
    units = [unit for unit in (row.first_by, *row.left) if unit in _COUNTED and unit in row.left]
    unit = units[0] if units else None
    if unit is None:
        return f"is {row.state}"
    size = amount(unit, row.left[unit])
    return f"due in {size}" if row.left[unit] > 0 else f"is {row.state}, {size} past"


def not_there(new: Iterable[tuple[int, AnyEntry]], old: Iterable[AnyEntry]) -> list[int]:
    """The numbers of the new entries that the old ones don't have, each counted as often as it is.

    A flight is known by its aircraft, day, length and packs, a charge by its packs, day and
    amount, all else by what it says, remarks apart: what was added to an entry since, or
    corrected by one of its own, does not make it another.
    """
    there = Counter(mark for entry in old for mark in _marks(entry))
    missing = []
    for number, entry in new:
        marks = list(_marks(entry))
        if all(there[mark] > 0 for mark in marks):
            there.subtract(marks)
        else:
            missing.append(number)
    return missing


def _marks(entry: AnyEntry) -> Iterator[Any]:
    if isinstance(entry, Flight):
        for row in entry.rows:
            yield "flight", entry.log, entry.on, round(row.duration_s), row.packs
    elif isinstance(entry, Charge):
        amount = None if entry.put_in_ah is None else round(entry.put_in_ah, 3)
        yield "charge", entry.packs, entry.on, amount
    else:
        yield entry.log, said_of(entry)
