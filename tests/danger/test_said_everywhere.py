"""One danger, one report: due, its JSON, check, and every page say the same of it.

Each row of the table of dangers that is about an aircraft has a small hangar of its own here, the
danger written as a keeper writes it. What is common to all is looked at; what is particular to a
row has a test in the module of that row.
"""

from collections.abc import Mapping
from pathlib import Path
from typing import NamedTuple

import pytest
from aeroplane_on_disk import plane
from hangar_on_disk import AIRCRAFT, AS_OF, SET_UP, Hangar, with_log, with_text

CRAFT = "aircraft/sedge/aircraft.yaml"
LOG = "aircraft/sedge/logbook.yaml"
RADIO = "radio: {memory: 4"


class Danger(NamedTuple):
    """name: of its row. why: what is said of it. sheet: whether the set-up sheet asks for it.

    warned: whether ``check`` says it as well, because what is written contradicts itself or kills.
    """

    files: Mapping[str, str]
    name: str
    why: str
    state: str = "grounded"
    status: int = 3
    sheet: bool = True
    warned: bool = False
    slug: str = "sedge"


def _logged(entry: str) -> dict[str, str]:
    return with_log(f"- on: 2026-06-19\n  {entry}\n")


DANGERS: Mapping[str, Danger] = {
    "A1": Danger(
        with_text(LOG, "propeller: R-01", "propeller: L-03"),
        "propeller fit",
        "L-03 is ccw, not cw",
        warned=True,
    ),
    "A2": Danger(
        _logged("inspection: preflight-look\n  result: fail\n  findings: cracked arm"),
        "preflight look",
        "failed on 19 June 2026",
        sheet=False,
    ),
    "A3 part": Danger(_logged("remove: [X-01]"), "missing parts", "no receiver fitted"),
    "A3 servo": Danger(
        plane("- on: 2026-06-19\n  remove: [V-03]\n"),
        "missing parts",
        "no servo fitted",
        slug="heron",
    ),
    "A9": Danger(
        _logged("note: two leads changed over\n  rewired: [front-left]"),
        "spin directions",
        "leads changed",
    ),
    "A10 receiver": Danger(
        _logged("setting: {bind: again}"), "receiver order", "receiver bound again"
    ),
    "A12 mass": Danger(
        with_text(CRAFT, RADIO, "bounds: {max_mass: 1000 g}\n" + RADIO),
        "mass limit",
        "1096 g, limit 1000 g",
    ),
    "A12 balance": Danger(
        with_text(
            CRAFT,
            RADIO,
            "bounds: {forward_cg: 10 mm, aft_cg: -10 mm}\n" + RADIO,
            "- on: 2026-06-19\n  weigh: 1096 g\n  pack: P-01\n  cg: [20 mm, 0 mm, 0 mm]\n",
        ),
        "balance limit",
        "ahead of the forward limit",
    ),
    "A14": Danger(
        _logged("flight: 2:00\n  pack: P-01\n  purpose: check\n  result: fail"),
        "check flight",
        "failed on 19 June 2026",
    ),
    "A20 planned": Danger(
        with_text(CRAFT, "failsafe: {throttle: cut}", "failsafe: {throttle: hold}"),
        "failsafe",
        "link lost, the motor keeps running",
        warned=True,
    ),
    "A20 read": Danger(
        _logged("check: failsafe\n  result: pass\n  readings: {throttle: 22 %}"),
        "failsafe",
        "link lost, the motor keeps running",
        warned=True,
    ),
    "A20 not recorded": Danger(
        with_text(CRAFT, ", failsafe: {throttle: cut}", ""),
        "failsafe recorded",
        "what the throttle does when the link is lost is not recorded",
        state="due soon",
        status=0,
    ),
    "A21": Danger(
        _logged("setting: {rudder reversed: 'yes'}"), "stick sense", "radio altered on 19 June 2026"
    ),
    "A22": Danger(
        with_log("", **{"aircraft/burdock/aircraft.yaml": AIRCRAFT.replace("Sedge", "Burdock")}),
        "memory",
        "memory 4 is also Burdock's: move the sticks first",
        state="due soon",
        warned=True,
    ),
    "A25 link": Danger(
        _logged("flight: 5:00\n  pack: P-01\n  noticed: [link lost]"),
        "range",
        "link lost noticed in flight",
    ),
    "A25 flutter": Danger(
        plane("- on: 2026-06-19\n  flight: 5:00\n  pack: P-01\n  noticed: [flutter]\n"),
        "hinges",
        "flutter noticed in flight",
        slug="heron",
    ),
    "A25 wrong way": Danger(
        plane("- on: 2026-06-19\n  flight: 5:00\n  pack: P-01\n  noticed: [wrong way]\n"),
        "surface sense",
        "wrong way noticed in flight",
        slug="heron",
    ),
    "A26": Danger(_logged("water: landed in the ditch"), "drying", "it got wet on 19 June 2026"),
    "A26 surfaces": Danger(
        plane("- on: 2026-06-19\n  water: landed in the ditch\n"),
        "drying",
        "it got wet on 19 June 2026",
        slug="heron",
    ),
    "A27": Danger(
        with_text("parts/specs.yaml", "kind: motor,", "kind: motor, nut: right,"),
        "propeller nut",
        "does its right-hand thread tighten?",
        state="due soon",
        warned=True,
    ),
}


@pytest.mark.parametrize("row", DANGERS)
def test_a_danger_is_said_in_every_place_alike(tmp_path: Path, row: str) -> None:
    """On the terminal and for machines; on the hangar page, the work list, the aircraft, the
    set-up sheet, *going flying* and the field card."""
    danger = DANGERS[row]
    hangar = Hangar(tmp_path, danger.files)
    slug, name = danger.slug, danger.name

    assert (danger.state, danger.status) == (hangar.state(slug), hangar.due[0])
    assert [] == hangar.silent_commands(name, danger.why, slug, warned=danger.warned)
    sheet = (SET_UP,) if danger.sheet else ()
    assert [] == hangar.silent_pages(danger.why, slug, *sheet)
    card = hangar.page(f"cards/{slug}-field.html")
    assert (danger.state == "grounded") == ("leave at home" in card)
    assert (danger.state != "grounded") == ("Flights of the day" in card)


def test_the_quiet_hangars_say_none_of_it(tmp_path: Path) -> None:
    """Or the test above would hold whatever was written."""
    hangars = {
        "sedge": Hangar(tmp_path / "sedge", with_log("")),
        "heron": Hangar(tmp_path / "heron", plane()),
    }

    for danger in DANGERS.values():
        hangar = hangars[danger.slug]
        assert ("nothing open", 0) == (hangar.state(danger.slug), hangar.due[0])
        places = ("due", "due --json", "check")
        assert list(places) == hangar.silent_commands(
            danger.name, danger.why, danger.slug, warned=True
        )


def test_going_flying_names_what_is_open_of_a_pack(tmp_path: Path) -> None:
    """The row with its own state, never a "due soon" beside one that is overdue."""
    files = with_log("- {on: 2026-06-20, note: a quiet day}\n")
    files["stores/p-02.yaml"] = "- {on: 2026-06-12, charge: P-02, to: full}\n"
    files["hangar.yaml"] = files["hangar.yaml"].replace(AS_OF, "2027-03-01")
    going = Hangar(tmp_path, files).page("going-flying.html")

    assert (
        "P-02 pack, full since 12 June 2026 overdue pack resistance"
        " Stored too full overdue pack storage charge of P-02 , by 14 June 2026 (260 days over)"
    ) in going


@pytest.mark.parametrize("page", ["index.html", "stock.html", "due.html"])
def test_a_pack_stands_in_the_word_of_its_first_row(tmp_path: Path, page: str) -> None:
    """Overdue is nowhere called "due soon", neither in a list of packs nor on a terminal."""
    files = with_log("- {on: 2026-06-20, note: a quiet day}\n")
    files["stores/p-02.yaml"] = "- {on: 2026-06-12, charge: P-02, to: full}\n"
    files["hangar.yaml"] = files["hangar.yaml"].replace(AS_OF, "2027-03-01")
    hangar = Hangar(tmp_path, files)
    packs = hangar.page(page).partition("Packs, worst first")[2]

    assert "P-02 not measured" in packs
    assert "overdue" in packs
    assert "due soon" not in packs
    assert "P-02 overdue pack resistance - overdue" in hangar.due[1]
