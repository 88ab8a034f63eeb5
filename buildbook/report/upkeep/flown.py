"""What was open while an aircraft was flown."""

from typing import Literal

import msgspec

from buildbook.report.marks import Public

Open = Literal[
    "check", "look", "missing part", "status", "defect", "pack", "limit", "check flight", "reserve"
]


class Meanwhile(msgspec.Struct, frozen=True, kw_only=True):
    """One thing that was open during a flight.

    A reserve is that of a pack, which the flight itself went into.
    name: of the check, look or limit; the status; the tag of a pack. of: a station or a tag.
    """

    kind: Public[Open]
    name: Public[str] = ""
    of: Public[str | None] = None

    @property
    def named(self) -> tuple[str, str, str | None]:
        """What it is; of a limit also whose."""
        return (self.kind, self.name, self.of if self.kind == "limit" else None)


class MarkedFlight(msgspec.Struct, frozen=True, kw_only=True):
    """An entry of flights with what was open during them, the worst first."""

    uid: Public[str]
    meanwhile: Public[tuple[Meanwhile, ...]]

    def is_like(self, other: "MarkedFlight") -> bool:
        """Whether the same was open, of whichever stations and items."""
        return {one.named for one in self.meanwhile} == {one.named for one in other.meanwhile}
