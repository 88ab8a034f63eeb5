"""An ordinary season: a careful keeper with three aircraft, from March to the end of October.

He does the set-up checks, flies most weekends, and does at the end of each month what ``due``
lists. What the program says of it is kept in ``seasons/ordinary/said``: it must not nag. So does a
club with a trainer and a tricopter, whose flyers add their remarks, in ``seasons/club``.
"""

import datetime
import json
from pathlib import Path

import pytest
from hangar_on_disk import Hangar

SEASONS = Path(__file__).parent / "seasons"
SEASON = SEASONS / "ordinary"
MONTHS_ENDS = ("03-31", "04-30", "05-31", "06-30", "07-31", "08-31", "09-30", "10-31")
OPEN = ("stale", "failed", "never done", "due", "in tolerance", "overdue", "reached", "open")


def asked(tmp_path: Path, *words: str, season: Path = SEASON) -> tuple[int, str]:
    """Exit status of a command on the season, and what it said."""
    return Hangar(tmp_path, {}).run(words[0], str(season), *words[1:])


def standing(tmp_path: Path, day: str, season: Path = SEASON) -> tuple[set[str], dict[str, int]]:
    """The states of the aircraft on a day, and how many rows ask for something, by aircraft."""
    found = json.loads(asked(tmp_path, "due", "--json", "--as-of", day, season=season)[1])
    rows: dict[str, set[str]] = {one["slug"]: set() for one in found["aircraft"]}
    for row in found["rows"]:
        if row["aircraft"] and row["state"] in OPEN:
            rows[row["aircraft"]].add(row["name"])
    return {one["state"] for one in found["aircraft"]}, {
        slug: len(names) for slug, names in rows.items()
    }


@pytest.mark.parametrize("name", ["ordinary", "club"])
def test_its_end_is_quiet(tmp_path: Path, name: str) -> None:
    """Nothing grounded, at most one row for each aircraft, and no warning of any kind."""
    season = SEASONS / name
    states, rows = standing(tmp_path, "2026-10-31", season)

    assert "grounded" not in states
    assert all(count <= 1 for count in rows.values())
    for word in ("check", "due"):
        said = (season / "said" / f"{word}.txt").read_text("utf-8")
        assert (0, said) == asked(tmp_path, word, season=season)


@pytest.mark.parametrize(
    ("name", "month_end"),
    [
        *(("ordinary", end) for end in MONTHS_ENDS),
        *(("club", end) for end in MONTHS_ENDS if end > "04"),
    ],
)
def test_no_month_grounds_or_floods(tmp_path: Path, name: str, month_end: str) -> None:
    """The day before the list is worked off: nothing grounded, at most five jobs an aircraft."""
    season = SEASONS / name
    day = datetime.date.fromisoformat(f"2026-{month_end}") - datetime.timedelta(days=1)
    states, rows = standing(tmp_path, day.isoformat(), season)

    assert "grounded" not in states
    assert all(count <= 5 for count in rows.values())
    after, left = standing(tmp_path, f"2026-{month_end}", season)
    assert ("grounded" not in after, {0}) == (True, set(left.values()))


def test_the_next_spring_asks_for_what_a_winter_asks(tmp_path: Path) -> None:
    """Five months on: the failsafe before it flies, one large look for each, packs together."""
    said = (SEASON / "said" / "due-next-spring.txt").read_text("utf-8")

    assert (3, said) == asked(tmp_path, "due", "--as-of", "2027-03-20")
