"""The dimensioned drawings of the demo's stories: as the records say, legible, nothing cut off."""

import io
import re

import numpy as np
import pytest
from PIL import Image
from playwright.sync_api import Browser

from buildbook.reporting.opening import open_reports

from .bench_sheets.drawn import CONTENT, SHEETS, TODAY, Named, taken
from .bench_sheets.paper import WIDTH
from .conftest import Looks

MOST_OTHERWISE = 0.03  # share of the pixels; another build of the letters moves their edges
MARGIN = 5.0  # of white paper round all words; tighter looks cut off
_WORDS = """() => [...document.querySelectorAll('text')].map(text => {
  const box = text.getBBox();
  return [text.textContent, box.x, box.y + 3, box.x + box.width, box.y + box.height - 3];
})"""


def words_of(named: Named) -> list[str]:
    """All that is written on a sheet."""
    now = open_reports(CONTENT, None, TODAY).reports.hangar.aircraft[named[0]]
    return re.findall(r"<text[^>]*>([^<]*)<", SHEETS[named](now).svg())


def test_sheets_say_what_the_records_say() -> None:
    """Half the diagonal less the block; where the pack is; throws, stations and the wing."""
    assert "shaft to end 204" in words_of(("burdock", "tube.png"))
    assert {"9", "26"} <= set(words_of(("burdock", "heights.png")))
    assert {"950", "aileron 540", "servo, 480 out", "up 13.5", "down 7.5"} <= set(
        words_of(("thistledown", "panel.png"))
    )
    assert {"wing begins 261", "1 pack 150", "2 servo tray 222, receiver above it"} <= set(
        words_of(("thistledown", "body.png"))
    )
    assert {"17", "20", "30", "34"} <= set(words_of(("thistledown", "inside.png")))
    assert {"tray 84 to 204", "seat 261 to 486"} <= set(words_of(("thistledown", "along.png")))
    assert {"30", "193", "16"} <= set(words_of(("thistledown", "crank.png")))
    assert {"22", "camera 52", "ground 193", "bolts 67"} <= set(
        words_of(("hogweed", "heights.png"))
    )
    assert {"shaft 301; no hole", "motor 25", "motor 19", "bolts 37", "bolts 23"} <= set(
        words_of(("hogweed", "booms.png"))
    )
    assert {"ground 125", "block 16", "bolt 50", "24"} <= set(words_of(("trefoil", "tray.png")))
    assert {"450; elevator 430", "41", "68", "rudder 190"} <= set(
        words_of(("thistledown", "tail.png"))
    )


def test_the_pictures_beside_the_stories_are_these_sheets(browser: Browser) -> None:
    """``python -m tests.browser.bench_sheets`` draws them anew after a change of the records."""
    otherwise = {}
    for (slug, name), data in taken(browser, SHEETS).items():
        kept = (CONTENT / "aircraft" / slug / "photos" / name).read_bytes()
        now, then = (
            np.asarray(Image.open(io.BytesIO(one)).convert("L"), dtype=float)
            for one in (data, kept)
        )
        assert now.shape == then.shape, name
        otherwise[name] = float(np.mean(np.abs(now - then) > 60))

    assert {} == {name: share for name, share in otherwise.items() if share > MOST_OTHERWISE}


@pytest.mark.parametrize("named", SHEETS, ids="/".join)
def test_words_stay_on_the_sheet_and_off_each_other(looks: Looks, named: Named) -> None:
    """Measured by their boxes in Chromium."""
    page = looks()
    now = open_reports(CONTENT, None, TODAY).reports.hangar.aircraft[named[0]]
    sheet = SHEETS[named](now)
    page.set_content(sheet.svg())
    boxes = [box for box in page.evaluate(_WORDS) if box[0]]

    assert len(boxes) > 5
    far, low = WIDTH - MARGIN, sheet.height - MARGIN
    assert [] == [
        words
        for words, left, top, right, bottom in boxes
        if left < MARGIN or top < MARGIN or right > far or bottom > low
    ]
    assert [] == [
        f"{one[0]} / {other[0]}"
        for place, one in enumerate(boxes)
        for other in boxes[place + 1 :]
        if one[1] < other[3] and other[1] < one[3] and one[2] < other[4] and other[2] < one[4]
    ]
