"""The first flights after building or work, one step at a time. Common practice, no source."""

from typing import NamedTuple


class FirstFlight(NamedTuple):
    """One step: what to do, and what to look at before the next one."""

    do: str
    then: str


ROTORS: tuple[FirstFlight, ...] = (
    FirstFlight(
        "Propellers on, each of the right hand and tight. Walk round it with the checklist.",
        "A second person compares them with the layout.",
    ),
    FirstFlight(
        "On the ground, arm and add throttle until it is light on its skids. Cut the motors.",
        "It responds to each stick the right way, and nothing smells or rattles.",
    ),
    FirstFlight(
        "Lift to knee height for ten seconds. Land.",
        "It stayed level without help. Motors and ESCs are cool enough to hold.",
    ),
    FirstFlight(
        "Hover at head height for a minute, with a small input on one axis at a time. Land.",
        "It does not wallow or oscillate; motors evenly warm; note it in the log.",
    ),
    FirstFlight(
        "Fly a short square, then land at half the planned time.",
        "Write down the time and, after charging, what went back in.",
    ),
)

WINGS: tuple[FirstFlight, ...] = (
    FirstFlight(
        "Propeller on and tight, controls right way round, balance inside its limits.",
        "A second person has checked the surfaces from behind.",
    ),
    FirstFlight(
        "With a second person holding it firmly, run up to full throttle for a few seconds.",
        "It pulls evenly; no servo twitches and the receiver stays on.",
    ),
    FirstFlight(
        "Into a light wind over long grass: a gentle throw or a straight take-off.",
        "Climb straight ahead to a safe height before the first turn.",
    ),
    FirstFlight(
        "At height, trim for level flight; then close the throttle and see how it slows.",
        "It gives warning before it stalls. Note the trims.",
    ),
    FirstFlight(
        "Land early, with half the pack left.",
        "Write down the time, the charge used, and the trims in the log.",
    ),
)

THROWN: tuple[FirstFlight, ...] = (
    FirstFlight(
        "Controls right way round, balance inside its limits, the pack of the receiver full.",
        "A second person has checked the surfaces from behind.",
    ),
    FirstFlight(
        "Into a light wind over long grass: a gentle throw, level, nobody ahead.",
        "It glides straight and flat without help; if not, mend balance or trim, and throw again.",
    ),
    FirstFlight(
        "A little higher, from a slope or a short tow: trim, then slow it down at height.",
        "It gives warning before it stalls. Note the trims.",
    ),
    FirstFlight(
        "Land early, with half the pack left.",
        "Write down the time and the trims in the log.",
    ),
)


def first_flights(*, wings: bool, motor: bool) -> tuple[FirstFlight, ...]:
    """The steps for an aeroplane, a glider or a multirotor."""
    if not motor:
        return THROWN
    return WINGS if wings else ROTORS
