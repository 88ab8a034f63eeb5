"""A line that shows how far a render is; on a terminal only, and only when it takes long."""

import time
from types import TracebackType
from typing import TextIO

_PATIENCE_S = 0.7
_EVERY_S = 0.1
_CELLS = 24


class Bar:
    """Use as a context; call ``show(done, total)`` after each page."""

    def __init__(self, stream: TextIO) -> None:
        self._stream = stream
        self._started = time.monotonic()
        self._last = 0.0
        self._shown = False

    def __enter__(self) -> "Bar":
        return self

    def __exit__(
        self,
        kind: type[BaseException] | None,
        error: BaseException | None,
        trace: TracebackType | None,
    ) -> None:
        if self._shown:
            self._stream.write("\r\x1b[K")
            self._stream.flush()

    def show(self, done: int, total: int) -> None:
        """Draw the line anew, ten times a second at the most."""
        now = time.monotonic()
        if not self._stream.isatty() or now - self._started < _PATIENCE_S:
            return
        if now - self._last < _EVERY_S and done < total:
            return
        self._last, self._shown = now, True
        filled = _CELLS * done // max(total, 1)
        self._stream.write(f"\r  {'#' * filled}{'.' * (_CELLS - filled)} {done} of {total} pages")
        self._stream.flush()
