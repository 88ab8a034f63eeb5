"""What ``enter`` remarks of entries that are in order, but may not be what was meant.

Checks passed without the readings that their programme asks for. An earlier entry that is
corrected, voided or cleared is shown, so that a wrong one is seen at once.
"""

import datetime
from collections.abc import Iterable, Iterator, Mapping, Sequence

from buildbook.basis.place import Place
from buildbook.basis.problems import Problem
from buildbook.desk.changes import AsItWas, not_there
from buildbook.desk.entry_text import Tree
from buildbook.desk.placing import Wanted, Written, one_line, standing
from buildbook.records.checking.known import programme_chain
from buildbook.records.entries import (
    Alteration,
    AnyEntry,
    Check,
    Cleared,
    Correction,
    Defect,
    Incident,
    Repair,
    Void,
)
from buildbook.records.ledger import Ledger
from buildbook.records.row_names import LOW_VOLTAGE_ALARM
from buildbook.report.reports import Reports
from buildbook.report.state import AircraftNow
from buildbook.report.upkeep.work import NOTHING_TO_DO, Reason, Row, Why
from buildbook.upkeep.warnings.told_dangers import is_told
from buildbook.upkeep.work_list import set_up
from buildbook.words.measures.days import EXACT
from buildbook.words.reasons import reason_words, row_words

Named = tuple[str | None, dict[str, Tree]]
"""The slug of an aircraft, and an entry of it."""


def left_out(entries: Sequence[Named], ledger: Ledger) -> tuple[str, ...]:
    """What the entries leave out and was perhaps meant."""
    return (*_readings_left(entries, ledger), *_keys_left(entries, ledger))


def _readings_left(entries: Sequence[Named], ledger: Ledger) -> tuple[str, ...]:
    """One sentence, or none: which checks, and what is read at the first of them."""
    left = dict(_left(entries, ledger))
    if not left:
        return ()
    (first, how), *more = left.items()
    return (
        f"no readings written of {', '.join([f'{first} ({how})', *(name for name, _ in more)])}",
    )


def _keys_left(entries: Sequence[Named], ledger: Ledger) -> Iterator[str]:
    """What follows of a key that an entry can do without, and that was perhaps meant.

    A check flight that does not say how it went closes nothing. To what was weighed without a pack
    that of one is added.
    """
    if any(entry.get("purpose") == "check" and "result" not in entry for _, entry in entries):
        yield "the check flight has no result: pass or fail, and closes nothing until it has"
    specs = ledger.specs.values()
    if any("weigh" in entry and "pack" not in entry for _, entry in entries) and any(
        spec.kind == "battery" for spec in specs
    ):
        yield "no pack is named, so none was on, and its mass is added; say pack where one was"


def _left(entries: Sequence[Named], ledger: Ledger) -> Iterator[tuple[str, str]]:
    for slug, entry in entries:
        checks = entry.get("check") or ()
        if (
            slug is None
            or slug not in ledger.aircraft
            or entry.get("readings")
            or entry.get("result") != "pass"
        ):
            continue
        chain = programme_chain(ledger.programmes, ledger.aircraft[slug].programme)
        for name in [checks] if isinstance(checks, str) else checks:
            rules = (rule for programme in chain for rule in programme.checks if rule.check == name)
            rule = next(rules, None)
            if rule is not None and rule.readings:
                reading, how = next(iter(rule.readings.items()))
                yield str(name), f"{reading}: {how}"


def recorded_new(wanted: Iterable[Wanted]) -> tuple[str, ...]:
    """A sentence for each part that is recorded with an entry."""
    return tuple(
        f"{part.facts['tag']} is recorded in {part.file}, {part.facts['spec']} like {part.like}"
        for part in (each.part for each in wanted)
        if part is not None
    )


def written_with_aircraft(whose: Sequence[tuple[str | None, str | None]]) -> tuple[str, ...]:
    """A sentence for each part that sits on an aircraft. whose: slug and tag of each entry."""
    told = dict.fromkeys((slug, tag) for slug, tag in whose if slug and tag)
    return tuple(f"{tag} sits on {slug}: written in its logbook" for slug, tag in told)


def written_again(written: Sequence[Written], before: Ledger, after: Ledger) -> tuple[Problem, ...]:
    """A doubt for each that is done or found once and stands on its day already, word for word."""
    places = {f"{each.file}#{each.id}": Place(each.file, each.line) for each in written}
    new = [one for one in after.entries if one.uid in places and isinstance(one, _ONCE_A_DAY)]
    days = {one.on for one in new}
    old = [one for one in before.entries if one.on in days] if new else []
    left = not_there(list(enumerate(new)), old)
    return tuple(
        Problem(f"the same is written of {one.on} already", places[one.uid], "warning")
        for number, one in enumerate(new)
        if number not in left and not one.sure
    )


_ONCE_A_DAY = (Alteration, Check, Defect, Incident, Repair)


def with_grounded(
    doubts: Sequence[Problem], flown: Mapping[Written, str], before: AsItWas, day: datetime.date
) -> tuple[Problem, ...]:
    """What grounds an aircraft goes first, and then nothing else tells how it stood.

    flown: the slug of the aircraft of each entry. day: of the hangar as it is looked at.
    """
    then = {each.about for each in doubts if each.of_standing}
    now = {entry: of for entry, of in flown.items() if entry.on == day or of not in then}
    grounded = _grounded_doubts(now, before, day)
    told = {each.about for each in grounded}
    return (*grounded, *(each for each in doubts if not (each.of_standing and each.about in told)))


def _grounded_doubts(
    flown: Mapping[Written, str], before: AsItWas, day: datetime.date
) -> tuple[Problem, ...]:
    """A doubt for each flight of an aircraft that was grounded by what was written until then.

    One of which nobody ever wrote a check is asked about until a keeper was sure of a flight:
    whoever writes nothing but flights has answered.
    """
    told: list[Problem] = []
    for entry, slug in flown.items():
        hangar, listed = before(entry.on)
        aircraft = hangar.aircraft.get(slug)
        if aircraft is None:
            continue
        stood = next(one for one in listed.aircraft if one.slug == slug)
        grounding = [one for one in stood.reasons if one.grounding]
        unwritten = all(one.because.why == "never done" for one in grounding)
        sure = not aircraft.checks and any(one.uid in hangar.sure for one in aircraft.flights)
        if grounding and not (unwritten and sure):
            place = Place(entry.file, entry.line)
            verb = "is" if entry.on == day else "was"
            told.append(_grounded(f"{stood.name} {verb} grounded", slug, grounding, place))
    return tuple(told)


def unclosed_doubts(whose: Mapping[Written, str], opened: Reports) -> tuple[Problem, ...]:
    """A doubt for each check passed that its readings keep open. whose: the slug of each.

    What is a warning of ``check`` as well is not asked about twice.
    """
    told: dict[str, Problem] = {}
    after = opened.hangar
    for entry, slug in whose.items():
        uid, place = f"{entry.file}#{entry.id}", Place(entry.file, entry.line)
        checks = after.aircraft[slug].checks if slug in after.aircraft else ()
        names = {one.name for one in checks if one.uid == uid and one.result == "pass"}
        for row in set_up(after, slug) if names else ():
            why = None if row.because is None else row.because.why
            if row.name not in names or row.state in NOTHING_TO_DO or why not in _BY_READING:
                continue
            if row.place == place and _is_warned(after.aircraft[slug], row):
                continue
            words = f"{slug}: {row_words(row, EXACT)}"
            told.setdefault(words, Problem(words, place, "warning", about=slug))
        if LOW_VOLTAGE_ALARM in names and any(one.uid == uid and one.readings for one in checks):
            for words in _late_alarms(opened, slug):
                told.setdefault(words, Problem(words, place, "warning", about=slug))
    return tuple(told.values())


def _late_alarms(opened: Reports, slug: str) -> Iterator[str]:
    """Worked out only where an alarm was read: it takes the figures of all packs."""
    from buildbook.words.sheets.set_up import expected_words, last_words

    for one in opened.expected_readings(slug):
        if one.late:
            yield (
                f"{slug}: alarm read as {last_words(one)}, the reserve begins at"
                f" {expected_words(one)}"
            )


_BY_READING: tuple[Why, ...] = ("reading", "link lost")


def _is_warned(aircraft: AircraftNow, row: Row) -> bool:
    """Whether ``check`` warns of it: read against the plan, or a motor that runs on."""
    if row.because is not None and row.because.why == "link lost":
        return aircraft.status == "flying"
    return is_told(row)


_MOST_REASONS = 3


def _grounded(said: str, slug: str, grounding: Sequence[Reason], place: Place) -> Problem:
    """``Gnat is grounded: failsafe: never done; range: stale; and 4 more``."""
    by_name = {one.row.name if one.row else one.because.tag: one for one in reversed(grounding)}
    first = [reason_words(one, EXACT) for one in reversed(by_name.values())]
    more = [f"and {len(first) - _MOST_REASONS} more"] if len(first) > _MOST_REASONS else []
    return Problem(
        f"{said}: {'; '.join([*first[:_MOST_REASONS], *more])}",
        place,
        "warning",
        "write first what was done about it: buildbook due says what that is",
        about=slug,
    )


def amended(
    written: Sequence[Written], entries: Sequence[AnyEntry], content: Mapping[str, bytes]
) -> tuple[str, ...]:
    """A sentence for each entry that is corrected, voided or cleared: as it stands in its file."""
    files = {each.file for each in written}
    new = {f"{each.file}#{each.id}" for each in written}
    there = [entry for entry in entries if entry.file in files and entry.uid in new]
    return tuple(_sentences(there, entries, content))


def _sentences(
    new: Iterable[AnyEntry], entries: Iterable[AnyEntry], content: Mapping[str, bytes]
) -> Iterator[str]:
    of = {uid: verb for entry in new for uid, verb in _named(entry)}
    if not of:
        return
    for entry in entries:
        if entry.uid in of:
            text = standing(content[entry.file], entry.line)
            original = Written(entry.file, entry.line, entry.id, entry.on, text, 0)
            yield f"{of[entry.uid]}: {one_line(original)}"


def _named(entry: AnyEntry) -> Iterator[tuple[str, str]]:
    """The uid of the entry that it speaks of, and what it does to it."""
    if isinstance(entry, Correction):
        yield entry.original, "corrected"
    elif isinstance(entry, Void):
        yield entry.original, "voided"
    elif isinstance(entry, Cleared):
        yield entry.target, "cleared"
