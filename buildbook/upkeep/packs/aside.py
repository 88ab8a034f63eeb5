"""The row of a pack that the records set aside."""

from collections.abc import Mapping

from buildbook.report.packs.pack_history import Aside, AsideWhy
from buildbook.report.state import ItemNow
from buildbook.report.upkeep import ranks
from buildbook.report.upkeep.pack_findings import SetAside
from buildbook.report.upkeep.work import Row, RowState
from buildbook.upkeep.packs.rows import PACK_LOOK, SET_ASIDE, found_row

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
