"""The counts of the pieces that workings name, held to what was knitted.

A page may tell a wrong count alike in its label, in its sum and in the facts. What a count is of is
geometry; that armholes and raglans begin at the underarm is common practice, no source.
"""

from __future__ import annotations

import re
from functools import cached_property

from tests.reader.bed import need
from tests.reader.garment_parts import attempt
from tests.reader.knitted_parts import parts_of, taken_off
from tests.reader.knitter import Knitter
from tests.reader.page_parts import Group, Reading
from tests.reader.silhouettes import Silhouette

LABEL = re.compile(r"([A-Z][^:]*?), (\d+) (?:stitch(?:es)?|rows?): ")
OF_PIECE = re.compile(r"(\d+) stitches of (?:the (back|front)|a (front)) − ")
AS_EDGE = re.compile(r"(Rows|Stitches) of the edge: (\d+) (?:rows|stitches): as the edge has\.")
OF_EDGE = re.compile(r"Stitches of the band: \d+ stitches: (\d+) (rows|stitches) × ")
AROUND = ("Finished chest", "All round, where the side seams end")
PARTS = (("rows to the armhole", "rows of the armhole", "rows of the shoulder"),
         ("rows below the raglan", "rows of the raglan", "row above it"))


class Piece:
    """A piece, with what its counts may be: nothing where no bed can know it."""

    def __init__(self, k: Knitter) -> None:
        self.k = k

    @cached_property
    def counts(self) -> dict[str, set[int]]:
        """The counts by their labels, looked for once: a page names many of a piece."""
        return counts_of(self.k)


def knitted_counts(reading: Reading) -> None:
    """Every count of a piece that its bed knows, in its own working and in the finished sums."""
    knitted = {k.title.split(",")[0]: Piece(k) for k in reading.knitters
               if k.bed.seen and not k.sections}
    title, has = "", ("", "")
    for block in (reading.group("Calculations") or Group("", [])).blocks():
        if block.kind == "summary":
            title = block.text.removesuffix(": all its counts")
        elif edge := AS_EDGE.match(block.text):
            has = edge[2], edge[1].lower()
        elif (of := OF_EDGE.match(block.text)) and has[0]:
            attempt(reading, title, block.text, need, (of[1], of[2]) == has, "working",
                    f"the edge has {' '.join(has)}")
            has = ("", "")
        elif title in knitted and (told := LABEL.match(block.text)):
            attempt(reading, title, block.text, one, knitted[title], told[1], int(told[2]))
        elif title.startswith("Finished measures"):
            attempt(reading, title, block.text, in_sum, knitted, block.text)


def one(piece: Piece, label: str, told: int) -> None:
    """One count of a piece by its label."""
    counts = piece.counts.get(label, set())
    need(not counts or told in counts, "working", f"{label}: {sorted(counts)} are knitted")


def counts_of(k: Knitter) -> dict[str, set[int]]:
    """What the counts of a piece may be, by their labels; nothing where no bed can know it."""
    s = Silhouette(k)
    top, arms, slopes = s.top, set(sorted(s.underarm())[:1]), s.slopes()
    ends = {high - low + 1 for low, high in s.tops()}
    arm = s.widest(arms) or (ends if len(s.parts) == 1 else set())
    parts = parts_of(k, s)
    rib, above = k.notes.get("rib of", (0, 0))  # type: ignore[misc]
    whole = {
        "Rib stitches": {rib} - {0}, "Rib stitches on the main bed": {rib} - {0},
        "Rib stitches on the second bed": {rib - 1} - {-1},
        "Rib stitches on both beds": {2 * rib - 1} - {-1}, "Stitches above the rib": {above} - {0},
        "Stitches more above the rib": {above - rib} - {0},
        "Stitches fewer above the rib": {rib - above} - {0},
        "Rib stitches from one of these to the next, at least":
            {rib // abs(above - rib)} if above != rib else set(),
        "Chest": arm, "Upper arm": arm, "Across the back": s.widest(slopes),
        "Rows to armhole": arms, "Rows to raglan": arms,
        "Rows to underarm": plain_below(s) or arms or {top},
        "Armhole rows": {slope + 1 - row for slope in slopes for row in arms},
        "Shoulder rows": {top - slope - 1 for slope in slopes},
        "Raglan rows": {top - row - 1 for row in arms if not k.title.startswith("Sleeve")},
        "Neck stitches": s.neck()[1] or (taken_off(k) if k.title.startswith("Back") else set()),
        "Rows": {top},
        "Top": ends, "Stitches of the cap's top": ends,
    }
    whole |= short_rows(k)
    return {label: whole.get(label, set()) | parts.get(label, set()) for label in whole | parts}


def short_rows(k: Knitter) -> dict[str, set[int]]:
    """The counts of short rows by their labels, one after another: alike ones that follow each
    other are of one label. Two of their rows are rows of the edges."""
    knitted: list[tuple[int, int, int]] = k.notes.get("short rows", [])  # type: ignore[assignment]
    began = [one for before, one in zip([(-2, 0, 0), *knitted], knitted, strict=False)
             if before[1:] != one[1:] or before[0] + 2 != one[0]]
    found: dict[str, set[int]] = {}
    for number, (row, least, rows) in enumerate(began, 1):
        found |= {f"Middle of short rows {number}": {least}, f"Rows to short rows {number}": {row},
                  f"Rows added by short rows {number}": {rows - 2}}
    return found


def plain_below(s: Silhouette) -> set[int]:
    """Where the cap of a sleeve begins with a decrease, it has a plain row below that."""
    return {row - 1 for row in s.underarm() - {*s.changes("bind off")}} - {-1}


def in_sum(knitted: dict[str, Piece], text: str) -> None:
    """The stitches and rows that a finished measure is summed up from."""
    for told, *names in OF_PIECE.findall(text):
        name = "Right front" if names[1] else names[0].capitalize()
        if text.startswith(AROUND) and name in knitted:
            one(knitted[name], "Chest", int(told))
    back, sleeve = knitted.get("Back"), knitted.get("Sleeve")
    alone = re.search(r": \((\d+) stitches − \d for the seams\)", text)
    if alone and text.startswith("Finished upper arm") and sleeve:
        one(sleeve, "Upper arm", int(alone[1]))
    if alone and text.startswith("Finished width across the back") and back:
        one(back, "Across the back", int(alone[1]))
    for names in PARTS:
        rows = [re.search(rf"(\d+) {name}\b", text) for name in names]
        if all(rows) and back:
            one(back, "Rows", sum(int(row[1]) for row in rows))  # type: ignore[index]
            one(back, "Rows to armhole", int(rows[0][1]))  # type: ignore[index]
