"""Write anew what the program says of the three seasons: run it by hand, then read the difference.

python tests/danger/seasons/say_again.py
"""

import io
import json
from collections.abc import Mapping, Sequence
from contextlib import redirect_stderr, redirect_stdout
from pathlib import Path

from buildbook.commands.main import main

SEASONS = Path(__file__).parent

SAID: Mapping[str, Mapping[str, Sequence[str]]] = {
    "ordinary": {
        "check.txt": ("check",),
        "due.txt": ("due",),
        "states.txt": ("due", "--json"),
        "due-next-spring.txt": ("due", "--as-of", "2027-03-20"),
    },
    "club": {"check.txt": ("check",), "due.txt": ("due",)},
    "careless": {"check.txt": ("check",), "due.txt": ("due",), "states.txt": ("due", "--json")},
}
"""By season and file, the command; ``states.txt`` holds what the JSON says of states."""


def said(season: str, file: str) -> tuple[int, str]:
    """Exit status, and what such a file should hold."""
    command, *more = SAID[season][file]
    status, text = run(command, season, *more)
    return status, states(text) if file == "states.txt" else text


def run(command: str, season: str, *words: str) -> tuple[int, str]:
    """Exit status of a command on a season, and what it printed."""
    out = io.StringIO()
    with redirect_stdout(out), redirect_stderr(out):
        status = main([command, str(SEASONS / season), *words])
    return status, out.getvalue()


def states(text: str) -> str:
    """State of each aircraft and pack, with its reasons, worst first."""
    found = json.loads(text)
    lines = []
    for one in (*found["aircraft"], *found["packs"]):
        lines.append(f"{one.get('slug') or one.get('tag')}: {one['state']}")
        lines += [f"  {reason['what']}" for reason in one["reasons"]]
    return "\n".join(lines) + "\n"


if __name__ == "__main__":
    for one, files in SAID.items():
        for name in files:
            folder = SEASONS / one / "said"
            folder.mkdir(exist_ok=True)
            (folder / name).write_text(said(one, name)[1], "utf-8")
