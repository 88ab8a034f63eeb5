"""The packs that ask for something, as a table of their own: worst first, alike ones on a line."""

import sys
from collections.abc import Iterable, Iterator, Mapping, Sequence

import msgspec

from buildbook.commands.terminal.screen import Tone, toned, wrapped
from buildbook.records.parts import GONE
from buildbook.report.upkeep.pack_findings import (
    CellFell,
    CellLow,
    CellsApart,
    CellsOutside,
    ChargedWrongly,
    IntoReserve,
    OnShelf,
    SetAside,
    UsedAside,
    UsedShare,
)
from buildbook.report.upkeep.work import PackStanding, Reason, Row, WorkList
from buildbook.words import work_list
from buildbook.words.cautions import CAUTIONS
from buildbook.words.measures.days import EXACT
from buildbook.words.reasons import because_words, reason_words, row_name

_TONES: dict[str, Tone] = {"grounded": "bad", "quarantined": "bad"}
_OF_ONE = (
    CellFell,
    CellLow,
    CellsApart,
    CellsOutside,
    ChargedWrongly,
    IntoReserve,
    OnShelf,
    SetAside,
    UsedAside,
    UsedShare,
)


def print_packs(work: WorkList, defects: Mapping[str | None, str]) -> None:
    """The table, the caution where one is set aside, then what to do, each said once.

    defects: their words, by the entry of each.
    """
    packs = sorted((pack for pack in work.packs if pack.reasons and not _is_gone(pack)), key=_worst)
    if not packs:
        return
    print(f"\n{toned('Packs, worst first', 'strong', sys.stdout)}")
    alike: dict[object, list[PackStanding]] = {}
    for pack in packs:
        alike.setdefault((pack.state, tuple(map(_about, pack.reasons))), []).append(pack)
    for found in alike.values():
        state = toned(found[0].state, _TONES.get(found[0].state, "warn"), sys.stdout)
        print(f"  {', '.join(pack.tag for pack in found)}  {state}")
        for reasons in zip(*(pack.reasons for pack in found), strict=True):
            print(wrapped(_line(reasons, defects), indent="      ", hanging="        "))
    if any(pack.state == "quarantined" for pack in packs):
        caution = CAUTIONS["SW4"]
        print(wrapped(f"{caution.heading}. {caution.words}", indent="  "))
    for words in dict.fromkeys(_instructions(packs)):
        print(wrapped(words, indent="  "))


def _is_gone(pack: PackStanding) -> bool:
    """Whether it left the hangar, and nobody charged or flew it since."""
    used = any(reason.because.why == "used aside" for reason in pack.reasons)
    return pack.state in GONE and not used


def _worst(pack: PackStanding) -> tuple[int, float, str]:
    first = pack.reasons[0]
    used = 0.0 if first.row is None else first.row.used or 0.0
    return first.rank, -used, pack.tag


def _about(reason: Reason) -> object:
    """What packs on one line have alike, what was read of them too.

    A defect, and what no row says, is always its own.
    """
    row = reason.row
    if row is None or row.kind == "defect":
        return reason.because, reason.place
    found = reason.because.found
    return row.name, row.state, row.first_by, found if isinstance(found, _OF_ONE) else None


def _line(reasons: Sequence[Reason], defects: Mapping[str | None, str]) -> str:
    """Name, state, what is left over all of them, and the place of the first."""
    first = reasons[0]
    row = first.row
    if row is None or row.kind == "defect":
        words = defects.get(first.because.entry)
        return f"{reason_words(first, EXACT)}{f': {words}' if words else ''} @ {first.place}"
    if isinstance(first.because.found, SetAside):
        return f"{because_words(first.because, EXACT)} @ {first.place}"
    unit = row.first_by or ""
    rows = [reason.row for reason in reasons if reason.row is not None]
    left = [one.left[unit] for one in rows if unit in one.left]
    said = f"{row_name(row)} - {row.state}"
    if left and row.state != "stale":
        said += f", {work_list.between(unit, min(left), max(left))}"
    if (not left or row.state in ("stale", "reached")) and (why := _why(rows)):
        said += f", {why}"
    return f"{said} @ {first.place}"


def _why(rows: Sequence[Row]) -> str:
    """Why, with the day where it is the same of all."""
    found = [row.because for row in rows if row.because is not None]
    said = {because_words(one, EXACT) for one in found}
    if len(said) > 1:
        said = {because_words(msgspec.structs.replace(one, on=None), EXACT) for one in found}
    return said.pop() if len(said) == 1 else ""


def _instructions(packs: Iterable[PackStanding]) -> Iterator[str]:
    for pack in packs:
        for reason in pack.reasons:
            row = reason.row
            what = getattr(row.rule, "what", None) if row else None
            if row is not None and row.kind == "defect":
                what = work_list.defect_advice(row, pack=True)
            if row is not None and what:
                yield f"{row_name(row)}: {what}"
            if row is not None and row.kind == "limit" and row.first_by == "share":
                yield from work_list.where_forecast(row, pack.tag)
