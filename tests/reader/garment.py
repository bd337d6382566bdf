"""The page beyond its steps: gauge, facts, drawings, joins, what waits, pairs that mirror."""

from __future__ import annotations

import re
from dataclasses import dataclass

from tests.reader import arithmetic, counted, grammar, joins, materials, measures
from tests.reader.acts_rows import setting_of
from tests.reader.bed import FOREIGN, Wrong, need
from tests.reader.garment_parts import attempt
from tests.reader.knitter import Knitter
from tests.reader.page_parts import Group, Reading

GAUGE = re.compile(r"(\d+(?:\.\d+)?) stitches and (\d+(?:\.\d+)?) rows to 10 cm, (.+), dial (.+)")
SWATCH = re.compile(r"(\d+) stitches over (\d+(?:\.\d+)?) cm, (\d+) rows over (\d+(?:\.\d+)?) cm")


DRAWN = re.compile(
    r"All pieces are drawn to one scale, as they lie on the bed: the purl side faces you\.|"
    r"Seam stitches are included\.|Bands are not\.|The arrowheads inside a piece point the way it"
    r" is knitted(?:, and a dashed line is the top of a hem)?\.|Printed at 100 %, the drawings are"
    r" 1 to \d+(?:\.\d+)?: 1 cm on paper is \d+(?:\.\d+)? cm of the piece\.")


@dataclass(slots=True)
class Gauge:
    """Stitches and rows to 10 cm, the yarn, the dial."""

    stitches: float
    rows: float
    yarn: str
    dial: str

    def width(self, stitches: float) -> float:
        """How wide so many stitches lie [cm]."""
        return stitches * 10 / self.stitches

    def height(self, rows: float) -> float:
        """How high so many rows stand [cm]."""
        return rows * 10 / self.rows


def gauges(reading: Reading) -> dict[str, Gauge]:
    """The gauges of a page by what they are for; each is worked out again from its swatches."""
    group = reading.group("Gauge")
    out: dict[str, Gauge] = {}
    if not group:
        return out
    label = ""
    summary = ""
    for block in group.blocks():
        if block.kind == "dt":
            label = block.text
        elif block.kind == "dd":
            match = GAUGE.fullmatch(block.text)
            if not match:
                reading.fault("gauge", "Gauge", block.text, "this cannot be read")
                continue
            out[label] = Gauge(float(match[1]), float(match[2]), match[3], match[4])
        elif block.kind == "summary":
            summary = block.text
        elif block.kind == "p" and "stitches over" in block.text:
            attempt(reading, "Gauge", block.text, swatched, out, summary, block.text)
            summary = ""
        elif block.kind == "p":
            attempt(reading, "Gauge", block.text, known_gauge_words, block.text)
            bare = re.match(r"(.+): not swatched\..*knitted at dial (.+)\.$", block.text)
            if bare:
                reading.unswatched[bare[1]] = bare[2]
    return out


def known_gauge_words(text: str) -> None:
    """The other paragraphs under Gauge."""
    known = (r"Measured after washing and rest\. How to swatch and measure\. If your gauge "
             r"differs, the counts of this page are not yours\.",
             r"[A-Z][a-z ,]+: not swatched\. Its stitches come from a rule, \d+ stitches? for "
             r"every \d+ rows? of the edge; knitted at dial .+\.")
    need(any(re.fullmatch(one, text) for one in known), "unknown-sentence", "an unknown sentence")


def swatched(out: dict[str, Gauge], summary: str, text: str) -> None:
    """A gauge from its swatches: the mean of their stitches and rows to 10 cm."""
    label = summary.removeprefix("Working: ").removesuffix(" gauge")
    need(label in out, "gauge", f"no gauge of {label!r} is printed")
    found = SWATCH.findall(text)
    many = re.search(r"mean of (\d+) measurements", text)
    need((int(many[1]) if many else 1) == len(found), "gauge", "another number of measurements")
    ends = re.search(r": (\d+(?:\.\d+)?) stitches and (\d+(?:\.\d+)?) rows to 10 cm$", text)
    need(ends, "gauge", "no result")
    stitches = sum(10 * int(s) / float(w) for s, w, _, _ in found) / len(found)
    rows = sum(10 * int(r) / float(h) for _, _, r, h in found) / len(found)
    for exact, told, shown in ((stitches, ends[1], out[label].stitches),  # type: ignore[index]
                               (rows, ends[2], out[label].rows)):  # type: ignore[index]
        need(abs(exact - float(told)) <= 0.06, "gauge", f"{exact:.2f}, not {told}")
        need(abs(exact - shown) <= 0.06, "gauge", f"{exact:.2f}, not {shown}")
    out[label].stitches, out[label].rows = stitches, rows


# --- the dial of every row


def gauge_for(gauge: dict[str, Gauge], title: str) -> Gauge | None:
    """The gauge that a piece or band is knitted at, by its name."""
    name = title.split(",")[0].lower()
    for label, one in gauge.items():
        names = re.split(r", | and ", label.lower())
        if name in names or any(n in names for n in (name.split(" part")[0],)):
            return one
        if " and neckband" in name and name in label.lower():
            return one
    return None


def dials(reading: Reading, gauge: dict[str, Gauge]) -> None:
    """The settings that the steps name are those of the gauges; like settings are alike."""
    main = gauge.get("Garment")
    alike: dict[str, dict[str, list[str]]] = {}
    for k in reading.knitters:
        own = gauge_for(gauge, k.title)
        for words, text, _ in k.dials:
            if words in ("piece", "first row") and main:
                if text != main.dial:
                    reading.fault("dial", k.title, words, f"the garment is knitted at {main.dial}")
            elif words == "band" and own and text != own.dial:
                reading.fault("dial", k.title, words, f"its gauge is taken at {own.dial}")
            sort = "band" if k.sections or "and" in k.title else "piece"
            if words in ("joining row only", "other layer of the hem", "piece", "first row", "rib",
                         "both: zigzag row", "both: rib",
                         "both: two rows that close the edge"):
                alike.setdefault(words, {}).setdefault(text, []).append(k.title)
            elif words in ("fold row only", "second layer", "band"):
                key = f"{words}, {sort}, {k.title.split(',')[0] if sort == 'band' else ''}"
                alike.setdefault(key, {}).setdefault(text, []).append(k.title)
        attempt(reading, k.title, "", plain_dials, k, main)
        attempt(reading, k.title, "", by_dots, k)
        bare = reading.unswatched.get(k.title.split(",")[0])
        attempt(reading, k.title, "", every_row, k, main, own.dial if own else bare)
    for words, settings in alike.items():
        if len(settings) > 1:
            few = min(settings.items(), key=lambda pair: len(pair[1]))
            reading.fault("dial", few[1][0], words, f"other sections set {sorted(settings)}")


def plain_dials(k: Knitter, main: Gauge | None) -> None:
    """The first setting of a piece, and how its hem's settings stand to each other."""
    own = [text for words, text, _ in k.dials if not words]
    by = {words: text for words, text, _ in k.dials}
    if main and own and not k.sections and not by.get("both: rib"):
        waste = any("waste" in yarn for yarn, _ in k.yarns) and k.waste_rows and k.waste_rows[0]
        if waste or "piece" not in by:
            need(own[0] == main.dial, "dial", f"it begins at {main.dial}, the garment's")
    if any("rib" in words and words.startswith("both") for words in by):
        told = [words for words, *_ in k.dials if words.startswith("both")]
        need([words.split(" ")[1] for words in told] == ["zigzag", "two", "rib"], "dial",
             f"the settings told are {told}")
    if waste_layers(k) and not k.sections and "piece" in by:
        need(len(own) > 1, "dial", "no setting is told for the hem")
    if waste_layers(k) and len(own) > 1:
        layer = [dial for dial, _, yarn, _ in k.bed.done if yarn not in FOREIGN]
        alike = by.get("other layer of the hem", own[1])
        need(own[1] == alike and layer and layer[0] == alike, "dial",
             "both layers are knitted alike")
    if "joining row only" in by and main and by["joining row only"].isdigit():
        # One number looser than the piece: trade-notes-2.md, section 1.
        need(int(by["joining row only"]) == int(float(main.dial[:2])) + 1, "dial",
             "the joining row is one number looser")
    layer = by.get("second layer") or by.get("other layer of the hem")
    if "fold row only" in by and layer:
        need(_number(by["fold row only"]) > _number(layer) + 2, "dial", "the fold row is loose")


def by_dots(k: Knitter) -> None:
    """Settings towards an edge, or to narrow a top, change by one dot at a time, always one way."""
    last: dict[str, tuple[float, str]] = {}
    for words, text, part in k.dials:
        if not words.startswith(("outer edge", "neck", "narrow the top")):
            continue
        number = setting_of(text)
        if part in last:
            before, way = last[part]
            now = "up" if number > before else "down"
            need(abs(abs(number - before) - 1 / 3) < 0.01, "dial", f"{text} is not one dot further")
            need(way in ("", now), "dial", f"{text} goes the other way")
            last[part] = (number, now)
        else:
            last[part] = (number, "")


def every_row(k: Knitter, main: Gauge | None, own: str | None) -> None:
    """A piece is knitted at the garment's dial, a band at its own, but for rows told otherwise."""
    free = {words for words, *_ in k.dials if words.startswith(
        ("outer edge", "neck", "narrow", "facing", "rib", "both", "last row")) or words.isdigit()}
    if free or not main or k.bed.second:
        return
    loose = {text for words, text, _ in k.dials if words == "fold row only"}
    band = bool(k.sections) or bool(own)
    start = 0 if band else int(str(k.notes.get("zeroed", 0)))
    allowed = {main.dial, own} if band else {main.dial}
    for dial, rows, yarn, until in k.bed.done[start:]:
        if yarn in FOREIGN or (band and not own):
            continue
        fold = dial in loose and rows == 1
        need(dial in allowed or fold, "dial",
             f"{rows} rows up to row counter {until} are knitted at {dial}")


def _number(dial: str) -> float:
    return float(dial.split(" ")[0])


def waste_layers(k: Knitter) -> bool:
    """Whether a hem is knitted from waste yarn."""
    return bool(k.waste_rows and k.waste_rows[0])


# --- the drawings of the pieces


def drawings(reading: Reading, gauge: dict[str, Gauge]) -> None:
    """Every figure of the drawings, against the stitches and rows that were knitted."""
    group = reading.group("Measures of the pieces")
    main = gauge.get("Garment")
    if not group or not main:
        return
    blocks = list(group.blocks())
    scale = re.compile(r"drawings are 1 to (\d+(?:\.\d+)?): 1 cm on paper is (\d+(?:\.\d+)?) cm")
    for block in blocks:
        if block.text.startswith("Printed at") and not scale.search(block.text):
            reading.fault("drawing", group.title, block.text, "no scale is told")
    for block in blocks:
        match = scale.search(block.text)
        if match and match[1] != match[2]:
            reading.fault("drawing", group.title, block.text, "two scales are told")
        odd = [one for one in grammar.sentences(block.text) if not DRAWN.fullmatch(one)]
        if block.kind == "p" and odd:
            reading.fault("unknown-sentence", group.title, odd[0], "an unknown sentence")
    try:
        figures = list(measures.figures(blocks))
    except Wrong as wrong:
        reading.fault(wrong.kind, group.title, "", wrong.message)
        return
    knitted = {k.title: k for k in reading.knitters}
    for name, texts, keys in figures:
        attempt(reading, name, "", measures.same_figures, name, texts, keys)
        mine = [k for title, k in knitted.items() if title.split(",")[0] == name.split(",")[0]]
        if not mine:
            reading.fault("drawing", group.title, name, "no such piece is knitted")
            continue
        attempt(reading, name, str(keys), piece, mine[0], keys, main, gauge)


def length(keys: dict[str, str], label: str) -> float | None:
    """A measure of a drawing [cm]."""
    value = keys.get(label)
    return float(measures.PAIR.search(value)[1]) if value else None  # type: ignore[index]


def near(keys: dict[str, str], label: str, exact: float, give: float) -> None:
    """Hold a measure to what was knitted, within a rounding."""
    told = length(keys, label)
    if told is not None:
        need(abs(told - exact) <= 0.06 + give, "drawing", f"{label} is {exact:.1f} cm, not {told}")


def piece(k: Knitter, keys: dict[str, str], main: Gauge, gauge: dict[str, Gauge]) -> None:
    """The measures of one piece."""
    stitches = k.head[0]
    row = main.height(1)
    near(keys, "Width at the cast-on edge", main.width(stitches), 0)
    body = sum(rows for dial, rows, yarn, _ in k.bed.done[int(str(k.notes.get("zeroed", 0))):])
    del body
    tops = [until for *_, until in k.bed.done[int(str(k.notes.get("zeroed", 0))):]]
    if tops:
        hem = length(keys, "Hem depth") or length(keys, "Rib depth") or 0
        near(keys, "Whole height", hem + main.height(max(tops)) + (row if hem else 0), 1.2 * row)
    at_last = [count for words, count in k.waiting.items() if "shoulder" in words]
    for count in at_last:
        near(keys, "Shoulder width", main.width(count), 1.2 * main.width(1))
    parts = [length(keys, label) for label in ("Height to the underarm", "Armhole depth",
                                               "Shoulder slope")]
    whole = length(keys, "Whole height")
    if all(parts) and whole:
        need(abs(sum(parts) - whole) <= 0.16, "drawing",  # type: ignore[arg-type]
             "its heights do not add up to the whole")
    two = [length(keys, label) for label in ("Height to the underarm",
                                             "Height from the underarm to the top")]
    if all(two) and whole:
        need(abs(sum(two) - whole) <= 0.11, "drawing",  # type: ignore[arg-type]
             "its heights do not add up to the whole")


# --- the workings


def workings(reading: Reading) -> None:
    """Every working done again, and its label held to what was knitted."""
    group = reading.group("How it was counted")
    if not group:
        return
    title = ""
    knitted = {k.title.split(",")[0]: k for k in reading.knitters}
    for block in group.blocks():
        if block.kind == "summary":
            title = block.text
        text = f"{title}: {block.text}" if block.kind == "p" and title else block.text
        if block.kind in ("li", "p"):
            attempt(reading, group.title, text, counted.working, text)
            cast = re.match(r"Cast on, (\d+) stitches: ", block.text)
            k = knitted.get(title.removesuffix(": all its counts"))
            if cast and k and k.head[0] != int(cast[1]):
                reading.fault("working", group.title, block.text,
                              f"{k.title} begins with {k.head[0]}")


# --- facts at the head


def facts(reading: Reading, gauge: dict[str, Gauge]) -> None:
    """The facts at the head of a page: lengths in both units, bands as they were knitted."""
    label = ""
    told = counted_lines(reading)
    for group in reading.groups[:1]:
        for block in group.blocks():
            if block.kind == "dt":
                label = block.text
            elif block.kind == "dd":
                attempt(reading, "facts", f"{label}: {block.text}", fact, reading, label,
                        block.text, told)
            elif block.kind == "li" and block.text not in {g.title for g in reading.groups}:
                reading.fault("contents", "contents", block.text, "no such section")


def counted_lines(reading: Reading) -> dict[tuple[str, str], str]:
    """The labels of the workings by section: (section, label) to figure."""
    out: dict[tuple[str, str], str] = {}
    group = reading.group("How it was counted")
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
        need(re.fullmatch(r"\d+ stitches", text), "fact", "this cannot be read")
        whole = told.get((name, "Stitches of the band")) or told.get(("", "Stitches of the band"))
        number = int(re.search(r"\d+", text)[0])  # type: ignore[index]
        need(not mine or number in counts or (whole and whole.startswith(f"{number} ")), "fact",
             f"knitted are {counts}")
    elif what in ("finished length", "finished depth"):
        key = what.capitalize()
        other = told.get((name, key)) or told.get(("", key))
        need(other is None or other == text, "fact", f"the working says {other}")
    elif what == "buttonholes":
        holes = [k for k in mine if "holes" in k.notes or "parts" in k.notes]
        for k in holes:
            number = len(k.notes.get("holes", ())) or len(k.notes["parts"]) - 1  # type: ignore
            need(text.startswith(f"{number}"), "fact", f"{number} are knitted")
            size = re.search(r"each of (\d+) stitch", text)
            need(not size or all(len(h) == int(size[1]) for h in k.notes["holes"]),  # type: ignore
                 "fact", "they are of another number of stitches")
    elif label.startswith("Ease, "):
        eased(reading, what, text)
    need(re.search(r"\d|none", text), "fact", "no figure")


def eased(reading: Reading, what: str, text: str) -> None:
    """An ease: what is finished less what it is to fit, in both units as they are printed."""
    said = {}
    label = ""
    for block in reading.groups[0].blocks():
        if block.kind == "dt":
            label = block.text
        elif block.kind == "dd":
            said[label] = block.text
    finished = next((v for n, v in said.items() if n.lower() == f"finished {what}"), None)
    fits = next((v for n, v in said.items() if re.fullmatch(
        "(?:to fit a body with )" + ("cross back" if "across" in what else what), n.lower())), None)
    told = re.findall(rf"{measures.CM}(?= cm)", text)
    need(told, "fact", "this cannot be read")
    if not finished or not fits:
        return
    whole_cm = float(re.match(measures.CM, finished)[0])  # type: ignore[index]
    body = [float(x) for x in re.findall(r"\d+(?:\.\d+)?", fits.split(" cm")[0])]
    exact = sorted(whole_cm - one for one in body)
    shown = [float(one.replace("−", "-")) for one in told]
    need(len(shown) == len(exact) and all(abs(a - b) < 0.11 for a, b in zip(
        shown, exact, strict=True)), "fact", f"{finished} less {fits} is {exact}")
    inch = [measures.inches(one) for one in re.findall(rf"{measures.INCH}(?= in)", text)]
    need(len(inch) == len(shown) and all(abs(float(a) - b / 2.54) < 0.3 for a, b in zip(
        inch, shown, strict=True)), "inches", "the inches are others")


def whole(reading: Reading) -> None:
    """Everything beyond the steps."""
    label = ""
    for group in reading.groups:
        for part in group.parts:
            for block in (*part.blocks, *(b for step in part.steps for b in step.blocks)):
                eased_here = label.startswith("Ease, ")
                label = block.text if block.kind == "dt" else ""
                if block.kind != "drawn":
                    if not eased_here:
                        attempt(reading, part.title, block.text, measures.both_units, block.text)
                    attempt(reading, part.title, block.text, measures.complete, block.text)
    gauge = gauges(reading)
    dials(reading, gauge)
    drawings(reading, gauge)
    workings(reading)
    facts(reading, gauge)
    joins.joins(reading, reading.making_up)
    joins.waits(reading)
    joins.cords(reading)
    materials.materials(reading)
    joins.edge_lengths(reading)
    joins.sections_told(reading)
    joins.marks_alike(reading)
    joins.work_order(reading)
    joins.mirrors(reading)
    joins.buttons(reading)
    joins.sewn_on(reading)


__all__ = ["Group", "arithmetic"]
