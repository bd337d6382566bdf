"""The gauges of a page, and the dial setting of every row."""

from __future__ import annotations

import re
from dataclasses import dataclass

from tests.reader.acts_rows import setting_of
from tests.reader.bed import FOREIGN, need
from tests.reader.garment_parts import attempt
from tests.reader.knitter import Knitter
from tests.reader.needles import parse, rising
from tests.reader.page_parts import Reading

GAUGE = re.compile(r"(\d+(?:\.\d+)?) stitches and (\d+(?:\.\d+)?) rows to 10 cm, (.+), dial (.+)")
TIGHTER = re.compile(r"(Hem|Rib): not swatched\..*? knitted tighter, at dial (.+?), and may come")
SWATCH = re.compile(r"(\d+) stitches over (\d+(?:\.\d+)?) cm, (\d+) rows over (\d+(?:\.\d+)?) cm")


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
            attempt(reading, "Gauge", block.text, patterned, block.text,
                    [b.text for b in group.blocks() if "stitches over" in b.text])
            bare = re.match(r"(.+): not swatched\..*knitted at dial ([^)]*?\)?)\. (Knit|Yarn) ",
                            block.text)
            if bare:
                reading.unswatched[bare[1]] = bare[2]
                main = of_piece(out, named_in(block.text) or "Back")
                attempt(reading, "Gauge", block.text, need, bool(main) and (
                    bare[3] == "Knit" or main.dial == bare[2]), "gauge",  # type: ignore[union-attr]
                    "the garment's swatch has another dial")
            if bare and bare[3] == "Knit" and main:
                attempt(reading, "Gauge", block.text, by_rule, block.text, main, bare[2])
    said = " ".join(block.text for block in group.blocks())
    for label in out:
        if f"{label}: knit the swatch " not in said:
            reading.fault("gauge", "Gauge", label, "what its swatch is knitted as is not said")
    return out


# What all that is knitted is called, where it is of one fabric.
WHOLE = ("Garment", "Bag", "Cap", "Cowl", "Hat", "Mitten", "Panel", "Shawl")


def of_piece(gauge: dict[str, Gauge], title: str) -> Gauge | None:
    """The gauge of a piece by its name: that of the garment, or where pieces are of several fabrics
    the one that names it."""
    whole = next((gauge[name] for name in WHOLE if name in gauge), None)
    return whole or gauge_for(gauge, title)


def named_in(text: str) -> str:
    """The first piece that a sentence names whose yarn and dial a band has."""
    named = re.search(r"those of the ((?:right |left )?[a-z]+)", text)
    return named[1] if named else ""


def patterned(text: str, worked: list[str]) -> None:
    """The swatch of a stitch pattern: as many stitches as its gauge was worked from, whole repeats
    apart, and a repeat or more beside them on either side."""
    found = re.search(r"stitch pattern .+ Cast on (\d+) stitches, (\w+ to \w+)(?:, with ([^.]+) "
                      r"out of work)?\. Measure the (\d+) from (\w+ to \w+), (\d+) repeats?\.",
                      text)
    if not found:
        return
    cast, needles, out, over, between, repeats = found.groups()
    taken = [s for s in rising(needles) if not out or s not in parse(out)]
    measured = [s for s in rising(between) if s in taken]
    need(len(taken) == int(cast) and len(measured) == int(over), "count",
         f"{len(taken)} are cast on, {len(measured)} measured")
    need(any(f"{over} stitches over" in one for one in worked), "gauge",
         "no gauge was worked from so many")
    width, rest = divmod(int(over), int(repeats))
    need(not rest, "gauge", "these are no whole repeats")
    for beside in (taken.index(measured[0]), len(taken) - 1 - taken.index(measured[-1])):
        need(beside >= max(4, width), "gauge", f"{beside} stitches beside them are too few")


def by_rule(text: str, main: Gauge, dial: str) -> None:
    """What a swatch should measure, by the garment's rows and the rule of the band's stitches.

    A lower dial makes narrower stitches, a higher one wider (common practice, no source): of the
    same yarn they cannot be as wide as the garment's, or the swatch always fails.
    """
    many, rows = map(int, re.findall(r"(\d+) stitch\w* for every (\d+)", text)[0])
    wide, high = (float(said) for said in re.findall(r"about ([\d.]+) cm", text))
    need(abs(high - 100 / main.rows) < 0.07, "gauge", f"10 rows are {100 / main.rows:.1f} cm")
    exact = 100 / main.rows * rows / many
    need(abs(wide - exact) < 0.07, "gauge", f"10 stitches are {exact:.1f} cm")
    tighter, narrower = _number(dial) - _number(main.dial), wide - main.width(10)
    need(tighter * narrower > 0, "gauge",
         f"at dial {dial} they cannot be so wide: at {main.dial} they are {main.width(10):.1f} cm")


def known_gauge_words(text: str) -> None:
    """The other paragraphs under Gauge."""
    swatch = (r"[A-Z][a-z ,]+: knit the swatch (?:in stocking stitch, with "
              r"one needle out of work on each side of the \d+ stitches you measure|"
              r"in the stitch pattern [^.]+\. Cast on "
              r"\d+ stitches, [LR]\d+ to [LR]\d+(?:, with [^.]+ out of work)?\. Measure the \d+ "
              r"from [LR]\d+ to [LR]\d+, \d+ repeats?|"
              r"with needles (?:\d+ in, \d+ out(?:, )?)+ of work|"
              r"as .+)\.(?: Only the needles in work are counted\.| The stitches of both beds are "
              r"counted(?:: \d+ are \d+ of the main bed and \d+ of the second)?\. Mark the "
              r"first and the last of the \d+ stitches with a thread\.|"
              r" Every stitch is counted, latched or not\.)?")
    beds = re.search(r"counted: (\d+) are (\d+) of the main bed and (\d+) of the second\. Mark "
                     r"the first and the last of the (\d+) stitches with a thread", text)
    if beds:
        many, main, second, marked = map(int, beds.groups())
        need(many == main + second == marked and main - second in (0, 1), "gauge",
             "the beds take turns, and begin with the main bed")
    known = (swatch,
             r"[A-Z][a-z ,]+: counted as stocking stitch\. The latched rib draws in: latch up a "
             r"part of the swatch, as wide as you can, and measure that too\. Measure half-way up, "
             r"away from the cast-on and the bound-off edge, the rib flat and drawn out gently\. "
             r"It should then reach [\d.]+ cm \([^)]+\) over 10 stitches, as counted\. Where it is "
             r"narrower, set a higher number on the dial\.",
             r"Measured after washing and rest\. How to swatch and measure\. If your gauge "
             r"differs, the page's counts give other measures\.",
             r"[A-Z][a-z ,]+: no separate swatch, for yarn and dial are (?:the [a-z]+'s|those of "
             r"the [a-z ,]+)\. Its stitches come from a rule, \d+ stitches? for every \d+ rows? "
             r"of the edge; knitted at dial .+\.",
             r"[A-Z][a-z ,]+: not swatched\. Its stitches come from a rule, \d+ stitches? for "
             r"every \d+ rows? of the edge; knitted at dial .+\. Knit a swatch of it first, "
             r"which is not in the amounts of yarn: 10 stitches should be about [\d.]+ cm "
             r"\([^)]+\) wide\. Where they are narrower, set a higher number on the dial; where "
             r"they are wider, a lower one\. Its depth is counted by the rows of the edge, 10 of "
             r"which are about [\d.]+ cm \([^)]+\) high\.",
             r"(Hem|Rib): not swatched\. Its rows are counted by the gauge of (?:the pieces|the "
             r"piece above it)\.(?: It is knitted tighter, at dial [^:]+, and may come out "
             r"shallower: by how much is not known\.)? Try it first: knit the (?:hem|rib) and "
             r"\d+ rows above it over about \d+ stitches\. This is not in the amounts of yarn\. "
             r"Measure it after washing and rest(?:: it should be (?:about|[\d.]+ cm \([^)]+\) to) "
             r"[\d.]+ cm \([^)]+\) deep(?:, from the fold to the top of the joining row)?\. If it "
             r"is deeper or shallower than that(?:, or slack)?, change the dial setting and try "
             r"again)?\.")
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


def pegged(reading: Reading, gauge: dict[str, Gauge]) -> None:
    """An edge that is bound off round pegs is as long as its stitches lie side by side."""
    for k in reading.knitters:
        if told := k.notes.get("edge of"):
            own = gauge_for(gauge, k.title) or of_piece(gauge, "Back")
            attempt(reading, k.title, f"about {told[1]} cm", need,
                    own is None or abs(own.width(told[0]) - told[1]) <= 0.06, "length",
                    f"{told[0]} stitches do not lie so long")


def dials(reading: Reading, gauge: dict[str, Gauge]) -> None:
    """The settings that the steps name are those of the gauges; like settings are alike."""
    alike: dict[str, dict[str, list[str]]] = {}
    for k in reading.knitters:
        own, main = gauge_for(gauge, k.title), of_piece(gauge, "Back" if k.sections else k.title)
        if own is main and not k.sections:
            own = None
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
                apart = next((label for label, one in gauge.items() if one is main), "")
                alike.setdefault(f"{words}, {apart}", {}).setdefault(text, []).append(k.title)
            elif words in ("fold row only", "second layer", "facing", "band"):
                key = f"{words}, {sort}, {k.title.split(',')[0] if sort == 'band' else ''}"
                alike.setdefault(key, {}).setdefault(text, []).append(k.title)
            faced = any(one in ("turn_behind", "turn_parts", "leave_facing") for one, _ in k.log)
            if words in ("second layer", "facing") and (words == "facing") != faced:
                reading.fault("dial", k.title, words, "a facing has no second layer")
        attempt(reading, k.title, "", plain_dials, k, main)
        attempt(reading, k.title, "", hem_as_gauged, reading, gauge, k)
        attempt(reading, k.title, "", by_dots, k)
        attempt(reading, k.title, "", graded, k)
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
    sewn = "sewn at" in k.notes  # a band that hangs from no edge
    if main and own and not k.sections and not sewn and not by.get("both: rib"):
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
    layer = by.get("second layer") or by.get("facing") or by.get("other layer of the hem")
    if "fold row only" in by and layer:
        need(_number(by["fold row only"]) > _number(layer) + 2, "dial", "the fold row is loose")


def hem_as_gauged(reading: Reading, gauge: dict[str, Gauge], k: Knitter) -> None:
    """A hem or rib in two layers is knitted at the dial of its gauge, or at that which the page
    names where it was not swatched."""
    own = [text for words, text, _ in k.dials if not words]
    if k.sections or not waste_layers(k) or len(own) < 2:
        return
    parts = {part: one.dial for label, one in gauge.items()
             for part in re.split(r", | and ", label.lower())}
    group = reading.group("Gauge")
    for block in group.blocks() if group else ():
        if named := TIGHTER.match(block.text):
            parts[named[1].lower()] = named[2]
    cuff = parts.get("cuff") if "sleeve" in k.title.lower() else None
    told = cuff or parts.get("hem") or parts.get("rib")
    need(told in (None, own[1]), "dial", f"its first layer is set to {own[1]}, by its gauge {told}")


def by_dots(k: Knitter) -> None:
    """Settings towards an edge change by one dot at a time, those of a top that is gathered by
    equal steps, always one way: tighter to narrow it, looser for the gathering."""
    last: dict[str, tuple[float, float]] = {}
    for words, text, part in k.dials:
        if not words.startswith(("outer edge", "neck", "narrow the top", "gathering")):
            continue
        number, top = setting_of(text), words.startswith(("narrow the top", "gathering"))
        before, step = last.get(part, (None, 0.0))
        if before is not None:
            now = number - before
            far = abs(step) if top and step else abs(now) if top else 1 / 3
            need(abs(abs(now) - far) < 0.01, "dial", f"{text} is not one step further")
            need(now * step >= 0 and now, "dial", f"{text} goes the other way")
            need(not top or (now > 0) is words.startswith("gathering"), "dial",
                 f"{text} goes the other way than said")
            step = now
        last[part] = (number, step)


def graded(k: Knitter) -> None:
    """A band whose dial changes within its first layer says so at its head, once: a knitter who
    reads another setting than that of its gauge takes it for a slip."""
    first = [(words, setting_of(text)) for words, text, part in k.dials if part == "First layer"]
    layer = [setting for _, setting in first]
    said = any(words.startswith(("outer edge", "neck")) for words, _ in first)  # in the step itself
    later = re.search(r"part [2-9] of", k.title)
    way = "tighter" if layer and layer[-1] < layer[0] else "looser"
    if said or later or len(set(layer)) < 2:
        way = ""
    need(k.notes.get("graded", "") == way, "left-out", "why the dial changes within a layer")


def every_row(k: Knitter, main: Gauge | None, own: str | None) -> None:
    """A piece is knitted at the garment's dial, a band at that of the gauge it was counted by.

    Single rows of a band may have another: the first, on the hung edge, and that of the fold.
    """
    free = {words for words, *_ in k.dials if words.startswith(
        ("outer edge", "neck", "narrow", "gathering", "facing", "rib", "both", "last row"))
        or words.isdigit()}
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
        need(not band or dial == own or rows == 1, "dial",
             f"{rows} rows up to row counter {until} are knitted at {dial}, counted at {own}")


def _number(dial: str) -> float:
    return float(dial.split(" ")[0])


def waste_layers(k: Knitter) -> bool:
    """Whether a hem is knitted from waste yarn."""
    return bool(k.waste_rows and k.waste_rows[0])
