"""The cells of a pack at rest, however they were written down: a low one is never quiet."""

from pathlib import Path

import pytest
from hangar_on_disk import PACK, Hangar, with_log

LOOK = "- {{on: 2026-06-20, inspection: {}, tags: [P-01], readings: {{{}}}}}\n"


def read(folder: Path, readings: str, look: str = "pack-rest-voltage") -> Hangar:
    """The quiet hangar after a look at its pack."""
    store = PACK + LOOK.format(look, readings)
    return Hangar(folder, with_log("", **{"stores/p-01.yaml": store}))


@pytest.mark.parametrize(
    "readings",
    [
        "cell 1: 2.8 V, cell 2: 3.8 V, cell 3: 3.8 V",
        "cells: [2.8 V, 3.8 V, 3.8 V]",
        "cells: '2.8 V, 3.8 V, 3.8 V'",
        "cells: 2.80 / 3.80 / 3.80",
        "cells: '2,8 V, 3,8 V, 3,8 V'",
        "c1: 2.8 V, c2: 3.8 V",
        "cell1: 2.80",
        "Zelle 1: 2.8 V",
        "1: 2800 mV, 2: 3800 mV, 3: 3800 mV",
        "pack: 10.4 V, c1: 2.8 V, c2: 3.8 V, c3: 3.8 V",
        "pack: 8.4",
        "lowest: 2.8 V a cell",
    ],
)
def test_a_cell_that_is_too_low_sets_the_pack_aside(tmp_path: Path, readings: str) -> None:
    """A list, a slash, a decimal comma, no unit, some of the cells, the sum beside them."""
    state, (said, *_) = read(tmp_path, readings).pack("P-01")

    assert "quarantined" == state
    assert "P-01 is set aside: a cell was too low at rest on 20 June 2026 (2.80 V" in said


@pytest.mark.parametrize(
    ("look", "readings"),
    [
        ("pack-rest-voltage", "cells: [3.85 V, 3.84 V, 3.85 V]"),
        ("pack-rest-voltage", "cells: 3"),
        ("pack-rest-voltage", "pack: 11.55"),
        ("pack-look", "swelling: 0 mm, temperature: 21 °C"),
        ("pack-look", "c1: 2.1, c2: 2.2, c3: 2.1"),  # mΩ, as likely as not
        ("pack-look", "resistance: 2.1 mΩ"),
    ],
)
def test_what_is_no_low_cell(tmp_path: Path, look: str, readings: str) -> None:
    """Level cells, a number of cells, and what has nothing to do with volts."""
    assert ("nothing open", []) == read(tmp_path, readings, look).pack("P-01")
