"""How long parts lasted."""

from programmes import HOUR, hangar
from written_logs import Log, item

from buildbook.records.parts import Carried
from buildbook.reporting.stock import lives
from buildbook.words.measures.intervals import lasted_words


def test_R26_the_past_lives_of_a_kind_of_part() -> None:
    """AC 107-2A ch. 7, learn intervals from the records: 18.0, 21.5, 19.0 h."""
    log = Log("aircraft/a")
    for number, hours in enumerate((18.0, 21.5, 19.0), start=1):
        tag = f"M-{number}"
        log.fit(f"01-0{number}", {"nose": {"motor": tag}})
        log.flight(f"01-0{number}", hours * HOUR)
        log.remove(f"01-0{number}", tag, state="scrapped" if number == 1 else "retired")
    log.fit("01-09", {"nose": {"motor": "M-4"}})
    log.flight("01-09", 50 * HOUR)
    log.remove("01-10", "M-4")

    (motors,) = lives(hangar([log], items=["M-1", "M-2", "M-3", "M-4"]))

    assert ("motor", ("M-1", "M-2", "M-3")) == (motors.kind, motors.tags)
    assert (18 * HOUR, 19 * HOUR, 21.5 * HOUR) == (
        motors.shortest_s,
        motors.median_s,
        motors.longest_s,
    )
    assert "19.0 h" == lasted_words(motors, motors.median_s)


def test_an_unknown_beginning_makes_it_an_at_least() -> None:
    """R16."""
    log = Log("aircraft/a")
    log.fit("01-01", {"nose": {"motor": "M-1"}})
    log.flight("01-01", 3.2 * HOUR)
    log.remove("01-02", "M-1", state="scrapped")
    motor = item("M-1", carried=Carried(basis="unknown"))

    (motors,) = lives(hangar([log], items=[motor]))

    assert "at least 3.2 h" == lasted_words(motors, motors.median_s)
