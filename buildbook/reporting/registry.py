"""Every report by its name, and where it is worked out: imported when it is first asked for."""

from collections.abc import Callable, Mapping
from importlib import import_module
from typing import Any

import msgspec

from buildbook.report.reports import Reports
from buildbook.report.state import Hangar
from buildbook.report.upkeep.work import WorkList
from buildbook.reporting.whole import Whole
from buildbook.upkeep.hangar_context import HangarContext

REPORTS: Mapping[str, str] = {
    "hangar": "whole:hangar",
    "work": "whole:work",
    "figures_of_aircraft": "figures.headlines:figures_of_aircraft",
    "figures_of_item": "figures.headlines:figures_of_item",
    "known_figures": "figures.known_figures:known_figures",
    "jobs": "upkeep.jobs:jobs",
    "jobs_of_aircraft": "upkeep.jobs:jobs_of_aircraft",
    "jobs_of_item": "upkeep.jobs:jobs_of_item",
    "jobs_around": "upkeep.jobs:jobs_around",
    "work_around": "upkeep.jobs:work_around",
    "aircraft_standing": "upkeep.jobs:aircraft_standing",
    "pack_standing": "upkeep.jobs:pack_standing",
    "spin_jobs": "upkeep.jobs:spin_jobs",
    "health": "packs:health",
    "packs": "packs:packs",
    "stock": "stock:stock",
    "glance": "upkeep.jobs:glance",
    "part_life": "part_life:part_life",
    "parts_of_aircraft": "part_life:parts_of_aircraft",
    "radio": "stock:radio",
    "dated_work": "upkeep.jobs:dated_work",
    "going_flying": "outing:going_flying",
    "falls_due": "upkeep.jobs:falls_due",
    "silence": "whole:silence",
    "layout": "drawn.plans:layout",
    "layout_outline": "drawn.plans:layout_outline",
    "wiring": "drawn.plans:wiring",
    "balance": "drawn.balance:balance",
    "months_flown": "drawn.plans:months_flown",
    "timeline": "drawn.over_time:timeline",
    "capacity_trend": "drawn.over_time:capacity_trend",
    "resistance_trend": "drawn.over_time:resistance_trend",
    "charge_a_minute": "drawn.over_time:charge_a_minute",
    "between_crashes": "drawn.over_time:between_crashes",
    "flying_by_month": "drawn.over_time:flying_by_month",
    "predicted_flown": "drawn.over_time:predicted_flown",
    "programmes": "upkeep.programmes:programmes",
    "programme": "upkeep.programmes:programme",
    "gains": "figures.gains:gains",
    "gains_raised": "figures.gains:gains_raised",
    "headlines": "figures.headlines:headlines",
    "comparisons": "figures.comparison:comparisons",
    "figure_names": "figures.headlines:figure_names",
    "entry_named": "whole:entry_named",
    "current_repairs": "upkeep.remarks:current_repairs",
    "inoperative": "upkeep.remarks:inoperative",
    "marked_flights": "upkeep.remarks:marked_flights",
    "remarks": "upkeep.remarks:remarks",
    "unanswered_on": "upkeep.remarks:unanswered_on",
    "doubts_about": "whole:doubts_about",
    "expected_readings": "upkeep.set_up:expected_readings",
    "set_up": "upkeep.set_up:set_up",
    "set_up_checks": "upkeep.jobs:set_up_checks",
    "next_step": "next_step:next_step",
    "as_shared": "registry:as_shared",
}
"""Module of this room and function, by the name of the report."""


def worker_of(name: str) -> Callable[..., Any]:
    """The function that works a report out: ``worker(whole, *key)``. KeyError: no such report."""
    module, _, function = REPORTS[name].partition(":")
    found: Callable[..., Any] = getattr(import_module(f"buildbook.reporting.{module}"), function)
    return found


def reports_of(
    hangar: Hangar,
    like: Whole | None = None,
    listed: Callable[[], WorkList] | None = None,
    gathered: HangarContext | None = None,
) -> Reports:
    """All reports of a folded hangar, from the whole truth.

    like: one with the same work list. listed: gives that, where it may be known already.
    gathered: of that hangar, where others ask it too.
    """
    whole = Whole(hangar, like, listed, gathered)
    reports = Reports(lambda name, key: worker_of(name)(whole, *key))
    whole.reports = reports
    return reports


def as_shared(whole: Whole) -> Reports:
    """All reports, as if no elevation of the field were written unless the keeper shares it.

    The density of the air goes into powers, currents and times, so whoever has one of these could
    work the elevation out; without it they rest on the default, and say so.
    """
    keeper = whole.hangar.ledger.keeper
    if keeper.field_elevation_m is None or keeper.share.elevation:
        return whole.reports
    keeper = msgspec.structs.replace(keeper, field_elevation_m=None)
    ledger = msgspec.structs.replace(whole.hangar.ledger, keeper=keeper)
    return reports_of(msgspec.structs.replace(whole.hangar, ledger=ledger), like=whole)
