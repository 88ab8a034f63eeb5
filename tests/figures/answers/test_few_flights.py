"""One to three flights with a charge: no time to plan with is above what they drew.

The small quad has a pack of 2.2 Ah, 20 % of it is kept: 1.76 Ah. It takes about 10.7 A in a hover
by theory. 15 % is how far a power in the air may be off: common practice, no source.
"""

from pathlib import Path

import pytest
from small_hangars import KEEPER, LOG, SMALL, benched, found, opened, quad, refused
from test_log_and_packs import flights
from test_time_in_the_cold import seconds

from buildbook.upkeep.warnings.plausible import doubts

HARD = (  # 20 A, 333 mAh a minute, and 18 A
    "- {on: 2026-04-10, flight: 180 s, pack: P-1, used: 1000 mAh}\n",
    "- {on: 2026-04-11, flight: 240 s, pack: P-1, used: 1200 mAh}\n",
    "- {on: 2026-04-12, flight: 240 s, pack: P-1, used: 1200 mAh}\n",
)
EASY = "- {on: 2026-04-10, flight: 240 s, pack: P-1, used: 200 mAh}\n"  # 3 A


def flown(*log: str) -> dict[str, str]:
    """The small quad with these flights, at a field no colder than its pack was read."""
    return {
        **SMALL,
        "hangar.yaml": KEEPER.replace("15 °C", "20 °C"),
        "aircraft/sedge/logbook.yaml": LOG + "".join(log),
    }


@pytest.mark.parametrize(
    ("count", "high_a", "words"),
    [
        (1, 20.0, "by the draw of 1 flight so far, 333 mAh a minute"),
        (3, 18.0, "by the highest draw of 3 flights so far, 333 mAh a minute"),
    ],
)
def test_the_highest_draw_of_few_flights_shortens_the_theory(
    tmp_path: Path, count: int, high_a: float, words: str
) -> None:
    """1.76 Ah at 20 A are 316.8 s; low at 15 % more current, 275.5 s, high at 15 % less."""
    hangar = quad(tmp_path, flown(*HARD[:count]))
    time, timer = (found(hangar, name, "P-1") for name in ("flight_time", "timer_setting"))

    assert pytest.approx(316.8) == time.value
    assert pytest.approx(275.478, rel=1e-5) == time.low
    assert pytest.approx(1.76 / (high_a * 0.85) * 3600) == time.high
    assert f"plan with 4 min 35 s; {words}" == time.verdict
    assert time.low == timer.value
    assert (timer.verdict or "").endswith(f"; {words}")
    assert "rests on what is assumed: spread of the power" in time.notes


def test_a_theory_that_is_shorter_than_the_log_is_planned_with(tmp_path: Path) -> None:
    """An easy flight of 3 A lengthens nothing."""
    before = found(quad(tmp_path / "none", flown()), "flight_time", "P-1")
    after = found(quad(tmp_path / "one", flown(EASY)), "flight_time", "P-1")

    assert (before.value, before.low) == (after.value, after.low)
    assert (after.verdict or "").endswith("; 1 flight so far")


def test_a_flight_without_its_charge_tells_no_draw(tmp_path: Path) -> None:
    """The time of theory stays."""
    bare = "- {on: 2026-04-10, flight: 180 s, pack: P-1}\n"
    time = found(quad(tmp_path, flown(bare)), "flight_time", "P-1")

    assert "constant_power_discharge" == time.law
    assert (time.verdict or "").endswith("; not yet flown")


def test_few_flights_make_no_time_of_the_log_alone(tmp_path: Path) -> None:
    """Of a rate, and of a time as flown, it still takes four."""
    hangar = quad(tmp_path, flown(*HARD))

    for name in ("flown_current", "flown_time"):
        assert (
            "flights with their charge so far: 3; it takes 4: write what each took, as 'used'"
            == refused(hangar, name)[0]
        )


def test_two_hard_flights_since_the_mass_changed_shorten_a_long_log(tmp_path: Path) -> None:
    """Ten easy flights are of a lighter aircraft: the two since then are at 18 A, 300 a minute.

    A rate of all twelve sets these two aside. 1.76 Ah at 18 A and 15 % more: 306.1 s.
    """
    easy = (EASY.replace("04-10", f"03-{day}") for day in range(11, 21))
    heavier = "- {on: 2026-04-09, alteration: lamp, mass: 60 g, at: [0 mm, 0 mm, 0 mm]}\n"
    time = found(quad(tmp_path, flown(*easy, heavier, *HARD[1:])), "flight_time", "P-1")

    assert pytest.approx(306.087, rel=1e-5) == time.low
    assert (
        "plan with 5 min 06 s; by the highest draw of 2 flights since motor, propeller or mass "
        "changed, 300 mAh a minute"
    ) == time.verdict


def test_cold_follows_the_draw_of_few_flights(tmp_path: Path) -> None:
    """At 20 A and 15 % more, of 11.1 V, 255.3 W. At 0 °C a tenth less of the capacity.

    And exp(4209.5 · (1/273.15 - 1/293.15)) = 2.862 times its 15 mΩ, as in the tests of the cold.
    """
    timer = found(quad(tmp_path, flown(*HARD[:1])), "timer_setting", "P-1")
    share = seconds(0.015 * 2.862, 255.3, 0.9) / seconds(0.015, 255.3, 1.0)

    assert pytest.approx(275.478 * share, rel=2e-3) == timer.other["at 0 °C, s"]


def test_payload_follows_the_draw_of_few_flights(tmp_path: Path) -> None:
    """At 1300 of 1200 g the time is (1.2/1.3) to the power 1.5 of it, 0.8869."""
    files = {**benched(HARD[0]), "hangar.yaml": flown()["hangar.yaml"]}
    payload = found(quad(tmp_path, files), "payload", "P-1")

    assert pytest.approx(275.478, rel=1e-5) == payload.other["plan without it, s"]
    assert pytest.approx(275.478 * 0.8869, rel=1e-4) == payload.other["plan with it, s"]
    assert (payload.verdict or "").endswith(
        "plan with 4 min 04 s with it, 4 min 35 s without, as flown"
    )


def test_a_timer_that_no_flight_tells_of_is_marked(tmp_path: Path) -> None:
    """Once one wrote its charge, it is not, whichever of log and theory is shorter."""
    behind = "flights with a charge behind it"
    none, easy, hard = (
        found(quad(tmp_path / name, flown(*log)), "timer_setting", "P-1").other
        for name, log in (("none", ()), ("easy", (EASY,)), ("hard", HARD))
    )

    assert none[behind] == 0
    assert behind not in easy
    assert behind not in hard


def test_the_alarm_of_easy_flights_is_not_that_of_the_theory(tmp_path: Path) -> None:
    """33.3 W on 15 mΩ leave 11.145 V of 11.19 V: by the 10.7 A of theory it would sound later."""
    theory = found(quad(tmp_path / "none", flown()), "alarm_voltage", "P-1")
    easy = found(quad(tmp_path / "easy", flown(EASY)), "alarm_voltage", "P-1")
    hard = found(quad(tmp_path / "hard", flown(*HARD)), "alarm_voltage", "P-1")

    assert pytest.approx((11.19 + (11.19**2 - 4 * 0.015 * 33.3) ** 0.5) / 2) == easy.value
    assert (easy.value or 0.0) > (theory.value or 0.0) == hard.value


def test_the_predicted_time_does_not_grow_in_the_cold(tmp_path: Path) -> None:
    """Colder air is denser and a hover takes less in it; the pack loses more than that."""
    times = {}
    for celsius in ("20", "5", "-5"):
        files = flown(*HARD, HARD[0].replace("04-10", "04-13"))
        files["hangar.yaml"] = files["hangar.yaml"].replace("20 °C", f"{celsius} °C")
        time = found(quad(tmp_path / celsius, files), "flown_time", "P-1")
        times[celsius] = time.other["predicted, s"]

    assert times["20"] > times["5"] > times["-5"]


def test_a_log_that_draws_too_little_for_a_hover_lengthens_nothing(tmp_path: Path) -> None:
    """Twelve flights, each of them written as 4 A: 1584 s, where theory has some 590 s."""
    theory = found(quad(tmp_path / "none", flown()), "flight_time", "P-1")
    slips = found(quad(tmp_path / "4", flown(flights(12, 4.0))), "flight_time", "P-1")
    right = found(quad(tmp_path / "9", flown(flights(12))), "flight_time", "P-1")

    assert (theory.value, theory.low) == (slips.value, slips.low)
    assert "the log draws over a third less than a hover takes: is 'used' right?" in slips.notes
    assert pytest.approx(1.76 / 9 * 3600, rel=2e-3) == right.value


@pytest.mark.parametrize(
    ("used", "told"),
    [
        ("75 mAh", "took 75 mAh, where sedge usually takes 750 mAh"),
        ("375 mAh", "took 375 mAh, where sedge usually takes 750 mAh"),
        ("2000 mAh", "took 2000 mAh, where sedge usually takes 750 mAh"),
        ("600 mAh", ""),
        ("375 mAh, sure: true", ""),
    ],
)
def test_a_draw_far_from_the_usual_is_doubted(tmp_path: Path, used: str, told: str) -> None:
    """A tenth, and a half; twelve flights at 9 A before it."""
    odd = f"- {{on: 2026-04-20, flight: 300 s, pack: P-1, used: {used}}}\n"
    hangar = opened(tmp_path, flown(flights(12), odd))
    sure = frozenset(one.uid for one in hangar.ledger.entries if one.sure)

    assert ([f"a flight of 5 min 00 s {told}"] if told else []) == [
        one.reason for one in doubts(hangar, sure) if "usually" in one.reason
    ]


@pytest.mark.parametrize(
    ("after", "held_ah"),
    [("", 1.91), ("- {on: 2026-03-12, capacity: P-1, measured: 2240 mAh}\n", 2.24)],
)
def test_a_capacity_that_grew_is_not_believed_until_it_is_read_again(
    tmp_path: Path, after: str, held_ah: float
) -> None:
    """2250 mAh after 1910: the time goes by 1910 until a second reading bears it out."""
    read = "".join(
        f"- {{on: 2026-03-1{day}, capacity: P-1, measured: {mah} mAh}}\n"
        for day, mah in ((0, 1910), (1, 2250))
    )
    log = flights(12).replace("2026-03", "2026-05")
    time = found(quad(tmp_path, flown(read, after, log)), "flight_time", "P-1")

    assert pytest.approx(held_ah * 0.8 / 9 * 3600, rel=2e-3) == time.value
