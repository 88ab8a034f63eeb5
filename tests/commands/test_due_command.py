"""``buildbook due`` on a terminal and as JSON."""

import json
from pathlib import Path

import pytest


def put(path: Path, old: str, new: str) -> None:
    """Replace words in a file; they must stand there once."""
    text = path.read_text("utf-8")
    assert text.count(old) == 1
    path.write_text(text.replace(old, new), "utf-8")


def test_due_says_what_and_why(run, loft: Path) -> None:
    """A whole screen: states first, then what to do, each with its place."""
    ran = run("due", loft)

    assert ran == (
        3,
        """\
Record to 20 November 2026

  Heron  due soon

Now
  Heron: motor bearings of M-1 - due
      no flights left
      parts/items.yaml:1
      Turn each motor by hand.
""",
        "",
    )


def test_nothing_due_is_status_zero(run, loft: Path) -> None:
    """After the job is done there is nothing to say, and the exit status is 0."""
    log = loft / "aircraft/heron/logbook.yaml"
    log.write_text(
        log.read_text("utf-8") + "- on: 2026-02-09\n  inspection: motor-bearings\n", "utf-8"
    )

    ran = run("due", loft)

    assert ran == (0, "Record to 20 November 2026\n\n  Heron  nothing open\n", "")


def test_within_shows_what_comes(run, loft: Path) -> None:
    """``--within`` adds the calendar of the days to come."""
    put(loft / "programmes/shop.yaml", "{flights: 3}", "{months: 12}")

    assert "Within" not in run("due", loft).out
    assert run("due", loft, "--within", "90d").out.endswith(
        """\
Within 90 days
  Heron: motor bearings of M-1 - ok
      by 1 February 2027 (73 days)
      parts/items.yaml:1
      Turn each motor by hand.
"""
    )


def test_planned_says_what_falls_due_in_the_flight(run, loft: Path) -> None:
    """R27: something with one flight left falls due in it."""
    put(loft / "programmes/shop.yaml", "{flights: 3}", "{flights: 4}")

    assert run("due", loft, "--planned", "6min").out == (
        """\
A flight of 6 min 00 s, record to 20 November 2026

Heron: due soon; 1 row falls due in this flight
  - motor bearings of M-1 at nose, 1 flight left
"""
    )


def test_json_has_the_shape_of_the_contract(run, loft: Path) -> None:
    """Keys of the file contract, ``aircraft``, ``tag`` and ``station`` always there."""
    ran = run("due", loft, "--json")

    shape = json.loads(ran.out)
    row = shape["rows"][0]
    assert ran.status == 3
    assert list(shape) == ["as_of", "aircraft", "packs", "rows"]
    assert list(shape["aircraft"][0]) == ["slug", "name", "state", "reasons"]
    assert shape["aircraft"][0]["reasons"] == [
        {"what": "motor bearings of M-1 at nose: due", "place": "parts/items.yaml:1"}
    ]
    assert list(row) == [
        "aircraft",
        "kind",
        "name",
        "tag",
        "station",
        "state",
        "first_by",
        "left",
        "due_on",
        "expected",
        "because",
        "place",
    ]
    assert (row["state"], row["first_by"], row["left"]) == ("due", "flights", {"flights": 0})


def test_as_of_shows_an_earlier_day(run, loft: Path) -> None:
    """Before the flights nothing was due."""
    ran = run("due", loft, "--as-of", "2026-02-02")

    assert ran.status == 0
    assert ran.out == "Record to 2 February 2026\n\n  Heron  nothing open\n"


def test_one_broken_aircraft_does_not_silence_the_others(run, loft: Path) -> None:
    """The problem is told, the sound aircraft is too, and 1 wins over 3."""
    other = loft / "aircraft/wren/aircraft.yaml"
    other.parent.mkdir()
    other.write_text("aircraft: Wren\nkind: multirotor\nlayout: quad-xx\n", "utf-8")

    ran = run("due", loft)

    assert ran.status == 1
    assert "@ aircraft/wren/aircraft.yaml:3" in ran.err
    assert "Heron: motor bearings of M-1 - due" in ran.out


@pytest.mark.parametrize(
    ("words", "told"),
    [
        (("--as-of", "2026-2-1"), "--as-of: '2026-2-1' is not a day; write 2026-02-01"),
        (
            ("--within", "soon"),
            "--within: 'soon' is not a number of days; write it like 30d",
        ),
        (("--aircraft", "herron"), "no aircraft is called 'herron'; did you mean 'heron'?"),
    ],
)
def test_wrong_use_is_one_sentence(run, loft: Path, words: tuple[str, str], told: str) -> None:
    """Exit status 2, nothing on standard output."""
    assert run("due", loft, *words) == (2, "", f"buildbook due: {told}\n")


def test_the_hangar_is_found_by_name_or_by_place(
    run, loft: Path, monkeypatch: pytest.MonkeyPatch, tmp_path: Path
) -> None:
    """``--hangar``, the current folder, or its ``content``."""
    named = run("due", "--hangar", loft)
    monkeypatch.chdir(loft)
    here = run("due")
    loft.rename(tmp_path / "content")
    monkeypatch.chdir(tmp_path)
    content = run("due")

    assert named == here == content
    assert named.status == 3


def test_an_aircraft_is_asked_for_by_its_name_too(run, loft: Path) -> None:
    """Whatever its capitals, as ``figures`` and ``enter`` take it."""
    assert run("due", "--aircraft", "heron", loft) == run("due", "--aircraft", "HERON", loft)
    assert (2, "buildbook due: no aircraft is called 'herron'; did you mean 'heron'?\n") == (
        run("due", "--aircraft", "herron", loft)[::2]
    )
