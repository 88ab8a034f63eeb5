"""The same records give the same bytes: wherever, however and with however many hands."""

import os
import subprocess
import sys
from pathlib import Path

import pytest

# The number of processes follows the number of cores, which a machine can't change for a test.
RENDER = (
    "import os, sys; cores = int(sys.argv.pop(1)); os.cpu_count = lambda: cores; "
    "from buildbook.commands.main import main; sys.exit(main())"
)
HERE = {"PYTHONHASHSEED": "1", "TZ": "Pacific/Auckland", "LC_ALL": "C.UTF-8"}
ELSEWHERE = {
    "PYTHONHASHSEED": "4242",
    "TZ": "America/Los_Angeles",
    "LC_ALL": "C",
    "PYTHONUTF8": "0",
    "PYTHONCOERCECLOCALE": "0",
}


def rendered(
    into: Path, audience: str, *, cwd: Path, hangar: str, cores: int, ways: dict[str, str]
) -> dict[str, bytes]:
    """All files of a site that a process of its own made, without what an earlier one kept."""
    words = ["render", hangar, "--into", str(into), "--for", audience]
    done = subprocess.run(
        [sys.executable, "-c", RENDER, str(cores), *words],
        cwd=cwd,
        env={**os.environ, "XDG_CACHE_HOME": str(into.parent / "cache"), **ways},
        capture_output=True,
        text=True,
        check=False,
    )
    assert done.returncode == 0, done.stdout + done.stderr
    return {
        path.relative_to(into).as_posix(): path.read_bytes()
        for path in sorted(into.rglob("*"))
        if path.is_file()
    }


@pytest.mark.parametrize("audience", ["owner", "public"])
def test_two_machines_make_the_same_site(demo: Path, tmp_path: Path, audience: str) -> None:
    """Other folder, hash seed, time zone, locale and number of processes: not a byte differs."""
    here, elsewhere = tmp_path / "here", tmp_path / "else where"
    here.mkdir()
    elsewhere.mkdir()

    one = rendered(here / "site", audience, cwd=demo, hangar=".", cores=1, ways=HERE)
    other = rendered(
        elsewhere / "book", audience, cwd=tmp_path, hangar=str(demo), cores=2, ways=ELSEWHERE
    )

    assert list(one) == list(other)
    assert [] == [address for address in one if one[address] != other[address]]


def test_a_second_render_changes_nothing(demo: Path, tmp_path: Path) -> None:
    """Records read from the cache give what records read from the files gave."""
    first = rendered(tmp_path / "a", "owner", cwd=demo, hangar=".", cores=2, ways=HERE)
    second = rendered(tmp_path / "a", "owner", cwd=demo, hangar=".", cores=2, ways=HERE)

    assert [] == [address for address in first if first[address] != second[address]]
    assert list(first) == list(second)
