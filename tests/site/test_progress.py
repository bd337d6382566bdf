"""How far a long run is: one changing line for who looks on, lines now and then for who does not.

The time that is left is by the rule of three from what is done (arithmetic, shown here).
"""

from __future__ import annotations

from io import StringIO

from walebook_site.progress import EVERY, LINES, Progress


class Screen(StringIO):
    """A terminal that somebody looks at."""

    def isatty(self) -> bool:
        return True


class Clock:
    now = 0.0

    def __call__(self) -> float:
        return self.now


def test_a_person_sees_one_line_that_changes_and_goes() -> None:
    out, clock = Screen(), Clock()
    with Progress(out, clock) as progress:
        for done in range(1, 101):
            clock.now += EVERY
            progress.proved(done, 100, done * 9)
    said = out.getvalue()
    assert "\n" not in said
    assert "25 of 100 patterns knitted in 225 sizes, about 15 s left" in said  # 25 in 5 s, 75 more
    assert said.endswith("\r\x1b[K") and "100 of 100" not in said


def test_a_log_has_a_line_now_and_then() -> None:
    out, clock = StringIO(), Clock()
    progress = Progress(out, clock)
    progress.expect(1000, "pages written")
    for _ in range(1000):
        clock.now += LINES / 100
        progress.step()
    lines = out.getvalue().splitlines()
    assert 8 <= len(lines) <= 10 and "\x1b" not in out.getvalue()
    assert lines[0] == "100 of 1000 pages written, about 2 min left"  # 100 in 15 s, 900 more


def test_what_is_short_or_quiet_says_nothing() -> None:
    for out, wait in ((Screen(), EVERY / 200), (StringIO(), LINES / 200)):
        clock = Clock()
        with Progress(out, clock) as progress:
            for done in range(1, 101):
                clock.now += wait
                progress.proved(done, 100, done)
        assert out.getvalue() == ""
    progress = Progress(None)
    progress.expect(3, "pages written")
    progress.step()
