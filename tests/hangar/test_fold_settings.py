"""Settings, firmware and gain sets in force."""

from test_fold_fitting import events
from written_logs import Log, day, folded, problems

from buildbook.basis.place import Place

BASE = {"roll": {"p": 38.0, "i": 21.0}, "yaw": {"p": 60.0}}


def test_the_last_setting_is_in_force_for_what_it_is_of() -> None:
    """A setting of the aircraft and one of a station are two; a servo's fit is no setting."""
    log = Log("aircraft/a")
    log.fit("03-01", {"front-left": {"motor": "M-1", "esc": "E-1"}})
    log.setting("03-02", start_throttle="14 %", levelling="on")
    log.setting("03-03", start_throttle="15 %")
    log.setting("03-04", of="front-left", start_throttle="16 %")
    log.setting("03-05", of="E-1", timing="high")

    hangar = folded([log], ["M-1", "E-1"])

    assert {
        (None, "start_throttle"): ("15 %", day("03-03")),
        (None, "levelling"): ("on", day("03-02")),
        ("front-left", "start_throttle"): ("16 %", day("03-04")),
        ("E-1", "timing"): ("high", day("03-05")),
    } == {key: (now.value, now.on) for key, now in hangar.aircraft["a"].settings.items()}
    assert [
        "setting start_throttle - - everything",
        "setting levelling - - everything",
        "setting start_throttle - - everything",
        "setting start_throttle front-left M-1,E-1",
        "setting timing front-left E-1",
    ] == events(hangar)[2:]


def test_R34_each_flight_shows_the_firmware_in_force() -> None:
    """AMC M.A.305(c)2(c): 1.2 to 1.3 on 1 May; on the day itself the order of the log decides."""
    log = Log("aircraft/a")
    log.fit("04-01", {"centre": {"controller": "C-1"}})
    log.firmware("04-01", C_1="1.2")
    log.flight("04-30")
    log.flight("05-01")
    log.firmware("05-01", C_1="1.3")
    log.flight("05-01")
    log.flight("05-02")

    hangar = folded([log], ["C-1"])

    assert ["1.2", "1.2", "1.3", "1.3"] == [
        flight.firmware["C-1"] for flight in hangar.aircraft["a"].flights
    ]
    assert "1.3" == hangar.items["C-1"].firmware
    assert ["firmware controller centre C-1"] * 2 == events(hangar)[1:]


def test_firmware_goes_with_the_item() -> None:
    """Loaded on the bench, flown after the fit; gone from the flights once it is out."""
    log, store = Log("aircraft/a"), Log("stores/box")
    store.firmware("03-01", C_1="1.2")
    log.flight("03-02")
    log.fit("03-03", {"centre": {"controller": "C-1"}})
    log.flight("03-04")
    log.remove("03-05", "C-1")
    log.flight("03-06")

    hangar = folded([log, store], ["C-1"])

    assert [{}, {"C-1": "1.2"}, {}] == [flight.firmware for flight in hangar.aircraft["a"].flights]
    assert ["firmware", "fit", "remove"] == [event.event for event in hangar.items["C-1"].events]


def test_R34_each_flight_shows_the_gain_set_flown() -> None:
    """In force, or switched in flight; going back to a set is a change of its own."""
    log = Log("aircraft/a")
    log.flight("03-01")
    log.gains("03-02", "first", values=BASE)
    log.flight("03-03")
    log.gains("03-04", "soft", base="first", values={"roll": {"p": 30.0}})
    log.flight("03-05")
    log.flight("03-06", gains="first")
    log.gains("03-07", "first")
    log.flight("03-08")

    hangar = folded([log])

    now = hangar.aircraft["a"]
    assert [] == problems(hangar)
    assert [None, "first", "soft", "first", "first"] == [done.gains for done in now.flights]
    assert [
        ("first", day("03-02"), day("03-04")),
        ("soft", day("03-04"), day("03-07")),
        ("first", day("03-07"), None),
    ] == [(period.name, period.on, period.until) for period in now.gain_periods]
    assert "first" == now.gains
    assert ["gains - - - everything"] * 3 == events(hangar)


def test_a_set_from_another_is_kept_whole() -> None:
    """What it leaves out is that of its base."""
    log = Log("aircraft/a")
    log.gains("03-02", "first", values=BASE)
    log.gains("03-04", "soft", base="first", values={"roll": {"p": 30.0}, "pitch": {"p": 31.0}})

    sets = folded([log]).aircraft["a"].gain_sets

    assert ["first", "soft"] == list(sets)
    assert {
        "roll": {"p": 30.0, "i": 21.0},
        "yaw": {"p": 60.0},
        "pitch": {"p": 31.0},
    } == sets["soft"].values
    assert "first" == sets["soft"].base


def test_the_same_name_with_other_values_is_a_problem() -> None:
    """With the same values it is a return; the first ones stay."""
    log = Log("aircraft/a")
    log.gains("03-02", "first", values=BASE)
    log.gains("03-03", "first", values=BASE)
    log.gains("03-04", "first", base="first", values={"yaw": {"p": 61.0}})

    hangar = folded([log])

    assert [
        "problem: gain set 'first' written with other values on 2026-03-04 than on 2026-03-02"
        " @ aircraft/a/logbook.yaml:30"
    ] == problems(hangar)
    assert (Place("aircraft/a/logbook.yaml", 10),) == hangar.problems[0].also
    assert 60.0 == hangar.aircraft["a"].gain_sets["first"].values["yaw"]["p"]
    assert 1 == len(hangar.aircraft["a"].gain_periods)


def test_a_set_that_was_never_written_is_a_problem() -> None:
    """Returned to, built on, judged, or flown."""
    log = Log("aircraft/a")
    log.gains("03-01", "ghost")
    log.gains("03-02", "soft", base="spirit", values=BASE)
    log.verdict("03-03", soft="tame", shade="wild")
    log.flight("03-04", gains="wraith")

    hangar = folded([log])

    assert [
        "problem: gain set 'ghost' returned to on 2026-03-01 before its values were written"
        " @ aircraft/a/logbook.yaml:10",
        "problem: gain set 'spirit' used as a base on 2026-03-02 before its values were written"
        " @ aircraft/a/logbook.yaml:20",
        "problem: gain set 'shade' judged on 2026-03-03 before its values were written"
        " @ aircraft/a/logbook.yaml:30",
        "problem: gain set 'wraith' flown on 2026-03-04 before its values were written"
        " @ aircraft/a/logbook.yaml:40",
    ] == problems(hangar)
    assert [("soft", "tame")] == [
        (verdict.name, verdict.words) for verdict in hangar.aircraft["a"].gain_verdicts
    ]
