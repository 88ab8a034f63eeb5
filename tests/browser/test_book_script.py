"""The small script: days against the reader's clock, finding, filtering and sorting."""

import datetime
from collections.abc import Iterator
from pathlib import Path

import pytest
from playwright.sync_api import Browser, Page

from tests.pages.sites import as_read

from .conftest import Looks
from .kinds import fullest
from .test_quiet import heard

RECORD_DAY = datetime.date(2026, 11, 20)  # `as_of` in the demo's hangar.yaml
COLUMN = """(table, at) => [...table.tBodies[0].rows].map(row => row.cells[at].innerText.trim())"""


@pytest.fixture
def dated(browser: Browser) -> Iterator[Page]:
    """A page of a reader whose clock stands where a test puts it, far from Greenwich."""
    context = browser.new_context(timezone_id="Pacific/Auckland")
    yield context.new_page()
    context.close()


def opened(page: Page, site: Path, address: str, days_later: int) -> Page:
    """The page opened so many days after the last day of the record, at noon."""
    noon = datetime.datetime.combine(RECORD_DAY, datetime.time(0, 0), datetime.UTC)
    page.clock.set_fixed_time(noon + datetime.timedelta(days=days_later))
    page.goto((site / address).as_uri())
    return page


COUNTED = "Days and ages count to the record; what has run out since is said."


@pytest.mark.parametrize(
    ("days_later", "said"),
    [
        (0, "Record to 20 November 2026"),
        (1, f"Record to 20 November 2026; today is 1 day later. {COUNTED}"),
        (12, f"Record to 20 November 2026; today is 12 days later. {COUNTED}"),
    ],
)
def test_page_says_how_old_it_is(dated: Page, owner_site: Path, days_later: int, said: str) -> None:
    """Counted in days of the reader's own calendar."""
    page = opened(dated, owner_site, "index.html", days_later)

    assert said == as_read(page.locator(".to-day").inner_text())


@pytest.mark.parametrize(
    ("days_over", "said"),
    [
        (0, "its day is today"),
        (
            3,
            "Defect of F-11 at rear-upper: its deferral ran out on 24 November 2026: do not fly"
            " it.",
        ),
    ],
)
def test_what_fell_due_since_is_said(
    dated: Page, owner_site: Path, days_over: int, said: str
) -> None:
    """A row whose day was still to come when the page was made."""
    opened(dated, owner_site, "due.html", 4 + days_over)

    row = dated.locator("li[data-due='2026-11-24']:not([hidden])")
    assert [said] == [
        as_read(one.inner_text()) for one in row.locator(".since").all() if one.is_visible()
    ]
    state = row.locator(".mark:visible").inner_text()
    assert ("overdue" if days_over else "deferred") == state


def test_days_to_go_are_gone_once_the_day_has_come(dated: Page, owner_site: Path) -> None:
    """ "by 24 November 2026 (4 days)" holds on the day of the record alone; the day stays."""
    for later, days in ((0, ["(4 days)"]), (3, ["(4 days)"]), (4, []), (10, [])):
        opened(dated, owner_site, "due.html", later)
        row = dated.locator("[data-due='2026-11-24']:not([hidden])", has_text="by 24 November 2026")
        assert 1 == row.count()
        assert days == [as_read(one).strip() for one in row.locator(".ahead").all_text_contents()]


def test_public_page_tells_no_day_by_script(dated: Page, public_site: Path) -> None:
    """Where days are months, the script has no day to count from."""
    page = opened(dated, public_site, "index.html", 400)

    assert 0 == page.locator("[data-due], [data-from], [data-till]").count()
    assert "Record to November 2026" == page.locator(".to-day").inner_text()


@pytest.mark.parametrize(
    ("asked", "leads_to"),
    [("m-24", "items/M-24.html"), ("  hogweed ", "aircraft/hogweed/index.html")],
)
def test_find_works_from_a_disk(looks: Looks, owner_site: Path, asked: str, leads_to: str) -> None:
    """A tag typed into the box gives its link, and the link leads there."""
    page, top = looks(), owner_site.as_uri()
    with heard(page, top) as said:
        page.goto(f"{top}/find.html")
        page.get_by_label("Entries, parts, settings with").fill(asked)
        hits = page.locator(".hits a")
        links = hits.evaluate_all("found => found.map(one => one.href)")
        hits.nth(links.index(f"{top}/{leads_to}")).click()
        page.wait_for_url(f"{top}/{leads_to}")

    assert "" == "\n".join(said)


def test_find_says_when_nothing_is_found(looks: Looks, owner_site: Path) -> None:
    """Said in a place that screen readers announce."""
    page = looks()
    page.goto((owner_site / "find.html").as_uri())
    page.get_by_label("Entries, parts, settings with").fill("no such thing")

    assert "0 found" == page.get_by_role("search").locator("..").get_by_role("status").inner_text()


def number_in(words: str) -> float:
    """The number of a cell, which may say how sure it is: ``at least 2.2``."""
    return float(words.removeprefix("at least ").removeprefix("about ").split()[0])


def test_a_column_sorts_up_and_down(looks: Looks, owner_site: Path) -> None:
    """By number where cells begin with one; the reader is told which way."""
    page = looks()
    page.goto((owner_site / "compare.html").as_uri())
    heading = page.locator("th", has=page.get_by_role("button", name="cycles"))
    table = page.locator("table", has=heading)
    at = heading.evaluate("cell => cell.cellIndex")

    heading.get_by_role("button").click()
    up = [number_in(words) for words in table.evaluate(COLUMN, at)]
    assert "ascending" == heading.get_attribute("aria-sort")
    assert sorted(up) == up
    assert 5 < len(set(up))

    heading.get_by_role("button").click()
    down = [number_in(words) for words in table.evaluate(COLUMN, at)]
    assert "descending" == heading.get_attribute("aria-sort")
    assert sorted(up, reverse=True) == down


def test_a_long_table_filters(looks: Looks, owner_site: Path) -> None:
    """Only the rows with the words stay; an empty box brings all back."""
    page = looks()
    page.goto((owner_site / "aircraft/burdock/figures.html").as_uri())
    page.evaluate("document.querySelectorAll('details').forEach(one => one.open = true)")
    box = page.locator("#mass_budget").get_by_label("Only rows with")
    rows = page.locator("#mass_budget > table tbody tr:visible")
    before = rows.count()

    assert before > 12
    box.fill("M-24")
    assert ["M-24"] == [row.locator("td").first.inner_text() for row in rows.all()]
    box.fill("")
    assert before == rows.count()


def test_the_logbook_filters_by_kind(looks: Looks, owner_site: Path) -> None:
    """Entries of another kind go, days without an entry go with them, and the count is said."""
    page = looks()
    page.goto((owner_site / fullest(owner_site, "logbook")).as_uri())
    entries = page.locator(".entry")
    shown = page.locator(".entry:visible")
    kind = page.get_by_role("search", name="Filter the entries").get_by_label("Kind")
    value = entries.first.get_attribute("data-kind")
    assert value is not None
    assert entries.count() == shown.count()

    kind.select_option(value)
    same = page.locator(f".entry[data-kind='{value}']").count()
    assert same == shown.count()
    told = page.get_by_role("search", name="Filter the entries").get_by_role("status")
    assert f"{same} of {entries.count()} entries on this page" == told.inner_text()


def test_the_filter_opens_what_is_folded(looks: Looks, public_site: Path) -> None:
    """For others, too: folds with something that fits open, the rest goes, and comes back."""
    page = looks()
    page.goto((public_site / fullest(public_site, "logbook")).as_uri())
    folds, shown = page.locator(".month details"), page.locator(".month details[open]:visible")
    there = folds.count()
    assert (True, 0) == (there > 3, shown.count())

    form = page.get_by_role("search", name="Filter the entries")
    form.get_by_label("With the words").fill("propeller touch")
    assert 0 < shown.count() < there
    assert shown.count() == page.locator(".month details:visible").count()
    assert page.locator(".entry:visible").count() == page.locator(".entry:not([hidden])").count()
    form.get_by_label("With the words").fill("")
    assert (there, 0) == (page.locator(".month details:visible").count(), shown.count())


def test_a_link_to_a_folded_entry_opens_its_fold(looks: Looks, public_site: Path) -> None:
    """From a correction to what it corrects, and back, with scripts off."""
    page = looks(java_script_enabled=False)
    address = fullest(public_site, "logbook")
    page.goto((public_site / address).as_uri())
    name = page.locator(".month details .entry").first.get_attribute("id")
    page.goto((public_site / address).as_uri() + f"#{name}")

    assert page.locator(f"#{name}").is_visible()


def test_the_lists_of_a_story_are_read_not_filtered(looks: Looks, owner_site: Path) -> None:
    """A long list of pieces gets no box to type in where it is told; elsewhere it gets one."""
    page = looks(1280)
    story = owner_site / "aircraft/burdock/write-up.html"
    rows = "<tr><td>M3</td></tr>" * 20
    head = "<thead><tr><th>bolt</th></tr></thead>"
    table = f"<div class=scroll><table>{head}<tbody>{rows}</tbody></table>"
    html = story.read_text("utf-8")
    boxes = []
    for tale in ('<div class="tale">', "<div>"):
        with_list = html.replace("</main>", f"{tale}{table}</div></div></main>")
        page.route(
            story.as_uri(),
            lambda route, _, body=with_list: route.fulfill(body=body, content_type="text/html"),
        )
        page.goto(story.as_uri())
        boxes.append(page.locator("main p.sieve").count())
        page.unroute(story.as_uri())

    assert [0, 1] == boxes
