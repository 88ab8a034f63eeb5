"""The way from an entry of a logbook to how the aircraft was after it."""

from pathlib import Path

from buildbook.pages.addresses import address_of

from .conftest import Looks


def test_a_link_from_the_logbook_opens_the_moment(looks: Looks, owner_site: Path) -> None:
    """Without scripts, on a phone: the state is open, in sight below its entry, none is lost."""
    page = looks(width=320, java_script_enabled=False)
    page.goto((owner_site / address_of("logbook", "burdock")).as_uri())
    links = page.get_by_role("link", name="as it was then")
    assert links.count() == page.locator("li.entry").count()

    links.nth(links.count() // 2).click()

    state = page.locator("dl:target")
    box = state.bounding_box()
    assert state.is_visible()
    assert box is not None
    assert 60 <= box["y"] <= 200
    assert "Front-left" in state.inner_text()
