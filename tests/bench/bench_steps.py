"""Which steps take more than one screen at the bench, by kind, on a phone of 360 by 740 px.

    python -m tests.bench.bench_steps [--site FOLDER] [--size 360x740] [--every] [--json FILE]

Never part of the tests: it prints, and asserts nothing. It walks through every part of one size of
each pattern (the one in the middle; with `--every` of all sizes), from the first step to the last,
by Done alone, and counts steps, their lines (places at which Done is touched) and what has no room
on one screen. A step's kind is the first words of its acts, without numbers and needles. Wanted: no
line takes more than one screen, none lies over an edge of it. What is folded there is counted too:
how many lines leave words out, a touch away, and at how many of them an act is cut short: what is
left out ends the sentence that the act begins, as where its needles are put. Wanted: none.
"""

from __future__ import annotations

import argparse
import json
import re
import tempfile
from collections import Counter
from pathlib import Path
from typing import Any

from playwright.sync_api import Browser, sync_playwright

from tests.bench.bench_pages import Compressing
from tests.site.conftest import QUIET, ROOT, at_hand, build
from tests.site.serving import served

NUMBER = re.compile(r"\b[LR]?\d+(?:[.,½¼¾]\d*)?\b")
# Every place at which Done is touched: the step, how many of its screens, and what they show.
WALK = """() => {
  const out = [], done = document.querySelector('.wb-zone-forward');
  for (const part of walebook.bench.parts) {
    walebook.bench.open(part.key);
    walebook.bench.act('jump', 0);
    while (walebook.bench.at().step < part.steps.length) {
      const { step, rows } = walebook.bench.at();
      const own = part.steps[step], body = document.querySelector('.wb-bench-body');
      const many = Number((/ of (\\d+)$/.exec(done.textContent) || [])[1] || 1);
      const goal = document.querySelector('.wb-counter-goal');
      const screens = /^Go on/.test(done.textContent) ? many : 1;
      const folded = [...body.querySelectorAll('.wb-folded, .wb-gone')].map(e => e.textContent);
      const cut = [...body.querySelectorAll('.wb-bench-do + .wb-bench-how:not(.wb-known)'
        + ' > .wb-sentence.wb-folded:first-child')].map(e => e.textContent)
        .filter(text => /^[a-z(]/.test(text));
      const shown = [...body.children].map(each => [each.className, each.innerText]);
      const main = document.querySelector('.wb-bench-main');
      const over = Math.max(main.scrollHeight - main.clientHeight,
        main.scrollWidth - main.clientWidth);
      const number = goal ? parseFloat(getComputedStyle(goal).fontSize) : 0;
      out.push({ id: own.id, rows, screens, over, shown, folded, cut, number, section: own.section,
        acts: own.acts.filter(each => each.act).map(each => each.act) });
      for (let leaf = 0; leaf < screens; leaf += 1) walebook.bench.act('forward');
    }
  }
  return out;
}"""


def sizes(site: Path, *, every: bool) -> list[Path]:
    """One size page of each pattern, the one in the middle of their facts; or every size page."""
    out = []
    for folder in sorted(each.parent for each in site.glob("patterns/*/index.html")):
        pages = {}
        for page in folder.glob("*.html"):
            found = re.search(r'id="wb-facts"[^>]*>(.*?)</script>', page.read_text("utf-8"), re.S)
            facts = json.loads(found[1]) if found else {}
            if "size" in facts and "-single-file" not in page.name:
                pages[facts["size"]] = page
        if pages:
            names = sorted(pages)
            out += [pages[name] for name in (names if every else [names[len(names) // 2]])]
    return out


def walked(browser: Browser, url: str, size: tuple[int, int]) -> list[dict[str, Any]]:
    """Every place of a page's bench."""
    page = browser.new_page(viewport={"width": size[0], "height": size[1]}, has_touch=True)
    page.goto(url)
    page.evaluate("walebook.settings.choose('pause', '0')")
    page.evaluate("walebook.bench.open(walebook.bench.parts[0].key)")
    page.evaluate("document.fonts.ready")
    out: list[dict[str, Any]] = page.evaluate(WALK)
    page.close()
    return out


def kind(place: dict[str, Any]) -> str:
    """The acts of a step in few words, without numbers."""
    acts = [" ".join(NUMBER.sub("#", act).split()[:5]) for act in place["acts"][:2]]
    return "; ".join(acts) or "(no act)"


def report(places: list[dict[str, Any]]) -> None:
    """Print the figures, and the kinds of the steps that take several screens."""
    steps = {(each["page"], each["id"]) for each in places}
    long = [each for each in places if each["screens"] > 1]
    of = {(each["page"], each["id"]): each for each in long}
    print(f"{len(steps):,} steps, {len(places):,} lines, "
          f"{sum(each['screens'] for each in places):,} screens, "
          f"{len(of):,} steps of several screens, {max(p['screens'] for p in places)} at most")
    over = {(each["page"], each["id"]) for each in places if each["over"] > 1}
    print(f"{len(over):,} steps lie over an edge of their screen")
    for page, step in sorted(over):
        print(f"       {page}#{step}")
    print(f"{sum(bool(each['folded']) for each in places):,} lines leave words out, "
          f"a touch away")
    short = [each for each in places if each["cut"]]
    steps_short = {(each["page"], each["id"]) for each in short}
    print(f"{len(short):,} lines, in {len(steps_short):,} steps, cut an act short")
    for each in short:
        print(f"       {each['page']}#{each['id']} | {each['cut'][0]}")
    making = sum(each["id"].rsplit("-", 1)[0].startswith("f") for each in of.values())
    print(f"of them {making} in the making up, {len(of) - making} at the machine")
    for name, number in Counter(kind(each) for each in of.values()).most_common():
        print(f"{number:5}  {name}")


def main() -> None:
    """Run the bench."""
    parser = argparse.ArgumentParser(description=__doc__)
    parser.add_argument("--site", type=Path, help="a built site (default: build one)")
    parser.add_argument("--size", default="360x740", help="of the screen")
    parser.add_argument("--every", action="store_true", help="every size, not the middle one")
    parser.add_argument("--json", type=Path, help="where every place is written")
    given = parser.parse_args()
    wide, high = map(int, given.size.split("x"))
    places = []
    with tempfile.TemporaryDirectory() as made:
        site = given.site or Path(made) / "site"
        if not given.site:
            build(ROOT, site).check_returncode()
        with served(site, Compressing) as address, sync_playwright() as play:
            browser = play.chromium.launch(executable_path=at_hand(), args=QUIET)
            for page in sizes(site, every=given.every):
                path = page.relative_to(site).as_posix()
                places += [{"page": path, **each}
                           for each in walked(browser, f"{address}/{path}", (wide, high))]
    if given.json:
        given.json.write_text(json.dumps(places), encoding="utf-8")
    report(places)


if __name__ == "__main__":
    main()
