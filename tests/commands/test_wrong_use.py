"""Commands called in a way that they don't take: one sentence, exit status 2."""

import shlex
import subprocess
import sys
from pathlib import Path

import pytest

from buildbook import __version__
from buildbook.commands.main import COMMANDS, main
from buildbook.publish.preview.server import PreviewServer


@pytest.mark.parametrize("words", [("check",), ("due",), ("figures", "heron"), ("render",)])
def test_a_hangar_that_is_not_there_is_wrong_use(
    run, tmp_path: Path, words, monkeypatch: pytest.MonkeyPatch
) -> None:
    """No record is at fault, so it is not 1; one sentence."""
    monkeypatch.chdir(tmp_path)
    assert (
        2,
        "",
        f"buildbook {words[0]}: cannot read the folder 'nowhere': it is not there, "
        "or a link that leads nowhere; a hangar is a folder with a hangar.yaml\n",
    ) == run(*words, "nowhere")


def test_a_folder_that_is_no_hangar_is_wrong_use(
    run, tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    """The file it lacks is named, or the one that was meant to be it."""
    monkeypatch.chdir(tmp_path)
    (tmp_path / "shed").mkdir()
    (tmp_path / "shed/hangar.yml").write_text("format: 1\n", "utf-8")

    assert (
        2,
        "",
        "buildbook check: the folder 'shed' has no hangar.yaml; "
        "rename 'hangar.yml' to hangar.yaml\n",
    ) == run("check", "shed")


@pytest.mark.parametrize("words", [("check",), ("due",), ("figures", "heron"), ("render",)])
def test_a_hangar_given_twice_is_wrong_use(run, loft: Path, words) -> None:
    """Nobody can say which was meant."""
    assert (
        2,
        "",
        f"buildbook {words[0]}: the hangar is given twice; leave out HANGAR or --hangar\n",
    ) == run(*words, loft, "--hangar", loft)


def test_figures_of_a_hangar_asks_for_a_name(
    run, loft: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    """The one word given is a hangar: an aircraft of it is offered."""
    monkeypatch.chdir(loft.parent)
    assert (
        2,
        "",
        "buildbook figures: 'loft' is a hangar; of which aircraft or item? "
        "as in buildbook figures heron loft\n",
    ) == run("figures", "loft")


def test_figures_of_an_aircraft_called_like_a_folder(
    run, loft: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    """Within a hangar a name is an aircraft, whatever folders lie beside."""
    (loft / "heron").mkdir()
    (loft / "heron/hangar.yaml").write_text("format: 1\nhangar: Other\n", "utf-8")
    monkeypatch.chdir(loft)

    assert 0 == run("figures", "heron").status


@pytest.mark.parametrize("command", [name for name in COMMANDS if name != "enter"])
def test_every_help_has_examples_that_work(
    run, demo: Path, tmp_path: Path, command: str, monkeypatch: pytest.MonkeyPatch
) -> None:
    """Each line is typed as it stands, beside a copy of the demo."""
    monkeypatch.chdir(tmp_path)
    monkeypatch.setattr(PreviewServer, "serve_forever", lambda *_, **__: None)  # ended at once
    if command != "begin":
        (tmp_path / "my-hangar").symlink_to(demo)

    examples = run(command, "--help").out.partition("\nexamples:\n")[2].splitlines()

    assert examples
    for line in examples:
        program, *words = shlex.split(line)
        assert ("buildbook", command) == (program, words[0])
        assert run(*words).status in (0, 3), line


def test_enter_shows_examples(run) -> None:
    """The examples of ``enter`` are run where entries are tested; its help shows them."""
    assert "\nexamples:\n  buildbook enter flight sedge 7:20" in run("enter", "--help").out


def test_the_program_runs_as_a_module() -> None:
    """``python -m buildbook`` where no script was installed."""
    ran = subprocess.run(
        [sys.executable, "-m", "buildbook", "--version"], capture_output=True, text=True, check=True
    )

    assert f"buildbook {__version__}\n" == ran.stdout


def test_an_aircraft_in_place_of_a_hangar_is_led_on(
    run, loft: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    """In the folder of the hangar its aircraft are near at hand."""
    monkeypatch.chdir(loft)
    slug = min(path.name for path in (loft / "aircraft").iterdir())
    assert (
        2, "", f"buildbook due: {slug} is an aircraft, not a hangar: write --aircraft {slug}\n"
    ) == run("due", slug)  # fmt: skip


@pytest.mark.parametrize(
    ("words", "told"),
    [
        ("flight heron 7:20", "'flight' is not a command but a kind of entry: buildbook enter"),
        ("check heron failsafe pass", "to write a check: buildbook enter check heron failsafe"),
    ],
)
def test_an_entry_in_place_of_a_command_is_led_on(
    capsys: pytest.CaptureFixture[str], words: str, told: str
) -> None:
    """Whoever leaves out enter learns it at once."""
    with pytest.raises(SystemExit) as ended:
        main(words.split())

    assert 2 == ended.value.code
    assert told in " ".join(capsys.readouterr().err.split())
