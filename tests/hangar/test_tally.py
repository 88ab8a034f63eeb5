"""Running totals and the working of pack cycles."""

import pytest
from written_logs import Log, day, folded

from buildbook.report.packs.charge_tally import Stretch, stretches
from buildbook.report.tally import NOTHING, Flown, Tally, Window


def flown() -> Tally:
    """Two flights on 1 March at moments 3 and 5, one on 4 March at 9."""
    tally = Tally()
    tally.add(3, day("03-01"), 100.0)
    tally.add(5, day("03-01"), 200.0)
    tally.add(9, day("03-04"), 400.0)
    return tally


def test_totals_are_up_to_and_including_a_moment() -> None:
    """Before the first flight there is nothing."""
    tally = flown()

    assert [NOTHING, Flown(100.0, 1, 1), Flown(300.0, 2, 1), Flown(700.0, 3, 2)] == [
        tally.at(seq) for seq in (2, 3, 8, 9)
    ]
    assert Flown(700.0, 3, 2) == tally.total
    assert NOTHING == Tally().total


@pytest.mark.parametrize(
    ("after", "upto", "expected"),
    [
        (0, None, Window(Flown(700.0, 3, 2), day("03-01"), day("03-04"))),
        (3, None, Window(Flown(600.0, 2, 2), day("03-01"), day("03-04"))),
        (3, 5, Window(Flown(200.0, 1, 1), day("03-01"), day("03-01"))),
        (5, 9, Window(Flown(400.0, 1, 1), day("03-04"), day("03-04"))),
        (3, 3, Window()),
        (9, None, Window()),
    ],
)
def test_a_window_counts_a_day_that_it_shares(
    after: int, upto: int | None, expected: Window
) -> None:
    """After the first flight of 1 March there was another on that day."""
    assert expected == flown().between(after, upto)


def test_totals_add_and_subtract_by_part() -> None:
    """And not with anything else."""
    assert Flown(3.0, 3, 3) == Flown(1.0, 1, 1) + Flown(2.0, 2, 2)
    assert Flown(1.0, 1, 1) == Flown(3.0, 3, 3) - Flown(2.0, 2, 2)
    assert NotImplemented is Flown().__add__((1, 2))


def test_stretches_show_what_was_used_and_put_in() -> None:
    """Charges close the flights before them together; the last stretch is open."""
    log, store = Log("aircraft/a"), Log("stores/P-1")
    log.flight("03-01", packs="P-1 P-2", used_ah=3.0)
    log.flight("03-01", packs="P-1")
    store.charge("03-02", "P-1", 0.8)
    store.charge("03-02", "P-1", 0.9)
    store.charge("03-03", "P-1 P-2", 0.4)
    log.flight("03-04", packs="P-1", used_ah=1.0)

    pack = folded([log, store], ["P-1", "P-2"]).items["P-1"]
    found = stretches(pack.flights, pack.charges)

    assert (
        Stretch(
            used_ah=1.5,
            put_in_ah=pytest.approx(1.9),
            flights=2,
            unknown_flights=1,
            charges=3,
        ),
        Stretch(used_ah=1.0, flights=1),
    ) == found
    assert (1.9 + 1.0) / 2.0 == pytest.approx(pack.counters.cycles)
    assert () == stretches((), ())
