"""Stories and names that nobody hoped for: on the narrowest phone all of it can be read."""

import shutil
from pathlib import Path

import pytest

from buildbook.commands.main import main

from . import probes
from .conftest import Looks

LONG = "Donaudampfschifffahrtsgesellschaftskapitaensmuetzenfabrikationsmaschine"
RIGHT_TO_LEFT = "\u0645\u0631\u062d\u0628\u0627 \u0628\u0627\u0644\u0639\u0627\u0644\u0645"
COLUMNS = 14
TABLE = "\n".join(
    [
        "|".join(["", *(f"column number {at}" for at in range(COLUMNS)), ""]),
        "|".join(["", *["---"] * COLUMNS, ""]),
        *("|".join(["", *(f"value_{row}_{at}" for at in range(COLUMNS)), ""]) for row in range(30)),
    ]
)
STORY = f"""\
# A title that goes on, {"and on, " * 30}{LONG}

{RIGHT_TO_LEFT} 1480 mAh

{"🛩️👨‍👩‍👧" * 40}

> - one
>     - two
>         - three
>             - four {"x" * 200}
>
> > 1. a
> >     1. b

{TABLE}

```
{"z" * 400}
```

`{"w" * 300}` and <https://example.org/{"q" * 300}>

## {"Heading" * 30}

## 🛩️

<script>document.title = "run"</script><style>main {{ display: none }}</style>

A footnote[^1].

[^1]: {"v" * 200}
"""


@pytest.fixture(scope="module")
def site(demo: Path, tmp_path_factory: pytest.TempPathFactory) -> Path:
    """The public demo with that story, one of three words, an empty one, and a name of one word."""
    folder = tmp_path_factory.mktemp("hostile") / "hangar"
    shutil.copytree(demo, folder)
    for slug, text in (("burdock", STORY), ("thistledown", "It just flies.\n"), ("trefoil", "")):
        (folder / f"aircraft/{slug}/write-up.md").write_text(text, "utf-8")
    record = folder / "aircraft/hogweed/aircraft.yaml"
    named = record.read_text("utf-8").replace("aircraft: Hogweed", f"aircraft: {LONG}", 1)
    record.write_text(named, "utf-8")
    (folder / "aircraft/hogweed/write-up.md").write_text("Its name is long.\n", "utf-8")
    into = folder.parent / "site"
    assert 0 == main(["render", str(folder), "--into", str(into), "--for", "public"])
    return into


@pytest.mark.parametrize("width", [320, 768])
@pytest.mark.parametrize(
    "page",
    ["index.html", *(f"aircraft/{slug}/write-up.html" for slug in ("burdock", "thistledown"))],
)
def test_nothing_pushes_a_page_sideways(looks: Looks, site: Path, page: str, width: int) -> None:
    """Words break, tables and code scroll in their own place, nothing lies over anything."""
    shown = looks(width, 700)
    shown.goto((site / page).as_uri())

    for probe in (probes.SIDEWAYS, probes.OVERLAPS, probes.CUT_OFF, probes.SMALL_TYPE):
        assert "" == "\n".join(shown.evaluate(probe))
    assert "run" != shown.title()


def test_a_paragraph_runs_from_the_side_of_its_letters(looks: Looks, site: Path) -> None:
    """What is written from the right begins there; the unit stands with its number."""
    page = looks(320, 700)
    page.goto((site / "aircraft/burdock/write-up.html").as_uri())
    right, left = page.evaluate(
        """() => {
          const p = [...document.querySelectorAll('.tale > p')]
            .find(e => e.textContent.includes('1480'));
          const range = document.createRange();
          range.selectNodeContents(p);
          const words = range.getBoundingClientRect(), room = p.getBoundingClientRect();
          return [room.right - words.right, words.left - room.left];
        }"""
    )

    assert right < 1 < left


def test_four_figures_stand_in_lines(looks: Looks, site: Path) -> None:
    """Values side by side are level, however many lines the words below them take."""
    page = looks(320, 700)
    page.goto((site / "aircraft/trefoil/index.html").as_uri())
    tops = page.locator(".four dd").evaluate_all(
        "all => all.map(e => e.getBoundingClientRect().top)"
    )

    assert 4 == len(tops)
    assert (tops[0], tops[2]) == (tops[1], tops[3])
