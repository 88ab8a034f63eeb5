"""``buildbook completion SHELL``: print a script by which a shell completes what is typed."""

import argparse
import shlex
from collections.abc import Iterable, Iterator, Sequence
from importlib import import_module
from typing import Any

from buildbook.desk.spoken import further
from buildbook.records.entries.kinds import AMENDING, KINDS

SHELLS = ("bash", "zsh")

_FRAME = """\
# Completion of buildbook; load it with: {how}
_buildbook() {{
    local current=${{COMP_WORDS[COMP_CWORD]}} before=${{COMP_WORDS[COMP_CWORD-1]}} words=
    if (( COMP_CWORD == 1 )); then
        words={commands}
    elif [[ $current != -* ]]; then
        case "${{COMP_WORDS[1]}} $before" in
{choices}
        esac
    else
        case "${{COMP_WORDS[1]}}" in
{options}
        esac
        if [[ ${{COMP_WORDS[1]}} == enter ]]; then
            case "${{COMP_WORDS[2]}}" in
{keys}
            esac
        fi
    fi
    COMPREPLY=( $(compgen -W "$words" -- "$current") )
}}
complete -o default -F _buildbook buildbook
"""
_HOW = {
    "bash": 'eval "$(buildbook completion bash)"',
    "zsh": 'eval "$(buildbook completion zsh)"',
}
_ZSH = "autoload -U +X bashcompinit && bashcompinit\n"


def options(parser: argparse.ArgumentParser) -> None:
    """Declare the options."""
    parser.add_argument("shell", choices=SHELLS, help="the shell that is to complete")


def run(options: argparse.Namespace) -> int:
    """Print the script that the shell is to read."""
    print(script(options.shell), end="")
    return 0


class _Noted(argparse.ArgumentParser):
    """Notes what is declared: options, and what may stand behind each or in a place."""

    def __init__(self) -> None:
        self.flags: list[str] = []
        self.choices: dict[str, Sequence[str]] = {}
        super().__init__(add_help=False)

    def add_argument(self, *names: str, **more: Any) -> argparse.Action:
        """Note the flags and choices, then go on as argparse does."""
        flags = [name for name in names if name.startswith("--")]
        self.flags += flags
        if more.get("choices"):
            for name in flags or ("",):
                self.choices[name] = tuple(map(str, more["choices"]))
        return super().add_argument(*names, **more)


def script(shell: str) -> str:
    """The script for a shell: all commands, their options, and what may stand behind each."""
    from buildbook.commands.main import COMMANDS  # it loads this module

    choices: list[str] = []
    named: list[str] = []
    flags: dict[str, list[str]] = {}
    for name, command in COMMANDS.items():
        noted = _Noted()
        import_module(f"buildbook.commands.{command.module}").options(noted)
        flags[name] = noted.flags
        named.append(_case(name, ["--help", *noted.flags]))
        choices += (
            _case(f"{name} {flag or name}", allowed) for flag, allowed in noted.choices.items()
        )
    choices.append(_case("enter enter", [*KINDS, *AMENDING, "next"]))
    text = _FRAME.format(
        how=_HOW[shell],
        commands=shlex.quote(" ".join(COMMANDS)),
        choices=_indented(choices, 12),
        options=_indented(named, 12),
        keys=_indented(_keys(flags["enter"]), 16),
    )
    return text if shell == "bash" else _ZSH + text


def _keys(flags: Sequence[str]) -> Iterator[str]:
    """The options of each kind of entry, beside those of ``enter``."""
    for kind in (*KINDS, *AMENDING):
        keys = (f"--{key.replace('_', '-')}" for key in further(kind))
        words = " ".join(key for key in keys if key not in flags)
        yield f'{kind}) words="$words {words}" ;;'


def _case(pattern: str, words: Iterable[str]) -> str:
    return f"{shlex.quote(pattern)}) words={shlex.quote(' '.join(words))} ;;"


def _indented(lines: Iterable[str], by: int) -> str:
    return "\n".join(f"{' ' * by}{line}" for line in lines)
