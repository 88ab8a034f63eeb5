"""Dangers that hide in a setting, a reading, another pack, or in words alone."""

from pathlib import Path

import pytest
from aeroplane_on_disk import AIRCRAFT as PLANE
from aeroplane_on_disk import CRAFT as PLANE_FILE
from aeroplane_on_disk import plane
from hangar_on_disk import QUIET, SPECS, Hangar, with_four_cells, with_log, with_parts, with_text

CRAFT = "aircraft/sedge/aircraft.yaml"
LED = (
    "Your latest notes As you wrote them. Nothing in this list is worked out from them: judge them"
    " yourself."
)


@pytest.mark.parametrize(
    ("setting", "stale"),
    [
        ("setting: {direction: reversed}\n  of: E-03", ["rear-left"]),
        ("setting: {motor_direction: the other way}\n  of: rear-left", ["rear-left"]),
        ("setting: {reversed: 'yes'}\n  of: M-03", ["rear-left"]),
        ("setting: {rear-left direction: reversed}", ["rear-left"]),
        (
            "setting: {esc_direction: reversed}",
            ["front-left", "front-right", "rear-left", "rear-right"],
        ),
        ("setting: {timing: 16}\n  of: E-03", []),
        ("setting: {direction: reversed}\n  of: C-01", []),
        ("setting: {yaw_rate: 300}", []),
    ],
)
def test_A9_an_ESC_that_was_set_to_turn_the_other_way(
    tmp_path: Path, setting: str, stale: list[str]
) -> None:
    """A9: by whichever name its keeper calls it; the direction was seen before, not since."""
    hangar = Hangar(tmp_path, with_log(f"- on: 2026-06-19\n  {setting}\n"))

    assert stale == sorted(row["station"] for row in hangar.rows("spin-directions"))
    assert ("grounded" if stale else "nothing open") == hangar.state()
    said = "re-opened: leads changed or turn reversed on 19 June 2026"
    assert bool(stale) == (said in hangar.due[1])


ALARM = "- on: 2026-06-19\n  check: low-voltage-alarm\n  result: pass\n  readings: {{alarm: {}}}\n"
CUT = ", cutoff_cell_voltage: 3.3 V"
BEGINS = "a cell, the reserve of P-01 begins at 3.67 V"


@pytest.mark.parametrize(
    ("written", "spec", "said"),
    [
        (ALARM.format("2.9 V"), "", "2.90 V a cell, lowest of P-01 is 3.00 V"),
        (ALARM.format("8.7 V"), "", "2.90 V a cell, lowest of P-01 is 3.00 V"),
        (ALARM.format("3.0 V"), "", "3.00 V a cell, lowest of P-01 is 3.00 V"),
        (ALARM.format("3.01 V"), "", "3.01 V a cell, under load P-01 is near empty at 3.20 V"),
        (ALARM.format("3.2 V"), "", f"3.20 V {BEGINS}"),
        (ALARM.format("3.3 V"), "", f"3.30 V {BEGINS}"),  # a usual cut-off is no limit of this pack
        (ALARM.format("3.56 V"), "", f"3.56 V {BEGINS}"),
        (ALARM.format("3.57 V"), "", ""),
        (ALARM.format("3.30 V"), CUT, "3.30 V a cell, cut-off of P-01 is 3.30 V"),
        (ALARM.format("9.9 V"), CUT, "3.30 V a cell, cut-off of P-01 is 3.30 V"),
        (ALARM.format("2.9 V"), CUT, "2.90 V a cell, cut-off of P-01 is 3.30 V"),
        (ALARM.format("3.35 V"), CUT, f"3.35 V {BEGINS}"),
        (
            ALARM.format("3.35 V")
            + "- on: 2026-06-20\n  setting: {motor_cutoff: 10.2 V}\n  of: E-01\n",
            CUT,
            "3.35 V a cell, cut-off of P-01 is 3.40 V",
        ),
        (
            ALARM.format("3.3 V"),
            CUT + ", volts: {lowest: 3.4 V}",
            "3.30 V a cell, lowest of P-01 is 3.40 V",
        ),
        (
            ALARM.format("3.2 V"),
            ", volts: {lowest: 3.3 V}",
            "3.20 V a cell, lowest of P-01 is 3.30 V",
        ),
        (
            ALARM.format("3.4 V")
            + "- on: 2026-06-20\n  setting: {low_voltage_alarm: 2.8 V a cell}\n",
            "",
            "2.80 V a cell, lowest of P-01 is 3.00 V",
        ),
        (
            "- on: 2026-06-19\n  setting: {low_voltage_alarm: 2.8 V}\n" + ALARM.format("3.6 V"),
            "",
            "",
        ),
    ],
)
def test_an_alarm_that_is_not_above_what_a_cell_may_have(
    tmp_path: Path, written: str, spec: str, said: str
) -> None:
    """Of a cell or of all of them, as read or as set, whichever came last. Common practice."""
    specs = SPECS.replace("chemistry: LiPo", f"chemistry: LiPo{spec}")
    hangar = Hangar(tmp_path, with_log(written, **{"parts/specs.yaml": specs}))

    words = f"low voltage alarm sounds at {said}"
    assert ([words] if said else []) == hangar.reasons()
    assert ("due soon" if said else "nothing open") == hangar.state()
    if said:
        assert 3 == hangar.due[0]
        assert [] == hangar.silent_commands("low voltage alarm", words)
        assert [] == hangar.silent_pages(words, "sedge", "aircraft/sedge/set-up.html")


@pytest.mark.parametrize(("alarm", "rows"), [("3.29 V", 1), ("3.30 V", 0)])
def test_the_cut_off_of_an_aeroplane_may_be_its_alarm(
    tmp_path: Path, alarm: str, rows: int
) -> None:
    """Its motor lets go and it glides: only an alarm below it comes too late. Common practice."""
    cut = ("parts/specs.yaml", "chemistry: LiPo", "chemistry: LiPo" + CUT)
    hangar = Hangar(tmp_path, plane(ALARM.format(alarm), cut))

    said = "low voltage alarm sounds at 3.29 V a cell, cut-off of P-01 is 3.30 V"
    assert [said] * rows == hangar.reasons("heron")


SMALL = (
    "- {spec: small, kind: battery, mass: 90 g, cells: 3S, capacity: 1000 mAh, chemistry: LiPo}\n"
)
WEIGHED = "- on: 2026-06-17\n  weigh: 1096 g\n  pack: P-01\n  cg: [0 mm, 0 mm, 0 mm]\n"
FLOWN = (
    "- on: 2026-06-19\n  flight: 4:00\n  pack: K-01\n"
    "- on: 2026-06-20\n  flight: 4:00\n  pack: P-01\n"
)


def with_small_pack(bounds: str, entries: str) -> dict[str, str]:
    """Sedge with its pack ahead of the middle, and a smaller one."""
    places = f"bounds: {{{bounds}}}\npositions: {{pack: [60 mm, 0 mm, 0 mm]}}\nradio: {{memory: 4"
    files = with_text(CRAFT, "radio: {memory: 4", places, entries)
    return with_parts(files, SMALL, "- {tag: K-01, spec: small, acquired: 2026-06-01}\n")


def test_A12_balance_with_another_pack_that_it_was_flown_on(tmp_path: Path) -> None:
    """A12: within its limits with the last pack, behind them with the one before."""
    bounds = "forward_cg: 5 mm, aft_cg: -5 mm"
    hangar = Hangar(tmp_path / "1", with_small_pack(bounds, WEIGHED + FLOWN))
    never = Hangar(tmp_path / "2", with_small_pack(bounds, WEIGHED))
    wide = Hangar(
        tmp_path / "3", with_small_pack("forward_cg: 5 mm, aft_cg: -10 mm", WEIGHED + FLOWN)
    )

    said = "balance limit: behind the aft limit with K-01; weigh it"
    assert said in hangar.reasons()
    assert [] == hangar.silent_pages(said, "sedge")
    assert [] == [*never.rows("balance-limit"), *wide.rows("balance-limit")]


def test_A12_an_aeroplane_with_limits_in_millimetres(tmp_path: Path) -> None:
    """A12: no chord is recorded; the limits are lengths forward of the reference point."""
    weighed = "- on: 2026-06-19\n  weigh: 674 g\n  pack: P-01\n  cg: [-340 mm, 0 mm, 0 mm]\n"
    bounds = "bounds: {forward_cg: -300 mm, aft_cg: -330 mm}\nradio: {memory: 7"
    files = plane(weighed, (PLANE_FILE, "radio: {memory: 7", bounds))
    hangar = Hangar(tmp_path, files)

    assert "wing:" not in PLANE
    assert ("grounded", "balance limit: behind the aft limit") == (
        hangar.state("heron"), hangar.reasons("heron")[0],
    )  # fmt: skip


def test_what_is_only_said_in_words_is_told_word_for_word(tmp_path: Path) -> None:
    """A servo that buzzes, a pack that is fat: no rule reads prose, so it stands as written."""
    files = with_log(
        "- on: 2026-06-20\n  flight: 5:00\n  pack: P-01\n  handling: lively\n"
        "  note: elevator servo buzzes at rest\n"
    )
    files["stores/p-01.yaml"] += "- {on: 2026-06-20, charge: P-01, note: fat in the middle}\n"
    hangar = Hangar(tmp_path, files)

    said = hangar.due[1].partition(LED)[2]
    assert " P-01, charge of 20 June 2026: fat in the middle @ stores/p-01.yaml:7" in said
    assert " Sedge, flight of 20 June 2026: elevator servo buzzes at rest @ " in said
    assert " Sedge, flight of 20 June 2026: lively @ " in said
    page = hangar.page("due.html").partition("Your latest notes")[2]
    assert ["elevator servo buzzes at rest", "fat in the middle"] == [
        words for words in ("elevator servo buzzes at rest", "fat in the middle") if words in page
    ]


def test_remarks_press_nobody_and_old_ones_are_left_to_the_log(tmp_path: Path) -> None:
    """Exit status 0; a fortnight before the last entry, six at most, of one aircraft if asked."""
    old = "- on: 2026-06-05\n  note: new season\n"
    log = "".join(f"- on: 2026-06-20\n  note: remark {number}\n" for number in range(8))
    files = with_log(log)
    path = "aircraft/sedge/logbook.yaml"
    files[path] = files[path].replace("- on: 2026-06-18\n", f"{old}- on: 2026-06-18\n", 1)
    hangar = Hangar(tmp_path, files)
    quiet = Hangar(tmp_path / "quiet", with_log(""))

    assert 0 == hangar.due[0]
    assert ["remark 7", "remark 2"] == [
        words
        for words in ("remark 7", "remark 2", "remark 1", "new season")
        if words in hangar.due[1]
    ]
    assert hangar.due[1].endswith(" and 2 more in the logs")
    assert LED not in quiet.due[1]


SOFT = (
    "- on: 2026-06-20\n  flight: 5:00\n  pack: P-01\n  note: p-01 came down warm, slightly soft\n"
)
LATER = "- on: 2026-07-{:02}\n  flight: 5:00\n  pack: P-01\n  note: calm\n"
TOLD = " Sedge, flight of 20 June 2026: p-01 came down warm, slightly soft @ {}:{}"


@pytest.mark.parametrize(
    ("later", "told"),
    [
        ("", True),
        ("- {on: 2026-07-20, inspection: pack-look, tags: [P-01]}\n", False),
        ("- {on: 2026-07-20, inspection: pack-rest-voltage, tags: [P-01]}\n", True),
        ("- {on: 2026-07-20, note: P-01 was cool again}\n", False),
        ("- {on: 2026-07-20, note: P-011 is no pack}\n", True),
        ("- {on: 2026-12-17, note: half a year on}\n", True),
        ("- {on: 2026-12-18, note: half a year and a day on}\n", False),
    ],
)
def test_the_last_remark_about_a_pack_stays_until_it_is_looked_at(
    tmp_path: Path, later: str, told: bool
) -> None:
    """However often it flies meanwhile, and before what is newer; on the page of the pack too."""
    log = SOFT + "".join(LATER.format(day) for day in range(5, 15)) + later
    files = with_log(log)
    files["hangar.yaml"] = files["hangar.yaml"].replace("as_of: 2026-06-20", "as_of: 2026-12-31")
    hangar = Hangar(tmp_path, files)
    logged = "aircraft/sedge/logbook.yaml"
    text = (hangar.folder / logged).read_text("utf-8")
    line = text.partition("  note: p-01")[0].count("\n") - 2

    said = hangar.due[1].partition(LED)[2]
    assert told is said.startswith(TOLD.format(logged, line))
    kept = "Your note, 20 June 2026 , and no look at it since: p-01 came down warm, slightly soft"
    assert told is (kept in hangar.page("items/P-01.html"))
    assert "p-01 came down" not in hangar.page("items/P-02.html")


@pytest.mark.parametrize(
    ("later", "told"),
    [
        ("", True),
        ("- {on: 2026-07-20, inspection: motor-bearings}\n", False),
        ("- {on: 2026-07-20, inspection: propeller-touch}\n", True),
        ("- {on: 2026-07-20, note: M-02 stays cool now}\n", False),
        ("- {on: 2026-07-20, remove: M-02}\n- {on: 2026-07-20, note: bench}\n", False),
    ],
)
def test_a_danger_remarked_of_a_part_stays_until_it_is_looked_at(
    tmp_path: Path, later: str, told: bool
) -> None:
    """Two weeks and many flights on; on its page, that of the aircraft and the field card too."""
    log = "- {on: 2026-06-20, note: M-02 gets hot and smells}\n"
    log += "".join(LATER.format(day) for day in range(5, 15)) + later
    files = with_log(log)
    files["hangar.yaml"] = files["hangar.yaml"].replace("as_of: 2026-06-20", "as_of: 2026-07-31")
    hangar = Hangar(tmp_path, files)
    words = "M-02 gets hot and smells"

    assert told is (words in hangar.due[1].partition(LED)[2])
    for page in (
        "due.html",
        "items/M-02.html",
        "aircraft/sedge/index.html",
        "cards/sedge-field.html",
    ):
        text = (
            hangar.page(page).partition("Logbook")[0] if "aircraft" in page else hangar.page(page)
        )
        assert told is (words in text), page


def test_a_danger_remarked_of_the_aircraft_stays_before_what_is_newer(tmp_path: Path) -> None:
    """A note that names no part: until any look or work; and never behind "and 2 more"."""
    log = "- {on: 2026-06-20, note: something smells burnt after landing}\n"
    log += "".join(LATER.format(day) for day in range(5, 15))
    looked = "- {on: 2026-07-20, inspection: solder-and-leads}\n"
    late = QUIET["hangar.yaml"].replace("as_of: 2026-06-20", "as_of: 2026-07-31")
    open_, shut = (
        Hangar(tmp_path / name, with_log(log + more, **{"hangar.yaml": late})).due[1]
        for name, more in (("open", ""), ("shut", looked))
    )
    open_ = open_.partition(LED)[2]

    assert open_.startswith(" Sedge, note of 20 June 2026: something smells burnt after landing")
    assert "smells" not in shut


def test_what_stands_elsewhere_is_not_remarked_again(tmp_path: Path) -> None:
    """A defect is a row; a voided entry counts for nothing; long words are cut at a space."""
    log = (
        "- on: 2026-06-20\n  defect: arm cracked\n  note: not good\n"
        "- on: 2026-06-20\n  id: slip\n  note: another aircraft\n"
        "- on: 2026-06-20\n  voids: slip\n  because: wrong log\n"
        f"- on: 2026-06-20\n  note: {'word ' * 60}\n"
    )
    said = Hangar(tmp_path, with_log(log)).due[1].partition(LED)[2]

    assert said.startswith(f" Sedge, note of 20 June 2026: {'word ' * 40}… @ ")
    assert ("not good" in said, "another aircraft" in said) == (False, False)


FAR = "- on: 2026-06-19\n  check: range\n  result: pass\n  readings: {{distance: {}}}\n"


@pytest.mark.parametrize(
    ("last", "said"),
    [("30 m", []), ("31 m", []), ("29.9 m", ["range read 29.9 m, 60 m the time before"]),
     ("as far as the gate", [])],
)  # fmt: skip
def test_a_range_that_fell_to_less_than_half(tmp_path: Path, last: str, said: list[str]) -> None:
    """It passed, and says all the same that an aerial may be broken. Common practice, no source."""
    hangar = Hangar(tmp_path, with_log(FAR.format("60 m") + FAR.format(last)))

    assert (said, "due soon" if said else "nothing open") == (hangar.reasons(), hangar.state())
    if said:
        assert 3 == hangar.due[0]
        assert [] == hangar.silent_pages(said[0])
        again = Hangar(tmp_path / "2", with_log("".join(map(FAR.format, ("60 m", last, "61 m")))))
        assert [] == again.reasons()


MORE = (
    "- {spec: fast, kind: motor, mass: 54 g, kv: 1400 rpm/V, max_current: 22 A}\n"
    "- {spec: big, kind: propeller, mass: 12 g, size: 12x4.5, hand: cw}\n"
)
CHECK_FLIGHT = "- {on: 2026-06-19, flight: 5:00, pack: P-01, purpose: check, result: pass}\n"
SWAPS = {
    "propeller": (
        "- on: 2026-06-19\n  fit: {front-right: {propeller: R-09}}\n"
        "  instead_of: {R-01: serviceable}\n- on: 2026-06-19\n"
        "  check: [propeller-balance, propeller-fit]\n  result: pass\n" + CHECK_FLIGHT,
        "propeller R-09 at front-right is 12x4.5, the others 11x4.5",
    ),
    "motor": (
        "- on: 2026-06-19\n  fit: {front-right: {motor: M-09}}\n"
        "  instead_of: {M-02: serviceable}\n- on: 2026-06-19\n"
        "  check: [motor-screws, spin-directions, start-spread, propeller-balance, propeller-fit]\n"
        "  result: pass\n- on: 2026-06-19\n  inspection: screws-and-mounts\n" + CHECK_FLIGHT,
        "motor M-09 at front-right is 1400 rpm/V, the others 870 rpm/V",
    ),
}


@pytest.mark.parametrize("kind", SWAPS)
def test_one_part_that_is_unlike_all_the_others(tmp_path: Path, kind: str) -> None:
    """All checks passed; a spec that its keeper is sure of is meant."""
    log, said = SWAPS[kind]
    items = "- {tag: R-09, spec: big}\n- {tag: M-09, spec: fast}\n"

    def hangar(name: str, more: str, entries: str) -> Hangar:
        return Hangar(tmp_path / name, with_parts(with_log(entries), more, items))

    odd = hangar("odd", MORE, log)
    meant = hangar("meant", MORE.replace("}", ", sure: true}"), log)

    assert ([said], "due soon", 3) == (odd.reasons(), odd.state(), odd.due[0])
    assert [] == odd.silent_pages(said, "sedge", "aircraft/sedge/set-up.html")
    assert [] == meant.reasons()
    assert [] == hangar("none", MORE, "").reasons()


def test_what_failed_stands_before_what_is_stale(tmp_path: Path) -> None:
    """A pack of too many cells first, and only then the check flight that it re-opened."""
    flown = "- on: 2026-06-19\n  flight: 4:00\n  pack: Q-01\n"
    files = with_text("parts/specs.yaml", "cells: 2S-4S", "cells: 2S-3S", flown)
    said = Hangar(tmp_path, with_four_cells(files, 210)).due[1]

    assert said.index("Sedge: ratings of E-01") < said.index("Sedge: check flight - stale")


MILD = "- on: 2026-06-10\n  gains: soft\n  values: {roll: {p: 40, i: 20}}\n"
SHARP = "- on: 2026-06-19\n  gains: sharp\n  values: {roll: {p: 85, i: 22}, yaw: {p: 9}}\n"
FIRM = SHARP.replace("85", "79")
DIVED = "- {on: 2026-06-20, incident: dived into the ground, severity: hard, packs: [P-01]}\n"
SHAKEN = "- {on: 2026-06-20, flight: 2:10, pack: P-01, noticed: [shaking]}\n"
WOBBLED = "- {on: 2026-06-20, flight: 2:10, pack: P-01, note: wobbles badly and motors hot}\n"
RAISED = "on 20 June 2026, flown on gain set sharp, in force since 19 June 2026: roll p 40 → 85"
TAMED = "- {on: 2026-06-20, gains: soft}\n"


@pytest.mark.parametrize(
    ("log", "what"),
    [
        (MILD + SHARP + DIVED, "crash"),
        (MILD + SHARP + SHAKEN, "shaking"),
        (MILD + SHARP + WOBBLED, "flight"),
        (MILD + FIRM + DIVED, ""),
        (SHARP + DIVED, ""),
        (MILD + DIVED + SHARP.replace("19", "20"), ""),
        (MILD + SHARP + DIVED + TAMED, ""),
        (MILD + SHARP, ""),
    ],
)
def test_gains_that_were_doubled_before_it_crashed(tmp_path: Path, log: str, what: str) -> None:
    """A fact beside what happened, until the set is changed; never what was the cause."""
    hangar = Hangar(tmp_path, with_log(log))

    pages = ("aircraft/sedge/index.html", "due.html", "cards/sedge-field.html")
    assert {bool(what)} == {RAISED in hangar.due[1], *(RAISED in hangar.page(one) for one in pages)}
    raised = {one.get("gains_raised") for one in hangar.json["aircraft"]}
    assert {f"{what} {RAISED}" if what else None} == raised
    assert not what or f"Sedge: {what} {RAISED}" in hangar.due[1]
    public = hangar.folder.parent / "public"
    status, _ = hangar.run("render", str(hangar.folder), "--into", str(public), "--for", "public")
    assert 0 == status
    for one in (*public.rglob("*.html"), *public.rglob("*.json")):
        assert "40 → 85" not in one.read_text()
