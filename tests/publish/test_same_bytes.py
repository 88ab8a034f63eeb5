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
    return files(into)


def files(site: Path) -> dict[str, bytes]:
    """All files of a site by address."""
    return {
        path.relative_to(site).as_posix(): path.read_bytes()
        for path in sorted(site.rglob("*"))
        if path.is_file()
    }


@pytest.mark.parametrize("audience", ["owner", "public"])
def test_two_machines_make_the_same_site(
    request: pytest.FixtureRequest, demo: Path, tmp_path: Path, audience: str
) -> None:
    """Other folder, hash seed, time zone, locale and number of processes: not a byte differs.

    A second render there, of records read from the cache, changes nothing either.
    """
    one = files(request.getfixturevalue(f"{audience}_site"))
    elsewhere = tmp_path / "else where" / "book"
    elsewhere.parent.mkdir()
    ways = {"cwd": tmp_path, "hangar": str(demo), "ways": ELSEWHERE}
    renders = [(os.cpu_count() or 1) + 1] + ([1] if audience == "public" else [])

    for cores in renders:
        other = rendered(elsewhere, audience, cores=cores, **ways)

        assert list(one) == list(other)
        assert [] == [address for address in one if one[address] != other[address]]
