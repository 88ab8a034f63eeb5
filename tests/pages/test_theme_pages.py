"""Every page composes for both audiences: escaped, linked, with its cautions, nothing private."""

import datetime
import re
from html.parser import HTMLParser
from pathlib import Path

import pytest

from buildbook.pages.addresses import ADDRESSES
from buildbook.pages.page import Page
from buildbook.pages.site import SITE, make, plan
from buildbook.pages.theme import Press, stylesheet, theme_folders, tightened
from buildbook.words.cautions import CAUTIONS
from tests.pages.sites import as_read

VERDICTS = re.compile(r"airworthy|certified|compliant|safe to fly|legal to fly|\ballowed\b", re.I)
AN_EXACT_DAY = re.compile(
    r"\b\d{1,2} (?:January|February|March|April|May|June|July|August|September|October|November"
    r"|December) \d{4}\b|\b2026-0\d-\d\d\b"
)


class Reader(HTMLParser):
    """Collects ids, links, headings and unclosed elements of a page."""

    VOID = frozenset(("meta", "link", "br", "img", "hr", "input", "col", "wbr"))

    def __init__(self, text: str) -> None:
        super().__init__()
        self.ids: list[str] = []
        self.links: list[str] = []
        self.headings: list[int] = []
        self.attributes: set[str] = set()
        self.open: list[str] = []
        self.feed(text)

    def handle_starttag(self, tag: str, attrs: list[tuple[str, str | None]]) -> None:
        """Note what the element is and has."""
        found = dict(attrs)
        self.attributes |= set(found)
        if found.get("id"):
            self.ids.append(found["id"] or "")
        if found.get("href"):
            self.links.append(found["href"] or "")
        if re.fullmatch(r"h[1-6]", tag):
            self.headings.append(int(tag[1]))
        if tag not in self.VOID:
            self.open.append(tag)

    def handle_endtag(self, tag: str) -> None:
        """Close the innermost element, which must be this one."""
        if self.open and self.open[-1] == tag:
            self.open.pop()

    def handle_startendtag(self, tag: str, attrs: list[tuple[str, str | None]]) -> None:
        """An SVG shape, closed where it opens."""
        self.handle_starttag(tag, attrs)
        if tag not in self.VOID:
            self.open.pop()


@pytest.fixture(scope="module", params=["owner", "public"])
def composed(request: pytest.FixtureRequest) -> tuple[str, dict[str, str]]:
    """The audience, and the text of each page of the small hangar by address."""
    reports = request.getfixturevalue(request.param)
    press = request.getfixturevalue(f"{request.param}_press")
    leaves = [make(reports, work) for work in plan(reports)]
    return request.param, {
        leaf.address: as_read(press.compose(leaf) if isinstance(leaf, Page) else leaf.text)
        for leaf in leaves
    }


@pytest.fixture(scope="module")
def demo_owner_pages(owner_site: Path) -> dict[str, str]:
    """The text of each page of the demo for its owner, by address."""
    return {
        path.relative_to(owner_site).as_posix(): as_read(path.read_text("utf-8"))
        for path in owner_site.rglob("*.html")
    }


def html_of(composed: tuple[str, dict[str, str]]) -> dict[str, str]:
    """The pages among the files."""
    return {address: text for address, text in composed[1].items() if address.endswith(".html")}


def test_every_kind_of_page_is_made(composed):
    """A kind without an address or a page would be dead."""
    assert set() == set(SITE) - set(ADDRESSES)
    assert "index.html" in composed[1]
    assert "aircraft/sedge/layout.html" in composed[1]


def test_pages_are_well_formed_with_one_h1_and_headings_in_order(composed):
    """No element is left open, no level is skipped, no id stands twice, nothing has a style."""
    assert html_of(composed)
    for address, text in html_of(composed).items():
        page = Reader(text)
        steps = [
            after - before for before, after in zip(page.headings, page.headings[1:], strict=False)
        ]

        assert [] == page.open, address
        assert 1 == page.headings.count(1), address
        assert 1 == page.headings[0], address
        assert 1 >= max(steps, default=0), address
        assert len(page.ids) == len(set(page.ids)), address
        assert "style" not in page.attributes, address


def test_links_are_relative_and_lead_to_a_page_and_a_place_on_it(composed):
    """From a folder on a stick, in any sub-path."""
    texts = composed[1]
    ids = {address: set(Reader(text).ids) for address, text in html_of(composed).items()}
    shared = {"style.css", "cards.css", "inner.css", "stories.css", "field.css"}
    shared |= {"book.js", "field.js", "search.js"}
    broken = []
    for address, text in html_of(composed).items():
        for link in Reader(text).links:
            if link.startswith(("data:", "https://example.org/")):
                continue
            path, _, anchor = link.partition("#")
            target = (
                str((Path("/") / address).parent.joinpath(path).resolve())[1:] if path else address
            )
            known = target in texts or target in shared
            place = anchor in ids.get(target, set()) | {"", "main"} or anchor.startswith("m-")
            if not (known and place):
                broken.append((address, link))

    assert [] == broken


def test_words_of_the_keeper_are_escaped(composed):
    """An alteration with an angle bracket in it stays words."""
    text = composed[1]["aircraft/sedge/layout.html"]

    assert "Leads &lt;of&gt; the ESCs swapped" in text
    assert "<of>" not in text


def test_no_page_passes_judgement_on_what_may_fly(composed):
    """Words that the tool never writes."""
    found = {address: VERDICTS.findall(text) for address, text in composed[1].items()}

    assert {} == {address: words for address, words in found.items() if words}


def test_the_footer_says_whose_copy_it_is(composed):
    """The owner's copy says that it holds private details; the public one does not claim to."""
    audience, texts = composed
    assert html_of((audience, texts))
    for address, text in html_of((audience, texts)).items():
        assert (audience == "owner") == ("Owner’s copy:" in text), address
        assert CAUTIONS["SW8"].heading in text, address


def test_props_off_stands_before_the_layout_and_the_work(composed):
    """SW1 comes before the first drawing and before the first job."""
    layout = composed[1]["aircraft/sedge/layout.html"]
    assert layout.index(CAUTIONS["SW1"].words) < layout.index('id="layout"')
    if composed[0] == "public":
        return
    due = composed[1]["due.html"]
    assert due.index(CAUTIONS["SW1"].words) < due.index('class="jobs"')


def test_props_off_stands_once_on_due_and_no_link_leads_past_it(demo_owner_pages):
    """Above the groups; who is led to the work of one aircraft finds it below that heading."""
    words = CAUTIONS["SW1"].words
    due = demo_owner_pages["due.html"]
    work = demo_owner_pages["aircraft/hogweed/index.html"].split('<h2 id="work">')[1]
    past = re.compile(r'href="[^"]*\bdue\.html#')

    assert 1 == due.count(words)
    assert [] == [name for name, text in demo_owner_pages.items() if past.search(text)]
    assert work.index(words) < work.index('class="jobs"') < work.index("Start spread")


def test_a_pack_in_quarantine_brings_its_caution(composed):
    """SW4 on the front page, in stock and on the way to the field; SW3 where packs are charged."""
    if composed[0] == "public":
        return
    for address in ("index.html", "stock.html", "going-flying.html"):
        assert CAUTIONS["SW4"].heading in composed[1][address], address
    for address in ("stock.html", "going-flying.html"):
        assert CAUTIONS["SW3"].heading in composed[1][address], address


def test_public_pages_hold_no_private_word_and_no_exact_day(composed):
    """Registration, keeper, notes, places in files; days are months."""
    audience, texts = composed
    if audience == "owner":
        assert "XX-PRIVATE-1" in texts["aircraft/sedge/index.html"]
        assert "20 June 2026" in texts["stock.html"]
        return
    for address, text in texts.items():
        assert "XX-PRIVATE-1" not in text, address
        assert "Ida" not in text, address
        assert "swollen corner" not in text, address
        assert ".yaml:" not in text, address
        if address.startswith(("index", "due", "stock", "going", "radio", "compare", "programmes")):
            assert [] == AN_EXACT_DAY.findall(text), address


def test_public_layouts_say_whose_outputs_they_are(composed):
    """Outputs and gains belong to this aircraft and its controller."""
    text = composed[1]["aircraft/sedge/layout.html"]

    assert (composed[0] == "public") == ("belong to this aircraft and its controller" in text)


def test_a_past_day_is_said_on_every_page(open_changed):
    """With how many entries are left out."""
    reports = open_changed({}, day=datetime.date(2026, 2, 2))
    press = Press(reports, theme_folders(None))
    for work in plan(reports):
        leaf = make(reports, work)
        if isinstance(leaf, Page) and "card" not in leaf.template and "labels" not in leaf.template:
            text = as_read(press.compose(leaf))
            assert "This is the hangar as it was on" in text, leaf.address
            assert "2 February 2026" in text, leaf.address


def test_a_theme_of_ones_own_takes_the_rest_from_the_default_one(owner, tmp_path):
    """One template and nothing else: the page is theirs, the stylesheet ours."""
    (tmp_path / "templates").mkdir()
    (tmp_path / "templates" / "not_found.html.j2").write_text(
        '{% extends "base.html.j2" %}{% block main %}<p>Gone to the woods</p>{% endblock %}',
        "utf-8",
    )
    folders = theme_folders(str(tmp_path))
    page = SITE["not-found"].make(owner, "")

    assert isinstance(page, Page)
    assert "Gone to the woods" in Press(owner, folders).compose(page)
    assert stylesheet(theme_folders(None)) == stylesheet(folders)


def test_tightening_takes_only_comments_and_space():
    """Selectors keep the spaces that mean something."""
    css = (
        "/* a */\n.a > .b, .c .d {\n  margin: 0 calc(2 * var(--gap));\n}\n"
        "@media (min-width: 6rem) { p + p { color: red } }\n"
        'i::before { content: ", " }\n'
    )

    assert (
        ".a > .b,.c .d{margin:0 calc(2 * var(--gap));}"
        "@media (min-width:6rem){p + p{color:red}}"
        'i::before{content:", "}\n'
    ) == tightened(css)


def luminance(colour: str) -> float:
    """Relative luminance of ``#rrggbb``, after WCAG 2.2."""
    parts = [int(colour[at : at + 2], 16) / 255 for at in (1, 3, 5)]
    red, green, blue = (
        part / 12.92 if part <= 0.04045 else ((part + 0.055) / 1.055) ** 2.4 for part in parts
    )
    return 0.2126 * red + 0.7152 * green + 0.0722 * blue


def contrast(one: str, other: str) -> float:
    """Contrast ratio, after WCAG 2.2 (https://www.w3.org/TR/WCAG22/#dfn-contrast-ratio)."""
    low, high = sorted((luminance(one), luminance(other)))
    return (high + 0.05) / (low + 0.05)


def test_the_contrast_formula_gives_the_published_ends():
    """WCAG 2.2: black on white is 21:1, a colour on itself 1:1; #767676 on white is about 4.54."""
    assert 21 == pytest.approx(contrast("#000000", "#ffffff"))
    assert 1 == pytest.approx(contrast("#1d5a74", "#1d5a74"))
    assert 4.54 == pytest.approx(contrast("#767676", "#ffffff"), abs=0.005)


def test_colours_of_text_have_contrast_on_both_papers_in_light_and_dark():
    """At least 4.5:1, WCAG 2.2 success criterion 1.4.3."""
    css = stylesheet(theme_folders(None))
    palettes = [
        dict(re.findall(r"--([a-z-]+):(#[0-9a-f]{6})", block))
        for block in re.findall(r"(--ground:#[^}]*)}", css)
    ][:2]

    assert 2 == len(palettes)
    for palette in palettes:
        for paper in ("ground", "paper"):
            for ink in ("ink", "ink-soft", "accent", "good", "warn", "bad"):
                assert 4.5 <= contrast(palette[ink], palette[paper]), (ink, paper)


def test_stylesheet_and_front_page_stay_small(demo_reports):
    """The stylesheet under 20 kB, with the front page of the demo 60 kB; nothing from afar."""
    css = stylesheet(theme_folders(None))
    front = SITE["hangar"].make(demo_reports, "")

    assert isinstance(front, Page)
    assert 20_000 > len(css.encode())
    text = Press(demo_reports, theme_folders(None)).compose(front)
    assert 60_000 >= len(css.encode()) + len(text.encode())
    assert [] == re.findall(r"@import|url\(", css)


def test_short_words_for_a_direction_are_said_in_full_where_they_stand(demo_owner_pages):
    """In the key of each drawing, at the step that asks for them, and with the spares."""
    above = "ccw counter-clockwise, cw clockwise, from above"
    for address in ("aircraft/burdock/index.html", "aircraft/trefoil/layout.html"):
        assert above in demo_owner_pages[address], address
    glider = demo_owner_pages["aircraft/thistledown/layout.html"]
    assert "ccw counter-clockwise, cw clockwise, from behind" in glider
    set_up = demo_owner_pages["aircraft/burdock/set-up.html"]
    assert "for each, cw (clockwise) or ccw (counter-clockwise), seen from above" in set_up
    assert (
        "Hand: ccw counter-clockwise, cw clockwise, seen from above."
        in (demo_owner_pages["stock.html"])
    )


def test_the_latest_notes_name_the_entry_that_they_stand_in(demo_owner_pages):
    """“For the weekend” is a word on a charge."""
    due = re.sub(r"<[^>]+>", "", demo_owner_pages["due.html"])

    assert "P-05, charge of 19 November 2026: For the weekend." in due
