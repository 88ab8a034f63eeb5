"""The hangar that the tests of this room start from says nothing by itself."""

from pathlib import Path

from hangar_on_disk import QUIET, Hangar


def test_nothing_is_open(tmp_path: Path) -> None:
    """Without a danger in it, nothing is said: status 0, no reason, no warning."""
    hangar = Hangar(tmp_path, QUIET)

    assert hangar.check == (
        "Read 1 aircraft, 26 items, 8 entries: no problems.\n"
        "Nothing is open or due in this record.\n"
    )
    assert (0, "Record to 20 June 2026 Sedge nothing open") == hangar.due
    assert ("nothing open", []) == (hangar.state(), hangar.reasons())
    assert ("nothing open", []) == hangar.pack("P-01")
    assert "Sedge nothing open" in hangar.page("index.html")


def test_a_page_of_these_hangars_is_what_render_writes(tmp_path: Path) -> None:
    """The tests of this room ask for a few pages each, and only those are made."""
    hangar, site = Hangar(tmp_path, QUIET), tmp_path / "site"
    assert 0 == hangar.run("render", str(hangar.folder), "--into", str(site))[0]
    pages = sorted(path.relative_to(site).as_posix() for path in site.rglob("*.html"))

    assert {"index.html", "due.html", "aircraft/sedge/index.html", "items/P-01.html"} <= {*pages}
    assert {page: (site / page).read_text("utf-8") for page in pages} == {
        page: hangar.source(page) for page in pages
    }
