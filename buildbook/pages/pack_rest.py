"""How a pack was left: full, part-charged, at storage charge, or flown since it was charged."""

import datetime
from typing import Literal

import msgspec

from buildbook.report.state import ItemNow

Left = Literal["full", "in part", "at storage charge", "charged", "flown", "not recorded"]


class PackRest(msgspec.Struct, frozen=True, kw_only=True):
    """How a pack was left, and since when; ``uid`` of the entry that says so."""

    left: Left
    since: datetime.date | None = None
    uid: str | None = None
    aircraft: str | None = None


def pack_rest(pack: ItemNow) -> PackRest:
    """From the last charge or flight of a pack, whichever came later in the order of the log."""
    charge = pack.charges[-1] if pack.charges else None
    flight = pack.flights[-1] if pack.flights else None
    if flight is not None and (charge is None or flight.seq > charge.seq):
        return PackRest(left="flown", since=flight.on, uid=flight.uid, aircraft=flight.aircraft)
    if charge is None:
        return PackRest(left="not recorded")
    words: dict[str | None, Left] = {
        "full": "full",
        "part": "in part",
        "storage": "at storage charge",
    }
    return PackRest(left=words.get(charge.to, "charged"), since=charge.on, uid=charge.uid)
