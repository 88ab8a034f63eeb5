"""Our drawing of a QR code against the ISO/IEC 18004 picture that segno itself writes.

The source is the library's own bitmap (segno, a QR encoder tested against ISO/IEC 18004).
"""

import re

import pytest
import segno

from buildbook.pages.cards import QUIET, qr_drawing


@pytest.mark.parametrize("text", ["P-01", "https://hangar.example/items/P-01.html"])
def test_the_path_paints_the_modules_of_the_code(text: str) -> None:
    """Every black module is painted once, none else, inside a margin of four."""
    drawn = str(qr_drawing(text, "a title", "qr"))
    path = re.findall(r"M(\d+) (\d+)h(\d+)v1h-\d+z", drawn.rpartition('d="')[2])
    painted = [(int(x) + step, int(y)) for x, y, length in path for step in range(int(length))]

    expected = {
        (x + QUIET, y + QUIET)
        for y, row in enumerate(segno.make(text, error="m", micro=False).matrix)
        for x, black in enumerate(row)
        if black
    }
    assert expected == set(painted)
    assert len(expected) == len(painted)
