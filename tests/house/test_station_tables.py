"""No station table counts its outputs up in a row: a keeper must read his own, not recall one."""

import math
import re
import subprocess
import sys
from itertools import pairwise
from pathlib import Path

import pytest

from buildbook.desk.begin import First, starter
from buildbook.records.layouts import LAYOUTS, Layout

ROOT = Path(__file__).parents[2]
sys.path[:0] = [str(ROOT / "tests/drawings"), str(ROOT / "tests/benchmarks")]

import big_hangar  # noqa: E402
import drawn_samples  # noqa: E402

PLACES = ("content", "buildbook", "tests", "themes", "README.md", "DEVELOPERS.md", "CHANGELOG.md")
TEXTS = (".yaml", ".md", ".py", ".txt", ".j2", ".csv", ".json")
RINGS = tuple(layout for layout in LAYOUTS.values() if not layout.free)
STATIONS = sorted({name for layout in RINGS for name in layout.names}, key=len, reverse=True)
PLANNED = re.compile(
    rf"[\"']?\b(?P<station>{'|'.join(STATIONS)})[\"']?\s*:\s*"
    r"(?:\{[^{}]*?\boutput:\s*(?P<output>\d+)[^{}]*\}|(?P<number>\d+)(?=\s*[,}\n]))"
)
Table = dict[str, int]
MOST = 32  # outputs of a controller; larger numbers are bearings, masses, readings


def tables_in(text: str) -> list[Table]:
    """Station tables of a text: plans that follow each other without other words between."""
    found: list[Table] = []
    end = -1
    for match in PLANNED.finditer(text):
        station = match["station"]
        output = int(match["output"] or match["number"])
        if end >= 0 and not text[end : match.start()].strip(" ,\n") and station not in found[-1]:
            found[-1][station] = output
        else:
            found.append({station: output})
        end = match.end()
    return [table for table in found if len(table) > 2 and MOST >= max(table.values()) > 0]


def in_a_row(numbers: list[int]) -> bool:
    """Whether they only rise, or only fall."""
    return any(
        all(way * (after - before) > 0 for before, after in pairwise(numbers)) for way in (1, -1)
    )


def layout_of(table: Table) -> Layout:
    """The smallest layout with these stations."""
    fitting = [layout for layout in RINGS if set(table) <= set(layout.names)]
    return min(fitting, key=lambda layout: len(layout.names))


def orders(table: Table) -> list[list[int]]:
    """Outputs as written, in reading order, and round the ring from each of its arms.

    Three arms are in a row round the ring whatever their numbers, so they are only read across.
    """
    layout = layout_of(table)
    stations = [station for station in layout.stations if station.name in table]
    around = sorted(stations, key=lambda at: math.atan2(at.right, at.forward) % math.tau)
    ring = [table[station.name] for station in around]
    turns = range(len(ring)) if len(ring) > 3 else ()
    return [
        list(table.values()),
        [table[station.name] for station in stations],
        *(ring[turn:] + ring[:turn] for turn in turns),
    ]


def counted_up(text: str) -> list[Table]:
    """The tables of a text whose outputs rise or fall in a row."""
    return [table for table in tables_in(text) if any(map(in_a_row, orders(table)))]


def files() -> list[str]:
    """All texts of the project that hold data, examples or tests."""
    listed = subprocess.run(
        ["git", "ls-files", "-co", "--exclude-standard", *PLACES],
        cwd=ROOT,
        capture_output=True,
        text=True,
        check=True,
    )
    return [name for name in listed.stdout.splitlines() if name.endswith(TEXTS)]


ROUND, ACROSS = (1, 2, 3, 4), (1, 2, 4, 3)


@pytest.mark.parametrize("outputs", [ROUND, ACROSS, (3, 4, 1, 2), (2, 1, 4, 3), (8, 6, 5, 3)])
def test_a_row_is_seen_wherever_it_begins(outputs: tuple[int, ...]) -> None:
    """Round the ring from any arm, either way, and across from front-left to rear-right."""
    ring = ("front-left", "front-right", "rear-right", "rear-left")
    plans = dict(zip(ring, outputs, strict=True))
    block = "".join(f"  {name}: {{spin: cw, output: {n}}}\n" for name, n in plans.items())

    assert [plans] == counted_up(f"stations:\n{block}receiver: x\n")
    assert [plans] == counted_up(
        f"TABLE = {{{', '.join(f'{k!r}: {n}' for k, n in plans.items())}}}"
    )


def test_a_table_in_no_order_is_let_be() -> None:
    """And readings with a unit are no outputs."""
    table = "front-left: {output: 2}, front-right: {output: 4}, rear-left: {output: 1}"
    readings = "{front-left: 6 %, front-right: 7 %, rear-left: 8 %, rear-right: 9 %}"

    assert [{"front-left": 2, "front-right": 4, "rear-left": 1}] == tables_in(table)
    assert [] == counted_up(table + "\n" + readings)


def test_no_file_counts_its_outputs_up() -> None:
    """Demo, examples, tests, built-in files and documents, all that git would hold."""
    names = [name for name in files() if Path(name).name != Path(__file__).name]
    texts = {name: (ROOT / name).read_text("utf-8") for name in names if (ROOT / name).is_file()}

    assert {"content", "buildbook", "tests"} <= {name.split("/")[0] for name in texts}
    assert sum(len(tables_in(text)) for text in texts.values()) > 5
    assert {} == {name: found for name, text in texts.items() if (found := counted_up(text))}


def test_no_generator_counts_its_outputs_up(tmp_path: Path) -> None:
    """The benchmark hangar, the samples of the drawings, and what ``begin`` writes."""
    big_hangar.write(tmp_path, aircraft=2, flights=1)
    big = (tmp_path / "aircraft/a01/aircraft.yaml").read_text("utf-8")
    drawn = [
        {station.name: station.output for station in drawn_samples.ring_plan(layout.name).stations}
        for layout in RINGS
    ]
    begun = [text for layout in RINGS for text in starter(First(layout=layout.name)).values()]

    assert 1 == len(tables_in(big))
    assert [] == counted_up(big)
    assert [] == [table for table in drawn if any(map(in_a_row, orders(table)))]
    assert [] == [found for text in begun for found in tables_in(text)]
