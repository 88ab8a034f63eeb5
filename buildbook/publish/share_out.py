"""Share work out over processes. What is made doesn't depend on how many there are."""

import errno
import multiprocessing
import os
import traceback
from collections.abc import Callable, Hashable, Sequence
from contextlib import suppress
from multiprocessing.connection import Connection, wait
from multiprocessing.context import ForkProcess
from typing import TypeVar

from buildbook.publish.held_back import signals_held_back

T = TypeVar("T")
Part = Callable[[Sequence[T], Callable[[], None]], None]

_WORTH_A_PROCESS = 24  # fewer pieces than this are done sooner in one process


class WorkerFailed(Exception):
    """A process met an error that is a fault of the program; the text is its traceback."""


class WorkerEnded(OSError):
    """A process was ended from outside, for instance because the memory ran out."""


def share_out(
    do: Part[T],
    pieces: Sequence[T],
    *,
    workers: int,
    progress: Callable[[int, int], None] | None = None,
    told: tuple[type[Exception], ...] = (),
    together: Callable[[T], Hashable] | None = None,
) -> None:
    """Do all pieces, in ``workers`` processes where the system can fork one.

    do: takes a share of the pieces and a function to call after each. Pieces are dealt like
    cards, so that each process gets some of each kind; those for which ``together`` gives the
    same go to one process, which then works out once what they have in common. told: errors that
    a process may meet and that are raised here as they are; so is OSError. WorkerEnded: a process
    was killed. However this ends, no process is left; those of a killed caller end with their
    next piece.
    """
    total = len(pieces)
    finished = 0

    def tell() -> None:
        nonlocal finished
        finished += 1
        if progress is not None:
            progress(finished, total)

    count = min(workers, total // _WORTH_A_PROCESS)
    if count < 2 or "fork" not in multiprocessing.get_all_start_methods():
        do(pieces, tell)
        return
    context = multiprocessing.get_context("fork")
    receivers: list[Connection] = []
    processes: list[ForkProcess] = []
    failure: Exception | None = None
    shares = dealt(pieces, count, together)
    try:
        # Ctrl-C reaches all processes of a terminal; only the first one answers it.
        with signals_held_back():
            for share in shares:
                receiver, sender = context.Pipe(duplex=False)
                receivers.append(receiver)
                process = context.Process(target=_work, args=(do, share, sender, receivers, told))
                process.start()
                sender.close()
                processes.append(process)
        failure = _receive(receivers, tell)
    except BaseException:
        for process in processes:
            process.kill()
        raise
    finally:
        for process in processes:
            process.join()
    if failure is None and any(process.exitcode != 0 for process in processes):
        failure = WorkerEnded(errno.ECHILD, "a process that makes pages was ended from outside")
    if failure is not None:
        raise failure


def dealt(
    pieces: Sequence[T], count: int, together: Callable[[T], Hashable] | None = None
) -> list[list[T]]:
    """A share for each process: in the order of the pieces, each lot to the one with the least."""
    lots: dict[Hashable, list[T]] = {}
    for at, piece in enumerate(pieces):
        lots.setdefault(at if together is None else together(piece), []).append(piece)
    shares: list[list[T]] = [[] for _ in range(count)]
    for lot in lots.values():
        min(shares, key=len).extend(lot)
    return shares


def _work(
    do: Part[T],
    share: Sequence[T],
    sender: Connection,
    receivers: list[Connection],
    told: tuple[type[Exception], ...],
) -> None:
    passed: tuple[type[Exception], ...] = (OSError, *told)
    for receiver in receivers:  # else a process would keep another one talking to a dead caller
        receiver.close()
    try:
        do(share, lambda: sender.send(None))
    except BrokenPipeError:
        os._exit(1)
    except passed as error:
        _send(sender, error)
    except Exception:
        _send(sender, WorkerFailed(traceback.format_exc()))
    finally:
        sender.close()


def _send(sender: Connection, failure: Exception) -> None:
    with suppress(BrokenPipeError):
        sender.send(failure)


def _receive(receivers: list[Connection], tell: Callable[[], None]) -> Exception | None:
    """Receive from all processes to their end; gives the first failure told."""
    failure: Exception | None = None
    left = list(receivers)
    while left:
        for receiver in wait(left):
            assert isinstance(receiver, Connection)
            try:
                word = receiver.recv()
            except EOFError:
                left.remove(receiver)
                continue
            if word is None:
                tell()
            elif failure is None:
                failure = word
    return failure
