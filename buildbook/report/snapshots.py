"""How an aircraft was at a moment of the log."""

from __future__ import annotations  # marks are looked at for the public only

from collections.abc import Mapping
from typing import Annotated

import msgspec

from buildbook.records.aircraft import Aircraft, Place3, StationPlan, Status, Sundry
from buildbook.records.declare import PRIVATE, PUBLIC, made, of
from buildbook.records.entries import Firmware, StateChange
from buildbook.records.parts import ItemState
from buildbook.records.surfaces import Surface
from buildbook.report.history import DefectState, InForce


class Snapshot(msgspec.Struct, frozen=True, kw_only=True):
    """An aircraft right after an entry that changed it, whatever log that entry stands in.

    seq: of that entry; -1 is what aircraft.yaml says. fitted: tags by station and kind.
    out_of_service, firmware: of what is fitted, by tag. settings: by what they are of, and name.
    alterations: how many there were so far.
    """

    seq: Annotated[int, PUBLIC]
    status: Annotated[Status, of(Aircraft, "status")]
    fitted: Annotated[Mapping[tuple[str, str], tuple[str, ...]], PUBLIC] = {}
    out_of_service: Annotated[
        Mapping[str, ItemState], made("public", (of(StateChange, "states"),))
    ] = {}
    firmware: Annotated[Mapping[str, str], made("public", (of(Firmware, "versions"),))] = {}
    settings: Annotated[Mapping[tuple[str | None, str], InForce], PUBLIC] = {}
    gains: Annotated[str | None, PUBLIC] = None
    open_defects: Annotated[tuple[DefectState, ...], PRIVATE] = ()
    stations: Annotated[Mapping[str, StationPlan], of(Aircraft, "stations")] = {}
    surfaces: Annotated[Mapping[str, Surface], of(Aircraft, "surfaces")] = {}
    positions: Annotated[Mapping[str, Place3], of(Aircraft, "positions")] = {}
    sundries: Annotated[tuple[Sundry, ...], of(Aircraft, "sundries")] = ()
    alterations: Annotated[int, PUBLIC] = 0

    def sharing(self, before: Snapshot) -> Snapshot:
        """The same, holding the very parts of the one before wherever they are equal."""
        same = {
            name: earlier
            for name in self.__struct_fields__
            if (earlier := getattr(before, name)) == getattr(self, name)
        }
        return msgspec.structs.replace(self, **same)

    @property
    def grounding(self) -> tuple[DefectState, ...]:
        """The open defects that ground it."""
        return tuple(state for state in self.open_defects if state.defect.severity == "grounds")
