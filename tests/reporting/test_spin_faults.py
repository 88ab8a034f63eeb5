"""The balance of the spins as a fault of the layout."""

from buildbook.report.figure import Answers, Figure
from buildbook.reporting.drawn.plans import _spin_faults


def test_a_wrong_hand_does_not_hide_spins_that_do_not_cancel() -> None:
    """The words begin with the propeller; what acts on them asks what they come to."""
    figure = Figure(
        name="rotation_balance",
        value=2.0,
        unit="count",
        basis="spec",
        formula="",
        source="",
        verdict="rear-left: a ccw propeller where cw is planned; the spins do not cancel",
        fault="the spins do not cancel",
    )

    (fault,) = _spin_faults(Answers(figures=(figure,)))

    assert "the spins do not cancel" == fault.words
