"""What the small script adds: age of the page, sorting, filtering, finding; under file:// too."""

from pathlib import Path

import pytest
from playwright.sync_api import Browser, Locator, Page

from buildbook.pages.shipped import shipped
from tests.pages.sites import as_read

LATER = "2026-12-02T12:00:00"
"""Twelve days after the day of the demo's record."""


@pytest.fixture(scope="module")
def late(browser: Browser) -> Page:
    """A page whose reader looks twelve days later."""
    page = browser.new_page()
    page.clock.set_fixed_time(LATER)
    return page


def test_a_page_says_how_old_it_is(late: Page, owner_site: Path) -> None:
    """And which days have come and gone since."""
    late.goto((owner_site / "due.html").as_uri())

    said = as_read(late.locator(".to-day").inner_text())
    assert (
        "Record to 20 November 2026; today is 12 days later. "
        "Days and ages count to the record; what has run out since is said." == said
    )
    assert "its day was 11 days ago" in late.locator(".since").all_inner_texts()


def test_a_public_page_of_months_says_no_days(late: Page, public_site: Path) -> None:
    """There is no day to count from."""
    late.goto((public_site / "index.html").as_uri())

    assert "later" not in late.locator(".to-day").inner_text()
    assert 0 == late.locator(".since").count()


def test_the_log_can_be_filtered(late: Page, owner_site: Path) -> None:
    """By kind and by words together; the rest is hidden, and how many are left is said."""
    late.goto((owner_site / "aircraft/burdock/logbook-2025.html").as_uri())
    every = late.locator(".entry:visible").count()
    late.select_option("select[name=kind]", "gain set")
    found = late.locator(".entry[data-kind='gain set']").count()

    assert 1 < found < every
    assert found == late.locator(".entry:visible").count()
    assert (
        f"{found} of {every} entries on this page"
        == late.locator("form.sieve [role=status]").inner_text()
    )
    late.fill("form.sieve input", "kite")
    assert 0 == late.locator(".entry:visible").count()
    late.select_option("select[name=kind]", "incident")
    assert 1 == late.locator(".entry:visible").count()
    late.fill("form.sieve input", "")
    late.select_option("select[name=kind]", "")
    assert every == late.locator(".entry:visible").count()


def test_everything_can_be_found_from_a_folder(late: Page, owner_site: Path) -> None:
    """Words in any order; a hit leads to the entry itself."""
    late.goto((owner_site / "find.html").as_uri())
    late.fill("[data-find] input", "kite INCIDENT")

    hits = late.locator(".hits a")
    assert "1 found" == late.locator("[data-find] [role=status]").inner_text()
    hits.first.click()
    assert "/aircraft/burdock/logbook-2025.html#" in late.url
    late.locator(".entry:target").wait_for()


def numbers_of(cells: Locator) -> list[int]:
    """Those that are known, in the order of the table."""
    return [int(words) for words in cells.all_inner_texts() if words != "not known"]


def test_tables_can_be_sorted(late: Page, owner_site: Path) -> None:
    """By a number, up and down; the column says which way."""
    late.goto((owner_site / "items/M-01.html").as_uri())
    late.locator("section[aria-labelledby=same] summary").click()
    table = late.locator("section[aria-labelledby=same] table")
    head = table.locator("th", has_text="flights")
    flights = table.locator("tbody tr td:last-child")
    head.locator("button").click()
    up = numbers_of(flights)

    assert sorted(up) == up
    assert "ascending" == head.get_attribute("aria-sort")
    head.locator("button").click()
    assert sorted(up, reverse=True) == numbers_of(flights)
    assert "descending" == head.get_attribute("aria-sort")


def test_the_script_is_small() -> None:
    """Under ten thousand bytes, and it asks for nothing from anywhere."""
    text = (shipped("themes") / "fieldbook/book.js").read_text("utf-8")

    assert len(text.encode()) < 10_000
    for word in ("http", "fetch", "import", "eval", "innerHTML", "cookie", "localStorage"):
        assert word not in text
