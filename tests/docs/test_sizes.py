"""The limits of what is read: the reference prints each, and no other is hidden in the code."""

import re
from pathlib import Path

import buildbook
from buildbook.basis.sizes import SIZES
from buildbook.records.outputs.reference import reference

# Numbers that bound what is told, remembered or guessed, never what a hangar may hold.
OF_THE_PROGRAM = {"_MOST_FAULTS", "_MOST_ODD", "_MOST_PLACES", "_MOST_UNKNOWN", "_MOST_GUESSED"}
OF_THE_PROGRAM |= {"_MOST_KEPT", "_MOST_BYTES"}
OWN_NUMBER = re.compile(r"^(_?(?:MOST|LONGEST|DEEPEST)\w*) = (?!most\()", re.MULTILINE)


def test_the_reference_prints_every_limit() -> None:
    """The table of ``schema --reference`` is made from the one that the code uses."""
    text = reference()
    table = text[text.index("## limits") :]
    rows = re.findall(r"^\| (?!what|-)(.+) \| (.+) \|$", table, re.MULTILINE)

    assert [(size.what, str(size)) for size in SIZES.values()] == rows
    assert "| A write-up | 200,000 characters |" in table


def test_readers_take_their_limits_from_the_table() -> None:
    """No number of their own under such a name."""
    top = Path(next(iter(buildbook.__path__)))
    own = {
        f"{path.name}: {found}"
        for floor in ("records", "pictures", "publish")
        for path in sorted((top / floor).rglob("*.py"))
        for found in OWN_NUMBER.findall(path.read_text())
        if found not in OF_THE_PROGRAM
    }
    assert set() == own
