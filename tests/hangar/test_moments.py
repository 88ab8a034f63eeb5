"""An aircraft after each line of its log."""

import pytest
from histories import SLUGS, History, histories
from hypothesis import given, settings
from written_logs import END, Log, folded

from buildbook.hangar.fold import fold
from buildbook.hangar.moments import moments


def test_each_line_leaves_the_aircraft_in_a_state() -> None:
    """What is fitted, set, in force and open after it."""
    log = Log("aircraft/a")
    log.fit("03-01", {"front-left": {"motor": "M-1"}, "centre": {"sensor": "S-1"}})
    log.setting("03-02", of="front-left", start="14 %")
    log.fit("03-03", {"front-left": {"motor": "M-2"}}, instead_of={"M-1": "serviceable"})
    log.gains("03-04", "first", values={"roll": {"p": 1.0}})
    defect = log.defect("03-05", severity="note")
    log.setting("03-06", of="front-left", start="15 %")
    log.cleared("03-07", defect)
    log.alteration("03-08", status="stored")
    log.remove("03-09", "S-1")

    then = list(moments(folded([log], ["M-1", "M-2", "S-1"]), "a"))

    assert [
        ("M-1", "S-1", None, None, 0, "flying"),
        ("M-1", "S-1", "14 %", None, 0, "flying"),
        ("M-2", "S-1", "14 %", None, 0, "flying"),
        ("M-2", "S-1", "14 %", "first", 0, "flying"),
        ("M-2", "S-1", "14 %", "first", 1, "flying"),
        ("M-2", "S-1", "15 %", "first", 1, "flying"),
        ("M-2", "S-1", "15 %", "first", 0, "flying"),
        ("M-2", "S-1", "15 %", "first", 0, "stored"),
        ("M-2", "", "15 %", "first", 0, "stored"),
    ] == [
        (
            "".join(state.fitted.get(("front-left", "motor"), ())),
            "".join(state.fitted.get(("centre", "sensor"), ())),
            state.settings[("front-left", "start")].value if state.settings else None,
            state.gains,
            len(state.open_defects),
            state.status,
        )
        for state in then
    ]
    with pytest.raises(KeyError):
        next(moments(folded([log]), "nobody"))


@settings(max_examples=25, deadline=None)
@given(histories())
def test_the_last_moment_of_a_day_is_the_fold_of_that_day(history: History) -> None:
    """Two ways to the same state."""
    ledger = history.ledger()
    hangar = fold(ledger, END)

    for slug in SLUGS:
        last = {state.line.entry.on: state for state in moments(hangar, slug)}
        for on, state in last.items():
            now = fold(ledger, on).aircraft[slug]
            assert {
                (station, kind): tuple(fitted.tag for fitted in slot)
                for station, kinds in now.fitted.items()
                for kind, slot in kinds.items()
            } == state.fitted
            assert now.settings == state.settings
            assert (now.gains, now.status) == (state.gains, state.status)
            assert [defect.uid for defect in now.defects if defect.open] == [
                defect.uid for defect in state.open_defects
            ]
