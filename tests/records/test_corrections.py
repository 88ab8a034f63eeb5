"""Corrections and voids: what an entry says from now on, chains included."""

from small_hangar import WriteHangar

from buildbook.records.entries import Charge, Cleared, Correction, Flight, Void
from buildbook.records.ledger import Ledger
from buildbook.records.reading.read import read_hangar

LOG = "aircraft/sedge/logbook.yaml"
FLIGHT = "- {on: 2026-02-01, flight: 7:20, pack: P-01, used: 1480 mAh, by: ida, note: calm}\n"


def ledger_of(write_hangar: WriteHangar, log: str, **more: str) -> Ledger:
    """The ledger of the small hangar with that log, which must have no fault."""
    reading = read_hangar(write_hangar({LOG: log, **more}))
    assert () == reading.problems
    assert reading.ledger is not None
    return reading.ledger


def corrections(ledger: Ledger) -> list[Correction]:
    """The corrections in the order of the log."""
    return [entry for entry in ledger.entries if isinstance(entry, Correction)]


def flown(correction: Correction) -> tuple[float, tuple[str, ...], float | None, str]:
    """Duration, packs, charge and landing of the one flight that an entry becomes."""
    assert isinstance(correction.becomes, Flight)
    (row,) = correction.becomes.rows
    return row.duration_s, row.packs, row.used_ah, row.landing


def test_a_part_is_set_and_the_rest_stays(write_hangar: WriteHangar) -> None:
    """A corrected flight keeps its day, id, place and what was not corrected."""
    log = (
        FLIGHT
        + "- on: 2026-02-05\n  corrects: 2026-02-01-1\n  set:\n    used: 1520 mAh\n"
        + "    landing: hard\n  because: misread\n  by: jon\n"
    )
    ledger = ledger_of(write_hangar, log)
    (correction,) = corrections(ledger)
    original, becomes = ledger.entries[0], correction.becomes

    assert (440.0, ("P-01",), 1.52, "hard") == flown(correction)
    assert ("used", "landing") == correction.changed
    assert ("misread", "jon", "2026-02-05-1") == (
        correction.because,
        correction.by,
        correction.id,
    )
    assert original.uid == correction.original == becomes.uid
    assert (original.on, original.line, original.index) == (becomes.on, becomes.line, becomes.index)
    assert ("ida", "calm") == (becomes.by, becomes.note)
    assert f"{LOG}:5" == str(becomes.place("used"))
    assert f"{LOG}:1" == str(becomes.place("pack"))


def test_a_chain_adds_up(write_hangar: WriteHangar) -> None:
    """A correction of a correction, and another of the original, each include those before."""
    log = (
        FLIGHT
        + "- {on: 2026-02-02, id: one, corrects: 2026-02-01-1, set: {used: 1500 mAh}, because: a}\n"
        + "- {on: 2026-02-03, corrects: one, set: {landing: hard}, because: b}\n"
        + "- {on: 2026-02-04, corrects: 2026-02-01-1, set: {flight: 8:00}, because: c}\n"
    )
    chain = corrections(ledger_of(write_hangar, log))

    assert [
        (440.0, ("P-01",), 1.5, "normal"),
        (440.0, ("P-01",), 1.5, "hard"),
        (480.0, ("P-01",), 1.5, "hard"),
    ] == [flown(correction) for correction in chain]
    assert {f"{LOG}#2026-02-01-1"} == {correction.original for correction in chain}


def test_a_whole_new_kind_key_replaces_the_entry(write_hangar: WriteHangar) -> None:
    """What the new entry does not say is not taken over from the old one."""
    log = FLIGHT + "- {on: 2026-02-02, corrects: 2026-02-01-1, flight: 9:00, because: other log}\n"
    (correction,) = corrections(ledger_of(write_hangar, log))

    assert (540.0, (), None, "normal") == flown(correction)
    assert () == correction.changed
    assert "ida" == correction.becomes.by


def test_an_entry_may_become_one_of_another_kind(write_hangar: WriteHangar) -> None:
    """A flight that was a charge, and then its charge set right."""
    log = (
        FLIGHT
        + "- {on: 2026-02-02, corrects: 2026-02-01-1, charge: P-01, put_in: 1 Ah, because: a}\n"
        + "- {on: 2026-02-03, corrects: 2026-02-01-1, set: {put_in: 2 Ah}, because: b}\n"
    )
    first, second = (each.becomes for each in corrections(ledger_of(write_hangar, log)))

    assert isinstance(first, Charge)
    assert isinstance(second, Charge)
    assert (1.0, 2.0) == (first.put_in_ah, second.put_in_ah)


def test_a_voided_correction_counts_no_more(write_hangar: WriteHangar) -> None:
    """Corrections after the void leave it out; those before it do not."""
    log = (
        FLIGHT
        + "- {on: 2026-02-02, id: first, corrects: 2026-02-01-1, set: {used: 2 Ah}, because: a}\n"
        + "- {on: 2026-02-03, corrects: 2026-02-01-1, set: {landing: hard}, because: b}\n"
        + "- {on: 2026-02-04, voids: first, because: mistaken}\n"
        + "- {on: 2026-02-05, corrects: 2026-02-01-1, set: {landing: crash}, because: c}\n"
    )
    ledger = ledger_of(write_hangar, log)

    assert [2.0, 2.0, 1.48] == [flown(each)[2] for each in corrections(ledger)]
    (void,) = [entry for entry in ledger.entries if isinstance(entry, Void)]
    assert (f"{LOG}#first", "mistaken") == (void.original, void.because)


def test_an_entry_of_another_log_can_be_corrected(write_hangar: WriteHangar) -> None:
    """By its id where that is unique, by file and id always; places stay in the original's file."""
    log = (
        "- {on: 2026-02-02, corrects: charge-1, set: {put_in: 2 Ah}, because: a}\n"
        "- {on: 2026-02-03, corrects: 'stores/packs.yaml#charge-1', set: {to: full}, because: b}\n"
    )
    stores = "- {on: 2026-02-01, id: charge-1, charge: P-01, put_in: 1 Ah}\n"
    ledger = ledger_of(write_hangar, log, **{"stores/packs.yaml": stores})
    last = corrections(ledger)[-1].becomes

    assert isinstance(last, Charge)
    assert (2.0, "full", "stores/packs") == (last.put_in_ah, last.to, last.log)
    assert "stores/packs.yaml:1" == str(last.place("put_in"))


def test_a_cleared_defect_knows_its_entry(write_hangar: WriteHangar) -> None:
    """By its default id, in another file of the same log."""
    files = {
        "aircraft/sedge/logbook/3.yaml": "- {on: 2026-03-01, cleared: 2026-02-01-1, how: new}\n"
    }
    log = "- {on: 2026-02-01, defect: the mode switch sticks}\n"
    cleared = ledger_of(write_hangar, log, **files).entries[-1]

    assert isinstance(cleared, Cleared)
    assert (f"{LOG}#2026-02-01-1", "new") == (cleared.target, cleared.how)


def test_default_ids_count_the_entries_of_a_day_in_a_file(write_hangar: WriteHangar) -> None:
    """Those with an id of their own count too."""
    log = (
        "- {on: 2026-02-01, note: one}\n"
        "- {on: 2026-02-01, id: own, note: two}\n"
        "- {on: 2026-02-01T18:00, note: three}\n"
        "- {on: 2026-02-02, note: four}\n"
    )
    entries = ledger_of(write_hangar, log).entries

    assert ["2026-02-01-1", "own", "2026-02-01-3", "2026-02-02-1"] == [each.id for each in entries]
    assert [0, 1, 2, 3] == [each.index for each in entries]
    assert "18:00" == entries[2].time


def test_rows_of_a_day_of_flights_can_be_corrected_as_a_whole(write_hangar: WriteHangar) -> None:
    """The new rows take over what the entry says for all rows."""
    log = (
        "- {on: 2026-02-01, flights: [[7:20], [6:50, P-02]], pack: P-01, wind: calm}\n"
        "- {on: 2026-02-02, corrects: 2026-02-01-1, because: one was missing,"
        " set: {flights: [[7:20], [6:50], [5:00]]}}\n"
    )
    (correction,) = corrections(ledger_of(write_hangar, log))

    assert isinstance(correction.becomes, Flight)
    assert [440.0, 410.0, 300.0] == [row.duration_s for row in correction.becomes.rows]
    assert {("P-01",)} == {row.packs for row in correction.becomes.rows}
    assert "calm" == correction.becomes.wind


def test_a_counted_name_is_looked_for_in_its_own_log(write_hangar: WriteHangar) -> None:
    """Each log counts its own: that of another log would be corrected unseen."""
    store = "stores/p-01.yaml"
    files = {
        LOG: "- {on: 2026-02-01, note: calm}\n"
        "- {on: 2026-02-05, corrects: 2026-02-03-1, set: {put_in: 1.2 Ah}, because: misread}\n"
        "- {on: 2026-02-05, voids: 2026-02-03-1, because: misread}\n"
        "- {on: 2026-02-05, cleared: 2026-02-03-1}\n"
        f"- {{on: 2026-02-05, voids: '{store}#2026-02-04-1', because: twice}}\n"
        "- {on: 2026-02-05, voids: by-name, because: twice}\n",
        store: "- {on: 2026-02-03, charge: P-01, put_in: 1.4 Ah}\n"
        "- {on: 2026-02-04, charge: P-01, put_in: 1.4 Ah}\n"
        "- {on: 2026-02-04, id: by-name, charge: P-01, put_in: 1.4 Ah}\n",
    }
    also = f"{store}:1", f"{LOG}:3", f"{LOG}:4"

    (told,) = read_hangar(write_hangar(files)).problems

    assert (
        f"'2026-02-03-1' is an entry of another log and none of this one, 3 times in all @ {LOG}:2",
        "write it in that log, or name the file too, as in stores/p-01.yaml#2026-02-03-1",
        also,
    ) == (str(told), told.hint, tuple(map(str, told.also)))
