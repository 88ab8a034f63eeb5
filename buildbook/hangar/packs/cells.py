"""Whether a part of an aircraft takes the cells of a pack."""

from buildbook.report.state import ItemNow

NIMH_FOR_ONE = 3


def takes(part: ItemNow, pack: ItemNow) -> bool:
    """Whether a part takes a pack; True where either does not say its cells.

    Parts count lithium cells: three of NiMH stand for one. Common practice, no source.
    """
    has, range_ = pack.spec.cells, part.spec.cells
    if has is None or range_ is None:
        return True
    cells = round(has.series / NIMH_FOR_ONE) if pack.spec.chemistry == "NiMH" else has.series
    return range_.series <= max(1, cells) <= range_.series_most
