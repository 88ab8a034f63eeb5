"""The banner of a past day, for those who go from landmark to landmark."""

import datetime
from pathlib import Path

from buildbook.pages import hangar
from buildbook.pages.theme import Press, stylesheet, theme_folders
from buildbook.pages.work import due
from buildbook.reporting.opening import open_reports

from .conftest import Looks
from .test_access import AXE, RUN


def test_a_past_day_is_not_held_against_the_clock_of_the_reader(demo: Path) -> None:
    """What was due soon then may have been done since: no row has a day for the script."""
    day = datetime.date(2026, 1, 31)
    reports = open_reports(demo, day, day).reports
    assert reports is not None
    html = Press(reports, theme_folders(None)).compose(due.page(reports, ""))

    assert "due soon" in html
    assert "data-due" not in html
    assert "data-from" not in html


def test_the_banner_of_a_past_day_stands_in_a_landmark(
    looks: Looks, demo: Path, tmp_path: Path
) -> None:
    """axe-core finds nothing outside the landmarks, its best practices included."""
    day = datetime.date(2026, 1, 31)
    reports = open_reports(demo, day, day).reports
    assert reports is not None
    folders = theme_folders(None)
    (tmp_path / "index.html").write_text(Press(reports, folders).compose(hangar.page(reports, "")))
    (tmp_path / "style.css").write_text(stylesheet(folders))
    page = looks(390)
    page.goto((tmp_path / "index.html").as_uri())
    page.evaluate(AXE)

    assert "A past day." in page.locator("header.top").inner_text()
    assert "" == "\n".join(page.evaluate(RUN))
