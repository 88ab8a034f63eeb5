"""A damaged pack is set aside by what its entries are, whatever their words, and stays there."""

from pathlib import Path

import pytest
from hangar_on_disk import QUIET, Hangar, with_log

STORE = "stores/p-01.yaml"

CRASH = "- {on: 2026-06-20, flight: 2:10, pack: P-01, landing: crash}\n"
HARD_INCIDENT = (
    "- {on: 2026-06-20, flight: 2:10, pack: P-01}\n- {on: 2026-06-20, incident: into the hedge}\n"
)
NAMED = "- {on: 2026-06-20, incident: fell off the bench, severity: light, packs: [P-01]}\n"
WATER = (
    "- {on: 2026-06-20, flight: 2:10, pack: P-01}\n"
    "- {on: 2026-06-20, water: came down in the pond}\n"
)
DEFECT = "- {on: 2026-06-20, defect: looks a bit fat, item: P-01}\n"
FAILED = (
    "- {on: 2026-06-20, inspection: pack-look, tags: [P-01], result: fail, findings: torn wrap}\n"
)
SWOLLEN = (
    "- {on: 2026-06-20, inspection: pack-look, tags: [P-01], result: fail,"
    " readings: {swelling: 2 mm}}\n"
)
HOT = "- {on: 2026-06-20, charge: P-01, temperature: 70 °C, sure: true}\n"
HOT_LOOK = (
    "- {on: 2026-06-20, inspection: pack-look, tags: [P-01], readings: {temperature: 70 °C}}\n"
)


def stored(entries: str, as_of: str = "2026-06-20", log: str = "") -> dict[str, str]:
    """The quiet hangar with more entries of the pack in its own store."""
    files = with_log(log, **{STORE: QUIET[STORE] + entries})
    return {**files, "hangar.yaml": files["hangar.yaml"].replace("2026-06-20", as_of)}


def heard_everywhere(hangar: Hangar, why: str) -> None:
    """Every place says that P-01 is set aside, and no list offers it to charge or to fly."""
    status, due = hangar.due
    assert (3, True, True) == (status, "P-01 quarantined" in due, why in due)
    assert "quarantined" == hangar.pack("P-01")[0]
    going = hangar.page("going-flying.html")
    kept = going.partition("Do not charge or fly")[2]
    assert "P-01" in kept.partition("Charged")[0], going
    assert "P-01" not in going.partition("Charged")[2].partition("Spares")[0]
    assert "quarantined" in hangar.page("items/P-01.html")
    assert "quarantined" in hangar.page("index.html")
    assert "quarantined" in hangar.page("cards/sedge-field.html").casefold()


@pytest.mark.parametrize(
    ("log", "said", "why"),
    [
        (CRASH, "P-01 is set aside: it was in a crash on 20 June 2026", "it was in a crash"),
        (
            HARD_INCIDENT,
            "P-01 is set aside: it was in a crash on 20 June 2026",
            "it was in a crash",
        ),
        (
            NAMED,
            "P-01 is set aside: it was in an incident on 20 June 2026",
            "it was in an incident",
        ),
        (WATER, "P-01 is set aside: it got wet on 20 June 2026", "it got wet"),
        (
            DEFECT,
            "defect of P-01: grounds, found on 20 June 2026",
            "looks a bit fat",
        ),
        (
            FAILED,
            "P-01 is set aside: pack look failed on 20 June 2026 (torn wrap)",
            "pack look failed on 20 June 2026 (torn wrap)",
        ),
        (
            HOT,
            "P-01 is set aside: it was hot on 20 June 2026 (70 °C)",
            "it was hot on 20 June 2026 (70 °C)",
        ),
        (
            HOT.replace("charge", "measured: 2000 mAh, capacity"),
            "P-01 is set aside: it was hot on 20 June 2026 (70 °C)",
            "it was hot on 20 June 2026 (70 °C)",
        ),
        (
            HOT_LOOK,
            "P-01 is set aside: it was hot on 20 June 2026 (70 °C)",
            "it was hot on 20 June 2026 (70 °C)",
        ),
        (
            SWOLLEN,
            "P-01 is set aside: pack look failed on 20 June 2026 (swelling)",
            "pack look failed on 20 June 2026 (swelling)",
        ),
    ],
)
def test_damage_is_heard(tmp_path: Path, log: str, said: str, why: str) -> None:
    """A8, A26: crash, incident, water, defect and failed look each set the pack aside."""
    hangar = Hangar(tmp_path, with_log(log))

    assert ("quarantined", said) == (hangar.pack("P-01")[0], hangar.pack("P-01")[1][0])
    heard_everywhere(hangar, why)


LOOK = "- {on: 2026-06-21, inspection: pack-look, tags: [P-01]}\n"
READ = "- {on: 2026-06-21, inspection: pack-rest-voltage, tags: [P-01]}\n"
WORD = "- {on: 2026-06-21, state: {P-01: serviceable}, because: wiped dry and watched a week}\n"
CLEARED = "- {on: 2026-06-21, cleared: 2026-06-20-1, how: only the wrap}\n"


@pytest.mark.parametrize(
    ("log", "then", "expected"),
    [
        (CRASH, READ, "quarantined"),
        (CRASH, LOOK, "due soon"),
        (CRASH, LOOK.replace("21", "20"), "quarantined"),
        (CRASH, LOOK.replace(", tags: [P-01]", ", tags: [P-02]"), "quarantined"),
        (CRASH, WORD, "due soon"),
        (WATER, LOOK, "quarantined"),
        (WATER, WORD, "nothing open"),
        (FAILED, LOOK, "nothing open"),
        (SWOLLEN, LOOK, "quarantined"),
        (SWOLLEN, WORD, "nothing open"),
        (NAMED, LOOK, "nothing open"),
        (HOT, LOOK, "nothing open"),
        (HOT, LOOK.replace("21", "20"), "quarantined"),
        (HOT, HOT_LOOK.replace("06-20", "06-21"), "quarantined"),
    ],
)
def test_what_returns_it(tmp_path: Path, log: str, then: str, expected: str) -> None:
    """A8: a passed look at the pack on a later day; after water or swelling only the word."""
    hangar = Hangar(tmp_path, stored(then, "2026-06-21", log))

    assert expected == hangar.pack("P-01")[0]


@pytest.mark.parametrize(
    ("then", "expected"),
    [(LOOK, "quarantined"), (CLEARED, "quarantined"), (WORD, "quarantined"),
     (LOOK + CLEARED, "nothing open"), (CLEARED + LOOK, "nothing open")],
)  # fmt: skip
def test_a_defect_is_cleared_and_looked_at(tmp_path: Path, then: str, expected: str) -> None:
    """A8: neither a look at an open defect nor the clearing alone returns the pack."""
    hangar = Hangar(tmp_path, with_log("", **{STORE: QUIET[STORE] + DEFECT + then,
        "hangar.yaml": QUIET["hangar.yaml"].replace("2026-06-20", "2026-06-21")}))  # fmt: skip

    assert expected == hangar.pack("P-01")[0], hangar.check


def test_a_defect_of_what_is_out_of_use_is_no_work(tmp_path: Path) -> None:
    """It was taken out of use, as its row asked; its own page still says what was wrong."""
    gone = "- {on: 2026-06-20, state: {P-01: scrapped}, because: swollen}\n"
    hangar = Hangar(tmp_path, stored(DEFECT + gone))

    assert "looks a bit fat" not in hangar.due[1]
    assert "looks a bit fat" not in hangar.page("index.html")
    assert "looks a bit fat" in hangar.page("items/P-01.html")


@pytest.mark.parametrize("severity", ["defer", "note"])
def test_what_may_wait_is_a_row_only(tmp_path: Path, severity: str) -> None:
    """A8: a deferred or noted defect, and a failed look that says so, leave the pack in use."""
    defect = DEFECT.replace("item:", f"severity: {severity}, item:")
    look = FAILED.replace("tags:", f"severity: {severity}, tags:")

    assert "quarantined" != Hangar(tmp_path / "1", with_log(defect)).pack("P-01")[0]
    assert "quarantined" != Hangar(tmp_path / "2", with_log(look)).pack("P-01")[0]


def test_charged_and_flown_meanwhile(tmp_path: Path) -> None:
    """A8: each is a warning at its line."""
    files = with_log("- {on: 2026-06-20, flight: 1:00, pack: P-01}\n")
    files["hangar.yaml"] = files["hangar.yaml"].replace("2026-06-20", "2026-06-21")
    files[STORE] += (
        "- {on: 2026-06-19, inspection: pack-resistance, tags: [P-01], result: fail, note: hot}\n"
        "- {on: 2026-06-21, charge: P-01}\n"
    )
    hangar = Hangar(tmp_path, files)

    line = hangar.line("aircraft/sedge/logbook.yaml", "flight: 1:00")
    assert (
        f"battery 'P-01' flown on sedge on 2026-06-20 though quarantined since 2026-06-19 @ {line}"
    ) in " ".join(hangar.check.split())
    line = hangar.line(STORE, "2026-06-21, charge")
    assert (
        f"battery 'P-01' charged on 2026-06-21 though quarantined since 2026-06-19 @ {line}"
    ) in " ".join(hangar.check.split())


def test_what_the_keeper_set_aside_he_knows(tmp_path: Path) -> None:
    """Exit status 0: quarantined by his own entry; a routine reading does not return it."""
    own = "- {on: 2026-06-20, state: {P-01: quarantined}, because: puffed}\n"
    hangar = Hangar(tmp_path / "1", stored(own))
    read = Hangar(tmp_path / "2", stored(own + READ, "2026-06-21"))

    assert (0, "quarantined", ["P-01: quarantined on 20 June 2026 (puffed)"]) == (
        hangar.due[0],
        *hangar.pack("P-01"),
    )
    assert "quarantined" == read.pack("P-01")[0]


def test_what_the_keeper_set_aside_only_he_returns(tmp_path: Path) -> None:
    """No look does, beside a crash too; each of his reasons stays in sight until his word."""
    crash = "- {on: 2026-06-20, incident: into the hedge, packs: [P-01]}\n"
    own = (
        "- {on: 2026-06-20, state: {P-01: quarantined}, because: swollen}\n"
        "- {on: 2026-06-20, state: {P-01: quarantined}, because: puffed}\n"
        "- {on: 2026-06-21, inspection: [pack-look], tags: [P-01]}\n"
    )
    word = "- {on: 2026-06-21, state: {P-01: serviceable}, because: the wrap only}\n"
    files = stored(own, "2026-06-21")
    log = "aircraft/sedge/logbook.yaml"
    aside = Hangar(tmp_path / "1", {**files, log: files[log] + crash})
    back = Hangar(tmp_path / "2", stored(own + word, "2026-06-21"))

    state, reasons = aside.pack("P-01")
    assert ("quarantined", True) == (state, any("(swollen; puffed)" in one for one in reasons))
    assert "only state: serviceable with because: releases it" in aside.page("items/P-01.html")
    assert "nothing open" == back.pack("P-01")[0]


def test_packs_of_a_grounded_aircraft_are_not_taken(tmp_path: Path) -> None:
    """*Going flying* lists the packs of what flies; a pack that never flew stays on it."""
    hangar = Hangar(tmp_path, with_log("- {on: 2026-06-20, defect: arm cracked}\n"))
    going = hangar.page("going-flying.html").partition("To charge")[2].partition("Spares")[0]

    assert "grounded" == hangar.state()
    assert (False, True) == ("P-01" in going, "P-02" in going)


def test_nothing_asks_to_charge_what_is_set_aside(tmp_path: Path) -> None:
    """Charged to full, crashed the next day and left for a week: no storage charge is asked for."""
    full = "- {on: 2026-06-12, charge: P-01, to: full}\n"
    files = with_log("- {on: 2026-06-13, incident: into the hedge, packs: [P-01]}\n")
    log = files["aircraft/sedge/logbook.yaml"]
    flown = "- on: 2026-06-18\n  flight: 6:10\n  pack: P-01\n  purpose: check\n  result: pass\n"
    crashed = log.replace(flown, "")
    files["aircraft/sedge/logbook.yaml"] = crashed
    files["stores/p-01.yaml"] = full
    hangar = Hangar(tmp_path, files)

    said = "P-01 is set aside: it was in a crash on 13 June 2026"
    assert ("quarantined", [said]) == hangar.pack("P-01")
    assert [] == [row for row in hangar.json["rows"] if "charge" in row["name"]]
    assert "Do not charge or fly it. While it is cool, lay it outdoors" in hangar.due[1]


NO_PACK = "- {on: 2026-06-20, incident: blown off the bench, severity: hard}\n"
CHARGED = QUIET[STORE] + "- {on: 2026-06-20, charge: P-01, to: full}\n"


@pytest.mark.parametrize(
    ("log", "store", "asked"),
    [
        (NO_PACK, CHARGED, "P-01"),
        (NO_PACK, QUIET[STORE], "P-01"),  # the one that it flies on
        (
            NO_PACK,
            QUIET[STORE] + "- {on: 2026-06-20, charge: [P-01, P-02], to: full}\n",
            "P-01 or P-02",
        ),
        ("- {on: 2026-06-20, flight: 1:10, landing: crash}\n", CHARGED, "P-01"),
        ("- {on: 2026-06-20, water: into the pond}\n", CHARGED, "P-01"),
        (NO_PACK.replace("}", ", packs: [P-01]}"), CHARGED, ""),
        (NO_PACK.replace("}", ", sure: true}"), CHARGED, ""),
        (NO_PACK.replace("hard", "light"), CHARGED, ""),
        (NO_PACK + "- {on: 2026-06-20, defect: dented, item: P-01}\n", CHARGED, ""),
        ("- {on: 2026-06-20, flight: 1:10, pack: P-02}\n" + NO_PACK, CHARGED, ""),
    ],
)
def test_a_crash_that_does_not_say_which_pack_was_aboard(
    tmp_path: Path, log: str, store: str, asked: str
) -> None:
    """None can be set aside for it, so it is asked."""
    hangar = Hangar(tmp_path, with_log(log, **{"stores/p-01.yaml": store}))

    words = "on 2026-06-20 does not say which pack was aboard"
    assert bool(asked) == (words in hangar.check)
    assert not asked or f"{words}: {asked} @" in hangar.check


def test_a_hard_landing_that_was_written_up_as_a_crash(tmp_path: Path) -> None:
    """The pack of that flight is set aside, as if the landing were called a crash."""
    log = "- {on: 2026-06-20, flight: 1:10, pack: P-01, landing: hard}\n" + NO_PACK

    assert Hangar(tmp_path, with_log(log)).pack("P-01")[0] == "quarantined"
