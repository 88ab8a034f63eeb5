"""A fresh pack at full throttle, and the last minute before the reserve, on the small quad.

The bench takes 15 A a motor at 11.1 V and full throttle; at another voltage the current goes with
its power 1.5 (Cao and Strawson 2018, as the laws of the bench). Pack: 3 · 5 mΩ; a rested LiPo cell
has 4.18 V full and 3.73 V at 20 % (common practice, no source). Leads: 0.11591 V at 60 A in 12 AWG
and 0.04743 · 1.2358 V at 15 A in 16 AWG (check values, section 6): 2.9087 mΩ for the whole current.
"""

import math
from itertools import pairwise
from pathlib import Path

import pytest
from small_hangars import SMALL, benched, flown_daily, found, opened, quad, refused

from buildbook.reporting.registry import reports_of
from buildbook.upkeep.warnings.plausible_parts import doubted_parts
from buildbook.words.measures.figure_values import value_words

LEADS = (0.11591 + 0.04743 * 1.2358) / 60
HOVER_W = 121.62
# Nobody wrote how warm 15 mΩ were read: 20 °C. At the field's 15 °C they are, by the most that the
# cold may take (from memory), exp(35000/8.3145·(1/288.15 - 1/293.15)) = 1.28296 times as much.
COLD_OHM = 0.015 * 1.28296
# At 0 °C exp(35000/8.3145·(1/273.15 - 1/293.15)) = 2.8616 times; of a flight that nobody wrote the
# air of, against the field's 15 °C exp(35000/8.3145·(1/273.15 - 1/288.15)) = 2.2306.
FROZEN_OHM = 0.015 * math.exp(35000 / 8.314462618 * (1 / 273.15 - 1 / 293.15))
FROZEN_TIMES = math.exp(35000 / 8.314462618 * (1 / 273.15 - 1 / 288.15))
# The most that is asked: 4.20 V a cell just charged, the pack at 35 °C (both common practice, no
# source; exp(25000/8.3145·(1/308.15 - 1/293.15)) = 0.60697, from memory), and copper that is still
# as cold as the field's 15 °C: 1 + 0.00393 · (T - 20 °C) of IEC 60028.
WARM_OHM = 0.015 * math.exp(25000 / 8.314462618 * (1 / 308.15 - 1 / 293.15))
COLD_LEADS = LEADS * (1 - 0.00393 * 5) / (1 + 0.00393 * 60)


def held(rested_v: float, ohm: float, air: float = 1.0) -> tuple[float, float]:
    """Voltage and current at which pack and motors agree, by repeating, apart from the answer.

    air: its density, times that of the bench; the current goes with it.
    """
    volts = rested_v
    for _ in range(200):
        amps = 60 * air * (volts / 11.1) ** 1.5
        volts = 0.5 * volts + 0.5 * (rested_v - ohm * amps)
    return volts, 60 * air * (volts / 11.1) ** 1.5


def under(rested_v: float, ohm: float, watts: float) -> float:
    """Voltage under a constant power: U² - U_0·U + P·R = 0."""
    return (rested_v + (rested_v**2 - 4 * ohm * watts) ** 0.5) / 2


def test_peak_current_on_a_fresh_pack(tmp_path: Path) -> None:
    """12.60 V at rest hold 11.85 V: 66.15 A, and the pack's 66 A are passed."""
    figure = found(quad(tmp_path, benched()), "peak_current", "P-1")
    volts, amps = held(3 * 4.20, WARM_OHM + COLD_LEADS)

    assert pytest.approx(amps, rel=1e-4) == figure.value
    assert pytest.approx(volts, rel=1e-4) == figure.other["voltage held, V"]
    assert ("the pack P-1 is the first limit, passed by 0.2 %") == figure.verdict
    assert figure.table is not None
    assert [
        ("pack P-1", "", f"{amps:.1f} A", "66 A"),
        ("motor", "front-left", f"{amps / 4:.1f} A", "18 A"),
    ] == [row[:4] for row in figure.table.rows[:2]]
    assert "default" == figure.basis
    assert (
        "rests on what is assumed: rested voltage when full, at most, resistance when warm, 35 °C"
    ) == figure.notes[0]


def test_peak_current_past_a_limit_and_without_leads(tmp_path: Path) -> None:
    """No wiring is recorded; 15 A of 14 A at a motor at the nominal voltage, more on a full one."""
    files = benched()
    files["parts/specs.yaml"] = files["parts/specs.yaml"].replace("18 A", "14 A")
    craft = files["aircraft/sedge/aircraft.yaml"]
    head, tail = craft.split("wiring:")
    files["aircraft/sedge/aircraft.yaml"] = head + "positions:" + tail.split("positions:")[1]
    figure = found(quad(tmp_path, files), "peak_current", "P-1")
    _, amps = held(3 * 4.20, WARM_OHM)

    assert pytest.approx(amps, rel=1e-4) == figure.value
    assert "the leads are left out: not recorded" in figure.notes
    over = round((amps / 4 / 14 - 1) * 100, 1)
    assert f"the motor is the first limit, passed by {over:g} %" == figure.verdict


def test_sag_in_the_air_and_at_full_throttle(tmp_path: Path) -> None:
    """11.19 V at rest: 121.62 W of the hover leave 10.977 V; full throttle takes more.

    Both count on the pack as cold as the field's 15 °C, and tell what is left at 0 °C.
    """
    answers = quad(tmp_path, benched())
    air = found(answers, "pack_sag", "P-1, in the air")
    full = found(answers, "pack_sag", "P-1, full throttle")
    low, frozen = (under(11.19, ohm, HOVER_W) for ohm in (COLD_OHM, FROZEN_OHM))
    volts, amps = held(11.19, COLD_OHM + LEADS)
    frozen_full = 11.19 - FROZEN_OHM * held(11.19, FROZEN_OHM + LEADS)[1]

    assert pytest.approx(11.19 - low, rel=1e-3) == air.value
    assert f"{low:.2f} V left under load at the reserve; at 0 °C {frozen:.2f} V" == air.verdict
    assert pytest.approx(COLD_OHM * amps, rel=1e-4) == full.value
    assert volts < full.other["at its plug, V"] < low
    left = f"{11.19 - COLD_OHM * amps:.2f} V left at the reserve"
    said = f"at 0 °C {frozen_full:.2f} V, under its cut-off of 9.90 V"
    assert f"{left}; no 'lowest' was read in flight; {said}" == full.verdict


@pytest.mark.parametrize(
    ("lowest", "said"),
    [
        ("10.6 V", "the lowest read in flight was 10.60 V"),
        ("10.1 V", "10.10 V was read: flown past the reserve, or more resistance than recorded"),
    ],
)
def test_sag_against_the_lowest_of_the_log(tmp_path: Path, lowest: str, said: str) -> None:
    """Two flights; the lower reading counts."""
    flights = flown_daily("volts: {lowest: 10.9 V}", f"volts: {{lowest: {lowest}}}")
    figure = found(quad(tmp_path, benched(flights)), "pack_sag", "P-1, full throttle")

    assert figure.verdict is not None
    assert said == figure.verdict.split("; ")[1]


def read_in_flight(*volts: tuple[str, str]) -> str:
    """A flight a day with these lowest voltages and those after it."""
    return flown_daily(
        *(f"volts: {{lowest: {lowest} V, after: {after} V}}" for lowest, after in volts)
    )


@pytest.mark.parametrize(
    ("volts", "sag", "left", "said"),
    [
        ((("10.9", "11.3"),), 0.4, "10.79", "on one flight"),
        ((("10.9", "11.2"), ("10.9", "11.4")), 0.5, "10.69", "the greatest of 2 flights"),
        (
            (("10.9", "11.2"), ("10.9", "11.9"), ("10.9", "11.3")),
            0.4,
            "10.79",
            "the median of 3 flights",
        ),
    ],
)
def test_sag_in_the_air_is_that_of_the_log_where_it_is_more(
    tmp_path: Path, volts: tuple[tuple[str, str], ...], sag: float, left: str, said: str
) -> None:
    """11.19 V at rest less the sag of the log; by 19.2 mΩ only 0.21 V."""
    figure = found(quad(tmp_path, benched(read_in_flight(*volts))), "pack_sag", "P-1, in the air")
    by_ohm = 11.19 - under(11.19, COLD_OHM, HOVER_W)

    assert pytest.approx(sag) == figure.value
    assert (
        f"{left} V left under load at the reserve; as the log shows, {said}; "
        f"{by_ohm:.2f} V by its resistance; at 0 °C {11.19 - FROZEN_TIMES * sag:.2f} V"
    ) == figure.verdict
    assert "measured" == figure.basis


@pytest.mark.parametrize(
    ("flights", "sag", "said"),
    [
        ((("11.1", 25),), 0.2 * 1.63234, "on one flight, brought to the colder air of the field"),
        ((("11.1", 15), ("11.0", 15), ("10.9", 25)), 0.3, "the median of 3 flights"),
        ((("11.0", 5),), 0.3, "on one flight, flown under 10 °C"),
    ],
)
def test_a_sag_in_warm_air_is_brought_to_that_of_the_field(
    tmp_path: Path, flights: tuple[tuple[str, int], ...], sag: float, said: str
) -> None:
    """11.3 V after each; from 25 to 15 °C exp(35000/8.3145·(1/288.15 - 1/298.15)) = 1.63234."""
    log = flown_daily(
        *(
            f"volts: {{lowest: {lowest} V, after: 11.3 V}}, temperature: {warm} °C"
            for lowest, warm in flights
        )
    )
    figure = found(quad(tmp_path, benched(log)), "pack_sag", "P-1, in the air")

    assert pytest.approx(sag, rel=1e-4) == figure.value
    assert f"as the log shows, {said}; " in (figure.verdict or "")
    assert ("default" if "brought" in said else "measured") == figure.basis


def flown_with(ohm: float, amps: float, flights: int = 3) -> str:
    """Simulated flights of six minutes at a current, on a pack of that resistance."""
    said = (
        f"used: {amps * 100:.0f} mAh, volts: {{lowest: {11.5 - ohm * amps:.3f} V, after: 11.5 V}}"
    )
    return flown_daily(*(said for _ in range(flights)))


@pytest.mark.parametrize("ohm", [0.030, 0.040])
def test_full_throttle_counts_on_the_resistance_that_the_log_tells(
    tmp_path: Path, ohm: float
) -> None:
    """A pack simulated with 30 or 40 mΩ whose sheet says 15: flown at 11 A it sags 0.33 or 0.44 V.

    Ohm's law; sag, thrust, payload and throttle at the reserve are no better than that pack is.
    """
    answers = quad(tmp_path, benched(flown_with(ohm, 11.0)))
    sag = found(answers, "pack_sag", "P-1, full throttle")
    over, load = found(answers, "thrust_to_weight"), found(answers, "payload", "P-1")
    throttle = found(answers, "throttle_at_end", "P-1")
    volts, amps = held(11.19, ohm + LEADS)

    assert pytest.approx(ohm * amps, rel=1e-3) == sag.value
    given = next(one for one in sag.inputs if "by the sag in the log" in one.name)
    assert ("measured", pytest.approx(ohm, rel=1e-3)) == (given.basis, given.value)
    assert "at most: bursts took more than the flight on average" in sag.notes
    assert (f"by the sag in the log, the median of 3 flights: {1000 * ohm:.0f} mΩ, not 19") in (
        sag.verdict or ""
    )
    ratio = 4 * 8.4 * (volts / 11.1) ** 1.65 / (1.2 * 9.80665)
    assert pytest.approx(ratio, rel=1e-3) == over.other["at the reserve"]
    assert (
        "at the reserve it rests on what is assumed: rested voltage at 20 % of its charge"
    ) in over.notes
    assert f"{11.19 - ohm * amps:.2f} V left by the sag in the log" in (over.verdict or "")
    spare = 33.6 * (volts / 11.1) ** 1.65 / (2 * 9.80665) - 1.2
    assert pytest.approx(spare, rel=1e-3, abs=1e-4) == load.other["at the reserve, kg"]
    at_end = 0.44927 * 11.1 / under(11.19, ohm, HOVER_W)
    assert pytest.approx(at_end, rel=1e-3) == throttle.value


def test_a_cold_day_counts_at_the_reserve(tmp_path: Path) -> None:
    """At 0 °C a simulated pack of 30 mΩ has 2.2306 times that, and leaves less of everything.

    By the law of the timer: exp(35000/8.3145·(1/273.15 - 1/288.15)); the field has 15 °C.
    """
    answers = quad(tmp_path, benched(flown_with(0.030, 11.0)))
    frozen = 0.030 * FROZEN_TIMES
    air = found(answers, "pack_sag", "P-1, in the air")
    throttle = found(answers, "throttle_at_end", "P-1")

    assert pytest.approx(11.19 - frozen * 11.0, rel=1e-3) == air.other["left at 0 °C, V"]
    at_end = 0.44927 * 11.1 / under(11.19, frozen, HOVER_W)
    assert pytest.approx(at_end, rel=1e-3) == throttle.other["share at 0 °C"]
    warm = found(quad(tmp_path / "warm", benched()), "thrust_to_weight")
    volts, _ = held(11.19, FROZEN_OHM + LEADS)
    ratio = 4 * 8.4 * (volts / 11.1) ** 1.65 / (1.2 * 9.80665)
    assert pytest.approx(ratio, rel=1e-3) == warm.other["at the reserve at 0 °C"]


def test_full_throttle_sags_no_less_than_was_flown(tmp_path: Path) -> None:
    """1.5 V in the log, at 10.957 A of the hover 137 mΩ: so much the bench table cannot tell.

    It ends at 0.75 of its 11.1 V; the leads take 2.9 mΩ times the current there.
    """
    answers = quad(tmp_path, benched(read_in_flight(("9.95", "11.45"))))
    figure = found(answers, "pack_sag", "P-1, full throttle")
    ends = 0.75 * 11.1 + LEADS * 60 * 0.75**1.5
    over, load = found(answers, "thrust_to_weight"), found(answers, "payload", "P-1")

    assert figure.value is None  # more than the end of the table tells is lost
    assert pytest.approx(11.19 - ends, rel=1e-3) == figure.low
    assert (
        f"under {ends:.2f} V left at the reserve, how far under is not known; under its cut-off "
        "of 9.90 V; the lowest read in flight was 9.95 V"
    ) in (figure.verdict or "")
    most = 4 * 8.4 * 0.75**1.65 / (1.2 * 9.80665)
    assert (
        f"under {most:.3g} at the reserve, under {ends:.2f} V left by the sag in the log, "
        "how far under is not known"
    ) in (over.verdict or "")
    assert "at the reserve" not in over.other
    spare = 33.6 * 0.75**1.65 / (2 * 9.80665) - 1.2
    assert spare < 0
    assert (load.value or 0.0) <= spare + 1e-4


def test_a_payload_that_nobody_knows_has_no_number(tmp_path: Path) -> None:
    """As above, 1.5 times the weight wanted: the end of the bench table would promise too much."""
    files = benched(read_in_flight(("9.95", "11.45")))
    craft = files["aircraft/sedge/aircraft.yaml"]
    files["aircraft/sedge/aircraft.yaml"] = craft.replace(
        "{max_mass: 1300 g}", "{thrust_to_weight: 1.5}"
    )
    load = found(quad(tmp_path, files), "payload", "P-1")
    ends = 0.75 * 11.1 + LEADS * 60 * 0.75**1.5
    most = 1000 * (33.6 * 0.75**1.65 / (1.5 * 9.80665) - 1.2)

    assert most > 200
    assert load.value is None
    assert (
        f"under {most:.0f} g at the reserve, to a thrust to weight of 1.5, under {ends:.2f} V left "
        "by the sag in the log, how far under is not known"
    ) in (load.verdict or "")
    assert "with it" not in (load.verdict or "")


def test_sag_by_resistance_stands_where_the_log_shows_less(tmp_path: Path) -> None:
    """0.1 V in the log beside 0.21 V."""
    answers = quad(tmp_path, benched(read_in_flight(("11.0", "11.1"))))
    figure = found(answers, "pack_sag", "P-1, in the air")

    assert pytest.approx(11.19 - under(11.19, COLD_OHM, HOVER_W), rel=1e-3) == figure.value
    assert (
        "10.98 V left under load at the reserve; "
        f"at 0 °C {under(11.19, FROZEN_OHM, HOVER_W):.2f} V; the log shows 0.10 V, on one flight"
    ) == figure.verdict


def test_a_sag_under_the_cut_off_is_said(tmp_path: Path) -> None:
    """11.19 V less 1.5 V are 9.69 V, and 3 cells of 3.3 V 9.90 V."""
    answers = quad(tmp_path, benched(read_in_flight(("9.95", "11.45"))))
    verdict = found(answers, "pack_sag", "P-1, in the air").verdict or ""

    assert "under its cut-off of 9.90 V" == verdict.split("; ")[1]


def test_full_throttle_takes_the_resistance_of_a_colder_field(tmp_path: Path) -> None:
    """21 mΩ read at 25 °C; at the field's 15 °C exp(35000/8.3145·(1/288.15 - 1/298.15)) = 1.632.

    Then less is left than 3 cells of 3.3 V. Read at 15 °C, or colder, it is taken as it is.
    """

    def full(celsius: int) -> tuple[float, str]:
        charge = (
            "- {on: 2026-03-01, charge: P-1, resistance: [7 mΩ, 7 mΩ, 7 mΩ], "
            f"temperature: {celsius} °C}}\n"
        )
        answers = quad(tmp_path / str(celsius), benched(charge))
        figure = found(answers, "pack_sag", "P-1, full throttle")
        return figure.value or 0.0, figure.verdict or ""

    _, warm_a = held(11.19, 0.021 * 1.63234 + LEADS)
    _, cold_a = held(11.19, 0.021 + LEADS)
    assert pytest.approx(0.021 * 1.63234 * warm_a, rel=1e-4) == full(25)[0]
    assert "under its cut-off of 9.90 V" == full(25)[1].split("; ")[1]
    assert pytest.approx((0.021 * cold_a,) * 2, rel=1e-4) == (full(15)[0], full(8)[0])
    assert not full(15)[1].split("; ")[1].startswith("under")


def test_a_colder_field_never_leaves_more(tmp_path: Path) -> None:
    """24 mΩ read at 20 °C, the field at 15, 8, 7 or 5 °C: trends stop comparing at 12 °C apart.

    7 °C: exp(35000/8.3145·(1/280.15 - 1/293.15)) = 1.9471; 5 °C: (1/278.15 - 1/293.15) 2.1693.
    """
    charge = "- {on: 2026-03-01, charge: P-1, resistance: [8 mΩ, 8 mΩ, 8 mΩ], temperature: 20 °C}\n"

    def told(celsius: int) -> tuple[float, float, float]:
        files = benched(charge)
        keeper = files["hangar.yaml"]
        files["hangar.yaml"] = keeper.replace("temperature: 15 °C", f"temperature: {celsius} °C")
        answers = quad(tmp_path / str(celsius), files)
        sag = found(answers, "pack_sag", "P-1, full throttle")
        ohm = next(one for one in sag.inputs if one.name.startswith("resistance of P-1"))
        assert f"resistance of P-1 at the field's {celsius} °C" == ohm.name
        assert (
            "against 20 °C; E_a 35 kJ/mol, the most of small lithium cells, from memory"
        ) == ohm.note
        payload = found(answers, "payload", "P-1").other["at the reserve, kg"]
        return float(ohm.value), sag.value or 0.0, payload

    each = [told(celsius) for celsius in (15, 8, 7, 5)]
    expected = [0.024 * 1.28296, 0.024 * 1.84577, 0.024 * 1.94710, 0.024 * 2.16925]
    assert pytest.approx(expected, rel=1e-3) == [ohm for ohm, _, _ in each]
    for (_, sag, load), (_, colder_sag, colder_load) in pairwise(each):
        assert colder_sag > sag
        assert colder_load < load


def test_too_little_for_the_bench_is_said_and_not_left_out(tmp_path: Path) -> None:
    """48 mΩ read at 20 °C are 184 at -5: full throttle then takes the pack below the bench table.

    That ends at 0.75 of 11.1 V. 12 mΩ are 46, and leave more: by hand as above, in denser air.
    """

    def at_five_below(milliohm: int) -> tuple[str, str]:
        charge = (
            f"- {{on: 2026-03-01, charge: P-1, resistance: [{milliohm} mΩ, {milliohm} mΩ, "
            f"{milliohm} mΩ], temperature: 20 °C}}\n"
        )
        files = benched(charge)
        keeper = files["hangar.yaml"]
        files["hangar.yaml"] = keeper.replace("temperature: 15 °C", "temperature: -5 °C")
        answers = quad(tmp_path / str(milliohm), files)
        told = (found(answers, "thrust_to_weight"), found(answers, "payload", "P-1"))
        return told[0].verdict or "", told[1].verdict or ""

    times = math.exp(35000 / 8.314462618 * (1 / 268.15 - 1 / 293.15))
    air = 288.15 / 268.15
    _, amps = held(11.19, 0.012 * times + LEADS, air)
    ends = 0.75 * 11.1 + LEADS * 60 * air * 0.75**1.5
    for verdict in at_five_below(16):
        assert f"under {ends:.2f} V left, how far under is not known" in verdict
    for verdict in at_five_below(4):
        assert f"{11.19 - 0.012 * times * amps:.2f} V left" in verdict
        assert "how far under" not in verdict


def test_throttle_of_a_hover_at_the_reserve(tmp_path: Path) -> None:
    """0.44927 at 11.1 V (the bench by hand): throttle times voltage stays the same."""
    figure = found(quad(tmp_path, benched()), "throttle_at_end", "P-1")
    fresh = 0.44927 * 11.1 / under(12.54, 0.015, HOVER_W)
    cold, frozen = (0.44927 * 11.1 / under(11.19, ohm, HOVER_W) for ohm in (COLD_OHM, FROZEN_OHM))

    assert pytest.approx(cold, rel=1e-3) == figure.value
    assert pytest.approx(fresh, rel=1e-3) == figure.other["share on a fresh pack"]
    assert f"{100 * fresh:.1f} % on a fresh pack; at 0 °C {100 * frozen:.1f} %" == figure.verdict


def test_throttle_at_the_reserve_is_that_of_the_sag_in_the_log(tmp_path: Path) -> None:
    """0.4 V at the 10.957 A of the hover are 36.5 mΩ; 0.1 V are 9.1, less than 19.2."""
    sagging = quad(tmp_path / "more", benched(read_in_flight(("10.9", "11.3"))))
    steady = quad(tmp_path / "less", benched(read_in_flight(("11.0", "11.1"))))
    figure = found(sagging, "throttle_at_end", "P-1")
    ohm = 0.4 * 11.1 / HOVER_W
    told = (
        (12.54, 0.015),
        (11.19, COLD_OHM),
        (11.19, ohm),
        (11.19, ohm * FROZEN_TIMES),
    )
    fresh, by_ohm, by_log, frozen = (0.44927 * 11.1 / under(*one, HOVER_W) for one in told)

    assert pytest.approx(by_log, rel=1e-3) == figure.value
    assert (
        f"{100 * fresh:.1f} % on a fresh pack; by the sag in the log, on one flight; "
        f"{100 * by_ohm:.1f} % by its resistance; at 0 °C {100 * frozen:.1f} %"
    ) == figure.verdict
    assert pytest.approx(by_ohm, rel=1e-3) == found(steady, "throttle_at_end", "P-1").value


def test_without_bench_or_constants_no_throttle_and_no_peak(tmp_path: Path) -> None:
    """Momentum theory alone tells neither."""
    answers = quad(tmp_path, SMALL)

    for name in ("throttle_at_end", "peak_current"):
        assert "kv of motor is not recorded: write 'kv' in its spec" in refused(answers, name)[0]


def test_plugs_sensors_and_wires(tmp_path: Path) -> None:
    """60 A of 80 A at the plug, of 75 A at the sensor; 10.957 A on 3.3088 mm², 15 A/mm² usual.

    On a full pack 66.15 A: 33 % more than usual. 226² · ln(314.5/254.5) · (3.3088/66.15)² = 27 s
    from 20 to 80 °C (IEC 60949, from memory).
    """
    files = benched("- {on: 2026-02-02, fit: {centre: {current_sensor: S-1}}}\n")
    craft = files["aircraft/sedge/aircraft.yaml"]
    files["aircraft/sedge/aircraft.yaml"] = craft.replace(
        "length: 150 mm", "length: 150 mm, plug: bullet 4 mm, plug_max_current: 80 A"
    )
    files["parts/specs.yaml"] += (
        "- {spec: s, kind: current_sensor, mass: 0.01 g, max_current: 75 A}\n"
    )
    files["parts/items.yaml"] += "- {tag: S-1, spec: s, acquired: 2026-01-01}\n"
    answers = quad(tmp_path, files)

    plug = found(answers, "plug_margin", "pack to distribution")
    sensor = found(answers, "sensor_margin", "S-1")
    wire = found(answers, "wire_margin", "pack to distribution, hover")
    full = found(answers, "wire_margin", "pack to distribution, full throttle")
    assert pytest.approx(0.25, abs=1e-5) == plug.value
    assert pytest.approx(0.20, abs=1e-5) == sensor.value
    copper = 1 - (4 * (22.2 + 33.3 * (2.941995 - 2.4) / 2.2) / 11.1) / (15 * 3.3088)
    assert pytest.approx(copper, rel=1e-3) == wire.value
    assert wire.verdict is None
    _, peak = held(3 * 4.20, WARM_OHM + COLD_LEADS)
    assert pytest.approx(1 - peak / (15 * 3.3088), rel=1e-3) == full.value
    heated = 226**2 * math.log(314.5 / 254.5) * (3.3088 / peak) ** 2
    assert {"20 °C to 80 °C uncooled, s": pytest.approx(heated, rel=1e-3)} == full.other
    assert (
        f"{peak / 15:.1f} mm² of copper would carry it, such as 10 AWG; 27 s of it take the copper "
        "from 20 °C to 80 °C if nothing cools it"
    ) == full.verdict
    assert f"{peak / (15 * 3.3088):.1f} times what is usual" == value_words(full, full.value or 0.0)
    assert "at full throttle, standing still, with P-1 full" in full.notes
    assert (
        "against 15 A/mm², the most that many builders put on short leads: common practice, no "
        "source; the rating of your wire takes precedence"
    ) in wire.notes


def test_thrust_to_weight_says_its_voltage_and_that_at_the_reserve(tmp_path: Path) -> None:
    """33.6 N at 11.1 V over 1.2 kg are 2.855; thrust goes with the voltage to the power 1.65.

    That power: Cao and Strawson 2018, as the laws of the bench. At the reserve 11.19 V at rest
    leave what 19.2 mΩ take at the plug; the motors have less by what the leads take.
    """
    figure = found(quad(tmp_path, benched()), "thrust_to_weight")
    volts, amps = held(11.19, COLD_OHM + LEADS)
    plug = 11.19 - COLD_OHM * amps
    left = 4 * 8.4 * (volts / 11.1) ** 1.65 / (1.2 * 9.80665)

    assert pytest.approx(4 * 8.4 / (1.2 * 9.80665), rel=1e-4) == figure.value
    assert "at 11.10 V, the nominal voltage of P-1" in figure.notes
    assert pytest.approx(plug, rel=1e-4) == figure.other["held at the reserve, V"]
    assert pytest.approx(volts, rel=1e-4) == figure.other["at the motors then, V"]
    assert pytest.approx(left, rel=1e-3) == figure.other["at the reserve"]
    frozen = 4 * 8.4 * (held(11.19, FROZEN_OHM + LEADS)[0] / 11.1) ** 1.65 / (1.2 * 9.80665)
    said = f"{left:.3g} at the reserve, {plug:.2f} V left; at 0 °C {frozen:.3g}"
    assert f"with P-1; {said}" == figure.verdict


def test_thrust_to_weight_is_that_of_the_pack_that_holds_least(tmp_path: Path) -> None:
    """P-1 was flown last; P-2, as heavy, reads 24 mΩ at the field's 15 °C, P-1 15."""
    read = "".join(
        f"- {{on: 2026-03-01, charge: P-{number}, resistance: [{ohm} mΩ, {ohm} mΩ, {ohm} mΩ], "
        "temperature: 15 °C}\n"
        for number, ohm in ((1, 5), (2, 8))
    )
    flights = (
        "- {on: 2026-03-02, flight: 300 s, pack: P-2}\n"
        "- {on: 2026-03-03, flight: 300 s, pack: P-1}\n"
    )
    files = benched(read + flights)
    files["parts/items.yaml"] += "- {tag: P-2, spec: pack, acquired: 2026-01-01}\n"
    figure = found(quad(tmp_path, files), "thrust_to_weight")
    volts, amps = held(11.19, 0.024 + LEADS)

    assert figure.verdict is not None
    assert figure.verdict.startswith("with P-2; ")
    assert f"{11.19 - 0.024 * amps:.2f} V left" in figure.verdict
    assert pytest.approx(volts, rel=1e-4) == figure.other["at the motors then, V"]


# Read at 25 °C where the field has 15: exp(35000/8.3145·(1/288.15 - 1/298.15)) = 1.63234.
WARM_READ = "- {on: 2026-03-01, charge: P-1, resistance: [7 mΩ, 7 mΩ, 7 mΩ], temperature: 25 °C}\n"


@pytest.mark.parametrize(
    ("log", "plug", "motors"),
    [
        (
            "",
            *(
                11.19 - COLD_OHM * held(11.19, COLD_OHM + LEADS)[1],
                held(11.19, COLD_OHM + LEADS)[0],
            ),
        ),
        (
            WARM_READ,
            11.19 - 0.021 * 1.63234 * held(11.19, 0.021 * 1.63234 + LEADS)[1],
            held(11.19, 0.021 * 1.63234 + LEADS)[0],
        ),
        (
            flown_with(0.030, 11.0),
            11.19 - 0.030 * held(11.19, 0.030 + LEADS)[1],
            held(11.19, 0.030 + LEADS)[0],
        ),
    ],
)
def test_the_voltage_left_at_the_reserve_is_one(
    tmp_path: Path, log: str, plug: float, motors: float
) -> None:
    """By the resistance, that of a colder field, or 30 mΩ by the log: all take the same."""
    answers = quad(tmp_path, benched(log))
    sag = found(answers, "pack_sag", "P-1, full throttle")
    over = found(answers, "thrust_to_weight")
    load = found(answers, "payload", "P-1")

    told = sag.other.get("at its plug, V", sag.other.get("under load, V"))
    beside = [one.other["held at the reserve, V"] for one in (over, load)]
    assert pytest.approx([plug] * 3, rel=1e-4) == [told, *beside]
    then = [one.other["at the motors then, V"] for one in (over, load)]
    assert pytest.approx([motors] * 2, rel=1e-4) == then
    ratio = 4 * 8.4 * (motors / 11.1) ** 1.65 / (1.2 * 9.80665)
    assert pytest.approx(ratio, rel=1e-3) == over.other["at the reserve"]
    for figure in (sag, over, load):
        assert f"{plug:.2f} V left" in (figure.verdict or "")


def thin(wire: str) -> dict[str, str]:
    """The small quad with another wire from the pack."""
    files = benched("- {on: 2026-03-01, flight: 300 s, pack: P-1, used: 750 mAh}\n")
    craft = files["aircraft/sedge/aircraft.yaml"].replace("wire: 12 AWG", f"wire: {wire}")
    return {**files, "aircraft/sedge/aircraft.yaml": craft}


def test_a_wire_that_is_too_thin_hides_no_rating(tmp_path: Path) -> None:
    """30 AWG would lose 7.6 V of 11.1 V (0.05067 mm², 300 mm there and back, hot): it is left out.

    12.60 V then meet 9.1 mΩ of the pack alone.
    """
    answers = quad(tmp_path, thin("30 AWG"))
    peak, margin = found(answers, "peak_current", "P-1"), found(answers, "battery_margin", "P-1")
    _, amps = held(3 * 4.20, WARM_OHM)

    assert pytest.approx(amps, rel=1e-4) == peak.value
    assert (
        "the leads are left out: so thin, they would lose more than 10 % of the voltage"
    ) in peak.notes
    assert pytest.approx(1 - amps / 66, abs=1e-4) == margin.other["share left with a full pack"]


@pytest.mark.parametrize(
    ("wire", "told"),
    [
        # 20 AWG is 0.5176 mm²: 66 A are 128 A/mm², and in a hover 11 A are 21, at most 15 usual
        (
            "20 AWG",
            "the 20 AWG from pack to distribution of sedge carries 120 A/mm² at full throttle, "
            "where 15 are usual at most",
        ),
        ("12 AWG", None),
    ],
)
def test_a_wire_that_is_too_thin_is_told(tmp_path: Path, wire: str, told: str | None) -> None:
    """By ``check`` and on the front page of its aircraft; one that is a third over is not."""
    hangar = opened(tmp_path, thin(wire))
    shown = [one.name for one in reports_of(hangar).headlines("sedge").shown]

    assert ([] if told is None else [told]) == [
        one.reason for one in doubted_parts(hangar, frozenset()) if "AWG" in one.reason
    ]
    assert (told is not None) == ("wire_margin" in shown)
