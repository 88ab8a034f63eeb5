"""Quantiles of the normal, Student t and chi-square distributions, without numpy.

Each cumulative function is inverted by closing in on it from both sides, so that a quantile is
as exact as the cumulative function itself. Plain floats: `due` may use this module.
"""

from __future__ import annotations

import math
from collections.abc import Callable
from functools import lru_cache

from buildbook.figures.laws.numbers import checked, inside_unit

_TINY = 1e-300
_MAX_TERMS = 10_000


@checked
def normal_quantile(share: float) -> float:
    """The z below which `share` of a standard normal lies.

    share: 0 < share < 1, dimensionless. Source: definition, by the complementary error function.
    ValueError: 'share must be between 0 and 1, got X'.
    """
    inside_unit(share=share)
    if share > 0.5:
        return -normal_quantile(1.0 - share)
    return _invert(lambda z: 0.5 * math.erfc(-z / math.sqrt(2.0)), share, -40.0, 0.0)


@lru_cache(maxsize=1024)  # a search for a limit asks for the same one over and over
@checked
def t_quantile(share: float, freedom: float) -> float:
    """The t below which `share` of Student's distribution with `freedom` d.o.f. lies.

    share: 0 < share < 1; freedom > 0. Source: Abramowitz and Stegun 26.7.1 with 26.5.8 (memory).
    ValueError: 'share must be …', 'degrees of freedom must be above 0, got X'.
    """
    inside_unit(share=share)
    _check_freedom(freedom)
    if share > 0.5:
        return -t_quantile(1.0 - share, freedom)

    if share > 0.25:
        return -_invert(lambda t: _between(t, freedom), 0.5 - share, 0.0, 2.0)

    def below(t: float) -> float:
        return 0.5 * _incomplete_beta(freedom / 2.0, 0.5, freedom / (freedom + t * t))

    low = -1.0
    while below(low) > share and low > -1e150:
        low *= 4.0
    return _invert(below, share, low, 0.0)


def _between(t: float, freedom: float) -> float:
    """Share of Student's distribution between 0 and t; exact for small t, where 1 - x is not."""
    return 0.5 * _incomplete_beta(0.5, freedom / 2.0, t * t / (freedom + t * t))


@checked
def chi_square_quantile(share: float, freedom: float) -> float:
    """The value below which `share` of a chi-square with `freedom` d.o.f. lies.

    share: 0 < share < 1; freedom > 0. Source: Abramowitz and Stegun 26.4.19 with 6.5.29
    and 6.5.31 (memory). ValueError: 'share must be …', 'degrees of freedom must be …'.
    """
    inside_unit(share=share)
    _check_freedom(freedom)
    high = freedom + 1.0
    while _incomplete_gamma(freedom / 2.0, high / 2.0) < share:
        high *= 2.0
    return _invert(lambda x: _incomplete_gamma(freedom / 2.0, x / 2.0), share, 0.0, high)


def _check_freedom(freedom: float) -> None:
    if not (freedom > 0.0 and math.isfinite(freedom)):
        raise ValueError(f"degrees of freedom must be above 0, got {freedom:g}")


def _invert(below: Callable[[float], float], share: float, low: float, high: float) -> float:
    """The x in low..high at which a rising function equals `share`.

    False position, halving the weight of an end that stays (Illinois); every fourth step halves
    the interval.
    """
    at_low, at_high = below(low) - share, below(high) - share
    moved_low = moved_high = False
    for step in range(400):
        middle = 0.5 * (low + high)
        if high - low <= 1e-15 * abs(middle) or middle in (low, high):
            break
        x = middle
        if step % 4 != 3 and at_high > at_low:
            x = high - at_high * (high - low) / (at_high - at_low)
            x = x if low < x < high else middle
        at_x = below(x) - share
        if at_x == 0.0:
            return x
        if at_x < 0.0:
            at_high = 0.5 * at_high if moved_low else at_high
            low, at_low, moved_low, moved_high = x, at_x, True, False
        else:
            at_low = 0.5 * at_low if moved_high else at_low
            high, at_high, moved_low, moved_high = x, at_x, False, True
    return 0.5 * (low + high)


def _incomplete_gamma(a: float, x: float) -> float:
    """Regularised lower incomplete gamma P(a, x), a > 0, x >= 0."""
    if x <= 0.0:
        return 0.0
    scale = math.exp(a * math.log(x) - x - math.lgamma(a))
    if x < a + 1.0:
        term = total = 1.0 / a
        for k in range(1, _MAX_TERMS):
            term *= x / (a + k)
            total += term
            if term < total * 1e-17:
                break
        return scale * total
    b = x + 1.0 - a
    c = 1.0 / _TINY
    d = 1.0 / b
    fraction = d
    for k in range(1, _MAX_TERMS):
        numerator = -k * (k - a)
        b += 2.0
        d = 1.0 / _away_from_zero(numerator * d + b)
        c = _away_from_zero(b + numerator / c)
        fraction *= d * c
        if abs(d * c - 1.0) < 1e-15:
            break
    return 1.0 - scale * fraction


def _incomplete_beta(a: float, b: float, x: float) -> float:
    """Regularised incomplete beta I_x(a, b), a and b > 0, 0 <= x <= 1."""
    if x <= 0.0 or x >= 1.0:
        return 0.0 if x <= 0.0 else 1.0
    if x > (a + 1.0) / (a + b + 2.0):
        return 1.0 - _incomplete_beta(b, a, 1.0 - x)
    scale = math.exp(
        math.lgamma(a + b) - math.lgamma(a) - math.lgamma(b) + a * math.log(x) + b * math.log1p(-x)
    )
    c, d = 1.0, 1.0 / _away_from_zero(1.0 - (a + b) * x / (a + 1.0))
    fraction = d
    for m in range(1, _MAX_TERMS):
        even = m * (b - m) * x / ((a + 2 * m - 1) * (a + 2 * m))
        odd = -(a + m) * (a + b + m) * x / ((a + 2 * m) * (a + 2 * m + 1))
        for numerator in (even, odd):
            d = 1.0 / _away_from_zero(1.0 + numerator * d)
            c = _away_from_zero(1.0 + numerator / c)
            fraction *= d * c
        if abs(d * c - 1.0) < 1e-15:
            break
    return scale * fraction / a


def _away_from_zero(value: float) -> float:
    return value if abs(value) > _TINY else _TINY
