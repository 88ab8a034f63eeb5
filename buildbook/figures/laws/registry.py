"""Every public law, by the name of its function: the two halves of the room together.

It imports numpy with the statistics: commands that must start quickly take a law from its own
module, or FLIGHT alone.
"""

from .flight_registry import FLIGHT
from .law import Law
from .statistics_registry import STATISTICS

LAWS: dict[str, Law] = {
    # air, balance, hover, propellers, motors, packs, wire, wings, layouts, masses
    **FLIGHT,
    # trends, forecasts, flown rates, drift, counts, cycles
    **STATISTICS,
}
