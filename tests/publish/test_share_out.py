"""Sharing work out over processes."""

from collections.abc import Callable, Sequence
from pathlib import Path

import pytest

from buildbook.publish.share_out import WorkerFailed, dealt, share_out


@pytest.mark.parametrize("workers", [1, 2, 3])
def test_each_piece_is_done_once(tmp_path: Path, workers: int) -> None:
    """Whatever the number of processes."""

    def do(pieces: Sequence[int], done: Callable[[], None]) -> None:
        for piece in pieces:
            with (tmp_path / f"{piece}").open("a") as file:
                file.write("x")
            done()

    told: list[tuple[int, int]] = []
    share_out(
        do, range(100), workers=workers, progress=lambda done, total: told.append((done, total))
    )

    assert {path.name: path.read_text() for path in tmp_path.iterdir()} == {
        str(piece): "x" for piece in range(100)
    }
    assert told == [(done, 100) for done in range(1, 101)]


def test_an_error_of_the_disk_comes_back_as_it_is() -> None:
    """A full disk in a process is a full disk for the caller."""

    def do(_pieces: Sequence[int], _done: Callable[[], None]) -> None:
        raise OSError(28, "No space left on device")

    with pytest.raises(OSError, match=r"^\[Errno 28\] No space left on device$"):
        share_out(do, range(100), workers=2)


def test_a_fault_of_the_program_brings_its_traceback() -> None:
    """Nothing is swallowed in a process."""

    def do(_pieces: Sequence[int], _done: Callable[[], None]) -> None:
        raise KeyError("no such page")

    with pytest.raises(WorkerFailed, match="KeyError: 'no such page'"):
        share_out(do, range(100), workers=2)


def test_pieces_with_one_key_go_to_one_process():
    """Three lots over two processes: each whole, the shares as even as whole lots allow."""
    pieces = ["a1", "b1", "c1", "a2", "b2", "c2", "a3"]

    assert [["a1", "a2", "a3"], ["b1", "b2", "c1", "c2"]] == dealt(pieces, 2, lambda one: one[0])
    assert [["a1", "c1", "b2", "a3"], ["b1", "a2", "c2"]] == dealt(pieces, 2)
