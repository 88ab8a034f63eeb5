"""Files of a hangar that nobody reads: which names look as if they were meant to be read."""

import re
from collections.abc import Collection

from buildbook.basis.nearest import alike, did_you_mean, nearest

RECORDS = (".yaml", ".yml", ".csv", ".md")
"""Endings of files that hold records, in small letters."""

MAPPING = ".mapping.yaml"
"""Ends the name of a file that says how a table is brought in: both may lie in the hangar."""

_SLIP = 0.8  # how alike a folder must be to a known one; site/ and photos/ are not
_COPY = re.compile(
    r"(?P<stem>.+?)(?: ?\(\d+\)|[ -]+copy(?: ?\(?\d+\)?)?|[ .-]*\(?[^()/]*conflict[^()/]*\)?)"
    r"(?P<end>\.\w+)",
    re.IGNORECASE,
).fullmatch
_BACKUP = re.compile(
    r"#?(?P<name>.+\.(?:yaml|yml|csv|md))(?:[~#]|\.(?:bak|old|orig|save|sav|tmp|rej|\d{1,3})~?)+",
    re.IGNORECASE,
).fullmatch

# Where a file belongs that lies at the top of the hangar, by its name without the ending.
_BELONGS = {
    "logbook": "a logbook belongs in aircraft/<name>/",
    "aircraft": "it belongs in aircraft/<name>/",
    "write-up": "it belongs in aircraft/<name>/",
    "specs": "it belongs in parts/",
    "items": "it belongs in parts/",
}


def looks_like_records(name: str) -> bool:
    """Whether a file has such an ending, in any capitals, or is a backup of one that has."""
    return name.lower().endswith(RECORDS) or _BACKUP(name) is not None


def copied_from(name: str, names: Collection[str]) -> str | None:
    """The file that this one is a backup or a copy of; a copy only where the other is there."""
    backup = _BACKUP(name)
    if backup:
        return backup["name"]
    copy = _COPY(name)
    original = f"{copy['stem']}{copy['end']}" if copy else ""
    return original if original in names else None


def copy_hint(original: str) -> str:
    """For a file that an editor or a sync left: its records would count twice."""
    return f"it looks like a copy of {original}; delete it, or keep it outside the hangar"


def wanted_hint(name: str, wanted: tuple[str, ...]) -> str:
    """What to do with a file where only some names are read."""
    return did_you_mean(name, wanted) or f"read here: {', '.join(wanted)}"


def top_hint(name: str) -> str:
    """What to do with a file of records at the top of the hangar."""
    stem, _, ending = name.rpartition(".")
    belongs = nearest(f"{stem.lower()}-", [f"{one}-" for one in _BELONGS])
    if belongs is not None and alike(stem.lower(), belongs[:-1]) >= _SLIP:
        return _BELONGS[belongs[:-1]]
    if ending.lower() == "csv":
        return "a table belongs in bench/"
    return "read here: hangar.yaml; all else belongs in a folder"


def like_folder(name: str, known: tuple[str, ...]) -> str | None:
    """The folder that is read whose name this one nearly has."""
    close = nearest(name, known)
    if close is None or alike(name, close) < _SLIP:
        return None
    return close
