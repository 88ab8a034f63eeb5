"""A24: a LiPo that is flown cold gives less time; the card says so before the next flight."""

from pathlib import Path

import pytest
from hangar_on_disk import AS_OF, QUIET, SPECS, Hangar, with_log

FIELD = "cards/sedge-field.html"
PAGES = (FIELD, "going-flying.html")
WORDS = "cold pack: less time"


def flown(at: str, on: str = "2026-06-20", pack: str = "P-01") -> str:
    """A flight with a temperature, or without one."""
    temperature = f"  temperature: {at}\n" if at else ""
    return f"- on: {on}\n  flight: 5:00\n  pack: {pack}\n{temperature}"


def saying(hangar: Hangar) -> list[str]:
    """The pages that say it."""
    return [page for page in PAGES if WORDS in hangar.page(page)]


def test_a_cold_pack_is_said_at_the_field(tmp_path: Path) -> None:
    """With the temperature and the day, on the field card and on *Going flying*."""
    hangar = Hangar(tmp_path, with_log(flown("4 °C")))

    words = f"{WORDS} (flown at 4 °C on 20 June 2026)"
    assert f"P-01, {words}." in hangar.page(FIELD)
    assert f", {words}" in hangar.page("going-flying.html")


@pytest.mark.parametrize(
    ("log", "pages"),
    [
        (flown("9.9 °C"), list(PAGES)),
        (flown("10 °C"), []),
        (flown(""), []),
        (flown("4 °C", "2026-06-19") + flown("15 °C"), []),
        (flown("4 °C", "2026-06-19") + flown(""), list(PAGES)),
    ],
    ids=["just below", "at the line", "not recorded", "warmer since", "nothing recorded since"],
)
def test_the_last_temperature_decides(tmp_path: Path, log: str, pages: list[str]) -> None:
    """Below 10 °C; a flight without one says nothing."""
    assert pages == saying(Hangar(tmp_path, with_log(log)))


@pytest.mark.parametrize(("day", "pages"), [("2026-07-20", list(PAGES)), ("2026-07-21", [])])
def test_it_is_said_for_a_month(tmp_path: Path, day: str, pages: list[str]) -> None:
    """Thirty days after the flight, and no longer."""
    keeper = QUIET["hangar.yaml"].replace(AS_OF, day)

    assert pages == saying(Hangar(tmp_path, with_log(flown("4 °C"), **{"hangar.yaml": keeper})))


def test_only_a_lipo_is_meant(tmp_path: Path) -> None:
    """Nor a pack that is set aside: it is not flown at all."""
    cells = SPECS.replace("chemistry: LiPo", "chemistry: LiFe")
    other = Hangar(tmp_path / "other", with_log(flown("4 °C"), **{"parts/specs.yaml": cells}))
    puffed = "- on: 2026-06-20\n  defect: puffed\n  item: P-01\n"
    aside = Hangar(tmp_path / "aside", with_log(flown("4 °C") + puffed))

    assert [] == saying(other)
    assert [] == saying(aside)


def test_a_cold_pack_is_in_sight_among_many(tmp_path: Path) -> None:
    """Of a long list what is in order is folded; this pack is told before."""
    packs = "- {tags: P-11..P-30, spec: pack, acquired: 2026-01-01}\n"
    hangar = Hangar(tmp_path, with_log(flown("4 °C"), **{"parts/items/more.yaml": packs}))
    listed = hangar.page("going-flying.html").partition("To charge")[2]

    assert listed.index(WORDS) < listed.index(" packs, nothing open")
    assert WORDS not in listed.partition(" packs, nothing open")[2]
