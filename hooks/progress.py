"""Says how far a long build is: in one line that changes where a person looks on, else in lines."""

from __future__ import annotations

import time
from collections.abc import Callable
from types import TracebackType
from typing import Self, TextIO

EVERY = 0.2  # seconds from one change of the line to the next
LINES = 15.0  # seconds from line to line where nobody looks on
_CLEAR = "\r\x1b[K"


class Progress:
    """Tells what is done, of how much, and the time that is left; nothing of what is short."""

    def __init__(self, out: TextIO | None, clock: Callable[[], float] = time.monotonic) -> None:
        """Tell it on `out`, or, where that is None, not at all."""
        self._out, self._clock = out, clock
        self._watched = out is not None and out.isatty()
        self._shown = False
        self.expect(0, "")

    def __enter__(self) -> Self:
        return self

    def __exit__(self, kind: type[BaseException] | None, fault: BaseException | None,
                 trace: TracebackType | None) -> None:
        self.end()

    def proved(self, done: int, of: int, sizes: int) -> None:
        """Say how many patterns are knitted, and in how many sizes."""
        self._report(f"{done} of {of} patterns knitted in {sizes} sizes", done, of)

    def expect(self, of: int, what: str) -> None:
        """Begin to count so many steps of another kind, such as "pages written"."""
        self.end()
        self._done, self._of, self._what = 0, of, what
        self._start = self._reported = self._clock()

    def begin(self, name: str) -> None:
        """Say at once what is being made, where that takes long."""
        self._reported = self._start - LINES
        self._report(f"{self._done} of {self._of} {self._what}, {name} is being made", self._done,
                     self._of)

    def step(self, many: int = 1) -> None:
        """Count one step, or one that is worth so many, and say how far it is."""
        self._done += many
        self._report(f"{self._done} of {self._of} {self._what}", self._done, self._of)

    def end(self) -> None:
        """Take the line away."""
        if self._out and self._shown:
            self._out.write(_CLEAR)
            self._out.flush()
            self._shown = False

    def _report(self, text: str, done: int, of: int) -> None:
        now = self._clock()
        if done >= of:
            self.end()
        if not self._out or done >= of or now - self._reported < (EVERY if self._watched
                                                                  else LINES):
            return
        self._reported = now
        left = (now - self._start) * (of - done) / max(done, 1)
        text = f"{text}, {_time(left)} left"
        self._out.write(f"{_CLEAR}{text}" if self._watched else f"{text}\n")
        self._out.flush()
        self._shown = self._watched


def _time(seconds: float) -> str:
    """A time as it is said: "about 40 s", "about 3 min"."""
    return f"about {seconds:.0f} s" if seconds < 100 else f"about {seconds / 60:.0f} min"
