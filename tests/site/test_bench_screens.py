"""The bench's screens measured in the browser: what fits, what stays in view, what can be read.

The pages are the collection's own, with our scripts, styles and typefaces, without the site around
them. What must hold is the makers' own rule for a phone propped up a metre and a half away
(letters of 30 px and more on a screen 360 px wide: an x-height of 6 minutes of arc on a screen
65 mm wide) or the web's published one, named where it is used.
"""

from __future__ import annotations

import re
from collections.abc import Callable, Iterator
from functools import cache
from pathlib import Path
from typing import Any

import pytest
from axe_playwright_python.sync_playwright import Axe
from playwright.sync_api import Browser, Page, Route
from walebook.pages import write_page
from walebook.proof.proof import Proof

from tests.contrast import PART, TEXT, contrast
from tests.laws.test_bench_facts import groups, readied, works_of
from tests.whole_collection import collection

ROOT = Path(__file__).parents[2]
SOURCE = ROOT / "site_src"
ADDRESS = "https://bench.invalid/"
HEAVY, CHARTED = ("ropewalk-cardigan", "12"), ("salt-marsh-pullover", "xl")
UPRIGHT, LYING, TINY = (360, 740), (740, 360), (320, 256)


@cache
def proofs() -> dict[str, Proof]:
    return {proof.pattern.slug: proof for proof in collection().proofs}


@cache
def html(slug: str, size: str) -> str:
    """The page of a size in a bare frame, with what the site gives it that the bench needs."""
    text = write_page(proofs()[slug], f"patterns/{slug}/{size}.md").text
    config = (SOURCE / ".site.yml").read_text(encoding="utf-8")
    styles = "".join(f'<link rel="stylesheet" href="{path}">'
                     for path in re.findall(r"- (assets/\S+\.css)", config))
    scripts = "".join(f'<script src="{path}"></script>'
                      for path in re.findall(r"- (assets/(?:bench/\S+|texts)\.js)", config))
    return (f'<!doctype html><html lang="en"><head><title>{slug}</title>{styles}</head><body>'
            f'<main><article class="md-typeset"><h1>{slug}</h1>{text}</article></main>{scripts}'
            "</body></html>")


def opened(browser: Browser, of: tuple[str, str], size: tuple[int, int], **context: Any) -> Page:
    """A page of the collection with the bench at its first step."""
    made = browser.new_context(viewport={"width": size[0], "height": size[1]}, has_touch=True,
                               service_workers="block", **context)
    page = made.new_page()
    text = html(*of)  # which may take a while, and no browser waits for it

    def answer(route: Route) -> None:
        path = route.request.url.removeprefix(ADDRESS)
        if path.startswith("assets/"):
            route.fulfill(path=SOURCE / path)
        elif not path:
            route.fulfill(body=text, content_type="text/html; charset=utf-8")
        else:
            route.fulfill(status=404)

    page.route("**", answer)
    page.goto(ADDRESS)
    page.evaluate("walebook.settings.choose('pause', '0')")
    page.evaluate("walebook.bench.open(walebook.bench.parts[0].key)")
    page.evaluate("document.fonts.ready")
    return page


@pytest.fixture(scope="module", params=[HEAVY, CHARTED], ids=["cardigan", "charted"])
def walked(request: pytest.FixtureRequest, browser: Browser) -> Iterator[Page]:
    page = opened(browser, request.param, UPRIGHT)
    yield page
    page.context.close()


# Goes through parts from first step to last by Done alone; answers what each screen showed.
WALK = """keys => {
    const out = [], find = css => document.querySelector(css);
    const main = find('.wb-bench-main'), done = find('.wb-zone-forward');
    const size = css => { const all = [...document.querySelectorAll(css)].filter(each =>
        each.offsetParent && !each.classList.contains('wb-again'));
        const sizes = all.map(each => parseFloat(getComputedStyle(each).fontSize));
        return all.length ? Math.min(...sizes) : null; };
    for (const part of walebook.bench.parts.filter(each => keys.includes(each.key))) {
        walebook.bench.open(part.key);
        walebook.bench.act('jump', 0);
        while (walebook.bench.at().step < part.steps.length) {
            const { step, rows } = walebook.bench.at();
            const box = done.getBoundingClientRect();
            out.push({ where: `${part.steps[step].id} ${rows} ${done.textContent}`,
                over: main.scrollHeight - main.clientHeight,
                wide: main.scrollWidth - main.clientWidth,
                inView: box.left >= 0 && box.top >= 0 && box.right <= innerWidth
                    && box.bottom <= innerHeight,
                act: size('.wb-bench-do:not(.wb-long)'),
                how: size('.wb-bench-do, .wb-sentence, .wb-bench-places li, .wb-bench-check dd, '
                    + '.wb-side, .wb-counter-now, .wb-counter-rows'),
                isFolded: Boolean(find('.wb-folded')),
                // what is known from an earlier line of a table may go
                hidden: [...document.querySelectorAll('.wb-bench-how:not(.wb-known) > .wb-stays')]
                    .filter(each => !each.offsetParent).map(each => each.textContent),
                goal: size('.wb-counter-goal'), said: find('.wb-bench [aria-live]').textContent,
                next: find('.wb-bench-next').textContent });
            walebook.bench.act('forward');
        }
    }
    return out;
}"""


def never_shown(screens: list[dict[str, Any]]) -> set[tuple[str, str]]:
    """What a page stresses and no screen of its line shows: the line, and the words."""
    lines: dict[str, list[set[str]]] = {}
    for screen in screens:
        lines.setdefault(screen["where"].split(" Done")[0], []).append(set(screen["hidden"]))
    return {(line, words) for line, hidden in lines.items()
            for words in set.intersection(*hidden)}


def few(keys: list[str]) -> list[str]:
    """The first piece, and every part that is no piece: pieces with one chart differ in numbers."""
    piece = next(key for key in keys if key.startswith("p-"))
    return [key for key in keys if key == piece or not key.startswith("p-")]


@pytest.mark.parametrize(("walked", "size", "parts"), [
    pytest.param(HEAVY, UPRIGHT, list, id="cardigan-upright"),
    pytest.param(HEAVY, LYING, list, id="cardigan-lying", marks=pytest.mark.long),
    pytest.param(CHARTED, UPRIGHT, list, id="charted-upright", marks=pytest.mark.long),
    pytest.param(CHARTED, LYING, few, id="charted-lying-few"),
    pytest.param(CHARTED, LYING, list, id="charted-lying", marks=pytest.mark.long),
], indirect=["walked"])
def test_every_step_fits_its_screen_with_done_in_view(
        walked: Page, size: tuple[int, int], parts: Callable[[list[str]], list[str]]) -> None:
    walked.set_viewport_size({"width": size[0], "height": size[1]})
    keys = walked.evaluate("walebook.bench.parts.map(each => each.key)")
    screens = walked.evaluate(WALK, parts(keys))
    assert len(screens) > 200
    assert [s["where"] for s in screens if s["over"] > 1 or s["wide"] > 1] == []
    assert [s["where"] for s in screens if not s["inView"]] == []
    if size == UPRIGHT:
        assert [s["where"] for s in screens
                if s["act"] and s["act"] < (30 if s["isFolded"] else 34)] == []
        assert [s["where"] for s in screens if "Go on" in s["where"]] == []
        assert never_shown(screens) == set()
        assert [s["where"] for s in screens if s["how"] and s["how"] < 30] == []
        assert [s["where"] for s in screens if s["goal"] and s["goal"] < 50] == []
    labels = re.compile(r"\bhow to\b|\(how\)|The needles after step|One stitch: ", re.IGNORECASE)
    assert [s["where"] for s in screens if labels.search(s["said"] + s["next"])] == []
    done = [s["where"] for s in screens if "part is done" in s["next"].lower()]
    assert done == []


# Where the number stands, and the left edges of what belongs to it: act, how, carriage and check.
BESIDE = """() => {
    const out = [], box = each => each.getBoundingClientRect();
    for (const part of walebook.bench.parts) {
        walebook.bench.open(part.key);
        part.steps.forEach((step, n) => {
            walebook.bench.act('jump', n);
            const number = document.querySelector('.wb-counter');
            if (!number || number.hidden || number.matches('.wb-elsewhere')) return;
            const rest = [...document.querySelectorAll('.wb-bench-body > *')]
                .filter(each => each !== number && each.offsetParent);
            out.push({ where: step.id, right: box(number).right, top: box(number).top,
                width: innerWidth, lefts: rest.map(each => box(each).left),
                first: Math.min(...rest.map(each => box(each).top)) });
        });
    }
    return out;
}"""


@pytest.mark.parametrize("size", [(1280, 900), LYING])
@pytest.mark.parametrize("walked", [HEAVY], indirect=True)
def test_on_a_wide_screen_number_act_and_check_are_read_as_one(
        walked: Page, size: tuple[int, int]) -> None:
    """The makers' own rule: the words begin within a twentieth of the screen from the number's
    column, all at one edge, and no lower than it. No source."""
    walked.set_viewport_size({"width": size[0], "height": size[1]})
    placed = walked.evaluate(BESIDE)
    assert len(placed) > 40
    for one in placed:
        assert max(one["lefts"]) - min(one["lefts"]) <= 1, one
        assert 0 <= min(one["lefts"]) - one["right"] <= one["width"] / 20, one
        assert abs(one["first"] - one["top"]) <= 8, one


def test_no_name_of_a_part_is_cut_off_at_the_head(walked: Page) -> None:
    cut = walked.evaluate("""() => walebook.bench.parts.flatMap(part => {
        walebook.bench.open(part.key);
        return [...document.querySelectorAll('.wb-bench-top h2, .wb-bench-top h2 *')]
            .filter(each => each.scrollWidth > each.clientWidth + 1 && each.offsetWidth
                && getComputedStyle(each).display !== 'inline')
            .map(each => part.key);
    })""")
    assert cut == []


def test_no_name_of_a_needle_is_cut_off_at_the_edge_of_its_drawing(walked: Page) -> None:
    cut = walked.evaluate("""() => [...Array(200).keys()].flatMap(end => {
        const work = [...Array(end + 1).keys()].map(n => n - (end >> 1));
        const about = work, none = [];
        const bed = { work, about, held: none, second: none, empty: none, loops: none };
        const drawn = walebook.drawn.needles(332, bed, about, none);
        document.body.append(drawn);
        const box = drawn.getBoundingClientRect();
        const out = [...drawn.querySelectorAll('text')].filter(each => {
            const { left, right } = each.getBoundingClientRect();
            return left < box.left || right > box.right;
        });
        drawn.remove();
        return out.map(each => each.textContent);
    })""")
    assert cut == []


# Numbers at their full size beside their words: those that leave the column.
BESIDE_WORDS = """() => {
    const part = walebook.bench.parts.find(each => each.hasCounter);
    walebook.bench.open(part.key);
    const at = part.steps.findIndex((step, n) => { walebook.bench.act('jump', n);
        return document.querySelector('.wb-counter.wb-compact'); });
    const bench = document.querySelector('.wb-bench'), counter = bench.querySelector('.wb-counter');
    bench.style.setProperty('--wb-number', '1');
    const number = counter.querySelector('.wb-counter-goal b'), range = document.createRange();
    const edge = bench.querySelector('.wb-bench-body').getBoundingClientRect().right;
    return [at, [...Array(400).keys()].filter(n => {
        counter.classList.remove('wb-digits-1', 'wb-digits-2', 'wb-digits-3');
        counter.classList.add(`wb-digits-${String(n).length}`);
        number.textContent = n;
        range.selectNodeContents(number);
        return range.getBoundingClientRect().right > edge + 1;
    })];
}"""


def test_no_number_to_knit_to_runs_into_the_margin(walked: Page) -> None:
    walked.set_viewport_size({"width": UPRIGHT[0], "height": UPRIGHT[1]})
    at, wide = walked.evaluate(BESIDE_WORDS)
    assert at >= 0 and wide == []


LOOPS = """() => {
    const text = (each, css) => each.querySelector(css).textContent, out = [];
    for (const part of walebook.bench.parts) {
        walebook.bench.open(part.key);
        part.steps.forEach((step, n) => {
            if (step.stops.length || !step.bed || !step.bed.loops.length) return;
            walebook.bench.act('jump', n);
            const all = [...step.bed.work, ...step.bed.held].length;
            out.push([step.bed.loops, all, [...document.querySelectorAll('.wb-bench-check div')]
                .map(each => [text(each, 'dt'), text(each, 'dd')])]);
        });
    }
    return out.filter(([,, boxes]) => boxes.length);
}"""


def test_loops_on_needles_are_said_so_that_label_and_number_make_sense(walked: Page) -> None:
    """ "2 loops on: 2" names neither what is counted nor where."""
    seen = 0
    for loops, needles, boxes in walked.evaluate(LOOPS):
        for number, many in loops:
            expected = (["loops on each", str(number)] if many == needles else
                        [f"needles with {number} loops", str(many)])
            assert expected in boxes
            seen += 1
    assert seen > 2


ROWS = """key => {
    const part = walebook.bench.parts.find(each => each.key === key), out = [];
    walebook.bench.open(key);
    part.steps.forEach((step, n) => {
        if (!step.chart.length) return;
        walebook.bench.act('jump', n);
        while (walebook.bench.at().step === n) {
            const { rows } = walebook.bench.at();
            const acts = [...document.querySelectorAll('.wb-bench-do')].map(e => e.textContent);
            const goal = document.querySelector('.wb-counter-goal b');
            const last = out[out.length - 1];
            if (last && last[0] === n && last[1] === rows) last[2].push(...acts);
            else out.push([n, rows, acts, Number(goal.textContent)]);
            walebook.bench.act('forward');
        }
    });
    return out;
}"""


def test_every_row_of_a_stitch_chart_is_shown_with_its_needles(browser: Browser) -> None:
    """The oracle is the program that the bed ran: the needles readied before each row."""
    proof = proofs()["salt-marsh-pullover"]
    work = next(iter(works_of(proof)))
    size = proof.sizes[len(proof.sizes) // 2].size.lower()
    page = opened(browser, ("salt-marsh-pullover", size), UPRIGHT)
    shown = {(step, rows): (acts, goal) for step, rows, acts, goal in page.evaluate(
        ROWS, page.evaluate("walebook.bench.parts[0].key"))}
    seen = 0
    for n, each in enumerate(groups(work, proof)):
        if (n, 0) not in shown:
            continue
        at = [rows for step, rows in shown if step == n]
        for row, (counter, done) in enumerate(readied(work, each)):
            if not done:
                continue
            assert row in at, f"step {n + 1}, row counter {counter}: not shown"
            acts, goal = shown[n, row]
            assert goal == counter
            for _, needles in done:
                ends = (needles.first.name, needles.last.name)
                assert any(all(re.search(rf"\b{end}\b", act) for end in ends) for act in acts)
            seen += 1
    assert seen > 30
    page.context.close()


LINES = """key => {
    const part = walebook.bench.parts.find(each => each.key === key), out = [];
    walebook.bench.open(key);
    part.steps.forEach((step, n) => {
        walebook.bench.act('jump', n);
        const line = document.querySelector('.wb-piece .wb-row-at');
        if (line && line.getClientRects().length && step.section !== 'Hem') out.push([
            Number(document.querySelector('.wb-counter-goal b').textContent),
            Number(/^M\\S+ (\\S+)H/.exec(line.getAttribute('d'))[1]), step.rows]);
    });
    return out;
}"""


def test_the_red_line_lies_in_the_piece_at_the_row_that_is_knitted_to(browser: Browser) -> None:
    """The oracle: the rows of the piece and its finished outline, in millimetres, bottom to top.
    Waste yarn and the pass that drops what hangs on it turn the counter on, and the line stays."""
    proof = proofs()["slack-tide-cardigan"]
    size = next(each for each in proof.sizes if each.size == "M")
    page = opened(browser, ("slack-tide-cardigan", "m"), UPRIGHT)
    seen = 0
    for knitted in size.pieces:
        key = f"p-{knitted.piece.key.replace('_', '-')}"
        outline = page.evaluate("""key => [...document.querySelectorAll(`#o-${key} path`)]
            .map(each => each.getBBox()).map(box => [box.y, box.height])""", key)
        (top, high), (hem, _) = outline
        ended = 0
        for goal, line, rows in page.evaluate(LINES, key):
            row = goal if rows else min(goal, ended)
            share, ended = row / knitted.piece.rows, row
            assert line == pytest.approx(hem - share * (hem - top), abs=high / knitted.piece.rows)
            seen += 1
    assert seen > 8
    page.context.close()


# Enlarged text, small screens


def in_view(page: Page, css: str) -> bool:
    box = page.locator(css).bounding_box()
    size = page.viewport_size
    assert box is not None and size is not None
    return (box["x"] >= 0 and box["y"] >= 0 and box["x"] + box["width"] <= size["width"]
            and box["y"] + box["height"] <= size["height"])


@pytest.mark.parametrize("size", [UPRIGHT, LYING, TINY], ids=["upright", "lying", "tiny"])
def test_at_every_text_size_done_stays_in_view_and_arrow_keys_scroll(
        browser: Browser, size: tuple[int, int]) -> None:
    """WCAG 2.2, 1.4.4 (200 %), 1.4.10 (320 × 256: 400 % of 1280 × 1024), 2.1.1. At 400 % the
    letters of the whole browser are enlarged, as a device's own setting does."""
    page = opened(browser, HEAVY, size)
    for text in (100, 200, 300, 400):
        page.evaluate("n => walebook.settings.choose('text', String(Math.min(n, 300)))", text)
        if text == 400:
            page.add_style_tag(content="html { font-size: 80px !important }")
            page.evaluate("dispatchEvent(new Event('resize'))")
        for step in (0, 10, 15, 18):
            page.evaluate("n => walebook.bench.act('jump', n)", step)
            assert in_view(page, ".wb-zone-forward"), (text, step)
            assert in_view(page, ".wb-zone-undo"), (text, step)
            wide = page.eval_on_selector(".wb-bench-main", "m => m.scrollWidth - m.clientWidth")
            assert wide <= 1, (text, step)
            over = page.eval_on_selector(".wb-bench-main", "m => m.scrollHeight - m.clientHeight")
            assert over <= 1 or text > 100 or size == TINY
            if over > 61:
                page.keyboard.press("ArrowDown")
                assert page.eval_on_selector(".wb-bench-main", "m => m.scrollTop") > 0
                page.keyboard.press("ArrowUp")
                assert page.eval_on_selector(".wb-bench-main", "m => m.scrollTop") == 0
                assert page.evaluate("walebook.bench.at().step") == step
    page.context.close()


# What can be told apart


COLOURS = """() => {
    const hex = colour => { const found = (colour.match(/[\\d.]+/g) || []).map(Number);
        if (found.length < 3 || found[3] === 0) return null;
        return '#' + found.slice(0, 3).map(n => n.toString(16).padStart(2, '0')).join('');
    };
    const ground = node => { for (let at = node; at; at = at.parentElement) {
        const found = hex(getComputedStyle(at).backgroundColor); if (found) return found; }
        return '#ffffff'; };
    const out = [];
    for (const node of document.querySelectorAll('dialog.wb-bench *')) {
        if (!node.getClientRects().length) continue;
        const style = getComputedStyle(node), inside = node.closest('svg');
        if (inside && node !== inside) {
            const kind = node.classList[0] || '';
            if (/wb-(cell|out|ticks|line-out)$/.test(kind) || node.nodeName === 'g') continue;
            if (node.nodeName === 'text') {
                const on = kind === 'wb-on' ? hex(getComputedStyle(
                    inside.querySelector('.wb-stands')).fill) : ground(inside);
                out.push([kind, hex(style.fill), on, 'text']);
            } else {
                const seen = [hex(style.stroke), hex(style.fill)].filter(Boolean);
                if (seen.length) out.push([kind, seen[0], ground(inside), 'part']);
            }
        } else if ([...node.childNodes].some(each => each.nodeType === 3 && each.data.trim())) {
            out.push([node.className || node.nodeName, hex(style.color), ground(node), 'text']);
        }
    }
    return out;
}"""


@pytest.mark.parametrize("scheme", ["light", "dark"])
def test_words_and_drawings_stand_out_from_their_ground(browser: Browser, scheme: Any) -> None:
    """WCAG 2.2, 1.4.3 for words, 1.4.11 for drawings, by its own formula."""
    page = opened(browser, CHARTED, UPRIGHT, color_scheme=scheme)
    faint, looked = set(), 0
    for step in (0, 8, 9, 14, 15, 16):
        page.evaluate("n => walebook.bench.act('jump', n)", step)
        for _ in range(3):
            for name, ink, on, kind in page.evaluate(COLOURS):
                looked += 1
                if ink and contrast(ink, on) < (TEXT if kind == "text" else PART):
                    faint.add((name, ink, on))
            page.evaluate("walebook.bench.act('forward')")
    assert looked > 300 and faint == set()
    page.context.close()


@pytest.mark.parametrize("context", [{"forced_colors": "active"}, {"color_scheme": "dark"}, {}],
                         ids=["forced", "dark", "light"])
def test_axe_finds_nothing_on_a_shaping_and_a_chart(browser: Browser, context: dict[str, Any]
                                                    ) -> None:
    """axe-core 4, all its rules, on the bench and on the sheet of the whole table."""
    page = opened(browser, CHARTED, UPRIGHT, **context)
    found = []
    for step in (8, 16):
        page.evaluate("n => walebook.bench.act('jump', n)", step)
        for sheet in (False, True):
            if sheet:
                page.tap(".wb-bench-whole")
            found += [(step, sheet, v["id"], [n["target"] for n in v["nodes"]][:3])
                      for v in Axe().run(page, context="dialog[open]").response["violations"]]
        page.keyboard.press("Escape")
    assert found == []
    page.context.close()


def test_in_forced_colours_nothing_is_drawn_in_a_colour_of_ours(browser: Browser) -> None:
    """CSS Color Adjustment 1: with colours forced, drawings take the system's."""
    page = opened(browser, CHARTED, UPRIGHT, forced_colors="active")
    page.evaluate("walebook.bench.act('jump', 8)")
    used = page.evaluate("""() => [...new Set([...document.querySelectorAll('.wb-bench-drawn *')]
        .flatMap(each => [getComputedStyle(each).fill, getComputedStyle(each).stroke])
        .filter(each => each !== 'none'))]""")
    system = page.evaluate("""() => ['Canvas', 'CanvasText', 'Highlight'].map(name => {
        document.body.style.backgroundColor = name;
        return getComputedStyle(document.body).backgroundColor; })""")
    assert used and set(used) <= set(system)
    page.context.close()


def test_beginning_again_asks_and_can_be_taken_back(browser: Browser) -> None:
    page = opened(browser, HEAVY, UPRIGHT)
    page.evaluate("walebook.bench.act('jump', 5)")
    page.click(".wb-bench-menu")
    page.click("text=Begin this part again")
    assert page.evaluate("walebook.bench.at().step") == 5
    page.click("#wb-again >> text=Stay at this step")
    assert page.evaluate("walebook.bench.at().step") == 5
    page.click(".wb-bench-menu")
    page.click("text=Begin this part again")
    page.click("#wb-again >> text=Begin this part again")
    assert page.evaluate("walebook.bench.at().step") == 0
    page.tap(".wb-zone-undo")
    assert page.evaluate("walebook.bench.at().step") == 5
    names = page.eval_on_selector_all("dialog.wb-bench button", "all => all.map(b => b.innerText)")
    assert "Back" not in names
    page.context.close()
