"""Build stories: Markdown made harmless, inserts from the records, problems with their line."""

import html as entities
import itertools
import json
import re

import msgspec
import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from buildbook.audience.projection import projected
from buildbook.pages.story import inserts, write_up
from buildbook.pages.story.blocks import block_of
from buildbook.pages.story.insert_places import Asked, asked_in
from buildbook.pages.story.story_text import story
from buildbook.pages.theme import Press, theme_folders
from buildbook.records.aircraft import Run
from buildbook.report.drawn.pictures import Picture
from buildbook.words.public import Said, wiring_notes
from buildbook.words.surfaces import surface_rows
from tests.pages.sites import as_read

STORY = """\
# Sedge, in brief

It began <script>alert(1)</script> with a [drawing](javascript:alert(1)) and <b onclick="x()">a</b>.

@ layout

### Parts

@ parts

@ gains soft

@ figure all_up_mass

@ timeline

@ set-up

@ entry 2026-06-06-1

```
@ parts is how to write it
@ parts
```
"""


USAGE = (
    "inserts: layout, wiring, parts, figure, gains, balance, surfaces, timeline, set-up, entry,"
    " photo"
)
HANGAR = "format: 1\nhangar: S\nas_of: 2026-06-30\n"


def opened(open_changed, text=STORY, audience="owner"):
    return open_changed({"aircraft/sedge/write-up.md": text}, audience)


def html_of(reports):
    return as_read(Press(reports, theme_folders(None)).compose(write_up.page(reports, "sedge")))


def test_a_figure_in_a_story_says_for_which_air(open_changed):
    """In public for sea level, as on the page of figures; a reserve is left of a time alone."""
    text = "# S\n\n@ figure disk_loading\n\n@ figure flight_time\n"
    words = "What depends on the air is for sea level."
    public, owner = (html_of(opened(open_changed, text, one)) for one in ("public", "owner"))

    assert (2, 0) == (public.count(words), owner.count(words))
    assert "Figures that depend on the air are for sea level." in public
    assert "Worked out from what was entered. <a" in owner
    assert "Leave a reserve" not in owner.partition('aria-label="Flight time"')[0]


def test_nothing_harmful_is_left_of_the_markdown(open_changed):
    """Scripts, handlers and addresses that run are gone; the words stay."""
    html = html_of(opened(open_changed))

    assert "alert(1)" not in html
    assert "onclick" not in html
    assert "javascript:" not in html
    assert "It began" in html


def test_headings_begin_under_the_one_of_the_page(open_changed):
    """The title becomes the h1, what follows starts at h2 and skips no level."""
    html = html_of(opened(open_changed))

    assert "<h1>Sedge, in brief</h1>" in html
    assert '<h2 id="s-parts">Parts</h2>' in html
    levels = [int(level) for level in re.findall(r"<h([1-6])", html)]
    assert all(later - earlier <= 1 for earlier, later in itertools.pairwise(levels))


def test_headings_of_one_name_get_anchors_of_their_own():
    """And a heading with markup keeps it, while its anchor does without."""
    told = story("## The *frame*\n\n## The frame\n\n# Late\n\n#### Deep\n")

    assert [
        (2, "The frame", "s-the-frame"),
        (2, "The frame", "s-the-frame-2"),
        (2, "Late", "s-late"),
        (3, "Deep", "s-deep"),
    ] == [(one.level, one.words, one.anchor) for one in told.headings]


def test_inserts_stand_where_they_were_asked_for(open_changed):
    """Drawings, tables, a figure, an entry, in this order; in a code block they are text."""
    reports = opened(open_changed)
    blocks = write_up.page(reports, "sedge").facts["blocks"]

    assert ["drawing", "parts", "gains", "figure", "drawing", "table", "entry"] == [
        block.kind for block in blocks if block.kind != "text"
    ]
    assert "@ parts is how to write it" in entities.unescape(html_of(reports))


def test_an_entry_stands_in_the_story_as_in_the_logbook(open_changed):
    """Both audiences see it; nothing links to it here, and the public reads no day."""
    text = "# S\n\n@ entry 2026-06-06-1\n"
    owner = html_of(opened(open_changed, text))
    public = html_of(opened(open_changed, text, "public"))

    assert "6 min 30 s, with <a class" in owner
    assert "6 June 2026</time>" in owner
    assert '6 min 30 s, with <span class="tag">P-2</span>' in public
    assert "6 June 2026" not in public
    assert 'id="2026-06-06-1"' not in owner


def test_an_entry_after_the_day_shown_says_so(open_changed):
    """The story stays as it is when a past day is rendered."""
    reports = open_changed(
        {
            "hangar.yaml": "format: 1\nhangar: S\nas_of: 2026-05-01\n",
            "aircraft/sedge/write-up.md": "# S\n\n@ entry 2026-06-06-1\n",
        },
        "owner",
    )

    assert () == inserts.problems(reports)
    assert "An entry:</strong> <span" in html_of(reports)
    assert "not yet written on the day that is shown" in html_of(reports)


def test_set_up_checks_stand_in_the_order_of_doing(open_changed):
    """With what is done in each, and how it stands."""
    html = html_of(opened(open_changed, "# S\n\n@ set-up\n"))

    assert "Compare each direction with the layout." in html
    assert "never done" in html


SAID = [
    ("It hovers at @[aircraft_flights].", ">11</a>."),
    ("**@[aircraft_flights]** in all", '<strong><a class="value"'),
    ("Code: `@[aircraft_flights]`", "<code>@[aircraft_flights]</code>"),
    ("Text.\n\n    @[aircraft_flights]\n", "<code>@[aircraft_flights]"),
    ("Write to ida@[example.org] then", "ida@[example.org]"),
    ("Ask @[Jon](https://example.org/jon) then", '@<a href="https://example.org/jon"'),
    ("Land @ 14 V, or @noon", "Land @ 14 V, or @noon"),
    ("[a](https://example.org/@[aircraft_flights]) link", "https://example.org/@"),
]


@pytest.mark.parametrize(("text", "shown"), SAID)
def test_a_figure_in_a_sentence(open_changed, text, shown):
    """Its value with a link to its working; code, addresses and names are left alone."""
    reports = opened(open_changed, f"# S\n\n{text}\n")

    assert () == inserts.problems(reports)
    assert shown in entities.unescape(html_of(reports))


def test_a_figure_of_several_names_each(open_changed):
    """And one that cannot be said says so."""
    reports = opened(open_changed, "# S\n\nIt weighs @[all_up_mass].\n")

    assert "It weighs (cannot say)." in html_of(reports)


CODE = [
    "```\n{}\n```",
    "~~~~ text\n{}\n~~~~",
    "   ```\n{}\n```",
    "Text.\n\n    {}",
    "Text.\n\n\t{}",
    "```\n~~~\n{}\n```",
]


@pytest.mark.parametrize("code", CODE)
@pytest.mark.parametrize("words", ["@ no such", "{{ layout }}", "@[no_such]"])
def test_code_is_left_alone(code, words):
    """Fenced, with either fence, and indented."""
    assert () == asked_in(code.format(words))


def test_a_fence_that_is_never_closed_hides_nothing():
    """As Markdown has it, which goes on with the text."""
    assert (Asked("layout", 2),) == asked_in("```\n@ layout\n")


def test_the_caution_stands_before_the_drawing(open_changed):
    """SW1 before the layout, SW6 before the story."""
    html = html_of(opened(open_changed))

    assert html.index("Take the propellers off") < html.index("<svg", html.index('class="prose'))
    assert html.index("Unplug the battery. Ventilate.") < html.index("It began")


def test_gains_in_a_story_say_whose_they_are(open_changed):
    """As wherever a set is shown."""
    html = html_of(opened(open_changed, audience="public"))

    assert "These gains belong to this aircraft and its controller; check yours." in html
    assert "21.5" in html


@pytest.mark.parametrize(
    ("line", "reason", "hint"),
    [
        (
            "{{ gains soft }}",
            "the insert '{{ gains soft }}' is in braces",
            "write @ gains soft",
        ),
        (
            "Hover at @[hover_curent].",
            "unknown figure 'hover_curent'",
            "did you mean 'hover_current'?",
        ),
        (
            "See @[layout].",
            "the insert '@[layout]' cannot stand in a sentence",
            "write @ layout alone on its line; only a figure may stand in a sentence",
        ),
        ("See @[].", "the insert 'figure' lacks a name", "for instance @ figure flight_time"),
        (
            "@",
            "the insert is empty",
            USAGE,
        ),
        (
            "@ entry 2026-06-06-2",
            "no entry '2026-06-06-2' in this logbook",
            "did you mean '2026-06-06-1'?",
        ),
        ("@ entry", "the insert 'entry' takes the id of one entry", "as in @ entry 2026-03-01-1"),
    ],
)
def test_what_else_may_be_wrong_with_an_insert(open_changed, line, reason, hint):
    """The old braces name the new form; a sentence holds figures only."""
    reports = opened(open_changed, f"# S\n\n{line}\n")

    assert [(reason, 3, hint)] == [
        (one.reason, one.place.line, one.hint) for one in inserts.problems(reports)
    ]


@pytest.mark.parametrize(
    ("words", "reason", "hint"),
    [
        ("part", "unknown insert 'part'", "did you mean 'parts'?"),
        (
            "zzz",
            "unknown insert 'zzz'",
            USAGE,
        ),
        ("layout big", "the insert 'layout' takes nothing after it", "write @ layout"),
        (
            "figure flight_tim",
            "unknown figure 'flight_tim'",
            "did you mean 'flight_time'?",
        ),
        ("gains sof", "unknown gain set 'sof'", "did you mean 'soft'?"),
        (
            "photo arm.jpg",
            "the insert 'photo' takes a file and what is to be seen on it",
            'for instance @ photo arm.jpg "The bent arm"',
        ),
        (
            'photo arm.jpg "The arm"',
            "no photo 'arm.jpg' in photos/",
            "the folder is aircraft/sedge/photos",
        ),
    ],
)
def test_a_wrong_insert_is_a_problem_with_its_line(open_changed, words, reason, hint):
    """Told before anything is written, with what to write instead."""
    reports = opened(open_changed, f"# S\n\n@ {words}\n")
    found = inserts.problems(reports)

    assert [(reason, "aircraft/sedge/write-up.md:3", "problem", hint)] == [
        (one.reason, str(one.place), one.severity, one.hint) for one in found
    ]


def test_a_story_shows_throws_and_what_weighs_where(demo_reports):
    """The control surfaces as a table that says how it is meant, the balance as a drawing."""
    columns, rows = surface_rows(demo_reports.hangar.aircraft["thistledown"].surfaces)

    assert columns == (
        "surface",
        "throw",
        "hinge to trailing edge",
        "along the hinge",
        "servo arm",
        "horn",
    )
    assert rows[2:] == (
        ("elevator", "up 9.5 mm, down 9.5 mm", "41 mm", "430 mm", "9 mm", "16 mm"),
        ("rudder", "left 23 mm, right 23 mm", "68 mm", "190 mm", "13 mm", "15 mm"),
    )
    assert surface_rows({}) is None
    shown = block_of(demo_reports, "thistledown", inserts.Insert(kind="surfaces"), "i1")
    assert shown is not None
    assert shown.table == (columns, rows)
    assert block_of(demo_reports, "burdock", inserts.Insert(kind="surfaces"), "i1") is None
    balance = block_of(demo_reports, "burdock", inserts.Insert(kind="balance"), "i1")
    assert balance is not None
    assert balance.table is not None
    assert balance.notes[:2] == (
        Said("centre", "at the reference point; 8 mm up"),
        Said("pack P-05", "9 mm forward; 26 mm down"),
    )
    assert balance.table[1][0] == ("centre", "330.0 g", "at the reference point", "-8 mm")


def test_the_demo_has_no_problem_with_its_inserts(demo_reports):
    """All inserts of the demo can be made."""
    assert () == inserts.problems(demo_reports)


PICTURE = Picture(
    address="pictures/ab.jpg",
    width=800,
    height=600,
    small_address="pictures/ab-small.jpg",
    small_width=640,
    in_story=True,
)


def test_a_photo_is_shown_by_its_neutral_name(open_changed, tmp_path):
    """Size and alternative text stand there, the name of the file does not."""
    folder = tmp_path / "aircraft/sedge/photos"
    folder.mkdir(parents=True)
    (folder / "home-12-mill-lane.jpg").write_bytes(b"")
    text = '# S\n\n@ photo home-12-mill-lane.jpg "A tube & a <sleeve>"\n'
    plain = opened(open_changed, text)
    pictures = {("sedge", "home-12-mill-lane.jpg"): PICTURE}
    reports = projected(plain, "owner", pictures).reports
    html = html_of(reports)

    assert "mill-lane" not in html
    assert 'alt="A tube &amp; a &lt;sleeve&gt;"' in html
    assert 'src="../../pictures/ab.jpg"' in html
    assert 'width="800" height="600"' in html
    assert "mill-lane" not in html_of(plain)


def test_a_photo_in_a_row_of_a_table_is_shown_small_and_leads_to_the_large_one(
    open_changed, tmp_path
):
    """With or without a bar at the edge of the row; code stays text; unshared, its words stand."""
    folder = tmp_path / "aircraft/sedge/photos"
    folder.mkdir(parents=True)
    (folder / "arm.jpg").write_bytes(b"")
    text = (
        "# S\n\npart | picture\n---|---\narm | ![The bent arm](arm.jpg)\n"
        "\n| a | b |\n|---|---|\n| `![x](arm.jpg)` | ![Again](arm.jpg) |\n"
    )
    plain = opened(open_changed, text)
    html = html_of(projected(plain, "owner", {("sedge", "arm.jpg"): PICTURE}).reports)

    assert (
        '<td>arm</td>\n<td><a class="in-row" href="../../pictures/ab.jpg">'
        '<img src="../../pictures/ab-small.jpg" width="640" height="480" alt="The bent arm"'
        ' loading="lazy" decoding="async"></a></td>' in html
    )
    assert 'alt="Again"' in html
    assert "<code>![x](arm.jpg)</code>" in html
    assert "<td>The bent arm</td>" in html_of(plain)


def test_public_views_show_no_photo_that_is_not_shared(open_changed):
    """Without the switch there is none, and one that only an entry names is never public."""
    pictures = {
        ("sedge", name): Picture(
            address=name,
            width=1,
            height=1,
            small_address=name,
            small_width=1,
            in_story=in_story,
        )
        for name, in_story in (("told.jpg", True), ("noted.jpg", False))
    }
    shared = open_changed({"hangar.yaml": HANGAR + "share: {photos: true}\n"})
    private = open_changed({})
    seen = [
        sorted(name for _, name in projected(reports, audience, pictures).reports.pictures)
        for reports, audience in ((shared, "public"), (private, "public"), (private, "owner"))
    ]

    assert [["told.jpg"], [], ["noted.jpg", "told.jpg"]] == seen


def test_linked_data_cannot_end_its_own_block(open_changed):
    """A title with markup stays inside the block, and the block is JSON."""
    reports = opened(open_changed, "# A </script><script>x & y\n\nWords.\n")
    block = re.search(r'<script type="application/ld\+json">(.*?)</script>', html_of(reports))

    assert block is not None
    told = json.loads(block.group(1))
    assert "Article" == told["@type"]
    assert "A </script><script>x & y" == told["headline"]
    assert "2026-06-30" == told["dateModified"]


def test_tables_of_a_story_scroll_in_a_place_of_their_own():
    """Their headings are of columns."""
    told = story("| a | b |\n|---|---|\n| 1 | 2 |\n")

    assert '<th scope="col">a</th>' in str(told.pieces[0])
    assert 'role="region"' in str(told.pieces[0])


@given(st.text(max_size=300))
@settings(max_examples=60, deadline=None)
def test_any_text_becomes_a_story(text):
    """Nothing breaks it, and nothing in it becomes a script or an event handler."""
    told = story(text)

    joined = "".join(str(piece) for piece in told.pieces if not isinstance(piece, Asked))
    assert not re.search(r"<(script|style|iframe|img|svg|form)\b", joined, re.IGNORECASE)
    assert len([piece for piece in told.pieces if isinstance(piece, Asked)]) <= len(asked_in(text))


def test_how_far_the_set_up_is_stays_with_the_owner(open_changed):
    """Others read what is checked and in which order; no state of a check is theirs."""
    owner, public = (
        html_of(opened(open_changed, "@ set-up\n", who)) for who in ("owner", "public")
    )

    assert "never done</td>" in owner
    assert "never done" not in public
    assert '<th scope="col">what is done</th>' in public
    assert '<th scope="col">state</th>' not in public


def test_ends_of_a_run_are_said_in_words(open_changed):
    """An ESC is written as everybody writes it."""
    record = open_changed({"aircraft/sedge/write-up.md": "@ wiring\n"}).hangar.aircraft["sedge"]
    run = Run(start="distribution", end="each esc")

    assert ["distribution to each ESC"] == [
        said.what for said in wiring_notes(msgspec.structs.replace(record, wiring=(run,)))
    ]


def test_a_balance_names_the_mean_chord_once(owner_site):
    """It is the centre of gravity that lies at a share of it; the demo's story tells it."""
    page = as_read((owner_site / "aircraft/thistledown/write-up.html").read_text("utf-8"))

    assert (
        '<dt>Centre of gravity</dt><dd><span class="value">27.2 % of the mean chord</span>' in page
    )
    assert "<dt>Mean chord</dt>" not in page


def test_long_words_of_a_photograph_are_told_and_it_is_never_left_out():
    """What is too long to be read aloud is a problem with its line; the rest is a picture."""
    found = []
    for length in (600, 601):
        text = f"# S\n\n![{'w' * length}](arm.jpg)\n"
        (asked,) = asked_in(text)
        try:
            found.append(inserts.read_insert(asked).name)
        except inserts.Misfit as misfit:
            found.append((misfit.reason, misfit.hint))

    assert found == [
        "arm.jpg",
        (
            "the words of the photo 'arm.jpg' have 601 characters; 600 are the most",
            "say what is to be seen; the rest belongs in the text",
        ),
    ]


def test_a_figure_that_has_only_a_table_says_what_it_found(demo_reports):
    """The loss of a rotor: how many of six, and in words; the table is on the page of figures."""
    for slug, kept in (("hogweed", 0), ("trefoil", 6)):
        block = block_of(demo_reports, slug, inserts.Insert(kind="figure", name="rotor_loss"), "i1")

        assert [kept] == [figure.value for figure in block.figures]
        assert all(figure.verdict for figure in block.figures)
        assert block.missing is None


def test_tables_of_a_story_are_told_apart():
    """Each is a region with a number in its name, for who moves from region to region."""
    (html,) = story("| a |\n|---|\n| b |\n\n| c |\n|---|\n| d |\n").pieces

    assert ["Table 1 of the story", "Table 2 of the story"] == re.findall(
        r'role="region" aria-label="([^"]+)"', html
    )
    assert html.count("<div") == html.count("</div>")
