"""How a field of a report says who may see it: ``share: Public[float | None]``."""

from __future__ import annotations  # marks are looked at for the public only

from typing import Annotated, TypeVar

from buildbook.records.declare import PUBLIC, made

T = TypeVar("T")

Public = Annotated[T, PUBLIC]
"""Everybody."""

OfDays = Annotated[T, made("days")]
"""Who may see exact days: a day of the month, a number of days between two days."""

OfIncidents = Annotated[T, made("incidents")]
"""Whom ``share: {incidents: true}`` lets: the words of defects, crashes and their causes."""
