"""What is told beside an answer, where it is read: small margins, alarms that went unheard."""

import datetime
from pathlib import Path

import pytest
from small_hangars import (
    ITEMS,
    LITTLE,
    SMALL,
    SPECS,
    benched,
    flown_daily,
    found,
    logged,
    opened,
    quad,
    refused,
)
from test_changes import MASS
from test_ends_of_pack import read_in_flight
from test_log_and_packs import flights

from buildbook.figures.answers.registry import figures_of_item
from buildbook.reporting.registry import reports_of

GAINS = "- {{on: {day}, gains: {name}, values: {{roll: {{p: {p}}}}}}}\n"


def test_a_root_is_named_through_a_chain(tmp_path: Path) -> None:
    """The drop of a run rests on the hover current, which rests on a field that nobody wrote."""
    files = {**benched(), "hangar.yaml": "format: 1\nhangar: Shed\nreserve: 20 %\n"}
    figure = found(quad(tmp_path, files), "wire_drop", "all runs, hover")

    assert (
        "rests on what is assumed: field elevation, field temperature, hot copper"
    ) == figure.notes[0]


def test_the_weakest_of_several_is_named_though_it_is_no_default(tmp_path: Path) -> None:
    """The scales are read, the mass of the other pack is only on its sheet."""
    specs = SPECS + "- {spec: other, kind: battery, mass: 380 g, cells: 3S, capacity: 2200 mAh}\n"
    items = ITEMS + "- {tag: P-2, spec: other, acquired: 2026-01-01}\n"
    log = (
        "- {on: 2026-03-01, weigh: 1210 g, pack: P-1}\n"
        "- {on: 2026-03-02, flight: 5 min, pack: P-2}\n"
    )
    files = {**SMALL, "parts/specs.yaml": specs, "parts/items.yaml": items}
    mass = found(quad(tmp_path, logged(log, files)), "all_up_mass", "P-2")

    assert "spec" == mass.basis
    assert "weakest inputs, from sheet or plan: mass of P-1, mass of P-2" == mass.notes[0]


def test_no_link_is_named_where_all_are_known_alike(tmp_path: Path) -> None:
    """Everything on a sheet: the basis says it."""
    mass = found(quad(tmp_path, SMALL), "all_up_mass", "P-1")

    assert ("added up from the parts, never weighed",) == mass.notes


@pytest.mark.parametrize(
    ("rating", "verdict"),
    [
        ("32C", f"with P-1 full 6 % left; {LITTLE}the pack P-1 is the first limit"),
        ("31C", f"with P-1 full 3 % left; {LITTLE}the motor is the first limit"),
        ("35C", "with P-1 full 14.1 % left; the motor is the first limit"),
        ("20C", "with P-1 full 50.3 % over its rating"),
    ],
)
def test_a_small_margin_is_told_where_it_stands(tmp_path: Path, rating: str, verdict: str) -> None:
    """60 A of 70.4, 68.2, 77 and 44 A: 14.8 %, 12 % and 22 % are left, and 16 A too little.

    A full pack gives 66.15 A: 6 % of 70.4 A are left then, 3 % of 68.2 A, 14.1 % of 77 A.
    """
    files = benched()
    specs = files["parts/specs.yaml"].replace("discharge_rate: 30C", f"discharge_rate: {rating}")
    if rating in ("31C", "35C"):
        specs = specs.replace("max_current: 18 A, bench", "max_current: 16.9 A, bench")
    figure = found(quad(tmp_path, {**files, "parts/specs.yaml": specs}), "battery_margin", "P-1")

    assert verdict == figure.verdict


def test_a_small_margin_stands_on_the_front_page(tmp_path: Path) -> None:
    """With the others there; a margin that is not small is not."""
    files = benched()
    roomy = files["parts/specs.yaml"].replace("discharge_rate: 30C", "discharge_rate: 45C")
    roomy = roomy.replace("max_current: 18 A", "max_current: 20 A")
    scarce = reports_of(opened(tmp_path / "a", files)).headlines("sedge").shown
    plenty = (
        reports_of(opened(tmp_path / "b", {**files, "parts/specs.yaml": roomy}))
        .headlines("sedge")
        .shown
    )

    assert "battery_margin" == scarce[-1].name
    assert "margin" not in " ".join(one.name for one in plenty)


@pytest.mark.parametrize(
    ("used", "said"),
    [
        (("", "", ""), ""),
        # 80 % of 2200 mAh are 1760 mAh
        (("1700", "1800", "1700"), ", 2 of them before the reserve by the charge used"),
        (("1700", "1500", "1600"), ", all before the reserve by the charge used"),
    ],
)
def test_an_alarm_is_held_against_the_lowest_of_the_log(
    tmp_path: Path, used: tuple[str, ...], said: str
) -> None:
    """11.03 V under the load of a hover: 11.0 V is under it, as it is written."""
    log = flown_daily(
        *(
            f"volts: {{lowest: {read} V}}{f', used: {took} mAh' if took else ''}"
            for read, took in zip((10.9, 10.7, 11.0), used, strict=True)
        )
    )
    figure = found(quad(tmp_path, benched(log)), "alarm_voltage", "P-1")

    assert pytest.approx(11.025, abs=0.01) == figure.value
    assert (
        f"3.67 V a cell; 3 of 3 flights went under the alarm, down to 10.70 V{said}"
        == figure.verdict
    )
    assert set(figure.other) == set(figure.in_verdict)  # told once, not beside it again


NO_EARLY = "2 of 2 flights went under the alarm, down to 10.50 V"
ONE_EARLY = f"{NO_EARLY}, 1 of them before the reserve by the charge used"
BOTH_EARLY = f"{NO_EARLY}, all before the reserve by the charge used"


@pytest.mark.parametrize(
    ("log", "said"),
    [
        (("1 full", "1 900", "1 900"), ONE_EARLY),  # 1800 mAh out after the second
        (("1 full", "1 900", "2 900"), ONE_EARLY),
        (("1 full", "1 900", "1 full", "1 900"), BOTH_EARLY),
        (("1 full", "1 900", "2 850"), BOTH_EARLY),  # 1750 mAh
        # No charge is written at all: each day begins full.
        (("1 900", "1 900"), ONE_EARLY),
        (("1 900", "2 900"), BOTH_EARLY),
        # 3000 mAh are more than it holds: a charge was not written.
        (("1 full", "1 1500", "2 1500"), BOTH_EARLY),
        # What was in it is not known.
        (("1 storage", "1 900", "2 900"), NO_EARLY),
    ],
)
def test_flights_on_one_charge_count_together(
    tmp_path: Path, log: tuple[str, ...], said: str
) -> None:
    """The reserve of 2200 mAh begins at 1760 mAh out since the charge, by hand."""
    lines = []
    for day, what in (one.split() for one in log):
        flown = f"flight: 6 min, pack: P-1, used: {what} mAh, volts: {{lowest: 10.5 V}}"
        done = flown if what.isdigit() else f"charge: P-1, to: {what}"
        lines.append(f"- {{on: 2026-03-0{day}, {done}}}\n")
    figure = found(quad(tmp_path, benched("".join(lines))), "alarm_voltage", "P-1")

    assert said == (figure.verdict or "").split("; ")[-1]


@pytest.mark.parametrize(
    ("lowest", "said"),
    [
        ("11.10", "the reserve begins at 10.69 V"),
        ("10.10", "its cut-off of 9.90 V comes first"),
    ],
)
def test_an_alarm_beside_the_sag_of_the_log(tmp_path: Path, lowest: str, said: str) -> None:
    """11.19 V rested at the reserve, less 0.5 V, or 1.5 V: the cut-off is 9.90 V."""
    answers = quad(tmp_path, benched(read_in_flight((lowest, "11.6"))))
    figure = found(answers, "alarm_voltage", "P-1")

    verdict = (figure.verdict or "").split("; ")
    assert f"in a burst of throttle {said}" == verdict[1]
    assert "burst of throttle: by the sag in the log, on one flight" in figure.notes
    why = "the higher of both: set to the lower, it would sound late in steady flight"
    assert (why in figure.notes) == ("begins" in said)


def test_gains_are_not_blamed_for_a_change_of_mass(tmp_path: Path) -> None:
    """Ten flights at 9 A, then 60 g more and other gains at 10 A."""
    log = (
        GAINS.format(day="2026-02-28", name="soft", p=30)
        + flights(10)
        + MASS
        + GAINS.format(day="2026-03-16", name="crisp", p=36)
        + flights(10, 10.0, 20)
    )
    answers = quad(tmp_path, logged(log))

    assert (
        "150 mAh a minute; all flown before motor, propeller or mass last changed: "
        "not the gains alone"
    ) == found(answers, "flown_current", "gains soft").verdict
    assert "167 mAh a minute" == found(answers, "flown_current", "gains crisp").verdict


def test_gains_are_not_blamed_for_a_payload(tmp_path: Path) -> None:
    """Two flights without, four with 200 g: those alone are fitted, and it is said."""
    log = (
        GAINS.format(day="2026-02-28", name="soft", p=30)
        + flights(2)
        + "".join(
            f"- {{on: 2026-03-1{day}, flight: 300 s, pack: P-1, used: 900 mAh, payload: 200 g}}\n"
            for day in (1, 2, 3, 4)
        )
    )
    figure = found(quad(tmp_path, logged(log)), "flown_current", "gains soft")

    assert "180 mAh a minute; flown with a payload: not the gains alone" == figure.verdict
    assert "2 flights without a payload left apart" in figure.notes


def test_flown_time_has_the_prediction_beside_it(tmp_path: Path) -> None:
    """704 s as flown at 9 A; what theory gives, and by how much it is off."""
    figure = found(quad(tmp_path, benched(flights(12))), "flown_time", "P-1")
    predicted = figure.other["predicted, s"]
    assert pytest.approx(704, rel=1e-3) == figure.value
    assert figure.value is not None
    off = round((predicted / figure.value - 1) * 100)

    assert f"{abs(off)} % {'more' if off > 0 else 'less'}" == (figure.verdict or "").split(", ")[1]


def test_each_that_waits_says_which_it_is(tmp_path: Path) -> None:
    """Eleven flights on one pack, one on the other."""
    items = ITEMS + "- {tag: P-2, spec: pack, acquired: 2026-01-01}\n"
    log = flights(11) + "- {on: 2026-03-20, flight: 300 s, pack: P-2, used: 700 mAh}\n"
    answers = quad(tmp_path, logged(log, {**SMALL, "parts/items.yaml": items}))

    assert [
        "flights with their charge so far, P-2: 1; it takes 4: write what each took, as 'used'"
    ] == [one.because for one in answers.cannot_say if one.name == "flown_current"]


def test_an_end_that_lies_behind_is_not_expected(tmp_path: Path) -> None:
    """2200 mAh less 20 a charge: 1760 at charge 23, one reading below it, five more charges."""
    lines = []
    for number in range(31):
        day = datetime.date(2026, 3, 1) + datetime.timedelta(days=number)
        lines.append(f"- {{on: {day}, charge: P-1, put_in: 1500 mAh}}\n")
        if number % 5 == 0 and number <= 25:
            lines.append(f"- {{on: {day}, capacity: P-1, measured: {2200 - 20 * number} mAh}}\n")
    hangar = opened(tmp_path, {**SMALL, "stores/p-1.yaml": "".join(lines)})
    answers = figures_of_item(hangar, "P-1")
    end = found(answers, "pack_end_of_life")
    past = "past already, as its readings go: measure the capacity once more"

    assert pytest.approx(23, abs=1) == end.value
    assert (past, "past already") == (end.verdict, end.judged)
    assert past == refused(answers, "pack_end_of_life_date")[0]


@pytest.mark.parametrize(
    ("rate", "log", "why"),
    [
        ("4C", "", "in a hover the pack P-1 is past its rating, 11 A of 8.8 A"),
        ("4C", flights(12), "as flown the pack P-1 is past its rating, 9 A of 8.8 A"),
        ("4C", flights(2, 12.0), "as flown the pack P-1 is past its rating, 12 A of 8.8 A"),
    ],
)
def test_no_timer_for_a_flight_past_a_rating(tmp_path: Path, rate: str, log: str, why: str) -> None:
    """10.957 A of the hover on the bench, 9 or 12 A of the log; 4 times 2.2 Ah an hour: 8.8 A."""
    files = benched(log)
    specs = files["parts/specs.yaml"].replace("discharge_rate: 30C", f"discharge_rate: {rate}")
    answers = quad(tmp_path, {**files, "parts/specs.yaml": specs})

    assert why == refused(answers, "timer_setting", "P-1")[0]


def test_a_timer_says_which_rating_full_throttle_passes(tmp_path: Path) -> None:
    """60 A of 20 times 2.2 Ah an hour."""
    files = benched(flights(12))
    specs = files["parts/specs.yaml"].replace("discharge_rate: 30C", "discharge_rate: 20C")
    rated = {**files, "parts/specs.yaml": specs}
    told = found(quad(tmp_path / "20", rated), "timer_setting", "P-1").verdict or ""
    silent = found(quad(tmp_path / "30", files), "timer_setting", "P-1").verdict or ""

    assert told.endswith("; at full throttle the pack P-1 is past its rating, 60 A of 44 A")
    assert "full throttle" not in silent
