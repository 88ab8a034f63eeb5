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

    hands = min(workers, total // _WORTH_A_PROCESS)
    if hands < 2 or "fork" not in multiprocessing.get_all_start_methods():
        do(pieces, tell)
        return
    context = multiprocessing.get_context("fork")
    ears: list[Connection] = []
    processes: list[ForkProcess] = []
    failure: Exception | None = None
    shares = dealt(pieces, hands, together)
    try:
        # Ctrl-C reaches all processes of a terminal; only the first one answers it.
        with signals_held_back():
            for hand in range(hands):
                ear, mouth = context.Pipe(duplex=False)
                ears.append(ear)
                process = context.Process(target=_work, args=(do, shares[hand], mouth, ears, told))
                process.start()
                mouth.close()
                processes.append(process)
        failure = _listen(ears, tell)
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
    pieces: Sequence[T], hands: int, together: Callable[[T], Hashable] | None = None
) -> list[list[T]]:
    """A share for each process: in the order of the pieces, each lot to the one with the least."""
    lots: dict[Hashable, list[T]] = {}
    for at, piece in enumerate(pieces):
        lots.setdefault(at if together is None else together(piece), []).append(piece)
    shares: list[list[T]] = [[] for _ in range(hands)]
    for lot in lots.values():
        min(shares, key=len).extend(lot)
    return shares


def _work(
    do: Part[T],
    share: Sequence[T],
    mouth: Connection,
    ears: list[Connection],
    told: tuple[type[Exception], ...],
) -> None:
    passed: tuple[type[Exception], ...] = (OSError, *told)
    for ear in ears:  # else a process would keep another one talking to a dead caller
        ear.close()
    try:
        do(share, lambda: mouth.send(None))
    except BrokenPipeError:
        os._exit(1)
    except passed as error:
        _send(mouth, error)
    except Exception:
        _send(mouth, WorkerFailed(traceback.format_exc()))
    finally:
        mouth.close()


def _send(mouth: Connection, failure: Exception) -> None:
    with suppress(BrokenPipeError):
        mouth.send(failure)


def _listen(ears: list[Connection], tell: Callable[[], None]) -> Exception | None:
    """Hear all processes to their end; gives the first failure told."""
    failure: Exception | None = None
    open_ears = list(ears)
    while open_ears:
        for ear in wait(open_ears):
            assert isinstance(ear, Connection)
            try:
                word = ear.recv()
            except EOFError:
                open_ears.remove(ear)
                continue
            if word is None:
                tell()
            elif failure is None:
                failure = word
    return failure
