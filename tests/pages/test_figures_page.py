"""The figures page: value, basis, working, what nobody can say."""

import re
import xml.etree.ElementTree as ET

import pytest

from buildbook.basis.place import NOWHERE, Place
from buildbook.figures.answers.registry import FIGURES
from buildbook.pages.aircraft import aircraft, figure_sources, figures
from buildbook.pages.story import builds
from buildbook.pages.theme import Press, theme_folders
from buildbook.report.figure import Answers, CannotSay, Figure, Input, Name, Sensitivity, Table
from buildbook.words.figures import aside_words, cell_words, column_words, moved_words
from buildbook.words.filters import shown_places


def test_a_figure_shows_its_working(demo_reports):
    """Formula as MathML, inputs with their line, source, valid range, caution."""
    html = Press(demo_reports, theme_folders(None)).compose(figures.page(demo_reports, "burdock"))

    assert "<math" in html
    assert "Worked out from what was entered" in html
    assert html.index("Worked out from what was entered") < html.index('class="figure"')
    assert re.search(r"content|hangar\.yaml:\d+", html)
    assert "Source: " in html
    assert "Valid: " in html
    for math in re.findall(r"<math.*?</math>", html, re.DOTALL):
        ET.fromstring(math)


def test_each_file_that_a_working_rests_on_is_named_once():
    """Its own folder is short; what is not shared is left out; another aircraft's stays whole."""
    log, own = "aircraft/teal/logbook/2026.yaml", "aircraft/teal/aircraft.yaml"
    places = [Place("stores/p-1.yaml", 3), Place(log, 8), NOWHERE, Place(own, 2), Place(log, 5)]

    assert "stores/p-1.yaml:3, …/logbook/2026.yaml:8, 5, …/aircraft.yaml:2" == shown_places(
        places, "teal"
    )
    assert f"{log}:8" == shown_places([Place(log, 8)], "tea")
    assert "" == shown_places([NOWHERE], "teal")


def test_what_many_workings_rest_on_stands_once(demo_reports):
    """With its place; each working names it and leads there."""
    page = figures.page(demo_reports, "burdock")
    html = Press(demo_reports, theme_folders(None)).compose(page)
    _, _, hover = html.partition("<summary>Working of hover current</summary>")
    hover, _, _ = hover.partition("</details>")

    names = [given.name for given in page.facts["shared"]]
    assert ["air density", "bench table of motor-2216-760"] == names[:2]
    assert 1 == html.count("<dt>Air density</dt>")
    assert (
        'From <a href="#shared">the shared inputs</a>: all-up mass with P-05,'
        " air density, nominal voltage of P-05, bench table of motor-2216-760." in hover
    )
    assert "<dl" not in hover


def test_inputs_that_go_by_subject_are_a_line_each(demo_reports):
    """A name and a value each, its basis where they differ, then where all of them are written."""
    html = Press(demo_reports, theme_folders(None)).compose(figures.page(demo_reports, "burdock"))
    _, _, mach = html.partition("<summary>Working of tip speed against sound</summary>")

    assert (
        "<li><strong>Hover:</strong> tip speed, hover 49 m/s "
        '<span class="place">parts/specs/propellers.yaml:38</span></li>'
    ) in mach.replace("\xa0", " ")


def test_the_public_sees_figures_without_places(public, public_press):
    """Inputs stand there, files and lines do not, nor what the keeper is to write."""
    html = public_press.compose(figures.page(public, "sedge"))

    assert ".yaml" not in html
    assert "cannot say" in html
    assert {""} == {one.because for one in public.figures_of_aircraft("sedge").cannot_say}


def test_what_nobody_can_say_is_told_with_where_to_write_it(owner):
    """The reason of the answer stands on the page."""
    html = Press(owner, theme_folders(None)).compose(figures.page(owner, "sedge"))
    missing = owner.figures_of_aircraft("sedge").cannot_say[0]

    assert str(missing.place) in html


def test_figures_stand_under_headings_and_unknown_ones_last(owner):
    """A figure without a heading is not lost."""
    answers = Answers(
        figures=(
            Figure(name="new_thing", value=1.0, unit="kg", basis="spec", formula="m", source="x"),
            Figure(name="hover_power", value=80.0, unit="W", basis="spec", formula="P", source="x"),
        ),
        cannot_say=(CannotSay(name="balance", because="no place of the pack"),),
    )

    assert [
        ("Mass and balance", ["balance"]),
        ("Thrust and hover", ["hover_power"]),
        ("Other figures", ["new_thing"]),
    ] == [
        (topic.heading, [entry.name for entry in topic.entries])
        for topic in figures.topics(owner, answers)
    ]


def test_what_would_change_it_most_leaves_out_what_does_nothing():
    """One per cent more of an input: so much more or less of the figure."""
    shown = figures.show(
        Figure(
            name="x",
            value=1.0,
            unit="kg",
            basis="spec",
            formula="m",
            source="x",
            inputs=(Input(called=Name("a"), value=1.0, unit="kg", basis="spec"),) * 2,
            sensitivity=(
                Sensitivity(input=Name("a"), share_per_percent=0.013),
                Sensitivity(input=Name("b"), share_per_percent=-0.01),
                Sensitivity(input=Name("c"), share_per_percent=0.0),
            ),
            other={"simulated, s": 996.2, "simulated, difference": 0.168, "mAh a minute": 143.5},
            table=Table(columns=("part", "mass_kg", "share"), rows=(("M-1", 0.055, 0.2),)),
        )
    )

    assert ((Name("a"), "1.3 % more"), (Name("b"), "1 % less")) == shown.moves
    assert 1 == len(shown.inputs)
    assert (
        ("simulated", "16 min 36 s"),
        ("simulated, difference", "+16.8 %"),
        ("mAh a minute", "144"),
    ) == shown.other
    assert (("part", "mass", "share"), (("M-1", "55 g", "20 %"),)) == (shown.columns, shown.rows)


@pytest.mark.parametrize(
    ("worded", "unit", "value", "given", "words"),
    [
        # 129.2 A of 130 A leave 0.6 %; one per cent more of the voltage takes 1.5 points of that
        ("margin", "ratio", 0.006, 1.0, "1.5 percentage points less"),
        ("share", "ratio", 0.271, 1.0, "67.8 percentage points less"),
        ("share", "ratio", 0.004, 1.0, "1 percentage point less"),
        ("", "W", 240.0, 1.0, "250 % less"),
        # of 287.15 K one per cent is 2.8715 °C: a degree takes so much less
        ("", "kg/m³", 1.206, 287.15, "by 1 °C 87.1 % less"),
        ("height", "m", 40.0, 1.0, "100 m less"),
    ],
)
def test_what_an_input_moves_is_said_as_people_count_it(
    worded: str, unit: str, value: float, given: float, words: str
) -> None:
    """Shares in points, temperatures by the degree, heights in metres, all else in per cent."""
    moved = Sensitivity(input=Name("a"), share_per_percent=-2.5)
    figure = Figure(
        name="x",
        value=value,
        unit=unit,
        basis="spec",
        formula="m",
        source="x",
        inputs=(
            Input(called=Name("a"), value=given, unit="K" if given > 1 else "V", basis="spec"),
        ),
        worded=worded,
    )

    assert words == moved_words(figure, moved)


def test_cells_are_said_by_the_unit_in_their_column():
    """The unit leaves the heading and comes to the number."""
    assert "current" == column_words("current_a")
    assert "12.5 A" == cell_words("current_a", 12.5)
    assert "0.022 mΩ" == cell_words("slope_ohm", 2.21e-5)
    assert "-0.013 mΩ" == cell_words("slope_low", -1.29e-5)
    assert "not recorded" == cell_words("mass_kg", None)
    assert ("sum", "1028 g") == aside_words("sum_kg", 1.0283)
    assert ("of the first, as the trend has it,", "106 %") == aside_words("of the first", 1.06)
    assert ("first, as the trend has it", "change a charge", "at least", "at most") == tuple(
        map(column_words, ("first_ohm", "slope_ohm", "slope_low", "slope_high"))
    )
    assert "322 mm aft" == cell_words("forward_m", -0.322)
    assert "0.3 mm left" == cell_words("right_m", -0.0003)
    assert "0 mm" == cell_words("right_m", -0.00001)


def test_predicted_against_flown_needs_enough_flights(demo_reports, owner):
    """Ten flights with a charge noted, and a theory to hold them against."""
    assert "The newest 30 flights" in figures.page(demo_reports, "burdock").facts["flown"].caption
    assert figures.page(owner, "sedge").facts["flown"] is None


def test_the_public_is_told_for_which_air(owner, public, owner_press, public_press):
    """The elevation of the field is not shared, so figures differ from those of the owner."""
    words = "Figures that depend on the air are for sea level."

    for page in (figures.page, builds.page):
        assert words in public_press.compose(page(public, "sedge"))
    assert words not in owner_press.compose(figures.page(owner, "sedge"))


def test_the_demo_shares_its_air_so_both_read_the_same(demo_reports, demo_public):
    """``share: {elevation: true}``: the public gets the owner's figures, no word of sea level."""

    def values(reports):
        found = reports.figures_of_aircraft("burdock").figures
        names = ("hover_current", "thrust_to_weight", "motor_margin")
        return {(one.name, one.of): one.value for one in found if one.name in names}

    assert {"hover_current", "thrust_to_weight", "motor_margin"} == {
        name for name, _ in values(demo_reports)
    }
    assert values(demo_reports) == values(demo_public)
    page = Press(demo_public, theme_folders(None)).compose(figures.page(demo_public, "burdock"))
    assert "sea level" not in page


def test_where_the_figures_come_from_names_every_figure(owner, public):
    """Formula or method, source and tests of each; the public is not told of cost."""
    names = {
        reports: [
            row.name
            for topic in figure_sources.page(reports, "").facts["topics"]
            for row in topic.rows
            if row.ways and row.held_by and all(way.source for way in row.ways)
        ]
        for reports in (owner, public)
    }

    assert {spec.name for spec in FIGURES} == set(names[owner])
    assert {"operating_cost"} == set(names[owner]) - set(names[public])


def test_a_small_margin_is_told_once(demo_reports):
    """It stands among what matters anyway, and on the front page as it is small."""
    names = [one.name for one in figures.summary(demo_reports, "hogweed")]
    on_front = [one.name for one in demo_reports.headlines("hogweed").shown]

    assert "battery_margin" == on_front[-1]
    assert 1 == names.count("battery_margin")
    assert "hover_throttle" == names[names.index("battery_margin") - 1]


def test_the_current_as_flown_stands_in_place_of_what_theory_says(demo_reports):
    """Burdock draws 8.6 A by its log and 7.7 A by theory, which is what is left without it."""
    shown = demo_reports.headlines("burdock").shown
    led = [one.name for one in figures.summary(demo_reports, "burdock")]
    unflown = [one for one in shown if one.name != "flown_current"]
    page = aircraft.page(demo_reports, "burdock")
    html = Press(demo_reports, theme_folders(None)).compose(page)

    assert ["flown_current"] == [name for name in led if name.endswith("_current")]
    assert "hover_current" in [one.name for one in figures.as_flown(unflown)]
    assert ("Flown current" in html, "Hover current" in html) == (True, False)


def test_what_is_the_same_with_each_pack_stands_once(demo_reports):
    """In a sentence below the table, not in a row of equal cells."""
    page = figures.page(demo_reports, "burdock")
    packs = page.facts["packs"]
    html = Press(demo_reports, theme_folders(None)).compose(page)

    assert ["battery_margin"] == [row.name for row in packs.same]
    assert "battery_margin" not in [row.name for row in packs.rows]
    assert {"27.9 %"} == set(packs.same[0].cells)
    assert (
        '<p>The same with each: <a href="#battery_margin">Margin of the pack</a>'
        ' <span class="value">27.9 %</span>.</p>'
    ) in html.replace("\xa0", " ")


def test_rows_of_two_figures_that_are_the_same_stand_at_the_first(demo_reports):
    """Volts and power lost in the same wires rest on the same runs."""
    html = Press(demo_reports, theme_folders(None)).compose(figures.page(demo_reports, "burdock"))
    html = html.replace("\xa0", " ")
    _, _, lost = html.partition("<summary>Working of power lost in the wires</summary>")
    lost, _, _ = lost.partition("</details>")

    assert (
        'Subject by subject what stands at <a href="#wire_drop">voltage lost in the wires</a>.'
        in lost
    )
    assert "length 110 mm" not in lost
    assert "length 110 mm" in html


def test_a_note_on_an_input_stands_once_below_its_rows(demo_reports):
    """With the packs that it holds for, not in brackets at each of five."""
    html = Press(demo_reports, theme_folders(None)).compose(figures.page(demo_reports, "burdock"))
    html = html.replace("\xa0", " ")

    assert "Resistance when warm, 35 °C: against 19 °C; E_a 25 kJ/mol, from memory (P-01);" in html
    assert "mΩ (against" not in html


def test_subjects_of_which_the_same_is_told_share_a_line(demo_reports):
    """Alike in every word; a pack that weighs a gram more has its own."""
    page = figures.page(demo_reports, "burdock")
    found = {entry.name: entry for topic in page.facts["topics"] for entry in topic.entries}

    assert [
        (("P-01", "P-06"), "1030 g", "220 g below the limit"),
        (("P-02",), "1031 g", "219 g below the limit"),
        (("P-03",), "1032 g", "218 g below the limit"),
        (("P-05",), "1029 g", "221 g below the limit"),
    ] == [
        (line.subjects, line.told.value, line.told.verdict) for line in found["all_up_mass"].lines
    ]
    (peak,) = re.findall(
        r'<article class="figure" id="peak_current">.*?</article>',
        Press(demo_reports, theme_folders(None)).compose(page),
        re.DOTALL,
    )
    assert 1 == peak.count("<table")
    assert 5 == peak.count('scope="rowgroup"')


@pytest.mark.parametrize("slug", ["burdock", "hogweed", "trefoil", "thistledown", "clover"])
def test_a_page_of_figures_keeps_to_its_weight(demo_reports, slug):
    """At most 155,000 bytes; what several workings rest on stands once (our own bar)."""
    html = Press(demo_reports, theme_folders(None)).compose(figures.page(demo_reports, slug))

    assert 155_000 >= len(html.encode())


def test_what_the_keeper_did_not_set_is_no_verdict_for_others(demo_reports, demo_public):
    """A quad without limits of balance: its owner is told so, a visitor reads the balance alone."""
    verdicts = [
        reports.figures_of_aircraft("burdock").find("balance", "forward").verdict
        for reports in (demo_reports, demo_public)
    ]

    assert ["limits forward and aft not recorded", None] == verdicts
    judged = demo_public.figures_of_aircraft("thistledown").find("balance", "mean chord")
    assert "within the limits" == judged.verdict
