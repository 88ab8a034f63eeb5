"""What a shell completes: asked of bash itself, with the script that the command prints."""

import argparse
import os
import re
import shutil
import subprocess
from importlib import import_module
from pathlib import Path

import pytest

from buildbook.commands.completion import script
from buildbook.commands.main import COMMANDS
from buildbook.records.entries.kinds import AMENDING, KINDS

BASH = shutil.which("bash")
pytestmark = pytest.mark.skipif(BASH is None, reason="no bash on this machine")


def completed(line: str) -> list[str]:
    """What bash offers for the last word of a line, as a user would be shown it."""
    asked = f"""{script("bash")}
complete -p buildbook >/dev/null || exit 9
COMP_WORDS=({line.removesuffix(" ")}{" ''" if line.endswith(" ") else ""})
COMP_CWORD=$(( ${{#COMP_WORDS[@]}} - 1 ))
_buildbook
printf '%s\\n' "${{COMPREPLY[@]}}"
"""
    done = subprocess.run(
        [BASH or "bash", "-u", "-c", asked], capture_output=True, text=True, check=True
    )
    assert "" == done.stderr
    return done.stdout.split()


def test_commands_are_completed() -> None:
    """All of them, and those that begin like the word."""
    assert list(COMMANDS) == completed("buildbook ")
    assert ["begin"] == completed("buildbook be")
    assert ["check", "completion"] == completed("buildbook c")


@pytest.mark.parametrize("name", COMMANDS)
def test_every_option_of_a_command_is_offered(name: str) -> None:
    """Those that its help shows."""
    parser = argparse.ArgumentParser(prog=name)
    import_module(f"buildbook.commands.{COMMANDS[name].module}").options(parser)
    parser.usage = parser.epilog = None
    shown = {word.strip("[],") for word in parser.format_help().split() if "--" in word}
    offered = completed(f"buildbook {name} --")

    assert {word for word in shown if re.fullmatch("--[a-z-]+", word)} <= set(offered)
    assert "--help" in offered


@pytest.mark.parametrize(
    ("line", "offered"),
    [
        ("buildbook render --for ", ["owner", "public"]),
        ("buildbook render my-hangar --for p", ["public"]),
        ("buildbook begin new --kind a", ["aeroplane"]),
        ("buildbook completion ", ["bash", "zsh"]),
        ("buildbook enter fl", ["flight", "flights"]),
        ("buildbook enter flight sedge 7:20 --pa", ["--pack", "--payload"]),
        ("buildbook enter charge --put", ["--put-in"]),
        ("buildbook enter --und", ["--undo"]),
        ("buildbook render my", []),  # a folder: bash completes files itself
    ],
)
def test_what_may_stand_there_is_offered(line: str, offered: list[str]) -> None:
    """Choices of an option, kinds of entry, keys of a kind; nothing where a file is meant."""
    assert offered == completed(line)


def test_every_kind_has_its_keys() -> None:
    """With hyphens for underscores, and no key twice."""
    for kind in (*KINDS, *AMENDING):
        found = completed(f"buildbook enter {kind} x --")
        assert len(found) == len(set(found)), kind
        assert not [word for word in found if "_" in word]


@pytest.mark.parametrize("shell", ["bash", "zsh"])
def test_the_command_prints_the_script(run, shell: str) -> None:
    """With how it is loaded; zsh takes bash's way of completing."""
    ran = run("completion", shell)

    assert (0, script(shell), "") == ran
    assert f'eval "$(buildbook completion {shell})"' in ran.out
    assert ("bashcompinit" in ran.out) == (shell == "zsh")


@pytest.mark.skipif(shutil.which("zsh") is None, reason="no zsh on this machine")
def test_zsh_takes_it() -> None:
    """Loaded without a word of complaint."""
    done = subprocess.run(
        ["zsh", "-fc", "autoload -U compinit && compinit -u\n" + script("zsh")],
        capture_output=True,
        text=True,
        check=False,
    )
    assert (0, "") == (done.returncode, done.stderr)


TYPED = """\
zmodload zsh/zpty
zpty typed 'TERM=dumb zsh -fi'
zpty -w typed 'PS1="> "; autoload -U compinit; compinit -u -D; source $SCRIPT; print LOAD''ED'
zpty -r typed answer '*LOADED*'
zpty -w -n typed $LINE$'\\t'
zpty -r typed answer "*$WANTED*" && print -r -- ${answer##*LOADED}
zpty -d typed
"""


@pytest.mark.skipif(shutil.which("zsh") is None, reason="no zsh on this machine")
@pytest.mark.parametrize(
    ("line", "wanted"),
    [
        ("buildbook che", "buildbook check "),
        ("buildbook render --for pub", "buildbook render --for public "),
        ("buildbook enter flight --us", "buildbook enter flight --used "),
    ],
)
def test_a_tab_typed_into_zsh(tmp_path: Path, line: str, wanted: str) -> None:
    """An interactive zsh on a terminal of its own writes the word to its end."""
    source = tmp_path / "completion.zsh"
    source.write_text(script("zsh"), "utf-8")

    done = subprocess.run(
        ["zsh", "-fc", TYPED],
        capture_output=True,
        text=True,
        timeout=60,
        cwd=tmp_path,
        env={**os.environ, "SCRIPT": str(source), "LINE": line, "WANTED": wanted},
    )

    assert wanted in done.stdout, done.stdout + done.stderr


def test_another_shell_is_wrong_use(run) -> None:
    """It says which there are."""
    ran = run("completion", "fish")

    assert 2 == ran.status
    assert "invalid choice: 'fish' (choose from 'bash', 'zsh')" in ran.err
