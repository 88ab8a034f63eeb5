"""Wire rows. Source: ASTM B258; copper of 100 % IACS; university wire tables."""

import pytest

from buildbook.basis import notation
from buildbook.figures.laws.constants import HOT_COPPER_K
from buildbook.figures.laws.propulsion import wire

AT_20_K = 293.15


def area_m2(gauge):
    """Of a gauge as a record writes it."""
    return notation.wire(f"{int(gauge)} AWG")


def resistance_mohm_per_m(gauge):
    """One conductor of one metre."""
    return 1000 * wire.run_resistance_ohm(0.5, area_m2(gauge), AT_20_K)


@pytest.mark.parametrize(
    ("gauge", "diameter_mm", "area_mm2", "mohm_per_m"),
    [
        (10, 2.5882, 5.2612, 3.277),
        (11, 2.3048, 4.1723, 4.132),
        (12, 2.0525, 3.3088, 5.211),
        (14, 1.6277, 2.0809, 8.285),
        (16, 1.2908, 1.3087, 13.174),
        (18, 1.0237, 0.8230, 20.948),
        (20, 0.8118, 0.5176, 33.308),
        (22, 0.6438, 0.3255, 52.962),
    ],
)
def test_gauge_rows(gauge, diameter_mm, area_mm2, mohm_per_m):
    """Diameter, area and resistance of a gauge (ASTM B258, IACS copper)."""
    found = (area_m2(gauge) * 1e6, resistance_mohm_per_m(gauge))

    assert (area_mm2, mohm_per_m) == pytest.approx(found, rel=1e-3)
    assert area_m2(gauge) == pytest.approx(wire.wire_area_m2(diameter_mm / 1e3), rel=1e-3)


def test_all_gauges_of_the_table(rows):
    """AWG 8 to 30 of the table (ASTM B258, IACS copper)."""
    for row in rows("wire/awg_copper_20c.csv"):
        gauge, diameter_mm, area_mm2, mohm_per_m = map(float, row.values())

        assert (area_mm2, mohm_per_m) == pytest.approx(
            (area_m2(gauge) * 1e6, resistance_mohm_per_m(gauge)), rel=1e-3
        )
        assert area_m2(gauge) == pytest.approx(wire.wire_area_m2(diameter_mm / 1e3), rel=1e-3)


def test_gauge_steps_and_ends():
    """ASTM B258: 3 numbers halve the area; 36 is 0.127 mm."""
    assert 0.5 == pytest.approx(area_m2(15) / area_m2(12), rel=3e-3)
    assert area_m2(36) == pytest.approx(wire.wire_area_m2(0.1270e-3), rel=1e-9)


@pytest.mark.parametrize(
    ("gauge", "both_ways_m", "amperes", "temperature_k", "expected"),
    [
        pytest.param(12, 0.30, 60, AT_20_K, (1.5632, 0.09379, 5.6275), id="AWG 12 at 20 degC"),
        pytest.param(12, 0.30, 60, HOT_COPPER_K, (1.9318, 0.11591, 6.9544), id="AWG 12 at 80"),
        pytest.param(16, 0.24, 15, AT_20_K, (3.1618, 0.04743, 0.7114), id="AWG 16 at 20 degC"),
    ],
)
def test_drop_and_loss(gauge, both_ways_m, amperes, temperature_k, expected):
    """mohm, V and W of a run, out and back; IACS copper, 0.00393 a degree."""
    area = area_m2(gauge)
    ohm = wire.run_resistance_ohm(both_ways_m / 2, area, temperature_k)
    found = (ohm * 1000, wire.run_drop_v(amperes, ohm), wire.run_loss_w(amperes, ohm))

    assert expected == pytest.approx(found, rel=1e-3)


def test_hot_copper_factor():
    """IACS copper: 80 degC over 20 degC is 1.2358."""
    area = area_m2(12)
    found = wire.run_resistance_ohm(0.15, area, 353.15) / wire.run_resistance_ohm(
        0.15, area, AT_20_K
    )

    assert 1.2358 == pytest.approx(found, rel=1e-4)


@pytest.mark.parametrize(
    ("start_c", "end_c", "k"),
    [
        pytest.param(70, 160, 115, id="PVC"),
        pytest.param(90, 250, 143, id="XLPE"),
        pytest.param(60, 200, 141, id="rubber"),
    ],
)
def test_heating_of_copper_that_nothing_cools(start_c, end_c, k):
    """k in A·s½/mm² with t = (k·S/I)² (IEC 60364-4-43, table 43A, from memory): 25 A in 1 mm²."""
    seconds = wire.heating_s(25.0, 1e-6, start_c + 273.15, end_c + 273.15)

    assert (k / 25) ** 2 == pytest.approx(seconds, rel=7e-3)


def test_copper_is_not_heated_to_what_it_is():
    """The end of a heating is hotter than its start."""
    with pytest.raises(ValueError, match=r"hot_k must be above 353\.15 with a current"):
        wire.heating_s(25.0, 1e-6, 353.15, 353.15)
