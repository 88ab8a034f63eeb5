"""Names outside plain ASCII: each has a page of its own, and every link finds it."""

import json
import re
from collections import Counter
from pathlib import Path

import pytest
from sites import Link, Site

from buildbook.commands.main import main

TAGS = ("Ä-1", "Ö-1", "Мотор", "Винт", "B+1", "B-1", "CON", "nul.1", "電池", "x" * 80)
DECOMPOSED = "A\u0308-2"
PACKS = "".join(f"- {{tag: {tag}, spec: b-3s}}\n" for tag in (*TAGS, DECOMPOSED))
ODD = {
    "aircraft/sedge/logbook.yaml": "- {on: 2026-02-01, id: main, note: x}\n"
    "- {on: 2026-02-02, id: m-2026-02, flight: 7:20, pack: Ä-2}\n"
    "- {on: 2026-02-03, id: prüfung+1, note: y}\n",
    "stores/a.yaml": "- {on: 2026-02-01, id: b-1, charge: Ä-1, to: full}\n",
    "stores/a-b.yaml": "- {on: 2026-02-01, id: '1', charge: Ö-1, to: full}\n",
}


@pytest.fixture(scope="module")
def site(small_files: dict[str, str], tmp_path_factory: pytest.TempPathFactory) -> Site:
    """A hangar of such names, rendered."""
    top = tmp_path_factory.mktemp("odd")
    files = {**small_files, **ODD}
    files["parts/items.yaml"] += PACKS
    names = {"programme: few": "programme: Prüfung", "task: screws": "task: checks"}
    for path, text in files.items():
        for usual, odd in names.items():
            text = text.replace(usual, odd)
        (top / "hangar" / path).parent.mkdir(parents=True, exist_ok=True)
        (top / "hangar" / path).write_text(text, "utf-8")
    assert 0 == main(["render", str(top / "hangar"), "--into", str(top / "site")])
    return Site(top / "site")


def test_every_tag_has_its_own_page(site: Site) -> None:
    """The heading of the page that the register leads to is the tag itself."""
    text = (site.folder / "search.js").read_text("utf-8")
    rows = json.loads(text[text.index("[") : text.rindex("]") + 1])
    pages = {row[1].partition(",")[0]: row[2] for row in rows if row[2].startswith("items/")}

    for tag in (*TAGS, "Ä-2"):
        assert f'<span class="plate-tag">{tag}</span>' in site.papers[pages[tag]].html
    assert "items/B-1.html" == pages["B-1"]
    assert {1} == set(Counter(address.lower() for address in pages.values()).values())


def test_addresses_are_plain(site: Site) -> None:
    """Nothing to be percent-encoded, nothing that differs in capitals only, no device."""
    assert [] == [name for name in site.files if not re.fullmatch(r"[A-Za-z0-9._~/-]+", name)]
    assert len(site.files) == len({name.lower() for name in site.files})
    parts = {part.partition(".")[0].lower() for name in site.files for part in Path(name).parts}
    assert set() == parts & {"con", "nul"}


def test_links_and_ids_hold(site: Site) -> None:
    """Entries, rows of programmes and pages with odd names are found, each id stands once."""
    links: list[Link] = [link for paper in site.papers.values() for link in paper.links]
    assert [] == [(link.page, link.target) for link in links if site.missing(link)]
    twice = {
        paper.address: [name for name, times in Counter(paper.ids).items() if times > 1]
        for paper in site.papers.values()
    }
    assert {} == {address: names for address, names in twice.items() if names}
