"""What the bench says and draws of the needles while a stitch chart is knitted.

The oracle is the trace of the bed: the stitches in the work when the row counter shows a number;
and the page's own list of rows.
"""

from __future__ import annotations

from typing import Any

import pytest
from playwright.sync_api import Browser
from walebook.machine.trace import State
from walebook.proof.proof import Proof, Work
from walebook.words.instruction import Moment
from walebook.words.shaped_edges import ShapingBlock

from tests.laws.test_bench_facts import groups
from tests.site.test_bench_screens import UPRIGHT, opened, proofs

# Every line of the charted steps: step, row counter before it, its target, the count that is
# checked, that of the page's list ("" where none stands), and how many needles are drawn.
LINES = """key => {
    const part = walebook.bench.parts.find(each => each.key === key), out = [];
    const drawn = walebook.drawn.needles;
    let bed = null;
    walebook.drawn.needles = (...given) => { bed = given[1]; return drawn(...given); };
    walebook.bench.open(key);
    const text = each => each ? each.textContent.trim() : '';
    part.steps.forEach((step, n) => {
        if (!step.chart.length) return;
        bed = null;
        walebook.bench.act('jump', n);
        while (walebook.bench.at().step === n) {
            const { rows } = walebook.bench.at();
            const goal = Number(text(document.querySelector('.wb-counter-goal b')));
            const row = [...step.item.querySelectorAll('.wb-rows > li')]
                .find(each => Number(text(each.querySelector('b'))) === goal);
            const check = [...document.querySelectorAll('.wb-bench-check div')].filter(each =>
                ['stitches', 'in work'].includes(text(each.querySelector('dt'))));
            out.push({ n, from: step.counter - step.rows + rows, goal,
                check: text(check[0] && check[0].querySelector('dd')),
                isWork: check.length > 0 && text(check[0].querySelector('dt')) === 'in work',
                listed: row ? text(row).slice(String(goal).length).trim() : '',
                drawn: bed && [...bed.work, ...bed.held].length,
                empty: bed ? bed.empty.length : 0 });
            bed = null;
            walebook.bench.act('forward');
        }
    });
    walebook.drawn.needles = drawn;
    return out;
}"""


def states(each: Moment | ShapingBlock, work: Work) -> list[State]:
    """The bed before the step, and after each of its steps."""
    first = each.first if isinstance(each, ShapingBlock) else len(each.earlier)
    upto = each.upto if isinstance(each, ShapingBlock) else first + len(each.steps)
    return list(work.trace.states[first - 1:upto])


def at_counter(found: list[State], counter: int) -> State:
    """The last of them at which the row counter shows a number."""
    return [state for state in found if state.counter == counter][-1]


def piece(proof: Proof, name: str) -> tuple[Any, str]:
    size = next(each for each in proof.sizes if each.size == name)
    return size.pieces[0], f"p-{size.pieces[0].piece.key.replace('_', '-')}"


@pytest.mark.parametrize(("slug", "name"), [("quayside-waistcoat", "2X"),
                                            ("salt-marsh-pullover", "M")])
def test_each_line_of_a_chart_has_the_count_and_the_needles_of_its_row(
        browser: Browser, slug: str, name: str) -> None:
    proof = proofs()[slug]
    work, key = piece(proof, name)
    page = opened(browser, (slug, name.lower()), UPRIGHT)
    told = groups(work, proof)
    checked = listed = drawn = 0
    for line in page.evaluate(LINES, key):
        found = states(told[line["n"]], work)
        goal, before = (at_counter(found, line[each]) for each in ("goal", "from"))
        if line["check"]:
            held = goal.holding.mask if line["isWork"] else 0
            assert int(line["check"]) == (goal.loaded.mask & ~held).bit_count(), line
            checked += 1
        if line["listed"] and line["listed"].isdigit():
            assert line["check"] == line["listed"], line
            listed += 1
        if line["drawn"] is not None:
            assert line["drawn"] in (len(before.loaded), len(goal.loaded)), line
            assert not line["empty"] or goal.working != goal.loaded, line
            drawn += 1
    assert checked > 10
    assert listed >= 8
    assert drawn > 10
    page.context.close()
