"""What became of parts of a kind: how long those lasted that were taken out of use."""

from collections.abc import Mapping
from statistics import median

import msgspec

from buildbook.basis import amounts
from buildbook.report.state import Hangar

_ENDED = ("retired", "scrapped")


class PastLives(msgspec.Struct, frozen=True, kw_only=True):
    """The lives of the items of one spec that have ended, in the order of their tags.

    at_least: some began before these records, unknown how long.
    """

    spec: str
    tags: tuple[str, ...]
    durations_s: tuple[float, ...]
    at_least: bool = False

    @property
    def median_s(self) -> float:
        """Half of them lasted longer."""
        return median(self.durations_s)

    def __str__(self) -> str:
        least = "at least " if self.at_least else ""
        return (
            f"{len(self.tags)} replaced, median {least}{amounts.fixed(self.median_s / 3600, 1)} h"
        )


def past_lives(hangar: Hangar) -> Mapping[str, PastLives]:
    """By spec, for every spec of which an item was retired or scrapped. Packs and others alike."""
    ended: dict[str, list[str]] = {}
    for tag in sorted(hangar.items):
        item = hangar.items[tag]
        if item.state.state in _ENDED:
            ended.setdefault(item.item.spec, []).append(tag)
    return {
        spec: PastLives(
            spec=spec,
            tags=tuple(tags),
            durations_s=tuple(hangar.items[tag].counters.duration_s for tag in tags),
            at_least=any(hangar.items[tag].counters.time_at_least for tag in tags),
        )
        for spec, tags in sorted(ended.items())
    }
