"""Every word of the files, figures and states can be asked for, and is explained."""

import json
from collections import Counter
from typing import get_args

import pytest

from buildbook.commands.main import WRONG_USE, main
from buildbook.pages.story.inserts import KINDS as STORY_INSERTS
from buildbook.records.entries.kinds import KINDS
from buildbook.records.layouts import LAYOUTS
from buildbook.records.parts import ItemState
from buildbook.records.reading.programmes import built_in_programmes
from buildbook.records.row_names import SIGNAL_TASKS
from buildbook.records.triggers import TRIGGERS
from buildbook.report.figure import BASIS_WORDS, Basis
from buildbook.report.state import OfDefects
from buildbook.report.upkeep.work import AircraftState, RowState
from buildbook.reporting.figures.known_figures import all_known_figures
from buildbook.words.vocabulary.glossary import TRADE, everything, found, like
from buildbook.words.vocabulary.lists import (
    AIRCRAFT_STATES,
    CONDITIONS,
    INSERTS,
    ITEM_STATES,
    KNOWN_BY,
    ROW_STATES,
    TRIGGER_WORDS,
    signals,
)
from buildbook.words.vocabulary.manual import drawn, manual

TERMS = everything(all_known_figures())


@pytest.mark.parametrize(
    ("explained", "known"),
    [
        (AIRCRAFT_STATES, get_args(AircraftState)),
        (ROW_STATES, get_args(RowState)),
        (ITEM_STATES, get_args(ItemState)),
        (CONDITIONS, get_args(OfDefects)),
        (TRIGGER_WORDS, TRIGGERS),
        (INSERTS, STORY_INSERTS),
    ],
)
def test_a_closed_list_is_explained_whole(explained, known):
    assert list(explained) == list(known)


def test_every_word_says_what_it_is():
    assert [term for term in TERMS if not term.what.strip()] == []


def test_every_row_of_a_built_in_programme_can_be_asked_for():
    words = {term.word for term in TERMS}

    assert built_in_programmes()
    for programme in built_in_programmes().values():
        assert {rule.check for rule in programme.checks} <= words
        assert {rule.task for rule in programme.tasks} <= words
        assert {rule.limit for rule in programme.life_limits} <= words


def test_each_task_that_opens_itself_says_what_opens_it():
    """One of its own words each; that an old pack is looked at says when, why and until when."""
    said = {term.word: term.what for term in signals()}

    assert set(SIGNAL_TASKS) == set(said)
    assert len(said) == len(set(said.values()))
    assert (
        "Opened once a lithium pack is eight years old, counted from when it was made, else from "
        "when it came: old cells swell and fail without a sign. A pack-look closes it for a year."
    ) == said["pack-age"]


def test_every_entry_and_figure_can_be_asked_for():
    kinds = Counter(term.kind for term in TERMS)

    assert kinds["entry"] == len(KINDS)
    assert kinds["figure"] == len(all_known_figures().figures)
    assert kinds["layout"] == len(LAYOUTS)


def test_a_key_that_means_one_thing_in_two_places_is_one_term():
    names = [term for term in found("mass", TERMS) if term.kind == "key"]

    assert len({(term.what, term.details) for term in names}) == len(names)


def test_a_key_within_a_group_can_be_asked_for():
    """Also where the group has no section of its own; the group names its keys."""
    (order,) = (term for term in found("order", TERMS) if term.kind == "key")
    (receiver,) = (term for term in found("receiver", TERMS) if term.kind == "key")

    assert ("receiver",) == order.where
    assert ("written", "the receiver, with order") in receiver.details


def test_a_message_is_looked_up_by_the_words_that_it_names():
    asked = found("check 'spin-directions' of front-left is not in 'small-multirotor'", TERMS)

    assert [(term.word, term.kind) for term in asked] == [
        ("spin-directions", "check"),
        ("spin-directions", "check"),
        ("front-left", "motor station"),
        ("small-multirotor", "built-in programme"),
    ]


def test_plain_words_of_a_message_are_no_questions():
    """``mass`` and ``on`` are keys; in a sentence they are English."""
    assert found("the mass on the scales is not a mass", TERMS) == ()


def test_a_word_with_a_slip_names_the_nearest():
    assert like("spin-direction", TERMS) == "spin-directions"


def test_the_terminal_says_what_a_key_is_and_how_it_is_written(capsys):
    assert main(["explain", "based_on"]) == 0
    assert capsys.readouterr().out == (
        "based_on  key\n"
        "  The programme that this one changes\n"
        "  in: programmes/*.yaml\n"
        "  written: text\n"
        "  as in: based_on: built-in small-multirotor\n"
    )


def test_words_of_a_state_may_stand_apart(capsys):
    assert main(["explain", "in", "tolerance"]) == 0
    assert capsys.readouterr().out == (
        "in tolerance  state of a row\n"
        "  Past its interval, within the tolerance that the programme gives it.\n"
    )


def test_an_unknown_word_is_wrong_use(capsys):
    assert main(["explain", "spin-direction"]) == WRONG_USE
    assert capsys.readouterr().err == (
        "buildbook explain: nothing here is called 'spin-direction'; "
        "did you mean 'spin-directions'?\n"
    )


def test_as_json_each_term_has_all_its_keys(capsys):
    assert main(["explain", "quad-x", "--json"]) == 0
    assert json.loads(capsys.readouterr().out) == {
        "terms": [
            {
                "word": "quad-x",
                "kind": "layout",
                "what": "Quad, X.",
                "where": ["layout of aircraft.yaml"],
                "details": [
                    {
                        "label": "motor stations",
                        "text": "front-left, front-right, rear-left, rear-right",
                    }
                ],
            }
        ]
    }


def test_a_layout_is_drawn_with_the_front_ahead():
    assert drawn(LAYOUTS["tri-y"].stations) == [
        "     front-left                                      front-right",
        "",
        "                                rear",
    ]


def test_stations_of_a_drawing_never_touch():
    for layout in LAYOUTS.values():
        lines = drawn(layout.stations)
        names = [name for line in lines for name in line.split("  ") if name.strip()]
        wanted = {station.name.removesuffix(f"-{station.tier}") for station in layout.stations}
        assert {name.strip().removesuffix(" ×2") for name in names} == wanted


def test_the_reference_has_every_layout_programme_and_insert():
    text = manual()

    for layout in LAYOUTS:
        assert f"\n### {layout}\n" in text
    for programme in built_in_programmes().values():
        assert f"\n## built-in programme {programme.name}\n" in text
    for _, example in INSERTS.values():
        assert f"| `{example}` |" in text


@pytest.mark.parametrize(
    ("word", "what"),
    [
        ("fitted", "Worked out from the flights and charges that were written."),
        ("from the log", "Worked out from the flights and charges that were written."),
        ("spec", "As the sheet of a part or the plan of the aircraft says."),
        ("from sheet or plan", "As the sheet of a part or the plan of the aircraft says."),
        ("default", "Nobody wrote it; a value of common practice stands in."),
        ("assumed", "Nobody wrote it; a value of common practice stands in."),
        ("measured", "Read at the bench or at the field, or worked out from such alone."),
        ("computed", "Worked out from other values, as a mass from those of its parts."),
        ("weighed", "Read off the scales; nothing that weighs has changed since."),
    ],
)
def test_how_a_value_is_known_can_be_asked_for(word, what):
    """By its name in JSON, and by what is printed."""
    terms = [term for term in found(word, TERMS) if term.kind == "how a value is known"]

    assert [what] == [term.what for term in terms]


def test_every_way_of_knowing_has_words():
    """What is printed beside a figure is what is explained, and so is what was weighed."""
    assert {*get_args(Basis)} == set(BASIS_WORDS)
    assert {*get_args(Basis), "weighed"} == set(KNOWN_BY)


@pytest.mark.parametrize("words", TRADE)
def test_words_of_the_trade_lead_to_words_that_are_explained(words: str) -> None:
    """Each to all that it means; none of them is a word of the files itself."""
    for word in words.split(", "):
        meant = [term.word for term in found(word, TERMS)]
        assert list(TRADE[words]) == list(dict.fromkeys(meant)), word


@pytest.mark.parametrize("asked", ["stale after", "stale-after", "Stale_After"])
def test_words_are_found_whatever_stands_between_them(asked: str) -> None:
    """As one speaks them."""
    assert ["stale_after"] == list(dict.fromkeys(term.word for term in found(asked, TERMS)))
