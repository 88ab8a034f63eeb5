"""``enter next``: what it asks, what it makes of answers, and what is written when one stops."""

import builtins
import sys
from pathlib import Path
from typing import Any

import pytest

from buildbook.commands.main import main

Say = Any


@pytest.fixture
def say(tmp_path: Path, monkeypatch: pytest.MonkeyPatch, private_cache: Path) -> Say:
    """Begin a hangar in ``shed`` with these words, and give these answers, then Ctrl-D."""
    assert private_cache
    monkeypatch.setenv("SOURCE_DATE_EPOCH", "1776600000")  # 19 April 2026
    monkeypatch.chdir(tmp_path)

    def answer(answers: list[str], *words: str) -> list[str]:
        asked: list[str] = []
        waiting = iter(answers)

        def answered(question: str) -> str:
            asked.append(question.strip())
            try:
                return next(waiting)
            except StopIteration:
                raise EOFError from None

        with monkeypatch.context() as terminal:
            terminal.setattr(sys.stdin, "isatty", lambda: True, raising=False)
            terminal.setattr(sys.stdout, "isatty", lambda: True, raising=False)
            terminal.setattr(builtins, "input", answered)
            assert 0 == main(["enter", "next", *words, "--hangar", "shed"])
        return asked

    return answer


def begun(*words: str) -> None:
    """A hangar in which an aircraft is begun."""
    assert 0 == main(["begin", "shed", *words])


def lines(file: str) -> list[str]:
    """Those of a file of the hangar that are no comments."""
    text = Path("shed", file).read_text("utf-8")
    return [line for line in text.splitlines() if not line.startswith("#")]


def test_what_was_answered_stays_when_one_stops(say: Say) -> None:
    """An empty answer leaves a value out, a dash a part with its item; the rest is for later."""
    begun("--name", "Kite", "--span", "1 m")
    asked = say(["31", "1400 rpm/V", "", "", "-", "9", "-", "-", "M-7"])

    assert [
        "motor mass, g:",
        "motor kv, rpm/V:",
        "esc mass, g:",
        "esc continuous_current, A (current):",
        "receiver mass, g:",
        "servo mass, g:",
        "propeller mass, g:",
        "pack cells (as in 4S):",
        "tag or tags of motor [M-1]:",
        "tag or tags of esc [E-1]:",
    ] == asked
    assert [
        "- {spec: motor, kind: motor, mass: 31 g, kv: 1400 rpm/V}",
        "- {spec: esc, kind: esc}",
        "- {spec: servo, kind: servo, mass: 9 g}",
    ] == lines("parts/specs.yaml")
    assert ["- {tag: M-7, spec: motor}"] == lines("parts/items.yaml")
    assert 0 == main(["check", "shed"])


def test_a_wrong_answer_is_asked_for_again(say: Say, capsys: pytest.CaptureFixture[str]) -> None:
    """It is told, and nothing of it is written."""
    begun("--name", "Kite", "--span", "1 m")
    asked = say(["31 mm", "1400", "31", ""])

    assert [
        "motor mass, g:",
        "motor kv, rpm/V:",
        "motor mass, g [31 mm]:",
        "motor kv, rpm/V [1400]:",
    ] == asked[:4]
    assert "problem: '31 mm' is a length, not a mass" in capsys.readouterr().err
    assert ["- {spec: motor, kind: motor, mass: 31 g, kv: 1400 rpm/V}"] == lines("parts/specs.yaml")


def test_lines_that_need_no_answer_are_shown_before_they_are_written(
    say: Say, capsys: pytest.CaptureFixture[str]
) -> None:
    """That it flies is never taken for granted; a look that failed is written as it is."""
    begun("--name", "Kite", "--kind", "glider", "--span", "1 m")
    plan = Path("shed/aircraft/kite/aircraft.yaml")
    plan.write_text(
        plan.read_text("utf-8")
        + "not_tracked: [receiver, servo, surfaces, battery]\nsockets: [rudder, elevator]\n"
        "radio: {failsafe: {rest: hold}}\n"
    )
    asked = say(["2026-04-02", "f", "horn loose: left", ""])

    assert [
        "day [2026-04-19]:",
        "result (pass or fail):",
        "what was found:",
    ] == asked[:3]
    assert [
        "- on: 2026-04-02",
        "  id: 2026-04-02-1",
        "  check: hinges",
        "  result: fail",
        '  note: "horn loose: left"',
    ] == lines("aircraft/kite/logbook.yaml")
    everything = [
        f"- {{on: 2026-04-03, check: {check}, result: pass}}\n"
        for check in (
            "[hinges, receiver-order, receiver-neutral, stick-sense, mode-switches]",
            "[surface-sense, surface-throws, failsafe, range, balance-point, weighing]",
        )
    ]
    with Path("shed/aircraft/kite/logbook.yaml").open("a", encoding="utf-8") as log:
        log.writelines([*everything, "- {on: 2026-04-03, weigh: 800 g}\n"])
    capsys.readouterr()
    asked = say(["", ""], "kite")
    assert ["day [2026-04-19]:", "Write that? y or n [n]:"] == asked
    assert "  status: flying\n" in capsys.readouterr().out
    assert not [line for line in lines("aircraft/kite/logbook.yaml") if "flying" in line]


@pytest.mark.usefixtures("say")
def test_it_needs_a_terminal(capsys: pytest.CaptureFixture[str]) -> None:
    """Where nobody can be asked it says what prints the lines."""
    begun("--name", "Kite", "--span", "1 m")
    assert 2 == main(["enter", "next", "shed"])
    assert (
        "buildbook enter: next asks, and needs a terminal; buildbook check prints the lines\n"
    ) == capsys.readouterr().err


def test_it_says_what_it_is(capsys: pytest.CaptureFixture[str]) -> None:
    """Without a terminal too."""
    assert 0 == main(["enter", "next", "--help"])
    assert "buildbook enter next [AIRCRAFT] [HANGAR]: asks, group by group," in (
        capsys.readouterr().out
    )


def test_the_last_answer_can_be_taken_back(say: Say) -> None:
    """As an entry can; the file is as it was, byte for byte."""
    begun("--name", "Kite", "--span", "1 m")
    before = Path("shed/parts/specs.yaml").read_bytes()
    say(["31", "1400"])
    assert before != Path("shed/parts/specs.yaml").read_bytes()
    assert 0 == main(["enter", "--undo", "--hangar", "shed"])
    assert before == Path("shed/parts/specs.yaml").read_bytes()


def test_what_a_killed_writer_left_of_a_file_of_parts_is_cleared_away(say: Say) -> None:
    """By whoever writes next."""
    begun("--name", "Kite", "--span", "1 m")
    left = Path("shed/parts/.specs.yaml.entering")
    left.write_text("- {spec: half")
    say(["31", "1400"])
    assert not left.exists()


@pytest.mark.parametrize("ending", ["\n", "\r\n", ""])
def test_the_line_endings_of_a_file_are_kept(say: Say, ending: str) -> None:
    """A last line without one gets one."""
    begun("--name", "Kite", "--span", "1 m")
    specs = Path("shed/parts/specs.yaml")
    specs.write_bytes(f"# Kinds of part{ending}".encode())
    say(["31", "1400"])
    line = b"- {spec: motor, kind: motor, mass: 31 g, kv: 1400 rpm/V}"
    end = (ending or "\n").encode()
    assert b"# Kinds of part" + end + line + end == specs.read_bytes()


def test_what_it_does_not_have_is_asked_for_once(say: Say) -> None:
    """A dash, and a yes; then the next group comes."""
    begun("--name", "Kite", "--kind", "glider", "--span", "1 m")
    asked = say(["9", "-", "-", "X-1", "y"])

    assert [
        "receiver mass, g:",
        "servo mass, g:",
        "pack cells (as in 4S):",
        "tag or tags of receiver [X-1]:",
        "Has it no servo and no battery, or none that bears a tag? y or n [n]:",
        "day [2026-04-19]:",
    ] == asked
    assert "not_tracked: [servo, battery]" == lines("aircraft/kite/aircraft.yaml")[-1]


def test_a_value_that_was_answered_can_be_left_out_when_it_is_asked_again(say: Say) -> None:
    """Two hyphens; an empty answer would take what stands in brackets."""
    begun("--name", "Kite", "--span", "1 m")
    asked = say(["31 mm", "1400", "--", ""])

    assert "motor mass, g [31 mm]:" == asked[2]
    assert ["- {spec: motor, kind: motor, kv: 1400 rpm/V}"] == lines("parts/specs.yaml")


BARE = (
    "not_tracked: [receiver, servo, surfaces, battery]\nsockets: [rudder, elevator]\n"
    "radio: {failsafe: {rest: hold}}\n"
)


def glider(plan: str) -> None:
    """One that has only checks left."""
    begun("--name", "Kite", "--kind", "glider", "--span", "1 m")
    with Path("shed/aircraft/kite/aircraft.yaml").open("a", encoding="utf-8") as file:
        file.write(plan)


@pytest.mark.parametrize(
    ("said", "day"),
    [
        ("12.4.2026", "2026-04-12"),
        ("2026-4-12", "2026-04-12"),
        ("Apr 12, 2026", "2026-04-12"),
        ("4/13/2026", "2026-04-13"),
        ("yesterday", "2026-04-18"),
        ("yesterday 16:30", "2026-04-18T16:30"),
        ("2026-04-17 16:30", "2026-04-17T16:30"),
        ("Apr 12", "2026-04-12"),
        ("last saturday", "2026-04-18"),
        ("", "2026-04-19"),
    ],
)
def test_a_day_is_taken_as_on_takes_it(say: Say, said: str, day: str) -> None:
    """In each form that can mean but one day."""
    glider(BARE)
    say([said, "p"])

    assert f"- on: {day}" in lines("aircraft/kite/logbook.yaml")


def test_a_day_that_is_none_is_asked_for_again_with_the_same_offer(
    say: Say, capsys: pytest.CaptureFixture[str]
) -> None:
    """And it is said how one is written."""
    glider(BARE)
    asked = say(["some day", "4/5/2026", ""])

    assert ["day [2026-04-19]:"] * 3 == asked[:3]
    printed = capsys.readouterr().out
    assert "'some day' is not a day; write it as in yesterday 16:40" in printed
    assert "did you mean 2026-05-04 or 2026-04-05?" in printed


def test_a_day_of_another_year_is_asked_for_again(say: Say) -> None:
    """A day without its year that was long ago is taken once it is confirmed."""
    glider(BARE)
    asked = say(["24 Nov", "n", "24 Nov", "y", "p"])

    assert ["day [2026-04-19]:", "Is that right? y or n [n]:"] * 2 == asked[:4]
    assert "- on: 2025-11-24" in lines("aircraft/kite/logbook.yaml")


def test_the_next_group_is_offered_the_same_day(say: Say) -> None:
    """Whoever writes down yesterday's work says so once."""
    glider(BARE)
    asked = say(["yesterday", "p", *["p", "", ""] * 12])

    days = [one for one in asked if one.startswith("day")]
    assert ["day [2026-04-19]:", "day [2026-04-18]:"] == days[:2]


def quad() -> None:
    """One whose four motors and ESCs are tagged and sit nowhere, and which tracks nothing else."""
    begun("--name", "Tern", "--diagonal", "300 mm")
    with Path("shed/aircraft/tern/aircraft.yaml").open("a", encoding="utf-8") as file:
        file.write("not_tracked: [frame, controller, receiver, battery]\n")
    Path("shed/parts/specs.yaml").write_text(
        "- {spec: m, kind: motor, mass: 31 g}\n- {spec: e, kind: esc, mass: 5 g}\n"
        "- {spec: r, kind: propeller, mass: 4 g, size: 5x4, hand: cw}\n"
        "- {spec: l, kind: propeller, mass: 4 g, size: 5x4, hand: ccw}\n",
        "utf-8",
    )
    Path("shed/parts/items.yaml").write_text(
        "- {tags: M-1..M-4, spec: m}\n- {tag: E-1, spec: e}\n- {tags: R-1..R-2, spec: r}\n"
        "- {tags: R-3..R-4, spec: l}\n",
        "utf-8",
    )


def test_a_tag_is_understood_without_its_hyphen(say: Say) -> None:
    """By its number, or its letter and number."""
    quad()
    say(["2026-04-02", "M4", "3", "m-2", "M-1"])

    assert [
        "    front-left: {motor: M-4}",
        "    front-right: {motor: M-3}",
        "    rear-left: {motor: M-2}",
        "    rear-right: {motor: M-1}",
    ] == [line for line in lines("aircraft/tern/logbook.yaml") if "motor" in line]


def test_what_is_no_tag_is_named_as_it_was_typed(
    say: Say, capsys: pytest.CaptureFixture[str]
) -> None:
    """And the good answers are offered when it is asked again."""
    quad()
    asked = say(["", "1", "W-4", "3", "4", "", "2", "", ""])
    printed = capsys.readouterr().err

    assert "'W-4'" in printed
    assert "M-W-4" not in printed
    assert [
        "front-left motor (M-number) [1]:",
        "front-right motor (M-number) [W-4]:",
        "rear-left motor (M-number) [3]:",
        "rear-right motor (M-number) [4]:",
    ] == [one.replace("…", "number") for one in asked[5:9]]
    assert "    front-right: {motor: M-2}" in lines("aircraft/tern/logbook.yaml")


def test_a_spin_is_understood_in_the_words_of_the_trade(say: Say) -> None:
    """Anticlockwise is the same as ccw; common practice, no source."""
    quad()
    say(
        [
            *("", "1", "2", "3", "4"),
            *("anticlockwise", "1", "clockwise", "2", "cw", "3", "Counter clockwise", "4"),
        ]
    )
    plan = lines("aircraft/tern/aircraft.yaml")

    assert ["ccw", "cw", "cw", "ccw"] == [
        line.split("spin: ")[1].split(",")[0] for line in plan if "spin: " in line
    ]


def test_spins_that_leave_no_yaw_are_asked_back_while_they_are_typed(
    say: Say, capsys: pytest.CaptureFixture[str]
) -> None:
    """As any doubt is, and the answers before are offered again; not only by check."""
    quad()
    all_alike = ["cw", "1", "cw", "2", "cw", "3", "cw", "4"]
    asked = say(["", "1", "2", "3", "4", *all_alike, "n", "ccw", "", "", "", "", "", "ccw", ""])

    assert "the planned spins leave no yaw control" in capsys.readouterr().err
    assert "Write it all the same? y or n [n]:" == asked[13]
    assert ["ccw", "cw", "cw", "ccw"] == [
        line.split("spin: ")[1].split(",")[0]
        for line in lines("aircraft/tern/aircraft.yaml")
        if "spin: " in line
    ]


def test_what_is_doubted_and_meant_is_written(say: Say) -> None:
    """The keeper's word stands; check goes on telling it."""
    quad()
    say(["", "1", "2", "3", "4", "cw", "1", "cw", "2", "cw", "3", "cw", "4", "y"])

    plan = lines("aircraft/tern/aircraft.yaml")
    assert 4 == sum("spin: cw" in line for line in plan)


def test_a_doubt_of_an_earlier_answer_is_told_and_holds_up_nothing(
    say: Say, capsys: pytest.CaptureFixture[str]
) -> None:
    """20 g cannot hold 2200 mAh: the spec is doubted once it has a tag, which is right."""
    begun("--name", "Kite", "--span", "1 m")
    Path("shed/parts/specs.yaml").write_text(
        "- {spec: p, kind: battery, cells: 3S, capacity: 2200 mAh, chemistry: LiPo, mass: 20 g}\n",
        "utf-8",
    )
    asked = say(["-"] * 5 + ["", ""])

    assert "more than 20 g of cells can hold" in capsys.readouterr().err
    assert [] == [one for one in asked if "all the same" in one]
    assert ["- {tag: P-1, spec: p}"] == [
        line for line in lines("parts/items.yaml") if "P-1" in line
    ]


def test_a_doubted_check_that_is_not_meant_is_asked_for_again(
    say: Say, capsys: pytest.CaptureFixture[str]
) -> None:
    """As one with a problem is; what is left out in the end is said to be for later."""
    glider(BARE)
    asked = say(["2026-04-20", "p", "n", "-"])

    assert "result (pass or fail):" == asked[1]
    assert "Write it all the same? y or n [n]:" == asked[2]
    assert "result (pass or fail) [p]:" == asked[3]
    assert "buildbook enter next kite shed asks for it again." in " ".join(
        capsys.readouterr().out.split()
    )


def test_where_there_is_no_hangar_the_records_have_no_problem(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch, capsys: pytest.CaptureFixture[str]
) -> None:
    """It is said that there is none."""
    monkeypatch.chdir(tmp_path)
    monkeypatch.setattr("buildbook.commands.enter._can_ask", lambda: True)

    assert 2 == main(["enter", "next"])
    assert "a hangar is a folder with a hangar.yaml" in capsys.readouterr().err


def test_a_decimal_comma_is_read(say: Say) -> None:
    """As it is typed on half of all keyboards."""
    begun("--name", "Kite", "--span", "1 m")
    say(["31,5", "1400"])

    assert "- {spec: motor, kind: motor, mass: 31.5 g, kv: 1400 rpm/V}" in lines("parts/specs.yaml")


def test_what_one_hand_of_propellers_is_is_offered_for_the_other(say: Say) -> None:
    """They differ in nothing else."""
    begun("--name", "Tern", "--diagonal", "300 mm")
    asked = say([*["-"] * 5, "4", "5x4", "", "", *["-"] * 9])

    assert "propeller-ccw mass, g [4]:" in asked
    assert "- {spec: propeller-ccw, kind: propeller, mass: 4 g, size: 5x4, hand: ccw}" in (
        lines("parts/specs.yaml")
    )


def test_tags_are_understood_by_their_numbers(say: Say) -> None:
    """In the letters that were offered."""
    begun("--name", "Kite", "--kind", "glider", "--span", "1 m")
    say([*["3"] * 2, "4S", "1500", "LiPo", "170", "", "4..6", "1, p7", ""])

    items = lines("parts/items.yaml")
    assert "- {tags: S-4..S-6, spec: servo}" in items
    assert "- {tags: [P-1, P-7], spec: pack}" in items


def test_channels_need_no_commas(say: Say) -> None:
    """Six of them beside one another are six, and not one of a long name."""
    begun("--name", "Kite", "--kind", "glider", "--span", "1 m")
    with Path("shed/aircraft/kite/aircraft.yaml").open("a", encoding="utf-8") as plan:
        plan.write("not_tracked: [receiver, servo, battery, surfaces]\n")
    say(["aileron elevator  rudder"])

    assert "sockets: [aileron, elevator, rudder]" in lines("aircraft/kite/aircraft.yaml")


def test_a_chemistry_is_understood_in_small_letters(say: Say) -> None:
    """As people type it."""
    begun("--name", "Kite", "--kind", "glider", "--span", "1 m")
    say(["3", "9", "3S", "1500", "lipo", "170"])

    assert any("chemistry: LiPo, mass: 170 g" in line for line in lines("parts/specs.yaml"))


def test_a_bare_number_gets_the_unit_that_is_asked_for(say: Say) -> None:
    """So nobody is asked back how far 40 is; what is no number stays as it was said."""
    glider(BARE)
    Path("shed/aircraft/kite/logbook.yaml").write_text(
        "- {on: 2026-04-03, check: [hinges, receiver-order, receiver-neutral, stick-sense,"
        " mode-switches, surface-sense, surface-throws, failsafe], result: pass}\n"
    )
    asked = say(["", "p", "40"])

    assert "distance, m (how far control held):" in asked
    assert "  readings: {distance: 40 m}" in lines("aircraft/kite/logbook.yaml")


def test_from_where_a_turn_is_seen_is_said_where_it_is_asked_for(say: Say) -> None:
    """The hand of an aeroplane's propeller from ahead, the spin of its motor from behind."""
    begun("--name", "Kite", "--span", "1 m")
    asked = say([*["-"] * 4, "9", "5x4"])
    assert "propeller hand (cw or ccw, seen from ahead):" == asked[-1]

    with Path("shed/aircraft/kite/aircraft.yaml").open("a", encoding="utf-8") as plan:
        plan.write("not_tracked: [receiver, servo, battery, surfaces]\n")
    Path("shed/parts/specs.yaml").write_text(
        "- {spec: m, kind: motor, mass: 31 g}\n- {spec: e, kind: esc, mass: 5 g}\n"
        "- {spec: r, kind: propeller, mass: 4 g, size: 5x4, hand: ccw}\n"
    )
    Path("shed/parts/items.yaml").write_text(
        "- {tag: M-1, spec: m}\n- {tag: E-1, spec: e}\n- {tag: R-1, spec: r}\n"
    )
    asked = say(["", "y"])
    assert "nose spin (cw or ccw, seen from behind):" == asked[-1]


def test_a_fit_of_nothing_is_left_out(say: Say, capsys: pytest.CaptureFixture[str]) -> None:
    """Whoever answers none of its places is not asked for a value of it."""
    quad()
    items = Path("shed/parts/items.yaml")
    items.write_text(items.read_text("utf-8").replace("tag: E-1", "tags: E-1..E-4"), "utf-8")
    before = lines("aircraft/tern/logbook.yaml")
    asked = say([""] * 9)

    assert 9 == len(asked)
    assert before == lines("aircraft/tern/logbook.yaml")
    assert "problem" not in capsys.readouterr().err


def test_the_day_that_is_kept_is_not_told_again(
    say: Say, capsys: pytest.CaptureFixture[str]
) -> None:
    """Enter takes what stands in brackets, and needs no echo."""
    glider(BARE)
    say(["12 Apr", "p", "", "p"])

    assert 1 == capsys.readouterr().out.count("→")


def test_what_was_written_and_stays_open_is_not_asked_for_again_and_again(
    say: Say, capsys: pytest.CaptureFixture[str]
) -> None:
    """A failed look that its keeper writes down waits until it is mended."""
    glider(BARE.replace("[rudder", "[throttle, rudder"))
    log = Path("shed/aircraft/kite/logbook.yaml")
    log.write_text(
        "- {on: 2026-04-03, check: [hinges, receiver-order, receiver-neutral, stick-sense,"
        " mode-switches, surface-sense, surface-throws, failsafe], result: pass}\n"
    )
    asked = say(["", *["p", "40 leagues", "y"] * 8])

    assert 1 == len([one for one in asked if one.startswith("distance")])
    assert "What was written leaves it open: buildbook due shed says why." in (
        " ".join(capsys.readouterr().out.split())
    )


def test_what_is_whole_does_not_keep_the_rest_from_being_asked_for(say: Say) -> None:
    """Whoever stopped before the failsafe goes on there, though its stations are written."""
    begun("--name", "Kite", "--span", "1 m")
    with Path("shed/aircraft/kite/aircraft.yaml").open("a", encoding="utf-8") as plan:
        plan.write(
            "not_tracked: [receiver, servo, battery, surfaces]\nsockets: [throttle]\n"
            "stations: {nose: {spin: cw}}\n"
        )
    Path("shed/parts/specs.yaml").write_text(
        "- {spec: m, kind: motor, mass: 31 g}\n- {spec: e, kind: esc, mass: 5 g}\n"
        "- {spec: r, kind: propeller, mass: 4 g, size: 5x4, hand: ccw}\n"
    )
    Path("shed/parts/items.yaml").write_text(
        "- {tag: M-1, spec: m}\n- {tag: E-1, spec: e}\n- {tag: R-1, spec: r}\n"
    )
    say(["", "y", "cut", "hold"])

    assert "radio: {failsafe: {throttle: cut, rest: hold}}" in lines("aircraft/kite/aircraft.yaml")
