"""Measure the program on a big hangar against the floor: the same library calls and nothing else.

    python tests/benchmarks/measure.py [--aircraft 60] [--flights 100] [--runs 5]

Prints medians over the runs. Whole commands are timed from outside, start-up included; a render,
which is shared out over processes, by the processor time of all of them. The floors are timed
inside one process: composing the same YAML, and for the render the same template and
chart calls with what they were given, recorded from a render of the same hangar.
"""

import argparse
import datetime
import os
import resource
import shutil
import statistics
import subprocess
import sys
import tempfile
import threading
import time
from collections.abc import Callable
from functools import partial
from pathlib import Path
from typing import Any
from urllib.request import urlopen

import yaml
from big_hangar import write

from buildbook.pages.theme import theme_folders
from buildbook.publish.preview.server import STAMP, PreviewServer
from buildbook.publish.preview.watched import Watched

Timed = Callable[[], object]


def median_of(runs: int, timed: Timed) -> float:
    """The median of so many runs, seconds."""
    taken = []
    for _ in range(runs):
        started = time.perf_counter()
        timed()
        taken.append(time.perf_counter() - started)
    return statistics.median(taken)


def command(words: list[str], cache: Path, fresh: bool) -> None:
    """Run one command in a process of its own; ``fresh`` empties the cache folder first."""
    if fresh:
        shutil.rmtree(cache, ignore_errors=True)
    done = subprocess.run(
        [sys.executable, "-m", "buildbook", *words],
        env={**os.environ, "XDG_CACHE_HOME": str(cache)},
        capture_output=True,
        check=False,
    )
    if done.returncode not in (0, 3):
        raise SystemExit(done.stderr.decode())


def compose_all(folder: Path) -> None:
    """The floor of reading: PyYAML composes every file, and nothing else happens."""
    for path in sorted(folder.rglob("*.yaml")):
        yaml.compose(path.read_bytes(), Loader=yaml.CBaseLoader)


def render_floor(folder: Path) -> tuple[float, int, int]:
    """Processor seconds of the template and chart calls of a render, and how many of each."""
    from buildbook.drawings.charts import charts as chart_room
    from buildbook.pages.page import Page
    from buildbook.pages.site import make, plan
    from buildbook.pages.theme import Press, theme_folders
    from buildbook.reporting.opening import open_reports

    reports = open_reports(folder, None, datetime.date.today()).reports
    assert reports is not None
    press = Press(reports, theme_folders(None))
    charts: list[float] = []
    drawn = {name: getattr(chart_room, name) for name in vars(chart_room) if "_chart" in name[1:]}

    def timed(draw: Callable[..., Any]) -> Callable[..., Any]:
        def run(*given: Any, **named: Any) -> Any:
            started = time.process_time()
            try:
                return draw(*given, **named)
            finally:
                charts.append(time.process_time() - started)

        return run

    for name, draw in drawn.items():
        setattr(chart_room, name, timed(draw))
    leaves = [make(reports, work) for work in plan(reports)]
    for name, draw in drawn.items():
        setattr(chart_room, name, draw)
    pages = [leaf for leaf in leaves if isinstance(leaf, Page)]
    started = time.process_time()
    for page in pages:
        press.compose(page)
    composed = time.process_time() - started
    return composed + sum(charts), len(pages), len(charts)


def follow(runs: int, folder: Path) -> float:
    """Median from an entry written into a log until an open page has been told and is made anew.

    A page that is to follow within a second of the change leaves the browser what is left of it.
    """
    day, log = datetime.date(2026, 11, 20), folder / "aircraft/a07/logbook.yaml"
    watched = Watched(folder, theme_folders(None), "owner", None, lambda: day)
    taken = []
    with PreviewServer(("127.0.0.1", 0), watched) as server:
        threading.Thread(target=server.serve_forever, daemon=True).start()

        def ask(address: str) -> str:
            with urlopen(server.url + address) as answer:
                return str(answer.read().decode())

        for _ in range(runs):
            stamp = ask(STAMP)
            waiting = threading.Thread(target=ask, args=(f"{STAMP}?not={stamp}",))
            waiting.start()
            time.sleep(0.5)
            log.write_text(log.read_text("utf-8") + "- {on: 2026-11-18, note: Calm.}\n", "utf-8")
            started = time.perf_counter()
            waiting.join()
            ask("aircraft/a07/logbook.html")
            taken.append(time.perf_counter() - started)
        server.shutdown()
    return statistics.median(taken)


def processor_s() -> float:
    """Processor time of all commands run so far."""
    used = resource.getrusage(resource.RUSAGE_CHILDREN)
    return used.ru_utime + used.ru_stime


def report(name: str, seconds: float, floor: float | None = None) -> None:
    """One line."""
    ratio = "" if floor is None else f"   {seconds / floor:5.1f} x the floor of {floor:.2f} s"
    print(f"{name:34} {seconds:7.2f} s{ratio}")


def main() -> None:
    """Measure and print."""
    parser = argparse.ArgumentParser(description=(__doc__ or "").splitlines()[0])
    parser.add_argument("--aircraft", type=int, default=60)
    parser.add_argument("--flights", type=int, default=100)
    parser.add_argument("--runs", type=int, default=5)
    given = parser.parse_args()
    with tempfile.TemporaryDirectory() as scratch:
        folder, cache = Path(scratch) / "hangar", Path(scratch) / "cache"
        write(folder, given.aircraft, given.flights)
        floor = median_of(given.runs, lambda: compose_all(folder))
        report("compose the YAML (floor)", floor)
        for name in ("check", "due"):
            words = [name, str(folder)]
            cold = median_of(given.runs, partial(command, words, cache, True))
            report(f"{name}, first read", cold, floor)
            warm = median_of(given.runs, partial(command, words, cache, False))
            report(f"{name}, read before", warm, floor)
        words = ["enter", "note", "a07", "Calm.", "--on", "2026-11-18", "--hangar", str(folder)]
        command(words, cache, False)
        report("enter", median_of(given.runs, partial(command, words, cache, False)), floor)
        report("preview follows an entry", follow(given.runs, folder))
        words = ["render", str(folder), "--into", str(Path(scratch) / "site")]
        before = processor_s()
        waited = median_of(1, lambda: command(words, cache, True))
        worked = processor_s() - before
        peak = resource.getrusage(resource.RUSAGE_CHILDREN).ru_maxrss / 1024
        before = processor_s()
        command(words, cache, False)
        again = processor_s() - before
        os.environ["XDG_CACHE_HOME"] = str(Path(scratch) / "of the floor")
        bottom, pages, charts = render_floor(folder)
        report(f"render, first read, {os.cpu_count()} processes", waited)
        report("the same, processor time", worked, bottom)
        report("render, read and drawn before", again, bottom)
        print(f"{'':34} ({pages} pages, {charts} charts)")
        print(f"{'peak memory of the largest process':34} {peak:7.0f} MB")


if __name__ == "__main__":
    main()
