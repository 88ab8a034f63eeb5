"""Names of checks, tasks and keys in plain words. The names in the files stay as they are."""

from collections.abc import Mapping

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
