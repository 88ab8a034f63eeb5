"""What upkeep has to say of the records themselves: for the list of problems and warnings."""

from collections.abc import Iterator

from buildbook.basis.notation import quoted
from buildbook.basis.problems import Problem, Problems
from buildbook.report.state import Hangar
from buildbook.report.upkeep.findings import PartAgain, ReadOtherwise
from buildbook.report.upkeep.pack_findings import ToldSwollen
from buildbook.report.upkeep.work import Row, Why, WorkList
from buildbook.upkeep.dangers.flown_while import flown_while
from buildbook.upkeep.dangers.hands import hand_rows
from buildbook.upkeep.hangar_context import HangarContext
from buildbook.upkeep.packs.reserve import reserve_warnings
from buildbook.upkeep.warnings.check_flights import flown_unchecked, never_flown
from buildbook.upkeep.warnings.inoperative import inoperative_doubts
from buildbook.upkeep.warnings.past_limits import fitted_past_limits, flown_past_limits
from buildbook.upkeep.warnings.plausible import doubts
from buildbook.upkeep.warnings.plausible_charges import doubted_charges
from buildbook.upkeep.warnings.plausible_parts import doubted_parts
from buildbook.upkeep.warnings.put_off import put_off_doubts
from buildbook.upkeep.work_list import set_up


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
                *put_off_doubts(hangar, listed),
                *_fitted_again(listed),
                *_said_swollen(hangar, listed),
                *inoperative_doubts(hangar),
                *doubts(hangar, sure),
                *doubted_parts(hangar, sure, gathered.craft),
                *doubted_charges(hangar, sure),
                *(flown_while(hangar, gathered.triggers, each) if flown else ()),
                *reserve_warnings(hangar, gathered.into_reserve, each),
            )
        )
    )


_TOLD: frozenset[Why] = frozenset(("hand", "plan", "link lost", "memory", "nut"))
"""Why a row is open that is a warning as well: what was written contradicts itself, or kills."""


def told_dangers(hangar: Hangar, listed: WorkList) -> tuple[Row, ...]:
    """The rows that are warnings as well; of all stations of one plan the first speaks."""
    rows = (*listed.rows, *_while_building(hangar))
    told = [row for row in rows if row.state == "failed" and is_told(row)]
    plans = {row.aircraft: row for row in reversed(told) if _why(row) == "plan"}
    return tuple(row for row in told if _why(row) != "plan" or plans[row.aircraft] is row)


def is_told(row: Row) -> bool:
    """Of readings those that are against what is planned or asked: one was written down wrong."""
    found = None if row.because is None else row.because.found
    against = found.against if isinstance(found, ReadOtherwise) else None
    return _why(row) in _TOLD or against in ("plan", "asked")


def _why(row: Row) -> Why | None:
    return None if row.because is None else row.because.why


def _while_building(hangar: Hangar) -> Iterator[Row]:
    """Nothing is due of what is being built, but a wrong propeller is told where it was fitted,
    and a reading against the plan where it was read."""
    for slug, aircraft in hangar.aircraft.items():
        if aircraft.status == "building":
            yield from hand_rows(hangar, aircraft)
            if any(check.readings for check in aircraft.checks):
                yield from (row for row in set_up(hangar, slug) if _why(row) == "reading")


def _fitted_again(listed: WorkList) -> Iterator[Problem]:
    """A part that was taken out for a defect, and came back as it was."""
    for row in listed.rows:
        found = None if row.because is None else row.because.found
        if isinstance(found, PartAgain) and found.defect:
            yield Problem(
                f"{found.tag}, the part of the cleared defect {found.defect}, is fitted again",
                row.place,
                "warning",
                f"look at it and write inspection: {row.name} with tags: [{found.tag}]; write a"
                " repair if it was mended",
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
                "write a defect with its tag as item; a pack-look, or sure: true, if it is not",
            )
