"""The whole work list of a hangar: every row, and how each aircraft and pack stands."""

import datetime
from collections.abc import Collection, Iterable, Iterator, Mapping, Sequence
from typing import NamedTuple

import msgspec

from buildbook.figures.answers.craft import Craft
from buildbook.records.ledger import Ledger
from buildbook.records.link_lost import FAILSAFE
from buildbook.records.parts import GONE
from buildbook.records.programmes import CheckRule, LimitRule, TaskRule
from buildbook.records.row_names import FULL_INSPECTION, PACK_LOOK
from buildbook.report.state import AircraftNow, Hangar, ItemNow
from buildbook.report.upkeep import ranks
from buildbook.report.upkeep.findings import CoveredBy
from buildbook.report.upkeep.programme import Resolved
from buildbook.report.upkeep.work import Because, PackStanding, Row, Standing, WorkList
from buildbook.upkeep.dangers import noticed
from buildbook.upkeep.dangers.danger_rows import laid_over
from buildbook.upkeep.dangers.fitted_parts import (
    brought_along_rows,
    missing_rows,
    moved_module_rows,
)
from buildbook.upkeep.dangers.hands import hand_rows, nut_rows, rank_rows, unlike_rows
from buildbook.upkeep.dangers.link_and_alarm import (
    alarm_rows,
    link_lost_rows,
    memory_rows,
    range_rows,
)
from buildbook.upkeep.dangers.noticed import (
    as_meant,
    failed_looks,
    is_struck,
    struck_rows,
    wet_rows,
)
from buildbook.upkeep.dangers.ratings import rating_rows
from buildbook.upkeep.hangar_context import HangarContext, OnAircraft, OnItem
from buildbook.upkeep.packs.pack_rows import (
    WANT_A_CHARGE,
    age_rows,
    aside_row,
    cell_rows,
    lies_new,
    shelf_rows,
    used_while_aside,
)
from buildbook.upkeep.packs.readings import reading_rows
from buildbook.upkeep.packs.reserve import NEVER
from buildbook.upkeep.packs.spent_rows import read_again_rows
from buildbook.upkeep.programme import checks_in
from buildbook.upkeep.rows.checks import check_rows
from buildbook.upkeep.rows.defects import defect_rows
from buildbook.upkeep.rows.signals import aircraft_signals, pack_signals
from buildbook.upkeep.standing import pack_standing, standing


def without_covered(rows: Iterable[Row]) -> list[Row]:
    """The rows of one aircraft or pack; what a larger look closes is not asked for beside it.

    The larger look must be due itself, or at least as bad.

    What grounds or failed is never covered: that closes by its own name alone. A larger look that
    failed covers nothing, as what it found is mended in the smaller ones first.
    """
    rows = list(rows)
    larger = [row for row in rows if _asked_for(row) and _covers(row)]
    return [_quieted(row, larger) for row in rows] if larger else rows


def _asked_for(row: Row) -> bool:
    """Open, or said not to apply: then neither does what it covers. What failed covers nothing."""
    away = row.because is not None and row.because.why == "not here"
    return (row.rank < ranks.FINE and row.state != "failed") or away


def _covers(row: Row) -> tuple[str, ...]:
    return row.rule.covers if isinstance(row.rule, CheckRule | TaskRule) else ()


def _quieted(row: Row, larger: Sequence[Row]) -> Row:
    if row.kind != "task" or row.rank >= ranks.FINE or row.grounds or row.state == "failed":
        return row
    for other in larger:
        if other.tag not in (None, row.tag) or row.name == other.name:
            continue
        away = other.state == "not applicable"
        if other.rank > max(row.rank, ranks.DUE) and not away:
            continue
        if row.name in _covers(other):
            return msgspec.structs.replace(
                row,
                state="not applicable",
                because=Because(
                    why="covered",
                    place=other.place,
                    tag=row.tag,
                    station=row.station,
                    found=CoveredBy(task=other.name),
                ),
                rank=ranks.NOT_APPLICABLE,
            )
    return row


def set_up_dangers(hangar: Hangar, aircraft: AircraftNow, checks: Collection[str]) -> Iterator[Row]:
    """What is wrong with how it is set up, whatever its status. checks: of its programme."""
    yield from wet_rows(aircraft)
    yield from hand_rows(hangar, aircraft)
    yield from rank_rows(hangar, aircraft)
    yield from unlike_rows(hangar, aircraft)
    yield from nut_rows(hangar, aircraft)
    yield from link_lost_rows(aircraft, FAILSAFE in checks)


def dangers_of(craft: Craft, checks: Collection[str]) -> Iterator[Row]:
    """All of an aircraft that is flown."""
    hangar, aircraft = craft.hangar, craft.now
    yield from missing_rows(aircraft)
    yield from set_up_dangers(hangar, aircraft, checks)
    yield from memory_rows(hangar, aircraft)
    yield from alarm_rows(craft)
    yield from range_rows(aircraft)
    if aircraft.bounds is not None:
        from buildbook.upkeep.dangers.bounds import bounds_rows  # with all figures of the balance

        yield from bounds_rows(hangar, aircraft)
    yield from rating_rows(craft)


class Untouched(NamedTuple):
    """How aircraft and packs stood on a day of which nothing was written since, by slug and tag.

    whole: nothing was written of any other either.
    """

    as_of: datetime.date
    aircraft: Mapping[str, Standing]
    packs: Mapping[str, PackStanding]
    whole: bool = False


def untouched(before: WorkList, changed: Ledger) -> Untouched:
    """What stands as before. changed: the part of the hangar in which something was written."""
    return Untouched(
        before.as_of,
        {one.slug: one for one in before.aircraft if one.slug not in changed.aircraft},
        {one.tag: one for one in before.packs if one.tag not in changed.items},
    )


def work_list(
    hangar: Hangar, kept: Untouched | None = None, gathered: HangarContext | None = None
) -> WorkList:
    """All that is stale, due, grounded or fine on the day of the hangar.

    kept: of the same files of programmes, items and aircraft; else all is worked out.
    gathered: of this hangar, where others ask it too.
    """
    if kept is None or kept.as_of != hangar.as_of:
        kept = Untouched(hangar.as_of, {}, {})
    gathered = gathered or HangarContext(hangar)
    defects = list(defect_rows(hangar, gathered.context))
    aircraft = tuple(
        (None if _asks_others(one) and not kept.whole else kept.aircraft.get(slug))
        or _standing(gathered, one, defects)
        for slug, one in sorted(hangar.aircraft.items())
    )
    packs = tuple(
        kept.packs.get(tag) or _pack(gathered, item, defects)
        for tag, item in sorted(hangar.items.items())
        if item.is_pack
    )
    rows = [
        *(row for one in aircraft for row in one.rows),
        *(row for one in packs for row in one.rows),
        *_drawer(gathered, defects),
    ]
    return WorkList(
        as_of=hangar.as_of, aircraft=aircraft, packs=packs, rows=tuple(sorted(rows, key=_first))
    )


def _asks_others(aircraft: AircraftNow) -> bool:
    """Whether it stands as others do that share no part with it: on one memory (``memory``)."""
    return aircraft.radio is not None and aircraft.radio.memory is not None


def set_up(hangar: Hangar, slug: str) -> tuple[Row, ...]:
    """The checks of one aircraft, whatever its status: for its set-up sheet and its drawing."""
    gathered, aircraft = HangarContext(hangar), hangar.aircraft[slug]
    programme = gathered.programmes.named(aircraft.programme)
    if programme is None:
        return ()
    rows = check_rows(hangar, gathered.triggers, aircraft, programme)
    return tuple(laid_over(rows, set_up_dangers(hangar, aircraft, checks_in(programme))))


def looks_before_flying(hangar: Hangar, slug: str) -> tuple[TaskRule, ...]:
    """The tasks of an aircraft that is being built which would be open as soon as it flew."""
    aircraft = msgspec.structs.replace(hangar.aircraft[slug], status="flying")
    rows = _standing(HangarContext(hangar), aircraft, ()).rows
    found = {
        row.rule.task: row.rule
        for row in rows
        if isinstance(row.rule, TaskRule) and row.state in ("stale", "failed")
    }
    return tuple(found.values())


def _standing(gathered: HangarContext, aircraft: AircraftNow, defects: Iterable[Row]) -> Standing:
    hangar = gathered.hangar
    programme = gathered.programmes.named(aircraft.programme)
    flying, building = aircraft.status == "flying", aircraft.status == "building"
    rows: list[Row] = []
    if flying or building:
        rows += [row for row in defects if row.aircraft == aircraft.slug]
    if programme is not None:
        airframe = OnAircraft(gathered, aircraft)
        if flying:
            rows += check_rows(hangar, gathered.triggers, aircraft, programme)
            rows += airframe.tasks(programme)
        elif building and is_struck(aircraft):
            asked = [*check_rows(hangar, gathered.triggers, aircraft, programme)]
            rows += struck_rows(aircraft, [*asked, *airframe.tasks(programme)])
        rows += airframe.limits(programme)
    for here in aircraft.items():
        item = hangar.items.get(here.tag)
        if item is not None:
            rows += _fitted(gathered, item, programme, flying)
    if flying:
        closed_by = {} if programme is None else gathered.covering(programme)
        larger = closed_by.get(FULL_INSPECTION, ())
        rows += [*moved_module_rows(hangar, aircraft)]
        rows += [*brought_along_rows(hangar, aircraft, larger)]
    if flying or building:
        carried = [item for here in aircraft.items() if (item := hangar.items.get(here.tag))]
        rows += [*failed_looks(hangar, aircraft, programme, rows)]
        rows = noticed.grounding(as_meant(rows, (aircraft, *carried)))
    if flying:
        rows += [*noticed.noticed_rows(aircraft, rows)]
        rows = laid_over(rows, dangers_of(gathered.craft(aircraft.slug), checks_in(programme)))
        rows += [*aircraft_signals(hangar, aircraft, rows)]
    if flying and programme is not None:
        rows += _dropped(aircraft, programme)
    name = None if programme is None else programme.name
    return standing(hangar, aircraft, without_covered(rows), name)


def _fitted(
    gathered: HangarContext, item: ItemNow, programme: Resolved | None, flying: bool
) -> list[Row]:
    """The rows of an item where it sits. Notices stand without any programme."""
    rows: list[Row] = []
    on_item = OnItem(gathered, item)
    due = flying and _in_use(item)
    if due and programme is not None:
        rows += on_item.tasks(programme)
    if due:
        rows += on_item.notices()
    if programme is not None:
        rows += on_item.limits(programme)
    return rows


def _in_use(item: ItemNow) -> bool:
    return item.state.state not in GONE


def _dropped(aircraft: AircraftNow, programme: Resolved) -> list[Row]:
    """What the programme leaves out stays visible, with the place of the reason."""
    return [
        Row(
            aircraft=aircraft.slug,
            kind=dropped.kind,
            name=dropped.name,
            state="not applicable",
            because=Because(why="dropped", place=dropped.place),
            place=dropped.place,
            rank=ranks.NOT_APPLICABLE,
        )
        for dropped in programme.dropped
    ]


def _pack(gathered: HangarContext, pack: ItemNow, defects: Iterable[Row]) -> PackStanding:
    """The rows of every programme that it was flown under, else those of the hangar."""
    hangar = gathered.hangar
    rows = [*(row for row in defects if row.tag == pack.tag), *used_while_aside(pack)]
    if pack.state.state in GONE:
        return pack_standing(pack, rows, NEVER, programmed=True)
    flown = [gathered.programmes.named(hangar.aircraft[slug].programme) for slug in pack.flown_on]
    programmes = [one for one in flown if one is not None]
    if not programmes:
        default = gathered.programmes.named(hangar.ledger.keeper.programme)
        programmes = [] if default is None else [default]
    on_item = OnItem(gathered, pack)
    asked = on_item.tasks(*programmes)
    rows += shelf_rows(gathered.context, pack) if lies_new(pack) else asked
    rows += age_rows(gathered.context, pack)
    rows += on_item.notices()
    rows += on_item.limits(*programmes)
    rules = [row.rule for row in rows if isinstance(row.rule, LimitRule)]
    into = gathered.into_reserve(pack)
    rows += [
        *read_again_rows(pack, rules),
        *pack_signals(hangar, pack, rows),
        *reading_rows(pack, into, gathered.timed),
    ]
    rows += cell_rows(hangar, pack, gathered.weighed_on.get(pack.tag, ()))
    if pack.state.state == "quarantined":
        rows = [row for row in rows if row.name not in WANT_A_CHARGE]
    aside = aside_row(pack)
    if aside is not None:
        rows = [aside, *(row for row in rows if row.name != PACK_LOOK)]
    return pack_standing(pack, rows, into, programmed=bool(programmes))


def _drawer(gathered: HangarContext, defects: Iterable[Row]) -> list[Row]:
    """The rows of items on no aircraft: the calendar runs, flights don't."""
    hangar = gathered.hangar
    programme = gathered.programmes.named(hangar.ledger.keeper.programme)
    rows: list[Row] = []
    in_drawer = {
        tag for tag, item in hangar.items.items() if item.aircraft is None and not item.is_pack
    }
    rows += [row for row in defects if row.tag in in_drawer and row.aircraft is None]
    for tag in sorted(in_drawer):
        item = hangar.items[tag]
        if _in_use(item):
            rows += _fitted(gathered, item, programme, flying=True)
    return rows


def _first(row: Row) -> tuple[int, datetime.date]:
    """The order of work: the worst first, then what comes first; else as it stands."""
    days = [day for day in (row.due_on, row.expected and row.expected[0]) if day is not None]
    return row.rank, min(days, default=datetime.date.max)
