"""Remarks and links of records: each stands on a page of the owner's site, and on no other."""

import pytest

from buildbook.pages.aircraft import aircraft
from buildbook.pages.stock import item
from buildbook.pages.theme import Press, theme_folders
from buildbook.pages.work import due

LINK = "https://parts.example.org/2213?a=1&b=<2>"


@pytest.fixture
def changed(small_files: dict[str, str]) -> dict[str, str]:
    """The small hangar with a remark and a link wherever one can be written."""
    specs = small_files["parts/specs.yaml"].replace(
        "mass: 55 g}", f"mass: 55 g, note: Long <shaft>, link: '{LINK}'}}"
    )
    plane = small_files["aircraft/sedge/aircraft.yaml"] + "note: First of <its> kind\n"
    notice = (
        "- {notice: sb-7, spec: e-1, issued: 2026-06-02, what: Look., link: mailto:a@b.example}\n"
    )
    return {
        "parts/specs.yaml": specs,
        "aircraft/sedge/aircraft.yaml": plane,
        "notices/makers.yaml": notice,
    }


def pages(reports):
    """The pages of a part, of an aircraft, and of what is due."""
    press = Press(reports, theme_folders(None))
    made = (item.page(reports, "M-1"), aircraft.page(reports, "sedge"), due.page(reports, ""))
    return tuple(press.compose(page) for page in made)


def test_the_owner_sees_them_all(open_changed, changed):
    """Escaped, with their place, links to be followed without saying from where."""
    part, plane, work = pages(open_changed(changed))

    assert '<p class="remark">Long &lt;shaft&gt; <span class="place">parts/specs.yaml:1' in part
    escaped = "https://parts.example.org/2213?a=1&amp;b=&lt;2&gt;"
    assert f'<a href="{escaped}" rel="noreferrer">{escaped}</a>' in part
    assert '<p class="remark">First of &lt;its&gt; kind <span class="place">' in plane
    assert '<a href="mailto:a@b.example" rel="noreferrer">mailto:a@b.example</a>' in work


def test_the_public_sees_none(open_changed, changed):
    """A remark may name anything, a link may lead home."""
    quiet = {name: text.replace("mailto:a@b.example", LINK) for name, text in changed.items()}
    quiet["notices/makers.yaml"] = quiet["notices/makers.yaml"].replace(LINK, f"'{LINK}'")
    told = "".join(pages(open_changed(quiet, "public")))

    assert [False] * 3 == [word in told for word in ("shaft", "First of", "parts.example.org")]
