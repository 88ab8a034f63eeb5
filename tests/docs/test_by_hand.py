"""A new keeper at a keyboard: from nothing to a described and set-up aircraft, by hand.

There are two walks, and each does what the program says and nothing else. One answers the
questions of ``enter next``. The other runs ``check`` again and again, takes over the lines that it
prints into the files that it names, and writes in an editor what only a keeper knows in place of
each ``<…>``. Everything typed is counted.

The time is estimated by the keystroke-level model (Card, Moran and Newell, "The Keystroke-Level
Model for User Performance Time with Interactive Systems", Communications of the ACM 23(7), 1980;
its operators quoted from memory): a key of an average typist who is no secretary 0.28 s, of one
who types what has no meaning 0.5 s; pointing 1.1 s; a hand moved between mouse and keys 0.4 s;
making up one's mind 1.35 s. Reading what is printed: 238 words a minute, silently (Brysbaert,
Journal of Memory and Language 109, 2019; from memory). To that comes what no program can save:
weighing, looking up, writing tags on parts; these seconds are the project's own guesses, on the
generous side. Doing the set-up checks themselves (running motors, walking off for the range) is
not counted: only writing down what they showed.
"""

import builtins
import re
import sys
from collections.abc import Callable, Mapping
from pathlib import Path
from typing import NamedTuple

import pytest

from buildbook.commands.main import main

KEY_S, SLOW_KEY_S, POINT_S, HAND_S, MIND_S = 0.28, 0.5, 1.1, 0.4, 1.35
WORDS_A_MINUTE = 238
PLACE = re.compile(r"<[A-Za-z][^<>]*>")


class Effort:
    """What it took. keys: those pressed; hands, points, minds: the other operators."""

    def __init__(self) -> None:
        self.keys = self.typed = self.hands = self.points = self.minds = 0
        self.words = self.rounds = self.decisions = 0
        self.looked_up_s = 0.0

    def types(self, text: str) -> None:
        """One thought, and its keys."""
        self.minds += 1
        self.keys += len(text)
        self.typed += len(text)

    def strikes(self, keys: int) -> None:
        """A shortcut: nothing is typed."""
        self.minds += 1
        self.keys += keys

    def marks(self) -> None:
        """To the mouse, to where it begins, dragged to where it ends, and back."""
        self.hands += 2
        self.points += 2

    def reads(self, text: str) -> None:
        """All that is printed."""
        self.words += len(text.split())

    def seconds(self, key_s: float = KEY_S) -> float:
        """By the model, with the reading and what was looked up."""
        return (
            self.keys * key_s
            + self.hands * HAND_S
            + self.points * POINT_S
            + self.minds * MIND_S
            + self.words / WORDS_A_MINUTE * 60
            + self.looked_up_s
        )


class Keeper(NamedTuple):
    """A keeper's aircraft. answers: by what stands before a place to fill, the place, or both;
    asked: by how a question begins. The longest that fits counts, each in turn where there are
    several. edits: other changes of a line."""

    begin: str
    answers: Mapping[str, tuple[str, ...] | str]
    asked: Mapping[str, tuple[str, ...] | str]
    edits: Mapping[str, str]
    looked_up_s: Mapping[str, float]


QUAD = Keeper(
    begin="begin shed --name Tern --diagonal 220mm",
    answers={
        "motor, mass: <mass>": "33",
        "esc, mass: <mass>": "14",
        "frame, mass: <mass>": "121",
        "controller, mass: <mass>": "9",
        "receiver, mass: <mass>": "2",
        "propeller, mass: <mass>": "4.2",
        "LiPo, mass: <mass>": "212",
        "<kv>": "1750",
        "<current>": "45",
        "<diameter x pitch as in 5x4.3>": "5.1x3.6",
        "<as in 4S>": "6S",
        "<capacity>": "1300",
        "<LiPo or LiHV or LiIon or LiFe or NiMH>": "LiPo",
        "<day>": "2026-03-02",
        "P-<last>": "3",
        "motor: M-<number>": ("3", "1", "4", "2"),
        "propeller: R-<number>": ("1", "3", "4", "2"),
        "<cw or ccw seen from above>": ("cw", "ccw", "ccw", "cw"),
        "output: <number>": ("4", "2", "3", "1"),
        "<channels in order as in aileron>": "aileron, elevator, throttle, rudder, arm, mode",
        "<as in cut>": "cut",
        "<as in centre or hold>": "centre",
        "<pass or fail>": "pass",
        "<channel>": ("aileron", "elevator", "throttle", "rudder", "arm", "mode"),
        "throttle: <as in 1500 µs>": "988 µs",
        "<as in 1500 µs>": "1500 µs",
        "<voltage a cell at which it sounds>": "3.5",
        "<pack voltage as shown>": "24.6",
        "<pack voltage by meter>": "24.7",
        "<angle at rest>": "0.2",
        "<throttle at which it starts>": "5.5",
        "<what it did when the link was lost>": "motors stopped",
        "<how far control held>": "60",
        "weigh: <mass>": "668",
        "pack: P-<number>": "1",
    },
    asked={
        "day": "",
        "Write that? y or n [y]": "",
        "Write that? y or n [n]": "y",
        "motor mass": "33",
        "motor kv": "1750",
        "esc mass": "14",
        "esc continuous_current": "45",
        "frame mass": "121",
        "controller mass": "9",
        "receiver mass": "2",
        "propeller-cw mass": "4.2",
        "propeller-ccw mass": "",
        "propeller-cw size": "5.1x3.6",
        "propeller-ccw size": "",
        "pack cells": "6S",
        "pack capacity": "1300",
        "pack chemistry": "LiPo",
        "pack mass": "212",
        "tag or tags": "",
        "tag or tags of esc": "E-1",
        "tag or tags of pack": "P-1..P-3",
        "pack acquired": "2026-03-02",
        "front-left motor": "3",
        "front-right motor": "1",
        "rear-left motor": "4",
        "rear-right motor": "2",
        "front-left output": "4",
        "front-right output": "2",
        "rear-left output": "3",
        "rear-right output": "1",
        "front-left spin": "cw",
        "front-right spin": "ccw",
        "rear-left spin": "ccw",
        "rear-right spin": "cw",
        "receiver order": "aileron, elevator, throttle, rudder, arm, mode",
        "failsafe throttle": "cut",
        "failsafe rest": "centre",
        "result": "p",
        "1 (": "aileron",
        "2 (": "elevator",
        "3 (": "throttle",
        "4 (": "rudder",
        "5 (": "arm",
        "6 (": "mode",
        "aileron": "1500 µs",
        "elevator": "1500 µs",
        "rudder": "1500 µs",
        "alarm": "3.5 V",
        "shown": "24.6",
        "meter": "24.7",
        "roll": "0.2°",
        "pitch": "0.1°",
        "front-left, % (throttle": "5.5",
        "front-right, % (throttle": "5.6 %",
        "rear-left, % (throttle": "5.4 %",
        "rear-right, % (throttle": "5.5",
        "failsafe": "motors stopped",
        "distance": "60 m",
        "front-left (cw": "cw",
        "front-right (cw": "ccw",
        "rear-left (cw": "ccw",
        "rear-right (cw": "cw",
        "front-left propeller": "1",
        "front-right propeller": "3",
        "rear-left propeller": "4",
        "rear-right propeller": "2",
        "weigh": "668",
        "pack (P": "1",
    },
    edits={"tags: E-1..E-4": "tag: E-1"},
    looked_up_s={
        "measuring the diagonal": 30,
        "weighing one of each part, eight kinds": 8 * 25,
        "kv, current, capacity, propeller from their pages": 4 * 40,
        "writing tags on sixteen parts": 16 * 8,
        "order and direction of the motors in the controller's manual": 240,
        "order of the channels in the receiver's manual": 90,
        "deciding what happens when the link is lost": 60,
        "weighing it ready to fly": 60,
    },
)
AEROPLANE = Keeper(
    begin="begin shed --name Plover --span 1200mm",
    answers={
        **QUAD.answers,
        "servo, mass: <mass>": "9",
        "S-<last>": "4",
        "<where they sit as in wing>": "fuselage",
        "<cw or ccw seen from behind>": "ccw",
        "<cw or ccw seen from ahead>": "cw",
        "elevator: S-<number>": "1",
        "rudder: S-<number>": "2",
        "aileron: S-<number>": "3",
        "P-<last>": "2",
        "<channels in order as in aileron>": "aileron, elevator, throttle, rudder",
        "<where it balances>": "68 mm behind the leading edge",
        "<channel>": ("aileron", "elevator", "throttle", "rudder"),
    },
    asked={
        **QUAD.asked,
        "propeller mass": "11",
        "propeller size": "9x6",
        "propeller hand": "ccw",
        "servo mass": "9",
        "tag or tags of servo": "S-1..S-4",
        "tag or tags of esc": "",
        "nose spin": "cw",
        "where they sit": "fuselage",
        "elevator (S": "1",
        "rudder (S": "2",
        "aileron (S": "3, 4",
        "sockets": "aileron, elevator, throttle, rudder",
        "nose, % (throttle": "5.5",
        "nose (cw": "cw",
        "weigh": "860",
        "place": "68 mm behind the leading edge",
    },
    edits={"aileron: S-3": "aileron: [S-3, S-4]"},
    looked_up_s={
        "measuring the span": 30,
        "weighing one of each part, six kinds": 6 * 25,
        "kv, current, capacity, propeller from their pages": 4 * 40,
        "writing tags on ten parts": 10 * 8,
        "which way the motor turns": 60,
        "order of the sockets, and which servo moves what": 120,
        "deciding what happens when the link is lost": 60,
        "weighing it ready to fly": 60,
    },
)
Run = Callable[..., str]


@pytest.fixture
def typed_in(
    tmp_path: Path,
    monkeypatch: pytest.MonkeyPatch,
    capsys: pytest.CaptureFixture[str],
    private_cache: Path,
) -> Run:
    """Run a command as typed in an empty folder, which must go well; gives what it prints."""
    assert private_cache
    monkeypatch.setenv("SOURCE_DATE_EPOCH", "1776600000")  # 19 April 2026
    monkeypatch.setenv("COLUMNS", "80")
    monkeypatch.chdir(tmp_path)

    def run(command: str) -> str:
        capsys.readouterr()
        status = main(command.split())
        printed = capsys.readouterr()
        assert (0, "") == (status, printed.err), f"{command}: {printed.out}{printed.err}"
        return printed.out

    return run


def fill(keeper: Keeper, line: str, turns: dict[str, int], effort: Effort) -> str:
    """The line with each place filled in: it is marked, and typed over."""
    while found := PLACE.search(line):
        before = line[: found.end()]
        asked = max((one for one in keeper.answers if before.endswith(one)), key=len, default="")
        assert asked, f"nobody has told the keeper what to write in {line}"
        answer = keeper.answers[asked]
        if isinstance(answer, tuple):
            turns[asked] = turns.get(asked, -1) + 1
            answer = answer[turns[asked] % len(answer)]
        effort.marks()
        effort.types(answer)
        effort.decisions += 1
        line = line[: found.start()] + answer + line[found.end() :]
    for there, better in keeper.edits.items():
        if there in line and better != there:
            effort.marks()
            effort.types(better)
            line = line.replace(there, better)
    return line


def walk(run: Run, keeper: Keeper, until: str) -> Effort:
    """Do what ``check`` says until it says that; the effort so far."""
    effort, opened, turns = Effort(), set[str](), dict[str, int]()
    effort.types(f"buildbook {keeper.begin}\n")
    effort.reads(run(keeper.begin))
    effort.types("buildbook check shed\n")
    for _ in range(60):
        said = run("check shed")
        effort.rounds += 1
        effort.reads(PLACE.sub("", said))
        if until in " ".join(said.split()):
            effort.looked_up_s = sum(keeper.looked_up_s.values())
            return effort
        for file, block in re.findall(r"^In (\S+):\n\n((?:.+\n)+)", said, re.MULTILINE):
            effort.marks()
            effort.strikes(2)  # copied
            effort.strikes(2)  # to the window of the editor
            if file not in opened:
                effort.types(f"{file}\n")
                opened.add(file)
            effort.strikes(4)  # at its end, pasted
            path = Path("shed", file)
            lines = [fill(keeper, line, turns, effort) for line in block.splitlines()]
            path.write_text(path.read_text("utf-8") + "\n".join(lines) + "\n", "utf-8")
            effort.strikes(4)  # saved, and back to the terminal
        effort.strikes(2)  # the last command again
    raise AssertionError(said)


def questioned(keeper: Keeper, monkeypatch: pytest.MonkeyPatch, effort: Effort) -> list[str]:
    """Let the program ask, and answer; gives all that was asked, as it comes."""
    questions: list[str] = []
    turns: dict[str, int] = {}

    def answer(question: str) -> str:
        questions.append(question)
        told = question.strip()
        begun = max((one for one in keeper.asked if told.startswith(one)), key=len, default="")
        assert begun, f"nobody has told the keeper what to answer to {question!r}"
        said = keeper.asked[begun]
        if isinstance(said, tuple):
            turns[begun] = turns.get(begun, -1) + 1
            said = said[turns[begun] % len(said)]
        effort.reads(question)
        effort.types(f"{said}\n")
        effort.decisions += 1
        return said

    monkeypatch.setattr(sys.stdin, "isatty", lambda: True, raising=False)
    monkeypatch.setattr(sys.stdout, "isatty", lambda: True, raising=False)
    monkeypatch.setattr(builtins, "input", answer)
    return questions


@pytest.mark.parametrize(("keeper", "most_typed"), [(QUAD, 550), (AEROPLANE, 470)])
def test_asked_it_is_complete_under_thirty_minutes(
    typed_in: Run, monkeypatch: pytest.MonkeyPatch, keeper: Keeper, most_typed: int
) -> None:
    """Answering questions alone; afterwards nothing is open."""
    effort = Effort()
    effort.types(f"buildbook {keeper.begin}\n")
    effort.reads(typed_in(keeper.begin))
    questioned(keeper, monkeypatch, effort)
    effort.types("buildbook enter next shed\n")
    said = typed_in("enter next shed")
    effort.reads(said)
    effort.looked_up_s = sum(keeper.looked_up_s.values())

    assert "everything the program asks for is recorded" in " ".join(said.split())
    due = typed_in("due shed")
    assert "check flight - never done" in due
    assert due.count(" - ") == 1, due
    assert effort.typed <= most_typed
    assert effort.seconds(SLOW_KEY_S) < 30 * 60


@pytest.mark.parametrize(
    ("keeper", "most_typed", "most_rounds"), [(QUAD, 600, 10), (AEROPLANE, 550, 11)]
)
def test_in_an_editor_it_is_complete_in_a_dozen_rounds(
    typed_in: Run, keeper: Keeper, most_typed: int, most_rounds: int
) -> None:
    """Parts, places, spins, radio and every check are in the records; nothing is asked any more."""
    effort = walk(typed_in, keeper, "everything the program asks for is recorded")

    assert effort.typed <= most_typed
    assert effort.rounds <= most_rounds
    assert effort.seconds() < 40 * 60


def test_an_own_aircraft_on_a_page_under_ten_minutes(typed_in: Run) -> None:
    """``begin`` asks little enough that the first page stands at once."""
    effort = Effort()
    for command in (QUAD.begin, "render shed --into site"):
        effort.types(f"buildbook {command}\n")
        effort.reads(typed_in(command))
    effort.looked_up_s = 30

    assert Path("site/aircraft/tern/index.html").is_file()
    assert effort.seconds(SLOW_KEY_S) < 10 * 60
