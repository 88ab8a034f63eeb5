"""Stories for others: what stands around them, pictures as everyone writes them, lists, notes."""

import io
import json
import re
from collections import Counter

import pytest
from PIL import Image

from buildbook.audience.paragraphs import paragraphs
from buildbook.pages.aircraft import aircraft as aircraft_page
from buildbook.pages.aircraft import figures, layout
from buildbook.pages.outputs import feeds
from buildbook.pages.story import builds, inserts, write_up
from buildbook.pages.story.insert_places import Asked, asked_in
from buildbook.pages.story.inserts import Insert, Misfit, read_insert
from buildbook.pages.story.story_text import story
from buildbook.pages.theme import Press, theme_folders
from buildbook.publish.render import cards_of
from buildbook.report.figures.headlines import Headlines
from buildbook.words.public import Said, four_figures, parts_total
from tests.pages.sites import as_read

ABOUT = """\
story:
  title: A quad for the bank
  promise: It lands where you want.
  written: 2026-05-17
  licence: CC BY 4.0
  difficulty: easy
  time: two weekends
"""


def pieces(text):
    """The pieces of a story as text."""
    return [piece if isinstance(piece, Asked) else str(piece) for piece in story(text).pieces]


def told(open_changed, small_files, audience="public", more=ABOUT, text="# Sedge\n\nFlown.\n"):
    """The small hangar with a story."""
    name = "aircraft/sedge/aircraft.yaml"
    return open_changed(
        {name: small_files[name] + more, "aircraft/sedge/write-up.md": text}, audience
    )


def test_lists_within_lists_stand_under_their_words():
    """Two columns or three a level, right after their sentence, as CommonMark 0.31.2 has them."""
    html = "".join(pieces("Take:\n- one\n  - two\n    - three\n- four\n1. a\n   - b\n2. c\n"))

    assert (
        "<p>Take:</p><ul><li>one<ul><li>two<ul><li>three</li></ul></li></ul></li><li>four</li></ul>"
        "<ol><li>a<ul><li>b</li></ul></li><li>c</li></ol>"
    ) == re.sub(r">\s+<|\n", lambda gap: "><" if ">" in gap[0] else "", html)


def test_a_further_paragraph_stays_in_its_item():
    """It stands under the words of the item, after a blank line."""
    html = "".join(pieces("- one\n\n  more of it\n\nAfter.\n"))

    assert "<p>more of it</p>\n</li>\n</ul>\n<p>After.</p>" in html


def test_code_and_rules_are_no_lists():
    """What only looks like one stays as it is."""
    assert ["<pre><code>text\n  - not a list\n</code></pre>"] == pieces(
        "```\ntext\n  - not a list\n```\n"
    )
    assert "<hr>" in pieces("a\n\n* * *\n\nb\n")[0]


def test_footnotes_lead_there_and_back():
    """Their ids are the only ones that a story may set."""
    (html,) = pieces('Turn[^left] it.\n\n[^left]: To the left.\n\n<sup id="main">x</sup>\n')

    assert '<sup id="fnref:left"><a href="#fn:left"' in html
    assert '<li id="fn:left">' in html
    assert '<a href="#fnref:left"' in html
    assert 'id="main"' not in html


def test_a_picture_is_written_as_everyone_writes_it():
    """Its words are what is to be seen, its title stands below; each stands on its own."""
    text = 'Look ![The bent arm](photos/bent%20arm.jpg "After the kite") here.\n![b](./b.jpg)\n'

    assert [
        Insert(kind="photo", name="bent arm.jpg", of="The bent arm", caption="After the kite"),
        Insert(kind="photo", name="b.jpg", of="b", caption="b"),
    ] == [read_insert(asked) for asked in asked_in(text)]
    assert ["<p>Look </p>", "<p>here.</p>"] == [
        piece for piece in pieces(text) if isinstance(piece, str)
    ]


@pytest.mark.parametrize("text", ["`![a](a.jpg)`\n", "```\n![a](a.jpg)\n```\n", "\\![a](a.jpg)\n"])
def test_a_picture_in_code_is_text(text):
    """It shows how one is written."""
    assert () == asked_in(text)


@pytest.mark.parametrize(
    ("written", "reason"),
    [
        ("![a](https://example.org/a.jpg)", "a picture from elsewhere is not shown"),
        ("![](a.jpg)", "the photo 'a.jpg' has no words"),
    ],
)
def test_a_picture_that_cannot_be_shown_is_told(written, reason):
    """One from elsewhere would be asked for from afar; one without words says nothing to many."""
    with pytest.raises(Misfit) as misfit:
        read_insert(Asked(written, 1, "picture"))

    assert reason == misfit.value.reason


def test_a_picture_that_is_not_there_is_a_problem_at_its_line(open_changed, small_files):
    """As for ``@ photo``."""
    reports = told(open_changed, small_files, "owner", text="# S\n\n![The arm](arm.jpg)\n")

    assert ["no photo 'arm.jpg' in photos/ @ aircraft/sedge/write-up.md:3"] == [
        str(problem) for problem in inserts.problems(reports)
    ]


def test_the_name_of_a_picture_is_not_read_as_words():
    """Its words and its title are."""
    (paragraph,) = paragraphs('![An arm](home-12-mill-lane.jpg "Bent")\n')

    assert '![An arm]( "Bent")' == paragraph.text


def test_what_stands_around_a_story(open_changed, small_files):
    """Title and promise of aircraft.yaml, the month in public, licence, facts, four figures."""
    reports = told(open_changed, small_files)
    page = write_up.page(reports, "sedge")
    html = as_read(Press(reports, theme_folders(None)).compose(page))
    data = json.loads(re.search(r'ld\+json">(.*?)</script>', html).group(1))

    assert "A quad for the bank" == page.title
    assert '<p class="promise">It lands where you want.</p>' in html
    assert 'Written in <time datetime="2026-05">May 2026</time>. CC BY 4.0.' in html
    assert "two weekends" in html
    assert "<dt>diagonal, shaft to shaft</dt><dd>400 mm</dd>" in html
    assert ("CC BY 4.0", "2026-05", "It lands where you want.") == (
        data["license"],
        data["datePublished"],
        data["description"],
    )


def test_the_owner_reads_the_day_and_the_name(open_changed, small_files):
    """An author is somebody of people:, and named in public only by consent."""
    keeper = small_files["hangar.yaml"] + "people: {ida: {name: Ida Quill}}\n"
    name = "aircraft/sedge/aircraft.yaml"
    changed = {
        "hangar.yaml": keeper,
        name: small_files[name] + ABOUT + "  author: ida\n",
        "aircraft/sedge/write-up.md": "# S\n",
    }
    owner = open_changed(changed, "owner")
    public = open_changed(changed, "public")
    page = as_read(Press(owner, theme_folders(None)).compose(write_up.page(owner, "sedge")))

    assert 'By Ida Quill. Written in <time datetime="2026-05-17">17 May 2026</time>.' in page
    assert "Ida" not in Press(public, theme_folders(None)).compose(write_up.page(public, "sedge"))


def test_the_front_page_says_what_each_build_is(open_changed, small_files):
    """Promise and four figures; no state, no work, and nothing of what is being built."""
    reports = told(open_changed, small_files)
    html = Press(reports, theme_folders(None)).compose(builds.page(reports, ""))

    assert "It lands where you want." in html
    assert "Rush" not in html
    assert 'class="mark' not in html
    assert "All builds: CC BY 4.0." in html


def test_a_visitor_is_told_the_time_on_the_pack_that_is_flown_most(demo_public):
    """Not on the weakest one, which flew once: the low end of the glider's time on P-31."""
    aircraft = demo_public.hangar.aircraft["thistledown"]
    usual = demo_public.figures_of_aircraft("thistledown").find("flight_time", "P-31")
    weakest = demo_public.figures_of_aircraft("thistledown").find("flight_time", "P-33")
    said = Said("planned on its usual pack", f"{int(usual.low // 60)} min")

    assert said in four_figures(aircraft, demo_public.headlines("thistledown"))
    assert weakest.low < usual.low / 2


@pytest.mark.parametrize("slug", ["burdock", "hogweed", "thistledown", "trefoil"])
def test_mass_and_time_of_the_front_page_are_those_on_one_pack(demo_public, slug):
    """The pack flown most; not the mass with the heaviest one beside the time on another."""
    flown = Counter(
        tag for one in demo_public.hangar.aircraft[slug].flights for tag in one.row.packs
    )
    mass, time = (
        one.usual or one.figure
        for name in ("all_up_mass", "flight_time")
        for one in demo_public.headlines(slug).shown
        if one.name == name
    )

    assert mass.of == time.of
    assert max(flown.values()) == flown[mass.of]


def test_owner_and_visitor_are_told_the_same_two_times(demo_reports, demo_public):
    """The shortest of all packs, and beside it that of the pack flown most."""
    beside = "P-33, shortest flight of 3 packs; P-31, flown most: plan with 26 min 18 s"
    pages = (
        (demo_reports, aircraft_page.page),
        (demo_public, builds.build_page),
        (demo_reports, figures.page),
        (demo_public, figures.page),
    )
    for reports, page in pages:
        html = Press(reports, theme_folders(None)).compose(page(reports, "thistledown"))
        assert beside in " ".join(re.sub(r"<[^>]+>", "", html).split())


@pytest.mark.parametrize("slug", ["hogweed", "trefoil"])
def test_what_the_loss_of_a_rotor_leaves_is_told_of_each_with_six(demo_public, slug):
    """Of none that could be held as of all: on its page of the layout, and of the figures."""
    figure = demo_public.figures_of_aircraft(slug).find("rotor_loss")
    html = Press(demo_public, theme_folders(None)).compose(layout.page(demo_public, slug))
    words = " ".join(re.sub(r"<[^>]+>", " ", html).split())

    assert {"hogweed": 0, "trefoil": 6}[slug] == figure.value
    assert f"Loss of a rotor {figure.verdict[0].upper()}{figure.verdict[1:]}" in words


def test_the_four_figures_are_those_to_plan_with(demo_reports, demo_public):
    """Burdock: 12 min 52 s to plan with, 8.6 A flown; 14 min and 7.7 A of theory are neither."""
    aircraft = demo_public.hangar.aircraft["burdock"]
    headlines = demo_public.headlines("burdock")
    unflown = tuple(one for one in headlines.shown if one.name != "flown_current")
    theory = four_figures(aircraft, Headlines(shown=unflown, lacks=()))
    time = demo_reports.figures_of_aircraft("burdock").figures

    assert 772 == int(min(one.low for one in time if one.name == "flight_time"))
    assert (
        Said("diagonal, shaft to shaft", "430 mm"),
        Said("ready to fly", "1030 g"),
        Said("planned on one pack", "12 min"),
        Said("in flight", "8.6 A"),
    ) == four_figures(aircraft, headlines)
    assert Said("in the hover", "7.7 A") == theory[3]
    shown = [one.name for one in builds.build_page(demo_public, "burdock").facts["headlines"]]
    assert ["flown_current"] == [name for name in shown if name.endswith("_current")]


def test_stories_stand_first_in_the_feed(open_changed, small_files):
    """With their promise, dated when they were written."""
    feed = feeds.hangar_feed(told(open_changed, small_files), "").text
    first = feed[feed.index("<entry>") : feed.index("</entry>")]

    assert "<title>A quad for the bank</title>" in first
    assert "<updated>2026-05-01T00:00:00Z</updated>" in first
    assert "<summary>It lands where you want.</summary>" in first


def test_a_card_is_drawn_from_the_layout(open_changed, small_files):
    """For others only, the same bytes each time, and nothing beside its pixels."""
    reports = told(open_changed, small_files)
    cards = cards_of(reports)
    picture = Image.open(io.BytesIO(cards["pictures/card-sedge.png"]))

    assert (1200, 630) == picture.size
    assert {} == {name: value for name, value in picture.info.items() if name != "transparency"}
    assert cards == cards_of(reports)
    assert {} == cards_of(told(open_changed, small_files, "owner"))


def test_parts_say_what_to_look_for_and_what_sat_there_before(open_changed, small_files):
    """Quantity, spec, packs that are flown, and the kinds that were there earlier."""
    log = "aircraft/sedge/logbook.yaml"
    specs = small_files["parts/specs.yaml"] + "- {spec: m-0, kind: motor, name: 2208 motor}\n"
    items = small_files["parts/items.yaml"] + "- {tag: M-9, spec: m-0, acquired: 2026-01-01}\n"
    earlier = (
        "- {on: 2026-01-20, fit: {front-left: {motor: M-9}}}\n- {on: 2026-01-21, remove: [M-9]}\n"
    )
    reports = open_changed(
        {"parts/specs.yaml": specs, "parts/items.yaml": items, log: earlier + small_files[log]}
    )
    lines = {line.title: line for line in reports.parts_of_aircraft("sedge")}

    assert (4, ("2208 motor",)) == (len(lines["2213 motor"].tags), lines["2213 motor"].also)
    assert ("battery", ("P-1", "P-2"), ()) == (
        lines["3S 2200"].kind,
        lines["3S 2200"].tags,
        lines["3S 2200"].also,
    )


def test_a_public_layout_lists_no_work(owner, public):
    """Its dashed arrows say what was not checked; the list of it is the owner's."""
    assert 'class="jobs"' in Press(owner, theme_folders(None)).compose(layout.page(owner, "sedge"))
    assert 'class="jobs"' not in Press(public, theme_folders(None)).compose(
        layout.page(public, "sedge")
    )


def _budget(reports, slug):
    answers = reports.figures_of_aircraft(slug).figures
    return next(one for one in answers if one.name == "mass_budget")


@pytest.mark.parametrize("slug", ["burdock", "hogweed", "thistledown", "trefoil"])
def test_a_parts_list_adds_up_to_the_mass_budget(demo_reports, slug):
    """Each part once in both; the rest of the sum is fixings, alterations and one pack."""
    lines = [one for one in demo_reports.parts_of_aircraft(slug) if one.kind != "battery"]
    budget = _budget(demo_reports, slug)
    tags = sorted(tag for line in lines for tag in line.tags)
    beside = ("battery", "sundries", "alterations")
    rest = [row for row in budget.table.rows if row[0] in beside]

    assert tags == sorted(row[1] for row in budget.table.rows if row[0] not in beside)
    assert pytest.approx(budget.other["sum_kg"]) == sum(line.mass_kg for line in lines) + sum(
        row[2] for row in rest
    )
    assert [budget.of] == [row[1] for row in rest if row[0] == "battery"]


def test_a_parts_list_says_what_it_adds_up_to(demo_reports, open_changed):
    """In words, beside the scales; nothing where a part was not weighed."""
    small = open_changed({})

    assert "With P-05, fixings and alterations they add up to 1027 g; weighed, 1029 g" == (
        parts_total(demo_reports.figures_of_aircraft("burdock"))
    )
    assert "" == parts_total(small.figures_of_aircraft("sedge"))
    page = builds.build_page(demo_reports, "burdock")
    html = Press(demo_reports, theme_folders(None)).compose(page).replace("\xa0", " ")
    assert '<td class="num" data-label="mass">91.8 g in all</td>' in html
    assert '<a href="figures.html#mass_budget">What weighs how much</a>' in html


def test_a_table_of_a_story_has_no_empty_column(demo_public):
    """Nothing is wrong with the quad, so no column for what is wrong stands there."""
    html = Press(demo_public, theme_folders(None)).compose(write_up.page(demo_public, "burdock"))

    assert '<th scope="col">station</th>' in html
    assert '<th scope="col">problem</th>' not in html


def test_a_page_of_a_build_says_since_when_it_is_kept_not_that_it_flies(demo_public):
    """Hogweed is grounded, which the public is not told: no word of ours says that it flies."""
    page = Press(demo_public, theme_folders(None)).compose(
        builds.build_page(demo_public, "hogweed")
    )

    assert "; taken into service in " in page
    assert "flying since" not in page
