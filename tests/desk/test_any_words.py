"""Whatever is typed or brought in: a sentence and a status, never a traceback, nothing half."""

import os
import random
from pathlib import Path
from typing import Any

from hangars import loft, texts

from buildbook.records.entries.kinds import AMENDING, KINDS

TRIES = int(os.environ.get("ANY_WORDS", "250"))
WORDS = (
    "heron", "P-1", "P1", "M-1", "7:20", "1480", "1480mAh", "Ah", "mAh", "hard", "pass", "fail",
    "failsafe", "nose", "nose=M-1", "nose.motor=", "=", "a=b", "a.b=3", "roll.p=38", "roll.p.x=1",
    "{", "[", "{a: b}", "[7:20, P-1]", "{nose: {motor: M-1}}", ",", ",,", "7:20,P-1", "-", "--",
    "#", "'", '"', "\t", "", " ", "é", "\x00", "\u202e", "2026-02-08-1", "x" * 200, "1e999", "nan",
)  # fmt: skip
KEYS = (
    "pack", "used", "volts", "note", "tags", "readings", "stations", "values", "from", "set",
    "because", "resting", "cg", "scales", "deferred-until", "wiring", "at", "on", "by", "photos",
)  # fmt: skip


def line(draw: random.Random) -> list[str]:
    """A command line that somebody may type in a hurry."""
    words = [draw.choice((*KINDS, *AMENDING))]
    words += [draw.choice(WORDS) for _ in range(draw.randint(0, 5))]
    for _ in range(draw.randint(0, 2)):
        words += [f"--{draw.choice(KEYS)}", draw.choice(WORDS)]
    return words


def test_any_words(tmp_path: Path, run: Any) -> None:
    """Each line repeats by its number; without --sure and with it."""
    folder = loft(tmp_path / "loft")
    old = texts(folder)
    statuses = set()
    for number in range(TRIES):
        words = line(random.Random(number))
        ran = run("enter", "--dry-run", "--hangar", folder, *words)
        statuses.add(ran.status)
        assert ran.status in (0, 1, 2), (number, words)
        assert old == texts(folder), (number, words)
    assert {0, 1, 2} == statuses


def table(draw: random.Random) -> bytes:
    """A damaged table."""
    cells = (
        "Date", "Time", "Pack", "Duration", "mAh", "R1", "1.2.26", "13/13/13", "7:20", "7,5", "P1",
        "1e999", "nan", "-5", '"', "'", "\n", "\x00", "é", "", "Heron", "crash", "99:99",
        "Used (Ah)",
    )  # fmt: skip
    separator = draw.choice(",;\t|")
    rows = [
        separator.join(draw.choice(cells) for _ in range(draw.randint(1, 6)))
        for _ in range(draw.randint(0, 20))
    ]
    return "\n".join(rows).encode(draw.choice(("utf-8", "cp1252", "utf-16")), "replace")


def test_any_table(tmp_path: Path, run: Any) -> None:
    """Tried twice: the guess, and then the guess as it was written down."""
    folder = loft(tmp_path / "loft")
    for number in range(TRIES // 2):
        book = tmp_path / f"book-{number}.csv"
        book.write_bytes(table(random.Random(number)))
        for _ in range(2):
            ran = run("enter", "--from", book, "--dry-run", folder)
            assert ran.status in (0, 1, 2), number
