"""The line that shows how far a render is."""

import io

import pytest

from buildbook.commands.terminal import screen
from buildbook.commands.terminal.screen import Bar


class Terminal(io.StringIO):
    """A stream that says it is a terminal."""

    def isatty(self) -> bool:
        """It is."""
        return True


@pytest.fixture
def clock(monkeypatch: pytest.MonkeyPatch) -> list[float]:
    """A clock that stands still until its one number is changed."""
    now = [100.0]
    monkeypatch.setattr(screen.time, "monotonic", lambda: now[0])
    return now


def test_a_long_render_shows_how_far_it_is(clock: list[float]) -> None:
    """A bar, a count, and a clean line at the end."""
    screen = Terminal()

    with Bar(screen) as bar:
        clock[0] += 2
        bar.show(3, 12)

    assert screen.getvalue() == f"\r  {'#' * 6}{'.' * 18} 3 of 12 pages\r\x1b[K"


def test_a_short_render_shows_nothing(clock: list[float]) -> None:
    """No flicker for what is done at once."""
    screen = Terminal()

    with Bar(screen) as bar:
        clock[0] += 0.5
        bar.show(12, 12)

    assert screen.getvalue() == ""


def test_a_log_file_gets_no_bar(clock: list[float]) -> None:
    """Only a terminal is drawn on."""
    stream = io.StringIO()

    with Bar(stream) as bar:
        clock[0] += 60
        bar.show(3, 12)

    assert stream.getvalue() == ""
