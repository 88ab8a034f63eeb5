"""Rows of packs that no programme asks for: each opens a task named for what to do."""

from collections.abc import Collection, Iterable, Iterator, Mapping
from typing import Literal

import msgspec

from buildbook.basis.days import add_months
from buildbook.hangar.doubts import is_unfit_to_charge
from buildbook.hangar.packs.doubts import more, takes_too_much
from buildbook.hangar.packs.limits import LITHIUM, TOGETHER_MV, millivolts, takes
from buildbook.records.row_names import (
    CELL_VOLTAGES,
    CHARGED_WRONGLY,
    FALLING_CELL,
    FLOWN_LOW,
    INTO_RESERVE,
    LOW_CELLS,
    PACK_AGE,
    PACK_CAPACITY,
    PACK_CELLS,
    PACK_LOOK,
    READ_AGAIN,
    READ_AT_REST,
    SAID_SWOLLEN,
    SET_ASIDE,
    STORAGE_CHARGE,
    USED_TOO_MUCH,
    USED_WHILE_ASIDE,
)
from buildbook.report.history import ChargeDone, Recorded
from buildbook.report.packs.pack_history import Aside, AsideWhy
from buildbook.report.state import AircraftNow, Hangar, ItemNow
from buildbook.report.upkeep import ranks
from buildbook.report.upkeep.pack_findings import (
    CellsOutside,
    ChargedWrongly,
    OldPack,
    OnShelf,
    PackFinding,
    SetAside,
    UsedAside,
)
from buildbook.report.upkeep.work import Because, Reason, Row, RowState
from buildbook.upkeep.context import Context
from buildbook.upkeep.rows.tasks import found_task

KEEP_AWAY = (
    "Do not charge or fly it. While it is cool, lay it outdoors, away from anything that burns;"
    " once hot or smoking, keep away from it."
)
"""Of each pack that is set aside the same words, and those of the caution beside them."""

DO: Mapping[str, str] = {
    PACK_LOOK: f"{KEEP_AWAY} On a later day look and feel for swelling, dents, torn wrap, worn"
    " leads and burnt plugs.",
    SAID_SWOLLEN: f"{KEEP_AWAY} If it is swollen, write a defect with its tag as item; if not,"
    " record that as pack-look.",
    SET_ASIDE: f"{KEEP_AWAY} Take it to a collection point, or write state: serviceable with"
    " because: where you know better.",
    LOW_CELLS: "Bring it to storage charge under watch; let it rest, then read each cell again.",
    CELL_VOLTAGES: "Balance it once under watch; let it rest, then read each cell again.",
    FALLING_CELL: "Let it lie for another two weeks, then read each cell again.",
    PACK_AGE: "Look and feel for swelling, a soft or sticky wrap, worn leads and burnt plugs; read"
    " each cell a week after a charge. Record that as pack-look; each year again, or retire it.",
    READ_AT_REST: "Let it rest for half an hour, then read each cell again.",
    FLOWN_LOW: "Before you charge it again, let it rest, read each cell, look it over and record"
    " that as pack-look; on the day of the flight with the times of both. Land earlier.",
    USED_TOO_MUCH: "Let it rest and read each cell. Measure its capacity, or correct the figure"
    " for the charge used.",
    INTO_RESERVE: "Before it flies again let it rest, read each cell and record that; or land its"
    " next flight with the reserve in it, by the timer of its page and the alarm. Three in its last"
    " six are a habit, which one good landing does not close.",
    READ_AGAIN: "Measure it again at the same temperature, current and cut-off before you judge"
    " it.",
    CHARGED_WRONGLY: "Before you charge or fly it again, let it rest outdoors, look it over, read"
    " each cell, and record that as pack-look. See what the charger was set to.",
    USED_WHILE_ASIDE: f"{KEEP_AWAY} Mark it, so that nobody takes it again, and write inspection:"
    " used-while-aside with its tag; correct the entry if it was another pack.",
    PACK_CELLS: "Fly it on another aircraft, or fit parts rated for that many cells. Flown there by"
    " mistake: mark it for its own, and write inspection: pack-cells with its tag; or correct that"
    " flight, if it was another pack.",
}
"""What each one asks for. Common practice, no source."""

WANT_A_CHARGE = (
    STORAGE_CHARGE,
    PACK_CAPACITY,
    LOW_CELLS,
    CELL_VOLTAGES,
    USED_TOO_MUCH,
    READ_AGAIN,
)
"""Done with the charger: asked for only once a pack that is set aside is back in service."""


def found_row(
    pack: ItemNow,
    name: str,
    seen: Recorded,
    found: PackFinding,
    *,
    why: Literal["signal", "set aside", "rating", "used aside"] = "signal",
    state: RowState = "due",
    rank: int = ranks.DUE,
) -> Row:
    """A row of a pack with what was found."""
    because = Because(why=why, tag=pack.tag, found=found).by(seen)
    return found_task(
        None, name, because, seen.place, what=DO[name], each="battery", state=state, rank=rank
    )


def found_note(pack: ItemNow, seen: Recorded, found: PackFinding) -> Reason:
    """A quiet note: a mark on the page of the pack, and nothing that is due."""
    return Reason(
        place=seen.place,
        rank=ranks.NOTED,
        grounding=False,
        because=Because(why="signal", tag=pack.tag, found=found).by(seen),
    )


_STATE: Mapping[AsideWhy, RowState] = {
    "crash": "stale",
    "incident": "stale",
    "water": "stale",
    "failed look": "failed",
}
"""How the look at it stands; one that a reading asks for is due."""


def aside_row(pack: ItemNow) -> Row | None:
    """What set it aside and what returns it; None where only the keeper or an open defect did.

    An open defect has its own row, and the keeper knows of what he set aside himself.
    """
    if pack.state.state != "quarantined":
        return None
    open_defects = {state.uid for state in pack.defects if state.open}
    own = [
        aside for aside in pack.asides if aside.why != "keeper" and aside.defect not in open_defects
    ]
    if not own:
        return None
    first: Aside = min(own, key=lambda aside: aside.release != "word")
    found = SetAside(
        why=first.why, facts=tuple(sorted(first.detail.items())), findings=first.findings
    )
    return found_row(
        pack,
        SET_ASIDE if first.release == "word" else PACK_LOOK,
        first,
        found,
        why="set aside",
        state=_STATE.get(first.why, "due"),
        rank=ranks.ITEM_OUT_OF_SERVICE,
    )


SHELF_MONTHS = 6
"""A lithium pack on the shelf: its cells are read so often. Common practice, no source."""


def lies_new(pack: ItemNow) -> bool:
    """Whether nothing was done with it yet: no flight, no charge, no life before these records."""
    return not (pack.flights or pack.charges or pack.item.carried or pack.events)


OLD_YEARS, AGAIN_MONTHS = 8, 12
"""A lithium pack that old is looked at for that once a year. Common practice, no source."""


def age_rows(context: Context, pack: ItemNow) -> list[Row]:
    """From its eighth year, counted from when it was made or else came, unless it was looked at."""
    born = pack.born
    if born is None or pack.spec.chemistry not in LITHIUM or pack.state.state != "serviceable":
        return []
    years = context.as_of.year - born.year
    years -= context.as_of < add_months(born, 12 * years)
    looked = any(
        look.result == "pass"
        and look.name in (PACK_LOOK, PACK_AGE)
        and add_months(look.on, AGAIN_MONTHS) > context.as_of
        for look in pack.inspections
    )
    if years < OLD_YEARS or looked:
        return []
    seen = Recorded(
        seq=-1, on=born, uid="", place=pack.item.place("made" if pack.item.made else "acquired")
    )
    return [found_row(pack, PACK_AGE, seen, OldPack(years=years))]


def shelf_rows(context: Context, pack: ItemNow) -> list[Row]:
    """Lithium: its cells read after six months, counted from when it came or was last read."""
    came = pack.item.acquired or pack.born
    read = [
        *(reading.on for reading in pack.rests),
        *(look.on for look in pack.inspections if look.result == "pass"),
    ]
    since = max([*read, *([] if came is None else [came])], default=None)
    if since is None or pack.spec.chemistry not in LITHIUM:
        return []
    if context.as_of < add_months(since, SHELF_MONTHS):
        return []
    seen = Recorded(seq=-1, on=since, uid="", place=pack.item.place("acquired"))
    return [found_row(pack, READ_AT_REST, seen, OnShelf(months=SHELF_MONTHS))]


def parts_against(hangar: Hangar, aircraft: AircraftNow, pack: ItemNow) -> tuple[str, ...]:
    """The tags of what is fitted there and does not take the cells of that pack."""
    fitted = (item for here in aircraft.items() if (item := hangar.items.get(here.tag)))
    return tuple(item.tag for item in fitted if not takes(item.spec, pack.spec))


def cell_rows(hangar: Hangar, pack: ItemNow, weighed_on: Collection[str]) -> Iterator[Row]:
    """A row for a pack that an aircraft does not take that it was flown or weighed on.

    It grounds the pack where none takes it; else it is not to go on that one.

    weighed_on: the aircraft, by slug, that were weighed with it.
    """
    if pack.state.state != "serviceable":
        return
    known = [
        aircraft
        for aircraft in hangar.aircraft.values()
        if aircraft.status == "flying"
        and (aircraft.slug in pack.flown_on or aircraft.slug in weighed_on)
    ]
    against = {one.slug: parts_against(hangar, one, pack) for one in known}
    wrong = [one for one in known if against[one.slug]]
    if not wrong:
        return
    here = wrong[-1]
    used: list[Recorded] = [flight for flight in here.flights if pack.tag in flight.row.packs]
    used += [weighing for weighing in here.weighings if weighing.pack == pack.tag]
    seen = max(used, key=lambda one: one.seq)
    part = hangar.items[against[here.slug][0]]
    yield found_row(
        pack,
        PACK_CELLS,
        seen,
        msgspec.structs.replace(outside(part, (pack,)), of=part.tag),
        why="rating",
        state="failed",
        rank=ranks.FAILED_CHECK if len(wrong) == len(known) else ranks.DUE,
    )


def outside(part: ItemNow, packs: Iterable[ItemNow]) -> CellsOutside:
    """What is said of a part and the packs that it does not take; both say their cells."""
    range_ = part.spec.cells
    assert range_ is not None
    packs = tuple(packs)
    return CellsOutside(
        packs=tuple(pack.tag for pack in packs),
        series=tuple(0 if pack.spec.cells is None else pack.spec.cells.series for pack in packs),
        least=range_.series,
        most=range_.series_most,
    )


def charged_wrongly(pack: ItemNow) -> Iterator[Row]:
    """The last charge that did what no charge should: open until somebody looked at the pack."""
    for charge in reversed(pack.charges):
        found = _wrong(pack, charge)
        if found is not None:
            yield found_row(pack, CHARGED_WRONGLY, charge, found)
            return


def _wrong(pack: ItemNow, charge: ChargeDone) -> ChargedWrongly | None:
    put_in_ah, at_k = charge.put_in_ah, charge.temperature_k
    each_ah = 0.0 if put_in_ah is None else put_in_ah / charge.packs_together
    too_much = takes_too_much(pack.spec, each_ah)
    unfit = at_k is not None and is_unfit_to_charge(at_k)
    at_a, most_a = charge.current_a, charge.most_a
    too_fast = at_a is not None and most_a is not None and more(at_a, most_a)
    too_far = charge.apart_v is not None and millivolts(charge.apart_v) > TOGETHER_MV
    if not (too_much or unfit or too_fast or too_far or charge.unequal):
        return None
    return ChargedWrongly(
        took_ah=each_ah if too_much else None,
        rated_ah=pack.spec.capacity_ah if too_much else None,
        at_k=at_k if unfit else None,
        at_a=at_a if too_fast else None,
        most_a=most_a if too_fast else None,
        unequal=charge.unequal,
        apart_v=charge.apart_v if too_far else None,
    )


def used_while_aside(pack: ItemNow) -> Iterator[Row]:
    """Charged or flown after it was set aside, quarantined, retired or scrapped, and still is."""
    state = pack.state
    if state.state == "serviceable":
        return
    looks = (one for one in pack.inspections if one.name == USED_WHILE_ASIDE)
    last = max((one.seq for one in looks if one.result == "pass"), default=-1)
    charged = [one for one in pack.charges if one.set_aside and _since(pack, one, last)]
    flown = [one for one in pack.flights if pack.tag in one.packs_aside and _since(pack, one, last)]
    used: list[Recorded] = [*charged, *flown]
    if not used:
        return
    newest = max(used, key=lambda one: one.seq)
    found = UsedAside(charged=len(charged), flown=len(flown), last_on=newest.on)
    yield found_row(pack, USED_WHILE_ASIDE, newest, found, why="used aside", state="open")


def _since(pack: ItemNow, used: Recorded, marked: int) -> bool:
    return used.seq > marked and (pack.state.on is None or used.on >= pack.state.on)
