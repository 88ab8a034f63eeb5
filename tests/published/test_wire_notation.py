"""Wire sizes as written at the bench, against published wire tables."""

import math
from collections.abc import Callable

import pytest

from buildbook.basis.notation import wire


def test_gauges_have_the_area_of_the_tables(
    rows: Callable[[str], list[dict[str, str]]],
) -> None:
    """Source: ASTM B258 sizes, AWG 8 to 30 (provenance beside the data)."""
    table = rows("wire/awg_copper_20c.csv")

    assert len(table) == 23
    for row in table:
        assert float(row["area_mm2"]) == pytest.approx(wire(f"{row['awg']} AWG") * 1e6, rel=1e-3)


def test_the_gauge_that_defines_the_series() -> None:
    """Source: ASTM B258: AWG 36 is 0.005 in (0.1270 mm) in diameter."""
    assert math.pi / 4 * 0.127**2 == pytest.approx(wire("36 AWG") * 1e6, rel=1e-9)
