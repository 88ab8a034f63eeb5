"""The working of figures by subject: what is the same once, the rest a row for each."""

from buildbook.pages.aircraft.working import Shown, ways_of
from buildbook.report.figure import Figure, Input, Name, called


def given(name, value, basis="measured"):
    """An input."""
    return Input(called=called(name), value=value, unit="Ω", basis=basis)


def shown(of, *inputs, notes=(), moves=()):
    """A figure of one subject."""
    figure = Figure(
        name="sag",
        value=0.1,
        unit="V",
        basis="measured",
        formula="I R",
        source="",
        of=of,
        notes=notes,
    )
    return Shown(
        figure=figure, inputs=inputs, formula=None, method="I R", valid="", moves=tuple(moves)
    )


def test_an_input_loses_the_subject_that_it_stands_beside():
    """A tag, the run of a wire, the state it is worked out for."""
    resistance = Name("resistance", "of", "P-1")
    rested = Name("rested voltage", "of", "P-1", "at 20 %")
    current = Name("current", "from", "pack to ring", load="hover")

    assert "resistance" == resistance.beside("P-1", "hover")
    assert "resistance of P-1" == resistance.beside("P-11", "") == resistance.whole
    assert "rested voltage at 20 %" == rested.beside("P-1", "")
    assert "rested voltage of P-1 at 20 %" == rested.whole
    assert "mass" == Name("mass", "with", "P-1").beside("P-1", "")
    assert "current" == current.beside("pack to ring", "hover")
    assert "current, hover" == current.beside("pack to ring", "full throttle")
    assert "current from pack to ring, hover" == current.whole
    assert "air density" == called("air density").beside("", "")


def test_what_all_share_is_told_once_and_the_rest_by_row():
    """Two packs with one resistance share a row; the third has its own."""
    (way,) = ways_of(
        [
            shown(tag, given("current", 5), given(Name("resistance", "of", tag), ohm))
            for tag, ohm in (("P-1", 0.1), ("P-2", 0.1), ("P-3", 0.2))
        ],
        (),
    )

    assert ["current"] == [one.name for one in way.same]
    assert [("resistance", "measured")] == [(one.name, one.basis) for one in way.columns]
    assert [("P-1", "P-2"), ("P-3",)] == [row.subjects for row in way.rows]
    assert [0.1, 0.2] == [row.cells[0].value for row in way.rows]


def test_an_input_of_some_subjects_leaves_the_others_empty():
    """Its basis stands in each cell where the subjects differ in it."""
    (way,) = ways_of(
        [
            shown("P-1", given("mass", 1)),
            shown("P-2", given("mass", 2, basis="spec")),
            shown(None),
        ],
        (),
    )

    assert [("mass", "")] == [(one.name, one.basis) for one in way.columns]
    assert [("P-1",), ("P-2",), ("all",)] == [row.subjects for row in way.rows]
    assert way.rows[2].cells == (None,)


def test_notes_and_what_moves_a_figure_are_told_once():
    """A note of all has no subject beside it; one that stands above all of them is left out."""
    (way,) = ways_of(
        [
            shown(
                "P-1",
                notes=("of all", "of both"),
                moves=[(Name("mass", "with", "P-1"), "1 % more")],
            ),
            shown(
                "P-2",
                notes=("of all", "of both", "own"),
                moves=[(Name("mass", "with", "P-2"), "2 % more")],
            ),
        ],
        ("of all",),
    )

    assert (((), ("of both",)), (("P-2",), ("own",))) == way.notes
    assert (("P-1", (("mass", "1 % more"),)),) == way.moves


def test_a_figure_alone_keeps_its_words():
    """There is nothing beside which they would stand."""
    (way,) = ways_of([shown("P-1", given("resistance of P-1", 0.1))], ())

    assert ("P-1", ["resistance of P-1"]) == (way.of, [one.name for one in way.same])
    assert () == way.rows
