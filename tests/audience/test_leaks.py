"""What must not stand in a text for the public: told with its line, never with its value.

After section 6 of the record rules of this project (P02, P04, P09, P12).
"""

import json
from pathlib import Path

import pytest

from buildbook.commands.main import main
from tests.pages.sites import as_read

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


def test_what_the_keeper_lets_pass_may_stand(
    tmp_path: Path, capsys: pytest.CaptureFixture[str]
) -> None:
    """The mark holds for one paragraph, and is no text of the page."""
    story = "@ public: ok\nBought for 20 EUR\nin 2025.\n\nSold for 30 EUR.\n"

    assert [
        "looks like a price in a text that would be public @ aircraft/heron/write-up.md:5"
    ] == told(tmp_path, story, "public", capsys)
    assert [] == told(tmp_path, story.partition("\n\n")[0] + "\n", "public", capsys)
    page = as_read((tmp_path / "site/aircraft/heron/write-up.html").read_text("utf-8"))
    assert "20 EUR" in page
    assert "public: ok" not in page


def test_the_hint_says_how_to_let_it_pass(
    tmp_path: Path, capsys: pytest.CaptureFixture[str]
) -> None:
    """A story has its mark, a record its key."""
    files = {
        "aircraft/heron/write-up.md": "20 EUR\n",
        "aircraft/heron/logbook.yaml": "- on: 2026-02-01\n  repair: glue for 20 EUR\n",
    }
    for name, text in {**FILES, **files}.items():
        path = tmp_path / "hangar" / name
        path.parent.mkdir(parents=True, exist_ok=True)
        path.write_text(text, "utf-8")
    main(["render", str(tmp_path / "hangar"), "--into", str(tmp_path / "s"), "--for", "public"])

    assert [
        "problem: looks like a price in a text that would be public"
        " @ aircraft/heron/logbook.yaml:2",
        "    take it out, or look at the whole record and write 'public: ok' in it",
        "problem: looks like a price in a text that would be public @ aircraft/heron/write-up.md:1",
        "    take it out, or write '@ public: ok' on a line before the paragraph",
    ] == capsys.readouterr().err.splitlines()[:4]


@pytest.mark.parametrize(
    "entry",
    [
        "repair: glue for 20 EUR",
        "setting: {glue: 20 EUR}",
        "gains: for 20 EUR\n  values: {roll: {p: 4}}",
        "gains: calm\n  values: {roll: {p: 4}}\n- on: 2026-02-01\n  verdict: {calm: worth 20 EUR}",
        "alteration: hook for 20 EUR",
        "check: hinges\n  result: pass\n  readings: {worth: 20 EUR}",
    ],
)
def test_a_record_with_public_ok_may_stand(
    entry: str, tmp_path: Path, capsys: pytest.CaptureFixture[str]
) -> None:
    """Without the key it stops the render at its line; with it, it stands in the site."""
    log = "aircraft/heron/logbook.yaml"
    for key, problems in (("", 1), ("  public: ok\n", 0)):
        text = f"- on: 2026-02-01\n  {entry}\n{key}"
        for name, content in {**FILES, log: text}.items():
            path = tmp_path / "hangar" / name
            path.parent.mkdir(parents=True, exist_ok=True)
            path.write_text(content, "utf-8")
        main(["render", str(tmp_path / "hangar"), "--into", str(tmp_path / "s"), "--for", "public"])
        found = [line for line in capsys.readouterr().err.splitlines() if "a price" in line]
        assert problems == len(found)
        assert all(f" @ {log}:" in line for line in found)


@pytest.mark.parametrize(
    "name",
    [
        "password",
        "bind_phrase",
        "wifiPassword",
        "WiFi-SSID",
        "api_key",
        "receiver.uid",
        "PIN",
        "mac",
        "serialnumber",
        "home_lat",
    ],
)
def test_a_setting_whose_name_is_secret_is_in_no_public_site(name: str, tmp_path: Path) -> None:
    """It is left out without a problem, wherever settings and readings are shown."""
    log = (
        f"- on: 2026-02-01\n  setting: {{{name}: qv81xx, expo: 12 %}}\n"
        f"- on: 2026-02-02\n  check: hinges\n  result: pass\n  readings: {{{name}: qv81xx}}\n"
    )
    for file, content in {**FILES, "aircraft/heron/logbook.yaml": log}.items():
        path = tmp_path / "hangar" / file
        path.parent.mkdir(parents=True, exist_ok=True)
        path.write_text(content, "utf-8")
    site = tmp_path / "site"

    assert 0 == main(["render", str(tmp_path / "hangar"), "--into", str(site), "--for", "public"])
    everything = b"".join(path.read_bytes() for path in site.rglob("*") if path.is_file())
    assert b"qv81xx" not in everything
    assert "12 %" in as_read(everything.decode("utf-8", "ignore"))


def test_check_for_public_says_what_render_says(
    tmp_path: Path, capsys: pytest.CaptureFixture[str]
) -> None:
    """The same sentences in the same order; without the option only what is wrong for the owner."""
    story = "Bought for 20 EUR, SN-CANARY-77.\n\nIda Quill at 52.51631, 13.37770.\n"
    by_render = told(tmp_path, story, "public", capsys)
    folder = str(tmp_path / "hangar")

    assert 0 == main(["check", folder])
    assert "problem" not in capsys.readouterr().out.replace("no problems", "")
    assert 1 == main(["check", folder, "--for", "public"])
    lines = capsys.readouterr().out.splitlines()
    assert 4 == len(by_render)
    assert by_render == [
        line.removeprefix("problem: ") for line in lines if line.startswith("problem: ")
    ]
    assert 1 == main(["check", folder, "--for", "public", "--json"])
    shaped = json.loads(capsys.readouterr().out)["problems"]
    assert by_render == [f"{each['reason']} @ {each['file']}:{each['line']}" for each in shaped]


@pytest.mark.parametrize(
    "shown", ["```\n@ public: ok\n```", "    @ public: ok\n", "~~~\n@ public: ok\n~~~"]
)
def test_the_pass_of_a_paragraph_in_code_is_text(
    shown: str, tmp_path: Path, capsys: pytest.CaptureFixture[str]
) -> None:
    """A story that shows how to write it lets nothing pass by that."""
    story = f"# Heron\n\n{shown}\nIda Quill held the wing.\n"

    line = 4 + shown.count("\n")
    assert [
        "the name of a person stands in a text that would be public "
        f"@ aircraft/heron/write-up.md:{line}"
    ] == told(tmp_path, story, "public", capsys)
