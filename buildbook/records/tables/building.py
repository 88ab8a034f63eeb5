"""What an aircraft is made of and how it is set up: parts, settings, gains, alterations."""

from buildbook.basis.limits import Limits, between
from buildbook.records import entries as kinds
from buildbook.records.fields import key
from buildbook.records.shapes import FREE_TEXT, ByName, Several
from buildbook.records.tables.aircraft import ALTERABLE, PLACE3
from buildbook.records.tables.entry_kind import BECAUSE, ITEM_STATE, Read, entry_kind
from buildbook.records.tables.hearts import TAGS, Slots
from buildbook.records.values import TEXT, number, quantity

_STATES = ByName(ITEM_STATE, "tags with their state")


def _altered(read: Read) -> Read:
    read["keys"] = tuple(key for key in ALTERABLE if ALTERABLE[key].attribute in read)
    return read


FIT = entry_kind(
    kinds.Fit,
    key("fit", Slots(), "Station, kind, tag", "{front-left: {motor: M-01}}", "slots"),
    "Parts go in",
    key(
        "instead_of",
        ByName(ITEM_STATE, "tags with their state", instead="serviceable"),
        "What comes out in the same breath, and its state",
        "{R-01: scrapped}",
    ),
    key(
        "serves",
        ByName(Several(TEXT, single=True), "tags with the stations they serve"),
        "A shared ESC and its stations",
        "{E-09: [front-left, front-right]}",
    ),
)
REMOVE = entry_kind(
    kinds.Remove,
    key("remove", TAGS, "Tags", "[R-03]", "tags"),
    "Parts come out",
    BECAUSE,
    key("state", ITEM_STATE, "State from now on", "quarantined"),
)
STATE = entry_kind(
    kinds.StateChange,
    key("state", _STATES, "Tags with their state", "{P-02: quarantined}", "states"),
    "An item is set aside, retired, scrapped or returned",
    BECAUSE,
)
SETTING = entry_kind(
    kinds.Setting,
    key(
        "setting",
        FREE_TEXT,
        "Settings by the keeper's own names",
        "{start_throttle: 14 %}",
        "settings",
    ),
    "Settings came into force",
    key("of", TEXT, "A station or a tag", "front-left"),
    BECAUSE,
)
GAINS = entry_kind(
    kinds.Gains,
    key("gains", TEXT, "Name of the set", "calm", "name"),
    "A gain set came into force",
    key(
        "values",
        ByName(
            ByName(number(Limits(-1e6, 1e6, True)), "terms with numbers"),
            "axes with their terms",
            instead={},
        ),
        "The whole set, by axis and term",
        "{roll: {p: 38, i: 21, d: 4}}",
    ),
    key(
        "from",
        TEXT,
        "The set it starts from; values then hold what differs",
        "calm",
        "base",
    ),
    BECAUSE,
)
VERDICT = entry_kind(
    kinds.Verdict,
    key(
        "verdict",
        ByName(TEXT, "gain sets with words"),
        "Gain sets, each with words",
        "{calm: steady but slow}",
        "verdicts",
    ),
    "What was thought of gain sets",
)
FIRMWARE = entry_kind(
    kinds.Firmware,
    key(
        "firmware",
        ByName(TEXT, "tags with versions"),
        "Tags with versions",
        "{C-01: 2.4.1}",
        "versions",
    ),
    "Firmware came onto items",
)
ALTERATION = entry_kind(
    kinds.Alteration,
    key("alteration", TEXT, "What was altered", "longer arms", "words"),
    "A dated change of the aircraft; named keys replace",
    *ALTERABLE.values(),
    key(
        "mass",
        quantity("mass", between("mass", "-50 kg", "50 kg", zero_ok=True)),
        "Mass added, or taken off with a minus",
        "12 g",
        "mass_kg",
    ),
    key("at", PLACE3, "Where that mass sits", "[0 mm, 0 mm, 5 mm]"),
    build=_altered,
)
