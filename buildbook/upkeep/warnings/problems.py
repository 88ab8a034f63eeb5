"""What upkeep has to say of the records themselves: for the list of problems and warnings."""

from collections.abc import Callable, Iterator
from typing import NamedTuple

from buildbook.basis import amounts
from buildbook.basis.notation import quoted
from buildbook.basis.problems import Problem, Problems, either
from buildbook.hangar.packs.told import words_of
from buildbook.records.entries import Alteration, Check, Flight, Inspection, Note, Repair
from buildbook.records.link_lost import binding_told, told_of_flight
from buildbook.records.readings import burning_told, mounting_told
from buildbook.report.history import DefectState
from buildbook.report.state import Hangar
from buildbook.report.upkeep.findings import DefectFound, FailedAs, PartAgain
from buildbook.report.upkeep.pack_findings import ToldSwollen
from buildbook.report.upkeep.work import Row, WorkList
from buildbook.upkeep.dangers.flown_while import flown_while
from buildbook.upkeep.hangar_context import HangarContext
from buildbook.upkeep.packs.reserve import reserve_warnings
from buildbook.upkeep.warnings.check_flights import flown_unchecked, never_flown
from buildbook.upkeep.warnings.inoperative import inoperative_doubts
from buildbook.upkeep.warnings.past_limits import fitted_past_limits, flown_past_limits
from buildbook.upkeep.warnings.plausible import doubts
from buildbook.upkeep.warnings.plausible_charges import doubted_charges
from buildbook.upkeep.warnings.plausible_parts import doubted_parts
from buildbook.upkeep.warnings.plausible_specs import doubted_specs


def warnings_of(
    hangar: Hangar,
    listed: WorkList,
    each: bool = False,
    gathered: HangarContext | None = None,
    flown: bool = True,
) -> tuple[Problem, ...]:
    """What should not have been flown or fitted, what waits, what is doubted.

    listed: the work list of that hangar. each: also those of long ago one by one. gathered: what
    the work list was made from. flown: what was open while it was flown, too. All are warnings,
    sorted by place.
    """
    gathered = gathered or HangarContext(hangar)
    sure = hangar.sure
    return tuple(
        Problems(
            (
                *flown_unchecked(hangar, gathered.programmes, each),
                *never_flown(hangar, gathered.programmes),
                *flown_past_limits(hangar, listed),
                *fitted_past_limits(hangar, listed),
                *_put_off(hangar, listed),
                *_fitted_again(listed),
                *_said_swollen(hangar, listed),
                *_said_burnt(hangar),
                *_said_anew(hangar),
                *_said_in_flight(hangar),
                *inoperative_doubts(hangar),
                *doubts(hangar, sure),
                *doubted_parts(hangar, sure, gathered.craft),
                *doubted_specs(hangar),
                *doubted_charges(hangar, sure),
                *(flown_while(hangar, gathered.triggers, each) if flown else ()),
                *reserve_warnings(hangar, gathered.into_reserve, each),
            )
        )
    )


def _fitted_again(listed: WorkList) -> Iterator[Problem]:
    """A part that was taken out for a defect, and came back as it was."""
    for row in listed.rows:
        found = None if row.because is None else row.because.found
        if isinstance(found, PartAgain) and found.defect:
            yield Problem(
                f"{found.tag}, the part of the cleared defect {found.defect}, is fitted again",
                row.place,
                "warning",
                "look at it and "
                + either(
                    f"write inspection: {row.name} with tags: [{found.tag}]",
                    f"enter inspection {row.aircraft} {row.name} --tags {found.tag}",
                )
                + "; write a repair if it was mended",
                (),
                row.aircraft,
            )


def _said_swollen(hangar: Hangar, listed: WorkList) -> Iterator[Problem]:
    """A pack that words tell of as swollen, which set nothing aside."""
    for row in (row for pack in listed.packs for row in pack.rows):
        because = row.because
        if because is None or not isinstance(because.found, ToldSwollen):
            continue
        if because.entry not in hangar.sure:
            yield Problem(
                f"{quoted(because.found.words or '')} says that {row.tag} is swollen,"
                " and sets nothing aside",
                row.place,
                "warning",
                either(
                    "write a defect with its tag as item; a pack-look, or sure: true, if it is not",
                    f"enter defect {row.tag}; a pack-look of it if it is not, or confirm it",
                ),
            )


_TELLS = (Note, Flight, Inspection, Check)
_MENDING = ("repair", "fit", "remove", "overhaul")


def _said_burnt(hangar: Hangar) -> Iterator[Problem]:
    """Words that tell of smoke or fire, where no defect and nothing that was mended followed."""
    for slug, aircraft in hangar.aircraft.items():
        done_on = [one.on for one in aircraft.defects]
        done_on += [one.on for one in aircraft.events if one.event in _MENDING]
        last = max(done_on, default=None)
        for line in aircraft.log:
            said = line.stands
            if not isinstance(said, _TELLS) or (last is not None and last >= said.on):
                continue
            if said.uid in hangar.sure or getattr(said, "result", None) == "fail":
                continue
            told = next(filter(None, map(burning_told, words_of(said))), None)
            if told is not None:
                yield Problem(
                    f"{quoted(told)} tells of smoke or fire, and grounds nothing",
                    said.place(),
                    "warning",
                    either(
                        "write a defect with the tag of the part as item; sure: true, if it is"
                        " none",
                        "enter defect and the tag of the part; confirm it if it is none",
                    ),
                    (),
                    slug,
                )


class _Anew(NamedTuple):
    """What words may tell of, the events by which the records do, and how these are written."""

    told: Callable[[str], str | None]
    what: str
    events: tuple[tuple[str, str], ...]
    written: str
    typed: str


_ANEW = (
    _Anew(
        mounting_told,
        "the controller was mounted anew",
        (("move", "controller"), ("fit", "controller")),
        "an alteration with positions of its station, or a setting with board_orientation",
        "enter alteration with the positions of its station",
    ),
    _Anew(
        binding_told,
        "the receiver was bound anew",
        (("setting", "bind"), ("fit", "receiver"), ("fit", "transmitter")),
        "setting: {bind: anew}",
        "enter setting bind=anew",
    ),
)


def _said_anew(hangar: Hangar) -> Iterator[Problem]:
    """Words that tell of a part set up anew, on a day on which no entry says so to the checks."""
    for slug, aircraft in hangar.aircraft.items():
        done = {(one.on, one.event, one.subject) for one in aircraft.events}
        for line in aircraft.log:
            said = line.stands
            if not isinstance(said, Alteration | Repair | Note) or said.uid in hangar.sure:
                continue
            for anew in _ANEW:
                told = anew.told(said.words)
                if told is None or any((said.on, *event) in done for event in anew.events):
                    continue
                yield Problem(
                    f"{quoted(told)} may mean that {anew.what}, which re-opens nothing here",
                    said.place(),
                    "warning",
                    either(
                        f"write {anew.written}; sure: true, if it stayed as it was",
                        f"{anew.typed}; confirm it if it stayed as it was",
                    ),
                    (),
                    slug,
                )


def _said_in_flight(hangar: Hangar) -> Iterator[Problem]:
    """Words of a flight that tell what opens rows by its own key, where no row was opened."""
    for slug, aircraft in hangar.aircraft.items():
        wet = {one.on for one in aircraft.events if one.event in ("water", "crash", "hard landing")}
        looked = {one.on for one in aircraft.defects}
        for line in aircraft.log:
            said = line.stands
            if not isinstance(said, Flight) or said.uid in hangar.sure or said.on in looked:
                continue
            if said.noticed:
                continue
            found = next(filter(None, map(told_of_flight, words_of(said))), None)
            if found is None or (found[0] == "water" and said.on in wet):
                continue
            what, told = found
            key = "water: as an entry of its own" if what == "water" else f"noticed: {what}"
            typed = "enter water" if what == "water" else f"add --noticed '{what}'"
            yield Problem(
                f"{quoted(told)} tells of {_OF[what]}, and re-opens nothing",
                said.place(),
                "warning",
                either(
                    f"write {key}; sure: true, if it was none",
                    f"{typed}; confirm it if it was none",
                ),
                (),
                slug,
            )


_OF = {
    "link lost": "a lost link",
    "flutter": "flutter",
    "power dip": "a dip of the power",
    "water": "water",
}


FAR_DAYS, FAR_FLIGHTS, FAR_S = 366, 250, 50 * 3600.0
"""A deferral that ends no sooner has no end. Common practice, no source; the longest that a list
of what may be inoperative gives an aeroplane, category D of the FAA's MMEL, is 120 days (from
memory)."""


def _put_off(hangar: Hangar, listed: WorkList) -> Iterator[Problem]:
    """A doubt for each that is open and ends by nothing, or by nothing that is near."""
    known = [one for aircraft in hangar.aircraft.values() for one in aircraft.defects]
    known += [one for item in hangar.items.values() for one in item.defects]
    defects = {one.uid: one for one in known}
    severities = _severities(hangar)
    told: set[tuple[str | None, str]] = set()
    for row in listed.rows:
        because = row.because
        if because is None or because.entry is None:
            continue
        state = defects.get(because.entry)
        if isinstance(because.found, DefectFound) and state is not None:
            yield from _of_defect(row, state, because.found.limited, because.entry in hangar.sure)
        elif isinstance(because.found, FailedAs) and row.state == "failed":
            deferred = severities.get(because.entry) == "defer" and because.entry not in hangar.sure
            if deferred and (because.entry, row.name) not in told:
                told.add((because.entry, row.name))
                yield _put_off_doubt(
                    row, f"{row.name} failed and is deferred without a limit",
                    either(
                        "write a defect of what was found, with deferred_until: on, flights or"
                        " hours, and clear the look with how: that defect",
                        "enter defect with what was found and --deferred-until '5 flights', then"
                        " enter cleared with the look, --how 'that defect'",
                    ),
                )  # fmt: skip


def _severities(hangar: Hangar) -> dict[str, str | None]:
    """How mild each failed look and check is, by the uid of its entry."""
    kept = [one.inspections for one in hangar.aircraft.values()]
    kept += [one.checks for one in hangar.aircraft.values()]
    kept += [one.inspections for one in hangar.items.values()]
    return {done.uid: done.severity for dones in kept for done in dones if done.result == "fail"}


def _of_defect(row: Row, state: DefectState, limited: bool, sure: bool) -> Iterator[Problem]:
    """With the flights since it was written; the same doubt however many there are."""
    if not limited:
        reason = f"defect {row.name} is deferred without a limit"
        flights = state.flights_since
        flown = f", {amounts.count('flight', flights)} since" if flights else ""
        hint = f"add {either('deferred_until:', '--deferred-until')} with on, flights or hours"
        yield _put_off_doubt(row, f"{reason}{flown}", hint, once=reason)
    elif row.state == "deferred" and not sure and (end := _far_end(state)):
        yield _put_off_doubt(
            row, f"defect {row.name} is deferred {end}", "name a nearer limit, or mend it now"
        )


def _far_end(state: DefectState) -> str:
    """The end of a deferral of which nothing is near; empty where something is."""
    until = state.defect.deferred_until
    if until is None:
        return ""
    days = None if until.on is None else (until.on - state.on).days
    ends = [
        (f"until {until.on}", days is not None and days > FAR_DAYS, days),
        (f"for {until.flights} flights", (until.flights or 0) > FAR_FLIGHTS, until.flights),
        (
            f"for {amounts.hours(until.duration_s or 0)}",
            (until.duration_s or 0) > FAR_S,
            until.duration_s,
        ),
    ]
    given = [(said, far) for said, far, value in ends if value is not None]
    return " or ".join(said for said, _ in given) if all(far for _, far in given) else ""


def _put_off_doubt(row: Row, reason: str, hint: str, once: str | None = None) -> Problem:
    return Problem(reason, row.place, "warning", hint, (), row.aircraft, once=once)
