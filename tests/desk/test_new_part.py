"""A part that is new is recorded in the breath in which it is fitted, flown or charged first."""

from pathlib import Path
from typing import Any

import pytest
from hangars import FILES, LOG, loft, texts

_ITEMS = "parts/items.yaml"
_OUT = "instead_of: {M-1: scrapped}\n"


def test_a_new_motor_is_like_the_one_it_replaces(tmp_path: Path, run: Any) -> None:
    """One line of a part and one entry, and both are told."""
    folder = loft(tmp_path / "loft")

    ran = run(
        "enter", "fit", "heron", "nose", "--new", "M-2", "--instead-of", "M-1=scrapped",
        "--serial", "K 7", "--acquired", "yesterday", "--sure", folder,
    )  # fmt: skip

    assert ("", 0) == (ran.err, ran.status)
    assert "M-2 is recorded in parts/items.yaml, m like M-1" in ran.out.splitlines()
    now = texts(folder)
    assert FILES[_ITEMS] + "- {tag: M-2, spec: m, acquired: 2026-02-09, serial: K 7}\n" == (
        now[_ITEMS].decode()
    )
    assert f"  fit: {{nose: {{motor: M-2}}}}\n  {_OUT}" in now[LOG].decode()
    assert 0 == run("check", folder).status


@pytest.mark.parametrize(
    "words",
    [
        "fit heron nose M-2 --like M-1 --instead-of M-1=scrapped",
        "fit heron nose.motor=M-2 --like M-1 --instead-of M-1=scrapped",
        "fit heron nose M-2 --new M-2 --instead-of M-1=scrapped",
        "charge --new P-9 --like P-1 1480mAh",
        "charge P-9 1480 --like P-1",
        "flight heron 6:00 P-9 --like P-1",
    ],
)
def test_undo_takes_back_both(tmp_path: Path, run: Any, words: str) -> None:
    """Byte for byte."""
    folder = loft(tmp_path / "loft", {_ITEMS: FILES[_ITEMS].replace("\n", "\r\n")})
    before = texts(folder)

    assert 0 == run("enter", *words.split(), "--sure", folder).status
    added = texts(folder)[_ITEMS].removeprefix(before[_ITEMS])
    assert added in (b"- {tag: M-2, spec: m}\r\n", b"- {tag: P-9, spec: p}\r\n")
    assert 0 == run("enter", "--undo", folder).status

    assert before == texts(folder)


def test_it_goes_where_those_alike_are(tmp_path: Path, run: Any) -> None:
    """Where the parts have a file a kind; what an aircraft's own file lists goes to the parts."""
    alike = "- {tag: M-1, spec: m, acquired: 2026-01-02}\n"
    folder = loft(
        tmp_path / "loft",
        {_ITEMS: FILES[_ITEMS].replace(alike, ""), "parts/items/motors.yaml": alike.rstrip()},
    )

    run("enter", "fit", "heron", "nose", "--new", "M-2", "--instead-of", "M-1=scrapped", folder)

    assert alike + "- {tag: M-2, spec: m}\n" == (
        (folder / "parts/items/motors.yaml").read_text("utf-8")
    )


@pytest.mark.parametrize(
    ("words", "told"),
    [
        ("fit heron nose M-2 --instead-of M-1=scrapped",
         "unknown tag 'M-2'; did you mean 'M-1'? Or add --like and the tag of one alike if it is a"
         " new part"),
        ("fit heron nose --new M-2", "'M-2' is no part that another is like; add --like and the tag"
         " of a part of that kind"),
        ("fit heron nose --new P-1 --like M-1",
         "P-1 is recorded already; leave out --new and --like"),
        ("fit heron nose M-1 --like M-1", "no new part like M-1 is named; add --new and its tag"),
        ("fit heron nose --new M-2 --like Q-1",
         "'Q-1' is no part that another is like; did you mean 'M-1'?"),
        ("fit heron nose --new M-2 --like M-1 --acquired soon", "--acquired: 'soon' is not a day;"),
    ],
)  # fmt: skip
def test_what_is_not_clear_is_asked_for_and_nothing_written(
    tmp_path: Path, run: Any, words: str, told: str
) -> None:
    """With what to type."""
    folder = loft(tmp_path / "loft")
    before = texts(folder)

    ran = run("enter", *words.split(), folder)

    assert 2 == ran.status
    assert ran.err.startswith(f"buildbook enter: {told}")
    assert before == texts(folder)


def test_a_problem_of_either_writes_neither(tmp_path: Path, run: Any) -> None:
    """The slot is taken: the new part stays unrecorded too."""
    folder = loft(tmp_path / "loft")
    before = texts(folder)

    ran = run("enter", "fit", "heron", "nose", "--new", "M-2", "--like", "M-1", "--sure", folder)

    assert 1 == ran.status
    assert "where 'M-1' sits since 2026-02-01" in ran.err
    assert before == texts(folder)
