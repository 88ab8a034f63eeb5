"""Every public law, by the name of its function: the two halves of the room together.

It imports numpy with the statistics: commands that must start quickly take a law from its own
module, or FLIGHT alone.
"""

from buildbook.figures.laws.flight_registry import FLIGHT
from buildbook.figures.laws.law import Law
from buildbook.figures.laws.statistics_registry import STATISTICS

LAWS: dict[str, Law] = {
    # air, balance, hover, propellers, motors, packs, wire, wings, layouts, masses
    **FLIGHT,
    # trends, forecasts, flown rates, drift, counts, cycles
    **STATISTICS,
}
