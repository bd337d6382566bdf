"""The site in the engines of other phones than Chromium's: WebKit and Firefox.

What must hold is the page's own text, as in `test_at_the_bench.py`; what these engines do otherwise
is written on the page about the bench.
"""

from __future__ import annotations

import json
import re
from collections.abc import Callable, Iterator
from contextlib import ExitStack
from dataclasses import dataclass
from pathlib import Path

import pytest

from .engines import ENGINES, Engine, lacking, until
from .serving import served

pytestmark = pytest.mark.long

BAND = "patterns/practice-band/3-months.html"
PART = "front-right"
FORWARD, UNDO = ".wb-zone-forward", ".wb-zone-undo"
CHECK = re.compile(r"row counter (\d+); carriage on the (left|right)")
KEEP = ".wb-keep button"
# How far a step runs over its screen, down and across, and whether Done is in view.
SCREEN = """(() => { const main = document.querySelector(".wb-bench-main");
  const done = document.querySelector(".wb-zone-forward").getBoundingClientRect();
  return [main.scrollHeight - main.clientHeight, main.scrollWidth - main.clientWidth,
    done.bottom <= innerHeight && done.right <= innerWidth]; })()"""
TYPEFACES = ("Brygada 1918", "Source Sans 3")


@dataclass
class Host:
    """The site under an address that no test has used before; it can go away."""

    address: str
    go_away: Callable[[], None]
    """Answer nothing any more."""


@pytest.fixture(scope="module", params=sorted(ENGINES))
def engine(request: pytest.FixtureRequest, tmp_path_factory: pytest.TempPathFactory
           ) -> Iterator[Engine]:
    if why := lacking(request.param):
        pytest.skip(why)
    with ENGINES[request.param](tmp_path_factory.mktemp(request.param)) as made:
        yield made


@pytest.fixture
def host(site: Path) -> Iterator[Host]:
    root = site.parents[1]
    with ExitStack() as until_closed:
        address = until_closed.enter_context(served(root))
        yield Host(f"{address}/{site.relative_to(root)}", until_closed.close)


def begin(engine: Engine) -> None:
    """Open the bench by the button under the band, touches not held apart."""
    engine.run('walebook.settings.choose("pause", "0")')
    offer = f"[data-wb-offers={PART}]"
    engine.run(f"document.querySelector('{offer}').closest('details').open = true")
    engine.click(f"{offer} button")
    until(engine, "document.querySelector('dialog.wb-bench[open]')")


def at(engine: Engine) -> list[int]:
    place = engine.run("walebook.bench.at()")
    return [place["step"], place["rows"]]


def inner(engine: Engine, css: str) -> str:
    text: str = engine.run(f"document.querySelector({json.dumps(css)}).innerText")
    return text


def steps_of(engine: Engine) -> list[str]:
    """The steps of the band as the page itself has them."""
    found: list[str] = engine.run(
        f"[...document.querySelectorAll('ol.wb-steps > li[id^={PART}-]')]"
        ".map((li) => li.textContent.replace(/\\s+/g, ' ').trim())")
    return found


def letters(text: str) -> str:
    return re.sub(r"\W+", "", text).lower()


def test_a_size_page_is_read(engine: Engine, host: Host) -> None:
    engine.open(f"{host.address}/{BAND}")
    assert "Practice band" in inner(engine, "h1")
    assert len(steps_of(engine)) > 20
    engine.run("document.querySelectorAll('details').forEach((each) => { each.open = true; })")
    assert engine.run("document.documentElement.scrollWidth <= innerWidth")
    for face in TYPEFACES:
        assert engine.run(
            f"document.fonts.load(`16px '{face}'`).then((all) => all.length)"), face
    assert engine.run("[...document.images].every((each) => each.naturalWidth > 0)")
    assert engine.run("[...document.querySelectorAll('svg')].some(svg => svg.clientWidth > 100)")


def test_a_band_is_knitted_from_first_step_to_last(engine: Engine, host: Host) -> None:
    engine.open(f"{host.address}/{BAND}")
    begin(engine)
    steps, shown, faults, clicks = steps_of(engine), [], [], 0
    while "done" not in inner(engine, ".wb-bench-where"):
        step, _ = at(engine)
        if not shown or shown[-1] != step:
            shown.append(step)
            lead = engine.run("[...document.querySelectorAll('.wb-bench-do')]"
                              ".find((each) => each.offsetParent).innerText")
            assert letters(lead)[:20] in letters(steps[step])
            if step and (check := CHECK.search(steps[step - 1])):
                assert engine.run(
                    f"(() => {{ const part = walebook.bench.parts.find((p) => p.key === '{PART}'),"
                    " at = walebook.bench.at(); return [walebook.place.counter(part, at),"
                    " walebook.place.side(part, at)]; })()") == [int(check[1]), check[2]]
        over, wide, in_view = engine.run(SCREEN)
        if over > 1 or wide > 1 or not in_view:
            faults.append((step, over, wide, in_view))
        engine.click(FORWARD)
        clicks += 1
        assert clicks < 500
    assert faults == []
    assert shown == list(range(len(steps)))
    assert "is done" in inner(engine, ".wb-bench-body")
    engine.click(UNDO)
    until(engine, f"walebook.bench.at().step === {len(steps) - 1}")


def test_the_place_is_kept_over_a_reload(engine: Engine, host: Host) -> None:
    engine.open(f"{host.address}/{BAND}")
    begin(engine)
    for _ in range(9):
        engine.click(FORWARD)
    before = at(engine)
    assert before[0] > 3
    engine.open(f"{host.address}/{BAND}")
    until(engine, "document.querySelector('dialog.wb-bench[open]')")
    assert at(engine) == before
    engine.open(f"{host.address}/index.html")
    assert f"step {before[0] + 1}" in inner(engine, ".wb-go-on li")


def test_needles_are_drawn_and_a_screen_that_may_turn_off_is_said(engine: Engine, host: Host
                                                                    ) -> None:
    engine.open(f"{host.address}/{BAND}")
    begin(engine)
    engine.run("walebook.bench.act('jump', 8)")
    assert engine.run("document.querySelector('.wb-carriage rect').getBBox().width") > 40
    said = inner(engine, ".wb-bench-awake")
    assert engine.run("'wakeLock' in navigator") or said.startswith(
        "This browser cannot keep the screen on.")


def test_a_saved_pattern_opens_without_a_signal(engine: Engine, host: Host) -> None:
    engine.open(f"{host.address}/{BAND}")
    until(engine, f"document.querySelector('{KEEP}')?.offsetParent", seconds=60)
    offered = inner(engine, KEEP)
    engine.click(KEEP)
    until(engine, f"!document.querySelector('{KEEP}').disabled && "
          f"document.querySelector('{KEEP}').innerText !== {json.dumps(offered)}", seconds=60)
    host.go_away()
    engine.open(f"{host.address}/{BAND}")
    assert "Practice band" in inner(engine, "h1")
    assert engine.run("getComputedStyle(document.querySelector('.wb-check')).borderTopStyle"
                      ) == "solid"
    begin(engine)
    engine.click(FORWARD)
    assert at(engine) != [0, 0]
    engine.open(f"{host.address}/index.html")
    assert "step" in inner(engine, ".wb-go-on li")
