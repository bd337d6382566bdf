"""Knits a section step by step: looks each sentence up in the table and does what it says."""

from __future__ import annotations

import re
from collections.abc import Callable
from dataclasses import dataclass, field

from tests.reader import grammar
from tests.reader.bed import Bed, Wrong
from tests.reader.needles import Unclear
from tests.reader.obligations import CHECKED, EXPLAINED, LATER, RIGHT_AFTER, TOGETHER
from tests.reader.visible import Block, Step


@dataclass(frozen=True, slots=True)
class Fault:
    """What a reader finds: its kind, the page's section, the step, the sentence, what is wrong."""

    kind: str
    section: str
    step: int
    sentence: str
    message: str

    def __str__(self) -> str:
        return f"[{self.kind}] {self.section}, step {self.step}: {self.message} — {self.sentence!r}"


Act = Callable[["Knitter", dict], None]
ACTS: dict[str, Act] = {}


def act(*names: str) -> Callable[[Act], Act]:
    """Register what is done for these acts of the table."""
    def keep(function: Act) -> Act:
        for name in names:
            if name in ACTS:
                raise ValueError(f"two functions for {name}")
            ACTS[name] = function
        return function
    return keep


@dataclass(slots=True)
class Knitter:
    """A knitter at one section of a page: her bed, what she was told, and what she found wrong."""

    title: str
    bed: Bed = field(default_factory=Bed)
    faults: list[Fault] = field(default_factory=list)
    log: list[tuple[str, dict]] = field(default_factory=list)
    waiting: dict[str, int] = field(default_factory=dict)
    strips: list[tuple[str, int]] = field(default_factory=list)
    lifted: dict[str, tuple[int, ...]] = field(default_factory=dict)  # where loops came, by strip
    corners: dict[int, int] = field(default_factory=dict)
    tools: dict[str, object] = field(default_factory=dict)
    notes: dict[str, object] = field(default_factory=dict)
    part: str = ""
    step: Step = field(default_factory=lambda: Step(0))
    sentence: str = ""
    expects: Callable[[list[Block]], None] | None = None
    owed: dict[str, str] = field(default_factory=dict)
    gauge: dict[str, str] = field(default_factory=dict)
    dials: list[tuple[str, str, str]] = field(default_factory=list)
    yarns: list[tuple[str, str | None]] = field(default_factory=list)
    waste_rows: list[int] = field(default_factory=list)
    edges: list[tuple[int, str, str, int, int]] = field(default_factory=list)
    marks: list[tuple[int, str]] = field(default_factory=list)
    fashions: list[int] = field(default_factory=list)
    plain: bool = False
    sections: list[tuple[int, str, tuple[int, ...]]] = field(default_factory=list)
    called: dict[int, str] = field(default_factory=dict)  # the sections' names, with their sides
    depths: list[int] = field(default_factory=list)
    rows_below: list[int] = field(default_factory=list)  # under stitches bound off
    deep: dict[int, int] = field(default_factory=dict)
    taken_off: dict[int, tuple[int, ...]] = field(default_factory=dict)
    in_table: dict[int, tuple[int, ...]] = field(default_factory=dict)
    narrow: dict[int, tuple[int, int, int]] = field(default_factory=dict)
    cords: list[str] = field(default_factory=list)
    edge_rows: list[tuple[str, int, bool]] = field(default_factory=list)
    orders: list[tuple[str, list[tuple[str, int]]]] = field(default_factory=list)
    hung_counts: list[tuple[str, int]] = field(default_factory=list)
    hung_lengths: list[tuple[str, int, int | None, str]] = field(default_factory=list)
    divisions: list[int] = field(default_factory=list)
    joins: list[tuple[int, str]] = field(default_factory=list)
    seams: list[tuple[int, str, dict]] = field(default_factory=list)
    tables: int = 0
    checks: int = 0
    diagrams: int = 0
    drawn_after: dict[int, str] = field(default_factory=dict)  # the words under a step's diagram
    last: str = ""
    unlike: tuple[str, str] | None = None
    told: list[str] = field(default_factory=list)
    explained: set[str] = field(default_factory=set)  # on the page, here or before
    # What the bed did by a way that the page spells out: its title there, the act, its slot, the
    # word; with no slot only that the way was used.
    did: set[tuple[str, str, str, str]] = field(default_factory=set)

    @property
    def head(self) -> tuple[int, tuple[int, ...]]:
        """The stitches and needles that the section's head names."""
        return self.notes.get("head", (0, (0,)))  # type: ignore[return-value]

    def fault(self, kind: str, message: str) -> None:
        """Put down what is wrong here."""
        self.faults.append(Fault(kind, self.title, self.step.number, self.sentence, message))

    def attempt(self, do: Callable[[], None]) -> None:
        """Do something, and put down what is wrong with it."""
        try:
            do()
        except Wrong as wrong:
            self.fault(wrong.kind, wrong.message)
        except Unclear as unclear:
            self.fault("unclear", str(unclear))
        except grammar.Unknown as unknown:
            self.fault("unknown-sentence", f"no line of the table fits {str(unknown)!r}")
        except (KeyError, IndexError, ValueError, TypeError, AttributeError,
                StopIteration) as error:
            self.fault("unreadable", f"it cannot be followed here: {error!r}")

    def owe(self, what: str, why: str) -> None:
        """Something that the same step must still say."""
        self.owed[what] = why

    def paid(self, what: str, otherwise: str) -> None:
        """The step has said it; without a reason to, it is out of place."""
        if self.owed.pop(what, None) is None:
            raise Wrong("out-of-place", otherwise)

    def note(self, key: str, value: object = True) -> None:
        """Remember something of this section."""
        self.notes[key] = value

    def do(self, step: Step) -> None:
        """Follow one step."""
        self.step, self.sentence = step, ""
        self.owed.clear()
        self.told.clear()
        self.bed.lays = False
        if self.bed.laid:  # the turn after the last row of the step before is one of them
            self.bed.turn = None
        self.bed.laid = any("After each row lay the yarn by hand" in b.text for b in step.blocks)
        for blocks in grouped(step.blocks):
            self.attempt(lambda blocks=blocks: self._follow(blocks))
        self.sentence = ""
        if self.expects and self.last not in SEAMS:  # a seam may have no lengths to tell
            self.fault("list-missing", "a list or table that was announced is not there")
        self.expects = None
        for what, why in self.owed.items():
            self.fault("left-out", f"{why} ({what})")
        if self.bed.rows > int(str(self.notes.get("to part", self.bed.rows))):
            del self.notes["to part"]
            self.fault("left-out", "whether the yarn goes round a held needle is not said")
        told = set(self.told)
        for again in sorted(told & EXPLAINED & self.explained):
            self.fault("told twice", f"{again} was explained before on this page")
        self.explained |= told & EXPLAINED
        for act_name in self.told:
            missing = [one for one in TOGETHER.get(act_name, ())
                       if one not in told | self.explained]
            if missing:
                self.fault("left-out", f"{act_name} is told without {', '.join(missing)}")
        words = " ".join(block.text for block in step.blocks)
        if told & {"hang_section", "hang_section_over"} and not told & {
                "go_in", "top_end", "from_waste", "from_strip", "from_strip_but",
                "from_cord"} and not re.search(
                r"[Oo]ne loop (?:of (?:every|(?:each of )?the other) stitch|on each needle, "
                r"through)|Take up the garment.s first", words):
            self.fault("left-out", "how the section is hung is not said")
        if told & CHECKED and "check" not in told:
            self.fault("check-missing", "no checkpoint follows")
        self.drawn()

    def drawn(self) -> None:
        """A diagram stands at each step that leaves stitches, held or empty needles and gaps
        otherwise among each other. The list of a shaping's rows, and the hanging table while an
        edge is hung, name the needles instead."""
        before, self.unlike = self.unlike, self.bed.unlike()
        hanging = self.sections and self.notes.get("hung at") == self.bed.rows
        listed = any(act.startswith("shape") for act in self.told)
        if self.bed.second is None and self.unlike and self.unlike != before and not hanging and \
                not listed and not any(block.kind == "figcaption" for block in self.step.blocks):
            self.fault("diagram-missing", f"no diagram shows {self.unlike[1]}")

    def _follow(self, blocks: list[Block]) -> None:
        kind = blocks[0].kind
        if kind == "p":
            for sentence in grammar.sentences(blocks[0].text):
                self.sentence = sentence
                self.attempt(self.say)
        elif kind in ("li", "row"):
            self.sentence = " / ".join(block.text for block in blocks)[:120]
            expects, self.expects = self.expects, None
            if not expects:
                raise Wrong("list-unexpected", "a list or table that no sentence announces")
            expects(blocks)
        elif kind == "figcaption":
            self.sentence = blocks[0].text
            ACTS["diagram"](self, {"words": blocks[0].text})

    def say(self) -> None:
        """Do what the sentence at hand says."""
        if self.sentence.startswith("Check: "):
            self.told.append("check")
            self.last = "check"
            ACTS["check"](self, {"words": self.sentence})
            return
        said = grammar.read(self.sentence)
        self.log.append((said.act, said.slots))
        if said.act != "how" and self.notes.get("ribbed") and HEM.search(self.sentence):
            self.fault("name", "the head calls it a rib")
        if said.act not in ("explain", "how"):
            if self.last == "check" and self.told:
                self.fault("out-of-place", f"{said.act} comes after the step was checked")
            self.told.append(said.act)
            late = LATER.get(said.act, frozenset()) & set(self.told[:-1])
            if late and (said.act != "weights_on" or "again" in self.sentence):
                self.fault("out-of-place", f"{said.act} comes after {', '.join(sorted(late))}")
            before = RIGHT_AFTER.get(said.act)
            if before and self.last not in before:
                self.fault("out-of-place", f"{said.act} comes after {self.last or 'nothing'}")
            if said.act not in ACTS:
                raise Wrong("unknown-act", f"nothing is done for {said.act!r}")
            try:
                ACTS[said.act](self, said.slots)
            finally:
                self.last = said.act


def grouped(blocks: list[Block]) -> list[list[Block]]:
    """Blocks of a step: each paragraph alone, the lines of a list or table together."""
    out: list[list[Block]] = []
    for block in blocks:
        if block.kind in ("drawn", "key"):
            continue
        if out and block.kind in ("li", "row") and out[-1][0].kind == block.kind:
            out[-1].append(block)
        else:
            out.append([block])
    return out


SEAMS = {"open_back", "sew_back", "block", "join_shoulders", "join_shoulder", "join_same", "graft",
         "join_shoulders_end",
         "leave_open", "work", "work_side", "sew", "sew_crown", "sew_side", "sew_tops", "zip_in",
         "cord_cut", "cord_draw", "caution_cord", "lower_edge", "draw_lower", "darn", "top_edge",
         "sew_turned", "sew_most", "sew_rest", "darn_inside", "brim_up", "wash",
         "sew_with", "leg_left", "strap_outer", "hem_inside", "hem_rows", "hem_last", "hem_shut",
         "ends_together", "ends_meet", "edge_begin", "edge_half", "edge_half_one",
         "ring_ends", "band_covers", "shoulder_takes", "roll_meets", "curled", "foot_of_v",
         "tops_twice", "quarter_end"}
HEM = re.compile(r"\bhem\b")
NAME = re.compile(r"\b([LR])(\d+)\b")
ALTERNATE = {"move", "move_far", "latch", "chart_repeat"}
PAIRED = {"mark", "shape_once", "chart_repeat", "bring_pair", "mitre_fill"}
UNLIKE = {"how", "explain", "choose", "choose_both", "upper", "count_across", "buttons",
          "caution_buttons", "flat", "flat_none", "flat_fold", "flat_holes", "flat_rows", "begin",
          "head", "head_band", "head_end", "latch_beside", "latch_over",
          "take_there", "begin_empty"}  # said once on a page
MIRROR = {"left": "right", "right": "left", "Left": "Right", "Right": "Left"}


def act_log(k: Knitter, flip: bool) -> list[tuple[str, str]]:
    """What a knitter was told, act by act, needles and sides mirrored where that is asked."""
    out = []
    for act_name, slots in k.log:
        if act_name in UNLIKE or act_name in EXPLAINED:
            continue
        words = []
        for key, value in slots.items():
            if key in ("needle2", "side2") and act_name in PAIRED:
                continue
            if act_name in ALTERNATE and (key.startswith("needles") or key == "side"):
                continue  # every other needle, from the left on both
            if act_name == "fill_gaps" and key == "side":
                continue  # loops come from the left on both, and lean alike
            text = str(value)
            if key == "needle" and act_name in PAIRED:
                text = f"{value} {slots.get('needle2', '')}"
            if flip:
                text = NAME.sub(lambda m: ("R" if m[1] == "L" else "L") + m[2], text)
                text = re.sub(r"\b([Ll]eft|[Rr]ight)\b", lambda m: MIRROR[m[1]], text)
            if key.startswith("needle"):
                text = " ".join(sorted(NAME.findall(text) and [
                    a + b for a, b in NAME.findall(text)]))
            words.append(f"{key}={text}")
        out.append((act_name, " ".join(words)))
    return out
