"""The row of a pack that the records set aside."""

from collections.abc import Mapping

from buildbook.report.packs.pack_history import Aside, AsideWhy
from buildbook.report.state import ItemNow
from buildbook.report.upkeep import ranks
from buildbook.report.upkeep.work import Row, RowState
from buildbook.upkeep.packs.rows import PACK_LOOK, SET_ASIDE, pack_row

_SAID: Mapping[AsideWhy, str] = {
    "keeper": "by the keeper",
    "crash": "it was in a crash",
    "incident": "it was in an incident",
    "water": "it got wet",
    "defect": "it has a defect",
    "failed look": "it failed an inspection",
    "low cell": "a cell too low at rest",
    "high cell": "a cell too high at rest",
    "spread": "cells too far apart at rest",
    "falling cell": "one cell fell while it lay",
}


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
    found = first.detail.get("found")
    said = f"{pack.tag} is set aside: {_SAID[first.why]}{f', {found}' if found else ''}"
    return pack_row(
        pack,
        SET_ASIDE if first.release == "word" else PACK_LOOK,
        first,
        said,
        why="set aside",
        trigger=first.why,
        detail=first.detail,
        state=_STATE.get(first.why, "due"),
        rank=ranks.ITEM_OUT_OF_SERVICE,
    )
