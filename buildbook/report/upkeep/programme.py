"""A programme as it applies: its rows with those of its bases, and what differs from them."""

from __future__ import annotations  # marks are looked at for the public only

from typing import Annotated, Generic, TypeVar

import msgspec

from buildbook.basis.place import Place
from buildbook.records.declare import PRIVATE, Public, of
from buildbook.records.programmes import CheckRule, LimitRule, Programme, TaskRule
from buildbook.report.upkeep.work import RowKind

Rule = TypeVar("Rule", CheckRule, TaskRule, LimitRule)


class Applied(msgspec.Struct, Generic[Rule], frozen=True):
    """One row of a programme. ``usual``: the built-in row of that name where this one differs."""

    rule: Public[Rule]
    usual: Public[Rule | None] = None
    looser: Public[bool] = False


class Dropped(msgspec.Struct, frozen=True, kw_only=True):
    """A row that the keeper's programme leaves out. ``why`` is in the keeper's own words."""

    kind: Public[RowKind]
    name: Public[str]
    why: Annotated[str, of(Programme, "drop")]
    place: Annotated[Place, PRIVATE]


class Resolved(msgspec.Struct, frozen=True, kw_only=True):
    """A programme with everything that it is based on. ``chain``: itself first."""

    name: Public[str]
    chain: Public[tuple[str, ...]] = ()
    checks: Public[tuple[Applied[CheckRule], ...]] = ()
    tasks: Public[tuple[Applied[TaskRule], ...]] = ()
    life_limits: Public[tuple[Applied[LimitRule], ...]] = ()
    dropped: Public[tuple[Dropped, ...]] = ()


class ProgrammeReport(msgspec.Struct, frozen=True, kw_only=True):
    """A programme and what it applies to: aircraft by slug; by_default: items on no aircraft."""

    resolved: Public[Resolved]
    built_in: Public[bool]
    applies_to: Public[tuple[str, ...]]
    by_default: Public[bool]
    note: Annotated[str | None, of(Programme, "note")] = None
