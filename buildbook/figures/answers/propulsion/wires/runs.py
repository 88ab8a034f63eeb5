"""Runs of wire: what they are called, where they are written, and which motors are behind them."""

from buildbook.basis.place import Place
from buildbook.figures.answers.craft import NO_STATION, Craft
from buildbook.figures.answers.gathering import Lacking
from buildbook.records.aircraft import Run, stations_at


def share_of_run(craft: Craft, run: Run) -> tuple[float, int]:
    """How much of the pack's current flows in a run, and how many like it there are.

    Lacking: no motor is seen behind it.
    """
    motors = len(craft.rotors)
    behind = motors_behind(craft, run)
    one = run.is_one_of_each
    if not behind and not one:
        raise Lacking(
            f"what flows from {run.label} is not known: no ESC or motor is behind it"
            + replaced(craft),
            place_of_run(craft, run),
        )
    if motors == 0:
        raise Lacking(NO_STATION, craft.home)
    return (1 / motors if one else len(behind) / motors), motors if one else 1


def motors_behind(craft: Craft, run: Run) -> frozenset[str]:
    """The motor stations that are fed through a run; none where nothing is seen behind it."""
    stations = {rotor.station for rotor in craft.rotors}
    onward: dict[str, list[str]] = {}
    for one in craft.now.wiring:
        onward.setdefault(one.start, []).append(one.end)
    seen: set[str] = set()
    reached: set[str] = set()
    ends = [run.end]
    while ends:
        end = ends.pop()
        if end in seen:
            continue
        seen.add(end)
        reached |= stations_at(end, stations)
        ends += onward.get(end, [])
    return frozenset(reached)


def replaced(craft: Craft) -> str:
    """Words for a keeper who wrote one run in an alteration and so lost the others."""
    if craft.now.places.get("wiring") == craft.now.record.place("wiring"):
        return ""
    return "; an alteration replaced the whole wiring: name every run there"


def place_of_run(craft: Craft, run: Run) -> Place:
    """Its line in aircraft.yaml, or of the alteration that wrote it."""
    return craft.where("wiring", run.line)
