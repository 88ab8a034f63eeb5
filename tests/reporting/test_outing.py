"""What to take to the field: the order of the aircraft."""

import pytest
from programmes import hangar, programme
from written_logs import Log

from buildbook.reporting.registry import reports_of


@pytest.mark.parametrize(
    ("charged", "expected"),
    [
        ((), [("a", True), ("b", True)]),
        (("P-1", "P-2"), [("a", False), ("b", False)]),
        (("P-2",), [("b", False), ("a", True)]),
    ],
)
def test_an_aircraft_with_a_charged_pack_comes_first(charged, expected):
    """Both flew last; which can fly as it lies is what decides, then the name."""
    logs = [Log("aircraft/a"), Log("aircraft/b")]
    for log, pack in zip(logs, ("P-1", "P-2"), strict=True):
        log.flight("01-01", packs=pack)
        if pack in charged:
            log.charge("01-02", pack)
    reports = reports_of(hangar(logs, [programme()], items=["P-1", "P-2"]))

    candidates = reports.going_flying().candidates
    assert expected == [(one.slug, one.none_charged) for one in candidates]


def test_an_aircraft_that_was_flown_on_no_pack_is_not_said_to_have_an_empty_one():
    """A glider's receiver pack may be written down nowhere."""
    log = Log("aircraft/a")
    log.flight("01-01")

    (one,) = reports_of(hangar([log], [programme()], items=[])).going_flying().candidates
    assert not one.none_charged
