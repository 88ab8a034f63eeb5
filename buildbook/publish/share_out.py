"""Share work out over processes. What is made doesn't depend on how many there are."""

import multiprocessing
import traceback
from collections.abc import Callable, Sequence
from multiprocessing.connection import Connection, wait
from typing import TypeVar

T = TypeVar("T")
Part = Callable[[Sequence[T], Callable[[], None]], None]

_WORTH_A_PROCESS = 24  # fewer pieces than this are done sooner in one process


class WorkerFailed(Exception):
    """A process met an error that is a fault of the program; the text is its traceback."""


def share_out(
    do: Part[T],
    pieces: Sequence[T],
    *,
    workers: int,
    progress: Callable[[int, int], None] | None = None,
) -> None:
    """Do all pieces, in ``workers`` processes where the system can fork one.

    do: takes a share of the pieces and a function to call after each. Pieces are dealt like
    cards, so that each process gets some of each kind. OSError in a process is raised here.
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
    processes = []
    for hand in range(hands):
        ear, mouth = context.Pipe(duplex=False)
        process = context.Process(target=_work, args=(do, pieces[hand::hands], mouth))
        process.start()
        mouth.close()
        ears.append(ear)
        processes.append(process)
    try:
        failure = _listen(ears, tell)
    finally:
        for process in processes:
            process.join()
    if failure is not None:
        raise failure


def _work(do: Part[T], share: Sequence[T], mouth: Connection) -> None:
    try:
        do(share, lambda: mouth.send(None))
    except OSError as error:
        mouth.send(error)
    except Exception:
        mouth.send(WorkerFailed(traceback.format_exc()))
    finally:
        mouth.close()


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
