"""Drawings as pixels, made without a browser, against what a browser makes of them."""

import io

import numpy as np
import pytest
from PIL import Image

from buildbook.drawings.layout.layout import layout_portrait
from buildbook.pictures.line_art import drawn
from tests.drawings.drawn_samples import glider_plan, ring_plan

from .conftest import Looks

COLOURS = {
    "ink": "#20282e",
    "soft": "#55585a",
    "line": "#cdc5b3",
    "accent": "#1d5a74",
    "tint": "#cfe0e4",
    "paper": "#fbf8f0",
    "ground": "#f4efe3",
    "bad": "#9c2b1b",
}
WIDE, FINER = 800, 3
PLANS = {
    "quad": ring_plan("quad-x", state="checked"),
    "planned": ring_plan("y6"),
    "glider": glider_plan(),
}
FAR = 70  # of 255 in brightness
MOST_OTHERWISE = 0.08  # of as many as are dark: thin lines end a little sooner or later


@pytest.mark.parametrize("name", PLANS)
def test_pixels_are_those_of_a_browser(looks: Looks, name: str) -> None:
    """Fills, outlines, arcs, dashes and matrices, as Chromium draws the same SVG."""
    svg = str(layout_portrait(PLANS[name], lettered=False))
    large = drawn(svg, COLOURS, COLOURS["ground"], FINER * WIDE)
    ours = large.resize((WIDE, large.height // FINER), Image.Resampling.LANCZOS)
    rules = "".join(
        f".d-f-{one}{{fill:{tone}}}.d-s-{one}{{stroke:{tone}}}" for one, tone in COLOURS.items()
    )
    page = looks(WIDE, ours.height)
    page.set_content(
        "<style>"
        f"body{{margin:0;background:{COLOURS['ground']}}}{rules}"
        "svg{display:block;fill:none;stroke-linecap:round;stroke-linejoin:round}"
        f"</style>{svg}"
    )
    at = {"x": 0, "y": 0, "width": WIDE, "height": ours.height}
    theirs = Image.open(io.BytesIO(page.screenshot(clip=at))).convert("L")
    there, here = (np.asarray(one.convert("L"), dtype=float) for one in (theirs, ours))

    otherwise = np.mean(np.abs(there - here) > FAR)
    lines = np.mean(np.abs(there - np.median(there)) > FAR)

    assert there.shape == here.shape
    assert otherwise < MOST_OTHERWISE * lines
