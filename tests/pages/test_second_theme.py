"""A theme that is really another: its own frame, front page and styles; the rest is taken along."""

import re
from pathlib import Path

import pytest
from sites import Site

from buildbook.pages.page import Page
from buildbook.pages.site import make, plan
from buildbook.pages.theme import Press, stylesheet, theme_folders
from buildbook.publish.render import render
from buildbook.words.cautions import CAUTIONS

THEME = Path(__file__).parent / "blueprint"
FIELDBOOK = theme_folders(None)[0]
KEPT = (FIELDBOOK / "DESIGN.md").read_text("utf-8").partition("**What is kept**")[2]


@pytest.fixture(scope="module")
def site(public, tmp_path_factory) -> Site:
    """The small hangar for the public, as a blueprint."""
    folder = tmp_path_factory.mktemp("blueprint") / "site"
    render(public, folder, theme_folders(str(THEME)), workers=1)
    return Site(folder)


def test_every_page_stands_in_the_frame_of_the_theme(site):
    """Those whose templates it has, and those that it takes from the default one."""
    assert 8 < len(site.papers)
    for paper in site.papers.values():
        assert 'class="rail-of-pages"' in paper.html, paper.address
        assert 'class="house"' not in paper.html, paper.address
    assert "index-of-builds" in site.papers["index.html"].html
    assert "border:2px solid var(--line)" in (site.folder / "stories.css").read_text("utf-8")


def test_its_links_lead_somewhere(site):
    """As those of the default theme."""
    assert [] == [
        f"{link.page}: {link.target}: {lack}"
        for paper in site.papers.values()
        for link in paper.links
        if (lack := site.missing(link))
    ]


def test_cautions_stand_whatever_the_theme(site):
    """Before the layout, and the rules on every page."""
    layout = site.papers["aircraft/sedge/layout.html"].html

    assert layout.index(CAUTIONS["SW1"].words) < layout.index('id="layout"')
    for paper in site.papers.values():
        assert CAUTIONS["SW8"].words in paper.words, paper.address


def test_it_sets_the_ten_colours_of_the_drawings():
    """Without them a drawing has no ink."""
    colours = re.findall(r"--([a-z-]+):\s*#", (FIELDBOOK / "style.css").read_text("utf-8"))

    assert 10 == len(set(colours))
    for colour in colours:
        assert f"--{colour}: #" in (THEME / "style.css").read_text("utf-8")
        assert f"`--{colour}`" in KEPT
    assert stylesheet(theme_folders(str(THEME))) != stylesheet(theme_folders(None))


def test_the_names_that_are_kept_are_there(public):
    """Each block, template and variable that DESIGN.md promises to a theme."""
    base = (FIELDBOOK / "templates" / "base.html.j2").read_text("utf-8")
    blocks = set(re.findall(r"{% block (\w+) %}", base))
    press = Press(public, theme_folders(None))
    leaf = next(leaf for work in plan(public) if isinstance(leaf := make(public, work), Page))
    promised = {
        kind: set(re.findall(r"`([\w.]+)`", line))
        for kind, line in re.findall(r"- (Blocks|Templates|Variables)[^:]*: (.*)", KEPT)
    }

    assert {"Blocks", "Templates", "Variables"} == set(promised)
    assert promised["Blocks"] == blocks
    assert promised["Variables"] <= set(press._common(leaf))
    assert promised["Templates"] <= {path.name for path in (FIELDBOOK / "templates").iterdir()}
