"""The wheel holds all that is needed: it begins and renders the demo from an empty folder."""

import os
import subprocess
import sys
from pathlib import Path

import pytest

ROOT = Path(__file__).parents[2]
pytestmark = pytest.mark.wheel


@pytest.fixture(scope="module")
def installed(tmp_path_factory: pytest.TempPathFactory) -> Path:
    """A folder into which the wheel was installed; the libraries come from this environment."""
    folder = tmp_path_factory.mktemp("wheel")
    pip = [sys.executable, "-m", "pip", "--disable-pip-version-check", "-q"]
    build = [*pip, "wheel", "--no-deps", "--no-build-isolation", "-w", str(folder), str(ROOT)]
    subprocess.run(build, check=True, capture_output=True)
    (wheel,) = folder.glob("*.whl")
    target = folder / "site-packages"
    subprocess.run(
        [*pip, "install", "--no-deps", "--target", str(target), str(wheel)],
        check=True,
        capture_output=True,
    )
    return target


def run(installed: Path, folder: Path, *words: str) -> subprocess.CompletedProcess[str]:
    """Run the program from the installed wheel in a folder."""
    environment = {
        **os.environ,
        "PYTHONPATH": str(installed),
        "XDG_CACHE_HOME": str(folder / "cache"),
    }
    code = (
        "import sys, buildbook; "
        f"assert buildbook.__file__.startswith({str(installed)!r}), buildbook.__file__; "
        "from buildbook.commands.main import main; sys.exit(main(sys.argv[1:]))"
    )
    return subprocess.run(
        [sys.executable, "-c", code, *words],
        cwd=folder,
        env=environment,
        capture_output=True,
        text=True,
        check=False,
    )


def test_the_wheel_begins_and_renders_the_demo(installed: Path, tmp_path: Path) -> None:
    """``begin --demo`` and ``render`` work where there is nothing but the wheel."""
    begun = run(installed, tmp_path, "begin", "loft", "--demo")
    assert begun.returncode == 0, begun.stderr

    rendered = run(installed, tmp_path, "render", "loft", "--into", "out")

    assert rendered.returncode == 0, rendered.stderr
    assert (tmp_path / "out" / "index.html").exists()
    assert (tmp_path / "out" / "style.css").read_text("utf-8").count("--ground") > 1


def test_an_almost_empty_hangar_begins_without_problems(installed: Path, tmp_path: Path) -> None:
    """``begin`` alone writes files that ``check`` has nothing to say against."""
    assert run(installed, tmp_path, "begin", "mine").returncode == 0

    checked = run(installed, tmp_path, "check", "mine")

    assert checked.stdout.startswith("Read 1 aircraft, 0 items, 0 entries: no problems.\n")
    assert checked.returncode == 0
