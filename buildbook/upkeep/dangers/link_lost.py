"""What the motor does when the link is lost: it must stop, and somebody must have written so.

What is read at the failsafe check wins over what is planned; a figure is the throttle held.
"""

import re
from collections.abc import Iterator, Mapping

from buildbook.basis.place import Place
from buildbook.report.history import Completion
from buildbook.report.state import AircraftNow
from buildbook.report.upkeep import ranks
from buildbook.report.upkeep.findings import WithoutLink
from buildbook.report.upkeep.work import Because, Row
from buildbook.upkeep.dangers.rows import Ask, danger_row

FAILSAFE = "failsafe"

_THROTTLE = ("throttle", "motor", "motors")
_OTHERS = ("rest", "all", "each", "every", "others")
_HELD = re.compile(r"\b(hold|holds|held|last|keeps?|running|runs? on|freezes?|frozen|stays?)\b")
_STOPS = re.compile(r"\b(cut|cuts|stop|stops|stopped|off|none|no pulses?|low|zero|closed)\b")
_IS_MOTOR = re.compile(r"\b(throttle|motors?)\b")
_SHARE = re.compile(r"^(\d+(?:\.\d+)?) ?%")

_ASK = Ask(
    name=FAILSAFE,
    what="Set the throttle to cut when the link is lost. Then test it, propellers off: motors"
    " turning slowly, transmitter off. They must stop.",
    stage="plugged",
)
_WRITE = Ask(
    name="failsafe-recorded",
    what="Record what it does when the link is lost, as in radio: {failsafe: {throttle: cut}}.",
    stage="plugged",
)


def keeps_running(does: str) -> bool:
    """Whether these words say that the throttle is held; ``cut``, ``stops``, ``0 %`` do not."""
    said = does.strip().lower()
    if _STOPS.search(said):  # at once, or after a while
        return False
    share = _SHARE.match(said)
    return float(share[1]) > 0 if share is not None else bool(_HELD.search(said))


def link_lost_rows(aircraft: AircraftNow, asked: bool) -> Iterator[Row]:
    """A grounding row where the motor runs on. asked: whether its programme checks the failsafe:
    only then is it said that nothing is recorded."""
    planned = throttle_words(aircraft.radio.failsafe if aircraft.radio else {})
    done = _read(aircraft)
    read = None if done is None else throttle_words(done.readings)
    if done is not None and read is not None and keeps_running(read):
        found = WithoutLink(throttle=read, planned=planned, read=read, read_on=done.on)
        yield _runs_on(aircraft, found, done.place)
    elif planned is not None and keeps_running(planned):
        on = None if done is None else done.on
        found = WithoutLink(throttle=planned, planned=planned, read=read, read_on=on)
        place = aircraft.places.get("radio", aircraft.record.place("radio"))
        yield _runs_on(aircraft, found, place)
    elif asked and planned is None and read is None:
        yield _not_recorded(aircraft)


def throttle_words(of: Mapping[str, str]) -> str | None:
    """What the throttle does by these names; what is said of all or of the rest holds for it too.

    Under the name ``failsafe`` it is the part that speaks of throttle or motor.
    """
    by_name = {name.lower().rpartition(".")[2]: said for name, said in of.items()}
    for name in (*_THROTTLE, *_OTHERS):
        if name in by_name:
            return by_name[name]
    parts = re.split("[,;]", by_name.get(FAILSAFE, ""))
    return next((part.strip() for part in parts if _IS_MOTOR.search(part.lower())), None)


def _read(aircraft: AircraftNow) -> Completion | None:
    """The last failsafe check that read what the throttle does, unless the radio came later."""
    for check in reversed(aircraft.checks):
        if check.name == FAILSAFE and throttle_words(check.readings) is not None:
            altered = (event.seq for event in aircraft.events if event.subject == "radio")
            return None if any(seq > check.seq for seq in altered) else check
    return None


def _runs_on(aircraft: AircraftNow, found: WithoutLink, place: Place) -> Row:
    because = Because(why="link lost", place=place, found=found)
    return danger_row(aircraft, _ASK, because, place, grounds=True)


def _not_recorded(aircraft: AircraftNow) -> Row:
    place = aircraft.places.get("radio", aircraft.record.place())
    because = Because(why="link lost", place=place, found=WithoutLink(throttle=None))
    return danger_row(
        aircraft,
        _WRITE,
        because,
        place,
        grounds=False,
        state="open",
        rank=ranks.NOT_RECORDED,
    )
