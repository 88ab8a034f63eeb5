"""The field form in a real browser: kept without network, taken home, brought in once."""

import datetime
import json
import re
import shutil
from collections.abc import Iterator
from pathlib import Path

import pytest
from playwright.sync_api import Browser, BrowserContext, Page, expect

from buildbook.commands.main import main
from buildbook.records.ledger import Ledger
from buildbook.records.reading.read import read_hangar
from buildbook.report.state import Hangar
from buildbook.reporting.opening import open_reports

from . import probes
from .conftest import SUB_PATH, Looks
from .kinds import there, visit
from .test_access import AXE, RUN

DAY = datetime.date(2026, 11, 20)
AT = "2026-11-20T16:00:00"
KEY = "field form of Gorse End loft"
SAID = [
    "20 November 2026, 15:10, Thistledown: flight 7:05, pack P-31, used 1210 mAh, motor run 2:10, "
    "preflight done, by oona, note gusts",
    "20 November 2026, Thistledown: flight 6:50, pack P-32, used 1180 mAh, landing hard, by oona",
    "20 November 2026: charge P-03, put in 1200 mAh, to full, resting 4.18 V, 4.19 V, 4.18 V, "
    "by oona",
    "20 November 2026, Burdock: defect mode switch sticks, station rear-left, severity defer, "
    "deferred until on: 2026-12-20, by oona",
    "20 November 2026, Burdock: check sensors-answer, result pass, readings roll: 0, pitch: 1, "
    "by oona",
]


@pytest.fixture
def context(browser: Browser) -> Iterator[BrowserContext]:
    """A phone with a storage of its own, at four in the afternoon of the demo's last day."""
    context = browser.new_context(viewport={"width": 390, "height": 844}, accept_downloads=True)
    context.clock.set_fixed_time(AT)
    yield context
    context.close()


@pytest.fixture
def alone(context: BrowserContext, owner_site: Path, tmp_path: Path) -> Page:
    """The form as one file in a folder of its own, without network."""
    file = shutil.copy(owner_site / "field-form-alone.html", tmp_path / "form.html")
    context.set_offline(True)
    page = context.new_page()
    visit(page, Path(file))
    return page


def choose(page: Page, **values: str) -> None:
    """Fill fields by their names."""
    for name, value in values.items():
        control = page.locator(f"form [name={name}]")
        if control.evaluate("control => control.localName") == "select":
            control.select_option(value)
        else:
            control.fill(value)


def keep(page: Page, kind: str, **values: str) -> None:
    """Write one entry down."""
    page.get_by_role("button", name=kind, exact=True).click()
    choose(page, **values)
    page.get_by_role("button", name="Keep it").click()


def a_day_out(page: Page) -> None:
    """Two flights, a charge, a defect and a check."""
    choose(page, by="oona")
    page.get_by_label("Went through the list before it").check()
    keep(page, "Flight", aircraft="thistledown", flown="P-31", minutes="7", seconds="5",
         motor_run="2:10", used="1210", time="15:10", note="gusts")  # fmt: skip
    keep(page, "Flight", flown="P-32", minutes="6", seconds="50", used="1180", landing="hard")
    keep(page, "Charge", charge="P-03", put_in="1200", resting="4,18 4.19 4.18")
    keep(page, "Defect", of="aburdock", defect="mode switch sticks", station="rear-left",
         severity="defer",
         until="2026-12-20")  # fmt: skip
    keep(page, "Check", aircraft="burdock", check="sensors-answer", outcome="pass",
         readings="roll = 0, pitch=1")  # fmt: skip


@pytest.mark.parametrize(
    ("kind", "button", "time"),
    [("Flight", "It has just landed", "15:52"), ("Charge", "Just now", "16:00")],
)
def test_one_touch_writes_the_time_down(alone: Page, kind: str, button: str, time: str) -> None:
    """Of a flight that of its take-off: 7 min 30 s before 16:00; it wants to know how long."""
    alone.get_by_role("button", name=kind, exact=True).click()
    alone.get_by_role("button", name=button).click()
    if kind == "Flight":
        assert "" == alone.locator("[name=time]").input_value()
        choose(alone, minutes="7", seconds="30")
        alone.get_by_role("button", name=button).click()

    assert time == alone.locator("[name=time]").input_value()


def again(page: Page) -> None:
    """Load the form again."""
    page.reload()
    there(page)


def said(page: Page) -> list[str]:
    """The entries that are kept, as the page lists them."""
    return page.locator("ul.kept > li p:first-child").all_inner_texts()


def state(hangar: Path) -> Hangar:
    """The hangar as it is read."""
    reports = open_reports(hangar, DAY, DAY).reports
    assert reports is not None
    return reports.hangar


def ledger(hangar: Path) -> Ledger:
    """All that is written in it."""
    reading = read_hangar(hangar, None)
    assert () == reading.problems
    assert reading.ledger is not None
    return reading.ledger


def totals(hangar: Path) -> tuple[int, int, float]:
    """Flights and seconds of Thistledown, and the charges of P-03."""
    found = state(hangar)
    counters = found.aircraft["thistledown"].counters
    return (counters.flights, round(counters.duration_s), len(found.items["P-03"].charges))


def test_a_day_out_is_kept_and_brought_in_once(
    alone: Page, demo: Path, tmp_path: Path, private_cache: Path, monkeypatch: pytest.MonkeyPatch,
    capsys: pytest.CaptureFixture[str],
) -> None:  # fmt: skip
    """Without network: written, kept over a reload, saved as a file; at home it adds up."""
    assert private_cache
    monkeypatch.setenv("SOURCE_DATE_EPOCH", "1795190400")  # 20 November 2026
    a_day_out(alone)
    again(alone)
    assert SAID == said(alone)

    with alone.expect_download() as coming:
        alone.get_by_role("button", name="Save as a file").click()
    file = tmp_path / coming.value.suggested_filename
    coming.value.save_as(file)
    hangar = Path(shutil.copytree(demo, tmp_path / "hangar"))
    flights, seconds, charges = totals(hangar)
    command = ["enter", str(hangar), "--from", str(file), "--sure"]

    assert "field-2026-11-20.json" == file.name
    assert 0 == main(command)
    assert "Wrote 5 entries." == capsys.readouterr().out.splitlines()[-1]
    assert (flights + 2, seconds + 425 + 410, charges + 1) == totals(hangar)
    burdock = state(hangar).aircraft["burdock"]
    assert ("mode switch sticks", "rear-left", "defer") == (
        (last := burdock.defects[-1].defect).words, last.station, last.severity
    )  # fmt: skip
    written = ledger(hangar).entries
    assert {"roll": "0", "pitch": "1"} in [getattr(entry, "readings", None) for entry in written]

    assert 0 == main(command)
    assert "Wrote 0 entries, 5 there already.\n" == capsys.readouterr().out
    assert len(written) == len(ledger(hangar).entries)


GUIDE = (Path(__file__).parents[2] / "docs/field-form.md").read_text("utf-8")


def test_the_guide_shows_what_the_form_gives_out(
    alone: Page, demo: Path, tmp_path: Path, private_cache: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    """Its entries, written down here and saved, are the same file; at home they add up the same."""
    assert private_cache
    monkeypatch.setenv("SOURCE_DATE_EPOCH", "1795190400")  # 20 November 2026
    (shown,) = re.findall(r"```json\n(.*?)```", GUIDE, re.S)
    keep(alone, "Flight", aircraft="burdock", flown="P-02", minutes="6", seconds="20",
         used="1310", time="15:10")  # fmt: skip
    keep(alone, "Charge", charge="P-02", put_in="1370", time="14:20")
    keep(alone, "Defect", of="aburdock", defect="mode switch sticks", severity="note")
    with alone.expect_download() as coming:
        alone.get_by_role("button", name="Save as a file").click()
    exported = Path(coming.value.path()).read_text("utf-8")

    told = []
    for number, text in enumerate((shown, exported)):
        file = tmp_path / f"{number}.json"
        file.write_text(text, "utf-8")
        hangar = Path(shutil.copytree(demo, tmp_path / f"hangar {number}"))
        assert 0 == main(["enter", str(hangar), "--from", str(file)])
        now = state(hangar)
        counters = now.aircraft["burdock"].counters
        told.append((
            [[(key, value) for key, value in each.items() if key != "id"]
             for each in json.loads(text)["entries"]],
            json.loads(text)["hangar"],
            {len(each["id"]) for each in json.loads(text)["entries"]},
            (counters.flights, round(counters.duration_s), len(now.items["P-02"].charges)),
            now.aircraft["burdock"].defects[-1].defect.words,
        ))  # fmt: skip

    assert told[0] == told[1]
    before = state(demo)
    flights = before.aircraft["burdock"].counters.flights
    assert (flights + 1, len(before.items["P-02"].charges) + 1) == (told[1][3][0], told[1][3][2])


def test_what_was_exported_stays_until_it_is_cleared(alone: Page) -> None:
    """Each says when; what came later is not cleared with it; one is removed by itself."""
    a_day_out(alone)
    clear = alone.get_by_role("button", name="Clear what was exported")
    assert clear.is_disabled()
    with alone.expect_download():
        alone.get_by_role("button", name="Save as a file").click()
    keep(alone, "Flight", aircraft="thistledown", flown="P-33", minutes="5")
    again(alone)

    assert 5 == alone.get_by_text("exported on 20 November 2026", exact=True).count()
    alone.once("dialog", lambda asked: asked.dismiss())
    clear.click()
    assert 6 == len(said(alone))
    alone.once("dialog", lambda asked: asked.accept())
    clear.click()
    assert ["20 November 2026, Thistledown: flight 5:00, pack P-33"] == [
        text.removesuffix(", by oona") for text in said(alone)
    ]
    asked: list[str] = []
    alone.once("dialog", lambda one: (asked.append(one.message), one.accept()))
    alone.get_by_role("button", name="Remove").click()
    assert ["Remove it? It was not exported."] == asked
    assert [] == said(alone)
    assert alone.get_by_text("Nothing yet.").is_visible()


def test_the_text_is_what_the_file_holds(alone: Page, context: BrowserContext) -> None:
    """Copied by the button, or by hand from the box."""
    context.grant_permissions(["clipboard-read", "clipboard-write"])
    keep(alone, "Charge", charge="P-05", put_in="900")
    alone.get_by_role("button", name="Copy as text").click()
    expect(alone.locator("[data-taken]")).to_have_text("Copied.")
    alone.get_by_text("The entries as text").click()
    shown = alone.get_by_label("To copy").input_value()

    assert shown == alone.evaluate("navigator.clipboard.readText()").replace("\r\n", "\n")
    (entry,) = json.loads(shown)["entries"]
    name = entry.pop("id")
    assert {"charge": "P-05", "put_in": "900 mAh", "to": "full", "on": "2026-11-20"} == entry
    assert (12, "f-") == (len(name), name[:2])
    assert 1 == alone.get_by_text("exported on 20 November 2026").count()


@pytest.mark.parametrize(("allowed", "name"), [("json", "json"), ("plain", "txt")])
def test_the_share_sheet_gets_a_file_that_it_lets_through(
    context: BrowserContext, owner_site: Path, allowed: str, name: str
) -> None:
    """A stand-in for the sheet of a phone; where it stops .json, the text goes as .txt."""
    context.add_init_script(
        f"navigator.canShare = what => what.files[0].type.endsWith({allowed!r});"
        "navigator.share = async what => { window.shared = what.files[0]; };"
    )
    page = context.new_page()
    visit(page, owner_site / "field-form-alone.html")
    keep(page, "Charge", charge="P-05")
    page.get_by_role("button", name="Share").click()
    expect(page.locator("[data-taken]")).to_have_text(f"Shared as field-2026-11-20.{name}.")

    text = page.evaluate("window.shared.text()")
    assert ["P-05"] == [entry["charge"] for entry in json.loads(text)["entries"]]
    assert 1 == page.get_by_text("exported on 20 November 2026").count()


def test_no_share_button_where_there_is_no_sheet(alone: Page) -> None:
    """A button that does nothing stands nowhere."""
    assert not alone.locator("[data-do=share]").is_visible()


def test_a_grounded_aircraft_offers_no_flight(alone: Page) -> None:
    """It says what is wrong; its defects and checks may still be written down."""
    choose(alone, aircraft="hogweed")

    assert [
        "Hogweed is not to be flown, by the record:",
        "Defect of F-31 at rear-left: grounds, open for 48 days, found on 3 October 2026.",
        "Start spread at rear-left: failed on 3 October 2026: rear-left 8.7 %.",
        "Full inspection: failed on 3 October 2026: Boom clamp of rear-left cracked under the cable"
        " tie. Rear-left starts at 8.7 %.",
        "No flight of it is offered here.",
    ] == alone.locator("[data-wrong] p").all_inner_texts()
    assert not alone.get_by_label("Flown, minutes").is_visible()
    assert not alone.get_by_role("button", name="Keep it").is_visible()
    keep(alone, "Check", check="failsafe", outcome="pass")
    assert ["20 November 2026, Hogweed: check failsafe, result pass"] == said(alone)


def test_packs_of_the_aircraft_stand_first(alone: Page) -> None:
    """Those flown with it, then others that fit its cells; to charge, those of what flies."""
    groups = (
        "select => [...select.querySelectorAll('optgroup')].map(group => [group.label,"
        " [...group.children].map(option => option.value).join(' ')])"
    )
    choose(alone, aircraft="trefoil")

    assert [
        ["Flown on Trefoil", "P-11 P-12"],
        ["Others", "P-01 P-02 P-03 P-05 P-06 P-31 P-32 P-33 P-21 P-22"],
    ] == alone.locator("[name=flown]").evaluate(groups)
    assert [
        ["Packs of what flies", "P-01 P-02 P-03 P-05 P-06 P-11 P-12 P-31 P-32 P-33"],
        ["Other packs", "P-21 P-22"],
    ] == alone.locator("[name=charge]").evaluate(groups)


def test_a_station_is_not_carried_over(alone: Page) -> None:
    """The next check is at all stations again."""
    choose(alone, aircraft="burdock")
    keep(alone, "Check", check="start-spread", stations="rear-left", outcome="pass")
    keep(alone, "Check", check="start-spread", outcome="pass")

    assert [
        "20 November 2026, Burdock: check start-spread, result pass, stations rear-left",
        "20 November 2026, Burdock: check start-spread, result pass",
    ] == said(alone)


def test_the_caution_stands_before_a_check_without_propellers(alone: Page) -> None:
    """Nothing of it where they stay on; a failed check wants what was found."""
    alone.get_by_role("button", name="Check", exact=True).click()
    caution = alone.get_by_role("note", name="Caution: Props off")
    choose(alone, aircraft="burdock", check="failsafe", outcome="fail")
    assert caution.is_visible()
    alone.get_by_role("button", name="Keep it").click()
    assert [] == said(alone)
    alone.get_by_label("What was found").fill("motor ran on")
    alone.get_by_role("button", name="Keep it").click()

    assert ["20 November 2026, Burdock: check failsafe, result fail, note motor ran on"] == said(
        alone
    )
    choose(alone, check="propeller-fit")
    assert not caution.is_visible()


def test_a_browser_that_keeps_nothing_says_so(context: BrowserContext, owner_site: Path) -> None:
    """The entry stands on the page and can be taken home while it is open."""
    context.add_init_script(
        "Object.defineProperty(window, 'localStorage', {get() { throw new Error('denied'); }})"
    )
    page = context.new_page()
    visit(page, owner_site / "field-form-alone.html")
    keep(page, "Charge", charge="P-05")

    assert (
        "This browser keeps nothing for this page: entries are gone when it is closed or loaded "
        "again. Take them home before." == page.get_by_role("alert").inner_text()
    )
    assert 1 == len(said(page))
    assert page.locator("[data-told]").inner_text().startswith("Noted until the page is closed: ")


@pytest.mark.parametrize("broken", ["{", '{"a": 1}', "[1]", '[{"entry": {}}]'])
def test_what_cannot_be_read_is_laid_aside(alone: Page, broken: str) -> None:
    """Nothing is lost with it, and the form goes on."""
    alone.evaluate("([key, text]) => localStorage.setItem(key, text)", [KEY, broken])
    again(alone)

    assert alone.get_by_role("alert").inner_text().startswith("What was kept here could not be")
    keep(alone, "Charge", charge="P-05")
    assert 1 == len(said(alone))
    assert broken == alone.evaluate("key => localStorage.getItem(key)", f"{KEY}, unread")


def test_a_renamed_hangar_loses_nothing(alone: Page) -> None:
    """What was kept under its earlier name is offered, and taken over only once."""
    keep(alone, "Charge", charge="P-05")
    rows = alone.evaluate("key => localStorage.getItem(key)", KEY)
    alone.evaluate(
        "([key, text]) => { localStorage.clear(); localStorage.setItem(key, text); }",
        ["field form of Gorse End", rows],
    )
    again(alone)

    offer = alone.locator("[data-former]")
    assert [] == said(alone)
    alone.get_by_role("button", name="Take over what is kept for “Gorse End”").click()

    assert ["20 November 2026: charge P-05, to full"] == said(alone)
    again(alone)
    assert "" == offer.inner_text()
    assert ["20 November 2026: charge P-05, to full"] == said(alone)


HELD_BACK = """
  window.touched = 0;
  const kept = localStorage;
  Object.defineProperty(window, "localStorage", {get() { window.touched += 1; return kept; }});
  indexedDB.databases = () => new Promise(answer => { window.answer = () => answer([]); });
"""


def test_the_storage_waits_for_the_browser(context: BrowserContext, owner_site: Path) -> None:
    """Opened before the browser has noted the page, it may read as empty and lose what is kept."""
    context.add_init_script(HELD_BACK)
    page = context.new_page()
    page.goto((owner_site / "field-form-alone.html").as_uri())

    assert [0, 0] == page.evaluate("[touched, document.querySelectorAll('ul.kept').length]")
    page.evaluate("answer()")
    there(page)
    assert 0 < page.evaluate("touched")


def test_a_browser_that_never_answers_has_the_form_too(
    context: BrowserContext, owner_site: Path
) -> None:
    """After ten seconds it is there, once."""
    context.add_init_script(
        HELD_BACK
        + "window.setTimeout = (act, after) => { if (after === 10000) window.late = act; }"
    )
    page = context.new_page()
    page.goto((owner_site / "field-form-alone.html").as_uri())
    assert 0 == page.locator("ul.kept").count()
    page.evaluate("late()")
    assert 1 == page.locator("ul.kept").count()
    page.evaluate("answer()")
    keep(page, "Charge", charge="P-05")

    assert 1 == page.locator("ul.kept").count()


def test_two_tabs_lose_nothing(context: BrowserContext, owner_site: Path) -> None:
    """Each reads again before it writes, and shows what the other wrote."""
    one, other = context.new_page(), context.new_page()
    for page in (one, other):
        visit(page, owner_site / "field-form-alone.html")
    keep(one, "Charge", charge="P-05")
    keep(other, "Charge", charge="P-06")

    expect(one.locator("ul.kept > li")).to_have_count(2)
    expect(other.locator("ul.kept > li")).to_have_count(2)


def test_the_browser_keeps_the_form_of_a_server(context: BrowserContext, served: str) -> None:
    """Only where it is asked to; then the page of the site opens without network, entries too."""
    page = context.new_page()
    page.goto(f"{served}field-form.html")
    there(page)
    keep(page, "Charge", charge="P-05")
    page.get_by_text("How to have this form where there is no network").click()
    page.get_by_role("button", name="Keep the form in this browser").click()
    expect(
        page.get_by_text("Kept: from now on it opens without network too, at this address.")
    ).to_be_visible()
    context.set_offline(True)
    again(page)

    assert SUB_PATH in page.url
    assert ["20 November 2026: charge P-05, to full"] == said(page)
    assert page.evaluate(
        "getComputedStyle(document.querySelector('.kinds')).display === 'grid'"
    )  # its styles are kept too
    assert 44 <= page.evaluate(LEAST_TARGET)[0]


LEAST_TARGET = """() => [...document.querySelectorAll('#field :is(button, select, summary, '
  + 'input:not([type=checkbox]), textarea, .tick label)')].filter(one => one.checkVisibility())
  .map(one => [one.getBoundingClientRect().height, one.outerHTML.slice(0, 80)])
  .reduce((least, one) => one[0] < least[0] ? one : least)"""


@pytest.mark.parametrize("kind", ["Flight", "Charge", "Defect", "Check"])
@pytest.mark.parametrize("width", [320, 390])
def test_every_part_fits_a_phone(looks: Looks, owner_site: Path, kind: str, width: int) -> None:
    """Four screens at most, no target below 44 px, nothing sideways, axe finds nothing; dark."""
    page = looks(width, 844, color_scheme="dark")
    for address in ("field-form.html", "field-form-alone.html"):
        visit(page, owner_site / address)
        page.get_by_role("button", name=kind, exact=True).click()
        page.evaluate(AXE)

        assert 4 * 844 >= page.evaluate("document.documentElement.scrollHeight")
        assert 44 <= page.evaluate(LEAST_TARGET)[0], page.evaluate(LEAST_TARGET)
        assert [] == page.evaluate(probes.SIDEWAYS)
        assert [] == page.evaluate(probes.OVERLAPS)
        assert "" == "\n".join(page.evaluate(RUN))


def test_without_scripts_it_says_that_it_needs_them(looks: Looks, owner_site: Path) -> None:
    """No field and no button stands there for nothing."""
    page = looks(390, java_script_enabled=False)
    for address in ("field-form.html", "field-form-alone.html"):
        page.goto((owner_site / address).as_uri())

        assert page.get_by_text("The form needs scripts").is_visible()
        assert 0 == page.locator("button, input, select, textarea").count()


def test_the_scripts_ask_nobody(owner_site: Path) -> None:
    """No word that could send something; the worker fetches files of its own folder alone."""
    text = (owner_site / "field.js").read_text("utf-8")

    assert len(text.encode()) < 17_000
    for word in ("fetch", "XMLHttp", "sendBeacon", "import(", "eval", "innerHTML", "cookie"):
        assert word not in text
    assert 'var files=["field-form.html"' in (owner_site / "field-worker.js").read_text(
        "utf-8"
    ).replace("var files = ", "var files=")
    page = (owner_site / "field-form-alone.html").read_text("utf-8")
    assert "content=\"default-src 'none'; style-src 'unsafe-inline'" in page
