"""Charts drawn before: taken from the user's cache folder while what they show is the same."""

from pathlib import Path

import pytest
from markupsafe import Markup

from buildbook.drawings.charts import charts as drawing
from buildbook.pages.aircraft import charts
from buildbook.pages.aircraft.charts import chart_of_hangar, charts_of_pack
from buildbook.report.reports import Reports


@pytest.fixture
def drawings(monkeypatch: pytest.MonkeyPatch, private_cache: Path) -> list[str]:
    """The titles of what was drawn, in a cache folder that only this test sees."""
    assert not private_cache.exists()
    seen: list[str] = []
    draw = drawing._chart

    def counting(paint: object, title: str, *more: str) -> Markup:
        seen.append(title)
        return draw(paint, title, *more)  # type: ignore[arg-type]

    monkeypatch.setattr(drawing, "_chart", counting)
    return seen


def test_what_was_drawn_is_not_drawn_again(demo_reports: Reports, drawings: list[str]) -> None:
    """The same markup, and one of each series."""
    first = [*charts_of_pack(demo_reports, "P-01"), chart_of_hangar(demo_reports)]
    assert len(drawings) == len(first) > 2
    drawings.clear()

    assert first == [*charts_of_pack(demo_reports, "P-01"), chart_of_hangar(demo_reports)]
    assert [] == drawings


def test_what_shows_something_else_is_drawn(demo_reports: Reports, drawings: list[str]) -> None:
    """Another pack, another chart."""
    one, other = (next(iter(charts_of_pack(demo_reports, tag))).drawing for tag in ("P-01", "P-02"))

    assert one != other
    assert 2 == len(drawings)


def test_another_program_or_library_draws_anew(
    demo_reports: Reports, drawings: list[str], monkeypatch: pytest.MonkeyPatch
) -> None:
    """What it draws may look otherwise."""
    first = chart_of_hangar(demo_reports)
    monkeypatch.setattr(charts, "_what_draws", lambda: b"another")

    assert first == chart_of_hangar(demo_reports)
    assert 2 == len(drawings)


def test_a_drawing_that_others_may_write_is_not_shown(
    demo_reports: Reports, drawings: list[str], private_cache: Path
) -> None:
    """It is markup, and goes onto the page as it is."""
    first = chart_of_hangar(demo_reports)
    (kept,) = (private_cache / "buildbook").glob("*.chart")
    kept.chmod(0o666)

    assert first == chart_of_hangar(demo_reports)
    assert 2 == len(drawings)
