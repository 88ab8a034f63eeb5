"""An ordinary season: a careful keeper with three aircraft, from March to the end of October.

He does the set-up checks, flies most weekends, and does at the end of each month what ``due``
lists. What the program says of it is kept in ``seasons/ordinary/said``: it must not nag.
"""

import datetime
import json
from pathlib import Path

import pytest
from hangar_on_disk import Hangar

SEASON = Path(__file__).parent / "seasons" / "ordinary"
MONTHS_ENDS = ("03-31", "04-30", "05-31", "06-30", "07-31", "08-31", "09-30", "10-31")
OPEN = ("stale", "failed", "never done", "due", "in tolerance", "overdue", "reached", "open")


def asked(tmp_path: Path, *words: str) -> tuple[int, str]:
    """Exit status of a command on the season, and what it said."""
    return Hangar(tmp_path, {}).run(words[0], str(SEASON), *words[1:])


def standing(tmp_path: Path, day: str) -> tuple[set[str], dict[str, int]]:
    """The states of the aircraft on a day, and how many rows ask for something, by aircraft."""
    found = json.loads(asked(tmp_path, "due", "--json", "--as-of", day)[1])
    rows: dict[str, set[str]] = {one["slug"]: set() for one in found["aircraft"]}
    for row in found["rows"]:
        if row["aircraft"] and row["state"] in OPEN:
            rows[row["aircraft"]].add(row["name"])
    return {one["state"] for one in found["aircraft"]}, {
        slug: len(names) for slug, names in rows.items()
    }


def test_its_end_is_quiet(tmp_path: Path) -> None:
    """Nothing grounded, at most one row for each aircraft, and no warning of any kind."""
    states, rows = standing(tmp_path, "2026-10-31")

    assert "grounded" not in states
    assert all(count <= 1 for count in rows.values())
    assert (0, (SEASON / "said" / "check.txt").read_text("utf-8")) == asked(tmp_path, "check")
    assert (0, (SEASON / "said" / "due.txt").read_text("utf-8")) == asked(tmp_path, "due")


@pytest.mark.parametrize("month_end", MONTHS_ENDS)
def test_no_month_grounds_or_floods(tmp_path: Path, month_end: str) -> None:
    """The day before the list is worked off: nothing grounded, at most five jobs an aircraft."""
    day = datetime.date.fromisoformat(f"2026-{month_end}") - datetime.timedelta(days=1)
    states, rows = standing(tmp_path, day.isoformat())

    assert "grounded" not in states
    assert all(count <= 5 for count in rows.values())
    after, left = standing(tmp_path, f"2026-{month_end}")
    assert ("grounded" not in after, {0}) == (True, set(left.values()))


def test_the_next_spring_asks_for_what_a_winter_asks(tmp_path: Path) -> None:
    """Five months on: the failsafe before it flies, one large look for each, packs together."""
    said = (SEASON / "said" / "due-next-spring.txt").read_text("utf-8")

    assert (3, said) == asked(tmp_path, "due", "--as-of", "2027-03-20")
