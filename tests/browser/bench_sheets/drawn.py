"""All sheets of the demo, and the pictures that Chromium makes of them."""

import datetime
import io
from collections.abc import Callable, Mapping
from pathlib import Path

from PIL import Image
from playwright.sync_api import Browser

from buildbook.report.state import AircraftNow
from buildbook.reporting.opening import open_reports

from . import (
    burdock,
    hogweed,
    hogweed_ends,
    thistledown,
    thistledown_along,
    thistledown_ends,
    thistledown_inside,
    trefoil,
)
from .paper import WIDTH, Paper

CONTENT = Path(__file__).resolve().parents[3] / "content"
TODAY = datetime.date(2026, 11, 20)  # the day on which the demo stands still
FINER = 3
COLOURS = 32
Named = tuple[str, str]

SHEETS: Mapping[Named, Callable[[AircraftNow], Paper]] = {
    ("burdock", "plates.png"): burdock.plates,
    ("burdock", "tube.png"): burdock.tube,
    ("burdock", "heights.png"): burdock.heights,
    ("burdock", "tray.png"): burdock.tray,
    ("hogweed", "plates.png"): hogweed.plates,
    ("hogweed", "heights.png"): hogweed.heights,
    ("hogweed", "booms.png"): hogweed_ends.booms,
    ("trefoil", "plates.png"): trefoil.plates,
    ("trefoil", "arm.png"): trefoil.arm,
    ("trefoil", "tray.png"): trefoil.tray,
    ("thistledown", "panel.png"): thistledown.panel,
    ("thistledown", "body.png"): thistledown.body,
    ("thistledown", "along.png"): thistledown_along.along,
    ("thistledown", "inside.png"): thistledown_inside.sections,
    ("thistledown", "crank.png"): thistledown_inside.crank,
    ("thistledown", "tail.png"): thistledown_ends.tail,
    ("thistledown", "nose.png"): thistledown_ends.nose,
}
"""By aircraft and file of its photos/, as the record says when the demo stands still."""


def taken(
    browser: Browser, sheets: Mapping[Named, Callable[[AircraftNow], Paper]]
) -> Mapping[Named, bytes]:
    """Each sheet as a PNG of few colours."""
    reports = open_reports(CONTENT, None, TODAY).reports
    page = browser.new_page(device_scale_factor=FINER)
    found = {}
    for named, draw in sheets.items():
        paper = draw(reports.hangar.aircraft[named[0]])
        page.set_viewport_size({"width": round(WIDTH), "height": round(paper.height)})
        page.set_content(f"<body style='margin:0'>{paper.svg()}")
        picture = Image.open(io.BytesIO(page.locator("svg").screenshot())).convert("RGB")
        few = picture.quantize(COLOURS, dither=Image.Dither.NONE)
        out = io.BytesIO()
        few.save(out, "PNG", optimize=True)
        found[named] = out.getvalue()
    page.close()
    return found
