"""Stock, radio, going flying, compare, programme and aircraft pages: their facts."""

import datetime
import re

import pytest

from buildbook.pages.aircraft import aircraft, layout
from buildbook.pages.stock import compare, stock
from buildbook.pages.theme import Press, theme_folders
from buildbook.pages.work import going_flying, programme
from buildbook.report.figures.comparison import Compared, Comparison, Measure
from buildbook.report.state import Counters
from buildbook.reporting.figures.comparison import best, on_one_scale
from buildbook.reporting.outing import usual_outing
from buildbook.words.charts import month_words_of
from buildbook.words.measures.days import EXACT
from buildbook.words.work_list import job_title


def test_stock_goes_by_kind_size_hand_and_state(owner):
    """What is on no aircraft, like with like."""
    told = [
        (drawer.kind, shelf.title, shelf.size, shelf.hand, shelf.state, shelf.tags)
        for drawer in owner.stock().drawers
        for shelf in drawer.shelves
    ]

    assert [
        ("motor", "2213 motor", "", "", "serviceable", ("M-5",)),
        ("propeller", "10x5 ccw", "10x5", "ccw", "serviceable", ("L-3", "L-4")),
        ("propeller", "10x5 cw", "10x5", "cw", "serviceable", ("R-3",)),
    ] == told


def test_how_a_pack_was_left_is_its_last_charge_or_flight(owner):
    """P-1 was flown last, P-2 charged after its last flight."""
    left = {line.tag: (line.rest.left, line.rest.since) for line in owner.packs()}

    assert ("flown", datetime.date(2026, 6, 20)) == left["P-1"]
    assert ("full", datetime.date(2026, 6, 25)) == left["P-2"]


def test_packs_in_quarantine_stand_first_in_stock(owner):
    """Whatever their health."""
    assert ["P-1", "P-2"] == [line.tag for line in owner.packs()]


def test_a_memory_that_two_aircraft_share_is_told_on_both(owner):
    """The wrong model in the transmitter is a crash."""
    assert [("rush", ("sedge",)), ("sedge", ("rush",))] == [
        (memory.slug, memory.twins) for memory in owner.radio().memories
    ]
    assert (1, 2) == stock.radio_page(owner, "").facts["modes"]


def test_memories_stand_in_the_order_of_their_numbers(open_changed):
    """2 before 10, names after numbers."""
    record = "aircraft: Rush\nkind: multirotor\nlayout: tri-y\nradio: {memory: 10}\n"

    found = open_changed({"aircraft/rush/aircraft.yaml": record}).radio().memories

    assert ["4", "10"] == [memory.radio.memory for memory in found]


def test_a_grounded_aircraft_is_left_at_home(owner):
    """With its packs; and a pack in quarantine is offered nowhere."""
    facts = going_flying.page(owner, "").facts

    assert ([], ["sedge"]) == (
        [one.slug for one in facts["take"]],
        [one.slug for one, *_ in facts["leave"]],
    )
    assert ["P-1"] == [line.tag for line, _ in facts["home"]]
    assert ([], []) == (
        [line.tag for line in facts["to_charge"]],
        [line.tag for line in facts["full"]],
    )
    assert ("P-2",) == facts["leave"][0][0].packs


def test_a_usual_day_out_is_the_median_of_the_last_ones(owner):
    """Days of 2 flights (750 s) and 9 flights (3800 s); of two the greater is planned for."""
    outing = usual_outing(owner.hangar.aircraft["sedge"])

    assert (9, 3800) == (outing.flights, outing.duration_s)
    assert None is usual_outing(owner.hangar.aircraft["rush"])


def test_what_falls_due_on_the_way_is_named(open_changed):
    """Screws are due after ten flights: with two flown, a usual day of two leaves six."""
    logbook = (
        "- on: 2026-02-03\n  inspection: screws\n"
        "- on: 2026-06-06\n  flights: [[6:00, P-2], [6:30, P-2], [6:00, P-2], [6:30, P-2]]\n"
        "- on: 2026-06-07\n  flights: [[6:00, P-2], [6:30, P-2], [6:00, P-2], [6:30, P-2]]\n"
    )
    facts = going_flying.page(open_changed({"aircraft/sedge/logbook.yaml": logbook}), "").facts
    (sedge, *_) = (*facts["take"], *(one for one, *_ in facts["leave"]))

    assert (4, 1500) == (sedge.outing.flights, sedge.outing.duration_s)
    assert ["screws"] == [job_title(job, EXACT) for job in sedge.coming]


def test_spares_are_of_what_flying_aircraft_carry(owner):
    """Propellers by size and hand; an ESC without a spare is told as none."""
    assert [
        ("10x5 ccw", "10x5", "ccw", 2, ("L-3", "L-4")),
        ("10x5 cw", "10x5", "cw", 2, ("R-3",)),
        ("2213 motor", "", "", 4, ("M-5",)),
        ("ESC 20 A", "", "", 4, ()),
    ] == [
        (spare.title, spare.size, spare.hand, spare.fitted, spare.spares)
        for spare in going_flying.page(owner, "").facts["spares"]
    ]


def test_tasks_of_a_moment_are_asked_for_at_the_field(owner):
    """They never fall due, so this is where they stand."""
    ((when, tasks),) = going_flying.page(owner, "").facts["moments"]

    assert "before each flight" == when
    assert [("look-round", "Look all round.", ("few",))] == [
        (task.task, task.what, task.programmes) for task in tasks
    ]


def test_the_preflight_list_has_fourteen_looks_and_thirteen_without_wings():
    """Section 4a of the record rules of this project, restated there from AC 107-2."""
    assert (14, 13) == (len(going_flying.looks(wings=True)), len(going_flying.looks(wings=False)))
    assert 14 == len({look.id for look in going_flying.PREFLIGHT})


def test_columns_of_a_comparison_are_on_one_scale():
    """The greatest is whole, nothing recorded is no bar, and a column of zeros is empty."""
    rows = on_one_scale([(2.0, None, 0.0), (4.0, 1.0, 0.0)])

    assert [(0.5, None, 0.0), (1.0, 1.0, 0.0)] == [
        tuple(cell.share for cell in row) for row in rows
    ]
    assert "cannot say" == compare.measure_words("cycles", rows[0][1], Counters())


def test_what_is_missing_is_said_in_words_and_its_lines_are_folded(demo_reports):
    """The page of an aircraft that is being built: which step is next, and where all are."""
    html = Press(demo_reports, theme_folders(None)).compose(aircraft.page(demo_reports, "clover"))
    _, _, missing = html.partition('<h2 id="write-next">What is missing</h2>')
    words, _, folded = missing.partition("<summary>What to write</summary>")

    assert "18 set-up checks left; now on the bench, no pack plugged in, in this order" in words
    assert "Unplug the pack. See that no mounting screw touches a winding" in words
    assert '<a href="set-up.html">set-up sheet</a> has all steps.' in words
    assert "check: motor-screws" in folded.partition("</section>")[0]
    assert "<pre" not in words


def test_the_newest_entries_of_an_aircraft_link_what_they_name(demo_reports):
    """A tag is one word that leads to its page, never cut at the end of a line."""
    html = Press(demo_reports, theme_folders(None)).compose(aircraft.page(demo_reports, "burdock"))
    newest = html.partition('<h2 id="newest">')[2]

    assert 'with <a class="tag" href="../../items/P-06.html">P-06</a>' in newest


def test_the_bar_of_a_capacity_is_what_is_left_from_new_to_worn(demo_reports):
    """Worked out by hand: P-01 has 95.5 % of rated, its limit is 80 %: 0.155 of 0.2."""
    packs = next(bench for bench in demo_reports.comparisons() if bench.of == "packs")
    found = {row.key: row.measures[0] for row in packs.rows}

    for tag, share, bar in (("P-01", 0.955, 0.775), ("P-33", 0.822, 0.11)):
        assert (share, bar) == (
            pytest.approx(found[tag].value, abs=5e-4),
            pytest.approx(found[tag].share, abs=3e-3),
        )


def test_a_count_of_crashes_has_no_bar(demo_reports):
    """None or one: the number says it."""
    html = Press(demo_reports, theme_folders(None)).compose(compare.page(demo_reports, ""))
    crashes = re.findall(r'<td data-label="crashes">([^<]*)<(/td|svg)', html)

    assert 4 == len(crashes)  # of the one that is being built nothing is known
    assert {"/td"} == {end for _, end in crashes}


def test_flights_by_month_and_in_the_table_add_up(demo_reports):
    """What was flown before the first month is told beside what the months hold."""
    series = demo_reports.flying_by_month()
    totals = [one.counters.flights for one in demo_reports.hangar.aircraft.values()]

    assert 0 < series.earlier
    assert sum(totals) == series.earlier + sum(month.flights for month in series.months)
    assert month_words_of(series).endswith(f" {series.earlier} more were flown before.")


def test_a_comparison_begins_with_which_one_for_what(demo_reports):
    """Of those that nothing grounds; the time of each is that on its usual pack."""
    found = {bench.of: bench.best for bench in demo_reports.comparisons()}

    assert [
        ("longest in the air", ("thistledown",)),
        ("most thrust", ("burdock",)),
        ("lightest", ("burdock",)),
        ("most flown", ("thistledown",)),
    ] == [(one.purpose, one.keys) for one in found["aircraft"]]
    assert [("most capacity left", ("P-31",)), ("most worn", ("P-33",))] == [
        (one.purpose, one.keys) for one in found["packs"]
    ]
    assert [("run longest", ("M-01", "M-02", "M-04"))] == [
        (one.purpose, one.keys) for one in found["motors"]
    ]


def test_aircraft_are_compared_by_the_thrust_that_is_left(demo_reports):
    """Beside that at the nominal voltage, as the figure says it."""
    bench = next(one for one in demo_reports.comparisons() if one.of == "aircraft")
    at = bench.columns.index("at the reserve")

    for row in bench.rows:
        figures = demo_reports.figures_of_aircraft(row.key).figures
        told = (
            one.other.get("at the reserve") for one in figures if one.name == "thrust_to_weight"
        )
        left = min((one for one in told if one is not None), default=None)
        assert left == row.measures[at].value
        if left is not None:
            assert left < row.measures[at - 1].value


def test_nothing_is_first_of_one_or_of_noughts():
    """It takes two that ran."""

    def run(*hours):
        rows = tuple(
            Compared(key=f"M-{at}", title="", where=None, measures=(Measure(value, None),))
            for at, value in enumerate(hours)
        )
        return Comparison(of="motors", columns=("run",), rows=rows)

    assert [] == [*best(run(0.0, 0.0))]
    assert [] == [*best(run(3600.0, 0.0, None))]
    assert ["M-1"] == [key for one in best(run(60.0, 3600.0, 0.0)) for key in one.keys]
    assert [] == [*best(run(60.0, 3600.0), without={"M-1"})]
    assert [] == [*best(run(3600.0, 3600.0))]
    assert [] == [*best(run(60.0, *[3600.0] * 5))]


def test_motors_of_which_the_same_is_told_share_a_line(demo_reports):
    """Those of one aircraft with the same life; what never ran is named below the table."""
    bench = compare.page(demo_reports, "").facts["comparisons"][2]
    lines, unused = compare.lines_of(bench, bench.rows)

    assert [
        (("M-21", "M-22", "M-23"), ["14.4 h", "72", "0", "0"]),
        (("M-24",), ["14.4 h", "72", "1", "0"]),
    ] == [
        (line.keys, [words for _, _, words in line.cells])
        for line in lines
        if line.where == "burdock"
    ]
    assert ("M-06", "M-25", "M-37", "M-51", "M-52", "M-53", "M-54") == unused
    assert ("M-17",) in [line.keys for line in lines]  # how long it ran is not known


def test_a_comparison_says_how_sure_a_total_is(demo_reports):
    """Lives before the log: an estimate, one without hours, one that nobody knows."""
    told = {
        row.key: {
            column: compare.measure_words(column, cell, row.counters)
            for column, cell in zip(bench.columns, row.measures, strict=True)
        }
        for bench in compare.page(demo_reports, "").facts["comparisons"]
        for row in bench.rows + bench.folded
    }

    assert ("about 38.9 h", "about 102", "0") == (
        told["thistledown"]["flown"],
        told["thistledown"]["flights"],
        told["thistledown"]["crashes"],
    )
    assert ("at least 4.2 h", "73") == (told["P-12"]["flown"], told["P-12"]["flights"])
    assert ("at least 0.25 h", "at least 2.2") == (told["P-33"]["flown"], told["P-33"]["cycles"])
    assert ("none", "not known") == (told["M-06"]["run"], told["M-17"]["run"])


def test_past_lives_tell_not_known_from_not_flown(demo_reports):
    """R-91 came used and never flew here; R-07 was scrapped on the balancer."""
    facts = stock.page(demo_reports, "").facts
    lives = {life.title: life for life in facts["lives"]}
    folding, ccw = lives["10x6 folding propeller with spinner"], lives["10x5 propeller, ccw"]

    assert "not known" == facts["lasted"](folding, folding.median_s)
    assert ("not flown", "6.0 h") == (
        facts["lasted"](ccw, ccw.shortest_s),
        facts["lasted"](ccw, ccw.longest_s),
    )


def test_only_what_there_are_two_of_is_compared(owner):
    """Packs and motors and aircraft, in that hangar."""
    benches = compare.page(owner, "").facts["comparisons"]

    assert [("aircraft", 2), ("packs", 2), ("motors", 5)] == [
        (bench.of, len(bench.rows)) for bench in benches
    ]


LOG = "aircraft/sedge/logbook.yaml"
SHORT_LOG = "- on: 2026-06-06\n  flight: 6:00\n  pack: P-2\n"


def test_a_programme_shows_what_the_keeper_changed_and_dropped(open_changed):
    """The default beside the own interval, looser marked, dropped rows with their reason."""
    own = (
        "programme: few\nbased_on: built-in small-multirotor\n"
        "tasks:\n  - task: propeller-touch\n    every: {flights: 25}\n"
        "drop: {compass: It has none.}\n"
    )
    facts = programme.page(open_changed({"programmes/few.yaml": own, LOG: SHORT_LOG}), "few").facts
    touch = next(line for line in facts["tasks"] if line.name == "propeller-touch")

    assert ("25 flights", "10 flights", True) == (touch.when, touch.usual, touch.looser)
    assert [("compass", "It has none.")] == [(row.name, row.why) for row in facts["dropped"]]
    assert ("small-multirotor",) == tuple(
        name.removeprefix("built-in ") for name in facts["based_on"]
    )


def test_programmes_have_a_page_with_what_they_are_based_on(open_changed):
    """The keeper's own and the built-in one under it."""
    own = "programme: few\nbased_on: built-in small-multirotor\n"

    assert ("few", "small-multirotor") == programme.keys(
        open_changed({"programmes/few.yaml": own, LOG: SHORT_LOG})
    )


def test_an_aircraft_lists_what_sits_at_each_motor_station(owner):
    """In the order of the layout; an empty slot is None."""
    sedge, rush = (
        aircraft.motor_stations(owner, owner.hangar.aircraft[slug]) for slug in ("sedge", "rush")
    )

    assert [("front-left", "ccw", 3, ["M-1", "E-1", "L-1"])] == [
        (at.name, at.spin, at.output, [part.tag for part in at.slots]) for at in sedge[:1]
    ]
    assert [(None, None, None)] * 3 == [at.slots for at in rush]


def test_the_newest_entries_come_first(owner):
    """The note of 22 June is the last of eight."""
    newest = aircraft.page(owner, "sedge").facts["newest"]

    assert 6 == len(newest)
    assert datetime.date(2026, 6, 22) == newest[0].entry.on


def test_terms_of_the_gains_in_force_are_columns(owner):
    """In the order in which they were written, each once."""
    facts = aircraft.page(owner, "sedge").facts

    assert ("p", "i") == facts["terms"]
    assert "soft" == facts["gains"][0].name


def test_headlines_pick_the_value_to_plan_with(owner):
    """Of several packs the heaviest mass; what lacks something says what."""
    found = {one.name: one for one in owner.headlines("sedge").shown}

    assert "all_up_mass" in found
    for one in found.values():
        assert (one.figure is None) != (one.missing is None)


def test_layout_page_marks_the_wrong_hand_and_the_spin_that_nobody_checked(open_changed, files):
    """Both at rear-left."""
    path = "aircraft/sedge/logbook.yaml"
    wrong = files[path].replace("propeller: R-2}", "propeller: L-3}")
    facts = layout.page(open_changed({path: wrong}), "sedge").facts

    assert ["rear-left: ccw propeller, motor turns cw"] == [
        fault.words for fault in facts["faults"]
    ]
    assert [("spin directions", ("rear-left",), "never done")] == [
        (job_title(job, EXACT), job.stations, job.state) for job in facts["unchecked"]
    ]
    assert [datetime.date(2026, 6, 21)] == [change.entry.on for change in facts["changes"]]


@pytest.mark.parametrize(
    ("table", "expected"),
    [
        ((("a", "b"), (("1", ""), ("2", ""))), (("a",), (("1",), ("2",)))),
        ((("a", "b"), (("1", ""), ("", "x"))), (("a", "b"), (("1", ""), ("", "x")))),
    ],
)
def test_columns_in_which_nothing_stands_are_left_out(table, expected):
    """A column with one word in it stays."""
    assert expected == layout.without_empty_columns(table)


def test_a_programme_tells_what_follows_an_event_and_how_months_run(open_changed):
    """So many flights after it, and whether months run to their end."""
    own = (
        "programme: few\ntasks:\n"
        "  - {task: again, what: Look., follows: {after: [repair, crash], flights: 1}}\n"
        "  - {task: look, what: Look., every: {months: 6}, month_rule: end_of_month}\n"
    )

    facts = programme.page(open_changed({"programmes/few.yaml": own, LOG: SHORT_LOG}), "few").facts

    assert ["1 flight after repair or crash", "6 months"] == [line.when for line in facts["tasks"]]
    assert "months run to their end" in facts["tasks"][1].remarks


def test_going_flying_names_each_pack_of_an_aircraft_once(demo_reports):
    """With its timer, after what is open; those that flew equally cold share one sentence."""
    html = Press(demo_reports, theme_folders(None)).compose(going_flying.page(demo_reports, ""))
    words = " ".join(re.sub(r"<[^>]+>", " ", html).split())
    take = words.partition("Leave at home")[0].partition("Aircraft")[2]

    assert {"P-01": 1, "P-12": 1, "P-33": 1} == {
        tag: take.count(tag) for tag in ("P-01", "P-12", "P-33")
    }
    assert take.index("Rear arm hinge has") < take.index("P-11")
    assert 1 == words.count("cold pack: less time (flown at 9 °C on 8 November 2026)")
    assert "P-11 , P-12 , P-31 , P-32 , cold pack" in words
