"""A render is killed at any step; the next command leaves the old site or the new one, whole."""

import os
import random
import shutil
import signal
import sys
from collections.abc import Callable
from functools import partial
from pathlib import Path

import killing
import pytest
from killing import in_a_child
from small_sites import loft

from buildbook.commands.main import main
from buildbook.publish.renewal import renewed, repair

KILLS = int(os.environ.get("KILLED_RENDERS", "20"))
STEPS = {"os.rename", "os.mkdir", "os.remove", "os.rmdir", "os.chmod", "open", "shutil.rmtree"}
KEPT = {
    ".git/HEAD": b"ref",
    "CNAME": b"hangar.example",
    "notes.txt": b"mine",
    "aircraft/heron/sketch.txt": b"a sketch",
    "items/list.txt": b"a list",
}

pytestmark = [
    pytest.mark.skipif(not hasattr(os, "fork"), reason="kills a process that it forks"),
]


@pytest.fixture(autouse=True)
def loaded(tmp_path: Path, private_cache: Path) -> None:
    """All modules loaded, so that each child begins with them."""
    assert private_cache
    assert main(["render", str(loft(tmp_path / "h", "Heron")), "--into", str(tmp_path / "s")]) == 0


def count_steps(root: Path, at: Callable[[int], None]) -> None:
    """Call ``at`` with 1, 2, 3... before each change of the disk below ``root``."""
    done = 0

    def hook(event: str, arguments: tuple[object, ...]) -> None:
        nonlocal done
        if event not in STEPS:
            return
        if event == "open" and not (isinstance(arguments[2], int) and arguments[2] & os.O_CREAT):
            return
        path = arguments[0]
        inside = isinstance(path, str | os.PathLike) and (
            str(path).startswith(str(root)) or not os.path.isabs(path)
        )
        if inside:
            done += 1
            at(done)

    sys.addaudithook(hook)


killed_at = partial(killing.killed_at, count_steps)
steps_of = partial(killing.steps_of, count_steps)


def rendered(hangar: Path, site: Path) -> int:
    """Render for the owner, in one process, whose steps are the same each time."""
    os.cpu_count = lambda: 1  # type: ignore[assignment]
    return main(["render", str(hangar), "--into", str(site)])


def files(folder: Path) -> dict[str, bytes]:
    """All files by address."""
    return {
        path.relative_to(folder).as_posix(): path.read_bytes()
        for path in folder.rglob("*")
        if path.is_file()
    }


def test_wherever_it_is_killed_the_site_is_whole(tmp_path: Path) -> None:
    """Old or new after a command that only repairs, and then new; the keeper's files stay."""
    one = loft(tmp_path / "one", "Heron")
    two = loft(tmp_path / "two", "Stork")
    broken = loft(tmp_path / "broken", "Stork", "- on: nonsense\n")
    for name, hangar in (("old", one), ("new", two), ("first", one)):
        assert in_a_child(lambda hangar=hangar, name=name: rendered(hangar, tmp_path / name)) == 0
    old, new = files(tmp_path / "old"), files(tmp_path / "new")
    assert old.keys() - new.keys()
    assert new.keys() - old.keys()

    place = tmp_path / "place"
    place.mkdir()
    site = place / "site"

    def begin() -> None:
        for name in [".buildbook-site", *old.keys() | new.keys()]:
            (site / name).unlink(missing_ok=True)
        for name, data in {**old, **KEPT}.items():
            (site / name).parent.mkdir(parents=True, exist_ok=True)
            (site / name).write_bytes(data)

    begin()
    total = steps_of(lambda: rendered(two, site), place)
    assert {**new, **KEPT} == files(site)
    points = random.Random(20260412).sample(range(1, total + 1), min(KILLS, total))
    outcomes = set()
    for number, point in enumerate(points):
        begin()
        assert killed_at(point, lambda: rendered(two, site), place) == -signal.SIGKILL, point
        assert KEPT == {name: (site / name).read_bytes() for name in KEPT}, point

        assert main(["render", str(broken), "--into", str(site)]) == 1
        assert [site] == list(place.iterdir())
        found = files(site)
        assert found in ({**old, **KEPT}, {**new, **KEPT}), point
        outcomes.add(found == {**new, **KEPT})

        if number % 5 == 0:
            assert in_a_child(lambda: rendered(two, site)) == 0
            assert {**new, **KEPT} == files(site), point
    assert outcomes == {False, True}
    print(f"killed at {len(points)} of {total} steps")


def test_each_single_step_of_a_renewal(tmp_path: Path) -> None:
    """All of them, with pages that stay, change, go, come, and move from a folder to another."""
    old = {"a.html": b"1", "b/b.html": b"2", "c/d/e.html": b"3", "same.css": b"4"}
    new = {"a.html": b"5", "b/f.html": b"6", "g/h/e.html": b"3", "same.css": b"4"}
    kept = {"b/mine.txt": b"7", "CNAME": b"8"}
    site = tmp_path / "place" / "site"

    def write(pages: dict[str, bytes]) -> int:
        with renewed(site, "site", "public") as renewal:
            for name, data in pages.items():
                (renewal.folder / name).parent.mkdir(parents=True, exist_ok=True)
                (renewal.folder / name).write_bytes(data)
        return 0

    def begin() -> None:
        shutil.rmtree(site, ignore_errors=True)
        write(old)
        for name, data in kept.items():
            (site / name).write_bytes(data)

    def found() -> dict[str, bytes]:
        return {name: data for name, data in files(site).items() if name != ".buildbook-site"}

    begin()
    total = steps_of(lambda: write(new), site.parent)
    assert total > 30
    outcomes = []
    for point in range(1, total + 1):
        begin()
        assert killed_at(point, lambda: write(new), site.parent) == -signal.SIGKILL
        repair(site, "site")
        assert found() in ({**old, **kept}, {**new, **kept}), point
        outcomes.append(found() == {**new, **kept})
        write(new)
        assert {**new, **kept} == found()
    assert outcomes == sorted(outcomes)  # old up to one step, new from there
    assert set(outcomes) == {False, True}


def test_a_first_render_that_is_killed_leaves_no_trouble(tmp_path: Path) -> None:
    """At some steps of writing a new folder; the next render writes it."""
    hangar = loft(tmp_path / "hangar", "Heron")
    place = tmp_path / "place"
    place.mkdir()
    total = steps_of(lambda: rendered(hangar, place / "counted" / "site"), place)
    expected = files(place / "counted" / "site")
    for point in range(1, total, max(1, total // 6)):
        site = place / f"{point}" / "site"
        assert killed_at(point, lambda site=site: rendered(hangar, site), place) == -signal.SIGKILL
        assert in_a_child(lambda site=site: rendered(hangar, site)) == 0
        assert expected == files(site)
        assert [site] == list(site.parent.iterdir())
        assert 0o700 == site.stat().st_mode & 0o777
