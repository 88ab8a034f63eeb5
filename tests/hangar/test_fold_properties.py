"""What holds for every history."""

import datetime
from typing import Any

import msgspec
import pytest
from histories import BEGIN, History, histories
from hypothesis import given, settings
from hypothesis import strategies as st
from written_logs import END, Log, problems

from buildbook.hangar.fold import fold
from buildbook.hangar.time_in_service import flown_at
from buildbook.records.entries import AnyEntry, Flight, Void
from buildbook.records.ledger import Ledger
from buildbook.report.packs.charge_tally import ChargeTally, stretches
from buildbook.report.state import Counters, Hangar
from buildbook.report.tally import Tally

MANY = settings(max_examples=30, deadline=None)
days = st.integers(0, 40).map(lambda number: BEGIN + datetime.timedelta(days=number))


def plain(hangar: Hangar, *left_out: str) -> Any:
    """The hangar as plain data, without the ledger, to be compared."""

    def built(value: object) -> object:
        if isinstance(value, Tally):
            return value.total
        if isinstance(value, ChargeTally):
            return value.through_ah
        raise TypeError(value)

    names = [
        name for name in hangar.__struct_fields__ if name not in ("ledger", "as_of", *left_out)
    ]
    return {
        name: msgspec.to_builtins(
            getattr(hangar, name), enc_hook=built, str_keys=False, order="sorted"
        )
        for name in names
    }


def numbers(counters: Counters) -> tuple[float, ...]:
    """All counters."""
    return (
        counters.duration_s,
        counters.flights,
        counters.flying_days,
        counters.cycles,
        counters.charges,
        counters.crashes,
        counters.hard_landings,
    )


@MANY
@given(histories())
def test_a_valid_history_has_no_contradictions(history: History) -> None:
    """Moves within a day included, whatever logs they are in."""
    assert [] == problems(fold(history.ledger(), END))


@MANY
@given(histories(), days)
def test_a_day_is_the_log_truncated_after_it(history: History, as_of: datetime.date) -> None:
    """Later entries change nothing; they are only counted."""
    whole = history.ledger()
    kept = tuple(entry for entry in whole.entries if entry.on <= as_of)
    truncated = msgspec.structs.replace(whole, entries=kept)

    assert plain(fold(truncated, END), "left_out") == plain(fold(whole, as_of), "left_out")
    assert len(whole.entries) - len(kept) == fold(whole, as_of).left_out


@MANY
@given(histories(), st.randoms(use_true_random=False))
def test_the_order_in_which_logs_are_read_does_not_matter(history: History, random: Any) -> None:
    """Entries know their log and their place in it; that is enough."""
    whole = history.ledger()
    shuffled = list(whole.entries)
    random.shuffle(shuffled)

    again = fold(msgspec.structs.replace(whole, entries=tuple(shuffled)), END)

    assert plain(fold(whole, END)) == plain(again)


@MANY
@given(histories(), st.integers(1, 9))
def test_files_of_one_logbook_are_one_list(history: History, size: int) -> None:
    """Split over files of so many entries each, the hangar is the same but for the places."""
    whole = history.ledger()
    split = msgspec.structs.replace(
        whole,
        entries=tuple(
            msgspec.structs.replace(entry, file=f"{entry.log}/{entry.index // size:03}.yaml")
            for entry in whole.entries
        ),
    )
    one, many = fold(whole, END), fold(split, END)

    assert problems(one) == problems(many) == []
    assert [
        (numbers(now.counters), now.state.state, now.aircraft) for now in one.items.values()
    ] == [(numbers(now.counters), now.state.state, now.aircraft) for now in many.items.values()]
    for slug, now in one.aircraft.items():
        then = many.aircraft[slug]
        assert numbers(now.counters) == numbers(then.counters)
        assert now.gains == then.gains
        assert [(event.seq, event.event, event.tags) for event in now.events] == [
            (event.seq, event.event, event.tags) for event in then.events
        ]


@MANY
@given(histories(), st.tuples(days, days).map(sorted))
def test_counters_never_fall(history: History, two: list[datetime.date]) -> None:
    """On a later day every item and aircraft has lived through at least as much."""
    earlier, later = (fold(history.ledger(), on) for on in two)

    for before, after in (
        *zip(earlier.items.values(), later.items.values(), strict=True),
        *zip(earlier.aircraft.values(), later.aircraft.values(), strict=True),
    ):
        assert all(
            old <= new
            for old, new in zip(numbers(before.counters), numbers(after.counters), strict=True)
        )


@MANY
@given(histories())
def test_moving_parts_conserves_what_they_flew(history: History) -> None:
    """Of each motor the sum over its stays; of each aircraft no more than it has stations."""
    hangar = fold(history.ledger(), END)

    assert hangar.items
    assert hangar.aircraft
    for now in hangar.items.values():
        if not now.is_pack:
            stays = [(stay.duration_s, stay.flights) for stay in now.stays]
            assert now.counters.duration_s == pytest.approx(sum(time for time, _ in stays))
            assert now.counters.flights == sum(flights for _, flights in stays)
            assert now.counters.flying_days <= now.counters.flights
    for slug, aircraft in hangar.aircraft.items():
        for seq in {0, *(line.seq for line in aircraft.log)}:
            carried = [
                stay
                for now in hangar.items.values()
                for stay in now.stays
                if stay.aircraft == slug
                and stay.since_seq <= seq
                and (stay.until_seq is None or seq < stay.until_seq)
            ]
            assert len(carried) <= 2


@MANY
@given(histories())
def test_time_at_a_moment_is_what_was_flown_while_it_sat_there(history: History) -> None:
    """Counted flight by flight, the slow way."""
    hangar = fold(history.ledger(), END)
    flights = [done for now in hangar.aircraft.values() for done in now.flights]
    moments = sorted({done.seq for done in flights} | {0})[::3]

    assert hangar.items
    for tag, now in hangar.items.items():
        for seq in moments:
            lived = [
                done
                for done in flights
                if done.seq <= seq
                and (
                    tag in done.row.packs
                    or any(
                        stay.aircraft == done.aircraft
                        and stay.since_seq < done.seq
                        and (stay.until_seq is None or done.seq < stay.until_seq)
                        for stay in now.stays
                    )
                )
            ]
            expected = (
                sum(done.duration_s for done in lived),
                len(lived),
                len({done.on for done in lived}),
                0.0,  # no motor_run is written,
                0.0,  # in no flight at all
            )
            assert expected == pytest.approx(flown_at(hangar, tag, seq))


@MANY
@given(histories())
def test_the_stretches_of_a_pack_add_up_to_its_cycles(history: History) -> None:
    """The working and the counter are the same count."""
    for now in fold(history.ledger(), END).items.values():
        found = stretches(now.flights, now.charges)
        assert found == now.through.stretches

        assert sum(stretch.through_ah for stretch in found) / 2.0 == pytest.approx(
            now.counters.cycles
        )
        assert len(now.flights) == sum(stretch.flights for stretch in found)
        assert len(now.charges) == sum(stretch.charges for stretch in found)


@MANY
@given(histories(), st.data())
def test_voiding_a_flight_is_leaving_it_out(history: History, data: st.DataObject) -> None:
    """All but the lines of the log that show it."""
    whole = history.ledger()
    flights = [entry for entry in whole.entries if isinstance(entry, Flight)]
    if not flights:
        return
    gone = data.draw(st.sampled_from(flights))
    log = Log(gone.log, gone.file)
    void = log.write(
        Void,
        END.isoformat(),
        voids=gone.id,
        original=gone.uid,
        because="not mine",
        index=len(whole.entries),
    )
    voided = fold(msgspec.structs.replace(whole, entries=(*whole.entries, void)), END)
    absent = fold(_without(whole, gone), END)

    assert _lived(absent) == _lived(voided)


def _without(whole: Ledger, gone: AnyEntry) -> Ledger:
    kept = tuple(entry for entry in whole.entries if entry is not gone)
    return msgspec.structs.replace(whole, entries=kept)


def _lived(hangar: Hangar) -> list[Any]:
    """What everything has lived through, without the numbers of the moments."""
    return [
        [
            (numbers(now.counters), [(event.uid, event.event, event.tags) for event in now.events])
            for now in (*hangar.items.values(), *hangar.aircraft.values())
        ],
        [(tag, now.state, now.aircraft, now.flown_on) for tag, now in hangar.items.items()],
        [[done.uid for done in now.flights] for now in hangar.aircraft.values()],
    ]
