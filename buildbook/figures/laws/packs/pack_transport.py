"""Energy at which the rules of air travel change for a pack: a dated table. Ask the airline.

The figure that counts is rated charge times nominal voltage, not the charged voltage.
"""

from typing import Literal

import msgspec

from buildbook.figures.laws.numbers import checked

TABLE_WRITTEN = "2026-11-25"
ADVICE = "ask the airline"
WHICH_FIGURE_COUNTS = "rated Ah times nominal V"


class TransportBand(msgspec.Struct, frozen=True):
    """Energies above `over_wh` up to and with `up_to_wh`, and what the rule says of them."""

    label: str
    over_wh: float
    up_to_wh: float | None
    rule: str
    source: str
    status: Literal["text seen", "second-hand pages agree", "from memory"]


TRANSPORT_BANDS: tuple[TransportBand, ...] = (
    TransportBand(
        "up to 100 Wh",
        0.0,
        100.0,
        "spares in cabin baggage only, terminals protected, personal use",
        "passenger pages of TSA and FAA",
        "text seen",
    ),
    TransportBand(
        "over 100 to 160 Wh",
        100.0,
        160.0,
        "airline approval, at most two spares per person, cabin baggage only",
        "passenger page of FAA",
        "second-hand pages agree",
    ),
    TransportBand(
        "over 160 Wh",
        160.0,
        None,
        "not in passenger baggage",
        "passenger page of FAA",
        "second-hand pages agree",
    ),
)


@checked
def transport_band(energy_wh: float) -> TransportBand:
    """The band of a pack's rated energy in Wh. Compared in whole mWh; a limit is in its band.

    ValueError: energy out of range. Source: TRANSPORT_BANDS, written on TABLE_WRITTEN.
    """
    energy_mwh = round(energy_wh * 1000)
    for band in TRANSPORT_BANDS[:-1]:
        if band.up_to_wh is not None and energy_mwh <= round(band.up_to_wh * 1000):
            return band
    return TRANSPORT_BANDS[-1]
