"""The cautions, printed beside the step that can hurt. A theme may set them, not leave them out."""

from collections.abc import Mapping
from typing import NamedTuple


class Caution(NamedTuple):
    """A caution: its heading and its words."""

    heading: str
    words: str


CAUTIONS: Mapping[str, Caution] = {
    "SW1": Caution(
        "Props off",
        "Take the propellers off before the battery goes in. A motor can start on its own, at full "
        "power, from a wrong setting or a lost signal. Hold or clamp the frame and keep hands, "
        "hair, sleeves and cables away.",
    ),
    "SW2": Caution(
        "First flight after work",
        "Fly first low, short and alone: open ground, nobody nearby who is not part of the test, a "
        "clear way to cut the motors. Land, feel the motors, look again, then fly on.",
    ),
    "SW3": Caution(
        "Charging",
        "Set chemistry, cell count and current for this pack. Stay with it. Use a surface that "
        "does not burn, away from the way out and from things that do. Let a warm pack cool "
        "first; do not charge below 0 or above 40 degrees C. Never charge a puffed, dented, wet "
        "or crashed pack to see whether it still works.",
    ),
    "SW4": Caution(
        "Battery trouble",
        "Smell, hiss, heat, swelling, leak or smoke: keep away, get people out, call the fire "
        "service. Do not carry a burning or smoking pack through a home. A pack that looks fine "
        "after a crash can still catch fire later: leave it outdoors, away from anything that "
        "burns, and watch it.",
    ),
    "SW5": Caution(
        "Storing and disposal",
        "Store part-charged, cool and dry, out of sun and hot cars, apart from things that burn, "
        "terminals covered. Take dead packs to a battery collection point, not to household waste.",
    ),
    "SW6": Caution(
        "Soldering and cutting",
        "Unplug the battery. Ventilate. Wear eye protection when you cut or sand; carbon dust and "
        "splinters hurt lungs, eyes and skin.",
    ),
    "SW7": Caution(
        "Figures are estimates",
        "Worked out from what was entered. Wrong or missing entries give wrong figures. Trust your "
        "own look at the aircraft over this page, and leave a reserve.",
    ),
    "SW8": Caution(
        "Rules and limits",
        "A private logbook, not legal advice and not a certificate. Follow your country's rules, "
        "your field's rules and the maker's instructions. For work you are not sure about, ask "
        "someone qualified or licensed.",
    ),
}
