"""How long a glider stays up on a pack: the time of its motor, and what the air made of it."""

import msgspec

from buildbook.basis import amounts
from buildbook.basis.place import Place
from buildbook.figures.answers.craft import Craft
from buildbook.figures.answers.flight.pack_in_flight import longest_beside, longest_kept_s
from buildbook.figures.answers.flight.rates import ENOUGH, flights_with_charge
from buildbook.figures.answers.gathering import Lacking, from_figure, measured
from buildbook.figures.answers.working import by_method, given_value
from buildbook.report.figure import Figure, Input, Name
from buildbook.report.state import ItemNow

ALOFT = by_method(
    "motor endurance times the time in the air for each minute of the motor: of the flights the "
    "middle one; low and high leave a tenth of them out on either side, of fewer than ten none",
    "own",
)


def time_aloft(craft: Craft, pack: ItemNow, endurance: Figure) -> Figure:
    """The time in the air in s on a pack. endurance: that of its motor.

    Lacking: too few flights say how long the motor ran.
    """
    flights = [one for one in flights_with_charge(craft, pack) if one.motor_s > 0]
    if not flights:
        raise Lacking("flights with 'motor_run' so far: 0; it takes 1", craft.home)
    shares = sorted(one.duration_s / one.motor_s for one in flights)
    out = len(shares) // ENOUGH
    least, middle, most = shares[out], shares[len(shares) // 2], shares[-1 - out]
    longest = longest_kept_s(craft, pack, flights)
    low_s = None if endurance.low is None else endurance.low * least
    plan = "" if low_s is None else f"plan with {amounts.duration(low_s)}"
    air = (
        f"each minute of motor gives {amounts.significant(least, 2)} to "
        f"{amounts.significant(most, 2)} minutes in the air"
    )
    stands = pack.state.state == "serviceable"
    return given_value(
        "flight_time",
        (endurance.value or 0.0) * middle,
        unit="s",
        way=ALOFT,
        of=pack.tag,
        low=low_s,
        high=None if endurance.high is None else endurance.high * most,
        basis="fitted",
        inputs=(
            from_figure(endurance, Name("motor endurance", "with", pack.tag)),
            _of_flights(middle, flights[-1].place, len(flights)),
        ),
        verdict="; ".join(filter(None, (plan, air)))
        if stands
        else f"{pack.tag} is {pack.state.state}",
        other=longest_beside(longest),
        notes=(
            f"by {amounts.count('flight', len(flights))} of this aircraft",
            "the air promises nothing: the motor's timer comes first",
        ),
    )


def _of_flights(share: float, place: Place, count: int) -> Input:
    given = measured("time in the air for each minute of the motor", share, "ratio", None)
    return msgspec.structs.replace(given, place=place, note=f"the middle of {count}")
