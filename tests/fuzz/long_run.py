"""The fuzz of records by hand: ``python tests/fuzz/long_run.py FIRST COUNT`` tells what broke."""

import contextlib
import io
import os
import shutil
import sys
import tempfile
import traceback
from collections import Counter
from pathlib import Path

from damaged import damage

from buildbook.commands.main import main

DEMO = Path(__file__).parents[2] / "content"


def commands(hangar: Path, into: Path, number: int) -> list[list[str]]:
    """What is run on one damaged hangar; a site of every sixth."""
    found = [["check"], ["due", "--within", "60d"], ["due", "--json"]]
    found += [["figures", name] for name in ("burdock", "hogweed", "trefoil", "P-01")]
    found = [[*words, str(hangar)] for words in found]
    if number % 6 == 0:
        audience = ("owner", "public")[number // 6 % 2]
        site = str(into / audience)
        found.append(["render", str(hangar), "--into", site, "--for", audience])
    return found


def run(first: int, count: int) -> int:
    """Damage the demo so often, each time anew; gives how many commands broke."""
    seen: Counter[str] = Counter()
    ended: Counter[str] = Counter()
    with tempfile.TemporaryDirectory() as place:
        os.environ["XDG_CACHE_HOME"] = str(Path(place) / "cache")
        for number in range(first, first + count):
            hangar = Path(place) / "hangar"
            shutil.rmtree(hangar, ignore_errors=True)
            shutil.copytree(DEMO, hangar)
            done = damage(hangar, f"seed {number}")
            for words in commands(hangar, Path(place), number):
                said = io.StringIO()
                try:
                    with contextlib.redirect_stdout(said), contextlib.redirect_stderr(said):
                        status = main(words)
                    ended[f"{words[0]} {status}"] += 1
                except Exception as error:
                    at = traceback.extract_tb(error.__traceback__)[-1]
                    what = f"{type(error).__name__} @ {at.filename}:{at.lineno}"
                    if what not in seen:
                        print(f"seed {number} ({done}): {words[0]}: {what}: {error}", flush=True)
                    seen[what] += 1
    print(f"{count} damaged hangars; {dict(sorted(ended.items()))}; broke: {dict(seen)}")
    return seen.total()


if __name__ == "__main__":
    sys.exit(1 if run(int(sys.argv[1]), int(sys.argv[2])) else 0)
