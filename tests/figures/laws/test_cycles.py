"""Charge through a pack in full cycles of its rated capacity."""

import re

import pytest

from buildbook.figures.laws.packs.cycles import equivalent_full_cycles


@pytest.mark.parametrize(
    ("call", "message"),
    [
        (lambda: equivalent_full_cycles(1.0, 0.0), "rated capacity must be above 0 Ah, got 0"),
        (lambda: equivalent_full_cycles(-1.0, 2.0), "charge must be 0 Ah or more, got -1"),
    ],
)
def test_out_of_range_is_refused(call, message):
    """Each refusal names what it found."""
    with pytest.raises(ValueError, match=f"^{re.escape(message)}$"):
        call()
