"""``hangar.json`` and ``aircraft/<slug>.json``: what ``due`` and ``figures`` print, as files."""

import json
from collections.abc import Iterable
from typing import Any

from buildbook.audience.view import View
from buildbook.pages.addresses import address_of
from buildbook.pages.page import Sheet
from buildbook.pages.shapes import due_shape, figures_shape


def hangar_keys(_view: View) -> Iterable[str]:
    """There is one."""
    return ("",)


def hangar_sheet(view: View, _key: str) -> Sheet:
    """The work list of the hangar."""
    return Sheet(
        address=address_of("hangar-json"), text=_text(due_shape(view.work, view.machine_day))
    )


def aircraft_keys(view: View) -> Iterable[str]:
    """One for each aircraft."""
    return tuple(view.hangar.aircraft)


def aircraft_sheet(view: View, slug: str) -> Sheet:
    """The figures of an aircraft."""
    shape = figures_shape(
        view.figures_of_aircraft(slug), {"aircraft": slug}, view.hangar.as_of, view.machine_day
    )
    return Sheet(address=address_of("aircraft-json", slug), text=_text(shape))


def _text(shape: dict[str, Any]) -> str:
    return json.dumps(shape, ensure_ascii=False, indent=1) + "\n"
