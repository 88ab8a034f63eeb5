"""Reasons in words: made of what was found, and of nothing else."""

import datetime
from typing import get_args

import pytest

from buildbook.basis.place import NOWHERE
from buildbook.records.triggers import Trigger
from buildbook.report.upkeep.findings import (
    FailedAs,
    Finding,
    InState,
    MassComputed,
    NotFitted,
    SameMemory,
)
from buildbook.report.upkeep.pack_findings import CapacityLow, OddCell, SetAside
from buildbook.report.upkeep.work import Because, Reason, Row
from buildbook.words.measures.days import EXACT, Days
from buildbook.words.names import trigger_words
from buildbook.words.reasons import FOUND, because_words, reason_words, row_words

MAY = datetime.date(2026, 5, 3)


def row(state: str, because: Because | None = None, **more: object) -> Row:
    """A row of an aircraft."""
    return Row(
        aircraft="sedge",
        kind="check",
        name="weighing",
        state=state,
        because=because,
        place=NOWHERE,
        **more,
    )


def test_a_computed_mass_names_the_weighing_and_which_way_it_moved():
    """Lighter and heavier are words, not signs."""
    lighter = Because(why="weighing", found=MassComputed(change_kg=-0.053, weighed_on=MAY))

    assert (
        "weighing: stale, not weighed since 3 May 2026; what changed makes it 53 g lighter"
    ) == row_words(row("stale", lighter), EXACT)
    assert "not weighed since May 2026; what changed makes it 53 g lighter" == because_words(
        lighter, Days(exact=False)
    )


@pytest.mark.parametrize(
    ("expected", "event", "subject"),
    [
        ("motor fitted", "fit", "motor"),
        ("ESC taken out", "remove", "esc"),
        ("setting start throttle changed", "setting", "start_throttle"),
        ("accelerometer calibrated", "calibration", "accelerometer"),
        ("not flown for 30 days", "idle", "30 days"),
        ("firmware changed", "firmware", None),
        ("hard landing", "hard landing", None),
    ],
)
def test_a_trigger_says_what_happened(expected, event, subject):
    """As somebody at the bench says it."""
    assert expected == trigger_words(Trigger(event, subject))


def test_a_row_says_how_far_it_is_past_due():
    """The unit that decides; without a sign."""
    late = row("overdue", Because(why="interval"), first_by="flights", left={"flights": -3.0})
    soon = row("due soon", Because(why="interval"), first_by="hours", left={"hours": 0.8})

    assert "weighing: overdue by 3 flights" == row_words(late, EXACT)
    assert "weighing: due soon, 0.80 h left" == row_words(soon, EXACT)


def test_a_share_below_its_limit_is_never_rounded_up_to_it():
    """79.96 % is below 80 %, and reads so."""
    low = Because(why="signal", found=CapacityLow(share=0.7996, least_share=0.8))

    assert "capacity 79.9 % of rated, limit 80 %" == because_words(low, EXACT)


def test_an_odd_cell_is_above_or_below_the_others():
    """Its share against them, in whole per cent."""
    odd = Because(why="signal", found=OddCell(cell=3, share=-0.31))

    assert "cell 3 reads 31 % below the others" == because_words(odd, EXACT)


def test_a_missing_part_is_said_with_its_station():
    """An ESC is written as people write it."""
    lacks = Because(why="empty station", station="rear-left", found=NotFitted(kinds=("esc",)))
    assert "rear-left: no ESC fitted" == row_words(row("failed", lacks, station="rear-left"), EXACT)


def test_a_reason_without_a_row_is_worded_too():
    """A part that is not serviceable has no row of its own."""
    because = Because(why="item state", tag="M-3", on=MAY, found=InState(state="quarantined"))
    reason = Reason(place=NOWHERE, rank=0, grounding=True, because=because)

    assert "M-3: quarantined on 3 May 2026" == reason_words(reason, EXACT)


def test_a_memory_is_told_without_names_that_are_not_shared():
    """The names of other aircraft are the owner's."""
    mine = Because(why="memory", found=SameMemory(memory="4", others=("Burdock", "Sedge")))
    shared = Because(why="memory", found=SameMemory(memory="4"))

    assert "memory 4 is also Burdock's and Sedge's: move the sticks first" == row_words(
        row("failed", mine), EXACT
    )
    assert "memory 4 is also another aircraft's: move the sticks first" == row_words(
        row("failed", shared), EXACT
    )


def test_every_finding_has_words():
    """But those that are told with the row: why a pack is set aside, and how a look failed."""
    assert set(get_args(Finding)) - {FailedAs, SetAside} == set(FOUND)
