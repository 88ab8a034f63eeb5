"""One item of the hangar as the answers look at it."""

import msgspec

from buildbook.basis.place import Place
from buildbook.records.keeper import Keeper
from buildbook.report.state import Hangar, ItemNow


class Part(msgspec.Struct, frozen=True):
    """The item and its hangar."""

    hangar: Hangar
    item: ItemNow

    @property
    def keeper(self) -> Keeper:
        """The hangar's defaults."""
        return self.hangar.ledger.keeper

    @property
    def last_place(self) -> Place | None:
        """The newest line that tells of its life: a flight, a charge, or where it was fitted."""
        for told in (self.item.flights, self.item.charges):
            if told:
                return told[-1].place
        return self.item.stays[-1].since_place if self.item.stays else None
