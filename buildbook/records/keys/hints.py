"""Did you mean, remembered: the same slip in a thousand entries is looked up once."""

import re
from collections.abc import Mapping
from functools import lru_cache

from buildbook.basis.nearest import nearest

# Words for a choice or key that no spelling leads to, English and German; what each may stand for,
# of which the first that is a choice there is meant. Common practice, no source.
_WORDS: Mapping[str, str] = {
    "cw": "clockwise right rechts rechtsdrehend",
    "ccw": "counterclockwise counter-clockwise anticlockwise anti-clockwise left links"
    " linksdrehend",
    "pass normal serviceable": "ok okay good fine passed yes ja soft smooth weich bestanden gut"
    " serviceable intact",
    "fail": "bad failed no nein schlecht durchgefallen",
    "hard": "hart rough bumpy heavy",
    "crash": "crashed absturz abgestürzt",
    "surfaces": "throw throws ausschläge ruder",
    "retired scrapped": "lost destroyed dead gone kaputt verloren written-off broken-up",
    "quarantined stored": "broken damaged puffed defekt beschädigt grounded",
    "flying serviceable": "active ready operational aktiv flugbereit",
    "sold": "verkauft",
    "building": "build unfinished im-bau",
    "full": "voll charged",
    "storage": "lager lagerung lagerladung",
    "on": "date day datum tag when",
    "flight": "duration dauer flugzeit flug airtime",
    "pack": "battery batt akku lipo",
    "used": "mah consumed verbraucht verbrauch",
    "put_in": "charged geladen mah_in",
    "by": "pilot who",
    "place": "location site ort platz",
    "note": "remark remarks comment comments bemerkung notiz",
    "mass": "weight gewicht masse",
    "hand": "rotation drehrichtung",
    "spin": "rotation direction drehrichtung",
    "multirotor": "quad quadcopter copter drone hexacopter octocopter multicopter",
    "glider aeroplane": "glider sailplane segler",
    "aeroplane": "airplane plane flugzeug fixed-wing",
    "battery": "pack lipo batt akku",
    "propeller": "prop props luftschraube",
    "controller": "fc flight-controller flightcontroller flugsteuerung",
    "receiver": "rx empfänger",
    "transmitter": "tx sender",
    "regulator": "bec ubec",
    "sensor": "gps compass barometer airspeed",
    "frame": "airframe fuselage rumpf rahmen",
    "wing": "flügel tragfläche",
    "tail": "leitwerk",
    "undercarriage": "gear landing-gear fahrwerk",
    "camera": "cam kamera",
    "charger": "ladegerät",
    "hardware": "spinner screw screws bolt nut mount schraube",
    "other": "vtx video-transmitter antenna led buzzer lights",
    "esc": "regler speed-controller",
    "remote_id": "rid remoteid",
}  # fmt: skip
_SAME: dict[str, tuple[str, ...]] = {}
for _meanings, _words in _WORDS.items():
    for _word in _words.split():
        _SAME[_word] = (*_SAME.get(_word, ()), *_meanings.split())


@lru_cache(4096)
def meant(word: str, choices: frozenset[str]) -> str | None:
    """A hint such as ``did you mean 'used'?``, or None where no choice is close."""
    found = likely(word, choices)
    return None if found is None else f"did you mean '{found}'?"


def likely(word: str, choices: frozenset[str]) -> str | None:
    """The choice that the word stands for, or is most like."""
    return same_as(word, choices) or nearest(word, choices)


def same_as(word: str, choices: frozenset[str]) -> str | None:
    """The choice that the word stands for in the trade, however it is spelt."""
    same = _SAME.get("-".join(word.casefold().split()), ())
    return next((one for one in same if one in choices and one != word), None)


_BULLET = re.compile("[\u2022\u2023\u25aa\u25cf\u00b7*+](?= )").match
_OPENING = re.compile("(?:^|[\\s:])([\u2018\u201a\u201c\u201e\u00ab])").search
_DASH = re.compile("[\u2010-\u2015\u2212]").search


def typed_quote(text: str) -> str | None:
    """A hint where a typographic quotation mark opens, as word processors set them."""
    found = _OPENING(text)
    return (
        f"{found[1]} is not a quotation mark here: write a straight one, or none" if found else None
    )


def typed_dash(text: str) -> str | None:
    """A hint where a typographic dash, a minus or a bullet stands."""
    found = _DASH(text) or _BULLET(text)
    return f"{found.group()} is not a hyphen: write -" if found else None
