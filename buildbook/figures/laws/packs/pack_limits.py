"""Shares of capacity at which packs are retired, and who says so. Table written 2026-11-25.

No source was found for a limit made for hobby lithium polymer packs: the record sets the limit,
and the default is common practice.
"""

from __future__ import annotations

import math
from typing import Literal

import msgspec

from buildbook.figures.laws.numbers import finite_only

Reference = Literal["rated", "own first"]


class PackLimit(msgspec.Struct, frozen=True):
    """One rule of when a battery is at its end, or wants watching."""

    rule: str
    share: float  # of the reference capacity
    reference: Reference
    source: str


PACK_LIMITS: tuple[PackLimit, ...] = (
    PackLimit(
        "end of the published cell tests", 0.70, "rated", "NASA battery set, Saha and Goebel 2007"
    ),
    PackLimit(
        "stationary lead-acid, replace", 0.80, "own first", "US Bureau of Reclamation FIST 3-6"
    ),
    PackLimit(
        "stationary lead-acid, test every year",
        0.90,
        "own first",
        "US Bureau of Reclamation FIST 3-6",
    ),
    PackLimit("stationary lead-acid, replace", 0.80, "rated", "IEEE 450, IEEE 1188 (from memory)"),
    PackLimit(
        "electric vehicle test cells, end of life",
        0.80,
        "rated",
        "USABC test procedures manual, rev. 2, 1996 (from memory)",
    ),
    PackLimit(
        "portable lithium cells, endurance test ends",
        0.60,
        "rated",
        "IEC 61960-3:2017 clause 7.6 (from memory)",
    ),
    PackLimit("model packs, retire", 0.80, "rated", "common practice, no source"),
)
DEFAULT_LIMIT = PACK_LIMITS[-1]


@finite_only
def threshold_capacity_ah(share: float, reference_capacity_ah: float) -> float:
    """The capacity in Ah at a share of a reference capacity.

    0 < share <= 1; reference_capacity_ah > 0. Source: definition.
    ValueError: 'share must be above 0 and at most 1, got X', 'reference capacity must be …'.
    """
    if not 0.0 < share <= 1.0:
        raise ValueError(f"share must be above 0 and at most 1, got {share:g}")
    if not (reference_capacity_ah > 0.0 and math.isfinite(reference_capacity_ah)):
        raise ValueError(f"reference capacity must be above 0 Ah, got {reference_capacity_ah:g}")
    return share * reference_capacity_ah
