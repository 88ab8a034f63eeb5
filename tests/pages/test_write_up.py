"""Build stories: Markdown made harmless, inserts from the records, problems with their line."""

import html as entities
import itertools
import json
import re

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from buildbook.audience.pictures import Picture
from buildbook.audience.view import View
from buildbook.pages import inserts, write_up
from buildbook.pages.story_text import Asked, asked_in, story
from buildbook.pages.theme import Press, theme_folders

STORY = """\
# Sedge, in brief

It began <script>alert(1)</script> with a [drawing](javascript:alert(1)) and <b onclick="x()">a</b>.

{{ layout }}

### Parts

{{ parts }}

{{ gains soft }}

{{ figure all_up_mass }}

{{ timeline }}

```
{{ parts }} is how to write it
{{ parts }}
```
"""


HANGAR = "format: 1\nhangar: S\nas_of: 2026-06-30\n"


def opened(open_changed, text=STORY, audience="owner"):
    return open_changed({"aircraft/sedge/write-up.md": text}, audience)


def html_of(view):
    return Press(view, theme_folders(None)).compose(write_up.page(view, "sedge"))


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
    """Drawing, parts, gains, figure and timeline, in this order; in a code block they are text."""
    view = opened(open_changed)
    blocks = write_up.page(view, "sedge").facts["blocks"]

    assert ["drawing", "parts", "gains", "figure", "drawing"] == [
        block.kind for block in blocks if block.kind != "text"
    ]
    assert "{{ parts }} is how to write it" in entities.unescape(html_of(view))


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
    ("words", "reason", "hint"),
    [
        ("part", "unknown insert 'part'", "did you mean 'parts'?"),
        (
            "zzz",
            "unknown insert 'zzz'",
            "inserts: parts, layout, wiring, figure, gains, timeline, photo",
        ),
        ("layout big", "the insert 'layout' takes nothing after it", "write {{ layout }}"),
        (
            "figure flight_tim",
            "unknown figure 'flight_tim'",
            "did you mean 'flight_time'?",
        ),
        ("gains sof", "unknown gain set 'sof'", "did you mean 'soft'?"),
        (
            "photo arm.jpg",
            "the insert 'photo' takes a file and what is to be seen on it",
            'for instance {{ photo arm.jpg "The bent arm" }}',
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
    view = opened(open_changed, f"# S\n\n{{{{ {words} }}}}\n")
    found = inserts.problems(view.hangar)

    assert [(reason, "aircraft/sedge/write-up.md:3", "problem", hint)] == [
        (one.reason, str(one.place), one.severity, one.hint) for one in found
    ]


def test_the_demo_has_no_problem_with_its_inserts(demo_view):
    """All inserts of the demo can be made."""
    assert () == inserts.problems(demo_view.hangar)


def test_a_photo_is_shown_by_its_neutral_name(open_changed, tmp_path):
    """Size and alternative text stand there, the name of the file does not."""
    folder = tmp_path / "aircraft/sedge/photos"
    folder.mkdir(parents=True)
    (folder / "home-12-mill-lane.jpg").write_bytes(b"")
    text = '# S\n\n{{ photo home-12-mill-lane.jpg "A tube & a <sleeve>" }}\n'
    plain = opened(open_changed, text)
    picture = Picture(
        address="pictures/ab.jpg",
        width=800,
        height=600,
        small_address="pictures/ab-small.jpg",
        small_width=640,
        in_story=True,
    )
    view = View(
        plain.hangar, plain.work, "owner", pictures={("sedge", "home-12-mill-lane.jpg"): picture}
    )
    html = html_of(view)

    assert "mill-lane" not in html
    assert 'alt="A tube &amp; a &lt;sleeve&gt;"' in html
    assert 'src="../../pictures/ab.jpg"' in html
    assert 'width="800" height="600"' in html
    assert "mill-lane" not in html_of(plain)


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
        sorted(
            name for _, name in View(view.hangar, view.work, audience, pictures=pictures).pictures
        )
        for view, audience in ((shared, "public"), (private, "public"), (private, "owner"))
    ]

    assert [["told.jpg"], [], ["noted.jpg", "told.jpg"]] == seen


def test_linked_data_cannot_end_its_own_block(open_changed):
    """A title with markup stays inside the block, and the block is JSON."""
    view = opened(open_changed, "# A </script><script>x & y\n\nWords.\n")
    block = re.search(r'<script type="application/ld\+json">(.*?)</script>', html_of(view))

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
