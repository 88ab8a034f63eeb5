"""What is lost between pack and air: in motors, ESCs, and by rotors one above the other.

Where nothing is recorded a default stands, with its range; the range widens what rests on it.
"""

import math
from collections.abc import Mapping

from buildbook.figures.answers.craft import Craft, Rotor
from buildbook.figures.answers.gathering import default, in_per_cent, of_spec
from buildbook.figures.laws.aero.hover import coaxial_thrust_n
from buildbook.report.figure import Input
from buildbook.report.state import ItemNow

INTERFERENCE, INTERFERENCE_RANGE = 1.281, (1.16, 1.414)
MOTOR_EFFICIENCY, MOTOR_EFFICIENCY_RANGE = 0.78, (0.70, 0.86)
ESC_EFFICIENCY, ESC_EFFICIENCY_RANGE = 0.95, (0.92, 0.97)

RANGES: Mapping[str, tuple[float, float]] = {
    "motor_efficiency": (
        MOTOR_EFFICIENCY / MOTOR_EFFICIENCY_RANGE[1],
        MOTOR_EFFICIENCY / MOTOR_EFFICIENCY_RANGE[0],
    ),
    "esc_efficiency": (
        ESC_EFFICIENCY / ESC_EFFICIENCY_RANGE[1],
        ESC_EFFICIENCY / ESC_EFFICIENCY_RANGE[0],
    ),
    "interference": (
        INTERFERENCE_RANGE[0] / INTERFERENCE,
        INTERFERENCE_RANGE[1] / INTERFERENCE,
    ),
}
"""By how the key of an input begins: the least and most power, as shares of the stated."""


def motor_efficiency(rotor: Rotor) -> Input:
    """Share of a motor's electrical power that reaches the shaft: of its spec, else a default."""
    return _efficiency(rotor.motor, "the motors", MOTOR_EFFICIENCY, MOTOR_EFFICIENCY_RANGE)


def esc_efficiency(rotor: Rotor) -> Input:
    """Share of the pack's power that an ESC hands on: of its spec, else a default."""
    return _efficiency(rotor.esc, "the ESCs", ESC_EFFICIENCY, ESC_EFFICIENCY_RANGE)


def _efficiency(item: ItemNow | None, words: str, usual: float, span: tuple[float, float]) -> Input:
    if item is not None and item.spec.efficiency_share is not None:
        share = item.spec.efficiency_share
        return in_per_cent(of_spec(item, share, "efficiency", "efficiency", "ratio"))
    least, most = (f"{100 * end:.0f} %" for end in span)
    note = (
        f"{least} to {most}, from memory; a bench table, or 'efficiency' in the spec, replaces it"
    )
    place = None if item is None else item.spec.place()
    return in_per_cent(default(f"efficiency of {words}", usual, "ratio", note, place))


def spread(inputs: Mapping[str, Input]) -> tuple[float, float]:
    """The least and most power over the ranges of the defaults, as shares of the stated."""
    assumed = _assumed(inputs)
    return (
        math.prod(RANGES[kind][0] for kind in assumed),
        math.prod(RANGES[kind][1] for kind in assumed),
    )


def _assumed(inputs: Mapping[str, Input]) -> list[str]:
    return [
        kind
        for kind in RANGES
        if any(key.startswith(kind) and one.basis == "default" for key, one in inputs.items())
    ]


def loss_notes(inputs: Mapping[str, Input]) -> tuple[str, ...]:
    """Which losses are a default, and between what they lie."""
    assumed = _assumed(inputs)
    known = {
        "motor_efficiency": ("motor", MOTOR_EFFICIENCY_RANGE),
        "esc_efficiency": ("ESC", ESC_EFFICIENCY_RANGE),
    }
    found = [known[kind] for kind in assumed if kind in known]
    if not found:
        return ()
    who = " and ".join(name for name, _ in found)
    ends = " and ".join(f"{100 * low:.0f} % to {100 * high:.0f} %" for _, (low, high) in found)
    verb = "lose" if len(found) > 1 else "loses"
    if len(found) == 1:
        who = f"the {who}"
    return (f"what {who} {verb} is a default: {ends} of the power come through",)


def interference(craft: Craft) -> Mapping[str, Input]:
    """What a pair of rotors takes over two apart, where rotors turn one above the other."""
    if not craft.coaxial:
        return {}
    words = "1.16 as measured to 1.41 without contraction of the wake; Leishman, from memory"
    return {"interference": default("interference of a pair", INTERFERENCE, "ratio", words)}


def apart(thrust_n: float, values: Mapping[str, float]) -> float:
    """The thrust of a rotor apart, in N, at the power with which one of a pair gives this one."""
    if "interference" not in values:
        return thrust_n
    return thrust_n / coaxial_thrust_n(1.0, values["interference"])


def paired(thrust_n: float, values: Mapping[str, float]) -> float:
    """The thrust in N of one of a pair at the power with which a rotor apart gives this one."""
    if "interference" not in values:
        return thrust_n
    return coaxial_thrust_n(thrust_n, values["interference"])


def pair_notes(craft: Craft) -> tuple[str, ...]:
    """What is taken of rotors one above the other."""
    if not craft.coaxial:
        return ()
    return (
        f"rotors one above the other: a pair takes {INTERFERENCE:.2f} times the induced power of "
        f"two apart, a default ({INTERFERENCE_RANGE[0]:.2f} to {INTERFERENCE_RANGE[1]:.2f})",
    )
