"""The facts at the head of a page; the whole of what stands beyond the steps."""

from __future__ import annotations

import re
from fractions import Fraction

from tests.reader import acts_lengthwise, gauges, measures
from tests.reader.bed import need
from tests.reader.garment_parts import attempt
from tests.reader.knitter import Knitter
from tests.reader.page_parts import Group, Reading
from tests.reader.silhouettes import Silhouette


def facts(reading: Reading) -> None:
    """The facts at the head of a page: lengths in both units, bands as they were knitted."""
    label = ""
    told = counted_lines(reading)
    at_the_head(reading)
    attempt(reading, "facts", "sleeve", to_the_wrist, pairs_of(reading.group("Finished measures")))
    attempt(reading, "facts", "neck", over_the_head, reading)
    for group in filter(None, (reading.groups[0], reading.group("Finished measures"))):
        for block in group.blocks():
            if block.kind == "dt":
                label = block.text
            elif block.kind == "dd":
                attempt(reading, "facts", f"{label}: {block.text}", fact, reading, label,
                        block.text, told)
            elif block.kind == "li" and block.text not in {g.title for g in reading.groups}:
                reading.fault("contents", "contents", block.text, "no such section")


def at_the_head(reading: Reading) -> None:
    """The few facts at the head of the page are those of the lists below, in the same figures."""
    whole = pairs_of(reading.group("Finished measures"))
    gauge = {name: re.sub(r" to 10 cm, .*(?=, dial)", " to 10 cm", text)
             for name, text in pairs_of(reading.group("Gauge")).items()}
    tools = reading.group("Tools and materials")
    yarn = dict(match.groups() for block in (tools.blocks() if tools else ()) if (
        match := re.match(r"(.+): about (\d+ g, .*?: \d+ × \d+ g)\.",
                          block.text)))
    for label, text in pairs_of(reading.groups[0]).items():
        what, _, which = label.partition(": ")
        name = label.removeprefix("Finished ")
        ease = whole.get(f"Ease, {name[:1].lower()}{name[1:]}")
        long, deep = (whole.get(f"{label}, finished {one}") for one in ("length", "depth"))
        if what == "Yarn":
            found = {yarn[which]} if which else set(yarn.values())
        elif what == "Gauge":
            found = {gauge[which]} if which else set(gauge.values())
        elif long:
            found = {f"{long} long, {deep} deep"}
        else:
            found = {f"{whole.get(label)}, {ease} of ease" if ease else whole.get(label)}
        attempt(reading, "facts", f"{label}: {text}", need, text in found, "fact",
                f"the list below says {found}")


def to_the_wrist(whole: dict[str, str]) -> None:
    """A sleeve that ends a third short of the wrist is short: it reaches no wrist, and has no ease.

    How short is common practice, no source.
    """
    way = whole.get("Finished centre back neck to wrist")
    body = whole.get("Fits centre back neck to wrist", "")
    figures = [float(found) for found in re.findall(r"\d+(?:\.\d+)?", body.split(" cm")[0])]
    need(not (way and figures) or float(way.split(" ")[0]) > min(figures) * 2 / 3, "fact",
         f"{way} to the wrist of a body of {body}")


def over_the_head(reading: Reading) -> None:
    """A pullover's neck that opens nowhere goes over the head, stretched by a third (common
    practice, no source)."""
    whole = pairs_of(reading.group("Finished measures"))
    stretched, head = whole.get("Neck opening, stretched by a third"), whole.get("Fits head", "")
    titles = [group.title for group in reading.groups]
    closed = "Finished chest" in whole and "Front" in titles and not any(
        title.startswith("Placket") for title in titles)
    need(closed == (stretched is not None), "fact", "how far the neck stretches over the head")
    if stretched:
        figures = [float(found) for found in re.findall(r"\d+(?:\.\d+)?", head.split(" cm")[0])]
        need(figures and float(stretched.split(" ")[0]) >= max(figures), "fact",
             f"a neck of {stretched} for a head of {head}")


def pairs_of(group: Group | None) -> dict[str, str]:
    """The facts of a group by their labels."""
    out, label = {}, ""
    for block in group.blocks() if group else ():
        if block.kind == "dt":
            label = block.text
        elif block.kind == "dd":
            out[label] = block.text
    return out


def counted_lines(reading: Reading) -> dict[tuple[str, str], str]:
    """The labels of the workings by section: (section, label) to figure."""
    out: dict[tuple[str, str], str] = {}
    group = reading.group("Calculations")
    title = ""
    for block in group.blocks() if group else ():
        if block.kind == "summary":
            title = block.text.removesuffix(": all its counts")
            if ": " in title:
                head, _, rest = title.partition(": ")
                out[(head, "")] = rest
                out[("", head)] = rest
        else:
            name, _, rest = block.text.partition(": ")
            out[(title, name)] = rest.partition(": ")[0]
    return out


def fact(reading: Reading, label: str, text: str, told: dict[tuple[str, str], str]) -> None:
    """One fact."""
    name, _, what = label.partition(", ")
    mine = [k for k in reading.knitters if k.title.split(",")[0] == name]
    if what == "on the bed":
        counts = [k.head[0] for k in mine]
        parts = re.fullmatch(r"(\d+(?:(?:, | and )\d+)+) stitches, in (\d+) parts", text)
        if parts:
            told_counts = [int(one) for one in re.findall(r"\d+", parts[1])]
            need(told_counts == counts and len(counts) == int(parts[2]), "fact",
                 f"knitted are {counts}")
            return
        if alike := re.fullmatch(r"(\d+) parts of (\d+) stitches each", text):
            need(counts == int(alike[1]) * [int(alike[2])], "fact", f"knitted are {counts}")
            return
        along = re.fullmatch(r"\d+ stitches, (\d+) rows", text)
        need(along or re.fullmatch(r"\d+ stitches", text), "fact", "this cannot be read")
        need(not along or {k.notes.get("along") for k in mine} == {int(along[1])}, "fact",
             "the bands have other rows")
        whole = told.get((name, "Stitches of the band")) or told.get(("", "Stitches of the band"))
        number = int(re.search(r"\d+", text)[0])  # type: ignore[index]
        need(not mine or number in counts or (whole and whole.startswith(f"{number} ")), "fact",
             f"knitted are {counts}")
    elif what in ("finished length", "finished depth"):
        key = what.capitalize()
        other = told.get((name, key)) or told.get(("", key))
        need(other is None or other == text, "fact", f"the working says {other}")
        for k in mine if what == "finished depth" else ():
            laddered(reading, k, text)
    elif what == "buttonholes":
        holes = [k for k in mine if "holes" in k.notes or "parts" in k.notes]
        for k in holes:
            number = acts_lengthwise.holes_of(k) or len(k.notes["parts"]) - 1  # type: ignore
            rows = re.search(r", after rows (.*)$", text)
            need(not rows or [int(one) for one in re.findall(r"\d+", rows[1])]
                 == k.notes.get("hole rows"), "fact", "they are made after other rows")
            need(text.startswith(f"{number}"), "fact", f"{number} are knitted")
            size = re.search(r"each of (\d+) stitch", text)
            need(not size or all(len(h) == int(size[1]) for h in k.notes["holes"]),  # type: ignore
                 "fact", "they are of another number of stitches")
    elif label.startswith("Ease, "):
        eased(reading, what, text)
    elif label.startswith("Finished width across the back"):
        between_armholes(reading, what, text)
    elif label.startswith("Finished length"):
        tail = any("Shirt tail" in b.text for b in
                   reading.group("Schematic").blocks())  # type: ignore[union-attr]
        need(("at the sides" in label) == tail, "finished-length",
             "it is that at the sides where the middle hangs lower")
        drawn = any(act == "gather" for k in reading.knitters for act, _ in k.log
                    if k.title.startswith(("Hand", "Thumb")))
        need(("drawn up" in label) == drawn, "finished-length",
             "what is drawn up over a hand is shorter than it was counted")
        to_lower_band(reading, what, text)
    need(re.search(r"\d|none", text), "fact", "no figure")


def laddered(reading: Reading, k: Knitter, text: str) -> None:
    """A band on needles that are left out here and there is as deep as its stitches are wide, by
    the gauge of the same yarn and dial on every needle, and the ladders between them, by what the
    gauge of a repeat leaves for one. One stitch at an edge lies in the seam (geometry)."""
    if "works" not in k.notes:
        return
    known = gauges.gauges(reading)
    own = gauges.gauge_for(known, k.title)
    plain = next((one for one in known.values() if own and one is not own and
                  (one.yarn, one.dial) == (own.yarn, own.dial)), None)
    if own is None or plain is None:
        return
    works, (repeat, _) = k.notes["works"], k.notes["set out"]
    inside, outside = (sum(int(one) for one in re.findall(rf"(\d+) {way}", repeat))
                       for way in ("in", "out"))
    ladder = (own.width(inside) - plain.width(inside)) / outside
    out = works[-1] - works[0] + 1 - len(works)
    exact = plain.width(len(works) - 1) + out * ladder
    need(abs(exact - float(text.split(" ")[0])) < 0.07, "fact", f"it is {exact:.1f} cm deep")


def to_lower_band(reading: Reading, what: str, text: str) -> None:
    """A length that a band at the lower edge makes longer is given up to that band: where it meets
    the garment, so far in from the edge as the band is hung."""
    low = next((k for k in reading.knitters if "side seam round" in str(k.notes.get("around"))),
               None)
    if low is None:
        return
    name, sideways = low.title.split(",")[0], reading.knitters[0]
    need(what == f"to the {name.lower()}", "finished-length", f"the {name.lower()} comes below it")
    main, at_shoulder = gauges.of_piece(gauges.gauges(reading), "Back"), 1
    exact = main.width(sideways.head[0] - at_shoulder - low.depths[0])
    need(abs(exact - float(text.split(" ")[0])) < 0.07, "finished-length", f"it is {exact:.1f} cm")


def between_armholes(reading: Reading, what: str, text: str) -> None:
    """What of a back is seen between its armholes, in the last row below the shoulders: a seam with
    a sleeve takes a stitch on either side, a band as many as it is hung or sewn in (geometry)."""
    back = next(k for k in reading.knitters if k.title == "Back")
    main = gauges.of_piece(gauges.gauges(reading), "Back")
    bands = [k for k in reading.knitters if re.search(r"\b(?:right|left) armhole$", k.title)]
    taken = sum(k.depths[0] if k.depths else 1 for k in bands)
    sleeves = any(k.title.startswith("Sleeve") for k in reading.knitters)
    need(bool(bands) == (what == "without the armhole bands"), "across", "bands go on beside it")
    s = Silhouette(back)
    found = [main.width(wide - (2 if sleeves else taken)) for wide in s.widest(s.slopes())]
    need(not found or any(abs(exact - float(text.split(" ")[0])) < 0.07 for exact in found),
         "across", f"it is {', '.join(f'{exact:.1f}' for exact in found)} cm")


def eased(reading: Reading, what: str, text: str) -> None:
    """An ease: what is finished less what it is to fit, in both units as they are printed."""
    said = pairs_of(reading.group("Finished measures"))
    names = list(said)
    spot = names.index(f"Ease, {what}")
    own = f"{what[:1].upper()}{what[1:]}"  # of own pieces, as they are knitted
    need(spot >= 2 and names[spot - 2].startswith((f"Finished {what}", own))
         and names[spot - 1].startswith("Fits "), "fact", "what it is the difference of is missing")
    finished, fits = said[names[spot - 2]], said[names[spot - 1]]
    told = re.findall(rf"{measures.CM}(?= cm)", text)
    need(told, "fact", "this cannot be read")
    whole_cm = float(re.match(measures.CM, finished)[0])  # type: ignore[index]
    body = [float(x) for x in re.findall(r"\d+(?:\.\d+)?", fits.split(" cm")[0])]
    exact = sorted(whole_cm - one for one in body)
    need(told[0] == told[-1] or len(told) == 2, "fact", "this cannot be read")
    shown = [float(one.replace("−", "-")) for one in told]
    need(len(shown) == len(exact) and all(abs(a - b) < 0.11 for a, b in zip(
        shown, exact, strict=True)), "fact", f"{finished} less {fits} is {exact}")
    inch = [measures.inches(one) for one in re.findall(rf"{measures.INCH}(?= in)", text)]
    need(len(inch) == len(shown), "inches", "the inches are others")
    printed = [measures.inches(one) for one in re.findall(
        measures.INCH, (re.search(r"\(([^a-z)]*) in\)", fits) or ["", ""])[1])]
    whole_in = measures.inches(re.search(rf"{measures.INCH} in", finished)[1])  # type: ignore
    apart = sorted(whole_in - one for one in printed)
    need(len(apart) == len(inch), "inches", "the body has no inches")
    for spot, one in enumerate(inch):
        if (16 * apart[spot]).denominator == 1:
            need(one == apart[spot], "inches", f"{whole_in} in less {printed} in is {apart}")
        else:  # a chart with decimals of an inch
            need(abs(one - apart[spot]) <= Fraction(1, 8), "inches",
                 f"{whole_in} in less {printed} in is {apart}")
