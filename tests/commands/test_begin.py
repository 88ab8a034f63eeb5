"""``begin``: what it writes for a first aircraft, and what it leaves to the keeper."""

import builtins
import json
import re
import sys
from collections.abc import Mapping
from pathlib import Path

import jsonschema
import pytest
import yaml

from buildbook.desk.begin import First, starter
from buildbook.records.layouts import LAYOUTS, WINGED

KINDS = [("multirotor", name) for name in LAYOUTS if name not in WINGED]
KINDS += [("aeroplane", "aeroplane"), ("aeroplane", "custom"), ("glider", "glider")]


def plain_lines(text: str) -> list[str]:
    """The lines that are read, without comments."""
    return [line for line in text.splitlines() if not line.lstrip().startswith("#")]


@pytest.mark.parametrize(("kind", "layout"), KINDS)
def test_no_spin_and_no_output_is_filled_in(kind: str, layout: str) -> None:
    """Whatever the layout, both words stand in comments alone."""
    text = starter(First(kind=kind, layout=layout))["aircraft/first/aircraft.yaml"]
    read = "\n".join(plain_lines(text))

    assert [] == [word for word in ("spin", "output", "cw") if word in read]
    assert "# Left out on purpose: which " in text


@pytest.mark.parametrize(("kind", "layout"), KINDS)
def test_every_starter_reads_without_a_word(run, tmp_path: Path, kind: str, layout: str) -> None:
    """``check`` has nothing to say against the files of any layout."""
    begun = run("begin", tmp_path / "new", "--kind", kind, "--layout", layout)
    checked = run("check", tmp_path / "new")

    assert begun.out.splitlines()[0] == f"Wrote 11 files to {tmp_path / 'new'}."
    assert (checked.status, checked.err) == (0, "")
    assert checked.out.splitlines()[0] == "Read 1 aircraft, 0 items, 0 entries: no problems."


def test_it_says_what_is_left_to_the_keeper(run, tmp_path: Path) -> None:
    """On the terminal too, with the reason."""
    begun = run("begin", tmp_path / "new")

    assert [
        f"Wrote 11 files to {tmp_path / 'new'}.",
        "Nothing was asked, as this is no terminal; no answer was read. The aircraft is",
        "called First, a multirotor: --name, --kind, --layout, and --diagonal or --span",
        "say what it is.",
        "Left to you: which way each motor turns and which output drives it. One wrong",
        "line flips an aircraft at take-off; aircraft.yaml says where they go.",
        f"What to write next: buildbook check {tmp_path / 'new'}",
        f"To be asked for it instead: buildbook enter next {tmp_path / 'new'}",
        f"Next: buildbook render {tmp_path / 'new'} --into {tmp_path / 'new'}-site",
    ] == begun.out.splitlines()


def test_an_aeroplane_has_other_things_left_to_the_keeper(run, tmp_path: Path) -> None:
    """No motor of it flips it; its surfaces do, and its leads."""
    begun = run("begin", tmp_path / "new", "--kind", "aeroplane")

    assert [
        "Left to you: which socket of the receiver drives what, and which way the motor",
        "turns. A surface that goes the wrong way brings an aircraft down at take-off;",
        "aircraft.yaml says where they go.",
    ] == begun.out.splitlines()[1:4]


def test_a_starter_renders(run, tmp_path: Path) -> None:
    """The command that ``begin`` names next does its work."""
    run("begin", tmp_path / "new")
    rendered = run("render", tmp_path / "new", "--into", tmp_path / "site")

    assert (rendered.status, rendered.err) == (0, "")
    assert (tmp_path / "site/aircraft/first/index.html").is_file()


def test_an_aircraft_is_called_as_asked(run, tmp_path: Path) -> None:
    """The folder has the name in small letters; YAML gives the same name back."""
    run("begin", tmp_path / "new", "--name", "Ida's: No. 7", "--layout", "hexa-x")
    text = (tmp_path / "new/aircraft/ida-s-no-7/aircraft.yaml").read_text("utf-8")

    assert ['aircraft: "Ida\'s: No. 7"', "kind: multirotor", "layout: hexa-x"] == (
        plain_lines(text)[:3]
    )
    assert run("check", tmp_path / "new").status == 0


def test_a_layout_of_the_other_kind_is_wrong_use(run, tmp_path: Path) -> None:
    """It says which layouts there are, and writes nothing."""
    assert (
        2,
        "",
        "buildbook begin: 'y6' is not a layout of an aeroplane; it is one of aeroplane, custom\n",
    ) == run("begin", tmp_path / "new", "--kind", "aeroplane", "--layout", "y6")
    assert not (tmp_path / "new").exists()


def test_the_demo_takes_no_first_aircraft(run, tmp_path: Path) -> None:
    """An option that would be ignored is refused."""
    assert (2, "", "buildbook begin: --demo copies what is there; leave out --name\n") == run(
        "begin", tmp_path / "new", "--demo", "--name", "Heron"
    )


@pytest.mark.parametrize(
    ("words", "line"),
    [
        (("--diagonal", "430mm"), "diagonal: 430mm"),
        (("--span", "1.4 m"), "wing: {span: 1.4 m}"),
        (("--kind", "aeroplane", "--span", "55 in"), "wing: {span: 55 in}"),
    ],
)
def test_a_size_is_written_as_it_was_said(run, tmp_path: Path, words, line: str) -> None:
    """A span alone makes an aeroplane."""
    run("begin", tmp_path / "new", *words)
    text = (tmp_path / "new/aircraft/first/aircraft.yaml").read_text("utf-8")

    assert line in plain_lines(text)
    assert run("check", tmp_path / "new").status == 0


@pytest.mark.parametrize(
    ("words", "reason"),
    [
        (
            ("--diagonal", "430"),
            "'430' has no unit; write it with mm, cm, m or in, as in 430 mm",
        ),
        (("--diagonal", "430 m"), "430 m across can hardly be right"),
        (
            ("--kind", "aeroplane", "--diagonal", "430mm"),
            "an aeroplane has no --diagonal; its size is --span",
        ),
        (
            ("--programme", "mine"),
            "'mine' is not a built-in programme; it is one of built-in small-aeroplane,"
            " built-in small-glider, built-in small-multirotor",
        ),
    ],
)
def test_what_cannot_be_is_wrong_use_and_writes_nothing(
    run, tmp_path: Path, words, reason: str
) -> None:
    """One sentence each."""
    assert (2, "", f"buildbook begin: {reason}\n") == run("begin", tmp_path / "new", *words)
    assert not (tmp_path / "new").exists()


def answered(monkeypatch: pytest.MonkeyPatch, answers: list[str]) -> list[str]:
    """Let the program take a terminal for granted, and these answers; gives what it asks."""
    asked: list[str] = []

    def answer(question: str) -> str:
        asked.append(question)
        if not answers:
            raise EOFError
        return answers.pop(0)

    monkeypatch.setattr(sys.stdin, "isatty", lambda: True, raising=False)
    monkeypatch.setattr(sys.stdout, "isatty", lambda: True, raising=False)
    monkeypatch.setattr(builtins, "input", answer)
    return asked


def test_on_a_terminal_it_asks_and_fills_in_nothing_that_was_not_said(
    run, tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    """A slip is asked again; an empty answer leaves the size for later."""
    asked = answered(monkeypatch, ["Tern", "rocket", "aeroplane", "", ""])
    done = run("begin", tmp_path / "new")

    assert asked == [
        "its name [First]: ",
        "its kind: multirotor, aeroplane, glider [multirotor]: ",
        "its kind: multirotor, aeroplane, glider [multirotor]: ",
        "its layout: aeroplane, custom [aeroplane]: ",
        "its span, tip to tip, as in 1400 mm: ",
    ]
    assert "'rocket' is none of them." in done.out
    assert plain_lines((tmp_path / "new/aircraft/tern/aircraft.yaml").read_text("utf-8")) == [
        "aircraft: Tern",
        "kind: aeroplane",
        "layout: aeroplane",
        "status: building",
        "programme: built-in small-aeroplane",
    ]


@pytest.mark.parametrize(
    ("answers", "brackets", "layout"),
    [
        (["quad", "X", ""], ["multirotor", "quad-x", "quad-x"], "quad-x"),
        (["Multirotor", "Quad X"], ["multirotor", "quad-x"], "quad-x"),
        (["", "hexax", ""], ["multirotor", "quad-x", "hexa-x"], "hexa-x"),
        (["airplane", ""], ["multirotor", "aeroplane"], "aeroplane"),
        (["sailplane", ""], ["multirotor", "glider"], "glider"),
    ],
)
def test_a_near_word_is_understood_or_offered(
    run, tmp_path: Path, monkeypatch: pytest.MonkeyPatch, answers, brackets, layout
) -> None:
    """Capitals and spaces are no other word, and a word of the trade is taken; of a slip the likely
    one stands in brackets."""
    asked = answered(monkeypatch, ["Tern", *answers, ""])
    assert 0 == run("begin", tmp_path / "new").status

    assert brackets == [found for one in asked[1:] for found in re.findall(r"\[(\S+)\]", one)]
    text = (tmp_path / "new/aircraft/tern/aircraft.yaml").read_text("utf-8")
    assert f"layout: {layout}" in plain_lines(text)


def test_a_size_without_its_unit_is_offered_in_millimetres(
    run, tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    """As plans give it; Enter takes it."""
    asked = answered(monkeypatch, ["Tern", "", "", "250", ""])
    assert 0 == run("begin", tmp_path / "new").status

    assert "motor shaft to motor shaft, diagonally, as in 430 mm [250 mm]: " == asked[-1]
    text = (tmp_path / "new/aircraft/tern/aircraft.yaml").read_text("utf-8")
    assert "diagonal: 250 mm" in plain_lines(text)


def test_a_size_that_cannot_be_is_asked_for_again(
    run, tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    """What was answered before it stays answered."""
    asked = answered(monkeypatch, ["Tern", "", "", "31,5 cm", "430 m", "31.5 cm"])
    done = run("begin", tmp_path / "new")

    assert [asked[3]] * 3 == asked[3:]
    assert "'31,5 cm' " in done.out
    assert "430 m across can hardly be right." in done.out
    assert "diagonal: 31.5 cm" in plain_lines(
        (tmp_path / "new/aircraft/tern/aircraft.yaml").read_text("utf-8")
    )


def test_answers_that_end_early_write_nothing(
    run, tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    """Ctrl-D in the middle of the questions."""
    answered(monkeypatch, ["Tern"])

    assert run("begin", tmp_path / "new").status == 2
    assert not (tmp_path / "new").exists()


def test_another_aircraft_joins_a_hangar(run, tmp_path: Path) -> None:
    """By its name alone; what is there stays as it is, and nothing is written over."""
    shed = tmp_path / "shed"
    run("begin", shed, "--name", "Tern")
    before = {path: path.read_bytes() for path in shed.rglob("*") if path.is_file()}

    added = run("begin", shed, "--name", "Avocet", "--span", "1400 mm")

    assert (0, f"Wrote 2 files to {shed}.") == (added.status, added.out.splitlines()[0])
    assert before == {path: path.read_bytes() for path in before}
    assert "Read 2 aircraft, 0 items, 0 entries: no problems." in run("check", shed).out
    assert (
        2,
        "",
        f"buildbook begin: {shed}/aircraft/avocet is there already; give the new aircraft another"
        " name\n",
    ) == run("begin", shed, "--name", "Avocet")
    assert f"buildbook begin: {shed} is a hangar already; --name adds an aircraft to it\n" == (
        run("begin", shed).err
    )


def test_a_folder_that_holds_something_is_refused_before_anything_is_asked(
    run, tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    """Whoever answered five questions does not learn then that it was in vain."""
    (tmp_path / "letter.txt").write_text("kept")
    asked = answered(monkeypatch, ["Tern", "", "", ""])

    done = run("begin", tmp_path)

    assert [] == asked
    told = f"buildbook begin: {tmp_path} is not an empty folder; name a new one\n"
    assert (2, told) == (done.status, done.err)


@pytest.mark.parametrize(
    ("name", "slug"),
    [
        ("Möwe", "moewe"),
        ("Große Ärgernis", "grosse-aergernis"),
        ("Élan Côte", "elan-cote"),
        ("Bjørn Åse", "bjorn-ase"),
        ("Łoś", "los"),
        ("Æsc II", "aesc-ii"),
        ("Чайка", "chajka"),
        ("鷗", "first"),
    ],
)
def test_accents_are_folded_in_the_folder_and_kept_in_the_name(
    run, tmp_path: Path, name: str, slug: str
) -> None:
    """How letters are spelt without their accents is common practice, no source."""
    assert 0 == run("begin", tmp_path / "new", "--name", name).status

    text = (tmp_path / "new" / "aircraft" / slug / "aircraft.yaml").read_text("utf-8")
    assert f"aircraft: {name}" in plain_lines(text)
    assert 0 == run("check", tmp_path / "new").status


class Core(yaml.SafeLoader):
    """As an editor reads YAML 1.2: ``on`` is a word, and days are texts."""

    yaml_implicit_resolvers = {  # noqa: RUF012 (as the library has it)
        sign: [
            one
            for one in resolvers
            if not one[0].endswith("timestamp")
            and not (one[0].endswith("bool") and sign not in "tTfF")
        ]
        for sign, resolvers in yaml.SafeLoader.yaml_implicit_resolvers.items()
    }


def _read(text: str) -> object:
    return yaml.load(text, Core)


@pytest.mark.parametrize(
    ("kind", "layout"), [("multirotor", "y6"), ("aeroplane", "aeroplane"), ("glider", "glider")]
)
def test_each_file_names_its_schema_and_keeps_to_it(
    run, tmp_path: Path, kind: str, layout: str
) -> None:
    """By an independent validator; days stay texts, as the program reads them."""
    new = tmp_path / "new"
    run("begin", new, "--kind", kind, "--layout", layout)
    files = sorted(new.rglob("*.yaml"))

    assert len(files) == 5
    for path in files:
        text = path.read_text("utf-8")
        named = re.fullmatch(r"# yaml-language-server: \$schema=(\S+)", text.splitlines()[0])
        assert named is not None, path
        schema = json.loads((path.parent / named[1]).read_text("utf-8"))
        jsonschema.Draft202012Validator.check_schema(schema)
        assert list(jsonschema.Draft202012Validator(schema).iter_errors(_read(text))) == [], path


def asked_of(run, new: Path, name: str) -> str:
    """What is asked for next, as it is printed."""
    done = run("check", new)
    assert done.status == 0, done.out
    return done.out.split(f"Next for {name}: ", 1)[1]


def words_of(said: str) -> str:
    """In one line, whatever the day."""
    return re.sub(r"on: \d{4}-\d\d-\d\d", "on: DAY", " ".join(said.split()))


def test_a_glider_is_asked_for_no_motor(run, tmp_path: Path) -> None:
    """Receiver, servos, surfaces and a pack, then its checks; nothing turns on it."""
    new = tmp_path / "new"
    run("begin", new, "--name", "Kite", "--kind", "glider", "--span", "1900 mm")
    plan, log = new / "aircraft/kite/aircraft.yaml", new / "aircraft/kite/logbook.yaml"
    specs, items = new / "parts/specs.yaml", new / "parts/items.yaml"
    specs.write_text(SPECS, "utf-8")
    steps = [
        (
            "record receiver, servo and pack, each part with a tag that you write on it; what it"
            " has none of, or what bears no tag, you leave out, and write not_tracked: [receiver]"
            " in aircraft/kite/aircraft.yaml. In parts/items.yaml: - {tag: X-1, spec: x} - {tags:"
            " S-1..S-<last>, spec: s} - {tags: P-1..P-<last>, spec: b, acquired: <day>}",
            items,
            "- {tag: X-1, spec: x}\n- {tags: S-1..S-2, spec: s}\n",
        ),
        (
            "record pack, each part with a tag that you write on it; what it has none of, or what"
            " bears no tag, you leave out, and write not_tracked: [battery] in"
            " aircraft/kite/aircraft.yaml. In parts/items.yaml: - {tags: P-1..P-<last>, spec: b,"
            " acquired: <day>}",
            plan,
            "not_tracked: battery\n",
        ),
        (
            "say what sits where: the tag of each part. In aircraft/kite/logbook.yaml: - on: DAY"
            " fit: fuselage: {receiver: X-1}",
            log,
            "- {on: 2026-02-01, fit: {fuselage: {receiver: X-1}}}\n",
        ),
        (
            "say which surfaces steer it, which servo moves each: leave out what it lacks; if it"
            " has none, write not_tracked: [surfaces]. Give the channels in the order of the"
            " receiver's sockets. Say what each channel does when the link is lost; set it first."
            " In aircraft/kite/aircraft.yaml: surfaces: elevator: S-<number> rudder: S-<number>"
            " aileron: S-<number> sockets: [<channels in order as in aileron>] radio: {failsafe:"
            " {<channel>: <as in slightly left>, rest: <as in centre or hold>}}",
            plan,
            "surfaces:\n  elevator: S-1\n  rudder: {left: 20 mm}\nsockets: [rudder, elevator]\n"
            "radio: {failsafe: {rudder: slightly left, rest: hold}}\n",
        ),
        (
            "say which servo moves the rudder; if it has none that bears a tag, write not_tracked:"
            " [servo]. Put what belongs there below surfaces. In"
            " aircraft/kite/aircraft.yaml: rudder: S-<number>",
            plan,
            ("{left: 20 mm}", "S-2"),
        ),
        (
            "fit the servos that move its surfaces: S-1 and S-2. In aircraft/kite/logbook.yaml: -"
            " on: DAY fit: <where they sit as in wing>: {servo: [S-1, S-2]}",
            log,
            "- {on: 2026-02-01, fit: {servo-tray: {servo: [S-1, S-2]}}}\n",
        ),
    ]
    for sentence, path, answer in steps:
        said = words_of(asked_of(run, new, "Kite"))
        assert f"{sentence} To be asked for it instead: buildbook enter next kite {new}" == said
        text = path.read_text("utf-8")
        path.write_text(
            text + answer if isinstance(answer, str) else text.replace(*answer), "utf-8"
        )
    assert words_of(asked_of(run, new, "Kite")).startswith(
        "10 set-up checks left; now on the bench, no pack plugged in, in this order;"
        " write what you find. hinges: Unplug the pack. Pull at each surface, horn and pushrod;"
    )


def test_a_motor_on_a_glider_is_told(run, tmp_path: Path) -> None:
    """Whoever fits one has an aeroplane, whose propeller must not be left out of every look."""
    new = tmp_path / "new"
    run("begin", new, "--name", "Kite", "--kind", "glider")
    (new / "parts/specs.yaml").write_text(SPECS, "utf-8")
    (new / "parts/items.yaml").write_text("- {tag: M-1, spec: m}\n", "utf-8")
    log = new / "aircraft/kite/logbook.yaml"
    log.write_text("- {on: 2026-02-01, fit: {nose: {motor: M-1}}}\n", "utf-8")

    assert (
        "problem: a motor is fitted, and layout 'glider' has no motor @"
        " aircraft/kite/logbook.yaml:1 with a motor it is layout: aeroplane 1 problem"
    ) in " ".join(run("check", new).out.split())


FILLED: Mapping[str, str] = {
    "<your name; it stays private>": "Ida Quill",
    "<in m>": "120 m",
    "<in °C>": "15 °C",
    "<in g>": "50 g",
    "<rpm/V>": "900 rpm/V",
    "<in mAh>": "2200 mAh",
    "<the day>": "2026-02-01",
    "<cw or ccw, seen from above>": "ccw",
    "<cw or ccw, seen from behind>": "cw",
    "<number>": "3",
    "<motor shaft to motor shaft through the centre>": "430 mm",
    "<tip to tip>": "1400 mm",
    "<forward>": "120 mm",
    "<right>": "-90 mm",
    "<down>": "0 mm",
}
EXAMPLE = re.compile(r"# ((?:- \{|[a-z_]+: | {2}\S+: |[a-z]+:$).*)")
"""A line of a file behind the sign of a comment; other comments are prose."""


@pytest.mark.parametrize(("kind", "layout"), KINDS)
def test_every_example_in_a_comment_can_be_taken_as_it_stands(
    run, tmp_path: Path, kind: str, layout: str
) -> None:
    """Uncommented, with what only the keeper knows filled in, there is nothing to say."""
    new = tmp_path / "new"
    run("begin", new, "--kind", kind, "--layout", layout)
    station = next(iter(LAYOUTS[layout].names), "nose")
    channels = iter(("aileron", "elevator", "throttle", "rudder"))
    taken = []
    for path in new.rglob("*.yaml"):
        lines = path.read_text("utf-8").splitlines()
        for number, line in enumerate(lines):
            if (found := EXAMPLE.fullmatch(line)) is None or "yaml-language" in line:
                continue
            text = found[1].replace("<station>", station)
            while "<channel>" in text:
                text = text.replace("<channel>", next(channels), 1)
            for asked, answer in FILLED.items():
                text = text.replace(asked, answer)
            assert "<" not in text
            lines[number] = text
            taken.append(text.split(":")[0].strip("- {"))
        path.write_text("\n".join(lines) + "\n", "utf-8")

    checked = run("check", new)
    assert checked.out.splitlines()[0] == "Read 1 aircraft, 1 item, 0 entries: no problems."
    assert {"keeper", "field_elevation", "field_temperature", "spec", "tag"} < set(taken)
    own = {"multirotor": "stations", "aeroplane": "receiver", "glider": "sockets"}
    assert own[kind] in taken
    assert "receiver's sockets" not in checked.out


def test_one_esc_for_all_and_a_receiver_without_a_controller(run, tmp_path: Path) -> None:
    """What serves several stations is not asked for at each; sockets stand where leads would."""
    new = tmp_path / "new"
    run("begin", new, "--name", "Tern", "--layout", "tri-y", "--diagonal", "300mm")
    run("begin", new, "--name", "Kite", "--kind", "aeroplane", "--span", "1m")
    (new / "parts/specs.yaml").write_text(SPECS, "utf-8")
    (new / "parts/items.yaml").write_text(
        "- {tags: M-1..M-4, spec: m}\n- {tags: E-1..E-2, spec: e}\n- {tags: R-1..R-4, spec: r}\n",
        "utf-8",
    )
    tern = new / "aircraft/tern/aircraft.yaml"
    none = "not_tracked: [frame, controller, receiver, servo, battery]\n"
    tern.write_text(f"{tern.read_text('utf-8')}{none}", "utf-8")
    fits = {
        "tern": "{front-left: {motor: M-1}, front-right: {motor: M-2}, rear: {motor: M-3},"
        " centre: {esc: E-1}}",
        "kite": "{nose: {motor: M-4, esc: E-2}}",
    }
    for slug, fit in fits.items():
        log = new / f"aircraft/{slug}/logbook.yaml"
        log.write_text(f"- {{on: 2026-02-01, fit: {fit}}}\n", "utf-8")
    kite = new / "aircraft/kite/aircraft.yaml"
    own = "not_tracked: [frame, controller, receiver, servo, surfaces, battery]\n"
    kite.write_text(f"{kite.read_text('utf-8')}{own}stations: {{nose: {{spin: cw}}}}\n", "utf-8")

    said = " ".join(run("check", new).out.split())

    assert (
        "Next for Kite: give the channels in the order of the receiver's sockets. Say what each"
        " channel does when the link is lost; set it first."
        " In aircraft/kite/aircraft.yaml: sockets: [<channels in order as in aileron>] radio:"
        " {failsafe: {throttle: <as in cut>, rest: <as in centre or hold>}}"
    ) in said
    assert (
        "Next for Tern: say that E-1 drives front-left, front-right and rear, in the entry that"
        " fitted it. In aircraft/tern/logbook.yaml: serves: {E-1: [front-left, front-right, rear]}"
    ) in said


def test_each_kind_of_part_is_asked_for_before_it_is_fitted(run, tmp_path: Path) -> None:
    """Nobody is told to fit an ESC that is in no list; one that drives several is enough."""
    new = tmp_path / "new"
    run("begin", new, "--name", "Tern", "--layout", "tri-y", "--diagonal", "380mm")
    (new / "parts/specs.yaml").write_text(SPECS, "utf-8")
    items, log = new / "parts/items.yaml", new / "aircraft/tern/logbook.yaml"

    def asked() -> str:
        return " ".join(run("check", new).out.split("Next for Tern: ", 1)[1].split())

    items.write_text("- {tags: M-1..M-2, spec: m}\n- {tag: P-4, spec: b}\n", "utf-8")
    assert asked().startswith(
        "record motor, ESC, frame, controller, receiver, servo and propeller,"
    )
    assert (
        "- {tag: M-3, spec: m} - {tags: E-1..E-3, spec: e} - {tag: F-1, spec: f} - {tag: C-1,"
        " spec: c}" in asked()
    )
    assert "an ESC that drives several motors is one: tag: E-1 alone" in asked()
    items.write_text(
        "- {tags: M-1..M-3, spec: m}\n- {tag: E-4, spec: e}\n- {tag: C-7, spec: c}\n- {tag: X-1,"
        " spec: x}\n- {tag: S-2, spec: s}\n- {tags: R-1..R-3, spec: r}\n- {tag: P-4, spec: b}\n"
        "- {tag: F-1, spec: f}\n",
        "utf-8",
    )
    assert (
        "fit: front-left: {motor: M-<number>} front-right: {motor: M-<number>} rear: {motor:"
        " M-<number>, servo: S-2} centre: {esc: E-4, frame: F-1, controller: C-7, receiver: X-1}"
        " serves: {E-4: [front-left, front-right, rear]} To be asked"
    ) in asked()
    fit = "{front-left: {motor: M-1}, front-right: {motor: M-2}, rear: {motor: M-3, servo: S-2}"
    once = "frame: F-1, controller: C-7, receiver: X-1, esc: E-4"
    log.write_text(f"- on: 2026-01-03\n  fit: {fit}, centre: {{{once}}}}}\n", "utf-8")
    assert asked().startswith("say that E-4 drives front-left, front-right and rear,")


def test_the_hand_of_a_propeller_is_asked_for_before_it_is_fitted(run, tmp_path: Path) -> None:
    """A spec that does not say it; sure: true on it says that it is meant so."""
    new = tmp_path / "new"
    run("begin", new, "--name", "Kite", "--span", "1 m")
    plan, log = new / "aircraft/kite/aircraft.yaml", new / "aircraft/kite/logbook.yaml"
    specs = new / "parts/specs.yaml"
    specs.write_text(SPECS, "utf-8")
    (new / "parts/items.yaml").write_text(
        "- {tag: M-1, spec: m}\n- {tag: E-1, spec: e}\n- {tag: R-1, spec: r}\n", "utf-8"
    )
    plan.write_text(
        f"{plan.read_text('utf-8')}not_tracked: [receiver, servo, surfaces, battery]\n"
        "stations: {nose: {spin: cw}}\nsockets: [throttle]\nradio: {failsafe: {throttle: cut}}\n",
        "utf-8",
    )
    log.write_text(
        "- {on: 2026-01-03, fit: {nose: {motor: M-1, esc: E-1}}}\n"
        "- {on: 2026-01-04, check: [hinges, motor-screws, receiver-order, receiver-neutral,"
        " surface-sense, surface-throws, stick-sense, mode-switches, low-voltage-alarm,"
        " esc-endpoints, throttle-cut, spin-directions, start-spread, failsafe, range],"
        " result: pass}\n"
        "- {on: 2026-01-04, inspection: [screws-and-mounts, solder-and-leads], result: pass}\n",
        "utf-8",
    )
    asked = words_of(asked_of(run, new, "Kite"))
    assert asked.startswith(
        "say which way each propeller turns, seen from ahead, in its spec: r; one that turns the"
        " other way is a spec of its own. In parts/specs.yaml: hand: <cw or ccw seen from ahead>"
    )
    specs.write_text(SPECS.replace("size: 10x5", "size: 10x5, hand: ccw"), "utf-8")
    assert words_of(asked_of(run, new, "Kite")).startswith(
        "fit the propellers now, the pack unplugged: which sits where; by the plan ccw at nose,"
        " seen from ahead. In aircraft/kite/logbook.yaml: - on: DAY fit: nose: {propeller: R-1}"
    )


def test_propellers_of_both_hands_are_recorded_by_halves(run, tmp_path: Path) -> None:
    """Where the records have a spec of each already, as those begun after a build do."""
    new = tmp_path / "new"
    run("begin", new, "--name", "Tern", "--diagonal", "380mm")
    both = (
        "- {spec: r-l, kind: propeller, size: 9x5, hand: ccw}\n"
        "- {spec: r-r, kind: propeller, size: 9x5, hand: cw}\n"
    )
    (new / "parts/specs.yaml").write_text(
        SPECS.replace("- {spec: r,", "# {spec: r,") + both, "utf-8"
    )
    assert "- {tags: R-1..R-2, spec: r-l} - {tags: R-3..R-4, spec: r-r}" in (
        words_of(asked_of(run, new, "Tern"))
    )


@pytest.mark.parametrize(("spec", "other"), [("cw", "propeller-ccw"), ("ccw", "propeller-cw")])
def test_where_one_hand_is_recorded_the_other_is_asked_for(
    run, tmp_path: Path, spec: str, other: str
) -> None:
    """Two propellers of each hand go on a quad, whichever spec is there already."""
    new = tmp_path / "new"
    run("begin", new, "--name", "Tern", "--diagonal", "380mm")
    (new / "parts/specs.yaml").write_text(
        SPECS.replace("size: 10x5", f"size: 10x5, hand: {spec}"), "utf-8"
    )
    (new / "aircraft/tern/aircraft.yaml").write_text(
        (new / "aircraft/tern/aircraft.yaml").read_text("utf-8")
        + "not_tracked: [frame, controller, receiver, battery]\n",
        "utf-8",
    )

    asked = words_of(asked_of(run, new, "Tern"))

    hand = other.rpartition("-")[2]
    assert f"{{spec: {other}, kind: propeller, mass: <mass> g, size: " in asked
    assert f"hand: {hand}}}" in asked
    assert "- {tags: R-1..R-2, spec: r} " in asked
    assert f"- {{tags: R-3..R-4, spec: {other}}}" in asked

    (new / "parts/items.yaml").write_text("- {tags: R-1..R-4, spec: r}\n", "utf-8")
    asked = words_of(asked_of(run, new, "Tern"))
    assert f"- {{tags: R-5..R-6, spec: {other}}}" in asked


def second(run, shed: Path, *words: str) -> str:
    """What is said of an aircraft that is begun beside a quad whose motor is fitted."""
    run("begin", shed, "--name", "Tern", "--diagonal", "300 mm")
    (shed / "parts/specs.yaml").write_text("- {spec: m, kind: motor, mass: 31 g}\n", "utf-8")
    (shed / "parts/items.yaml").write_text("- {tag: M-1, spec: m}\n", "utf-8")
    (shed / "aircraft/tern/logbook.yaml").write_text(
        "- {on: 2026-02-01, fit: {rear-left: {motor: M-1}}}\n", "utf-8"
    )
    run("begin", shed, "--name", "Kite", *words)
    return words_of(asked_of(run, shed, "Kite"))


def test_no_spec_of_a_quad_is_taken_for_an_aeroplane(run, tmp_path: Path) -> None:
    """A spec of its own is asked for, under a name that is free."""
    said = second(run, tmp_path / "shed", "--span", "1 m")

    assert "- {spec: motor, kind: motor, " in said
    assert "- {tag: M-2, spec: motor}" in said


def test_a_spec_of_another_quad_is_said_to_be_that(run, tmp_path: Path) -> None:
    """It may be the same motor; the keeper has to know whose it is so far."""
    said = second(run, tmp_path / "shed", "--diagonal", "300 mm")

    assert "- {tags: M-2..M-5, spec: m}" in said
    assert (
        "the spec m so far is of Tern: write one of its own where its motor is another. In parts/"
    ) in said


def test_a_place_that_was_not_filled_in_is_told(run, tmp_path: Path) -> None:
    """Each on its line, and nothing else of that file; words of a note in quotes are none."""
    new = tmp_path / "new"
    run("begin", new, "--name", "Kite", "--span", "1 m")
    specs = new / "parts/specs.yaml"
    specs.write_text(
        "- {spec: m, kind: motor, mass: <mass> g, kv: 900 rpm/V}\n"
        '- {spec: e, kind: esc, mass: 20 g, note: "<mass>"}\n- {spec: <name>, kind: esc}\n',
        "utf-8",
    )
    hint = "write what you read or measured in place of <…>, brackets too; or delete that line"
    assert [
        "problem: '<mass> g' is still to be filled in @ parts/specs.yaml:1",
        f"    {hint[:75].rpartition(' ')[0]}",
        f"    {hint[len(hint[:75].rpartition(' ')[0]) + 1 :]}",
        "problem: '<name>' is still to be filled in @ parts/specs.yaml:3",
    ] == run("check", new).out.splitlines()[:4]


SPECS = """\
- {spec: m, kind: motor, mass: 50 g, kv: 900 rpm/V}
- {spec: e, kind: esc, mass: 20 g}
- {spec: r, kind: propeller, mass: 10 g, size: 10x5}
- {spec: b, kind: battery, cells: 3S, capacity: 1300 mAh, mass: 120 g, chemistry: LiPo}
- {spec: x, kind: receiver, mass: 9 g}
- {spec: s, kind: servo, mass: 9 g}
- {spec: c, kind: controller, mass: 20 g}
- {spec: f, kind: frame, mass: 90 g}
"""


@pytest.mark.parametrize(("word", "kind"), [("plane", "aeroplane"), ("quad", "multirotor")])
def test_another_word_for_a_kind_is_led_on(run, tmp_path: Path, word: str, kind: str) -> None:
    """As in the files."""
    ran = run("begin", tmp_path / "shed", "--name", "Tern", "--kind", word)

    assert 2 == ran.status
    assert ran.err.endswith(
        f"argument --kind: '{word}' is not multirotor, aeroplane or glider;"
        f" did you mean '{kind}'?\n"
    )
