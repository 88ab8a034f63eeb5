"""``hangar.json`` and ``aircraft/<slug>.json``: what ``due`` and ``figures`` print, as files."""

import json
from typing import Any

from buildbook.pages.addresses import address_of
from buildbook.pages.page import Sheet
from buildbook.report.reports import Reports
from buildbook.words.for_machines import due_shape, figures_shape
from buildbook.words.measures.days import Days
from buildbook.words.work_list import raised_of


def hangar_sheet(reports: Reports, _key: str) -> Sheet:
    """The work list of the hangar."""
    days = Days(reports.exact_days)
    raised = raised_of(reports, reports.hangar.aircraft, days)
    return Sheet(
        address=address_of("hangar-json"),
        text=_text(due_shape(reports.work, raised, reports.machine_day, days)),
    )


def aircraft_sheet(reports: Reports, slug: str) -> Sheet:
    """The figures of an aircraft."""
    shape = figures_shape(
        reports.figures_of_aircraft(slug),
        {"aircraft": slug},
        reports.hangar.as_of,
        reports.machine_day,
    )
    return Sheet(address=address_of("aircraft-json", slug), text=_text(shape))


def _text(shape: dict[str, Any]) -> str:
    return json.dumps(shape, ensure_ascii=False, indent=1) + "\n"
