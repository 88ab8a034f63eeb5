"""Lines of a page end anywhere but between a number and its unit."""

import pytest

from buildbook.pages.theme import kept_together


@pytest.mark.parametrize(
    ("written", "laid_out"),
    [
        ("<p>After 12 min 30 s, 1480 mAh used.</p>", "<p>After 12~min~30~s, 1480~mAh used.</p>"),
        ("<p>-3.5 % to 21 °C; 640 rpm/V</p>", "<p>-3.5~% to 21~°C; 640~rpm/V</p>"),
        ("<p>0.02 kg·m², 1.2 kg/m³, 35 g/dm²</p>", "<p>0.02~kg·m², 1.2~kg/m³, 35~g/dm²</p>"),
        ("<td>250 x 125, M3 x 8</td>", "<td>250~x~125, M3~x~8</td>"),
        ("<p>88 x 34 x 24; 2 x as much, an x 3</p>", "<p>88~x~34~x~24; 2 x as much, an x 3</p>"),
        ("<p>about 240 EUR</p>", "<p>about 240~EUR</p>"),
        (
            "<p>2 flights left, 1 charge, 10 months</p>",
            "<p>2~flights left, 1~charge, 10~months</p>",
        ),
        ("<p>proved on 30 October 2026</p>", "<p>proved on 30~October 2026</p>"),
        (
            "<p>2 min 5 sets, 3 Marches, 2026 flighty</p>",
            "<p>2~min 5 sets, 3 Marches, 2026 flighty</p>",
        ),
        ("<p>3 in the morning, 4 mice, 2 As</p>", None),
        ('<td title="12 min"><path d="M 3 h 4 m 2 1"/></td>', None),
        ("<code>used: 1480 mAh</code> <pre>7 min\n<b>8 min</b></pre>", None),
        ("<select><option>7 min</option></select>", None),
        ("<svg><title>7 min</title><text>8 min</text></svg>", None),
        ("<head><title>7 min</title></head>", None),
        ("<td>12 min 52 s<svg><path/></svg></td>", "<td>12~min~52~s<svg><path/></svg></td>"),
        ("<p>5 g</p><code>6 g</code><p>7 g</p>", "<p>5~g</p><code>6 g</code><p>7~g</p>"),
    ],
)
def test_a_number_stays_with_its_unit_where_lines_are_broken(
    written: str, laid_out: str | None
) -> None:
    """A no-break space, here ``~``, in running text alone; what is copied or run is as written."""
    assert (laid_out or written).replace("~", "\u00a0") == kept_together(written)
