"""Names of checks, tasks, keys, parts and triggers in words; in the files they stay as they are.

And how a sentence begins, whatever it begins with.
"""

from collections.abc import Mapping

from buildbook.basis import amounts
from buildbook.records.triggers import Trigger

MISSING = "not recorded"
"""Stands where nothing was written: never a zero, never an OK."""

_OTHERWISE: Mapping[str, str] = {
    "compass-again": "compass recalibration",
    "esc-endpoints": "ESC throttle range",
    "failsafe-again": "failsafe retest",
    "level-again": "level recalibration",
    "range-again": "range retest",
    "read-again": "second reading",
    "read-at-rest": "reading at rest",
    "remote_id": "remote ID",
    "repair-again": "second look at a repair",
    "set-aside": "release from quarantine",
}


def name_words(name: str) -> str:
    """``motor-bearings`` becomes ``motor bearings``, ``failsafe-again`` ``failsafe retest``."""
    return _OTHERWISE.get(name) or name.replace("_", " ").replace("-", " ")


def sentence(text: str) -> str:
    """The first letter as a capital, the rest as it is."""
    return text[:1].upper() + text[1:]


def kind_word(kind: str) -> str:
    """One kind of part in words: ``motor``, ``ESC``, ``current sensor``."""
    return _ABBREVIATED.get(kind) or kind.replace("_", " ")


def kind_words(kind: str, many: int = 2) -> str:
    """The same of one or several: ``motor``, ``ESCs``, ``batteries``, ``hardware``."""
    one = kind_word(kind)
    return one if many == 1 or kind in _WITHOUT_PLURAL else amounts.plural(one)


_ABBREVIATED: Mapping[str, str] = {"esc": "ESC", "remote_id": "remote ID"}
_WITHOUT_PLURAL = ("undercarriage", "hardware")


def trigger_words(trigger: Trigger) -> str:
    """What happened: ``motor fitted``, ``hard landing``, ``not flown for 30 days``."""
    if str(trigger) in _ALONE:
        return _ALONE[str(trigger)]
    words = _EVENTS.get(trigger.event)
    if trigger.subject is None:
        return _ALONE.get(trigger.event, trigger.event)
    if words is None:
        return str(trigger)
    return words.format(kind_word(trigger.subject).replace("-", " "))


_EVENTS: Mapping[str, str] = {
    "noticed": "{} noticed in flight",
    "fit": "{} fitted",
    "remove": "{} taken out",
    "move": "{} moved",
    "overhaul": "{} overhauled",
    "firmware": "firmware of the {} changed",
    "setting": "setting {} changed",
    "alteration": "{} altered",
    "calibration": "{} calibrated",
    "idle": "not flown for {}",
}
"""An event that has a subject, in words."""

_ALONE: Mapping[str, str] = {
    "firmware": "firmware changed",
    "gains": "gains changed",
    "rewired": "leads changed or turn reversed",
    "setting bind": "receiver bound again",
    "another cell count": "flown with another cell count",
    "another pack mass": "flown with a pack of another mass",
}
"""Events that say what was done only with a verb."""
