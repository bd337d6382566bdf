"""The cautions at the head of a page: each with its hazard and its act, where the page has it."""

from __future__ import annotations

import re

from tests.reader import grammar
from tests.reader.bed import need
from tests.reader.garment_parts import attempt
from tests.reader.page_parts import Reading

TITLE = "Cautions"
HEALTH = "Knitting & Crochet Guild UK, health and safety: hooks are sharp, keep children away"
DROP = "Diana Sullivan, 2011-02: weights drop when stitches come off"
BAR = "common practice, no source"
BUTTONS = "EN 17394-2:2020 and CEN/TS 17394-1:2021, button attachment; 16 CFR 1501.3(d) exempts"
CORDS = "EN 14682, ASTM F1816-18 and 16 CFR Part 1120: cords strangle"
NONE = "common practice, no source"
# What a caution says: its sentences in their order, what stands in their slots, and who says so.
WARNS: dict[str, tuple[tuple[tuple[str, tuple[object, ...]], ...], str]] = {
    "hooks": ((("warn_sharp", ("Hooks and latches",)),
               ("warn_fingers", ("fingers", "forward", "children"))), HEALTH),
    "weights": ((("warn_drop", ("drop", "off")), ("warn_feet", ("feet", "off"))), DROP),
    "bar": ((("warn_bar", ("garter bar", "open")),
             ("warn_lift", ("fingers", "off", "before"))), BAR),
    "cords": ((("warn_cords", ("before", "none")),), NONE),
    "child": ((("warn_whose", ("child",)), ("warn_rules", ("first",)), ("warn_claim", ("not",))),
              NONE),
    "anyone": ((("warn_anyone", ("child", "first")), ("warn_claim", ("not",))), NONE),
    "buttons": ((("warn_buttons", ("Buttons", "firmly", "after")),
                 ("warn_standard", (17394, 2, 2020, 17394, 1, 2021)),
                 ("warn_parts", (16, 1501, "small parts", "buttons", "dangerous"))), BUTTONS),
    "cords out": ((("warn_making", ("strangle", "out")),), CORDS),
    "pins": ((("warn_pins", ("out", "in", "before")),), NONE),
    "nothing else": ((("warn_only", ("only",)),
                      ("warn_nothing", ("come", "catch", "strangle"))), CORDS),
}
# What calls for a caution: acts of the steps; of some only in a child's garment.
WHEN = {"bar": {"turn", "mitre_in", "mitre_moves", "close_up"}, "cords": {"by_hand", "pocket_cord"}}
WHEN_CHILD = {"buttons": {"caution_buttons"}, "cords out": {"by_hand", "thread_cord"},
              "pins": {"mark", "mark_one", "mark_edge", "slit_threads", "tie_row"}}
FIRST = {rows[0][0]: name for name, (rows, _) in WARNS.items()}
ACTS = {act for rows, _ in WARNS.values() for act, _ in rows}


def cautions(reading: Reading) -> None:
    """Every caution is whole, each is there that the page needs, and they stand before the work."""
    group = reading.group(TITLE)
    need(group, "left-out", "the page has no cautions")
    found: set[str] = set()
    for block in group.blocks() if group else ():
        attempt(reading, TITLE, block.text, caution, block.text, found)
    for name in sorted(owed(reading) ^ found):
        attempt(reading, TITLE, name, need, False, "caution", "it warns of what the page has not"
                if name in found else f"nothing warns of it: {WARNS[name][1]}")
    said = " ".join(block.text for block in group.blocks()) if group else ""
    clips = any(act == "clips" for k in reading.knitters for act, _ in k.log)
    attempt(reading, TITLE, "Count cords", need, "cords" not in found or clips == (
        "and clips" in said), "caution", "clips are counted where there are some")
    titles = [one.title for one in reading.groups]
    worked = {k.title for k in reading.knitters}
    first = next((at for at, title in enumerate(titles) if title in worked), len(titles))
    attempt(reading, TITLE, TITLE, need, titles.index(TITLE) < first, "order",
            "the cautions come after work has begun")


def caution(text: str, found: set[str]) -> None:
    """One caution: what threatens, and what to do, in that order."""
    said = [one for one in map(grammar.read, grammar.sentences(text)) if one.act != "how"]
    if not said:
        return
    need(said[0].act in FIRST, "caution", f"it does not begin with what threatens: {text!r}")
    name = FIRST[said[0].act]
    rows, source = WARNS[name]
    need([one.act for one in said] == [act for act, _ in rows], "caution",
         f"it says {[one.act for one in said]}")
    for one, (_, held) in zip(said, rows, strict=True):
        words = tuple("child" if word == "baby" else word for word in one.slots.values())
        need(words == held, "caution", f"it is {held}: {source}")
    need(name not in found, "caution", "it is said twice")
    found.add(name)


def owed(reading: Reading) -> set[str]:
    """The cautions that a page needs, from what its steps did and whom it is for."""
    tools: set[str] = set().union(*(k.tools for k in reading.knitters))
    acts = {act for k in reading.knitters for act, _ in k.log}
    page = " ".join(block.text for group in reading.groups for block in group.blocks())
    out = {"hooks"}
    if tools & {"weights", "claws"}:
        out.add("weights")
    out |= {name for name, when in WHEN.items() if acts & when}
    whose = re.search(r"(This (?:garment|size) is for a|If you knit this for a)", page)
    if whose:
        out |= {"child" if whose[1].startswith("This") else "anyone", "nothing else"}
        out |= {name for name, when in WHEN_CHILD.items() if acts & when}
    return out
