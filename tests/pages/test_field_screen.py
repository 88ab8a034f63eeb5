"""The field card: one screen before the first flight of the day, and how long the card holds."""

import datetime
import re

import msgspec
import pytest

from buildbook.basis import amounts
from buildbook.pages import cards, hangar
from buildbook.pages.stock import item
from buildbook.pages.theme import Press, theme_folders
from buildbook.pages.work import going_flying
from buildbook.records.aircraft import Radio
from buildbook.words.sheets.field import (
    Timer,
    air_words,
    guessed,
    holds_words,
    link_lost_words,
    settings,
    transmitter_words,
)
from buildbook.words.sheets.set_up import cell_words

LOG = "aircraft/sedge/logbook.yaml"
CHECKED = """\
- on: 2026-02-01
  fit:
    front-left: {motor: M-1, esc: E-1, propeller: L-1}
    front-right: {motor: M-2, esc: E-2, propeller: R-1}
    rear-right: {motor: M-3, esc: E-3, propeller: L-2}
    rear-left: {motor: M-4, esc: E-4, propeller: R-2}
- {on: 2026-02-02, check: spin-directions, result: pass}
- {on: 2026-02-03, inspection: screws}
- {on: 2026-06-20, flight: 6:00, pack: P-2}
"""


def words_of(reports, slug="sedge"):
    """The card as a reader sees it: no markup, one space between words."""
    html = Press(reports, theme_folders(None)).compose(cards.field_card(reports, slug))
    main = html[html.index("<main") : html.index("</main>")]
    return " ".join(re.sub(r"<[^>]+>", " ", main).split())


def test_the_lines_stand_in_the_order_of_doing(open_changed):
    """State, transmitter, pull, correction, link lost; then the packs and the rows to fill."""
    words = words_of(open_changed({LOG: CHECKED}))

    wanted = (
        "Nothing open to 30 June 2026; look yourself .",
        "Transmitter first Memory 4, mode 2; throttle low, cut on (left switch)",
        "Pull at Each propeller and motor, each arm, the plugs and leads, the strap of the pack",
        "Which way Propellers off: tipped nose down, the front motors speed up; tipped left, the"
        " left ones",
        "Link lost Throttle: cut; never proved",
        "pack charge timer land at, a cell, under load P-2",
        "Look over Marking present and legible",
        "Flights of the day no. pack flown used landing what was noticed 1 2 3 4 5 6",
    )
    places = [words.index(line.replace("yourself .", "yourself")) for line in wanted]
    assert sorted(places) == places


def test_the_voltage_to_land_at_is_that_under_load(demo_reports):
    """A glider reads it in the glide, where more shows than the motor would leave."""
    said = "The voltage is that under load; at rest or in a glide it reads higher, so land earlier."

    assert said in words_of(demo_reports, "thistledown")


def test_a_grounded_aircraft_says_why_and_has_no_rows_to_fill(open_changed):
    """In the keeper's own words, and nothing of the transmitter or of how long the card holds."""
    defect = "- {on: 2026-06-21, defect: Boom clamp cracked., severity: grounds}\n"
    words = words_of(open_changed({LOG: CHECKED + defect}))

    assert "Grounded, leave at home: boom clamp cracked" in words
    assert "Flights of the day" not in words
    assert "Transmitter first" not in words
    assert "Look over" not in words
    assert "one day’s flying" not in words


def test_what_falls_due_soon_is_named_with_what_is_left(open_changed):
    """Screws are due after ten flights, and eight were flown."""
    eight = ", ".join(["[6:00, P-2]"] * 8)
    flights = f"- {{on: 2026-06-21, flights: [{eight}]}}\n"
    words = words_of(open_changed({LOG: CHECKED + flights}))

    assert "Due soon: screws, 1 flight left" in words


def test_a_card_holds_for_a_day_and_until_what_comes_round_first(demo_reports):
    """By flights where those run out before the nearest day of the calendar."""
    rows = demo_reports.aircraft_standing("burdock").rows
    day = demo_reports.hangar.as_of
    by_days = [row for row in rows if row.first_by == "days"]

    assert "For one day’s flying, 2 flights at most; then due: screws and mounts." == holds_words(
        rows, day
    )
    assert "For one day’s flying, before 30 January 2027; then due: failsafe retest." == (
        holds_words(by_days, day)
    )
    assert "For one day’s flying." == holds_words(rows, datetime.date(2099, 1, 1))
    assert "For one day’s flying." == holds_words((), day)


def test_what_is_not_recorded_of_the_radio_is_said():
    """Nobody is led to think that a cut is there."""
    assert "memory not recorded; throttle low, cut not recorded" == transmitter_words(None)
    assert "memory 4; throttle low, cut not recorded" == transmitter_words(Radio(memory="4"))
    assert "not recorded; never proved" == link_lost_words(None, ())


@pytest.mark.parametrize(
    ("cells", "said"), [(3, "3.68 V"), (None, "11.04 V in all"), (0, "11.04 V in all")]
)
def test_the_voltage_to_land_at_is_that_of_a_cell(cells, said):
    """11.04 V of three cells is 3.68 V each (a division)."""
    assert said == cell_words(11.04, cells)


def test_the_timers_say_for_which_air_they_are_and_what_cold_leaves(demo_reports):
    """Beside each of them, and in a sentence below; a glider's are those of its motor."""
    words, glider = words_of(demo_reports, "trefoil"), words_of(demo_reports, "thistledown")
    timer = demo_reports.figures_of_aircraft("trefoil").find("timer_setting", "P-11")
    cold = as_set(timer.other["at 0 °C, s"])

    assert f"{amounts.duration(timer.value)} 0 °C: {cold} 3.67 V P-12 " in words
    assert (
        "Times are estimates; leave a reserve. Timers are for a pack at 14 °C, and at 0 °C; how "
        "much the cold takes is assumed: common practice, no source. "
    ) in words
    assert "pack charge motor timer land at, a cell, under load P-31" in glider
    assert "0 °C: none 3.45 V" in glider
    assert "With 140 g" not in words


def test_the_card_has_the_plan_for_the_payload_that_was_flown(demo_reports):
    """Its low end as a timer is set, what cold leaves of it, and the voltage to land at."""
    figures = demo_reports.figures_of_aircraft("hogweed")
    timer, alarm = figures.find("timer_setting", "P-21"), figures.find("alarm_voltage", "P-21")
    time, cold = (as_set(timer.other[f"with the payload flown{at}, s"]) for at in ("", " at 0 °C"))
    volts = amounts.voltage(alarm.other["with the payload flown, V"] / 4)

    assert f"With 140 g: P-21 {time}, at 0 °C {cold}, land at {volts} a cell, P-22 " in words_of(
        demo_reports, "hogweed"
    )


def as_set(seconds):
    """Minutes and seconds."""
    return f"{round(seconds) // 60}:{round(seconds) % 60:02d}"


def test_going_flying_has_the_timers_of_what_can_be_taken(demo_reports):
    """For which air, then a column for each pack of an aircraft; what stays at home has none."""
    page = going_flying.page(demo_reports, "")
    html = Press(demo_reports, theme_folders(None)).compose(page)
    words = " ".join(re.sub(r"<[^>]+>", " ", html).split())
    timer = demo_reports.figures_of_aircraft("thistledown").find("timer_setting", "P-31")

    air = (
        "Timers are for a pack at 14 °C, and at 0 °C; how much the cold takes is "
        "assumed: common practice, no source."
    )
    assert 1 == words.count(air)
    assert words.index(air) < words.index("Motor timer")
    weakest = demo_reports.figures_of_aircraft("thistledown").find("timer_setting", "P-33")
    assert f"Motor timer P-31 P-32 P-33 at 14 °C {as_set(timer.value)} " in words
    assert f" {as_set(weakest.value)} at 0 °C {as_set(timer.other['at 0 °C, s'])} " in words
    assert "none no pack charged; usually 2 flights a day" in words
    assert words.index("Burdock") < words.index("Thistledown")
    assert "Timer P-21" not in words


def test_the_payload_flown_has_timers_of_its_own(demo_reports):
    """Time, what cold leaves of it and where to land, five packs abreast and no more."""
    flown = demo_reports.figures_of_aircraft("hogweed").find("timer_setting", "P-21")
    alone, loaded = settings([Timer("P-21", flown, "3.70 V a cell")], 287.15, by_motor=False)
    six = settings([Timer(f"P-{at}", flown) for at in range(6)], 287.15, by_motor=False)

    assert ("timer", "with 140 g") == (alone.lead, loaded.lead)
    assert ["at 14 °C", "at 0 °C", "land at"] == [label for label, _ in loaded.rows]
    assert ("3.70 V a cell",) == loaded.rows[2][1]
    assert [5, 1, 5, 1] == [len(one.tags) for one in six]


def test_a_weak_pack_is_called_so_wherever_it_stands(demo_reports):
    """One word and one reason for P-33: front page, going flying, its page, card and label."""
    low = "the flight of 28 September 2025 came down to its cut-off, 3.40 V a cell"
    press = Press(demo_reports, theme_folders(None))

    def read(page):
        return " ".join(re.sub(r"<[^>]+>", " ", press.compose(page)).split())

    assert f"voltage low, 82 % : {low}" in read(going_flying.page(demo_reports, ""))
    assert f"P-33, voltage low, 82 %: {low}." in read(cards.field_card(demo_reports, "thistledown"))
    label = read(cards.labels(demo_reports, ""))
    assert f"Voltage low : {low}" in label
    assert 1 == label.count("Voltage low")
    assert "serviceable voltage low, 82 %" in read(item.page(demo_reports, "P-33"))
    assert f"Voltage low: {low}" in read(item.page(demo_reports, "P-33"))
    assert "serviceable How it stands" in read(item.page(demo_reports, "P-31"))
    assert "P-33" == hangar.page(demo_reports, "").facts["packs"][0].tag


def test_timers_for_air_that_nobody_wrote_or_that_is_freezing():
    """About 20 °C where it is not recorded; nothing of freezing where no air is colder."""
    assert air_words(None).startswith("timers are for a pack at about 20 °C, and at 0 °C;")
    assert "timers are for a pack at -4 °C" == air_words(269.15)
    assert () == settings((), None, by_motor=False)


def test_a_timer_that_no_flight_tells_of_is_called_assumed(demo_reports):
    """On *going flying* below its time, on the card too; one that was flown is not."""
    flown = demo_reports.figures_of_aircraft("trefoil").find("timer_setting", "P-11")
    unflown = msgspec.structs.replace(
        flown, value=703.0, other={"at 0 °C, s": 613.0, "flights with a charge behind it": 0.0}
    )
    timers = (Timer("P-11", flown), Timer("P-12", unflown))

    (told,) = settings(timers, 287.15, by_motor=False)
    assert ("timer", ("P-11", "P-12")) == (told.lead, told.tags)
    assert ["at 14 °C", "at 0 °C", "draw"] == [label for label, _ in told.rows]
    assert ["11:43", "10:13", "assumed"] == [cells[1] for _, cells in told.rows]
    assert "" == told.rows[2][1][0]
    assert {"P-12": "assumed"} == guessed(timers)


def test_the_card_calls_a_timer_assumed_until_a_flight_wrote_its_charge(monkeypatch, demo_reports):
    """The word stands in its cell, between the time and what cold leaves of it."""
    assert "assumed 0 °C" not in words_of(demo_reports, "trefoil")

    monkeypatch.setattr(cards, "guessed", lambda timers: {one.tag: "assumed" for one in timers})
    assert "assumed 0 °C: " in words_of(demo_reports, "trefoil")
