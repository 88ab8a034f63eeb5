"""Rows of packs that no programme asks for: each opens a task named for what to do."""

from collections.abc import Mapping
from typing import Literal

from buildbook.basis.days import add_months
from buildbook.hangar.packs.limits import LITHIUM
from buildbook.records.row_names import (
    CELL_VOLTAGES,
    CHARGED_WRONGLY,
    FALLING_CELL,
    FLOWN_LOW,
    INTO_RESERVE,
    LOW_CELLS,
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
from buildbook.report.history import Recorded
from buildbook.report.packs.pack_history import Aside, AsideWhy
from buildbook.report.state import ItemNow
from buildbook.report.upkeep import ranks
from buildbook.report.upkeep.pack_findings import OnShelf, PackFinding, SetAside
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
    READ_AT_REST: "Let it rest for half an hour, then read each cell again.",
    FLOWN_LOW: "Before you charge it again, let it rest, read each cell, look it over and record"
    " that as pack-look. Land earlier.",
    USED_TOO_MUCH: "Let it rest and read each cell. Measure its capacity, or correct the figure"
    " for the charge used.",
    INTO_RESERVE: "Before it flies again let it rest, read each cell and record that; or land its"
    " next flight with the reserve in it, by the timer of its page and the alarm. Three in its last"
    " six are a habit, which one good landing does not close.",
    READ_AGAIN: "Measure it again at the same temperature, current and cut-off before you judge"
    " it.",
    CHARGED_WRONGLY: "Before you charge or fly it again, let it rest outdoors, look it over, read"
    " each cell, and record that as pack-look. See what the charger was set to.",
    USED_WHILE_ASIDE: f"{KEEP_AWAY} Mark it, so that nobody takes it again; correct the entry if it"
    " was another pack.",
    PACK_CELLS: "Fly it on another aircraft, or fit parts rated for that many cells.",
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
    because = Because(
        why=why, entry=seen.uid, on=seen.on, place=seen.place, tag=pack.tag, found=found
    )
    return found_task(
        None, name, because, seen.place, what=DO[name], each="battery", state=state, rank=rank
    )


def found_note(pack: ItemNow, seen: Recorded, found: PackFinding) -> Reason:
    """A quiet note: a mark on the page of the pack, and nothing that is due."""
    return Reason(
        place=seen.place,
        rank=ranks.NOTED,
        grounding=False,
        because=Because(
            why="signal",
            entry=seen.uid,
            on=seen.on,
            place=seen.place,
            tag=pack.tag,
            found=found,
        ),
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
