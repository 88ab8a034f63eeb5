"""What was open while an aircraft was flown."""

from typing import Literal

import msgspec

from buildbook.report.marks import Public

Open = Literal["check", "look", "missing part", "status", "defect", "pack", "limit", "check flight"]


class Meanwhile(msgspec.Struct, frozen=True, kw_only=True):
    """One thing that was open during a flight.

    name: of the check, look or limit; the status; the tag of a pack. of: a station or a tag.
    """

    kind: Public[Open]
    name: Public[str] = ""
    of: Public[str | None] = None


class MarkedFlight(msgspec.Struct, frozen=True, kw_only=True):
    """An entry of flights with what was open during them, the worst first."""

    uid: Public[str]
    meanwhile: Public[tuple[Meanwhile, ...]]
