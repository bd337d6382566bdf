"""What the bench says of a step: all of an act, and no label of a link to how it is done.

What is asked here are the makers' own rules; the page's own elements say what belongs to an act.
"""

from __future__ import annotations

import random
from typing import Any

import pytest
from playwright.sync_api import Browser

from tests.site.test_bench_screens import UPRIGHT, opened
from tests.site.test_bench_steps_fit import SLUGS, drawn

# Labels of such links that a step's words have, and other links' words that they have not.
LINKS = """() => {
    const out = [], even = text => text.replace(/\\s+/g, " ").trim();
    for (const step of walebook.bench.parts.flatMap(part => part.steps)) {
        const said = even(walebook.acts.whole(step)).toLowerCase();
        for (const link of step.item.querySelectorAll(":scope > p:not(.wb-check) a")) {
            const text = even(link.textContent), isWay = /^\\(?how\\b|^About /i.test(text);
            if (said.includes(text.toLowerCase()) === isWay) out.push(`${step.id}: ${text}`);
        }
    }
    return out;
}"""
# Every line at which Done is touched: acts of which the end of their sentence is folded, but for
# what is added behind a comma.
CUT_SHORT = """() => {
    const out = [];
    for (const part of walebook.bench.parts) {
        walebook.bench.open(part.key);
        for (const [n, step] of part.steps.entries()) {
            walebook.bench.act('jump', n);
            while (walebook.bench.at().step === n) {
                for (const act of document.querySelectorAll('.wb-bench-do')) {
                    const how = act.nextElementSibling;
                    const rest = how && how.matches('.wb-bench-how:not(.wb-known)')
                        && how.querySelector('.wb-sentence:first-child:not(.wb-added)');
                    if (rest && rest.matches('.wb-folded') && /^[a-z(]/.test(rest.textContent))
                        out.push(`${step.id}: ${act.textContent} | ${rest.textContent}`);
                }
                walebook.bench.act('forward');
            }
        }
    }
    return out;
}"""


def asked(browser: Browser, slug: str, script: str) -> list[str]:
    page = opened(browser, (slug, drawn(slug)), UPRIGHT)
    found: Any = page.evaluate(script)
    page.context.close()
    return list(found)


@pytest.mark.parametrize("slug", ["harbour-bell-slipover", "slack-tide-cardigan",
                                  *random.Random("links").sample(SLUGS, 4)])
def test_a_step_has_the_words_of_its_links_but_for_those_to_how_it_is_done(
        browser: Browser, slug: str) -> None:
    """ "Bind off 20 stitches, towards the left, ." has lost its method."""
    assert asked(browser, slug, LINKS) == []


@pytest.mark.parametrize("slug", ["slack-tide-cardigan", "harbour-bell-slipover"])
def test_the_clause_that_ends_an_act_is_never_folded(browser: Browser, slug: str) -> None:
    """ "Put needles L36 to L16 …" does not say where."""
    assert asked(browser, slug, CUT_SHORT) == []
