"""Corrections and voids: what the log says on a day."""

from written_logs import Log, day, folded, problems

from buildbook.records.entries import Flight, FlightRow
from buildbook.report.history import LogLine


def rows(seconds: float) -> tuple[FlightRow, ...]:
    """One row of a flight."""
    return (FlightRow(duration_s=seconds),)


def told(lines: tuple[LogLine, ...]) -> list[tuple[str, float | None, list[str], bool]]:
    """Id, seconds that stand, ids of the words on it, and whether there are later ones."""
    return [
        (
            line.entry.id,
            line.stands.rows[0].duration_s if isinstance(line.stands, Flight) else None,
            [word.id for word in line.words_on],
            line.corrected_later,
        )
        for line in lines
    ]


def test_R44_a_correction_counts_on_the_day_of_the_original_which_stays_visible() -> None:
    """M.A.305 (from memory): 6 min corrected to 16 min is 10 min more; both are there."""
    log = Log("aircraft/a")
    flight = log.flight("03-01", 360.0)
    log.flight("03-02", 60.0)
    word = log.corrects("03-05", flight, rows=rows(960.0))

    now = folded([log]).aircraft["a"]

    assert 1020.0 == now.counters.duration_s
    assert [day("03-01"), day("03-02")] == [done.on for done in now.flights]
    assert [
        ("2026-03-01-1", 960.0, ["2026-03-05-1"], False),
        ("2026-03-02-1", 60.0, [], False),
        ("2026-03-05-1", None, [], False),
    ] == told(now.log)
    assert (360.0, "misread") == (now.log[0].entry.rows[0].duration_s, word.because)
    assert [960.0, 1020.0, 1020.0] == [line.total_s for line in now.log]


def test_R44_before_it_was_written_a_correction_is_left_out() -> None:
    """As of the day before, the original stands, and it is known that it is corrected later."""
    log = Log("aircraft/a")
    flight = log.flight("03-01", 360.0)
    log.corrects("03-05", flight, rows=rows(960.0))

    hangar = folded([log], as_of="03-04")

    assert 360.0 == hangar.aircraft["a"].counters.duration_s
    assert [("2026-03-01-1", 360.0, [], True)] == told(hangar.aircraft["a"].log)
    assert 1 == hangar.left_out


def test_R44_of_a_chain_the_last_wins_and_all_are_shown() -> None:
    """The second correction is of the first; both are words on the original."""
    log = Log("aircraft/a")
    flight = log.flight("03-01", 360.0)
    first = log.corrects("03-05", flight, rows=rows(960.0))
    log.corrects("03-06", flight, first, rows=rows(900.0))

    lines = folded([log]).aircraft["a"].log

    assert ("2026-03-01-1", 900.0, ["2026-03-05-1", "2026-03-06-1"], False) == told(lines)[0]


def test_R45_a_voided_flight_stays_in_the_log_and_counts_nothing() -> None:
    """Withdrawn, not removed."""
    log = Log("aircraft/a")
    log.flight("03-01", 100.0)
    wrong = log.flight("03-02", 360.0)
    log.voids("03-05", wrong)

    now = folded([log]).aircraft["a"]

    assert 100.0 == now.counters.duration_s
    assert ("2026-03-02-1", None, ["2026-03-05-1"], False) == told(now.log)[1]
    assert [100.0, 100.0, 100.0] == [line.total_s for line in now.log]


def test_a_void_of_a_correction_takes_only_that_back() -> None:
    """The original stands again; both are words on it."""
    log = Log("aircraft/a")
    flight = log.flight("03-01", 360.0)
    word = log.corrects("03-05", flight, rows=rows(960.0))
    log.voids("03-06", word)

    seconds = [
        folded([log], as_of=on).aircraft["a"].counters.duration_s
        for on in ("03-04", "03-05", "03-06")
    ]

    assert [360.0, 960.0, 360.0] == seconds
    assert 2 == len(folded([log]).aircraft["a"].log[0].words_on)


def test_a_correction_after_a_void_stands() -> None:
    """The last one written wins."""
    log = Log("aircraft/a")
    flight = log.flight("03-01", 360.0)
    log.voids("03-05", flight)
    log.corrects("03-06", flight, rows=rows(300.0))

    assert 300.0 == folded([log]).aircraft["a"].counters.duration_s


def test_R47_the_day_is_its_end_and_later_entries_are_counted() -> None:
    """Entries of the day are in; the same day twice is the same hangar."""
    log = Log("aircraft/a")
    for on in ("03-01", "03-02", "03-02", "03-03", "03-04"):
        log.flight(on)

    hangar = folded([log], as_of="03-02")

    assert (3, 2) == (hangar.aircraft["a"].counters.flights, hangar.left_out)
    assert [] == problems(hangar)
