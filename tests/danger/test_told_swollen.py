"""Words that tell of a swollen pack where its look passed, or where they are only a remark.

No word sets a pack aside. But such a one is doubted, asked back by ``enter``, and the pack is to be
looked at.
"""

from pathlib import Path

import pytest
from hangar_on_disk import PACK, QUIET, Hangar, with_log

from buildbook.records.readings import may_tell_danger, swelling_told

LOG, STORE = "aircraft/sedge/logbook.yaml", "stores/p-01.yaml"
LOOK = "- {on: 2026-06-20, inspection: pack-look, tags: [P-01]%s}\n"
FLIGHT = "- {on: 2026-06-20, flight: 5:00, pack: P-01, note: %s}\n"


def stored(entries: str, log: str = "") -> dict[str, str]:
    """The quiet hangar with more entries of the pack in its own store."""
    return with_log(log, **{STORE: PACK + entries})


@pytest.mark.parametrize(
    ("files", "place", "said"),
    [
        (stored(LOOK % ", note: puffed"), STORE, "puffed"),
        (stored(LOOK % ", result: pass, findings: a bit swollen"), STORE, "a bit swollen"),
        (stored(LOOK % ", readings: {look: bloated}"), STORE, "bloated"),
        (
            stored("- {on: 2026-06-20, charge: P-01, to: storage, note: got puffy}\n"),
            STORE,
            "got puffy",
        ),
        (with_log("- {on: 2026-06-20, note: p-01 bulges}\n"), LOG, "p-01 bulges"),
        (with_log(FLIGHT % "pack came down puffy"), LOG, "pack came down puffy"),
    ],
)
def test_it_is_doubted_and_to_be_looked_at(
    tmp_path: Path, files: dict[str, str], place: str, said: str
) -> None:
    """At its line, and on every list of the pack."""
    found = Hangar(tmp_path, files)
    row = f"by the words '{said}' of an entry, not looked at since"
    line = len((found.folder / place).read_text("utf-8").splitlines())

    assert f"warning: '{said}' says that P-01 is swollen, and sets nothing aside" in (found.check)
    assert f"@ {place}:{line}\n" in found.check
    assert (3, True) == (found.due[0], row in found.due[1])
    assert [f"P-01 said swollen: due, {row}"] == found.pack("P-01")[1]
    for page in ("items/P-01.html", "due.html", "going-flying.html"):
        assert "said swollen" in found.page(page).casefold(), page


@pytest.mark.parametrize(
    ("after", "left"),
    [
        (LOOK.replace("-20", "-21") % "", False),
        (LOOK.replace("-20", "-21") % ", findings: still puffy", True),
        ("- {on: 2026-06-21, state: {P-01: serviceable}, because: only the label}\n", False),
        ("- {on: 2026-06-21, charge: P-01, to: storage}\n", True),
    ],
)
def test_a_look_closes_it(tmp_path: Path, after: str, left: bool) -> None:
    """One that says nothing of the kind, or the keeper's word with its reason."""
    files = stored(LOOK % ", note: puffed" + after)
    files["hangar.yaml"] = files["hangar.yaml"].replace("2026-06-20", "2026-06-21")

    found = Hangar(tmp_path, files)

    assert left == any("swollen" in one for one in found.pack("P-01")[1])
    assert left == ("is swollen" in found.check)


@pytest.mark.parametrize(
    "entry",
    [
        LOOK % ", findings: 'no dents, not swollen'",
        LOOK % ", findings: 'swelling: none'",
        LOOK % ", readings: {swelling: ok}",
        FLIGHT % "puffy clouds",
        "- {on: 2026-06-20, inspection: full-inspection, findings: frame bulges at the arm}\n",
    ],
)
def test_other_words_ask_nothing(tmp_path: Path, entry: str) -> None:
    """What is denied, and what is no pack."""
    found = Hangar(tmp_path, with_log(entry))

    assert "swollen" not in found.check
    assert [] == found.rows("said-swollen")


def test_of_no_known_pack_it_is_a_doubt_alone(tmp_path: Path) -> None:
    """Nothing says which one."""
    entry = "- {on: 2026-06-20, inspection: postflight-look, findings: pack puffed%s}\n"

    assert (
        "'pack puffed' says that a pack is swollen, and not which"
        in Hangar(tmp_path, with_log(entry % "")).check
    )
    assert "swollen" not in Hangar(tmp_path / "sure", with_log(entry % ", sure: true")).check


def test_sure_silences_the_doubt_and_not_the_row(tmp_path: Path) -> None:
    """What is written is right, and so is to be looked at."""
    found = Hangar(tmp_path, stored(LOOK % ", note: puffed, sure: true"))

    assert "swollen" not in found.check
    assert 1 == len(found.rows("said-swollen"))


def test_enter_asks_back(tmp_path: Path) -> None:
    """Before anything is written."""
    found = Hangar(tmp_path, QUIET)
    words = ("enter", "--hangar", str(found.folder), "--on", "2026-06-20", "note", "P-01")
    status, said = found.run(*words, "a bit puffed")

    assert (1, True) == (status, "'a bit puffed' says that P-01 is swollen" in said)
    assert PACK == (found.folder / STORE).read_text("utf-8")


@pytest.mark.parametrize(
    ("words", "told"),
    [
        ("slightly swollen at one corner", "slightly swollen at one corner"),
        ("no dents, but it is puffed", "it is puffed"),
        ("not flown because puffed", "puffed"),
        ("no visible dents or swelling", None),
        ("it isn't swollen", None),
        ("never been bloated", None),
        ("puffing none", None),
        ("a puff of wind", None),
    ],
)
def test_which_words_tell_of_swelling(words: str, told: str | None) -> None:
    """By the clause that the word stands in."""
    assert told == swelling_told(words)


@pytest.mark.parametrize(
    ("words", "told"),
    [
        ("crack at the rear arm", True),
        ("rear-left motor hot", True),
        ("flown on, still loose", True),
        ("no cracks, nothing loose", False),
        ("not a crack in sight", False),
        ("a hot day, few flights", False),
    ],
)
def test_which_words_may_tell_of_a_danger(words: str, told: bool) -> None:
    """What is denied, and warm weather, keep no remark in sight."""
    assert told == may_tell_danger(words)


def test_its_words_are_told_once(tmp_path: Path) -> None:
    """The row has them, so they are not listed among the notes again."""
    found = Hangar(tmp_path, stored(LOOK % ", note: puffed"))

    assert 1 == found.due[1].count("puffed")
    assert 1 == found.page("cards/sedge-field.html").count("puffed")
