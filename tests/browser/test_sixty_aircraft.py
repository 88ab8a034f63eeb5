"""Pages of a hangar of sixty aircraft: short for all that, and danger is never folded away."""

import datetime
from pathlib import Path

import pytest

from buildbook.pages.page import Page
from buildbook.pages.site import SITE
from buildbook.pages.theme import Press, more_style, stylesheet, theme_folders
from buildbook.reporting.opening import open_reports
from tests.benchmarks.big_hangar import write

from .conftest import Looks

HEIGHT = 844
MOST_SCREENS = {"hangar": 4, "due": 4, "going-flying": 4, "compare": 5}
DAY = datetime.date(2026, 11, 20)
AIRCRAFT = 60


def site_of(folder: Path, flights: int) -> Path:
    """The pages of all aircraft together, of the hangar of the benchmarks."""
    write(folder / "hangar", AIRCRAFT, flights)
    reports = open_reports(folder / "hangar", None, DAY).reports
    assert reports is not None
    press = Press(reports, theme_folders(None))
    (folder / "style.css").write_text(stylesheet(theme_folders(None)), "utf-8")
    (folder / "inner.css").write_text(more_style(theme_folders(None), "inner.css"), "utf-8")
    for kind in MOST_SCREENS:
        page = SITE[kind].make(reports, "")
        assert isinstance(page, Page)
        (folder / page.address).write_text(press.compose(page), "utf-8")
    return folder


@pytest.fixture(scope="module")
def flown(tmp_path_factory: pytest.TempPathFactory) -> Path:
    """All are flown: eight set-up checks are open on each, none of which grounds it."""
    return site_of(tmp_path_factory.mktemp("flown"), 100)


@pytest.fixture(scope="module")
def grounded(tmp_path_factory: pytest.TempPathFactory) -> Path:
    """All were laid up for a year and a half: what was to be tested again grounds each."""
    return site_of(tmp_path_factory.mktemp("grounded"), 10)


@pytest.mark.parametrize("kind", MOST_SCREENS)
def test_sixty_aircraft_are_a_few_screens_of_a_phone(looks: Looks, flown: Path, kind: str) -> None:
    """What is not urgent is folded by what it is, with how much of it there is."""
    page = looks(390, HEIGHT, java_script_enabled=False)
    page.goto((flown / ("index.html" if kind == "hangar" else f"{kind}.html")).as_uri())

    height = page.evaluate("document.documentElement.scrollHeight")
    assert MOST_SCREENS[kind] >= height / HEIGHT


def test_what_is_folded_is_counted(looks: Looks, flown: Path) -> None:
    """Aircraft by state, jobs by what is to be done."""
    page = looks(390, HEIGHT, java_script_enabled=False)
    said = {}
    for name in ("index", "due", "going-flying"):
        page.goto((flown / f"{name}.html").as_uri())
        said[name] = [" ".join(one.split()) for one in page.locator("summary").all_inner_texts()]

    assert ["60 due soon"] == said["index"]
    assert "never done Receiver neutral: 60 jobs" in said["due"]
    assert "55 more packs, nothing open" in said["due"]
    assert ["60 due soon", "60 packs, nothing open"] == said["going-flying"][:2]


@pytest.mark.parametrize("name", ["index", "due", "going-flying"])
def test_grounded_aircraft_are_never_folded_away(looks: Looks, grounded: Path, name: str) -> None:
    """Sixty grounded ones are sixty lines that a reader sees."""
    page = looks(390, HEIGHT, java_script_enabled=False)
    page.goto((grounded / f"{name}.html").as_uri())
    seen = page.evaluate(
        "() => new Set([...document.querySelectorAll('main a')].filter(one => "
        "one.checkVisibility()).map(one => one.innerText)"
        ".filter(name => /^Number \\d\\d$/.test(name))).size"
    )

    assert seen == AIRCRAFT
