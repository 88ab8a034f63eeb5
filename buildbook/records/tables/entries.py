"""All kinds of entry, in the order of the manual, and the entries about entries."""

from collections.abc import Mapping

from buildbook.records.fields import Fields, key, key_owners, table
from buildbook.records.shapes import FREE_TEXT
from buildbook.records.tables import building, flying, looking
from buildbook.records.tables.entry_kind import COMMON, EntryKind
from buildbook.records.values import TEXT

KINDS: Mapping[str, EntryKind] = {
    kind.key: kind
    for kind in (
        building.FIT,
        building.REMOVE,
        building.STATE,
        flying.FLIGHT,
        flying.FLIGHTS,
        flying.CHARGE,
        flying.CAPACITY,
        looking.CHECK,
        looking.CALIBRATION,
        building.SETTING,
        building.GAINS,
        building.VERDICT,
        looking.WEIGH,
        looking.INCIDENT,
        looking.REPAIR,
        looking.INSPECTION,
        looking.DEFECT,
        looking.CLEARED,
        building.FIRMWARE,
        building.ALTERATION,
        looking.TRANSPORT,
        looking.WATER,
        looking.NOTE,
    )
}

# All keys that an entry of a kind may have, its own kind key among them.
ONE_OF: Mapping[str, Fields] = {
    kind.key: {**COMMON, kind.key: kind.heart, **kind.fields} for kind in KINDS.values()
}
OWNERS = key_owners({kind.key: kind.fields for kind in KINDS.values()})

_WHY = key("because", TEXT, "Why", "misread the charger", required=True)

# Entries about entries; what they do to the original is worked out in corrections.py.
CORRECTS: Fields = table(
    key("corrects", TEXT, "Id of the entry", "2026-03-01-2", required=True),
    key(
        "set",
        FREE_TEXT,
        "Keys with their right values, or nothing beside a whole new kind key",
        "{used: 1480 mAh}",
    ),
    _WHY,
)
VOIDS: Fields = table(key("voids", TEXT, "Id of the entry", "2026-03-01-2", required=True), _WHY)
AMENDING = ("corrects", "voids")
