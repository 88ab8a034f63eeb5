"""Killing the program at any step: which steps count is the caller's to say."""

import os
import signal
from collections.abc import Callable
from pathlib import Path

Act = Callable[[], int]
Count = Callable[[Path, Callable[[int], None]], None]
"""Calls its second argument with 1, 2, 3... at each step below its first."""


def in_a_child(act: Act) -> int:
    """Run it in a process of its own; its exit status, or minus the signal that ended it."""
    child = os.fork()
    if child == 0:
        status = 99
        try:
            silence = os.open(os.devnull, os.O_WRONLY)
            os.dup2(silence, 1)
            os.dup2(silence, 2)
            status = act()
        finally:
            os._exit(status)
    return os.waitstatus_to_exitcode(os.waitpid(child, 0)[1])


def killed_at(count: Count, step: int, act: Act, root: Path) -> int:
    """Act in a child that kills itself at that step below ``root``."""

    def acting() -> int:
        def at(done: int) -> None:
            if done == step:
                os.kill(os.getpid(), signal.SIGKILL)

        count(root, at)
        return act()

    return in_a_child(acting)


def steps_of(count: Count, act: Act, root: Path) -> int:
    """How many steps below ``root`` it takes."""
    receiver, sender = os.pipe()

    def acting() -> int:
        def at(_done: int) -> None:
            os.write(sender, b".")

        count(root, at)
        return act()

    assert in_a_child(acting) == 0
    os.close(sender)
    with os.fdopen(receiver, "rb") as file:
        return len(file.read())
