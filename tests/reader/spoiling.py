"""Pages with one thing wrong: a number, needle, side, verb, sentence or word with an opposite
changed, removed or moved; or a length of a drawing changed wherever it stands.

What is spoiled is what a knitter follows or counts on: steps, tables, heads, drawings' figures,
facts, materials, gauge, workings, cautions, what is said once of shaping and edges. Left alone are
links, what a designer says of earlier versions, and sentences that the table of sentences calls
mere explanations.
"""

from __future__ import annotations

import math
import random
import re
from collections.abc import Callable, Iterator, Mapping
from dataclasses import dataclass, replace
from fractions import Fraction

from tests.reader import cautions, grammar, measures, ways
from tests.reader.visible import Block, Section, Step

HISTORY = "Corrections to this size"  # of earlier versions: nothing on the page depends on it
ONCE = (cautions.TITLE, ways.SHAPING, ways.EDGES)  # sections of sentences that are no steps
NUMBER = re.compile(r"(?<![LR\d.,/])(?<!\d )\d+(?:\.\d+)?(?!\d|st\b|nd\b|rd\b|th\b|/|\.\d| \d+/)")
NEEDLE = re.compile(r"\b[LR]\d+\b")
SIDE = re.compile(r"\b(?:left|right)\b(?! side up)")
VERBS = ("Knit", "Bring", "Thread", "Set", "Cast", "Hang", "Cut", "Take", "Push", "Put", "Draw",
         "Fold", "Move", "Decrease", "Increase", "Bind", "Chain", "Sew", "Tie", "Join", "Make")
OPPOSITES = (
    ("inward", "outward"), ("innermost", "outermost"), ("knit side", "purl side"),
    ("knit sides", "purl sides"), ("front", "back"), ("away from", "beside"), ("above", "below"),
    ("farthest from", "beside"), ("under", "over"), ("up", "down"), ("before", "after"),
    ("in front", "behind"), ("holding position", "working position"), ("to hold", "to knit"),
    ("transfer tool", "latch tool"), ("hook", "latch"), ("fingers", "feet"), ("open", "closed"),
    ("non-working", "working"), ("off", "on"), ("inside", "outside"), ("first", "last"))
OTHER_WORD = {a: b for pair in OPPOSITES for a, b in (pair, pair[::-1])}
WORD = re.compile(rf"(?<![-\w])(?:{'|'.join(sorted(OTHER_WORD, key=len, reverse=True))})(?![-\w])")
DOINGS = ("bind off", "hold", "put back", "decrease", "increase")


@dataclass(frozen=True, slots=True)
class Place:
    """A block of a page: its section, its step (or none) and its number there."""

    section: int
    step: int | None
    block: int


@dataclass(frozen=True, slots=True)
class Spoiled:
    """A spoiled page: what kind of change, what was there, what stands there now, the page."""

    kind: str
    section: str
    before: str
    after: str
    parts: list[Section]


def places(parts: list[Section]) -> Iterator[tuple[Place, Block, str]]:
    """Every block that may be spoiled, with the title of its section of the second level."""
    title = ""
    for s, part in enumerate(parts):
        if part.level <= 2:
            title = part.title if part.level == 2 else ""
        if part.title == HISTORY:
            continue
        for b, block in enumerate(part.blocks):
            if part.level <= 1 and block.kind not in ("dd", "row"):
                continue
            if block.kind not in ("key", "summary", "dt") or ": " in block.text:
                yield Place(s, None, b), block, title
        for t, step in enumerate(part.steps):
            for b, block in enumerate(step.blocks):
                if block.kind not in ("key", "drawn"):
                    yield Place(s, t, b), block, title


def with_text(parts: list[Section], place: Place, texts: list[str]) -> list[Section]:
    """The page with a block's text replaced; a table's row is cut into its cells again."""
    section = parts[place.section]
    blocks = section.blocks if place.step is None else section.steps[place.step].blocks
    new = [replace(blocks[place.block], text=text, cells=tuple(text.split(" | ")))
           if blocks[place.block].kind == "row" else replace(blocks[place.block], text=text)
           for text in texts]
    changed = [*blocks[:place.block], *new, *blocks[place.block + 1:]]
    out = list(parts)
    if place.step is None:
        out[place.section] = replace(section, blocks=changed)
    else:
        steps = list(section.steps)
        steps[place.step] = Step(steps[place.step].number, changed)
        out[place.section] = replace(section, steps=steps)
    return out


def touchable(block: Block, title: str) -> Iterator[tuple[int, str]]:
    """The sentences of a block that say something to do or to count on: where each begins."""
    if block.kind == "dt" or (block.kind != "p" and title not in ONCE):
        yield 0, block.text
        return
    at = 0
    for sentence in grammar.sentences(block.text):
        begin = block.text.index(sentence, at)
        at = begin + len(sentence)
        if sentence.startswith("Check: "):
            yield begin, sentence
            continue
        try:
            act = grammar.read(sentence).act
        except grammar.Unknown:
            if title in ("Tools and materials", "Gauge", "Schematic",
                         "Calculations") or re.search(r"\d", sentence):
                yield begin, sentence
            continue
        if act not in ("explain", "how"):
            yield begin, sentence


@dataclass(slots=True)
class Spoiler:
    """Spoils one page, over and over, by a seeded draw."""

    parts: list[Section]
    rng: random.Random
    only: tuple[str, ...] = ()  # the sections that are spoiled; none: all

    def places(self) -> Iterator[tuple[Place, Block, str]]:
        """Every block that may be spoiled here."""
        return (one for one in places(self.parts) if not self.only or one[2] in self.only)

    def tokens(self, pattern: re.Pattern[str]) -> list[tuple[Place, Block, re.Match[str]]]:
        """Every place of a pattern in what may be spoiled."""
        out = []
        for place, block, title in self.places():
            for begin, sentence in touchable(block, title):
                out.extend((place, block, match) for match in
                           pattern.finditer(block.text, begin, begin + len(sentence)))
        return out

    def swap_in(self, kind: str, place: Place, block: Block, start: int, end: int,
                new: str) -> Spoiled:
        """The page with a stretch of a block's text replaced."""
        text = re.sub(r"  +", " ", block.text[:start] + new + block.text[end:]).strip()
        title = self.parts[place.section].title
        return Spoiled(kind, title, block.text, text, with_text(self.parts, place, [text]))

    def token(self, kind: str, pattern: re.Pattern[str],
              other: Callable[[str], str]) -> Spoiled | None:
        """A token changed, removed or moved."""
        found = self.tokens(pattern)
        if not found:
            return None
        place, block, match = self.rng.choice(found)
        how = kind.split(" ")[1]
        if how == "moved":
            rest = [(p, b, m) for p, b, m in found if b is block and m[0] != match[0]]
            if not rest:
                return None
            _, _, two = self.rng.choice(rest)
            a, b = sorted((match, two), key=lambda m: m.start())
            text = block.text
            text = text[:a.start()] + b[0] + text[a.end():b.start()] + a[0] + text[b.end():]
            return Spoiled(kind, self.parts[place.section].title, block.text, text,
                           with_text(self.parts, place, [text]))
        new = "" if how == "removed" else other(match[0])
        return self.swap_in(kind, place, block, match.start(), match.end(), new)

    def number(self, text: str) -> str:
        """Another number near it."""
        step = self.rng.choice((1, 1, 2, 3, 10))
        whole, dot, rest = text.partition(".")
        value = int(whole) + (step if self.rng.random() < 0.5 or int(whole) < step else -step)
        return f"{value}{dot}{rest}"

    def needle(self, text: str) -> str:
        """Another needle near it, or the one across the centre."""
        number = int(text[1:])
        if self.rng.random() < 0.3:
            return ("R" if text[0] == "L" else "L") + text[1:]
        step = self.rng.choice((1, 1, 2))
        up = self.rng.random() < 0.5 or number <= step
        return f"{text[0]}{number + step if up else number - step}"

    def doings(self) -> list[tuple[Place, Block, int, int, str]]:
        """Every verb: the first word of a sentence, or what a table tells to do at an edge."""
        out = []
        for place, block, title in self.places():
            if place.step is None and title not in ONCE:
                continue
            if block.kind == "row":
                out.extend((place, block, m.start(), m.end(), m[0]) for m in
                           re.finditer("|".join(DOINGS), block.text))
            elif block.kind == "p" or title in ONCE:
                for begin, sentence in touchable(block, title):
                    first = sentence.split(" ", 1)[0]
                    if first in VERBS:
                        out.append((place, block, begin, begin + len(first), first))
        return out

    def verb(self, kind: str) -> Spoiled | None:
        """A verb changed, removed or moved."""
        found = self.doings()
        if not found:
            return None
        spot = self.rng.randrange(len(found))
        place, block, start, end, verb = found[spot]
        how = kind.split(" ")[1]
        if how == "moved":
            rest = [one for one in found[spot + 1:spot + 12] if one[4] != verb
                    and one[0].section == place.section and (one[4] in VERBS) == (verb in VERBS)]
            if not rest:
                return None
            two = rest[0]
            if two[1] is block:
                text = (block.text[:start] + two[4] + block.text[end:two[2]] + verb
                        + block.text[two[3]:])
                return Spoiled(kind, self.parts[place.section].title, block.text, text,
                               with_text(self.parts, place, [text]))
            once = with_text(self.parts, place, [block.text[:start] + two[4] + block.text[end:]])
            again = two[1].text[:two[2]] + verb + two[1].text[two[3]:]
            return Spoiled(kind, self.parts[place.section].title, f"{verb} … {two[4]}", again,
                           with_text(once, two[0], [again]))
        choices = [one for one in (VERBS if verb in VERBS else DOINGS) if one != verb]
        new = "" if how == "removed" else self.rng.choice(choices)
        return self.swap_in(kind, place, block, start, end, new)

    def sentences(self) -> list[tuple[Place, Block, int, str]]:
        """Every sentence of a step that says something to do or to count on."""
        return [(place, block, begin, sentence)
                for place, block, title in self.places()
                if (place.step is not None and block.kind == "p")
                or (title in ONCE and block.kind in ("p", "li", "dd"))
                for begin, sentence in touchable(block, title)]

    def sentence(self, kind: str) -> Spoiled | None:
        """A sentence changed for another of the page, removed, or moved a few further on."""
        found = self.sentences()
        if len(found) < 4:
            return None
        spot = self.rng.randrange(len(found))
        place, block, begin, sentence = found[spot]
        end = begin + len(sentence)
        how = kind.split(" ")[1]
        if how == "removed":
            return self.swap_in(kind, place, block, begin, end, "")
        if how == "changed":
            others = [one[3] for one in found if one[3] != sentence]
            new = self.rng.choice(others)
            return self.swap_in(kind, place, block, begin, end, new)
        rest = [one for one in found[spot + 1:spot + 6] if one[0].section == place.section
                and one[3] != sentence]
        if not rest:
            return None
        two_place, two_block, two_begin, two = self.rng.choice(rest)
        stop = two_begin + len(two)
        if two_block is block:
            text = (block.text[:begin] + block.text[end:stop] + " " + sentence
                    + block.text[stop:])
            text = re.sub(r"  +", " ", text).strip()
            return Spoiled(kind, self.parts[place.section].title, block.text, text,
                           with_text(self.parts, place, [text]))
        inserted = f"{two_block.text[:stop]} {sentence}{two_block.text[stop:]}"
        once = with_text(self.parts, two_place, [inserted])
        left = re.sub(r"  +", " ", block.text[:begin] + block.text[end:]).strip()
        return Spoiled(kind, self.parts[place.section].title, sentence, f"after: {two}",
                       with_text(once, place, [left] if left else []))

    def figure(self, kind: str) -> Spoiled | None:
        """A measure of a drawing, 7 mm longer wherever the page has that length."""
        found = list(drawn_measures(self.parts))
        if not found:
            return None
        label, length = self.rng.choice(found)
        title = next(part.title for part in self.parts if part.title == "Schematic")
        return Spoiled(kind, title, f"{label}: {length}", f"{label}: {longer(length)}",
                       everywhere(self.parts, length, longer(length)))

    def spoil(self, kind: str) -> Spoiled | None:
        """The page spoiled in one way; None where it has nothing of this kind to spoil."""
        what = kind.split(" ")[0]
        if what == "figure":
            return self.figure(kind)
        if what == "number":
            return self.token(kind, NUMBER, self.number)
        if what == "needle":
            return self.token(kind, NEEDLE, self.needle)
        if what == "side":
            return self.token(kind, SIDE, lambda s: "right" if s == "left" else "left")
        if what == "word":
            return self.token(kind, WORD, OTHER_WORD.__getitem__)
        return self.verb(kind) if what == "verb" else self.sentence(kind)


# Lines inside a piece, which no figure in its drawing tells: where they lie is held elsewhere.
INSIDE = re.compile(r"Thin line|Heavy line|Shirt tail")
MORE = Fraction(7, 10)  # cm: more than a stitch, two rows


def drawn_measures(parts: list[Section]) -> Iterator[tuple[str, str]]:
    """Each measure of the drawings of pieces: its name, and its length in both units."""
    for _, block, title in places(parts):
        label, _, length = block.text.partition(": ")
        if title == "Schematic" and block.kind == "key" and not INSIDE.match(label) and (
                found := measures.PAIR.match(length)):
            yield label, found[0]


def longer(length: str) -> str:
    """A length in both units, 7 mm longer, as a page prints it."""
    cm = Fraction(length.split(" ")[0]) + MORE
    whole, part = divmod(math.floor(cm / Fraction("2.54") * 8 + Fraction(1, 2)), 8)
    return f"{float(cm):g} cm ({whole or ''}{['', '⅛', '¼', '⅜', '½', '⅝', '¾', '⅞'][part]} in)"


def everywhere(parts: list[Section], old: str, new: str) -> list[Section]:
    """The page with another length wherever this one stands, in drawings too, where its inches
    may stand below its centimetres."""
    (cm, inch), (cm_now, inch_now) = (one.removesuffix(")").split(" (") for one in (old, new))

    def changed(blocks: list[Block]) -> list[Block]:
        out: list[Block] = []
        for before, block in zip([None, *blocks], blocks, strict=False):
            text = re.sub(rf"(?<![\d.]){re.escape(old)}", new, block.text)
            if block.kind == "drawn" and block.text == cm:
                text = cm_now
            elif block.kind == "drawn" and block.text == inch and before and before.text == cm:
                text = inch_now
            out.append(replace(block, text=text, cells=tuple(
                one.replace(old, new) for one in block.cells)))
        return out

    return [replace(part, blocks=changed(part.blocks), steps=[
        Step(step.number, changed(step.blocks)) for step in part.steps]) for part in parts]


HOW = ("changed", "removed", "moved")
KINDS = tuple(f"{what} {how}" for what in ("number", "needle", "side", "verb", "sentence", "word")
              for how in HOW)
# What is said once names no needle and no side of the bed, and few numbers.
ONCE_KINDS = tuple(f"{what} {how}" for what in ("verb", "sentence", "word") for how in HOW)

# A length that is wrong wherever it stands agrees with itself: only the knitting denies it.
FIGURE_KINDS = ("figure everywhere",)


def spoiled_pages(pages: Mapping[str, list[Section]], count: int, seed: int,
                  only: tuple[str, ...] = (), kinds: tuple[str, ...] = KINDS
                  ) -> Iterator[tuple[str, Spoiled]]:
    """So many spoiled pages by a seed: pages by turns at random, kinds one after the other."""
    rng = random.Random(seed)
    names = sorted(pages)
    made = tried = 0
    while made < count and tried < 20 * count:
        tried += 1
        name = rng.choice(names)
        one = Spoiler(pages[name], rng, only).spoil(kinds[made % len(kinds)])
        if one is not None and one.before != one.after:
            made += 1
            yield name, one
