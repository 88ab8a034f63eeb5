"""Names as other people write them: the aircraft, pack, landing or mode that a cell means."""

import re
from collections.abc import Iterator, Mapping, Sequence

from buildbook.basis.nearest import alike, nearest
from buildbook.desk.bringing_in.foreign import names_of_packs, numbered, same_name
from buildbook.desk.bringing_in.heads import PACK_WORDS, mode_of
from buildbook.desk.bringing_in.scheme import Scheme
from buildbook.desk.bringing_in.tables import Table
from buildbook.desk.said.flights_said import packs_of
from buildbook.records.ledger import Ledger

LANDINGS: Mapping[str, str] = {
    "ok": "normal", "good": "normal", "fine": "normal", "smooth": "normal", "gut": "normal",
    "soft": "normal", "weich": "normal", "sanft": "normal", "douce": "normal", "suave": "normal",
    "bon": "normal", "bonne": "normal", "bien": "normal", "dur": "hard",
    "dure": "hard", "duro": "hard", "rough": "hard", "bumpy": "hard",
    "heavy": "hard", "hart": "hard",
    "crashed": "crash", "absturz": "crash", "destroyed": "crash",
}  # fmt: skip


def pack_in(file: str, ledger: Ledger) -> str | None:
    """The pack that the name of a file has in it."""
    words = re.findall(r"[A-Za-z]+-?\d+", file)
    packs = packs_of(ledger)
    return next((tag for word in words if (tag := same_name(word, packs))), None)


def aircraft_in(file: str, ledger: Ledger) -> str | None:
    """The slug of the aircraft that the name of a file has in it, as a word."""
    for slug, one in ledger.aircraft.items():
        for name in (slug, one.aircraft.casefold()):
            if re.search(rf"(?<![a-z0-9]){re.escape(name)}(?![a-z0-9])", file.casefold()):
                return slug
    return None


def names_there(table: Table, scheme: Scheme, ledger: Ledger) -> Iterator[tuple[str, str]]:
    """What is written otherwise there: aircraft, packs and landings; empty: it is nobody's."""
    packs = packs_of(ledger)
    rows = [row for row in table.rows if row.line not in scheme.skip]
    for head, column in scheme.columns.items():
        cells = dict.fromkeys(cell for row in rows if (cell := row.cells.get(head, "")))
        if column.key in ("pack", "charge"):
            cells = dict.fromkeys(name for cell in cells for name in names_of_packs(cell, packs))
        for cell in cells:
            meant: str | None = cell
            if column.key == "aircraft":
                meant = surely(cell, ledger) or misspelt(cell, ledger)
            elif column.key in ("pack", "charge"):
                meant = same_name(cell, packs) or _by_number(cell, packs) or ""
            elif column.key == "landing":
                meant = _landing_of(cell)
            elif column.key == "to":
                meant = mode_of(cell) or ""
            if meant is not None and meant != cell:
                yield cell, meant


def _landing_of(cell: str) -> str:
    """``hard`` of ``hard landing``, ``hart``; empty where a word of it is not known."""
    known = {**LANDINGS, **{each: each for each in ("normal", "hard", "crash")}}
    words = set(re.findall(r"[^\W\d_]+", cell.casefold())) - {"landing", "landung"}
    meant = {known.get(word, "") for word in words}
    return meant.pop() if len(meant) == 1 else ""


def surely(cell: str, ledger: Ledger) -> str:
    """The slug of the aircraft of that name, whatever its capitals, zeros and signs; else empty."""
    aircraft = {one.aircraft: slug for slug, one in ledger.aircraft.items()}
    named = same_name(cell, aircraft) or same_name(cell, ledger.aircraft) or ""
    return aircraft.get(named, named) or _slug_of_letters(cell, ledger)


def _slug_of_letters(cell: str, ledger: Ledger) -> str:
    """The only aircraft of those letters and digits, whatever stands between: ``wasp5``."""
    plain = _letters(cell)
    found = {
        slug
        for slug, one in ledger.aircraft.items()
        if plain and plain in (_letters(slug), _letters(one.aircraft))
    }
    return found.pop() if len(found) == 1 else ""


def misspelt(cell: str, ledger: Ledger) -> str:
    """The slug of the one aircraft that a cell is most like: ``Wsap 5``; empty where none is."""
    by_letters = {
        letters: slug
        for slug, one in ledger.aircraft.items()
        for letters in (_letters(slug), _letters(one.aircraft))
    }
    plain = _letters(cell)
    like = nearest(plain, by_letters.keys())
    return by_letters[like] if like and alike(plain, like) >= _MISSPELT else ""


_MISSPELT = 0.75
"""Two letters that changed places in a word of five are 0.8 alike."""


def _letters(name: str) -> str:
    return re.sub(r"[\W_]+", "", name.casefold())


def _by_number(cell: str, packs: Sequence[str]) -> str | None:
    """The only pack of that number: ``3``, ``Akku 3`` for ``P-03``; ``M1`` may be anything."""
    before = re.match(r"[^\W\d]*", cell.casefold())
    stems = {re.sub(r"[\W\d]+", "", tag).casefold() for tag in packs}
    if before is None or before[0] not in (*PACK_WORDS, *stems, ""):
        return None
    found = numbered(cell, packs)
    return found[0] if len(found) == 1 else None
