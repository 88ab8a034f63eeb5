"""How an aircraft was at a moment of the log."""

from collections.abc import Mapping

import msgspec

from buildbook.records.aircraft import Status
from buildbook.records.parts import ItemState
from buildbook.report.history import DefectState, InForce


class Snapshot(msgspec.Struct, frozen=True, kw_only=True):
    """An aircraft right after an entry that changed it, whatever log that entry stands in.

    seq: of that entry; -1 is what aircraft.yaml says. fitted: tags by station and kind.
    out_of_service, firmware: of what is fitted, by tag. settings: by what they are of, and name.
    alterations: how many there were so far.
    """

    seq: int
    status: Status
    fitted: Mapping[tuple[str, str], tuple[str, ...]] = {}
    out_of_service: Mapping[str, ItemState] = {}
    firmware: Mapping[str, str] = {}
    settings: Mapping[tuple[str | None, str], InForce] = {}
    gains: str | None = None
    open_defects: tuple[DefectState, ...] = ()
    alterations: int = 0

    @property
    def grounding(self) -> tuple[DefectState, ...]:
        """The open defects that ground it."""
        return tuple(state for state in self.open_defects if state.defect.severity == "grounds")
