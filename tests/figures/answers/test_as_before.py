"""All figures of small full hangars as they were: nobody changes a keeper's figure unknowingly.

These are this program's own numbers and words. What they ought to be is worked out by hand, or
taken from published sources, in the other tests; here every figure, input, note and place is held
at once. To accept a change that was meant, read what differs, then run this file as a script.
"""

import sys
from collections.abc import Callable, Mapping
from pathlib import Path
from tempfile import TemporaryDirectory

import pytest
from full_hangars import bare_quad, coaxial, full_quad, sagging_quad, told_hangar, unbenched_quad
from small_hangars import opened
from test_weighed import FLOWN, LEADED, plane, with_servos

KEPT = Path(__file__).parent / "as_before"


def _leaded_plane() -> dict[str, str]:
    return plane(LEADED + FLOWN.replace("03-01", "03-03"))


CASES: Mapping[str, tuple[Callable[[], dict[str, str]], tuple[str, ...]]] = {
    "full_quad": (full_quad, ("P-1", "P-2", "P-3", "M-1", "R-1", "R-9", "C-1", "C-2")),
    "unbenched_quad": (unbenched_quad, ("P-1",)),
    "sagging_quad": (sagging_quad, ()),
    "bare_quad": (bare_quad, ()),
    "coaxial": (coaxial, ("P-1",)),
    "leaded_plane": (_leaded_plane, ("P-1",)),
    "plane_with_servos": (lambda: with_servos("2 A"), ("S-1",)),
}


def _told(folder: Path, name: str) -> str:
    files, tags = CASES[name]
    return told_hangar(opened(folder, files()), tags)


@pytest.mark.parametrize("name", CASES)
def test_figures_are_those_of_before(tmp_path: Path, name: str) -> None:
    """Line by line, numbers to six digits."""
    kept = (KEPT / f"{name}.txt").read_text(encoding="utf-8")

    assert kept.splitlines() == _told(tmp_path, name).splitlines()


def _write() -> None:
    for name in CASES:
        with TemporaryDirectory() as folder:
            text = _told(Path(folder), name)
        (KEPT / f"{name}.txt").write_text(text, encoding="utf-8")


if __name__ == "__main__":
    _write()
    sys.exit(0)
