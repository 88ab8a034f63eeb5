"""Private words of the records in public texts: serials, registrations, people, places."""

import random
from collections.abc import Callable
from pathlib import Path

import pytest

from buildbook.audience.leaks.watch import LeakWatch
from buildbook.audience.sharing import sharing_for
from buildbook.records.ledger import Ledger
from buildbook.records.reading.read import read_hangar
from tests.fuzz.betraying_texts import FRAMES, dressed

HANGAR = """\
hangar: Loft
keeper: Bo Harrow
people:
  kim: {name: Kim Sedley, public: true}
  jon: {name: Jon van Pell}
  max: {name: Max Otter}
"""
FILES = {
    "hangar.yaml": HANGAR,
    "parts/specs.yaml": "- {spec: m, kind: motor}\n",
    "parts/items.yaml": (
        "- {tag: M-1, spec: m, serial: SN-Q77/4}\n"
        "- {tag: M-2, spec: m, serial: '471182'}\n"
        "- {tag: M-3, spec: m, serial: '4718'}\n"
        "- {tag: M-4, spec: m, serial: '12'}\n"
    ),
    "aircraft/heron/aircraft.yaml": (
        "aircraft: Heron\nkind: aeroplane\nlayout: aeroplane\nregistration: Xy-Zw 47\n"
    ),
    "aircraft/heron/logbook.yaml": (
        "- {on: 2026-02-01, flight: 5:00, place: Harrow Lane, by: jon}\n"
        "- {on: 2026-02-02, flight: 5:00, place: garden, by: jon}\n"
        "- {on: 2026-02-03, id: a, flight: 5:00, place: nowhere}\n"
        "- {on: 2026-02-04, corrects: a, set: {place: Sallow Pit}, because: x}\n"
    ),
}
SERIAL = "the serial number of an item stands"
REGISTRATION = "the registration of an aircraft stands"
PERSON = "the name of a person stands"
KEEPER = "the name of the keeper stands"
PLACE = "the name of a place stands"

Watch = Callable[..., list[str]]


@pytest.fixture
def told(tmp_path: Path) -> Watch:
    """What a text betrays of that hangar; ``share`` as in hangar.yaml."""

    def look(text: str, share: str = "{}") -> list[str]:
        for name, content in {**FILES, "hangar.yaml": f"{HANGAR}share: {share}\n"}.items():
            path = tmp_path / name
            path.parent.mkdir(parents=True, exist_ok=True)
            path.write_text(content, "utf-8")
        reading = read_hangar(tmp_path)
        assert isinstance(reading.ledger, Ledger)
        watch = LeakWatch(reading.ledger, sharing_for("public", reading.ledger.keeper))
        return [reason for reason, _ in watch.given_away_by(text)]

    return look


@pytest.mark.parametrize(
    ("text", "reason"),
    [
        ("marked sn-q77/4 inside", SERIAL),
        ("marked SNQ774 inside", SERIAL),
        ("marked s n q 7 7 4 inside", SERIAL),
        ("marked SN_Q77_4.", SERIAL),
        ("marked S*N*-Q77/4", SERIAL),
        ("marked S\u200bN-Q77/4", SERIAL),
        ("marked SN&#45;Q77/4", SERIAL),
        ("marked SN-\nQ77/4", SERIAL),
        ("number 471182 it is", SERIAL),
        ("number 471 182 it is", SERIAL),
        ("number 4718 it is", SERIAL),
        ("XYZW47", REGISTRATION),
        ("xy zw-47", REGISTRATION),
        ("Jon held the wing", PERSON),
        ("jon's idea", PERSON),
        ("JON VAN PELL", PERSON),
        ("old Pell came by", PERSON),
        ("with Max on the field", PERSON),
        ("thanks to Max Otter", PERSON),
        ("Harrow built it", KEEPER),
        ("bo harrow", KEEPER),
        ("down in harrow  lane", PLACE),
        ("flown at Harrow-Lane", PLACE),
        ("the sallow pit", PLACE),
    ],
)
def test_a_private_word_is_found_in_any_case_and_spacing(
    text: str, reason: str, told: Watch
) -> None:
    """Whatever stands between its letters, digits and lines."""
    assert reason in told(text)


@pytest.mark.parametrize(
    "text",
    [
        "SN-Q77/45 and ASN-Q77/4",
        "motors 47, 18",
        "12 of them",
        "at 4.718 V",
        "max current 20 A",
        "Max current 20 A",
        "a van on the lawn",
        "the end of the garden",
        "Jonquil",
        "the lane, and a harrowing descent",
    ],
)
def test_ordinary_words_are_no_private_ones(text: str, told: Watch) -> None:
    """Longer words, other numbers, words of the trade and names of what is no place."""
    assert [] == told(text)


def test_who_agreed_is_named_where_the_keeper_shares_names(told: Watch) -> None:
    """Both must want it; others stay hidden."""
    share = "{names: true}"

    assert [PERSON] == told("Kim helped")
    assert [] == told("Kim Sedley helped", share)
    assert [PERSON] == told("Jon helped", share)


def test_places_are_named_where_they_are_shared(told: Watch) -> None:
    """With the switch a recorded place is no longer private."""
    assert [] == told("down at Sallow Pit", "{places: true}")


def test_days_are_told_where_days_are_shared(told: Watch) -> None:
    """With dates: day an exact day may stand."""
    assert ["an exact day"] == told("on 3 March 2026")
    assert [] == told("on 3 March 2026", "{dates: day}")


@pytest.mark.parametrize("round_", range(4))
def test_private_words_are_told_however_they_are_dressed(round_: int, told: Watch) -> None:
    """References, unseen signs, marks, links, escapes, blanks, wide digits, dashes."""
    slipped = []
    for number in range(round_ * 30, round_ * 30 + 30):
        chance = random.Random(f"private {number}")
        word = chance.choice(
            ("SN-Q77/4", "471182", "Xy-Zw 47", "Harrow", "Jon van Pell", "Sallow Pit")
        )
        text = chance.choice(FRAMES).format(dressed(word, chance))
        if not told(text):
            slipped.append(text)
    assert [] == slipped
