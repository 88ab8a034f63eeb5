"""What a stranger must find on ``due`` and not only in ``check``, with what to do about it."""

from pathlib import Path

import pytest
from hangar_on_disk import PACK, QUIET, SPECS, Hangar, with_four_cells, with_log

STORE = "stores/p-01.yaml"
SPEC = "parts/specs.yaml"
KEEP_AWAY = (
    "Do not charge or fly it. While it is cool, lay it outdoors, away from anything that burns"
)


def charged(words: str, then: str = "", specs: str = SPECS) -> dict[str, str]:
    """The quiet hangar after one more charge of its pack, and whatever came then."""
    charge = f"- {{on: 2026-06-20, charge: {words}}}\n"
    return {**QUIET, SPEC: specs, STORE: PACK + charge + then}


RATED = SPECS.replace("chemistry: LiPo", "chemistry: LiPo, charge_rate: 1C")
WRONG = {
    "too much": ("P-01, put_in: 2430 mAh", SPECS, "took 2430 mAh, though rated 2200 mAh"),
    "too cold": ("P-01, temperature: -4 °C", SPECS, "charged at -4 °C, not 0 °C to 40 °C"),
    "too hot": ("P-01, temperature: 41 °C", SPECS, "charged at 41 °C, not 0 °C to 40 °C"),
    "too fast": ("P-01, current: 4.4 A", RATED, "charged at 4.4 A, rated 2.2 A"),
}


@pytest.mark.parametrize("what", WRONG)
def test_a_pack_that_was_charged_wrongly_is_to_be_looked_at(tmp_path: Path, what: str) -> None:
    """Its own row, its page, *going flying*; ``check`` goes on warning of it."""
    words, specs, said = WRONG[what]
    hangar = Hangar(tmp_path, charged(words, specs=specs))

    assert ("due soon", [f"P-01 charged wrongly: due, {said}"]) == hangar.pack("P-01")
    assert 3 == hangar.due[0]
    assert f"P-01 due charged wrongly - due, {said} @ {STORE}:7" in hangar.due[1]
    assert "look it over, read each cell, and record that as pack-look" in hangar.due[1]
    assert [] == [page for page in ("due.html", "items/P-01.html") if said not in hangar.page(page)]
    assert "warning: " in hangar.check


@pytest.mark.parametrize(
    ("words", "specs"),
    [
        ("P-01, put_in: 2420 mAh", SPECS),
        ("P-01, temperature: 0 °C", SPECS),
        ("P-01, temperature: 40 °C", SPECS),
        ("P-01, current: 2.2 A", RATED),
        ("P-01, current: 4.4 A", SPECS),
    ],
)
def test_a_charge_within_its_limits_asks_for_nothing(
    tmp_path: Path, words: str, specs: str
) -> None:
    """At the line itself, and without a rate that its spec says."""
    assert ("nothing open", []) == Hangar(tmp_path, charged(words, specs=specs)).pack("P-01")


def test_packs_of_other_cells_on_one_charge_are_both_to_be_looked_at(tmp_path: Path) -> None:
    """3S and 4S in one entry: whichever of the two counts the charger was set to."""
    hangar = Hangar(tmp_path, with_four_cells(charged("[P-01, Q-01]")))

    said = "charged wrongly: due, charged as one with a pack of other cells or chemistry"
    assert [f"P-01 {said}"] == hangar.pack("P-01")[1]
    assert f"Q-01 {said}" in hangar.pack("Q-01")[1]


@pytest.mark.parametrize(
    ("other", "said"),
    [
        ("[3.96 V, 3.96 V, 3.96 V]", ["110 mV"]),
        ("[3.95 V, 3.95 V, 3.95 V]", []),
        ("", []),
    ],
)
def test_packs_on_one_lead_that_lay_apart_are_both_to_be_looked_at(
    tmp_path: Path, other: str, said: list[str]
) -> None:
    """Read before the charge. Where nobody read them, only ``check`` warns, or a careful keeper
    of equal packs would have a row after each evening."""
    read = "- {{on: 2026-06-19, charge: {}, to: part, resting: {}}}\n"
    before = read.format("P-01", "[3.85 V, 3.85 V, 3.85 V]") + (
        read.format("P-02", other) if other else ""
    )
    together = "- {on: 2026-06-20, charge: [P-01, P-02], together: true}\n"
    hangar = Hangar(tmp_path, {**QUIET, STORE: PACK + before + together})

    words = "charged wrongly: due, charged on one lead with a pack {} a cell apart"
    for tag in ("P-01", "P-02"):
        found = [one for one in hangar.pack(tag)[1] if "charged wrongly" in one]
        assert [f"{tag} {words.format(apart)}" for apart in said] == found
    assert (other == "") == ("their voltages before unknown" in hangar.check)


@pytest.mark.parametrize(
    ("then", "state"),
    [
        ("- {on: 2026-06-20, inspection: pack-look, tags: [P-01]}\n", "nothing open"),
        ("- {on: 2026-06-20, inspection: pack-look, tags: [P-02]}\n", "due soon"),
        ("- {on: 2026-06-20, charge: P-01, to: storage}\n", "due soon"),
        ("- {on: 2026-06-20, inspection: pack-rest-voltage, tags: [P-01]}\n", "due soon"),
    ],
)
def test_only_a_look_at_it_closes_that(tmp_path: Path, then: str, state: str) -> None:
    """Neither the next charge nor a routine reading; nor that its keeper is sure of the figure."""
    for more in ("", ", sure: true"):
        files = charged(f"P-01, temperature: -4 °C{more}", then)
        assert state == Hangar(tmp_path / f"h{len(more)}", files).pack("P-01")[0]


TORN = "result: fail, findings: torn wrap"
FAILED = f"- {{on: 2026-06-19, inspection: pack-look, tags: [P-01], {TORN}}}\n"


def test_a_pack_used_while_it_is_set_aside_says_so_on_its_own_line(tmp_path: Path) -> None:
    """How often, and when last: charged and flown on."""
    files = charged("P-01")
    files[STORE] = PACK + FAILED + files[STORE].removeprefix(PACK)
    flown = "- {on: 2026-06-20, flight: 3:00, pack: P-01}\n"
    files["aircraft/sedge/logbook.yaml"] += flown
    hangar = Hangar(tmp_path, files)

    said = "charged once and flown once since it was set aside, last on 20 June 2026"
    assert ("quarantined", f"P-01 used while aside: open, {said}") == (
        hangar.pack("P-01")[0], hangar.pack("P-01")[1][-1],
    )  # fmt: skip
    assert f"P-01 quarantined set aside: pack look failed on 19 June 2026 (torn wrap) @ {STORE}:7"\
        f" used while aside - open, {said} @" in hangar.due[1]  # fmt: skip
    assert f"used while aside: {KEEP_AWAY}" in hangar.due[1]
    assert said in hangar.page("items/P-01.html")


@pytest.mark.parametrize("state", ["quarantined", "retired", "scrapped"])
def test_what_the_keeper_took_out_of_use_and_used_again_presses(tmp_path: Path, state: str) -> None:
    """He knows of the one, not of the other: exit status 3 from the charge on, and not before."""
    own = f"- {{on: 2026-06-19, state: {{P-01: {state}}}, because: puffed}}\n"
    before = Hangar(tmp_path / "before", {**QUIET, STORE: PACK + own})
    files = {**QUIET, STORE: f"{PACK}{own}- {{on: 2026-06-20, charge: P-01, to: full}}\n"}
    after = Hangar(tmp_path / "after", files)

    assert (0, 3) == (before.due[0], after.due[0])
    assert "charged once since it was set aside, last on 20 June 2026" in after.due[1]


@pytest.mark.parametrize(
    "entry",
    [
        "incident: into the hedge\n  packs: [P-01]",
        "water: landed in the ditch\n  packs: [P-01]",
        "defect: puffed on one side\n  item: P-01",
        "inspection: pack-look\n  tags: [P-01]\n  result: fail\n  findings: torn wrap",
    ],
)
def test_one_caution_for_every_pack_that_is_set_aside(tmp_path: Path, entry: str) -> None:
    """Outdoors, as the caution before it says, and never "where it is"."""
    said = Hangar(tmp_path, with_log(f"- on: 2026-06-20\n  {entry}\n")).due[1]

    assert KEEP_AWAY in said.partition("leave it outdoors, away from anything that burns")[2]
    assert "leave it where" not in said.lower()


def test_after_water_it_is_opened_and_dried_before_anything_gets_power(tmp_path: Path) -> None:
    """The first row of all; what is plugged in waits for it; a look inside closes it alone."""
    wet = "- on: 2026-06-19\n  water: landed in the ditch\n"
    hangar = Hangar(tmp_path / "wet", with_log(wet))
    dry = Hangar(
        tmp_path / "dry", with_log(wet + "- {on: 2026-06-20, inspection: solder-and-leads}\n")
    )

    said = hangar.due[1].partition("Before it flies ")[2]
    first = (
        "Sedge: drying - open it got wet on 19 June 2026, and was not opened since"
        " aircraft/sedge/logbook.yaml:24 Unplug the pack and take it out, before anything gets"
        " power. Open the aircraft, rinse off salt and mud, let it dry for days."
    )
    assert said.startswith(first)
    assert "Only once it is dry inside. Propellers off. Motors turning slowly" in said
    assert "Only once it is dry inside. Unplug" not in said
    assert ([], "grounded") == (dry.rows("drying"), dry.state())


@pytest.mark.parametrize(
    ("defect", "advice"),
    [
        (
            "",
            "Do not fly it. Mend or replace what is wrong, then record it as cleared, with what was"
            " done.",
        ),
        (
            "\n  severity: defer\n  deferred_until: {flights: 5}",
            "Look at it before each flight. Mend it by its limit, after which it grounds, then"
            " record it as cleared, with what was done.",
        ),
        (
            "\n  severity: defer",
            "Look at it before each flight. Write until when it may wait, or mend it, then record"
            " it as cleared, with what was done.",
        ),
        (
            "\n  severity: defer\n  deferred_until: {on: 2026-06-19}",
            "Its deferral has run out. Do not fly it. Mend or replace what is wrong, then record it"
            " as cleared, with what was done.",
        ),
        (
            "\n  severity: note",
            "Look whether it grows. Once it is gone, record it as cleared, with what was done.",
        ),
    ],
)
def test_a_defect_says_what_to_do_about_it(tmp_path: Path, defect: str, advice: str) -> None:
    """On the terminal and on the work list, as it stands."""
    hangar = Hangar(tmp_path, with_log(f"- on: 2026-06-18\n  defect: servo hums{defect}\n"))

    assert advice in hangar.due[1]
    assert f"servo hums. {advice}" in hangar.page("due.html")


def test_what_failed_is_mended_before_it_is_tried_again(tmp_path: Path) -> None:
    """The next step is not the same look once more."""
    failed = (
        "- on: 2026-06-19\n  inspection: preflight-look\n  result: fail\n  findings: crack\n"
        "- on: 2026-06-19\n  check: start-spread\n  result: fail\n"
    )
    said = Hangar(tmp_path, with_log(failed)).due[1]

    assert "First repair what was found. Memory, frame," in said
    assert "First repair what was found. Propellers off. Raise the throttle slowly." in said


def test_range_and_alarm_say_when_they_pass(tmp_path: Path) -> None:
    """With how far it was last time."""
    entries = (
        "- on: 2026-06-18\n  check: range\n  result: pass\n  readings: {distance: 62 m}\n"
        "- on: 2026-06-19\n  setting: {bind: again}\n"
    )
    said = Hangar(tmp_path, with_log(entries)).due[1]

    assert (
        "Pass: full control as far as its maker says, 30 m if not said. Note how far it held."
        " passed last on 18 June 2026, before that: distance 62 m"
    ) in said


def test_check_does_not_sound_as_if_all_were_well(tmp_path: Path) -> None:
    """Its files agree; what they say is a grounded aircraft."""
    entries = "- on: 2026-06-19\n  defect: boom cracked\n  severity: grounds\n"
    hangar = Hangar(tmp_path, with_log(entries))

    assert (
        "Read 1 aircraft, 26 items, 9 entries: no problems.\n"
        "Grounded or set aside: Sedge. 1 row is open or due; run: buildbook due\n"
    ) == hangar.check


def test_what_is_broken_is_never_one_of_some_more(tmp_path: Path) -> None:
    """A cracked arm that its keeper put off, on an aircraft that a crash grounds for more."""
    log = (
        "- {on: 2026-06-19, defect: arm cracked at the root, station: rear-left, severity: defer,"
        " deferred_until: {flights: 20}}\n- {on: 2026-06-20, incident: crash}\n"
    )
    hangar = Hangar(tmp_path, with_log(log))

    assert "grounded" == hangar.state()
    assert [] == hangar.silent_pages("arm cracked at the root")
    head = hangar.page("cards/sedge-field.html")
    assert "; arm cracked at the root (deferred); and " in head


def test_the_field_card_says_which_pack_went_into_its_reserve(tmp_path: Path) -> None:
    """It stays on the card: how long it may fly is what it is about."""
    log = (
        "- {on: 2026-06-20, charge: P-01, to: full}\n"
        "- {on: 2026-06-20, flight: 9:00, pack: P-01, used: 2150 mAh}\n"
    )
    card = Hangar(tmp_path, with_log(log)).page("cards/sedge-field.html")

    assert "P-01 flown into reserve: due, 2150 mAh used, 1760 mAh to its reserve" in card
