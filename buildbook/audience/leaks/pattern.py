"""What may leak, and how it is found."""

from collections.abc import Callable, Iterable
from typing import Literal

import msgspec

Find = Callable[[str], Iterable[int]]
"""Where it stands in a text that was flattened, as offsets."""

Needs = Literal["digit", "anything"]
"""What a text must have before it is worth a closer look."""


class Leak(msgspec.Struct, frozen=True):
    """One thing that a text may give away.

    reason: as in a message, before ``in a text that would be public``. dated: only where days are
    not shared.
    """

    reason: str
    find: Find
    needs: Needs = "digit"
    dated: bool = False


def words(text: str) -> frozenset[str]:
    """The words of a list that is written as one text."""
    return frozenset(text.split())
