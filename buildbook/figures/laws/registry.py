"""Every public law, by the name of its function: those of statistics here, then all together."""

import inspect
from collections.abc import Callable
from typing import Any

from buildbook.figures.laws.flight_registry import FLIGHT
from buildbook.figures.laws.law import CUSTOM, DEFINITION, GARWOOD, SEN, Law, Quantity
from buildbook.figures.laws.packs import cycles, fade, forecast, forecast_days
from buildbook.figures.laws.statistics import counts, drift, odd_one, quantiles, robust, trend

NIST = "NIST/SEMATECH e-Handbook, doi:10.18434/M32189"
STATISTICS_TABLES = "Abramowitz and Stegun, chapter 26 (from memory)"
BIWEIGHT = "Beaton and Tukey 1974, Technometrics 16:147-185 (from memory)"
NASA = "none published as a whole; checked on the NASA battery set, Saha and Goebel 2007"

# Symbol and unit of every parameter name; "unit of y" is the caller's own unit.
PARAMETERS: dict[str, Quantity] = {
    "share": Quantity("p", ""),
    "freedom": Quantity("ν", ""),
    "level": Quantity("1-α", ""),
    "levels": Quantity("1-α", ""),
    "events": Quantity("k", ""),
    "failures": Quantity("r", ""),
    "exposure": Quantity("E", "flights or hours"),
    "per": Quantity("E_0", "flights or hours"),
    "observed": Quantity("T", "hours or flights"),
    "charge_ah": Quantity("Q", "Ah"),
    "rated_capacity_ah": Quantity("C_r", "Ah"),
    "values": Quantity("x_i", "unit of x"),
    "target": Quantity("μ_0", "unit of x"),
    "sd": Quantity("σ", "unit of x"),
    "weight": Quantity("λ", ""),
    "width": Quantity("L", ""),
    "target_count": Quantity("m", ""),
    "baseline": Quantity("m", ""),
    "x": Quantity("x_i", "unit of x"),
    "y": Quantity("y_i", "unit of y"),
    "intercept": Quantity("habit", ""),
    "duration_s": Quantity("t", "s"),
    "rate": Quantity("I", "A"),
    "numbers": Quantity("n_i", ""),
    "capacities_ah": Quantity("C_i", "Ah"),
    "threshold_ah": Quantity("C_e", "Ah"),
    "end": Quantity("n_e", ""),
    "number_now": Quantity("n", ""),
    "history": Quantity("d_i", "day"),
    "below": Quantity("P(x)", ""),
    "chances": Quantity("p", ""),
    "first": Quantity("x_0", "unit of x"),
    "last": Quantity("x_1", "unit of x"),
    "years": Quantity("t", "year"),
    "loss": Quantity("f_0", "ratio"),
    "months": Quantity("t_0", "month"),
    "today": Quantity("d", "day"),
    "window_days": Quantity("w", "day"),
}


def _law(
    function: Callable[..., Any], symbol: str, unit: str, valid: str, source: str, words: str
) -> Law:
    names = inspect.signature(function).parameters
    parameters = {name: PARAMETERS[name] for name in names}
    return Law(function, Quantity(symbol, unit), parameters, valid, source, "method", words)


STATISTICS: dict[str, Law] = {
    # quantiles
    "normal_quantile": _law(
        quantiles.normal_quantile,
        "z",
        "",
        "p between 0 and 1",
        DEFINITION,
        "the complementary error function, inverted from both sides",
    ),
    "t_quantile": _law(
        quantiles.t_quantile,
        "t",
        "",
        "p between 0 and 1, ν above 0",
        STATISTICS_TABLES,
        "the incomplete beta function, inverted from both sides",
    ),
    "chi_square_quantile": _law(
        quantiles.chi_square_quantile,
        "χ²",
        "",
        "p between 0 and 1, ν above 0",
        STATISTICS_TABLES,
        "the incomplete gamma function, inverted from both sides",
    ),
    # trends
    "theil_sen": _law(
        trend.theil_sen,
        "b",
        "unit of y per unit of x",
        "two points or more with different x; beyond 2,000 neighbours are merged",
        SEN,
        "median of the slopes of all pairs; limits by the ranks of Kendall's score",
    ),
    "odd_one_out": _law(
        odd_one.odd_one_out,
        "x",
        "unit of x",
        "three values or more, above 0",
        CUSTOM,
        "furthest from the median of the others, by more than the share and their spread",
    ),
    # end of life
    "fit_fade": _law(
        fade.fit_fade,
        "C",
        "Ah",
        "four readings or more, numbers ascending",
        "least squares and marginal likelihood of each shape; the family of shapes is a default",
        "every shape of a family fitted; each counts by what the readings say of it",
    ),
    "forecast_end_of_life": _law(
        forecast.forecast_end_of_life,
        "n_e",
        "charges",
        "four readings or more over ten charges or more, under like conditions",
        "own, held by simulation; " + NASA,
        "the number by which the capacity is below the share in half of all that may be",
    ),
    "below_since": _law(
        forecast.below_since,
        "n",
        "charges",
        "numbers ascending",
        "definition",
        "the first of two or more last readings running that are below",
    ),
    "reached_at": _law(
        forecast.reached_at,
        "x",
        "unit of x",
        "a chance that rises, from above 0 on",
        "definition; straight lines between steps of an eighth",
        "where a rising chance reaches a value",
    ),
    "rest_loss": _law(
        forecast_days.rest_loss,
        "f_r",
        "ratio",
        "0 years or more, lithium cells",
        "growth of the film on the anode, quoted widely",
        "loss of the first months · √(time over these months)",
    ),
    "forecast_days": _law(
        forecast_days.forecast_days,
        "d",
        "day",
        "three days with charging in a fortnight or more, or none in half a year",
        GARWOOD + "; age by the square root of time",
        "the day by which charging as of late and time on the shelf have used the capacity up",
    ),
    # flown
    "fit_rate": _law(
        robust.fit_rate,
        "I",
        "A",
        "four flights or more, durations and charges above 0",
        BIWEIGHT,
        "mean of the flights' currents weighted by duration; flights far off lose their weight",
    ),
    "forecast_time": _law(
        robust.forecast_time,
        "t",
        "s",
        "charge above 0",
        "prediction of a new observation in a linear model, solved for time",
        "the times at which the limits of the used charge reach the charge",
    ),
    # drift
    "drift": _law(
        drift.drift,
        "z",
        "unit of x",
        "a baseline of five values or more that vary",
        NIST + ", sections 6.3.2.2 and 6.3.2.4",
        "EWMA of what follows the baseline; limits widened for a target that is a mean of few",
    ),
    "ewma_chart": _law(
        drift.ewma_chart,
        "z",
        "unit of x",
        "σ above 0, λ above 0 and at most 1",
        NIST + ", section 6.3.2.4",
        "z_i = λ·x_i + (1-λ)·z_(i-1), starting at the target; exact limits of each point",
    ),
    "individuals_chart": _law(
        drift.individuals_chart,
        "x",
        "unit of x",
        "two values or more",
        NIST + ", section 6.3.2.2",
        "mean ± 3·(mean moving range)/1.128",
    ),
    # counts
    "event_limits": _law(
        counts.event_limits,
        "μ",
        "events",
        "k 0 or more",
        GARWOOD,
        "χ²(α/2, 2k)/2 to χ²(1-α/2, 2k+2)/2",
    ),
    "event_upper_bound": _law(
        counts.event_upper_bound, "μ", "events", "k 0 or more", GARWOOD, "χ²(1-α, 2k+2)/2"
    ),
    "event_rate": _law(
        counts.event_rate,
        "r",
        "events per E_0",
        "exposure above 0",
        GARWOOD,
        "events over exposure; without an event a one-sided upper bound only",
    ),
    "mean_time_between": _law(
        counts.mean_time_between,
        "θ",
        "unit of T",
        "observed time above 0",
        NIST + ", section 8.4.5.1",
        "2T/χ²(1-α/2, 2r+2) to 2T/χ²(α/2, 2r)",
    ),
    # cycles
    "equivalent_full_cycles": _law(
        cycles.equivalent_full_cycles,
        "N",
        "cycles",
        "rated capacity above 0",
        "checked on the NASA battery set, Saha and Goebel 2007",
        "Q/C_r",
    ),
}


LAWS: dict[str, Law] = {
    # air, balance, hover, propellers, motors, packs, wire, wings, layouts, masses
    **FLIGHT,
    # trends, forecasts, flown rates, drift, counts, cycles
    **STATISTICS,
}
