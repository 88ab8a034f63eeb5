"""A process of the program's own: it collects no rubbish, and ends with the command."""

import gc
import os
import subprocess
import sys
import tomllib
from importlib import import_module
from pathlib import Path

import pytest

from buildbook.__main__ import start
from buildbook.commands import main as program

ROOT = Path(__file__).parents[2]


def ran(*words: str, measured: bool = False) -> subprocess.CompletedProcess[str]:
    """``python -m buildbook``, its output through a pipe."""
    profiler = ["-m", "cProfile"] if measured else []
    return subprocess.run(
        [sys.executable, *profiler, "-m", "buildbook", *words],
        capture_output=True,
        text=True,
        check=False,
    )


def test_what_was_said_is_whole_and_the_status_is_that_of_the_command(loft: Path) -> None:
    """Nothing is left in a buffer: 1 for a problem, 3 for what is due, 2 for wrong use."""
    due = ran("due", str(loft))
    assert (3, "") == (due.returncode, due.stderr)
    assert due.stdout.startswith("Record to 20 November 2026\n")
    wrong = ran("due", "--within", "soon", str(loft))
    assert (
        "buildbook due: --within: 'soon' is not a number of days; write it like 30d\n"
        == wrong.stderr
    )
    assert (2, "") == (wrong.returncode, wrong.stdout)


def test_the_process_ends_with_the_command_and_is_not_searched_for_rubbish(
    monkeypatch: pytest.MonkeyPatch,
) -> None:
    """Python would take apart, one by one, what the system has back at once."""
    seen: list[tuple[str, object]] = []

    def main() -> int:
        seen.append(("collector", gc.isenabled()))
        return 3

    monkeypatch.setattr(program, "main", main)
    monkeypatch.setattr(os, "_exit", lambda status: seen.append(("ended", status)))
    monkeypatch.setattr(sys, "getprofile", lambda: None)
    monkeypatch.setattr(sys, "gettrace", lambda: None)
    try:
        with pytest.raises(SystemExit):
            start()
    finally:
        gc.enable()
    assert [("collector", False), ("ended", 3)] == seen


def test_a_profiler_is_told_of_the_end(loft: Path) -> None:
    """Else it would print nothing."""
    done = ran("check", str(loft), measured=True)
    assert "function calls" in done.stdout


def test_the_installed_script_starts_it_so() -> None:
    """The script of the wheel and ``python -m buildbook`` are one."""
    project = tomllib.loads((ROOT / "pyproject.toml").read_text("utf-8"))["project"]
    module, _, name = project["scripts"]["buildbook"].partition(":")
    assert start is getattr(import_module(module), name)
