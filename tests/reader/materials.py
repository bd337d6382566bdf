"""Tools and materials: what the steps use is listed, and what is listed is used; yarn as a sum."""

from __future__ import annotations

import math
import re
from fractions import Fraction

from tests.reader import acts_lengthwise
from tests.reader.arithmetic import Range, value
from tests.reader.bed import need
from tests.reader.garment_parts import attempt
from tests.reader.knitter import Knitter
from tests.reader.needles import place
from tests.reader.page_parts import Reading

BED = re.compile(r"(\d+(?:\.\d+)?) mm from needle to needle, with at least (\d+) needles; the "
                 r"pattern is written for (\d+)")
BALL = re.compile(r"([A-Z][a-z]+ yarn)(?: for the ([a-z ,]+))?: (.+?), \d.*\(ball or cone of "
                  r"(\d+) g, (\d+) m\)")
# By its count, metres to the gram: a size of one ply over the plies, for each of its ends.
CONE = re.compile(r"([A-Z][a-z]+ yarn)(?: for the ([a-z ,]+))?: (.+?), \d.*, (\d+)/(\d+) Nm "
                  r"\(ball or cone of (\d+) g\)(?:; (\d+) ends knitted as one: wind a ball"
                  r"(?: of about (\d+) g)? for each end that has no cone)?")
TOTAL = re.compile(r"(.+): about (\d+) g, (\d+) m(?: of (\d+) ends together)? \((\d+) yd\): "
                   r"(\d+) × (\d+) g\.(?: .*)?")
WORKING = re.compile(r"\(?(?P<parts>.*?)\)? × (?P<times>\d+\.\d+) \((?P<more>\d+) % more\)"
                     r"(?P<added>(?: \+ [a-z ,]+ \d+(?:\.\d+)? g)*)"
                     r" = (?P<end>\d+(?:\.\d+)?)(?:, rounded up: (?P<total>\d+)| grams)")


def materials(reading: Reading) -> None:
    """Hold the list of tools and materials to the steps."""
    group = reading.group("Tools and materials")
    if not group:
        reading.fault("materials", "Tools and materials", "", "there is no such section")
        return
    items = [b.text for b in group.blocks() if b.kind == "li"]
    text = " ".join(b.text for b in group.blocks() if b.kind == "p")
    attempt(reading, group.title, text[:120], bed_used, reading, text)
    for item in items:
        attempt(reading, group.title, item, one_item, reading, item)
    attempt(reading, group.title, "", all_listed, reading, items)
    yarn(reading, group, items)


def bed_used(reading: Reading, text: str) -> None:
    """A bed has as many needles on either side of its middle: twice those that a section takes on
    one of its sides are named, at the most (common practice, no source)."""
    match = BED.search(text)
    need(match, "materials", "no bed is named")
    widest = 0
    for k in reading.knitters:
        low, high = k.bed.main.span
        wide = k.notes.get("widest")
        spots = (*k.head[1], low, high)
        widest = max(widest, *(2 * (-spot if spot < 0 else spot + 1) for spot in spots))
        need(wide is None or wide == high - low + 1, "materials",
             f"{k.title}: at its widest it takes {high - low + 1}")
    need(int(match[2]) == widest, "materials", f"{widest} needles are used")  # type: ignore[index]
    need(widest <= int(match[3]), "materials", "the bed is too narrow")  # type: ignore[index]
    held = any(act in ("hold_set", "hold_neck", "note_counter", "shape_hold", "slip_held") or
               (act == "shape_rows" and any(e[2] == "hold" for e in k.edges))
               for k in reading.knitters for act, _ in k.log)
    need(held == ("A carriage that can be set to hold" in text), "materials",
         "a carriage that holds is needed, or is not")
    second = any(k.tools.get("second bed") for k in reading.knitters)
    need(second == ("A second bed" in text), "materials", "a second bed is needed, or is not")


def used(reading: Reading, *acts: str) -> list[tuple[Knitter, dict]]:
    """Where one of these acts is told, with what it says."""
    every = [*reading.knitters, *([reading.making_up] if reading.making_up else [])]
    return [(k, said) for k in every for act, said in k.log if act in acts]


def one_item(reading: Reading, item: str) -> None:
    """One line of the list: its figures are those of the steps."""
    name = item.split(":")[0]
    if name.startswith("Waste yarn for") and "rows" in name:
        rows = {said["rows"] for _, said in used(reading, "knit_of")
                if said["yarn"] == "waste yarn"}
        number = int(re.search(r"for (\d+) rows", item)[1])  # type: ignore[index]
        need(rows == {number}, "materials", f"the steps knit {sorted(rows)} rows")
        starts = [k.title for k, said in used(reading, "knit_of") if said["yarn"] == "waste yarn"]
        several = len(starts) > 1 or re.search(r", (?:knitted|worked) ", starts[0])
        need(("at each start" in item) == bool(several), "materials", f"it starts {starts}")
    elif name == "Buttonhole cord":
        cords = [said["cm"] for _, said in used(reading, "cord_each")]
        number, length = re.search(r"(\d+) lengths? of about (.*?),", item).groups()  # type: ignore
        need(set(cords) == {length}, "materials", f"the steps say {cords[:1]}")
        most = max((int(str(k.notes.get("cords in", 0))) for k in reading.knitters), default=0)
        need(int(number) == most, "materials", f"{most} are in at once")
    elif name == "Ravel cord":
        ravel_cord(reading, item)
    elif name == "Clips":
        most = max((int(str(k.notes.get("clips", 0))) for k in reading.knitters), default=0)
        need(re.search(rf": {most},", item), "materials", f"{most} are on at once")
    elif name.startswith("Gate pegs"):
        need(item == "Gate pegs, a part of the bed, along its front", "materials",
             "this cannot be read")
    elif name == "Pocket cord":
        lengths = {said["cm"] for _, said in used(reading, "pocket_cord")}
        number, length = re.search(r"(\d+) lengths? of about (.*?),", item).groups()  # type: ignore
        need(lengths == {length}, "materials", f"the steps say {lengths}")
        need(int(number) == len(used(reading, "pocket_cord")), "materials", "another number")
    elif name == "Buttons":
        buttons(reading, item)
    elif name.startswith("Cord for"):
        number = re.search(r": (\d+) cm", item)[1]  # type: ignore[index]
        cut = {str(said["cm"]).split(" ")[0] for _, said in used(reading, "cord_cut")}
        every = " ".join(b.text for g in reading.groups for p in g.parts for s in p.steps
                         for b in s.blocks)
        need(number in cut or f"Cut a cord of {number} cm" in every, "materials",
             "the steps cut another length")
    elif match := re.fullmatch(r"Transfer tool with (\d+) prongs(?:, .*)?", item):
        moved = sorted({n for k in reading.knitters for n in k.fashions})
        need(int(match[1]) in moved or any(k.notes.get("chart") for k in reading.knitters),
             "materials", f"{moved} stitches are moved at once, and no chart moves any")


def ravel_cord(reading: Reading, item: str) -> None:
    """It goes about six times over the widest row that is knitted with it: waste-start.md."""
    group = reading.group("Tools and materials")
    pitch = BED.search(" ".join(b.text for b in group.blocks() if b.kind == "p"))
    widest = max(int(str(k.notes.get("cord row", 0))) for k in reading.knitters)
    long = math.ceil(6 * widest * float(pitch[1]) / 50) * 5  # type: ignore[index]
    need(f"about {long} cm" in item, "materials", f"for {widest} needles it is {long} cm")
    need("band" not in item or any(k.sections and k.notes.get("cord row")
                                   for k in reading.knitters), "materials", "no band begins on it")


def buttons(reading: Reading, item: str) -> None:
    """A line of buttons: as many as are sewn on somewhere, their ligne from their size."""
    match = re.fullmatch(r"Buttons: (\d+), (\d+(?:\.\d+)?) mm \(about (\d+) ligne\) across", item)
    need(match, "materials", "this cannot be read")
    number, size, ligne = int(match[1]), float(match[2]), int(match[3])  # type: ignore[index]
    # A ligne is 1/40 inch, 0.635 mm.
    need(abs(size / 0.635 - ligne) <= 0.75, "materials", f"{size} mm are {size / 0.635:.1f} ligne")
    holes = {acts_lengthwise.holes_of(k) if "hole rows" in k.notes else
             len(k.notes.get("holes") or k.notes.get("loops") or k.notes.get("parts", [0])[1:])
             for k in reading.knitters}
    by_name: dict[str, int] = {}
    for k in reading.knitters:
        title = k.title.split(",")[0]
        by_name[title] = by_name.get(title, 0) + acts_lengthwise.holes_of(k)
    need(number in holes or number in by_name.values() or number == sum(by_name.values()),
         "materials", f"there are {sorted(holes)} holes")


NEEDED = {
    "Latch tool": ("chain_off", "latch", "loops_chain"),
    "Clean cloth": ("cloth",),
    "Weights": ("weights_on",),
    "Buttonhole cord": ("by_hand",),
    "Clips": ("clips",),
    "Labels": ("wait_as",),
    "Ravel cord": ("thread_cord",),
    "Waste yarn": ("off_waste", "knit_of"),
    "Buttons": ("buttons", "buttons_marked"),
    "Pins and a flat board": ("block",),
    "Blunt sewing needle": ("darn", "gather", "on_waste", "sew_off"),
    "Pocket cord": ("pocket_cord",),
    "Garter bar": ("turn", "mitre_in", "mitre_moves", "close_up"),
    "Cast-on comb": ("comb",),
    "Sewing needle and strong thread": ("buttons", "buttons_marked"),
}


def all_listed(reading: Reading, items: list[str]) -> None:
    """Every tool that a step needs is listed, and no tool that none needs."""
    for name, acts in NEEDED.items():
        listed = [item for item in items if item.startswith(name)
                  or (name == "Weights" and "weights" in item)]
        mine = used(reading, *acts)
        if name == "Waste yarn":
            mine = [one for one in mine if one[1].get("yarn") != "ravel cord"]
        need(not mine or listed, "tools", f"{name} is used and not listed")
        need(mine or not listed or name == "Blunt sewing needle" or name == "Latch tool"
             or name == "Weights", "tools", f"{name} is listed and not used")
    steps = " ".join(b.text for g in reading.groups for p in g.parts for s in p.steps
                     for b in s.blocks)
    for tool, told in (("scissors", r"\b[Cc]ut\b"), ("tape measure", r"\d cm\b|measure")):
        need(bool(re.search(told, steps)) == any(tool in item.lower() for item in items), "tools",
             f"{tool}: steps and list do not agree")
    turned = max((int(str(k.notes.get("turned", 0))) for k in reading.knitters), default=0)
    need(not turned or any((bar := re.search(r"Garter bar.* for at least (\d+) needles", item))
                           and int(bar[1]) >= turned for item in items),
         "tools", f"the garter bar holds {turned} needles at once")
    moved = {n for k in reading.knitters for n in k.fashions if n > 1}
    listed = {int(found[1]) for item in items
              if (found := re.match(r"Transfer tool with (\d+) prongs", item))}
    need(moved <= listed, "tools",
         f"no transfer tool with as many prongs as stitches are moved is listed: {moved - listed}")


def yarn(reading: Reading, group, items: list[str]) -> None:  # type: ignore[no-untyped-def]
    """The yarn: each total a sum of printed parts, its metres and balls from the label."""
    balls: dict[str, tuple[int, Fraction, int]] = {}
    wound: dict[str, int] = {}
    for item in items:
        if match := BALL.match(item):
            balls[match[3]] = (int(match[4]), Fraction(int(match[5])), 1)
        elif match := CONE.fullmatch(item):
            ends, mass = int(match[7] or 1), int(match[6])
            balls[match[3]] = (mass, Fraction(mass * int(match[5]), int(match[4]) * ends), ends)
            wound[match[3]] = int(match[8] or 0)
    totals: dict[str, re.Match[str]] = {}
    for item in items:
        parts = re.findall(r"(\d+) % [a-z]+", item)
        attempt(reading, group.title, item, need, not parts or sum(map(int, parts)) == 100, "yarn",
                "its fibres are not 100 % together")
    for item in items:
        if match := TOTAL.fullmatch(item):
            totals[match[1]] = match
            attempt(reading, group.title, item, total, balls, match)
            ends = balls.get(match[1], (0, 0, 1))[2]
            attempt(reading, group.title, item, need, ends == 1 or wound[match[1]] == math.ceil(
                int(match[2]) / ends), "yarn", "how much is wound for an end is not said so")
    name = ""
    more = re.search(r"cover all stitches, (\d+) % more", " ".join(
        b.text for b in group.blocks() if b.kind == "p"))
    for block in group.blocks():
        if block.kind == "summary":
            name = block.text.removeprefix("Working: ")
        elif block.kind == "p" and name:
            attempt(reading, group.title, block.text, worked, reading, totals.get(name),
                    block.text, more[1] if more else "")
            name = ""
    for name in balls:
        attempt(reading, group.title, name, need, name in totals, "yarn", "no total is told")


def total(balls: dict[str, tuple[int, Fraction, int]], match: re.Match[str]) -> None:
    """A total: grams, metres of all ends together, yards, balls."""
    name, grams, metres, yards, number = match[1], *(int(match[i]) for i in (2, 3, 5, 6))
    need(name in balls, "yarn", "this yarn is not listed")
    mass, length, ends = balls[name]
    need(int(match[4] or 1) == ends, "yarn", f"{ends} ends are knitted as one")
    need(int(match[7]) == mass, "yarn", f"a ball or cone of it is {mass} g")
    need(grams * length / mass - length / mass <= metres <= grams * length / mass + 1, "yarn",
         f"{grams} g are {float(grams * length / mass):.0f} m")
    whole = math.ceil(metres / Fraction("0.9144"))  # a yard is 0.9144 m (agreement of 1959)
    need(yards == whole, "yarn", f"{metres} m are {whole} yd, up")
    need(number == math.ceil(grams / mass), "yarn", f"that is {grams / mass:.1f} balls")


def worked(reading: Reading, told: re.Match[str] | None, text: str, more: str) -> None:
    """The working of a total: the parts and what is added come to it, its metres and balls from
    these."""
    text, *others = re.split(r"\. (?=Metres: |Balls or cones: )", text)
    made = {label: sum_ for label, _, sum_ in (other.partition(": ") for other in others)}
    if told:
        for label, number in (("Metres", told[3]), ("Balls or cones", told[6])):
            need(label in made, "yarn", f"how many {label.lower()} is not worked out")
            sum_, _, end = made[label].partition(" = ")
            come = re.match(r"\d+(?:\.\d+)?(?=, rounded up: |\D*$)", end)
            need(come and value(sum_).meets(Range(float(come[0]) - 0.05, float(come[0]) + 0.05))
                 and math.ceil(float(come[0])) == int(number), "yarn",
                 f"this does not come to {number}")
            up = re.search(r", rounded up: (\d+)", end)
            need(not up or up[1] == number, "yarn", f"the total is {number}")  # type: ignore[index]
    match = WORKING.fullmatch(text)
    need(match, "yarn", "this cannot be read")
    found = match.groupdict()  # type: ignore[union-attr]
    parts = re.findall(r"([A-Z][^+]*?) (\d+(?:\.\d+)?) g", found["parts"])
    need(found["more"] == more and float(found["times"]) == 1 + int(more) / 100, "yarn",
         f"{more} % are told above")
    added = [float(g) for g in re.findall(r"(\d+(?:\.\d+)?) g", found["added"])]
    swatches = [float(g) for g in re.findall(r"swatch of [a-z ,]+ (\d+(?:\.\d+)?) g",
                                             found["added"])]
    margins = re.search(r"margins of the swatches, half as much again (\d+(?:\.\d+)?) g",
                        found["added"])
    if margins:
        need(abs(sum(swatches) / 2 - float(margins[1])) <= 0.06 * len(swatches), "yarn",
             f"half of the swatches is {sum(swatches) / 2:.1f}")
    exact = sum(float(g) for _, g in parts) * float(found["times"]) + sum(added)
    end = float(found["end"])
    need(abs(exact - end) <= 0.051, "yarn", f"together that is {exact:.1f}")
    need(told and int(told[2]) == math.ceil(end), "yarn", "the total is another")
    need(not found["total"] or found["total"] == told[2], "yarn",  # type: ignore[index]
         "the total is another")
    titles = " ".join(k.title for k in reading.knitters).lower()
    for name, _ in parts:
        need(name.split(",")[0].lower() in titles, "yarn", f"{name!r} is not knitted")


__all__ = ["place"]
