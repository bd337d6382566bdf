"""Every step has room on one screen of the bench, on a phone of 360 by 740 px, in every pattern.

The rule is the makers' own (letters of 30 px and more, see `test_bench_screens.py`): what has no
room there at once is done place by place or act by act, each with its own Done. No act, no
place and nothing that is stressed is left out on the way.
"""

from __future__ import annotations

import random
from functools import cache
from pathlib import Path
from typing import Any

import pytest
from playwright.sync_api import Browser, Page
from walebook.source.fabric_reading import size_slug

from tests.site.test_bench_screens import UPRIGHT, opened, proofs

ROOT = Path(__file__).parents[2]
SLUGS = sorted(path.parent.name for path in ROOT.glob("patterns/*/pattern.yaml"))
# The longest steps of every part, gone through by Done alone: what each screen showed, and what
# the step has. A step of several screens shows their number on Done.
LONGEST = """many => {
    const out = [], find = css => document.querySelector(css);
    const main = find('.wb-bench-main'), done = find('.wb-zone-forward');
    const text = css => [...document.querySelectorAll(css)].filter(each => each.offsetParent)
        .map(each => each.textContent);
    for (const part of walebook.bench.parts) {
        const long = part.steps.map((step, n) => [step.item.textContent.length, n])
            .sort((a, b) => b[0] - a[0]).slice(0, many);
        walebook.bench.open(part.key);
        for (const [, n] of long) {
            walebook.bench.act('jump', n);
            while (walebook.bench.at().step === n) {
                const { rows } = walebook.bench.at();
                out.push({ step: part.steps[n].id, rows, done: done.textContent,
                    over: main.scrollHeight - main.clientHeight,
                    wide: main.scrollWidth - main.clientWidth,
                    seen: text('.wb-bench-do, .wb-bench-places > li, .wb-stays, .wb-counter-goal'),
                    all: [...document.querySelectorAll('.wb-bench-do, .wb-bench-places > li, '
                        + '.wb-bench-how:not(.wb-known) > .wb-stays, .wb-counter-goal')]
                        .map(each => each.textContent) });
                walebook.bench.act('forward');
            }
        }
    }
    return out;
}"""


@cache
def drawn(slug: str) -> str:
    """A size page of the pattern, drawn by its name."""
    sizes = [size_slug(each.size) for each in proofs()[slug].sizes]
    return random.Random(slug).choice(sizes)


def walked(page: Page, many: int) -> list[dict[str, Any]]:
    screens: list[dict[str, Any]] = page.evaluate(LONGEST, many)
    return screens


@pytest.mark.sampled(10)
@pytest.mark.parametrize("slug", SLUGS)
def test_the_longest_steps_of_a_page_fit_one_screen(browser: Browser, slug: str) -> None:
    page = opened(browser, (slug, drawn(slug)), UPRIGHT)
    screens = walked(page, 4)
    page.context.close()
    assert screens
    assert [s["step"] for s in screens if s["over"] > 1 or s["wide"] > 1] == []
    assert [(s["step"], s["rows"]) for s in screens if s["done"].startswith("Go on")] == []
    shown: dict[tuple[str, int], set[str]] = {}
    for screen in screens:
        shown.setdefault((screen["step"], screen["rows"]), set()).update(screen["seen"])
    assert [(s["step"], text) for s in screens for text in s["all"]
            if text not in shown[s["step"], s["rows"]]] == []
