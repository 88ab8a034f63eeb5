"""A page opened after the day on which a deferral ran out: as loud as a written grounding."""

import datetime
from collections.abc import Iterator
from pathlib import Path

import pytest
from playwright.sync_api import Browser, Locator, Page

from tests.pages.sites import as_read

LAST_DAY, GROUNDED, LATE = (
    datetime.date(2026, 11, 24),
    datetime.date(2026, 11, 25),
    datetime.date(2026, 11, 30),
)
"""Trefoil's deferral runs to the first of these, by the demo's records; after it it grounds."""

WORDS = "defect of F-11 at rear-upper: its deferral ran out on 24 November 2026: do not fly it"
BY_DAY = pytest.mark.parametrize(
    ("day", "lost"), [(LAST_DAY, False), (GROUNDED, True), (LATE, True)]
)


@pytest.fixture
def later(browser: Browser) -> Iterator[Page]:
    """A page of a reader whose clock stands where a test puts it, far from Greenwich."""
    context = browser.new_context(timezone_id="Pacific/Auckland")
    yield context.new_page()
    context.close()


def opened(page: Page, site: Path, address: str, day: datetime.date) -> Page:
    """The page as it is opened on that day."""
    page.clock.set_fixed_time(datetime.datetime.combine(day, datetime.time(0, 0), datetime.UTC))
    page.goto((site / address).as_uri())
    return page


def shown(found: Locator) -> list[str]:
    """The words of those that can be seen."""
    return [as_read(one.inner_text()) for one in found.all() if one.is_visible()]


@BY_DAY
def test_the_front_page_turns(
    later: Page, owner_site: Path, day: datetime.date, lost: bool
) -> None:
    """The badge in word and colour, the tally, and a red line."""
    page = opened(later, owner_site, "index.html", day)
    panel = page.locator(".panel", has_text="Trefoil")

    assert [("grounded" if lost else "due soon")] == shown(panel.locator(".told .mark"))
    assert [("bad" if lost else "warn")] == [
        word
        for one in panel.locator(".told .mark").all()
        if one.is_visible()
        for word in (one.get_attribute("class") or "").split()
        if word in ("bad", "warn")
    ]
    tally = ["2 grounded", "1 due soon"] if lost else ["1 grounded", "2 due soon"]
    assert tally == shown(page.locator(".tally li"))[:2]
    assert (f"{WORDS[0].upper()}{WORDS[1:]}." in shown(panel.locator(".since"))) is lost


@BY_DAY
def test_it_moves_to_what_stays_at_home(
    later: Page, owner_site: Path, day: datetime.date, lost: bool
) -> None:
    """Its block with its timers is gone from what can be taken."""
    page = opened(later, owner_site, "going-flying.html", day)
    taken = shown(page.locator("#take ~ .jobs > li strong > a"))
    at_home = shown(page.locator("#take ~ h3 + ul > li"))

    assert ("Trefoil" in taken) is not lost
    assert (f"Trefoil: {WORDS}" in at_home) is lost


@BY_DAY
def test_compare_counts_it_no_more_among_what_can_be_taken(
    later: Page, owner_site: Path, day: datetime.date, lost: bool
) -> None:
    """The sentence says to which day it held, and who is grounded since."""
    page = opened(later, owner_site, "compare.html", day)
    said = shown(page.locator("#aircraft ~ div > p"))

    assert ("Of those not grounded in this record:" in said) is not lost
    assert ("Of those not grounded on 20 November 2026:" in said) is lost
    assert (f"Trefoil: {WORDS}." in said) is lost


@BY_DAY
@pytest.mark.parametrize("address", ["field-form.html", "field-form-alone.html"])
def test_the_field_form_offers_no_flight_of_it(
    later: Page, owner_site: Path, address: str, day: datetime.date, lost: bool
) -> None:
    """The option says so, and choosing it says why."""
    page = opened(later, owner_site, address, day)
    page.select_option("select[name=aircraft]", "trefoil")
    option = page.locator("select[name=aircraft] option[value=trefoil]").inner_text()

    assert ("Trefoil, not to be flown" if lost else "Trefoil") == option
    assert page.locator("[data-rest]").is_hidden() is lost
    told = as_read(page.locator("[data-wrong]").inner_text())
    assert ("its deferral ran out on 24 November 2026: do not fly it." in told) is lost


@BY_DAY
def test_the_field_card_gives_no_timer(
    later: Page, owner_site: Path, day: datetime.date, lost: bool
) -> None:
    """First the red line; packs, looks and rows for flights are gone."""
    page = opened(later, owner_site, "cards/trefoil-field.html", day)
    first = shown(page.locator(".verdict-line .mark"))

    assert (f"Grounded, leave at home: {WORDS}." in first) is lost
    assert page.get_by_text("Flights of the day").is_hidden() is lost
    assert page.get_by_text("Look over").is_hidden() is lost
    assert page.locator("th", has_text="P-11").first.is_hidden() is lost


@BY_DAY
def test_the_work_list_moves_it_to_what_is_done_before_it_flies(
    later: Page, owner_site: Path, day: datetime.date, lost: bool
) -> None:
    """Nothing that grounds stands under what is only coming up."""
    page = opened(later, owner_site, "due.html", day)
    for fold in page.locator("details").all():
        fold.evaluate("fold => { fold.open = true; }")
    first = " ".join(shown(page.locator("section[aria-labelledby=first] .jobs > li")))
    soon = " ".join(shown(page.locator("section[aria-labelledby=soon] .jobs > li")))
    assert (lost, not lost) == tuple("F-11" in where for where in (first, soon))
    assert (f"{WORDS[0].upper()}{WORDS[1:]}." in first) is lost


@BY_DAY
@pytest.mark.parametrize("address", ["cards/trefoil-field.html", "aircraft/trefoil/index.html"])
def test_no_days_are_left_once_they_are_over(
    later: Page, owner_site: Path, address: str, day: datetime.date, lost: bool
) -> None:
    """They count to the record alone; the mark turns with the words beside it."""
    page = opened(later, owner_site, address, day)
    job = page.locator("main li", has_text="Rear arm hinge").first

    assert "(4 days)" not in " ".join(shown(job))
    assert [("overdue" if lost else "deferred")] == shown(job.locator(".mark"))[:1]


@BY_DAY
def test_the_bench_card_and_the_part_turn(
    later: Page, owner_site: Path, day: datetime.date, lost: bool
) -> None:
    """The card had nothing to say of it but the day."""
    page = opened(later, owner_site, "cards/trefoil-bench.html", day)
    until = "Defect of F-11 at rear-upper: grounded after 24 November 2026."
    told = f"Grounded, leave at home: {WORDS}."
    assert [told if lost else until] == shown(page.locator(".verdict-line .mark"))

    page = opened(later, owner_site, "items/F-11.html", day)
    assert ("defect open" if lost else "defect deferred") == shown(page.locator("main .mark"))[0]


def test_without_a_script_it_says_until_when_it_holds(browser: Browser, owner_site: Path) -> None:
    """Nobody is there to switch: the words themselves say what comes after the day."""
    context = browser.new_context(java_script_enabled=False)
    page = context.new_page()
    said = "deferred to 24 November 2026, grounded after it"
    for address in ("going-flying.html", "cards/trefoil-field.html"):
        page.goto((owner_site / address).as_uri())
        assert page.get_by_text(said).first.is_visible(), address
        assert page.get_by_text("its deferral ran out").first.is_hidden(), address
    for address, words in (
        ("cards/trefoil-bench.html", "grounded after 24 November 2026"),
        ("items/F-11.html", "to 24 November 2026"),
        ("due.html", "; then grounded"),
    ):
        page.goto((owner_site / address).as_uri())
        assert words in as_read(page.locator("main").text_content() or ""), address
        assert page.locator("[data-from]:visible").count() == 0, address
    page.goto((owner_site / "index.html").as_uri())
    assert page.locator(".panel", has_text="; then grounded").is_visible()
    context.close()


@pytest.mark.parametrize(
    ("address", "told"),
    [
        ("index.html", ".packs li"),
        ("going-flying.html", ".pack-list li"),
        ("due.html", "tr"),
        ("stock.html", "tr"),
    ],
)
def test_a_charge_whose_day_has_passed_is_told(
    later: Page, owner_site: Path, address: str, told: str
) -> None:
    """Two packs were left full, and to be brought to storage charge by 21 November."""
    page = opened(later, owner_site, address, LATE)
    row = page.locator(told, has_text="P-05").filter(has_text="storage charge").first

    assert "its day was 9 days ago" in as_read(row.locator(".since").first.inner_text())
    assert row.locator(".since").first.is_visible()


def test_what_stands_alone_on_its_line_begins_with_a_word(later: Page, owner_site: Path) -> None:
    """The front page has nothing before it there, so no semicolon either."""
    page = opened(later, owner_site, "index.html", LATE)
    row = page.locator(".packs li", has_text="P-05")

    assert "pack storage charge: its day was 9 days ago" == as_read(
        row.locator(".since").first.inner_text()
    )


def test_of_what_is_in_order_only_the_place_of_what_fell_due_unfolds(
    later: Page, owner_site: Path
) -> None:
    """A pack's day has passed: the tasks of five aircraft stay folded beside it."""
    page = opened(later, owner_site, "due.html", LATE)
    opened_folds = page.evaluate(
        "[...document.querySelectorAll('.fold .fold[open] > summary')].map(one => one.textContent)"
    )

    assert ["Packs and the drawer: 6 in order"] == opened_folds


def test_what_fell_due_of_a_pack_is_parted_from_its_charge(later: Page, owner_site: Path) -> None:
    """Otherwise the cell reads "fullpack storage charge"."""
    page = opened(later, owner_site, "due.html", LATE)
    cell = page.locator(".pack-lines tr", has_text="P-05").locator("td").last

    assert "full; pack storage charge: its day was 9 days ago" == as_read(cell.inner_text())
