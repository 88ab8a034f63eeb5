"""The layouts: which motor stations each has, and where they sit.

A place is (forward, right) in units of the arm, which is half the diagonal. The ring layouts
follow from the bearing of each arm; nothing here is from a source, it is plane geometry.
Stations stand in reading order: front row first, each row from left to right.
"""

import math
from collections.abc import Iterable, Mapping
from typing import Literal

import msgspec

Tier = Literal["upper", "lower", "single"]
_HALVES: tuple[Tier, Tier] = ("upper", "lower")


class MotorStation(msgspec.Struct, frozen=True):
    """One motor station: ``forward`` and ``right`` in arms; ``tier`` for coaxial pairs."""

    name: str
    forward: float
    right: float
    tier: Tier = "single"


def tier_of(station: str) -> Tier:
    """Which half of a coaxial pair a station is, by its name."""
    return next((tier for tier in _HALVES if station.endswith(f"-{tier}")), "single")


def arm_of(station: str) -> str:
    """The name of a station without its tier: what a coaxial pair has in common."""
    return station.removesuffix(f"-{tier_of(station)}")


class Layout(msgspec.Struct, frozen=True):
    """A layout by name; ``free`` where the keeper names stations of his own.

    motorless: nothing on it turns a propeller.
    """

    name: str
    words: str
    stations: tuple[MotorStation, ...]
    tail_servo: bool = False
    free: bool = False
    motorless: bool = False

    @property
    def spacing_arms(self) -> float | None:
        """From a motor to the next in arms, where none has another opposite; else None.

        A diagonal through the centre then ends at no second shaft.
        """
        places = {(one.forward, one.right) for one in self.stations}
        if any(
            math.hypot(ahead + forward, across + right) < 0.01
            for ahead, across in places
            for forward, right in places
        ):
            return None
        apart = [math.dist(here, there) for here in places for there in places if here != there]
        return min(apart, default=None)

    @property
    def names(self) -> tuple[str, ...]:
        """The names of the motor stations, in reading order."""
        return tuple(station.name for station in self.stations)


def _ring(bearings: Mapping[str, float]) -> tuple[MotorStation, ...]:
    """Stations one arm from the centre; a bearing is in degrees, clockwise from forward."""
    return tuple(
        MotorStation(
            name,
            round(math.cos(math.radians(bearing)), 6) + 0.0,
            round(math.sin(math.radians(bearing)), 6) + 0.0,
        )
        for name, bearing in bearings.items()
    )


def _paired(stations: Iterable[MotorStation]) -> tuple[MotorStation, ...]:
    """Each station twice, an upper and a lower one."""
    return tuple(
        MotorStation(f"{station.name}-{tier}", station.forward, station.right, tier)
        for station in stations
        for tier in _HALVES
    )


_QUAD_X = _ring({"front-left": -45, "front-right": 45, "rear-left": 225, "rear-right": 135})
_TRI_Y = _ring({"front-left": -60, "front-right": 60, "rear": 180})

LAYOUTS: Mapping[str, Layout] = {
    layout.name: layout
    for layout in (
        Layout("quad-x", "quad, X", _QUAD_X),
        Layout(
            "quad-plus", "quad, plus", _ring({"front": 0, "left": 270, "right": 90, "rear": 180})
        ),
        Layout("tri-y", "tricopter, Y", _TRI_Y, tail_servo=True),
        Layout(
            "hexa-plus",
            "hexa, plus",
            _ring(
                {
                    "front": 0,
                    "front-left": 300,
                    "front-right": 60,
                    "rear-left": 240,
                    "rear-right": 120,
                    "rear": 180,
                }
            ),
        ),
        Layout(
            "hexa-x",
            "hexa, X",
            _ring(
                {
                    "front-left": -30,
                    "front-right": 30,
                    "left": 270,
                    "right": 90,
                    "rear-left": 210,
                    "rear-right": 150,
                }
            ),
        ),
        Layout(
            "octo-plus",
            "octo, plus",
            _ring(
                {
                    "front": 0,
                    "front-left": 315,
                    "front-right": 45,
                    "left": 270,
                    "right": 90,
                    "rear-left": 225,
                    "rear-right": 135,
                    "rear": 180,
                }
            ),
        ),
        Layout(
            "octo-x",
            "octo, X",
            _ring(
                {
                    "front-left": -22.5,
                    "front-right": 22.5,
                    "left-front": 292.5,
                    "right-front": 67.5,
                    "left-rear": 247.5,
                    "right-rear": 112.5,
                    "rear-left": 202.5,
                    "rear-right": 157.5,
                }
            ),
        ),
        Layout("y6", "Y6, coaxial", _paired(_TRI_Y)),
        Layout("quad-coaxial", "coaxial quad", _paired(_QUAD_X)),
        Layout("aeroplane", "aeroplane", (), free=True),
        Layout("glider", "glider without a motor", (), free=True, motorless=True),
        Layout("custom", "custom", (), free=True),
    )
}

WINGED = ("aeroplane", "glider")
"""Layouts that are a wing and a tail; an aircraft of another kind has none of them."""

# On an aeroplane any of these stations carries a motor as soon as one is fitted or declared there.
AEROPLANE_MOTOR_STATIONS = ("nose", "wing-left", "wing-right", "tail-motor")
