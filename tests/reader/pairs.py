"""Left and right as mirror images; buttons and where they go."""

from __future__ import annotations

import re

from tests.reader import acts_lengthwise, grammar
from tests.reader.bed import Wrong, need
from tests.reader.garment_parts import attempt
from tests.reader.knitter import Knitter, act_log
from tests.reader.measures import PAIR
from tests.reader.page_parts import Reading

HANGS = re.compile(r"hang|take_(?:listed|rule|once|short|all|twice)$")
MIRROR = {"left": "right", "right": "left"}


def mirrors(reading: Reading) -> None:
    """Left and right of a pair are told alike, the one the other's mirror image."""
    by_title = {k.title: k for k in reading.knitters}
    for title, k in by_title.items():
        twin = re.sub(r"\b([Rr])ight\b", lambda m: "Left" if m[1] == "R" else "left", title)
        if twin == title:
            continue
        other = by_title.get(twin)
        if other is not None:
            attempt(reading, title, "", mirrored, k, other)
        else:
            base = twin.split(", with")[0]
            other = next((o for t, o in by_title.items() if t.startswith(base + ", with")), None)
            if other is not None:
                attempt(reading, title, "", same_size, k, other)


def ribs_beside_bands(reading: Reading) -> None:
    """Where one front shows a plain and the other a latched column beside its band, the left front
    says so: a band is hung so many stitches in, and each front's edge lies at the hand away from
    its side, the purl side facing the knitter (geometry)."""
    by_title = {k.title: k for k in reading.knitters}
    fronts = [by_title.get(f"{side} front") for side in ("Right", "Left")]
    deep = {k.depths[0] for k in reading.knitters if k.depths and any(
        "front edge" in words for words, _, _ in k.edge_rows)}
    if not deep or any(k is None or "rib on" not in k.notes for k in fronts):
        return
    seen = []
    for k, at in zip(fronts, (min(deep), -1 - min(deep)), strict=True):
        assert k is not None
        seen.append("latched" if k.notes["rib on"][at] in k.notes["latched"] else "plain")
    told = fronts[1].notes.get("beside bands")  # type: ignore[union-attr]
    attempt(reading, "Left front", "", need, told == (tuple(seen) if len(set(seen)) > 1 else None),
            "rib", f"beside the bands the fronts begin {seen}")


def order_of_two(reading: Reading) -> None:
    """Of two bands the plain one is knitted before that with buttonholes, which are placed and
    counted by it (Mary Anne Oger, "Button detail"; Yateley Machine Knitting Club, February 2013),
    and says so."""
    titles = [k.title for k in reading.knitters]
    for at, k in enumerate(reading.knitters):
        name, _, which = k.title.partition(", without ")
        twin = [one for one in titles if one.startswith(name.split(",")[0] + ",")
                and f", with {which}" in one] if which else []
        attempt(reading, k.title, "", need, not set(twin) & set(titles[:at]), "order",
                f"{twin} come before it, whose buttonholes it shows the places of")
        attempt(reading, k.title, "", need, bool(twin) == ("either first" in k.notes), "order",
                f"which of the two bands comes first is left open, or there is one: {twin}")


def labels_of_parts(reading: Reading) -> None:
    """Stitches of two parts that wait to be sewn down together have a label each that differs."""
    acts = {act for k in reading.knitters for act, _ in k.log}
    for k in reading.knitters if "turn_parts" in acts else ():
        part = re.search(r", (part \d+) of \d+", k.title)
        labels = [str(said["name"]) for act, said in k.log if act == "wait_as"]
        attempt(reading, k.title, "", need, not part or all(part[1] in one for one in labels),
                "label", f"they wait as {labels}")


def same_size(k: Knitter, other: Knitter) -> None:
    """A band with buttonholes and the one without have the same stitches and rows."""
    need(k.head[0] == other.head[0], "mirror",
         f"{other.title} has another number of stitches")
    rows = [sum(d[1] for d in one.bed.done) for one in (k, other)]
    need(rows[0] == rows[1] or "parts" in {**k.notes, **other.notes}, "mirror",
         f"{rows[0]} rows here, {rows[1]} in {other.title}")
    need(k.depths == other.depths, "mirror", f"{other.title} is hung another way")
    need(k.dials == other.dials, "mirror",
         f"{other.title} is knitted at other settings")


def mirrored(k: Knitter, other: Knitter) -> None:
    """Two knitters' logs are mirror images, act by act.

    A side that lay at the left of the bed may have a row less above its bind-off, and then takes
    other needles: all but what hangs on them is alike, and so is the band's width.
    """
    if "armhole" in k.title and "ties" in k.notes and any(
            k.notes[one] != other.notes.get(one) for one in ("ties", "sewn at")):
        same_size(k, other)
        need(k.notes["sewn at"] != other.notes.get("sewn at"), "mirror", "both are sewn alike")
        need(all(abs(row - twin) <= 2 for row, twin in zip(
            k.notes["ties"], other.notes["ties"], strict=True)), "mirror",
            f"{other.title} has its threads elsewhere")
        return
    one, two = act_log(k, flip=True), act_log(other, flip=False)
    if "armhole" in k.title and k.edge_rows != other.edge_rows:
        same_size(k, other)
        for (words, rows, _), (twin, more, _) in zip(k.edge_rows, other.edge_rows, strict=True):
            need(words == twin and abs(rows - more) <= 1, "mirror",
                 f"{rows} rows of the {words} here, {more} of the {twin} in {other.title}")
        one, two = ([act for act in log if not HANGS.match(act[0])] for log in (one, two))
    need(len(one) == len(two), "mirror", f"{len(one)} acts here, {len(two)} in {other.title}")
    for mine, theirs in zip(one, two, strict=True):
        need(mine == theirs, "mirror", f"here {mine}, in {other.title} {theirs}")


# --- buttons


def buttons(reading: Reading) -> None:
    """Where the buttons go: under the middle of each hole, along the finished band."""
    finished = {}
    label = ""
    for block in [*reading.groups[0].blocks(), *reading.group("Finished measures").blocks()]:
        if block.kind == "dt":
            label = block.text
        elif block.kind == "dd" and label.endswith(", finished length"):
            match = PAIR.match(block.text)
            finished[label.removesuffix(", finished length")] = float(match[1]) if match else 0
    for group in reading.groups:
        name = group.title.removesuffix(", buttons")
        if name == group.title:
            continue
        holed = [k for k in reading.knitters
                 if k.title.split(",")[0] == name and {"holes", "loops", "parts"} & set(k.notes)]
        for block in group.blocks():
            if block.kind == "p":
                attempt(reading, group.title, block.text, announced, block.text, holed)
        spots = [b.text for part in group.parts for s in part.steps for b in s.blocks]
        mine = [k for k in reading.knitters if k.title.split(",")[0] == name]
        holed = [k for k in mine if "holes" in k.notes]
        for k in holed:
            if "hole rows" in k.notes:
                attempt(reading, group.title, str(spots), acts_lengthwise.buttons_lie, k,
                        [float(PAIR.match(text)[1]) for text in spots],  # type: ignore[index]
                        finished.get(name), mine)
                continue
            attempt(reading, group.title, str(spots), placed, k, spots, finished.get(name), holed)


def announced(text: str, holed: list[Knitter]) -> None:
    """The words before the places of the buttons: from which end they are measured."""
    for sentence in grammar.sentences(text):
        try:
            said = grammar.read(sentence)
        except grammar.Unknown as unknown:
            raise Wrong("unknown-sentence", "no line of the table fits it") from unknown
        if said.act == "measured":
            ends = {k.notes.get("end told", ("",))[0] for k in holed}  # type: ignore[index]
            told = said.slots["words"]
            need(not holed or told in ends or (told == "hem"
                 and all(str(end).endswith("hem") for end in ends)), "end",
                 f"the band begins at {ends}")


def placed(k: Knitter, spots: list[str], length: float | None, holed: list[Knitter]) -> None:
    """The buttons of one band."""
    holes = k.notes["holes"]
    told = [float(PAIR.match(text)[1]) for text in spots if PAIR.match(text)]  # type: ignore[index]
    need(len(told) == len(holes), "buttons", f"{len(holes)} holes, {len(told)} places")
    need(told == sorted(told), "buttons", "they are not in order")
    if len(holed) > 1 or length is None or " part " in k.title:
        return
    full = k.notes["band"]
    total = full[1] - full[0] + 1
    side = (k.notes.get("end told") or ("", "left"))[1]
    for place, hole in zip(told, sorted(holes, key=min, reverse=side == "right"), strict=True):
        middle = (min(hole) + max(hole) + 1) / 2 - full[0]
        middle = total - middle if side == "right" else middle
        exact = length * middle / total
        need(abs(place - exact) <= 0.16, "buttons", f"a hole's middle lies at {exact:.1f} cm")


def sewn_on(reading: Reading) -> None:
    """As many buttons are sewn on as there are holes, slits or loops on the other front, and these
    are made by then, unless a thread is tied in at each button."""
    for at, k in enumerate(reading.knitters):
        if "buttons" not in k.notes:
            continue
        name = k.title.split(",")[0]
        holed = [(n, o) for n, o in enumerate(reading.knitters) if o.title.split(",")[0] == name
                 and any(key in o.notes for key in ("holes", "loops", "parts"))]
        attempt(reading, k.title, "Sew on", need, bool(k.notes.get("ties")) or not holed
                or min(n for n, _ in holed) <= at, "order", "the holes are not made yet")
        holes = [acts_lengthwise.holes_of(o) if "hole rows" in o.notes else
                 len(o.notes.get("holes") or o.notes.get("loops") or o.notes["parts"][1:])
                 for _, o in holed]
        attempt(reading, k.title, "Sew on", need, not holes or k.notes["buttons"] in holes,
                "buttons", f"{holes} holes")
