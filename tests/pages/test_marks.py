"""Every state that upkeep or the hangar can say has a mark; an unknown one is never good."""

from typing import get_args

from buildbook.pages.theme import MARKS, UNKNOWN, mark_of
from buildbook.records.aircraft import Status
from buildbook.records.parts import ItemState
from buildbook.report.state import OfDefects
from buildbook.report.upkeep.work import AircraftState, RowState


def test_every_state_has_a_mark():
    """A state without a mark would be drawn as unknown."""
    states = {
        state
        for kind in (AircraftState, RowState, Status, ItemState, OfDefects)
        for state in get_args(kind)
    }

    assert set() == states - set(MARKS)


def test_an_unforeseen_state_is_drawn_as_unknown():
    """What nobody foresaw is never good."""
    assert UNKNOWN == mark_of("something else")
    assert "good" != UNKNOWN.tone


def test_shapes_alone_tell_good_soon_and_bad_apart():
    """Readable in greyscale: no shape stands for two tones, but for what is unknown."""
    tones: dict[str, set[str]] = {}
    for mark in MARKS.values():
        tones.setdefault(mark.shape, set()).add(mark.tone)

    assert {"dashed", "dash", "ring"} >= {shape for shape, found in tones.items() if len(found) > 1}
    assert {"good", "calm"} == tones["ring"]
