"""A pack that was taken by mistake: its row closes, and says by what."""

from pathlib import Path

import pytest
from hangar_on_disk import QUIET, Hangar, with_four_cells, with_log, with_text

ASIDE = "- {on: 2026-06-10, state: {P-02: quarantined}, because: puffed}\n"
TAKEN = "- {on: 2026-06-19, id: taken, flight: 4:00, pack: P-02}\n"


def aside(store: str, log: str = "") -> dict[str, str]:
    """The quiet hangar after a pack that lay aside was flown."""
    return with_log(TAKEN + log, **{"stores/p-02.yaml": ASIDE + store})


@pytest.mark.parametrize(
    ("store", "log", "rows"),
    [
        ("", "", 1),
        ("- {on: 2026-06-20, inspection: used-while-aside, tags: [P-02]}\n", "", 0),
        ("- {on: 2026-06-18, inspection: used-while-aside, tags: [P-02]}\n", "", 1),
        ("", "- {on: 2026-06-20, voids: taken, because: another tag}\n", 0),
        ("", "- {on: 2026-06-20, corrects: taken, set: {pack: P-01}, because: misread}\n", 0),
        ("- {on: 2026-06-20, state: {P-02: scrapped}}\n", "", 0),
    ],
)
def test_a_pack_used_while_it_lay_aside(tmp_path: Path, store: str, log: str, rows: int) -> None:
    """The keeper's word that it is marked, or that it was another one; that it lies aside stays."""
    hangar = Hangar(tmp_path, aside(store, log))

    assert rows == len(hangar.rows("used-while-aside"))
    assert hangar.pack("P-02")[0] in ("quarantined", "scrapped")
    if rows:
        assert "write inspection: used-while-aside with its tag; correct the entry" in hangar.due[1]


def four_cells(log: str, store: str = "") -> dict[str, str]:
    """The quiet hangar whose ESCs take three cells at most, and a pack of four."""
    specs = with_text("parts/specs.yaml", "cells: 2S-4S", "cells: 2S-3S")["parts/specs.yaml"]
    files = with_four_cells(with_log(log, **{"parts/specs.yaml": specs}))
    return {**files, "stores/q-01.yaml": store or "[]\n"}


FOUR = "- {on: 2026-06-18, id: taken, flight: 4:00, pack: Q-01}\n"
ELSEWHERE = "- {on: 2026-06-19, inspection: pack-cells, tags: [Q-01]}\n"
OPEN = {"pack-cells": 1, "ratings": 4}


@pytest.mark.parametrize(
    ("log", "store", "open_"),
    [
        (FOUR, "", True),
        (FOUR, ELSEWHERE, False),
        (FOUR + FOUR.replace("06-18, id: taken", "06-20"), ELSEWHERE, True),
        (FOUR + "- {on: 2026-06-20, voids: taken, because: another tag}\n", "", False),
        (FOUR + "- {on: 2026-06-20, inspection: pack-cells}\n", "", True),
    ],
)
def test_a_pack_of_more_cells_than_the_escs_take(
    tmp_path: Path, log: str, store: str, open_: bool
) -> None:
    """Its keeper says that it goes elsewhere, by its tag; flown there again it is as before."""
    hangar = Hangar(tmp_path, four_cells(log, store))

    rows = {name: len(hangar.rows(name)) for name in OPEN}
    assert (OPEN if open_ else dict.fromkeys(OPEN, 0)) == rows
    assert ("grounded" if open_ else "nothing open") == hangar.pack("Q-01")[0]
    if open_:
        assert "write inspection: pack-cells with its tag" in hangar.due[1]


def test_a_pack_that_is_out_of_service_is_no_row(tmp_path: Path) -> None:
    """Its keeper did that; check names it, and counts nothing that is to be done."""
    files = {**QUIET, "stores/p-02.yaml": ASIDE}
    scrapped = {**QUIET, "stores/p-02.yaml": ASIDE.replace("quarantined", "scrapped")}

    said = "Grounded or set aside: P-02. Nothing else is open or due in this record.\n"
    assert Hangar(tmp_path / "aside", files).check.endswith(said)
    said = "Nothing is open or due in this record.\n"
    assert Hangar(tmp_path / "scrapped", scrapped).check.endswith(said)
