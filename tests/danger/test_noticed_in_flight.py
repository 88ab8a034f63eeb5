"""A25: what was noticed in flight grounds until somebody looked. A9: leads that were changed."""

from pathlib import Path

import pytest
from hangar_on_disk import Hangar, with_log

FLOWN = "- on: 2026-06-19\n  flight: 5:00\n  pack: P-01\n  noticed: [{what}]\n"


@pytest.mark.parametrize(
    ("what", "open_"),
    [
        ("link lost", {"failsafe", "range"}),
        ("power dip", {"solder-and-leads"}),
        ("shaking", {"propeller-touch", "screws-and-mounts"}),
        ("wrong way", {"correction-sense"}),
        ("flutter", {"look-after-flutter"}),
    ],
)
def test_it_grounds_until_looked_at(tmp_path: Path, what: str, open_: set[str]) -> None:
    """Each re-opens what may have caused it, and nothing else; it is no hard landing."""
    hangar = Hangar(tmp_path, with_log(FLOWN.format(what=what)))

    found = {row["name"] for row in hangar.json["rows"] if row["state"] in ("stale", "open")}
    assert ("grounded", open_) == (hangar.state(), found)
    assert 3 == hangar.due[0]
    for name in open_:
        assert [] == hangar.silent_pages(name)


@pytest.mark.parametrize(
    ("what", "looked"),
    [
        ("link lost", "check: [failsafe, range]\n  result: pass"),
        ("power dip", "inspection: solder-and-leads"),
        ("flutter", "inspection: postflight-look"),
    ],
)
def test_a_look_closes_it(tmp_path: Path, what: str, looked: str) -> None:
    """By its name; without a row for it, any look after the flight."""
    hangar = Hangar(tmp_path, with_log(FLOWN.format(what=what) + f"- on: 2026-06-20\n  {looked}\n"))

    assert "grounded" != hangar.state()


@pytest.mark.parametrize(
    "entry",
    [
        "note: swapped two motor leads\n  rewired: [front-left]",
        "repair: ESC reversed in its menu\n  touched: [front-left]\n  rewired: [front-left]",
        "alteration: leads soldered anew\n  rewired: [front-left]",
        "alteration: planned anew\n  stations: {front-left: {output: 3}}",
        "alteration: new lead\n  wiring:\n    - {from: esc front-left, to: motor front-left}",
    ],
)
def test_changed_leads_make_the_spin_of_that_station_stale(tmp_path: Path, entry: str) -> None:
    """Front-left, and no other."""
    hangar = Hangar(tmp_path, with_log(f"- on: 2026-06-19\n  {entry}\n"))

    assert "grounded" == hangar.state()
    assert ["front-left"] == [
        row["station"] for row in hangar.rows("spin-directions") if row["state"] == "stale"
    ]
    assert [] == hangar.silent_pages("spin directions")


def test_a_note_without_leads_changes_nothing(tmp_path: Path) -> None:
    """Prose is not read."""
    hangar = Hangar(tmp_path, with_log("- on: 2026-06-19\n  note: swapped two motor leads\n"))

    assert "nothing open" == hangar.state()


def test_a_failed_check_flight_grounds_until_something_was_done(tmp_path: Path) -> None:
    """A14: then a check flight is next, which grounds no more."""
    failed = "- on: 2026-06-19\n  flight: 2:00\n  pack: P-01\n  purpose: check\n  result: fail\n"
    hangar = Hangar(tmp_path / "a", with_log(failed))
    assert ("grounded", "check flight: failed on 19 June 2026") == (
        hangar.state(),
        hangar.reasons()[0],
    )
    assert [] == hangar.silent_pages("check flight")

    tamed = "- on: 2026-06-20\n  gains: calm\n  values: {roll: {p: 20}}\n"
    hangar = Hangar(tmp_path / "b", with_log(failed + tamed))
    assert ("due soon", "fly a check flight next: gains changed on 20 June 2026") == (
        hangar.state(),
        hangar.reasons()[0],
    )


@pytest.mark.parametrize(
    ("words", "doubt"),
    [
        (
            "handling: 'lost the link for two seconds, came back'",
            "'lost the link for two seconds' tells of a lost link, and re-opens nothing",
        ),
        ("note: elevator fluttered", "'elevator fluttered' tells of flutter, and re-opens nothing"),
        (
            "note: motor cut out on final",
            "'motor cut out on final' tells of a dip of the power, and re-opens nothing",
        ),
        (
            "handling: came down in the pond",
            "'came down in the pond' tells of water, and re-opens nothing",
        ),
        ("handling: 'no flutter, link never lost'", None),
        ("handling: flew over the pond, motor cut early", None),
        ("handling: elevator fluttered\n  noticed: flutter", None),
        ("handling: elevator fluttered\n  sure: true", None),
        ("handling: came down in the pond\n- on: 2026-06-20\n  water: pond", None),
    ],
)
def test_what_words_of_a_flight_tell_is_asked_to_be_written(
    tmp_path: Path, words: str, doubt: str | None
) -> None:
    """A25, A26: nothing is re-opened by prose; ``check`` asks, and a denial is none."""
    entry = f"- on: 2026-06-20\n  flight: 3:10\n  pack: P-01\n  {words}\n"
    check = Hangar(tmp_path, with_log(entry)).check

    if doubt is None:
        assert "tells of" not in check
    else:
        assert f"warning: {doubt} @ aircraft/sedge/logbook.yaml:24\n" in check
