"""Any day can be looked at: from before the first entry to ten years after the last."""

import datetime
import itertools
import random
from collections.abc import Iterator
from pathlib import Path

import pytest

from tests.pages.sites import as_read

FIRST, LAST = datetime.date(2025, 4, 19), datetime.date(2026, 12, 15)  # entries of the demo
AIRCRAFT = ("burdock", "hogweed", "thistledown", "trefoil", "clover")


def some_days(count: int) -> list[datetime.date]:
    """Days of all that time, the same on each run, with both ends."""
    chance = random.Random("any day")
    span = (LAST - FIRST).days + 3653
    days = {FIRST + datetime.timedelta(days=chance.randint(0, span)) for _ in range(count)}
    return sorted(days | {FIRST, LAST, LAST + datetime.timedelta(days=3653)})


@pytest.mark.parametrize("day", some_days(12), ids=str)
def test_every_command_works_on_every_day(run, demo: Path, day: datetime.date) -> None:
    """Check, due with and without a horizon, figures of all aircraft."""
    words = ("--as-of", day)
    assert 0 == run("check", demo, *words).status
    for more in ((), ("--within", "400d"), ("--json",), ("--planned", "12min")):
        ran = run("due", demo, *words, *more)
        assert (True, "") == (ran.status in (0, 3), ran.err)
    slug = AIRCRAFT[day.toordinal() % len(AIRCRAFT)]
    assert 0 == run("figures", slug, demo, *words).status


def far_sites() -> Iterator[object]:
    """Each day for one audience, and for the other where somebody runs it by hand."""
    days = {"1950-01-01": "owner", "2025-04-19": "owner"}
    days |= {"2036-12-15": "public", "2199-12-31": "public"}
    for day, audience in itertools.product(days, ("owner", "public")):
        yield pytest.param(day, audience, marks=[pytest.mark.slow] * (audience != days[day]))


@pytest.mark.parametrize(("day", "audience"), list(far_sites()))
def test_a_site_of_a_far_day(run, demo: Path, tmp_path: Path, day: str, audience: str) -> None:
    """Long before the first entry and long after the last."""
    ran = run("render", demo, "--into", tmp_path / "site", "--for", audience, "--as-of", day)
    assert 0 == ran.status
    assert (tmp_path / "site/index.html").exists()


@pytest.mark.parametrize("day", ["0001-01-01", "9999-12-31", "1949-12-31", "2200-01-01"])
def test_a_day_out_of_all_times_is_refused(run, demo: Path, day: str) -> None:
    """One sentence and exit status 2."""
    for words in (("check", demo), ("due", demo), ("figures", "burdock", demo)):
        ran = run(*words, "--as-of", day)
        reason = f"--as-of: '{day}' is not in the years 1950 to 2199"
        assert (2, "") == (ran.status, ran.out)
        assert ran.err.startswith(f"buildbook {words[0]}: {reason}; write ")


def test_a_long_silence_is_told(run, loft: Path, tmp_path: Path) -> None:
    """A year and more after the last entry: how long nothing was written, on screen and page."""
    assert "Nothing was written" not in run("due", loft, "--as-of", "2027-02-08").out
    out = run("due", loft, "--as-of", "2031-02-08").out
    assert out.splitlines()[:3] == [
        "Record to 8 February 2031",
        "",
        "Nothing was written after 8 February 2026, 1826 days earlier.",
    ]
    run("render", loft, "--into", tmp_path / "site", "--as-of", "2031-02-08")
    html = as_read((tmp_path / "site/index.html").read_text("utf-8"))
    assert "Nothing was written after <time" in html
    assert ", 1826 days earlier; whatever happened since is not in this record." in html
    words = ("--for", "public", "--as-of", "2031-02-08")
    run("render", loft, "--into", tmp_path / "public", *words)
    html = (tmp_path / "public/index.html").read_text("utf-8")
    assert "Nothing was written" not in html
