"""What ``enter`` says of a lacking key is what can be typed there; ``check`` says it as written."""

import re
from pathlib import Path
from typing import Any

import pytest
from hangars import FILES, LOG, loft

from buildbook.records.entries.kinds import KINDS, common

_MORE = f"""{FILES[LOG]}- on: 2026-02-09
  gains: calm
  values: {{roll: {{p: 30, d: 12}}}}
- on: 2026-02-09
  id: loose
  defect: horn loose
- on: 2026-02-09
  state: {{P-3: quarantined}}
"""
_PARTS = FILES["parts/items.yaml"] + "- {tag: M-2, spec: m}\n"
_WRITTEN = re.compile(
    r"(?<![-'\w])(?:"
    + "|".join({*KINDS, *common(), *(key for kind in KINDS.values() for key in kind.fields)})
    + r"):(?: |$)",
    re.MULTILINE,
)


@pytest.mark.parametrize(
    ("words", "hint"),
    [
        ("fit heron nose M-2", "add --instead-of M-1=serviceable, or =scrapped"),
        ("fit heron nose.motor=P-1", "write nose.battery=P-1"),
        ("state P-3 serviceable", "write --because"),
        ("gains heron soft roll.p=20", "write --from calm if they stay as they were; confirm"),
        ("gains heron calm roll.p=99", "with --from calm what they do not name stays"),
        ("gains heron wild", "write it first: enter gains heron wild roll.p=38"),
        ("flight heron 6:00 --gains wild", "write it first: enter gains heron wild roll.p=38"),
        ("cleared heron loose", "add --how and what was done"),
        ("check heron failsafe 'not applicable'", "add --because"),
        ("inspection heron motor-bearings fail", "add --findings and what was found"),
        ("flight heron 59:00", "confirm it if it is right"),
        ("incident heron hit_a_tree --severity hard", "write --packs P-1 with it"),
        ("defect heron horn --severity note --deferred-until 2026-03-01",
         "write --severity defer"),
        ("check heron motor-bearings pass", "write enter inspection and motor-bearings"),
    ],
)  # fmt: skip
def test_a_hint_of_enter_can_be_typed(tmp_path: Path, run: Any, words: str, hint: str) -> None:
    """Never ``key: value`` to somebody who types an option."""
    folder = loft(tmp_path / "loft", {LOG: _MORE, "parts/items.yaml": _PARTS})

    ran = run("enter", *[word.strip("'") for word in re.findall(r"'[^']+'|\S+", words)], folder)

    said = " ".join(ran.err.split())
    assert hint in said
    hints = [line for line in ran.err.splitlines() if line.startswith("    ")]
    assert [] == _WRITTEN.findall("\n".join(hints))


def test_the_same_hint_in_a_file_is_as_written(tmp_path: Path, run: Any) -> None:
    """Whoever has the entry before him in an editor writes a key."""
    log = f"{_MORE}- on: 2026-02-10\n  fit: {{nose: {{motor: M-2}}}}\n"
    folder = loft(tmp_path / "loft", {LOG: log, "parts/items.yaml": _PARTS})

    ran = run("check", folder)

    assert "remove M-1 first, or add instead_of: {M-1: serviceable}" in ran.out + ran.err
