"""A band's edge is hung from the bench: the whole hanging table is a touch away at each section."""

from __future__ import annotations

import pytest
from playwright.sync_api import Browser
from walebook.machine import edge_steps

from tests.site.test_bench_screens import UPRIGHT, opened, proofs

HUNG = """key => {
    const part = walebook.bench.parts.find(each => each.key === key), out = [];
    walebook.bench.open(key);
    part.steps.forEach((step, n) => {
        walebook.bench.act('jump', n);
        const button = [...document.querySelectorAll('.wb-bench-foot button')]
            .find(each => each.offsetParent && each.textContent === 'Whole table');
        if (!button || step.rows) return;
        let words = '';
        while (walebook.bench.at().step === n) {
            words += [...document.querySelectorAll('.wb-bench-do, .wb-sentence')]
                .filter(each => each.offsetParent).map(each => each.textContent).join(' ') + ' ';
            walebook.bench.act('forward');
        }
        walebook.bench.act('jump', n);
        [...document.querySelectorAll('.wb-bench-foot button')]
            .find(each => each.textContent === 'Whole table').click();
        const sheet = document.querySelector('dialog.wb-sheet[open]');
        out.push({ step: step.id, words, here: [...sheet.querySelectorAll(
            '.wb-hanging > [aria-current]')].map(each => each.textContent),
            rows: sheet.querySelectorAll('.wb-hanging tbody tr').length });
        sheet.close();
    });
    return out;
}"""


@pytest.mark.parametrize("key", ["front-left", "front-right", "neck-right"])
def test_each_section_of_an_edge_stands_at_its_step_with_the_whole_table(
        browser: Browser, key: str) -> None:
    """The oracle: the sections of the band's plan, and the steps that the bed ran."""
    proof = proofs()["slack-tide-cardigan"]
    size = next(each for each in proof.sizes if each.size == "M")
    strip = next(each for each in size.strips
                 if f"{each.plan.band.key}-{each.front.value}".replace("_", "-") == key)
    hangs = [step for step in strip.program.of(edge_steps.Hang)
             if step.picks and step.lean is None]
    assert len(hangs) == len(strip.plan.meetings) > 2
    page = opened(browser, ("slack-tide-cardigan", "m"), UPRIGHT)
    shown = page.evaluate(HUNG, key)
    assert len(shown) == len(hangs)
    for number, one in enumerate(shown, 1):
        assert f"ang section {number}," in one["words"], one
        assert len(one["here"]) == 1, one
        assert one["here"][0].startswith(f"Section {number},"), one
        assert one["rows"] > 10, one
    page.context.close()
