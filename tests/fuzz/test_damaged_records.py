"""Damaged records: no command ends otherwise than with its own words and exit status.

``python tests/fuzz/long_run.py`` does the same by hand for as long as one likes.
"""

import shutil
from pathlib import Path

import pytest
from damaged import damage

from buildbook.commands.main import main

SEEDS = [*range(18), *(pytest.param(seed, marks=pytest.mark.slow) for seed in range(18, 36))]


@pytest.mark.parametrize("seed", SEEDS)
def test_no_command_gives_a_traceback(
    seed: int,
    demo: Path,
    tmp_path: Path,
    private_cache: Path,
    capsys: pytest.CaptureFixture[str],
) -> None:
    """Check, due, figures and render of a demo hangar that something damaged."""
    assert private_cache
    folder = tmp_path / "hangar"
    shutil.copytree(demo, folder)
    damage(folder, f"seed {seed}")

    status = main(["check", str(folder)])
    assert status in (0, 1)
    assert main(["due", str(folder), "--within", "60d"]) in (0, 1, 3)
    assert main(["figures", "burdock", str(folder)]) in (0, 1, 2)
    assert main(["figures", "P-01", str(folder)]) in (0, 1, 2)
    if seed % 3 == 0:
        into = str(tmp_path / "site")
        assert main(["render", str(folder), "--into", into, "--for", "public"]) in (0, 1)
    assert "Traceback" not in capsys.readouterr().err
