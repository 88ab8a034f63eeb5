"""What stands beside a figure: a label, and the value with the unit that its name carries."""

import pytest

from buildbook.words.figures import aside_words


@pytest.mark.parametrize(
    ("expected", "name", "value"),
    [
        (("simulated", "15 min 32 s"), "simulated, s", 932.0),
        (("simulated, difference", "+10.2 %"), "simulated, difference", 0.102),
        (("spread", "1.2 %"), "spread, %", 1.2),
        (("spread", "13 µs"), "spread, µs", 13.0),
        (("spread", "4.1 %"), "spread", 0.041),
        (("together", "16.62 EUR"), "together, EUR", 16.615),
        (("aft limit", "34 %"), "aft_limit", 0.34),
        (("share on a fresh pack", "41.2 %"), "share on a fresh pack", 0.4116),
        (("measured minus summed", "3.8 g"), "measured_minus_summed_kg", 0.0038),
        (("flights under it", "5"), "flights under it", 5.0),
    ],
)
def test_a_value_beside_a_figure_is_told_with_its_unit(
    expected: tuple[str, str], name: str, value: float
) -> None:
    """A number alone leaves the reader to guess; a share is told in per cent."""
    assert expected == aside_words(name, value)
