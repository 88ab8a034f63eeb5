"""What must not stand in a text for the public: told with its line, never with its value.

After section 6 of the record rules of this project (P02, P04, P09, P12).
"""

from pathlib import Path

import pytest

from buildbook.commands.main import main

pytestmark = pytest.mark.usefixtures("private_cache")

FILES = {
    "hangar.yaml": "hangar: Loft\nas_of: 2026-11-20\npeople: {ida: {name: Ida Quill}}\n",
    "parts/specs.yaml": "- {spec: m, kind: motor}\n",
    "parts/items.yaml": "- {tag: M-1, spec: m, serial: SN-CANARY-77}\n",
    "aircraft/heron/aircraft.yaml": (
        "aircraft: Heron\nkind: aeroplane\nlayout: aeroplane\nregistration: XY-4711\n"
    ),
    "aircraft/heron/logbook.yaml": "- {on: 2026-02-01, note: new}\n",
}


def told(folder: Path, story: str, audience: str, capsys: pytest.CaptureFixture[str]) -> list[str]:
    """The problems of a render of that build story."""
    for name, text in {**FILES, "aircraft/heron/write-up.md": story}.items():
        path = folder / "hangar" / name
        path.parent.mkdir(parents=True, exist_ok=True)
        path.write_text(text, "utf-8")
    main(["render", str(folder / "hangar"), "--into", str(folder / "site"), "--for", audience])
    lines = capsys.readouterr().err.splitlines()
    return [line.removeprefix("problem: ") for line in lines if line.startswith("problem: ")]


@pytest.mark.parametrize(
    ("words", "said"),
    [
        ("serial SN-CANARY-77", "the serial number of an item stands in"),
        ("look at 12.3456, -45.6789", "looks like coordinates in"),
        ("see https://maps.example.org/?q=52.3456,-1.6789", "a link to a map in"),
        ("number ZZZ1a2b3c4d5e6f7", "looks like an operator number in"),
        ("write to ida@example.org", "looks like an e-mail address in"),
        ("Ida Quill held the wing", "the name of a person stands in"),
        ("marked XY-4711", "the registration of an aircraft stands in"),
    ],
)
def test_each_leak_is_told_at_its_line(
    words: str, said: str, tmp_path: Path, capsys: pytest.CaptureFixture[str]
) -> None:
    """P02, P04, P09: the third line of a story holds it; the owner may read it."""
    story = f"# Heron\n\nThe build: {words}.\n"

    found = told(tmp_path, story, "public", capsys)

    place = "aircraft/heron/write-up.md:3"
    assert f"{said} a text that would be public @ {place}" in found
    assert not [line for line in found if words.rsplit(" ", 1)[-1] in line]
    assert [] == told(tmp_path, story, "owner", capsys)


def test_all_leaks_of_a_story_are_told_at_once(
    tmp_path: Path, capsys: pytest.CaptureFixture[str]
) -> None:
    """A serial number does not hide the name below it; the same leak on one line is told once."""
    story = "SN-CANARY-77, again SN-CANARY-77\n\nIda Quill\n"

    assert [
        "the serial number of an item stands in a text that would be public"
        " @ aircraft/heron/write-up.md:1",
        "the name of a person stands in a text that would be public @ aircraft/heron/write-up.md:3",
    ] == told(tmp_path, story, "public", capsys)
