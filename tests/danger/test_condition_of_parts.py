"""A part with an open defect is serviceable on no list."""

from pathlib import Path

import pytest
from hangar_on_disk import Hangar, with_log

DEFECT = "- {{on: 2026-06-19, id: d, defect: bell rubs, item: {}{}}}\n"
LOOK = "- {{on: 2026-06-19, id: d, inspection: motor-bearings, tags: [{}], result: fail{}}}\n"
CLEARED = "- {on: 2026-06-20, cleared: d, how: new bell}\n"
WAITS = ", severity: defer, deferred_until: {flights: 5}"


@pytest.mark.parametrize(
    ("entry", "said"),
    [
        (DEFECT.format("M-05", ""), "defect open"),
        (DEFECT.format("M-05", WAITS), "defect deferred"),
        (DEFECT.format("M-05", ", severity: note"), "defect noted"),
        (LOOK.format("M-05", ", findings: grinds"), "failed look"),
        (DEFECT.format("M-05", "") + CLEARED, "serviceable"),
        (LOOK.format("M-05", ", findings: grinds") + CLEARED, "serviceable"),
        (
            LOOK.format("M-05", ", findings: grinds")
            + "- {on: 2026-06-20, inspection: motor-bearings, tags: [M-05]}\n",
            "serviceable",
        ),
    ],
)
def test_a_part_in_the_drawer(tmp_path: Path, entry: str, said: str) -> None:
    """Its own page, the shelf that it lies on, and the table of its kind say the same."""
    hangar = Hangar(tmp_path, with_log(entry))

    for page, words in (
        ("items/M-05.html", f"in the drawer. {said}"),
        ("items/M-01.html", f"M-05 {said}"),
        ("stock.html", f"motor {said} 1"),
    ):
        assert words in hangar.page(page), page
    spare = "motor 4 1 Sedge M-05" if said in ("serviceable", "defect noted") else "motor 4 none"
    assert spare in hangar.page("going-flying.html")


def test_a_part_where_it_sits(tmp_path: Path) -> None:
    """By its tag, or by a look at several that names it; the others stand as before."""
    looked = LOOK.format("M-02, M-03", ", findings: grind").replace("id: d", "id: e")
    hangar = Hangar(tmp_path, with_log(DEFECT.format("M-01", WAITS) + looked))

    table = hangar.page("items/M-04.html").partition("side by side")[2]
    for words in ("M-01 defect deferred", "M-02 failed look", "M-03 failed look"):
        assert words in table
    assert "M-04 , this one serviceable" in table
