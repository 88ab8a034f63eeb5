"""Types of quantities, counts, places and names: how each is written, how far it may go."""

from typing import Annotated, Any

from msgspec import UNSET

from buildbook.basis import notation
from buildbook.basis.limits import Limits, between, plain, within
from buildbook.basis.notation import NotationError
from buildbook.records.keys.nodes import Node, is_list
from buildbook.records.keys.scope import Scope
from buildbook.records.keys.shapes import Several
from buildbook.records.keys.values import (
    AGE_DAYS,
    LINK,
    NAME,
    TEXT,
    Cells,
    Scalar,
    Schema,
    cells,
    hours,
    number,
    quantity,
    rate,
    whole,
)

ALONG = between("length", "-20 m", "20 m", zero_ok=True)


class Lengths:
    """Metres along the axes of the aircraft, the last of them perhaps not known."""

    each = quantity("length", ALONG)

    def __init__(self, words: str, fewest: int) -> None:
        self.words, self.fewest = words, fewest

    def read(self, node: Node, scope: Scope, path: str) -> Any:
        """Three metres, None for the last if it isn't there, or UNSET."""
        if not is_list(node):
            scope.expected(self.words, node, path)
            return UNSET
        if not self.fewest <= len(node.value) <= 3:
            count = len(node.value)
            scope.refuse(
                node,
                f"expected {self.words}, got a list of {count}",
                "as in [10 mm, 0 mm, 25 mm]",
            )
            return UNSET
        read = tuple(self.each.read(member, scope, path) for member in node.value)
        return UNSET if UNSET in read else (*read, None)[:3]

    def schema(self) -> Schema:
        """So many strings."""
        each = self.each.schema()
        return {"type": "array", "items": each, "minItems": self.fewest, "maxItems": 3}


PLACE3 = Lengths("a place [forward, right, down]", 3)
Place3 = Annotated[tuple[float, float, float], PLACE3]
"""Forward, right, down from the reference point of the aircraft, in metres."""
BalancePoint = Annotated[
    tuple[float, float, float | None],
    Lengths("a place [forward, right] or [forward, right, down]", 2),
]
"""The same of a centre of gravity: how high it lies no scale and no finger finds."""


def _cg(text: str) -> tuple[str, float]:
    """``("share", ratio)`` of the mean chord, or ``("m", metres)`` forward."""
    try:
        ratio = notation.share(text)
    except NotationError as error:
        try:
            metres = notation.quantity(text, "length")
        except NotationError:
            raise NotationError(error.reason, "write it as in 25 % or -12 mm") from None
        fault = within(metres, ALONG, text)
        if fault:
            raise NotationError(fault) from None
        return "m", metres
    fault = within(ratio, Limits(-1, 1.5, True, "-100 %", "150 %"), text)
    if fault:
        raise NotationError(fault)
    return "share", ratio


CG = Scalar("a share of the chord or a length", _cg)
"""Read as what it is counted in (``share`` or ``m``) and how much of it."""


Mass_kg = Annotated[float, quantity("mass")]
PartMass_kg = Annotated[float, quantity("mass", between("mass", "0.01 g", "50 kg"))]
Current_a = Annotated[float, quantity("current")]
NoLoadCurrent_a = Annotated[float, quantity("current", between("current", "1 mA", "20 A"))]
Voltage_v = Annotated[float, quantity("voltage")]
CellVoltage_v = Annotated[float, quantity("voltage", between("voltage", "0.5 V", "5 V"))]
Power_w = Annotated[float, quantity("power")]
SpeedConstant_rpm_v = Annotated[float, quantity("speed_constant")]
WindingResistance_ohm = Annotated[
    float, quantity("resistance", between("resistance", "0.1 mΩ", "10 Ω"))
]
CellResistance_ohm = Annotated[
    float, quantity("resistance", between("resistance", "0.05 mΩ", "1 Ω"))
]
RatedCharge_ah = Annotated[float, quantity("charge", between("charge", "10 mAh", "100 Ah"))]
DischargeRate_c = Annotated[float, rate(plain(0.1, 300))]
ChargeRate_c = Annotated[float, rate(plain(0.05, 20))]
CellCount = Annotated[Cells, cells(plain(1, 28))]

Altitude_m = Annotated[float, quantity("altitude")]
FieldTemperature_k = Annotated[
    float, quantity("temperature", between("temperature", "-40 °C", "50 °C"))
]
Reserve = Annotated[float, quantity("share", between("share", "0.01 %", "90 %", zero_ok=True))]
EndOfLife = Annotated[float, quantity("share", between("share", "10 %", "100 %"))]

Coefficient = Annotated[float, number(Limits(1e-4, 1.0))]
Torque_nm = Annotated[float, quantity("torque")]
Speed_m_s = Annotated[float, quantity("speed", between("speed", "2 m/s", "120 m/s"))]
ThrustRatio = Annotated[float, number(Limits(1.01, 20))]
Efficiency = Annotated[float, quantity("share", between("share", "20 %", "99.9 %"))]
FigureOfMerit = Annotated[float, number(Limits(0.05, 1.0))]
Poles = Annotated[int, whole(plain(2, 60))]
Blades = Annotated[int, whole(plain(1, 12))]
FlightsSoon = Annotated[int, whole(plain(1, 1000))]
DaysSoon = Annotated[int, AGE_DAYS]

CarriedTime_s = Annotated[float, hours(Limits(1, 3.6e8, True, "1 s", "100000 hours"))]
CarriedFlights = Annotated[int, whole(plain(0, 1_000_000))]
CarriedCycles = Annotated[float, number(plain(0, 100_000))]

Along_m = Annotated[float, quantity("length", ALONG)]
RunLength_m = Annotated[float, quantity("length", between("length", "1 mm", "20 m"))]
Span_m = Annotated[float, quantity("length", between("length", "50 mm", "20 m"))]
Chord_m = Annotated[float, quantity("length", between("length", "10 mm", "5 m"))]
Diagonal_m = Annotated[float, quantity("length", between("length", "20 mm", "10 m"))]
WingArea_m2 = Annotated[float, quantity("area")]
LiftCoefficient = Annotated[float, number(Limits(0.1, 5))]
Output = Annotated[int, whole(plain(1, 64))]
StickMode = Annotated[int, whole(plain(1, 4))]

Count = Annotated[int, whole(plain(1, 100_000))]
CountInParts = Annotated[float, number(Limits(0.1, 100_000))]
FlyingTime_s = Annotated[float, hours(Limits(1, 3.6e8, False, "1 s", "100000 hours"))]
CapacityShare = Annotated[float, quantity("share", between("share", "1 %", "100 %"))]
ResistanceShare = Annotated[float, quantity("share", between("share", "100 %", "1000 %"))]

FLOWN = quantity("duration", between("duration", "1 s", "24 h"))
MotorTime_s = Annotated[
    float, quantity("duration", between("duration", "1 s", "24 h", zero_ok=True))
]
CHARGE = quantity("charge", between("charge", "1 mAh", "200 Ah", zero_ok=True))
Charge_ah = Annotated[float, CHARGE]
MeasuredCharge_ah = Annotated[float, quantity("charge", between("charge", "1 mAh", "200 Ah"))]
RestingVoltage_v = Annotated[
    float, quantity("voltage", between("voltage", "1 mV", "120 V", zero_ok=True))
]
AirTemperature_k = Annotated[
    float,
    quantity(
        "temperature",
        between(
            "temperature",
            "-40 °C",
            "60 °C",
            beyond="that is no air: write a hot pack as a look of it, as in"
            " enter inspection P-01 pack-look fail temperature=70C",
        ),
    ),
]
PackTemperature_k = Annotated[
    float, quantity("temperature", between("temperature", "-40 °C", "300 °C"))
]
MassChange_kg = Annotated[float, quantity("mass", between("mass", "-50 kg", "50 kg", zero_ok=True))]
DeferredFlights = Annotated[int, whole(plain(1, 10_000))]
DeferredTime_s = Annotated[float, hours(Limits(1, 3.6e7, False, "1 s", "10000 hours"))]


TAG, PACK = (Scalar("a tag", str.strip, {"type": ["string", "integer"]}) for _ in range(2))
"""The tag of an item, and that of a pack: each must be there, and a pack be one."""

TAGS = Several(TAG, single=True, least=1)
SOME_TEXTS = Several(TEXT, single=True, least=1)

Name = Annotated[str, NAME]
Link = Annotated[str, LINK]
Tag = Annotated[str, TAG]
Tags = Annotated[tuple[str, ...], TAGS]
"""One tag, or a list of them."""
Pack = Annotated[str, PACK]
Packs = Annotated[tuple[str, ...], Several(PACK, single=True, least=1)]
Texts = Annotated[tuple[str, ...], Several(TEXT, single=True)]
"""One text, or a list of them."""
SomeTexts = Annotated[tuple[str, ...], SOME_TEXTS]
"""The same, but not none."""
Names = Annotated[tuple[str, ...], Several(NAME, single=True)]
