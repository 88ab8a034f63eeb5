"""``public: ok`` is a key of every record."""

from pathlib import Path

from buildbook.records.ledger import Ledger
from buildbook.records.outputs.seal import changed_entries, digests
from buildbook.records.reading.read import read_hangar
from tests.records.small_hangar import SMALL, WriteHangar

LOG = "aircraft/sedge/logbook.yaml"


def test_a_record_of_any_kind_may_be_public(write_hangar: WriteHangar) -> None:
    """The hangar, specs, items, aircraft, entries and corrections take the key."""
    folder = write_hangar(
        {
            "hangar.yaml": SMALL["hangar.yaml"] + "public: ok\n",
            "parts/specs.yaml": SMALL["parts/specs.yaml"].replace("}", ", public: ok}"),
            "parts/items.yaml": SMALL["parts/items.yaml"].replace("}", ", public: ok}"),
            "aircraft/sedge/aircraft.yaml": SMALL["aircraft/sedge/aircraft.yaml"] + "public: ok\n",
            LOG: SMALL[LOG]
            + "- {on: 2026-02-03, id: a, repair: new shaft, public: ok}\n"
            + "- {on: 2026-02-04, corrects: a, set: {repair: new bell}, because: x, public: ok}\n",
            "notices/a.yaml": "- {notice: n, spec: esc-a, issued: 2026-01-02, what: Look, "
            "public: ok}\n",
        }
    )
    reading = read_hangar(folder)

    assert [] == [str(problem) for problem in reading.problems]
    ledger = reading.ledger
    assert ledger is not None
    records = [ledger.keeper, *ledger.specs.values(), *ledger.aircraft.values()]
    records += [*ledger.items.values(), *ledger.notices.values(), *ledger.entries[-2:]]
    assert ["ok"] * len(records) == [record.public for record in records]


def test_another_word_than_ok_is_a_problem(write_hangar: WriteHangar) -> None:
    """``yes`` says less than that somebody has looked."""
    folder = write_hangar({LOG: "- {on: 2026-02-03, repair: shaft, public: yes}\n"})

    assert [f"'yes' is not ok @ {LOG}:1"] == [
        str(problem) for problem in read_hangar(folder).problems
    ]


def test_a_sealed_entry_may_become_public(write_hangar: WriteHangar) -> None:
    """The key is no word of the entry, so its seal holds; a changed word still breaks it."""
    words = "- {on: 2026-02-03, repair: shaft}\n"
    sealed = digests(ledger_of(write_hangar({LOG: words})))
    opened = ledger_of(write_hangar({LOG: words.replace("}", ", public: ok}")}))
    changed = ledger_of(write_hangar({LOG: words.replace("shaft", "bell")}))

    assert [] == list(changed_entries(opened, sealed))
    assert 1 == len(list(changed_entries(changed, sealed)))


def ledger_of(folder: Path) -> Ledger:
    """The ledger of a hangar that reads cleanly."""
    ledger = read_hangar(folder).ledger
    assert ledger is not None
    return ledger
