"""Health of packs, worked out in one place."""

import pytest
from programmes import hangar, limit, programme
from written_logs import Log

from buildbook.reporting.packs import health_state
from buildbook.reporting.registry import reports_of


@pytest.mark.parametrize(
    ("share", "worn", "quarantined", "expected"),
    [
        (0.96, False, False, "good"),
        (0.86, False, False, "good"),
        (0.83, False, False, "good"),
        (0.82, False, False, "near"),
        (0.8, False, False, "near"),
        (0.79, True, False, "worn"),
        (0.96, False, True, "quarantined"),
        (None, False, False, "unknown"),
        (None, False, True, "quarantined"),
    ],
)
def test_quarantine_comes_before_health(share, worn, quarantined, expected):
    """A quarantined pack is never called good, whatever its capacity; the limit itself is kept."""
    assert expected == health_state(share, 0.8, worn=worn, quarantined=quarantined)


@pytest.mark.parametrize(
    ("measured_ah", "state", "health"),
    [(1.7, "ok", "good"), (1.65, "ok", "good"), (1.64, "due soon", "near")],
)
def test_a_pack_is_near_its_limit_where_its_row_is_due_soon(measured_ah, state, health):
    """2000 mAh rated, 80 %: nine tenths of the way to it are 1640 mAh."""
    log = Log("aircraft/a")
    log.flight("01-01", packs="P-1")
    log.capacity("01-02", "P-1", measured_ah)
    rule = limit("pack-worn", "battery", capacity_share=0.8)
    reports = reports_of(hangar([log], [programme(rule)], items=["P-1"]))

    assert (state, health) == (
        next(row.state for row in reports.work.rows if row.tag == "P-1"),
        reports.health("P-1").state,
    )


@pytest.mark.parametrize(
    ("measured_ah", "expected"),
    [(1.6001, "near"), (1.6, "near"), (1.5998, "near"), (1.599, "worn")],
)
def test_a_pack_is_worn_below_the_limit_in_whole_mah(measured_ah, expected):
    """2000 mAh rated, 80 %: 1599.8 mAh are 1600, as for the row that retires it; twice."""
    log = Log("aircraft/a")
    log.flight("01-01", packs="P-1")
    log.capacity("01-02", "P-1", measured_ah)
    log.capacity("01-03", "P-1", measured_ah)
    at = hangar([log], [programme()], items=["P-1"])

    assert expected == reports_of(at).health("P-1").state
