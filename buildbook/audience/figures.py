"""Figures that not everybody sees."""

from collections.abc import Mapping

from buildbook.records.declare import Shown

OWNER_FIGURES = frozenset(("operating_cost",))
"""Figures that are made of prices: no switch shows them."""

SWITCHED_FIGURES: Mapping[tuple[str, str], Shown] = {("failure_rate", "cause "): "incidents"}
"""Figures by name and how their ``of`` begins, shown only where that switch of ``share:`` is on."""
