"""The page on themes works as it is written."""

import re
import shlex
from pathlib import Path

import pytest

from buildbook.commands.main import main

ROOT = Path(__file__).parents[2]
TEXT = (ROOT / "docs/themes.md").read_text("utf-8")
FIELDBOOK = ROOT / "themes/fieldbook"


def block(language: str) -> str:
    """The one block of that language."""
    (found,) = re.findall(rf"```{language}\n(.*?)```", TEXT, re.S)
    return str(found)


@pytest.mark.usefixtures("beside_the_demo")
def test_the_theme_of_the_page_renders() -> None:
    """Its colours come last, its page is its own, and all else is that of the default."""
    Path("slate/templates").mkdir(parents=True)
    style = (FIELDBOOK / "style.css").read_text("utf-8")
    Path("slate/style.css").write_text(style + block("css"), "utf-8")
    Path("slate/templates/not_found.html.j2").write_text(block("jinja"), "utf-8")
    (command,) = re.findall(r"^    (buildbook .*)$", TEXT, re.M)

    assert 0 == main(shlex.split(command)[1:])
    missing = Path("my-site/404.html").read_text("utf-8")
    assert "There is no such sheet in this folder." in missing
    assert '<a href="index.html">To the first sheet</a>' in missing
    css = Path("my-site/style.css").read_text("utf-8")
    assert css.index("--ground:#f4efe3") < css.index("--ground:#eceff1")
    assert '<h2 id="packs">' in Path("my-site/going-flying.html").read_text("utf-8")


def test_the_colours_are_the_ten() -> None:
    """As DESIGN.md keeps them."""
    kept = (FIELDBOOK / "DESIGN.md").read_text("utf-8").partition("**What is kept**")[2]
    colours = kept.partition("Colours")[2].partition("\n-")[0]

    assert re.findall(r"`(--[a-z-]+)`", colours) == re.findall(r"(--[a-z-]+):", block("css"))


def test_the_files_are_those_of_a_theme() -> None:
    """None is named that is not there, and none is forgotten."""
    table = TEXT.partition("| file |")[2].partition("\n\n")[0]
    named = set(re.findall(r"`([a-z-]+\.(?:css|js))`", table))

    assert {path.name for path in FIELDBOOK.iterdir() if path.suffix in (".css", ".js")} == named


def test_the_names_of_templates_are_there() -> None:
    """Blocks of the frame, as it has them."""
    frame = (FIELDBOOK / "templates/base.html.j2").read_text("utf-8")
    told = re.search(r"set its blocks, as those of `fieldbook` do: (.*?)\. In", TEXT, re.S)

    assert told is not None
    assert set(re.findall(r"{% block (\w+) %}", frame)) == set(re.findall(r"`(\w+)`", told[1]))
