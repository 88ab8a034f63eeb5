"""A programme as it applies: what it is based on, changed, added and dropped."""

import datetime
from collections.abc import Iterable, Mapping

import msgspec

from buildbook.basis.counting import Interval, parts
from buildbook.basis.nearest import did_you_mean
from buildbook.basis.place import Place
from buildbook.basis.problems import Problems
from buildbook.records.checking.known import programme_chain
from buildbook.records.programmes import (
    BUILT_IN,
    CheckRule,
    Follows,
    LimitRule,
    Programme,
    TaskRule,
    limit_parts,
)
from buildbook.report.upkeep.programme import Applied, Dropped, Resolved, Rule
from buildbook.report.upkeep.work import RowKind

_WHERE = ("file", "line", "lines", "written", "since")


def find(programmes: Mapping[str, Programme], name: str) -> Programme | None:
    """The programme of that name: the keeper's own, else the built-in one."""
    return programmes.get(name) or programmes.get(BUILT_IN + name)


def resolve(
    programmes: Mapping[str, Programme],
    name: str,
    problems: Problems | None = None,
    *,
    as_of: datetime.date | None = None,
) -> Resolved | None:
    """The programme with its bases laid under it, or None where no such programme exists.

    as_of: rows that hold only since a later day are left out; None: whatever is written last.
    """
    chain = programme_chain(programmes, name)
    missing = chain[-1].based_on if chain else None
    if missing is not None and problems is not None:
        reason, place, hint = _lost(programmes, missing, chain[-1])
        problems.add(reason, place, hint=hint)
    if not chain:
        return None
    resolved = Resolved(name=name)
    for programme in reversed(chain):
        resolved = _laid_over(resolved, programme, as_of or datetime.date.max)
    return msgspec.structs.replace(
        resolved, name=name, chain=tuple(programme.name for programme in chain)
    )


def _lost(
    programmes: Mapping[str, Programme], wanted: str, last: Programme
) -> tuple[str, Place, str | None]:
    place = last.place("based_on")
    if find(programmes, wanted) is not None:
        return f"programme '{last.name}' is based on itself by way of '{wanted}'", place, None
    names = [name for name in programmes if name != last.name]
    hint = did_you_mean(wanted, names)
    return f"programme '{last.name}' is based on '{wanted}', which does not exist", place, hint


def _laid_over(base: Resolved, programme: Programme, as_of: datetime.date) -> Resolved:
    """The base with the rows of a programme changed, added and dropped."""
    own = not programme.built_in
    drop = programme.drop
    dropped = [
        Dropped(kind=kind, name=name, why=drop[name], place=programme.place(f"drop.{name}"))
        for kind, names in _names(base)
        for name in names
        if name in drop
    ]
    again = {
        *(rule.check for rule in programme.checks),
        *(rule.task for rule in programme.tasks),
        *(rule.limit for rule in programme.life_limits),
    }
    kept = [row for row in base.dropped if row.name not in again]
    return Resolved(
        name=programme.name,
        checks=_merged(base.checks, _held(programme.checks, "check", as_of), "check", drop, own),
        tasks=_merged(base.tasks, _held(programme.tasks, "task", as_of), "task", drop, own),
        life_limits=_merged(
            base.life_limits, _held(programme.life_limits, "limit", as_of), "limit", drop, own
        ),
        dropped=(*kept, *dropped),
    )


def _names(base: Resolved) -> tuple[tuple[RowKind, list[str]], ...]:
    return (
        ("check", [row.rule.check for row in base.checks]),
        ("task", [row.rule.task for row in base.tasks]),
        ("limit", [row.rule.limit for row in base.life_limits]),
    )


def _merged(
    base: tuple[Applied[Rule], ...],
    changes: Iterable[Rule],
    key: str,
    drop: Mapping[str, str],
    own: bool,
) -> tuple[Applied[Rule], ...]:
    rows = {getattr(row.rule, key): row for row in base if getattr(row.rule, key) not in drop}
    for change in changes:
        name = getattr(change, key)
        before = rows.get(name)
        if before is None:
            rows[name] = Applied(change)
            continue
        rule = _changed(before.rule, change)
        usual = before.usual or before.rule
        if not own or _same(rule, usual):
            rows[name] = Applied(rule)
        else:
            rows[name] = Applied(rule, usual, _looser(rule, usual))
    return tuple(rows.values())


def _held(rows: Iterable[Rule], key: str, as_of: datetime.date) -> tuple[Rule, ...]:
    """Of the rows of one name the last that held on that day; one without ``since`` always held."""
    found: dict[str, Rule] = {}
    for row in sorted(rows, key=lambda row: row.since or datetime.date.min):
        if row.since is None or row.since <= as_of:
            found[getattr(row, key)] = row
    order = dict.fromkeys(getattr(row, key) for row in rows)
    return tuple(found[name] for name in order if name in found)


def checks_in(programme: Resolved | None) -> frozenset[str]:
    """The names of its set-up checks; of no programme none."""
    return frozenset(one.rule.check for one in programme.checks) if programme else frozenset()


def covering(programme: Resolved) -> Mapping[str, tuple[str, ...]]:
    """By task, the checks and tasks of which a pass closes it as well."""
    found: dict[str, tuple[str, ...]] = {}
    rows = [
        *((row.rule.check, row.rule.covers) for row in programme.checks),
        *((row.rule.task, row.rule.covers) for row in programme.tasks),
    ]
    for name, covers in rows:
        for task in covers:
            found[task] = (*found.get(task, ()), name)
    return found


def _changed(base: Rule, change: Rule) -> Rule:
    """The base row with what the change writes; what it leaves out stays as it was.

    Without a list of written keys a value that is not the default counts as written.
    """
    fields = msgspec.structs.fields(type(change))
    if change.written:
        names = set(change.written)
        new = {field.name for field in fields if field.name in names}
    else:
        new = {
            field.name
            for field in fields
            if field.name not in _WHERE and getattr(change, field.name) != _default(field)
        }
    values = {name: getattr(change, name) for name in sorted(new)}
    return msgspec.structs.replace(
        base, **values, file=change.file, line=change.line, lines=change.lines
    )


def _default(field: msgspec.structs.FieldInfo) -> object:
    if field.default is not msgspec.NODEFAULT:
        return field.default
    if field.default_factory is not msgspec.NODEFAULT:
        return field.default_factory()
    return ""


def _same(one: Rule, other: Rule) -> bool:
    return all(
        getattr(one, field.name) == getattr(other, field.name)
        for field in msgspec.structs.fields(type(one))
        if field.name not in (*_WHERE, "basis", "what")
    )


def _looser(own: Rule, usual: Rule) -> bool:
    if isinstance(own, CheckRule) and isinstance(usual, CheckRule):
        return looser_check(own, usual)
    if isinstance(own, TaskRule) and isinstance(usual, TaskRule):
        return looser_task(own, usual)
    if isinstance(own, LimitRule) and isinstance(usual, LimitRule):
        return looser_limit(own, usual)
    raise TypeError(f"no rule: {own!r}")


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


class Programmes:
    """The programmes of one hangar as they are on a day."""

    def __init__(self, programmes: Mapping[str, Programme], as_of: datetime.date) -> None:
        self._programmes = programmes
        self._as_of = as_of
        self._resolved: dict[str, Resolved | None] = {}

    def named(self, name: str | None) -> Resolved | None:
        """The programme of that name with its bases laid under it; None: there is none."""
        if name is None:
            return None
        if name not in self._resolved:
            self._resolved[name] = resolve(self._programmes, name, as_of=self._as_of)
        return self._resolved[name]
