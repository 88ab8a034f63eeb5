"""Signals that would stop the program wait until a step is done."""

import signal
from collections.abc import Iterator
from contextlib import contextmanager

STOPS = tuple(
    getattr(signal, name) for name in ("SIGINT", "SIGTERM", "SIGHUP") if hasattr(signal, name)
)
"""Signals that ask a program to end."""


@contextmanager
def signals_held_back() -> Iterator[None]:
    """Hold back Ctrl-C and requests to end; they arrive after the block.

    A process forked off in the block never hears them. On a system without signal masks nothing
    is held back.
    """
    if not hasattr(signal, "pthread_sigmask"):
        yield
        return
    before = signal.pthread_sigmask(signal.SIG_BLOCK, STOPS)
    try:
        yield
    finally:
        signal.pthread_sigmask(signal.SIG_SETMASK, before)
