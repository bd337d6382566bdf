"""The bench in the engines of other phones: read, knit a band, place kept, in view, kept offline.

Long: a browser starts for each. Where it is not installed, its tests are skipped.
"""

from __future__ import annotations

from collections.abc import Iterator

import pytest

from tests.site.engines import Engine, firefox, firefox_at_hand, webkit, webkit_at_hand

pytestmark = pytest.mark.long
BAND, PART = "patterns/practice-band/3-months.html", "front-right"
FORWARD = ".wb-zone-forward"


@pytest.fixture(scope="module", params=["webkit", "firefox"])
def engine(request: pytest.FixtureRequest, tmp_path_factory: pytest.TempPathFactory
           ) -> Iterator[Engine]:
    opened, at_hand = {"webkit": (webkit, webkit_at_hand), "firefox": (firefox, firefox_at_hand)
                       }[request.param]
    if at_hand() is None:
        pytest.skip(f"no {request.param} on this machine")
    with opened(tmp_path_factory.mktemp(request.param)) as made:
        yield made


SCREEN = """const main = document.querySelector('.wb-bench-main');
const done = document.querySelector('.wb-zone-forward').getBoundingClientRect();
return [walebook.bench.at().step, main.scrollHeight - main.clientHeight,
    main.scrollWidth - main.clientWidth, done.bottom <= innerHeight && done.right <= innerWidth];"""


def test_a_band_is_knitted_and_its_place_is_kept(engine: Engine, address: str) -> None:
    engine.go(f"{address}/{BAND}")
    engine.js("localStorage.clear(); walebook.settings.choose('pause', '0');"
              f"walebook.bench.open('{PART}')")
    steps = engine.js(f"return walebook.bench.parts.find(p => p.key === '{PART}').steps.length")
    seen, faults = [], []
    for _ in range(3 * steps):
        step, over, wide, in_view = engine.js(SCREEN)
        if step == steps:
            break
        seen += [step] * (not seen or seen[-1] != step)
        if over > 1 or wide > 1 or not in_view:
            faults.append((step, over, wide, in_view))
        engine.click(FORWARD)
    assert seen == list(range(steps)) and faults == []
    assert "is done" in engine.js("return document.querySelector('.wb-bench-body').innerText")
    engine.js("walebook.bench.act('jump', 7)")
    engine.go(f"{address}/{BAND}")
    assert engine.js("return walebook.bench.at().step") == 7
    engine.js("walebook.bench.act('undo')")
    assert engine.js("return walebook.bench.at().step") == steps


def test_the_typefaces_and_drawings_are_there(engine: Engine, address: str) -> None:
    engine.go(f"{address}/{BAND}")
    engine.js(f"walebook.bench.open('{PART}'); walebook.bench.act('jump', 8)")
    assert engine.js("return document.querySelector('.wb-strip rect').getBBox().width") > 40
    assert engine.js("return document.fonts.check('700 20px \"Source Sans 3\"')")


def test_it_says_what_the_browser_cannot_do(engine: Engine, address: str) -> None:
    """A screen that may turn off is said."""
    engine.go(f"{address}/{BAND}")
    engine.js(f"walebook.bench.open('{PART}')")
    has_lock = engine.js("return 'wakeLock' in navigator")
    said = engine.js("return document.querySelector('.wb-bench-awake').textContent")
    assert has_lock or said.startswith("This browser cannot keep the screen on.")


