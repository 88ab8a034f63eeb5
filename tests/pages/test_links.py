"""All pages of the demo: every link leads somewhere, nothing is fetched from afar."""

import json
import re
from collections import Counter
from pathlib import Path
from urllib.parse import urlsplit

import pytest
from sites import Site

PAGE_BYTES = 150_000
HOME_PAGE_BYTES = 60_000
VERDICTS = re.compile(
    r"\b(airworthy|airworthiness|certified|compliant|safe to fly|legal to fly)\b", re.IGNORECASE
)


@pytest.fixture(scope="module", params=["owner", "public"])
def site(request: pytest.FixtureRequest) -> Site:
    """The demo for each audience."""
    folder: Path = request.getfixturevalue(f"{request.param}_site")
    return Site(folder)


def test_every_link_and_fragment_resolves(site: Site) -> None:
    """Files are there and places on pages too; all links are relative."""
    faults = [
        f"{link.page}: {link.target}: {lack}"
        for paper in site.papers.values()
        for link in paper.links
        if (lack := site.missing(link))
    ]

    assert 25 < len(site.papers)
    assert [] == faults


def test_finds_lead_to_places(site: Site) -> None:
    """Each row of the search index leads to a file and a place in it."""
    if "find.html" not in site.papers:
        pytest.skip("only an owner searches")
    text = (site.folder / "search.js").read_text("utf-8")
    rows = json.loads(text[text.index("[") : text.rindex("]") + 1])
    paper = site.papers["find.html"]
    link = type(paper.links[0])
    faults = [row[2] for row in rows if site.missing(link("find.html", row[2], False))]

    assert 100 < len(rows)
    assert [] == faults


def test_nothing_is_asked_from_afar(site: Site) -> None:
    """Pictures, scripts, styles and icons are the site's own or within the page."""
    afar = [
        f"{link.page}: {link.target}"
        for paper in site.papers.values()
        for link in paper.links
        if link.asked_for and urlsplit(link.target).scheme not in ("", "data")
    ]
    style = (site.folder / "style.css").read_text("utf-8")

    assert [] == afar
    assert [] == re.findall(r"@import|url\(\s*['\"]?(?!data:|#)", style)


def test_ids_are_unique(site: Site) -> None:
    """No id stands twice on a page."""
    twice = {
        paper.address: found
        for paper in site.papers.values()
        if (found := [name for name, times in Counter(paper.ids).items() if times > 1])
    }

    assert {} == twice


def test_every_page_can_be_reached(site: Site) -> None:
    """From the hangar page, by links alone; only the page for wrong addresses stands apart."""
    reached, waiting = {"index.html"}, ["index.html"]
    while waiting:
        paper = site.papers[waiting.pop()]
        base = (site.folder / paper.address).parent
        for link in paper.links:
            parts = urlsplit(link.target)
            if parts.scheme or not parts.path:
                continue
            address = (base / parts.path).resolve().relative_to(site.folder.resolve()).as_posix()
            if address in site.papers and address not in reached:
                reached.add(address)
                waiting.append(address)

    assert {"404.html"} == site.papers.keys() - reached


def test_home_page_is_light(site: Site) -> None:
    """The hangar page with its stylesheet and script is at most 60 kB (our own bar)."""
    paper = site.papers["index.html"]
    targets = {urlsplit(link.target) for link in paper.links if link.asked_for}
    asked = {target.path for target in targets if target.path and not target.scheme}
    sizes = {name: (site.folder / name).stat().st_size for name in ("index.html", *sorted(asked))}

    assert "style.css" in asked
    assert ("book.js" in asked) != ("stories.css" in asked)  # nothing to sort on that for others
    assert HOME_PAGE_BYTES >= sum(sizes.values()), sizes


def test_no_page_is_heavy(site: Site) -> None:
    """No page is over 150 kB (our own bar)."""
    sizes = {at: (site.folder / at).stat().st_size for at in site.papers}

    assert {} == {at: size for at, size in sizes.items() if size > PAGE_BYTES}


def test_no_page_gives_a_verdict(site: Site) -> None:
    """No page says that an aircraft may fly; the demo's own words don't either."""
    said = {
        paper.address: found
        for paper in site.papers.values()
        if (found := VERDICTS.findall(paper.words))
    }

    assert {} == said
