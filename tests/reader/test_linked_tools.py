"""The tools of the pages that a step leads to, by those pages' own lists of what is needed."""

from __future__ import annotations

import re
from functools import cache
from pathlib import Path

import yaml

ROOT = Path(__file__).parents[2]
SITE = ROOT / "site_src"
NEEDS = re.compile(r"^## What you need.*?\n(.*?)(?=^## |\Z)", re.MULTILINE | re.DOTALL)
STEP = re.compile(r'<ol class="wb-steps"[^>]*>.*?</ol>', re.DOTALL)
LEADS = re.compile(r'href="\.\./\.\./(techniques/[a-z-]+)\.html(?:#([a-z-]+))?"')
ITEM = re.compile(r"^\d+\. (.*(?:\n   .*)*)", re.MULTILINE)
# What a page about a technique calls a tool, and what a list of tools calls it.
TOOLS = {"transfer tool": "Transfer tool", "latch tool": "Latch tool",
         "blunt sewing needle": "Blunt sewing needle", "garter bar": "Garter bar",
         "claw weights": "Claw weights", "clips": "Clips", "clean cloth": "Clean cloth",
         "ravel cord": "Ravel cord", "waste yarn": "Waste yarn"}


def told_at(text: str, anchor: str) -> list[str]:
    """What a page tells at an anchor, a numbered step or a section; without one, what it needs."""
    if not anchor:
        found = NEEDS.search(text)
        return ITEM.findall(found[1]) if found else []
    step = [line for line in ITEM.findall(text) if f"{{: #{anchor} }}" in line]
    return step or re.findall(rf"^## [^\n]*{{ #{anchor} }}\n(.*?)(?=^## |\Z)", text,
                              re.MULTILINE | re.DOTALL)


def tools_needed(page: str, anchor: str) -> list[set[str]]:
    """What a technique's page says that it needs: for each tool, the ones of which any will do."""
    needed = []
    for line in told_at((SITE / f"{page}.md").read_text("utf-8"), anchor):
        said = " ".join(line.split()).lower()
        named = {mine for words, mine in TOOLS.items() if words in said}
        needed += [named] if ", or " in said else [{one} for one in named]
    return [any_of for any_of in needed if any_of]


def missing(text: str) -> set[str]:
    """The tools that a size page's steps lead to and its list has not."""
    listed = re.search(r'\{ #materials \}|id="materials"', text)
    assert listed
    end = re.search(r'\{ #gauge \}|id="gauge"', text)
    assert end
    items = re.findall(r"<strong>(.*?)</strong>", text[listed.start():end.start()])
    out = set()
    for page, anchor in {lead for steps in STEP.findall(text) for lead in LEADS.findall(steps)}:
        for any_of in tools_needed(page, anchor):
            if not any(item.startswith(tool) for item in items for tool in any_of):
                out.add(f"{' or '.join(sorted(any_of))}, of {page}")
    return out


def test_pages_that_steps_lead_to_need_no_other_tool_than_is_listed(pages: dict[str, str]) -> None:
    """reading.md promises that the list has every tool that a step uses."""
    found = {name: gaps for name, text in pages.items() if (gaps := missing(text))}
    assert not found, found


def test_a_tool_that_is_left_out_of_a_list_is_missed(pages: dict[str, str]) -> None:
    text = pages["salt-marsh-pullover/s"]
    assert "Blunt sewing needle, of techniques/grafted" not in missing(text)
    spoiled = text.replace("<strong>Blunt sewing needle</strong>", "<strong>Needle</strong>", 1)
    assert any("Blunt sewing needle" in one for one in missing(spoiled))


def test_what_is_steamed_flat_has_its_iron_in_the_list(pages: dict[str, str]) -> None:
    """Points of a collar that curl are pinned flat and steamed: pins alone were listed."""
    steamed = {name for name, text in pages.items() if "steam them" in text or "Press it" in text}
    assert steamed
    assert steamed == {name for name, text in pages.items()
                       if "<strong>Steam iron or steamer</strong>" in text}


def test_a_shirt_collar_of_two_layers_is_pressed_as_its_page_tells(pages: dict[str, str]) -> None:
    """Step 5 of bands/shirt-collar.md had no step on the page that is knitted from."""
    page = (SITE / "bands" / "shirt-collar.md").read_text(encoding="utf-8")
    assert "Fold the collar over and press it under a damp cloth." in page
    pressed = {name for name, text in pages.items()
               if "Fold the collar over. Press it under a damp cloth" in text}
    assert pressed == {name for name, text in pages.items()
                       if "<strong>Damp cloth</strong>" in text}
    told = {name.partition("/")[0] for name in pressed}
    assert told == {path.parent.name for path in ROOT.glob("patterns/*/pattern.yaml")
                    if "kind: double shirt collar" in path.read_text(encoding="utf-8")}


def test_a_thread_that_is_drawn_through_a_stitch_is_not_said_to_lie_beside(pages: dict[str, str]
                                                                           ) -> None:
    """The list said "tied in beside the work", and a step drew it through the fabric."""
    drawn = [text for text in pages.values() if "ends of a thread of another colour" in text]
    assert drawn
    assert not [text for text in drawn if "tied in beside the work" in text]


# What a making up tells to do that another page shows, and where that page is.
SHOWN = {r"\brow to row\b": "techniques/mattress-seam-by-rows",
         r"\bstitch to stitch, (?!off)|stitches together\b": "techniques/stitch-to-stitch",
         r"\bstitches to rows\b|\brows to the shoulder": "techniques/rows-to-stitches",
         r"foot of the slit": "bands/placket", r"pocket linings? down": "techniques/pocket-opening",
         r"bind them off as one": "techniques/joining-shoulders"}


@cache
def pages_of_the_designer(slug: str) -> dict[str, str]:
    """The addresses of the designer's pages in the place of ours, by the path of ours."""
    source = yaml.safe_load((ROOT / "patterns" / slug / "pattern.yaml").read_text("utf-8"))
    return {f"techniques/{ours}": address for ours, address in source.get("techniques", {}).items()}


def led_to(name: str, page: str) -> str:
    """The link to what shows a way: our page, or that of the designer, whose `techniques` name
    one of hers in its place."""
    hers = pages_of_the_designer(name.partition("/")[0])
    return f'href="{hers[page]}"' if page in hers else f"../../{page}.html"


def not_led_to(name: str, text: str) -> list[tuple[str, str]]:
    """The pages of ways that a making up names and does not lead to."""
    making = text[text.find('id="making-up"'):text.find('id="counted"')]
    told = re.sub(r'<details class="wb-working".*?</details>', "", making)
    return [(name, page) for words, page in SHOWN.items()
            if re.search(words, told) and led_to(name, page) not in making]


MADE_UP = re.compile(r'<li id="make-up[^"]*">(.*?)(?=<li id="|</ol>)', re.DOTALL)
HOW = re.compile(r'class="wb-how" href="([^"]+)"')
# The ends of bands that a step sews, and how. Sides of rows that are sewn by their outermost loops
# lose no stitch; a seam row to row takes one of either end, and no band has one more for it. What
# is sewn a stitch in, of a band in two parts, has its stitch: "for the join".
ENDS = re.compile(r"(?:\bends together|\bends of (?:its|the|each) [^.]*?|\beach end of the [^.]*?)"
                  r",(?:</b>)? (edge to edge|stitch to stitch)")


def ends_not_led_to(name: str, text: str) -> list[tuple[str, str]]:
    """The steps that sew ends of bands in a way that no link at them or before them shows, or
    where all that is shown is another way."""
    shown: set[str] = set()
    found = []
    for step in MADE_UP.findall(text):
        here = set(HOW.findall(step))
        shown |= here
        ways = {f"techniques/{way.replace(' ', '-')}" for way in ENDS.findall(step)}
        found += [(name, way) for way in ways
                  if not any(led_to(name, way) in f'href="{one}"' for one in shown)]
        if "to the top of the front band" in step and any("mattress" in one for one in here):
            found.append((name, "a seam that takes a stitch"))
    return found


def test_how_ends_of_bands_are_sewn_is_shown_where_they_are_sewn(pages: dict[str, str]) -> None:
    """A collar's ends led to the seam that takes a stitch of each side, which nobody had counted,
    and a neckband's ends led nowhere."""
    sewn = {name.partition("/")[0] for name, text in pages.items()
            if any(map(ENDS.search, MADE_UP.findall(text)))}
    assert sewn >= {"watch-below-robe", "gull-wing-pullover", "bowline-waistcoat", "foghorn-cowl"}
    found = [one for name, text in pages.items() for one in ends_not_led_to(name, text)]
    assert not found, found


def test_no_stitch_is_lost_where_ends_of_bands_meet() -> None:
    """The page that these steps lead to says so, and that of the other seam that each piece does
    lose one, and that bands are not sewn so."""
    ends, rows = (" ".join((SITE / "techniques" / f"{name}.md").read_text("utf-8").split())
                  for name in ("edge-to-edge", "mattress-seam-by-rows"))
    assert "no stitch is lost" in ends and "loses one stitch" in rows
    assert "Ends of bands are sewn [edge to edge](edge-to-edge.md)" in rows


def test_a_making_up_leads_to_the_page_of_each_way_that_it_names(pages: dict[str, str]) -> None:
    found = [one for name, text in pages.items() for one in not_led_to(name, text)]
    assert not found, found


def test_what_a_page_tells_to_sew_its_technique_does_not_leave_out(pages: dict[str, str]) -> None:
    """The Spar pullover says "sew all", and the page that it leads to said to leave out what lies
    in another seam."""
    assert any("sew all, " in text for text in pages.values())
    stitches = (SITE / "techniques" / "stitch-to-stitch.md").read_text("utf-8")
    told = " ".join(line for line in ITEM.findall(stitches) if "{: #edges }" in line)
    assert "as the size page names" in " ".join(told.split())
    assert "unless it says to sew all" in " ".join(told.split())


def test_a_page_of_the_designer_stands_in_the_place_of_ours(pages: dict[str, str]) -> None:
    """The source of the Pennant cap says that its notes show how a seam is sewn row to row."""
    name, ours = "pennant-cap/woman", "techniques/mattress-seam-by-rows"
    text = pages[name]
    assert led_to(name, ours) == 'href="index.html#notes"' and f"../../{ours}.html" not in text
    making = text.find('id="making-up"')
    spoiled = text[:making] + text[making:].replace("index.html#notes", f"../../{ours}.html")
    assert (name, ours) in not_led_to(name, spoiled)


def test_how_a_crown_s_seam_is_sewn_stands_where_it_is_sewn(pages: dict[str, str]) -> None:
    """The link stood in the step that draws the crown up, and the step with the seam had none."""
    drawn = re.compile("through (?:the crown|its) stitches once more")
    seam = re.compile("Sew (?:the back seam|the quarters together|each thumb)")
    steps = {name: re.split(r'<li id="make-up[^"]*">', text[text.find('id="making-up"'):])
             for name, text in pages.items() if drawn.search(text)}
    assert steps
    assert not {name for name, made in steps.items() for one in made
                if drawn.search(one) and "row to row" in one}
    assert not {name for name, made in steps.items()
                if not any(seam.search(one) and "How to sew row to row" in one for one in made)}
