"""Section C: a charge into a full pack, and a flight on one that was left at storage charge.

Limits are common practice, no source.
"""

from pathlib import Path

import pytest
from hangar_on_disk import QUIET, Hangar, with_log, with_text

STORE = "stores/p-01.yaml"
LOG = "aircraft/sedge/logbook.yaml"
DAYS = "as_of: 2026-06-20"
FULL = "- {on: 2026-06-22, charge: P-01, put_in: 1000 mAh, to: full}\n"
BEFORE = "- {on: 2026-06-18, charge: P-01, to: full}\n"
FLIGHT = "is a flight of it missing, or was it another pack? write sure: true if it is right"
CHARGE = (
    "is its charge before that missing, or was it another pack? write sure: true if it is right"
)
OUT = (
    "what is taken out on the way to storage is not put_in: leave it out, or write the flight"
    " before it; write sure: true if it is right"
)


def told(folder: Path, store: str, flown: str = "") -> list[str]:
    """What ``check`` says of the pack, flown before and at storage charge since 19 June."""
    files = with_text("hangar.yaml", DAYS, "as_of: 2026-08-20", flown)
    files[STORE] = BEFORE + QUIET[STORE] + store
    words = " ".join(Hangar(folder, files).check.split())
    return [
        one.partition(" @ ")[0] + " @ " + one.partition(" @ ")[2].partition(" warning: ")[0]
        for one in words.split("warning: ")[1:]
        if one.startswith(("P-01 took", "P-01 used", "2 flights of P-01 used"))
    ]


def of(found: list[str]) -> list[str]:
    """Without what follows the last warning."""
    return [one.partition(" 1 warning")[0] for one in found]


@pytest.mark.parametrize(
    ("store", "flown", "said"),
    [
        (
            FULL + "- {on: 2026-06-24, charge: P-01, put_in: 1310 mAh, to: full}\n",
            "",
            f"P-01 took 1310 mAh, though charged full on 2026-06-22 and not flown since"
            f" @ {STORE}:9 {FLIGHT}",
        ),
        (
            FULL + "- {on: 2026-06-24, charge: P-01, put_in: 1310 mAh, to: storage}\n",
            "",
            f"P-01 took 1310 mAh, though charged full on 2026-06-22 and not flown since"
            f" @ {STORE}:9 {OUT}",
        ),
        (
            FULL + "- {on: 2026-06-24, charge: P-01, put_in: 1700 mAh, to: full}\n",
            "- {on: 2026-06-23, flight: 4:00, pack: P-01, used: 700 mAh}\n",
            f"P-01 took 1700 mAh, though charged full on 2026-06-22 and flown for 700 mAh since"
            f" @ {STORE}:9 {FLIGHT}",
        ),
        (
            "- {on: 2026-06-22, charge: P-01, put_in: 2200 mAh, to: full}\n",
            "",
            f"P-01 took 2200 mAh, though at storage charge since 2026-06-19 and not flown since"
            f" @ {STORE}:8 {FLIGHT}",
        ),
        (
            "",
            "- {on: 2026-06-22, flight: 7:00, pack: P-01, used: 1800 mAh}\n",
            f"P-01 used 1800 mAh, though at storage charge since 2026-06-19 and rated 2200 mAh"
            f" @ {LOG}:24 {CHARGE}",
        ),
        (
            "",
            "- {on: 2026-06-22, flights: [[4:00, P-01, 900 mAh], [4:00, P-01, 900 mAh]]}\n",
            f"2 flights of P-01 used 1800 mAh, though at storage charge since 2026-06-19 and rated"
            f" 2200 mAh @ {LOG}:24 {CHARGE}",
        ),
    ],
)  # fmt: skip
def test_what_a_pack_can_neither_take_nor_give(
    tmp_path: Path, store: str, flown: str, said: str
) -> None:
    """At the line of the later of both, with what is probably missing."""
    assert [said] == of(told(tmp_path, store, flown))


@pytest.mark.parametrize(
    ("store", "flown"),
    [
        # Topped up after two weeks; what a counter errs by; a storage charge well below half.
        (FULL + "- {on: 2026-07-06, charge: P-01, put_in: 380 mAh, to: full}\n", ""),
        (
            FULL + "- {on: 2026-06-24, charge: P-01, put_in: 1450 mAh, to: full}\n",
            "- {on: 2026-06-23, flight: 6:00, pack: P-01, used: 1000 mAh}\n",
        ),
        ("- {on: 2026-06-22, charge: P-01, put_in: 1900 mAh, to: full}\n", ""),
        ("", "- {on: 2026-06-22, flight: 5:00, pack: P-01, used: 1400 mAh}\n"),
        # Its flight does not say what it used; its fill between is not said; it was emptied.
        (
            FULL + "- {on: 2026-06-24, charge: P-01, put_in: 1800 mAh, to: full}\n",
            "- {on: 2026-06-23, flight: 6:00, pack: P-01}\n",
        ),
        (
            FULL
            + "- {on: 2026-06-23, charge: P-01, to: part}\n"
            + "- {on: 2026-06-24, charge: P-01, put_in: 1800 mAh, to: full}\n",
            "",
        ),
        (
            FULL
            + "- {on: 2026-06-23, capacity: P-01, measured: 2150 mAh}\n"
            + "- {on: 2026-06-23, charge: P-01, put_in: 1100 mAh, to: storage}\n",
            "",
        ),
        (
            FULL
            + "- {on: 2026-06-23, inspection: pack-rest-voltage, tags: [P-01],"
            + " readings: {cell 1: 3.80 V, cell 2: 3.80 V, cell 3: 3.80 V}}\n"
            + "- {on: 2026-06-24, charge: P-01, put_in: 1100 mAh, to: full}\n",
            "",
        ),
        # Charged and flown twice on one day, in logs that do not say which came first.
        (
            "- {on: 2026-06-22, charge: P-01, put_in: 1100 mAh, to: full}\n"
            "- {on: 2026-06-22, charge: P-01, put_in: 1600 mAh, to: full}\n",
            "- {on: 2026-06-22, flights: [[6:00, P-01, 1500 mAh], [6:00, P-01, 1500 mAh]]}\n",
        ),
        (
            "- {on: 2026-06-22, charge: P-01, to: full}\n",
            "- {on: 2026-06-22, flight: 7:00, pack: P-01, used: 1800 mAh}\n",
        ),
    ],
)
def test_what_is_ordinary_is_not_doubted(tmp_path: Path, store: str, flown: str) -> None:
    """A charger, a counter and a storage charge are never to the point."""
    assert [] == told(tmp_path, store, flown)


def test_a_keeper_who_writes_one_of_both_is_told_once(tmp_path: Path) -> None:
    """Four charges and no flight between: one line, at the last."""
    days = ("06-24", "06-27", "06-29", "07-03")
    store = FULL + "".join(
        f"- {{on: 2026-{day}, charge: P-01, put_in: 1310 mAh, to: full}}\n" for day in days
    )

    assert [
        "P-01 took 1310 mAh, though charged full on 2026-06-29 and not flown since, 4 times in all"
        f" @ {STORE}:12 {FLIGHT}"
    ] == of(told(tmp_path, store))


def test_a_pack_whose_full_charges_are_never_written_is_not_asked_for_them(tmp_path: Path) -> None:
    """Only storage charges stand in its log, and more than one of them."""
    flown = "- {on: 2026-06-22, flight: 7:00, pack: P-01, used: 1800 mAh}\n"
    files = with_text("hangar.yaml", DAYS, "as_of: 2026-08-20", flown)
    files[STORE] += "- {on: 2026-06-24, charge: P-01, to: storage}\n"

    assert "used 1800 mAh" not in Hangar(tmp_path, files).check


@pytest.mark.parametrize(
    "more", ["", "- {on: 2026-06-20, charge: P-02, put_in: 900 mAh, to: full}\n"]
)
def test_a_first_charge_to_storage_tells_as_well(tmp_path: Path, more: str) -> None:
    """No earlier full charge of the pack is needed; a later one of another shows how he writes."""
    flown = "- {on: 2026-06-22, flight: 7:00, pack: P-01, used: 1800 mAh}\n"
    files = with_text("hangar.yaml", DAYS, "as_of: 2026-08-20", flown)
    files[STORE] += more
    said = " ".join(Hangar(tmp_path, files).check.split())

    assert (
        "P-01 used 1800 mAh, though at storage charge since 2026-06-19 and rated 2200 mAh"
        f" @ {LOG}:24 {CHARGE}"
    ) in said


def charged(day: int, put_in: str, to: str = "", pack: str = "P-01") -> str:
    """A charge of a day of June."""
    said = f", to: {to}" if to else ""
    return f"- {{on: 2026-06-{day}, charge: {pack}, put_in: {put_in}{said}}}\n"


@pytest.mark.parametrize(
    ("first", "again", "flown", "said"),
    [
        ("1300 mAh", "1300 mAh", "", "1300 mAh, though charged with 1300 mAh on 2026-06-22 and not"
         " flown since"),
        ("1700 mAh", "1800 mAh", "500 mAh", "1800 mAh, though charged with 1700 mAh on 2026-06-22"
         " and flown for 500 mAh since"),
        # 1.15 times 2200 mAh are 2530 mAh, and with a flight of 500 mAh 3105 mAh
        ("1300 mAh", "1230 mAh", "", None),
        ("1300 mAh", "1231 mAh", "", "1231 mAh, though charged with 1300 mAh on 2026-06-22 and not"
         " flown since"),
        ("1700 mAh", "1400 mAh", "500 mAh", None),
    ],
)  # fmt: skip
def test_two_charges_that_do_not_say_how_full_it_was(
    tmp_path: Path, first: str, again: str, flown: str, said: str | None
) -> None:
    """Together more than it holds, and more than was flown between."""
    flight = f"- {{on: 2026-06-23, flight: 4:00, pack: P-01, used: {flown}}}\n" if flown else ""
    found = told(tmp_path, charged(22, first) + charged(24, again), flight)

    assert ([f"P-01 took {said} @ {STORE}:9 {FLIGHT}"] if said else []) == of(found)


@pytest.mark.parametrize(("first", "again"), [("full", ""), ("full", "full"), ("", "")])
def test_a_pack_that_was_never_flown_is_doubted_from_its_second_charge(
    tmp_path: Path, first: str, again: str
) -> None:
    """Of one charged time and again and never flown somebody does not write the flights."""
    files = with_text("hangar.yaml", DAYS, "as_of: 2026-08-20")
    two = charged(22, "1300 mAh", first, "P-02") + charged(24, "1300 mAh", again, "P-02")
    files[STORE] += two
    how = "charged full on" if first else "charged with 1300 mAh on"
    said = f"P-02 took 1300 mAh, though {how} 2026-06-22 and not flown since"

    assert said in " ".join(Hangar(tmp_path / "two", files).check.split())
    files[STORE] += charged(26, "1300 mAh", again, "P-02")
    assert "P-02 took" not in Hangar(tmp_path / "three", files).check


def test_a_sure_charge_or_flight_is_not_doubted(tmp_path: Path) -> None:
    """Neither of them."""
    charge = FULL + "- {on: 2026-06-24, charge: P-01, put_in: 1310 mAh, to: full, sure: true}\n"
    flight = "- {on: 2026-06-22, flight: 7:00, pack: P-01, used: 1800 mAh, sure: true}\n"

    assert [] == told(tmp_path / "charge", charge)
    assert [] == told(tmp_path / "flight", "", flight)


def test_the_pages_of_a_pack_and_of_its_aircraft_say_what_is_doubted(tmp_path: Path) -> None:
    """As `check` does; of another pack nothing, and to the public nothing."""
    hot = "- {on: 2026-06-19, charge: P-01, to: storage, temperature: 44 C}\n"
    flown = "- {on: 2026-06-20, flight: 6:00, pack: P-01, used: 2400 mAh}\n"
    hangar = Hangar(tmp_path, with_log(flown, **{"stores/p-01.yaml": hot}))
    charged, gave = "charged at 44 °C", "gave 2400"
    assert charged in hangar.check
    assert gave in hangar.check, hangar.check

    pages = [hangar.page(f"items/{tag}.html") for tag in ("P-01", "P-02")]
    pages.append(hangar.page("aircraft/sedge/index.html"))
    assert [(True, True), (False, False), (False, True)] == [
        (charged in page, gave in page) for page in pages
    ]
    public = hangar.folder.parent / "public"
    status, _ = hangar.run("render", str(hangar.folder), "--into", str(public), "--for", "public")
    texts = [path.read_text("utf-8") for path in public.rglob("*.html")]
    assert (0, False) == (status, any("Doubts about" in text for text in texts))


FILLED = "- {on: 2026-06-%02d, charge: P-01, to: full%s}\n"


@pytest.mark.parametrize(
    ("charges", "doubted"),
    [
        ([(20, ""), (22, ""), (24, "")], True),
        ([(20, ""), (22, "")], False),
        ([(20, ""), (20, ""), (22, "")], False),
        ([(20, ""), (22, ""), (24, ", sure: true")], False),
        ([(18, ""), (22, ""), (24, "")], False),  # of the day of the flight nobody knows
    ],
)
def test_three_charges_without_a_flight(
    tmp_path: Path, charges: list[tuple[int, str]], doubted: bool
) -> None:
    """On days apart, of a pack that flew before; what was put in of none of them is written."""
    text = "".join(FILLED % one for one in charges)
    files = with_log("", **{"stores/p-01.yaml": text})
    files["hangar.yaml"] = files["hangar.yaml"].replace("2026-06-20", "2026-06-25")
    found = Hangar(tmp_path, files).check
    said = "warning: P-01 charged on 3 days since it was flown or measured on 2026-06-18 @"

    assert doubted == (said in found)
    assert doubted == ("since it was flown" in found)


@pytest.mark.parametrize("what", ["to: storage", "put_in: 300 mAh"])
def test_nor_of_charges_to_storage_or_with_amounts(tmp_path: Path, what: str) -> None:
    """One keeps it, the other is held against what was in the pack."""
    text = "".join((FILLED % (day, "")).replace("to: full", what) for day in (20, 22, 24))
    files = with_log("", **{"stores/p-01.yaml": text})
    files["hangar.yaml"] = files["hangar.yaml"].replace("2026-06-20", "2026-06-25")

    assert "since it was flown" not in Hangar(tmp_path, files).check


@pytest.mark.parametrize(("measured", "doubted"), [(440, False), (439, True)])
def test_a_fifth_of_its_rating_is_the_least_that_is_believed(
    tmp_path: Path, measured: int, doubted: bool
) -> None:
    """Section C: of 2200 mAh; at the line itself it is believed."""
    entry = f"- {{on: 2026-06-20, capacity: P-01, measured: {measured} mAh}}\n"
    check = Hangar(tmp_path, {**QUIET, STORE: QUIET[STORE] + entry}).check

    said = f"warning: battery 'P-01' measured at {measured} mAh, though rated 2200 mAh"
    assert doubted == check.startswith(said)
