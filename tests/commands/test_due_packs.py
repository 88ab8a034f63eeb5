"""Packs and spares on ``buildbook due``: apart from what flies, worst first, ranges of all."""

import json
from pathlib import Path

import pytest

from buildbook.words.work_list import between

SPECS = """\
- {spec: m, kind: motor, mass: 50 g, kv: 900 rpm/V}
- {spec: p, kind: battery, mass: 180 g, cells: 3S, capacity: 2200 mAh, chemistry: LiPo}
"""
ITEMS = """\
- {tags: M-1..M-2, spec: m, acquired: 2026-01-02}
- {tags: P-1..P-4, spec: p, acquired: 2026-10-02}
"""
SHOP = """\
programme: shop
tasks:
  - {task: pack-count, what: Count it., for: battery, every: {charges: 3}}
  - {task: motor-bearings, what: Turn each motor by hand., for: motor, every: {days: 20}}
"""
STORES = """\
- on: 2026-11-01
  charge: [P-1, P-2, P-3]
- on: 2026-11-02
  charge: [P-1, P-2]
- on: 2026-11-03
  charge: [P-1, P-2]
- on: 2026-11-04
  charge: [P-2]
- on: 2026-11-05
  charge: [P-1, P-2]
"""
CARRIED = "- {tag: M-3, spec: m, acquired: 2026-01-02, carried: {hours: 3, basis: measured}}\n"


@pytest.fixture
def shelf(tmp_path: Path) -> Path:
    """Packs and motors, and no aircraft."""
    folder = tmp_path / "shelf"
    files = {
        "hangar.yaml": "format: 1\nhangar: Shelf\nas_of: 2026-11-20\nprogramme: shop\n",
        "programmes/shop.yaml": SHOP,
        "parts/specs.yaml": SPECS,
        "parts/items.yaml": ITEMS,
        "stores/log.yaml": STORES,
    }
    for name, text in files.items():
        (folder / name).parent.mkdir(parents=True, exist_ok=True)
        (folder / name).write_text(text, "utf-8")
    return folder


def test_packs_stand_in_a_table_worst_first(run, shelf: Path) -> None:
    """Alike packs share a line with the range of all of them; the worst is named first."""
    ran = run("due", shelf)

    assert ran == (
        3,
        """\
Record to 20 November 2026


Packs, worst first
  P-2, P-1  overdue
      pack count - overdue, 1 to 2 charges over @ parts/items.yaml:2
  pack count: Count it.
""",
        "",
    )


def test_a_new_spare_asks_for_nothing(run, shelf: Path) -> None:
    """Bought and never fitted: no look at its bearings, however long ago that was."""
    (shelf / "stores/log.yaml").write_text("[]\n", "utf-8")

    assert (0, "Record to 20 November 2026\n\n", "") == run("due", shelf)


def test_a_used_spare_waits_until_it_is_fitted(run, shelf: Path) -> None:
    """What comes round of a part in the drawer nags nobody; for machines the row stands."""
    (shelf / "stores/log.yaml").write_text("[]\n", "utf-8")
    (shelf / "parts/items.yaml").write_text(ITEMS + CARRIED, "utf-8")

    ran = run("due", shelf)
    rows = json.loads(run("due", shelf, "--json").out)["rows"]

    assert (0, "Record to 20 November 2026\n\n", "") == ran
    assert [("motor-bearings", "M-3", "overdue")] == [
        (row["name"], row["tag"], row["state"]) for row in rows if row["tag"] == "M-3"
    ]


def test_a_spare_that_failed_a_look_is_told_before_use(run, shelf: Path) -> None:
    """A defect and a failed look stay: who reaches into the drawer must not take it."""
    (shelf / "stores/log.yaml").write_text(
        "- {on: 2026-11-06, inspection: motor-bearings, tags: [M-3], result: fail,"
        " findings: Grinds.}\n",
        "utf-8",
    )
    (shelf / "parts/items.yaml").write_text(ITEMS + CARRIED, "utf-8")

    assert (
        """\
In the drawer, before use
  motor bearings of M-3 - failed
      the last one failed on 6 November 2026: Grinds
"""
        in run("due", shelf).out
    )


def test_a_pack_that_is_set_aside_brings_its_caution(run, shelf: Path) -> None:
    """SW4 in full. A pack that its keeper set aside himself asks nothing of him."""
    with (shelf / "stores/log.yaml").open("w", encoding="utf-8") as log:
        log.write("- on: 2026-11-06\n  state: {P-3: quarantined}\n")

    ran = run("due", shelf)

    assert 0 == ran.status
    assert "  P-3  quarantined\n" in ran.out
    assert "Battery trouble. Smell, hiss, heat, swelling" in ran.out


def test_an_instruction_is_said_to_its_end(run, shelf: Path) -> None:
    """Over as many lines as it takes, of packs and of spares: nothing to do is cut off."""
    long = "Turn every one of them slowly by hand and listen to it all the while as it turns round."
    shop = SHOP.replace("Count it.", long).replace("Turn each motor by hand.", long)
    (shelf / "programmes/shop.yaml").write_text(shop, "utf-8")
    (shelf / "parts/items.yaml").write_text(ITEMS + CARRIED, "utf-8")
    with (shelf / "stores/log.yaml").open("a", encoding="utf-8") as log:
        log.write("- {on: 2026-11-06, inspection: motor-bearings, tags: [M-3], result: fail,")
        log.write(" findings: Grinds.}\n")

    said = run("due", shelf).out

    assert (
        """\
  pack count: Turn every one of them slowly by hand and listen to it all the
  while as it turns round.
"""
        in said
    )
    assert (
        """\
      First repair what was found. Turn every one of them slowly by hand and
      listen to it all the while as it turns round.
"""
        in said
    )


@pytest.mark.parametrize(
    ("low", "high", "said"),
    [
        (0.044, 0.2, "4.4 to 20 % left"),
        (0.2, 0.2, "20 % left"),
        (-0.05, 0.1, "5 % over to 10 % left"),
        (-0.1, -0.05, "5 to 10 % over"),
    ],
)
def test_a_range_is_of_all(low: float, high: float, said: str) -> None:
    """Never the first one's alone."""
    assert said == between("share", low, high)


RETIRE = "life_limits:\n  - {limit: pack-retire, for: battery, at: {capacity: 80 %}}\n"


@pytest.mark.parametrize(
    ("last", "said"),
    [
        ("1790 mAh", "  pack retirement: when to expect it: buildbook figures P-2\n"),
        ("2000 mAh", ""),
    ],
)
def test_a_pack_near_its_limit_names_where_the_day_is_told(
    run, shelf: Path, last: str, said: str
) -> None:
    """81 % of rated, limit 80 %: ``due`` counts, ``figures`` forecasts."""
    (shelf / "programmes/shop.yaml").write_text("programme: shop\n" + RETIRE, "utf-8")
    log = f"- {{on: 2026-11-01, capacity: P-2, measured: {last}}}\n"
    (shelf / "stores/log.yaml").write_text(log, "utf-8")

    out = run("due", shelf).out

    assert said == "".join(line + "\n" for line in out.splitlines() if "when to expect" in line)
