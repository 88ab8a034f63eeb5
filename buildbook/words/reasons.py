"""Why a row, an aircraft or a pack stands as it does, from the facts that upkeep found."""

from collections.abc import Callable, Mapping
from typing import Any

from buildbook.basis import amounts
from buildbook.basis.counting import UNITS
from buildbook.basis.notation import quoted
from buildbook.report.upkeep.findings import (
    Against,
    AtLeast,
    CoveredBy,
    DefectFound,
    Drifted,
    FailedAs,
    Finding,
    InState,
    MassComputed,
    Moved,
    NotFitted,
    Noticed,
    NotReadAgain,
    NoYaw,
    PartAgain,
    ReadOtherwise,
    Revised,
    Unread,
    WithoutLink,
    WrongHand,
)
from buildbook.report.upkeep.pack_findings import SetAside, UsedAside
from buildbook.report.upkeep.work import Because, Reason, Row
from buildbook.words.measures.days import Days
from buildbook.words.names import kind_word, name_words, trigger_words
from buildbook.words.upkeep.dangers import WHOLE, alarm_found
from buildbook.words.upkeep.packs import OF_PACK, against, set_aside, used_aside


def amount(unit: str, value: float) -> str:
    """An amount of what is left, without its sign: ``3 flights``, ``0.8 h``, ``12 %``."""
    return " ".join(amount_parts(unit, value))


def amount_parts(unit: str, value: float) -> tuple[str, str]:
    """Its number and its unit: ``3`` and ``flights``."""
    size = abs(value)
    if unit == "share":
        return _parts(amounts.share.said(size))
    counted = UNITS[unit]
    if counted.symbol == "h":
        return _parts(amounts.hours.said(size * 3600))
    if counted.divisible:
        return amounts.fixed(size, 1), counted.plural
    return amounts.count_parts(counted.noun, round(size))


def _parts(said: amounts.Said) -> tuple[str, str]:
    return said.digits, said.behind.strip()


def row_name(row: Row) -> str:
    """The name in plain words: ``motor bearings``, ``pack retirement``, ``defect``."""
    if row.kind == "defect":
        return "defect"
    words = name_words(row.name)
    return f"{words}ment" if row.kind == "limit" and row.name.endswith("-retire") else words


def row_subject(row: Row) -> str:
    """What a row is about, after its name: ``of M-03``, ``at front-left``, or nothing."""
    if row.tag and row.station:
        return f"of {row.tag} at {row.station}"
    if row.tag:
        return f"of {row.tag}"
    return f"at {row.station}" if row.station else ""


def row_title(row: Row, subject: str | None = None) -> str:
    """The name of a row with its subject, or that of all rows alike, in plain words."""
    if row.tag and row.name in _OF_A_PACK:
        return f"{row.tag} {row_name(row)}"
    return f"{row_name(row)} {row_subject(row) if subject is None else subject}".strip()


_OF_A_PACK = (
    "flown-low",
    "said-swollen",
    "flown-into-reserve",
    "used-too-much",
    "charged-wrongly",
    "used-while-aside",
)
"""Rows that say what became of a pack, and so follow its tag."""


def reason_words(reason: Reason, days: Days) -> str:
    """A reason in one line: ``motor bearings of M-03: overdue by 3 flights``."""
    if reason.row is not None:
        return row_words(reason.row, days)
    because = reason.because
    found = because.found
    if isinstance(found, InState):
        at = f" at {because.station}" if because.station else ""
        whys = f" ({'; '.join(found.whys)})" if found.whys else ""
        return f"{because.tag}{at}: {found.state}{_when(because, days)}{whys}"
    return because_words(because, days)


def row_words(row: Row, days: Days, subject: str | None = None) -> str:
    """How a row stands, and why: ``spin directions at front-left: stale, …``.

    subject: what it is about, where it speaks for several that are alike.
    """
    why = because_words(row.because, days)
    if row.because is not None and row.because.why == "check flight":
        return why
    found = None if row.because is None else row.because.found
    if type(found) in WHOLE:
        return why
    if isinstance(found, SetAside):
        return f"{row.tag} is {why}"
    if row.because is not None and isinstance(row.because.found, NotFitted):
        return f"{row.station}: {why}" if row.station else why
    if row.because is not None and row.because.found == WithoutLink(throttle=None):
        return why
    if row.because is not None and row.because.why in _SAYS_STATE:
        return f"{row_title(row, subject)}: {_SAYS_STATE[row.because.why](row.because, days)}"
    state = _defect_state(row, days) if row.kind == "defect" else _state(row)
    return f"{row_title(row, subject)}: {', '.join(words for words in (state, why) if words)}"


def _state(row: Row) -> str:
    """The state with the amount that decides: ``overdue by 3 flights``."""
    if row.kind == "limit" and row.unknown and row.state == "open":
        return "cannot say"
    value = row.left.get(row.first_by or "", 0)
    if row.first_by is None or value == 0 or row.state == "never done":
        return row.state
    size = amount(row.first_by, value)
    if row.state == "overdue":
        return f"overdue by {size}"
    if row.state == "in tolerance":
        return f"in tolerance, {size} past due"
    return f"{row.state}, {size} left" if row.state in ("due soon", "ok") else row.state


def _defect_state(row: Row, days: Days) -> str:
    found = row.because.found if row.because is not None else None
    severity = found.severity if isinstance(found, DefectFound) else ""
    if row.state == "deferred":
        limited = not isinstance(found, DefectFound) or found.limited
        done = found.inoperative if isinstance(found, DefectFound) else None
        deferred = "deferred" if limited else "deferred without a limit"
        if row.due_on is not None:
            grounds = ", grounded after it" if row.aircraft else ""
            deferred = f"deferred to {days(row.due_on)}{grounds}"
        return f"{done}, {deferred}" if done else deferred
    if row.state in ("due", "overdue"):
        return "deferral at its limit" if row.state == "due" else "deferral past its limit"
    return {"grounds": "grounds", "note": "noted"}.get(severity, row.state)


def because_words(because: Because | None, days: Days) -> str:
    """Why, in a few words; empty where there is nothing to add to the state."""
    if because is None:
        return ""
    words = _WHY[because.why](because, days)
    return f"{words}{_when(because, days)}" if because.why in _DATED else words


def _when(because: Because, days: Days) -> str:
    return "" if because.on is None else f" {days.on(because.on)}"


_DATED = ("trigger", "defect", "check flight", "moved")


def finding_words(found: Finding | None, days: Days) -> str:
    """What was found, in a few words; empty for nothing."""
    return "" if found is None else FOUND[type(found)](found, days)


def _found(words: str) -> Callable[[Because, Days], str]:
    def worded(because: Because, days: Days) -> str:
        return finding_words(because.found, days) or words

    return worded


def _after(because: Because, _days: Days) -> str:
    if because.trigger is None:
        return "fly a check flight next"
    return f"fly a check flight next: {trigger_words(because.trigger)}"


def _reopened(because: Because, _days: Days) -> str:
    return f"re-opened: {trigger_words(because.trigger)}" if because.trigger else "re-opened"


def _unchecked(because: Because, days: Days) -> str:
    return f"done{_when(because, days)}, not yet checked by a second person"


def _notice(because: Because, days: Days) -> str:
    if because.entry is not None:
        return f"looked at{_when(because, days)}"
    of = f" of {days(because.on)}" if because.on else ""
    revision = finding_words(because.found, days)
    return f"notice{of}{f', {revision}' if revision else ''}"


def _limit(because: Because, days: Days) -> str:
    if because.found is not None:
        return finding_words(because.found, days)
    return f"by {because.unit.replace('_', ' ')}" if because.unit else ""


def _as(because: Because, days: Days) -> str:
    """When a look or check failed, and what it found and read: `` on 3 May 2026: cracked arm``."""
    found, on = because.found, _when(because, days)
    if not isinstance(found, FailedAs):
        return on
    said = [f"{name} {value}" for name, value in found.readings]
    if found.findings:
        said.insert(0, found.findings.strip().rstrip("."))
    return f"{on}: {', '.join(said)}" if said else on


_WHY: Mapping[str, Callable[[Because, Days], str]] = {
    "never done": lambda *_: "not in the log",
    "interval": lambda *_: "",  # what is left says it
    "trigger": _reopened,
    "failed": lambda because, days: f"the last one failed{_as(because, days)}",
    "reading": _found("the reading contradicts the layout"),
    "second person": _unchecked,
    "limit": _limit,
    "unknown history": _found("earlier history unknown"),
    "defect": _found("found"),
    "item state": _found("not serviceable"),
    "set aside": set_aside,
    "used aside": _found("used since it was set aside"),
    "empty station": _found("parts are missing"),
    "missing part": _found("parts are missing"),
    "hand": _found("the propeller contradicts the spin"),
    "plan": _found("the planned spins leave no yaw control"),
    "link lost": _found("when the link is lost"),
    "memory": _found("the same memory of the transmitter"),
    "alarm": _found("the alarm sounds too late"),
    "range": _found("the range fell"),
    "unlike": _found("one is unlike the others"),
    "nut": _found("the nut may loosen"),
    "bounds": _found("outside its bounds"),
    "rating": _found("past what is recorded"),
    "moved": _found("moved to another aircraft"),
    "noticed": _found("noticed in flight"),
    "wet": lambda because, days: f"it got wet{_when(because, days)}, and was not opened since",
    "check flight": _after,
    "weighing": _found("not weighed since the last change of mass"),
    "signal": _found("outside its usual range"),
    "notice": _notice,
    "covered": _found("covered by another"),
    "dropped": lambda *_: "left out of the programme by the owner",
    "not here": lambda because, days: f"said not to apply{_when(because, days)}",
    "no programme": lambda *_: "no maintenance programme recorded",
}

_SAYS_STATE: Mapping[str, Callable[[Because, Days], str]] = {
    "never done": lambda *_: "never done",
    "failed": lambda because, days: f"failed{_as(because, days)}",
    "second person": _unchecked,
    "covered": _WHY["covered"],
    "dropped": _WHY["dropped"],
    "not here": _WHY["not here"],
}
"""Reasons that say how the row stands."""


def _read_otherwise(found: ReadOtherwise, _days: Days) -> str:
    at = f" at {found.at}" if found.at else ""
    alarm = f"; sounds at {alarm_found(found.alarm)}" if found.alarm else ""
    read = f"{found.of}{at} read as {found.found}"
    return f"{read}, {_AGAINST[found.against]} {found.expected}{alarm}"


_AGAINST: Mapping[Against, str] = {
    "plan": "planned",
    "meter": "by meter",
    "neutral": "expected",
    "others": "the others about",
    "asked": "asked are",
    "sense": "expected",
    "level": "expected",
}


def _not_read_again(found: NotReadAgain, days: Days) -> str:
    on = "" if found.failed_on is None else f" {days.on(found.failed_on)}"
    read = ((found.of, found.found), *found.others)
    said = ", ".join(f"{name} {value}" for name, value in read)
    passed = "passed with" if found.again else "passed without"
    return f"{passed} the reading{'s' if found.others else ''} that failed{on}: {said}"


UNREAD = "can't be read, and is not judged"


def _mass_computed(found: MassComputed, days: Days) -> str:
    size = amounts.mass(abs(found.change_kg))
    change = f"{size} {'heavier' if found.change_kg > 0 else 'lighter'}"
    return f"not weighed since {days(found.weighed_on)}; what changed makes it {change}"


def _drifted(found: Drifted, _days: Days) -> str:
    return f"{found.of} {against(found.share)} its first flights"


def _not_fitted(found: NotFitted, _days: Days) -> str:
    kinds = amounts.listed((kind_word(kind) for kind in found.kinds), "or")
    return f"no {kinds} {'fitted' if found.recorded else 'was ever recorded'}"


RUNS_ON = "link lost, the motor keeps running"


def _without_link(found: WithoutLink, days: Days) -> str:
    if found.throttle is None:
        return "what the throttle does when the link is lost is not recorded"
    said = []
    if found.planned is not None:
        said.append(f"set to {found.planned}")
    if found.read is not None:
        on = "" if found.read_on is None else f" {days.on(found.read_on)}"
        said.append(f"seen {found.read}{on}")
    return f"{RUNS_ON}: {', '.join(said)}"


def _defect(found: DefectFound, _days: Days) -> str:
    if not found.days_open:
        return "found"
    return f"open for {amounts.count('day', found.days_open)}, found"


def _moved(found: Moved, _days: Days) -> str:
    if not found.came_from:
        return f"{found.tag} moved to another aircraft"
    return f"{found.tag} moved from {found.came_from} to {found.went_to}"


def _part_again(found: PartAgain, _days: Days) -> str:
    if found.crashed:
        return f"not looked at since {found.tag} was in the crash of {found.crashed}"
    if found.wet:
        return f"neither opened nor looked at since {found.tag} got wet with {found.wet}"
    if found.defect:
        return f"fitted again, not looked at since defect {found.defect} was found"
    return "not looked at since what happened to it"


def _at_least(found: AtLeast, _days: Days) -> str:
    return f"at least {amount(found.unit, found.value)}, earlier history unknown"


FOUND: Mapping[type, Callable[[Any, Days], str]] = {
    ReadOtherwise: _read_otherwise,
    NotReadAgain: _not_read_again,
    Unread: lambda found, _: f"{quoted(f'{found.of}: {found.found}')} {UNREAD}",
    MassComputed: _mass_computed,
    Drifted: _drifted,
    InState: lambda found, _: f"a {found.state} item is fitted",
    NotFitted: _not_fitted,
    WrongHand: lambda found, _: f"{found.tag} is {found.hand}, not {found.wanted}",
    NoYaw: lambda *_: "the planned spins leave no yaw control",
    WithoutLink: _without_link,
    Revised: lambda found, _: f"revision {found.revision}",
    DefectFound: _defect,
    Moved: _moved,
    PartAgain: _part_again,
    Noticed: lambda found, _: f"{found.what} in flight, not looked into since",
    UsedAside: used_aside,
    **OF_PACK,
    **WHOLE,
    CoveredBy: lambda found, _: f"covered by {name_words(found.task)}",
    AtLeast: _at_least,
}
"""By what was found, its words."""
