"""Which fields of an entry hold tags is seen by their declared type, of kinds to come too."""

from typing import Annotated

import msgspec
from small_hangar import WriteHangar

from buildbook.basis.problems import Problems
from buildbook.records.checking.known import Known
from buildbook.records.checking.references import check_references
from buildbook.records.declare import key
from buildbook.records.entries.entry import Entry
from buildbook.records.keys.quantities import Pack, Packs, Tags, Texts
from buildbook.records.reading.connected import tags_of
from buildbook.records.reading.read import read_hangar


class Cleaning(Entry, frozen=True, kw_only=True, tag="cleaning"):
    """Parts were cleaned."""

    parts: Annotated[Tags, key("What", "[M-01]", written="cleaning", value_of_kind=True)]
    packs: Annotated[Packs, key("Packs", "[P-01]")] = ()
    beside: Annotated[Pack | None, key("Another pack", "P-02")] = None
    means: Annotated[Texts, key("With what", "[soap]")] = ()


def test_tags_of_a_new_kind_must_be_there(write_hangar: WriteHangar) -> None:
    """No table names the kind, and an unknown tag in it is refused all the same."""
    ledger = read_hangar(write_hangar({})).ledger
    entry = Cleaning(
        file="stores/shelf.yaml",
        line=3,
        log="stores/shelf",
        aircraft=None,
        index=0,
        on=ledger.entries[0].on,
        id="c-1",
        parts=("M-01", "M-99"),
        packs=("P-99",),
        beside="M-02",
        means=("soap",),
    )
    ledger = msgspec.structs.replace(ledger, entries=(entry,))
    known = Known(
        tags=frozenset(ledger.items),
        specs=frozenset(ledger.specs),
        programmes=None,
        notices=frozenset(),
        bench=frozenset(),
    )
    found = Problems()

    check_references(ledger, known, found)

    assert {
        "unknown tag 'M-99' @ stores/shelf.yaml:3",
        "unknown tag 'P-99' @ stores/shelf.yaml:3",
        "'M-02' is a motor, not a pack @ stores/shelf.yaml:3",
    } == {str(problem) for problem in found}
    assert ["M-01", "M-99", "P-99", "M-02"] == list(tags_of(entry))
