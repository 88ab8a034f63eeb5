"""A3 and A10 of control surfaces: the servo that drives each, and what re-opens it.

The senses are mechanics of flight, no source. Throws, as written, are shown and not judged.
"""

from pathlib import Path

import pytest
from aeroplane_on_disk import CRAFT, LOG, plane
from hangar_on_disk import Hangar

SET_UP = "aircraft/heron/set-up.html"


def _open(hangar: Hangar, name: str) -> list[str | None]:
    return [row["station"] for row in hangar.rows(name)]


def test_the_quiet_aeroplane_has_nothing_open(tmp_path: Path) -> None:
    """All checks done, four surfaces with a servo each."""
    hangar = Hangar(tmp_path, plane())

    assert ("nothing open", []) == (hangar.state("heron"), hangar.reasons("heron"))
    assert (0, True) == (hangar.due[0], ": no problems.\n" in hangar.check)


def test_a_servo_taken_out_leaves_its_surface_without_one(tmp_path: Path) -> None:
    """Grounded, at the line of the removal; the other surfaces have theirs."""
    hangar = Hangar(tmp_path, plane("- remove: [V-03]\n  on: 2026-06-19\n"))

    place = hangar.line(LOG, "remove: [V-03]")
    assert ("grounded", ["elevator: no servo fitted"]) == (
        hangar.state("heron"),
        hangar.reasons("heron"),
    )
    assert [("elevator", place)] == [
        (row["station"], row["place"]) for row in hangar.rows("missing-parts")
    ]
    assert [] == hangar.silent_pages("no servo fitted", "heron", SET_UP)


def test_flown_without_the_servo_of_a_surface_is_a_warning(tmp_path: Path) -> None:
    """As without any other part of its own."""
    flown = "- on: 2026-06-19\n  remove: [V-03]\n- on: 2026-06-20\n  flight: 5:00\n  pack: P-01\n"
    hangar = Hangar(tmp_path, plane(flown))

    assert "heron flown 1 time while missing servo of elevator, on 2026-06-20" in hangar.check


def test_another_servo_re_opens_its_own_surface_only(tmp_path: Path) -> None:
    """An elevator servo swapped: the ailerons and the rudder stay fresh."""
    swapped = "- on: 2026-06-19\n  fit: {tray: {servo: V-05}}\n  instead_of: {V-03: scrapped}\n"
    hangar = Hangar(tmp_path, plane(swapped))

    assert "grounded" == hangar.state("heron")
    assert (["elevator"], ["elevator"]) == (
        _open(hangar, "surface-sense"),
        _open(hangar, "surface-throws"),
    )
    stale = {row["name"] for row in hangar.json["rows"] if row["state"] == "stale"}
    assert {
        "surface-sense",
        "surface-throws",
        "stick-sense",
        "hinges",
        "failsafe",
        "balance-point",
        "check-flight",
    } == stale
    assert [] == hangar.silent_pages("surface sense", "heron", SET_UP)


def test_a_servo_in_the_place_of_another_drives_its_surface_from_then_on(tmp_path: Path) -> None:
    """Taken out one day and replaced the next; of two that are gone nobody can say which."""
    out = "- on: 2026-06-19\n  remove: [V-03]\n"
    back = "- on: 2026-06-20\n  fit: {tray: {servo: V-05}}\n"
    one = Hangar(tmp_path / "one", plane(out + back))
    two = Hangar(tmp_path / "two", plane(out.replace("V-03", "V-03, V-04") + back))

    assert [] == one.rows("missing-parts")
    assert ["elevator", "rudder"] == _open(two, "missing-parts")


def test_a_surface_may_be_given_another_servo_by_an_alteration(tmp_path: Path) -> None:
    """Only what is named is replaced: the throws stay, and only that surface is re-opened."""
    both_gone = "- on: 2026-06-19\n  remove: [V-03, V-04]\n"
    fitted = "- on: 2026-06-19\n  fit: {tray: {servo: [V-05, V-06]}}\n"
    named = (
        "- on: 2026-06-19\n  alteration: new servos\n  surfaces: {elevator: V-05, rudder: V-06}\n"
    )
    hangar = Hangar(tmp_path, plane(both_gone + fitted + named))

    assert [] == hangar.rows("missing-parts")
    assert ["elevator", "rudder"] == _open(hangar, "surface-sense")
    assert "elevator stale expect up 12 mm, down 10 mm; low: up 7 mm" in hangar.page(SET_UP)
    assert "surface elevator servo V-05" in hangar.page("aircraft/heron/logbook.html")


@pytest.mark.parametrize(
    ("entry", "reopened"),
    [
        ("repair: horn glued\n  touched: [elevator]", ["elevator"]),
        ("repair: servo screws\n  touched: [V-02]", ["aileron-right"]),
        (
            "repair: spine glued\n  touched: [fuselage]",
            ["aileron-left", "aileron-right", "elevator", "rudder"],
        ),
        ("alteration: longer horn\n  surfaces: {rudder: {left: 25°, right: 25°}}", ["rudder"]),
    ],
)
def test_what_was_touched_decides_which_surface_is_looked_at(
    tmp_path: Path, entry: str, reopened: list[str]
) -> None:
    """By the name of the surface or its servo; any other place may reach all of them."""
    hangar = Hangar(tmp_path, plane(f"- on: 2026-06-19\n  {entry}\n"))

    assert reopened == _open(hangar, "surface-sense")


@pytest.mark.parametrize("where", ["elevator", "tray"])
def test_a_check_of_one_surface_closes_that_one(tmp_path: Path, where: str) -> None:
    """By its name, or by the station where its servo sits."""
    touched = "- on: 2026-06-19\n  repair: horns\n  touched: [elevator, aileron-left]\n"
    looked = (
        "- on: 2026-06-20\n  check: [surface-sense, surface-throws]\n  result: pass\n"
        f"  stations: [{where}]\n"
    )
    hangar = Hangar(tmp_path, plane(touched + looked))

    assert ["aileron-left"] == _open(hangar, "surface-sense")


def test_the_set_up_sheet_says_which_way_each_surface_must_go(tmp_path: Path) -> None:
    """Seen from behind, by its name; a name of the keeper's own is left to him."""
    own = (CRAFT, "  rudder: V-04\n", "  rudder: V-04\n  canard: V-05\n")
    sheet = Hangar(tmp_path, plane("", own)).page(SET_UP)

    for said in (
        "aileron-left expect aileron stick right: down",
        "aileron-right expect aileron stick right: up",
        "elevator expect elevator stick back: up",
        "rudder expect rudder stick right: to the right",
    ):
        assert said in sheet
    assert "canard expect" not in sheet


def test_what_is_recorded_of_no_surface_stays_one_row(tmp_path: Path) -> None:
    """A keeper who writes no surfaces has the check of all of them, as before."""
    surfaces = QUIET_SURFACES
    hangar = Hangar(tmp_path, plane("- on: 2026-06-19\n  repair: fin\n", (CRAFT, surfaces, "")))

    assert [None] == _open(hangar, "surface-sense")


QUIET_SURFACES = """\
surfaces:
  aileron-left: V-01
  aileron-right: V-02
  elevator: {servo: V-03, up: 12 mm, down: 10 mm, rates: {low: {up: 7 mm}}}
  rudder: V-04
"""


@pytest.mark.parametrize(
    ("old", "new", "said"),
    [
        ("rudder: V-04", "rudder: V-44", "unknown tag 'V-44'"),
        ("rudder: V-04", "rudder: M-02", "'M-02' is a motor, not a servo"),
        ("up: 12 mm", "up: 12", "'12' has no unit"),
        ("up: 12 mm", "up: 120°", "'120°' is too much, the most is 90°"),
        ("memory: 7", "memory: 7, transmitter: V-05", "'V-05' is a servo, not a transmitter"),
    ],
)
def test_a_wrong_name_or_throw_is_a_problem_at_its_line(
    tmp_path: Path, old: str, new: str, said: str
) -> None:
    """Tags must be there and of the kind; a throw is a length or an angle."""
    hangar = Hangar(tmp_path, plane("", (CRAFT, old, new)))

    assert f"{said} @ {hangar.line(CRAFT, new)}\n" in hangar.check


@pytest.mark.parametrize(
    ("log", "told"),
    [
        ("- {on: 2026-06-19, state: {V-03: scrapped}}\n", "scrapped"),
        ("- {on: 2026-06-19, remove: V-03, state: retired}\n", "retired"),
        ("- {on: 2026-06-19, state: {V-05: scrapped}}\n", ""),
        ("- {on: 2026-06-19, fit: {tray: {servo: V-05}}, instead_of: {V-03: scrapped}}\n", ""),
    ],
)
@pytest.mark.parametrize("status", ["flying", "building"])
def test_a_surface_whose_servo_is_out_of_use(
    tmp_path: Path, log: str, told: str, status: str
) -> None:
    """`check` and the page of the aircraft tell it, in service and while it is being built."""
    built = (CRAFT, "kind: aeroplane\n", f"kind: aeroplane\nstatus: {status}\n")
    hangar = Hangar(tmp_path, plane(log, built))

    said = f"elevator of heron is driven by V-03, which is {told} since 2026-06-19"
    found = (said in hangar.check, said in hangar.page("aircraft/heron/index.html").lower()
             .replace("v-03", "V-03"))  # fmt: skip
    assert (bool(told), bool(told)) == found
