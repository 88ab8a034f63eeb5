"""Health of packs, worked out in one place."""

import pytest

from buildbook.reporting.packs import health_state


@pytest.mark.parametrize(
    ("share", "quarantined", "expected"),
    [
        (0.96, False, "good"),
        (0.86, False, "good"),
        (0.83, False, "near"),
        (0.8, False, "near"),
        (0.79, False, "worn"),
        (0.96, True, "quarantined"),
        (None, False, "unknown"),
        (None, True, "quarantined"),
    ],
)
def test_quarantine_comes_before_health(share, quarantined, expected):
    """A quarantined pack is never called good, whatever its capacity; the limit itself is kept."""
    assert expected == health_state(share, 0.8, quarantined=quarantined)
