"""A deferral that ends by its day: every list that calls a thing fit says until when."""

import re
from pathlib import Path

from hangar_on_disk import Hangar, with_log

WAITS = (
    "- {{on: 2026-06-19, id: {0}, defect: loose, item: {0}, severity: defer,"
    " deferred_until: {{on: 2026-06-25}}}}\n"
)


def test_the_stock_turns_with_the_day(tmp_path: Path) -> None:
    """A pack and a part in the drawer: both states stand in the page, the day between them."""
    hangar = Hangar(tmp_path, with_log("".join(map(WAITS.format, ("P-01", "M-05")))))
    html = hangar.source("stock.html")

    kept = ' data-till="2026-06-26">'
    gone = ' data-from="2026-06-26" hidden>'
    assert 3 == html.count(f"<span{kept}")  # two tables of packs, one shelf
    assert 3 == html.count(f"<span{gone}")
    said = hangar.page("stock.html")
    assert 2 == said.count("deferred to 25 June 2026 grounded")
    assert "defect deferred to 25 June 2026 defect open 1 54 g M-05" in said


def test_what_grounds_by_its_day_stands_twice_on_the_work_list(tmp_path: Path) -> None:
    """Under what is coming up until then, and before it flies from then on."""
    hangar = Hangar(tmp_path, with_log(WAITS.format("M-01")))
    html = hangar.source("due.html")
    first = html[html.index('aria-labelledby="lapsed"') : html.index('aria-labelledby="soon"')]
    soon = html[html.index('aria-labelledby="soon"') :]

    assert re.match(r'[^>]* data-from="2026-06-26" hidden>', first)
    assert 1 == first.count("<li data-due")
    (job,) = re.findall(r"<li data-due[^>]*>", soon)
    assert ' data-till="2026-06-26"' in job
    assert "do not fly it" in first


def test_the_words_of_a_later_day_stand_in_the_page(tmp_path: Path) -> None:
    """Composed in no script: beside the day of the record, a number for the sign."""
    html = Hangar(tmp_path, with_log("")).source("index.html")
    script = (Path(__file__).parents[2] / "themes/fieldbook/book.js").read_text("utf-8")

    for words in ("its day was # ago", "its day is today", "; today is # later."):
        assert words in html
    for words in ("its day", "today is", '" ago'):
        assert words not in script
