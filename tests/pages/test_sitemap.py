"""The map of the site for search engines, after the protocol of sitemaps.org, 0.9."""

import xml.etree.ElementTree as ET

from buildbook.pages.site import Work, make, plan

FILES = {"hangar.yaml": "hangar: Sedge bank\nas_of: 2026-06-30\naddress: https://h.example/a&b/\n"}
LOC = "{http://www.sitemaps.org/schemas/sitemap/0.9}url/{http://www.sitemaps.org/schemas/sitemap/0.9}loc"


def test_every_page_is_in_the_map_by_its_whole_address(open_changed):
    """Pages only: no feeds, no data, not the page for what is not there; & stands escaped."""
    reports = open_changed(FILES)

    found = ET.fromstring(make(reports, Work("sitemap", "")).text.encode())
    listed = [loc.text for loc in found.findall(LOC)]

    pages = [make(reports, work).address for work in plan(reports) if work.kind != "sitemap"]
    assert [
        f"https://h.example/a&b/{page}"
        for page in pages
        if page.endswith(".html") and page != "404.html"
    ] == listed
    assert "https://h.example/a&b/aircraft/sedge/index.html" in listed


def test_a_site_without_an_address_has_no_map(owner):
    """Relative addresses mean nothing in one."""
    assert "sitemap" not in {work.kind for work in plan(owner)}
