"""When the garbage collector rests."""

import gc
from collections.abc import Iterator
from contextlib import contextmanager


@contextmanager
def collector_paused() -> Iterator[None]:
    """No garbage collection inside: reading makes many objects and no rubbish."""
    was_on = gc.isenabled()
    gc.disable()
    try:
        yield
    finally:
        if was_on:
            gc.enable()


_SELDOM = (5000, 50, 50)
"""Most of what pages are made from stays to the end, and each walk goes over all of it."""


@contextmanager
def collector_at_work() -> Iterator[None]:
    """Garbage collection of what is made inside; what was there before is not walked again."""
    was_on, before = gc.isenabled(), gc.get_threshold()
    gc.freeze()
    gc.set_threshold(*_SELDOM)
    gc.enable()
    try:
        yield
    finally:
        gc.unfreeze()
        gc.set_threshold(*before)
        if not was_on:
            gc.disable()


def rubbish_collected() -> None:
    """Collect all that is no longer needed, and look at what stays no more: for a quiet moment."""
    gc.unfreeze()
    gc.collect()
    gc.freeze()
