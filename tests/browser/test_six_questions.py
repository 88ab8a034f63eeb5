"""What an owner asks with a phone in his hand: two touches at most, then it is on the screen."""

from pathlib import Path

import pytest

from .conftest import Looks

WIDTH, HEIGHT = 390, 844
QUESTIONS = {
    "what can I fly": (["Going flying"], "nothing open Thistledown", "due soon Burdock"),
    "what comes first": (["Due"], "Boom clamp", "open"),
    "which pack is worst": (["Stock"], "Packs, worst first", "P-33 voltage low, 82 %"),
    "what must be done to Burdock": (["Burdock"], "due soon", "Screws and mounts Unplug the pack."),
    "which way turns front-left": (
        ["Burdock", "Layout and wiring"],
        "forward",
        "front-left ccw output 4",
    ),
    "which set is in": (["Burdock"], "Gain set", "long-blades"),
    "when was the failsafe tested": (["Burdock"], "failsafe last tested", "30 October 2026"),
}
# Words that a reader sees without moving the page, in the order of the page.
ON_SCREEN = """() => {
  const walk = document.createTreeWalker(document.body, NodeFilter.SHOW_TEXT), found = [];
  for (let node = walk.nextNode(); node; node = walk.nextNode()) {
    const range = document.createRange();
    range.selectNodeContents(node);
    const box = range.getBoundingClientRect();
    if (node.data.trim() && node.parentElement.checkVisibility() && box.width > 1
        && box.top >= 0 && box.bottom <= innerHeight && box.right <= innerWidth)
      found.push(node.data.trim());
  }
  return found.join(' ').replace(/\\s+/g, ' ');
}"""


@pytest.mark.parametrize("question", QUESTIONS)
def test_a_question_is_answered_on_one_screen(
    looks: Looks, owner_site: Path, question: str
) -> None:
    """From the front page, without scrolling once: what is touched is on the screen too."""
    touches, subject, answer = QUESTIONS[question]
    page = looks(WIDTH, HEIGHT)
    page.goto((owner_site / "index.html").as_uri())
    for touch in touches:
        link = page.get_by_role("link", name=touch, exact=True).first
        box = link.bounding_box()
        assert box is not None
        assert HEIGHT > box["y"] + box["height"]
        link.click()
        page.wait_for_load_state()
    words = page.evaluate(ON_SCREEN)

    assert subject in words
    assert answer in words
