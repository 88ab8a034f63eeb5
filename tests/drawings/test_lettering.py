"""The width model against the metrics of a real wide font, and the style sheet of the drawings."""

import re
from pathlib import Path

import pytest

import buildbook.drawings
from buildbook.drawings.layout.layout_strip import wrap
from buildbook.drawings.lettering import shorten, text_width
from buildbook.words.measures.lengths import length_words, place_words, round_length

ROOM = Path(buildbook.drawings.__file__).parent
WORDS = (
    "front-right",
    "mid-starboard-outrigger",
    "ccw · output 12",
    "14 AWG · 140 mm · bullet 4 mm",
    "22 A · drop 51 mV (0.5 %)",
    "centre of gravity",
    "WMQ @ 40 °C",
)


@pytest.mark.parametrize("words", WORDS)
@pytest.mark.parametrize("bold", [False, True])
def test_words_are_no_wider_than_the_model_says(words, bold):
    """Source: horizontal advances of DejaVu Sans and its bold, as shipped with matplotlib."""
    from matplotlib.font_manager import FontProperties
    from matplotlib.textpath import TextPath

    font = FontProperties(family="DejaVu Sans", weight="bold" if bold else "normal")
    real = TextPath((0, 0), words, size=100, prop=font).get_extents().width
    modelled = text_width(words, 100, bold)

    assert real <= modelled <= 1.35 * real


def test_wrapped_lines_fit_and_lose_nothing():
    """Words move to the next line; a word longer than the room is broken."""
    text = "discs of front-left and front-right overlap by abcdefghijklmnopqrstuvwxyz15 mm"
    lines = wrap(text, 11.5, 100)

    assert [] == [line for line in lines if text_width(line, 11.5) > 100]
    assert text.replace(" ", "") == "".join(lines).replace(" ", "")


def test_shortened_words_fit_with_an_ellipsis():
    """What fits stays as it is."""
    assert "rear" == shorten("rear", 10, 100)
    assert "mid-st…" == shorten("mid-starboard", 10, 45)
    assert text_width(shorten("mid-starboard", 10, 45), 10) <= 45


def test_lengths_are_said_as_at_the_bench():
    """Millimetres below one and a half metres."""
    said = tuple(map(length_words, (0.41, 1.4, 2.45, 12.5)))

    assert ("410 mm", "1400 mm", "2450 mm", "12.5 m") == said
    assert "145 mm forward, 20 mm left" == place_words(0.145, -0.02)
    assert "at the reference point" == place_words(0, 0)
    lengths = [round_length(longest) for longest in (0.16, 0.09, 4.9)]
    assert [0.1, 0.05, 2.0] == pytest.approx(lengths)


def test_the_style_sheet_knows_every_class_and_only_the_ten_colours():
    """Templates use no class that has no rule; rules use no colour of their own."""
    css = (ROOM / "drawings.css").read_text("utf-8")
    ruled = set(re.findall(r"\.(d(?:-[a-z]+)*)\b", css))
    sources = [path.read_text("utf-8") for path in sorted(ROOM.glob("svg/*.j2"))]
    used = set(re.findall(r"\b(d-[fs]-[a-z]+|d-name|d-fact|d-mark)\b", " ".join(sources)))
    variables = set(re.findall(r"var\((--[a-z-]+)\)", css))
    named = [
        "ground",
        "ink",
        "ink-soft",
        "line",
        "accent",
        "accent-soft",
        "good",
        "warn",
        "bad",
        "paper",
    ]

    assert set() == used - ruled
    assert {f"--{name}" for name in named} == variables
    assert [] == re.findall(r"#[0-9a-f]{3,6}\b|rgb|hsl", css)
    assert len(css.encode()) < 4000
