"""The counts of what a piece begins with, ends with or has cut into it, as the bed knitted it.

Hems and ribs, crowns, straps, pockets, the sides of a neck and what is bound off first. A hem's
rows are those of its outer layer, as the page says; the rest is geometry.
"""

from __future__ import annotations

from itertools import groupby, pairwise, takewhile

from tests.reader.knitter import Knitter
from tests.reader.silhouettes import LESS, SIDES, Silhouette

OTHER = {"left": "right", "right": "left"}
APART = ("waste yarn", "ravel cord")  # yarns that do not stay in the work


def parts_of(k: Knitter, s: Silhouette) -> dict[str, set[int]]:
    """What these counts may be, by their labels; nothing where no bed can know it."""
    foot, side = foot_rows(k), neck_side(s)
    around = set(s.neck()[1])
    first = first_off(s)
    return {
        "Hem rows": foot, "Rib rows": foot,
        "Stitches above the rib": {many for at, *_, many in k.bed.seen if at == zeroed(k)},
        "Cast on": {k.bed.seen[0][4]},
        "Neck side": side, "Neck centre": {many - 2 * one for many in around for one in side
                                           if k.divisions},
        "Neck bind off": first_at_neck(s),
        "Armhole bind off": first, "Underarm stitches": first,
        "Top rows": strap_rows(s),
        "Raglan rows": raglan_rows(s) if k.title.startswith("Sleeve") else set(),
        "Strap": {k.bed.seen[-1][4]}, "Strap rows": strap_rows(s), "Cap rows": cap_rows(s),
        "Crown rows": crown_rows(k, s), "Rows to crown": crown_begins(k, s),
        "Neck rows": front_neck_rows(s),
        "Drawn up": {sum(part[-1][4] for part in s.parts)},
        "Pocket stitches": {said["stitches"] for act, said in k.log if act == "pocket_cord"},
        "Pocket row": pocket_row(k),
        "Lining rows": {s.top}, "Stitches": {k.bed.seen[0][4]},
    }


def zeroed(k: Knitter) -> int:
    """How many stretches of rows lie before row 0."""
    return int(str(k.notes.get("zeroed", 0)))


def foot_rows(k: Knitter) -> set[int]:
    """The rows of a hem's or rib's outer layer: those at one setting up to its fold.

    A picot has no row for the fold. Two beds first knit what their rib hangs from.
    """
    acts = [act for act, _ in k.log]
    below = [(dial, rows) for dial, rows, yarn, _ in k.bed.done[:zeroed(k)] if yarn not in APART]
    layers = [[rows for _, rows in same] for _, same in groupby(below, key=lambda one: one[0])]
    if not layers:
        return set()
    if "second_up" in acts:
        return {sum(layers[-1])}
    outer, *others = layers
    joined = "knit_join" in acts and sum(outer) not in map(sum, others)
    return {outer[0] if joined and len(outer) > 1 else sum(outer)}


def halves(s: Silhouette) -> list[list[tuple[int, str, str, int, int]]]:
    """The changes at edges after the work divides, of either half."""
    after = [edge for edge in s.k.edges if edge[4] >= s.k.divisions[0]]
    made: list[list[tuple[int, str, str, int, int]]] = [[]]
    for edge in after:
        if made[-1] and edge[4] < made[-1][-1][4]:
            made.append([])
        made[-1].append(edge)
    return made


def taken_off(k: Knitter) -> set[int]:
    """The stitches that go off the bed together, bound off or on waste yarn."""
    return {said["stitches"] for act, said in k.log if act in ("off_waste", "bind_all")}


def neck_side(s: Silhouette) -> set[int]:
    """How many stitches go at either side of a neck, beside its centre or what is bound off first.
    """
    if s.k.divisions:
        inner = "right" if s.parts[0][-1][2] < s.parts[-1][-1][2] else "left"
        first = halves(s)[0]
        gone = [(many, row) for _, side, _, many, row in first if side == inner]
        slit = bool(gone) and gone[0][1] > s.k.divisions[0] + 2  # its centre goes at the neck
        line = "neck line" in s.k.notes  # a row is knitted over its first stitch
        return {sum(many for many, _ in gone[slit:]) - line}
    side = {"Right": "left", "Left": "right"}.get(s.k.title.split(" ")[0], "")
    gone = [(way, many) for _, at, way, many, _ in s.k.edges if at == side and way in LESS]
    if not gone or gone[0][0] != "bind off":
        return set()
    return {sum(many for _, many in gone[1:])}


def first_at_neck(s: Silhouette) -> set[int]:
    """The stitches that a front binds off first at its neck, or either half of one with a slit."""
    side = {"Right": "left", "Left": "right"}.get(s.k.title.split(" ")[0], "")
    edges = halves(s)[0] if s.k.divisions else s.k.edges
    if s.k.divisions:
        side = "right" if s.parts[0][-1][2] < s.parts[-1][-1][2] else "left"
    gone = [many for _, at, way, many, _ in edges if at == side and way in LESS]
    return set(gone[:1])


def front_neck_rows(s: Silhouette) -> set[int]:
    """The rows of a neck from where its shaping begins, or from where the work divides for it.

    Below a neck that binds off first lies a slit; either half may be shaped a row after the neck
    begins.
    """
    if not s.k.divisions:
        return {s.top - row for row in s.neck()[0]}
    opened = s.k.divisions[0]
    inner = "right" if s.parts[0][-1][2] < s.parts[-1][-1][2] else "left"
    (way, row), *_ = [*((way, row) for _, side, way, _, row in halves(s)[0] if side == inner),
                      ("", opened)]
    slit = way == "bind off" and row > opened + 2
    return {s.top - row, s.top - row + 1} if slit else {s.top - opened}


def first_off(s: Silhouette) -> set[int]:
    """The stitches bound off at an underarm; nothing where the designer gives them in steps."""
    found = set()
    for side in SIDES:
        after = [(way, many) for _, at, way, many, row in s.k.edges
                 if at == side and way in LESS and row >= min(s.underarm(), default=0)]
        bound = [many for _, many in takewhile(lambda one: one[0] == "bind off", after)]
        found |= set(bound) if len(bound) == 1 else set()
    return found


def strap_rows(s: Silhouette) -> set[int]:
    """The rows after the last decrease."""
    return {s.top - row for row in s.changes(*LESS)[-1:]}


def raglan_rows(s: Silhouette) -> set[int]:
    """The rows of a sleeve from the underarm to the last decrease: a row or a strap lies above."""
    last = max(s.changes(*LESS), default=0)
    return {last - row for row in sorted(s.underarm())[:1]}


def cap_rows(s: Silhouette) -> set[int]:
    """The rows from the underarm to the top; one more below a first decrease."""
    plain = {row - 1 for row in s.underarm() - {*s.changes("bind off")}}
    begins = sorted(s.underarm() | plain)[:1]  # the second side may be shaped a row later
    return {s.top - row for row in begins}


def pocket_row(k: Knitter) -> set[int]:
    """The row counter where a pocket's stitches are knitted by hand."""
    found, counter = set(), 0
    for act, said in k.log:
        counter = said["rc"] if act == "knit" else counter
        found |= {counter} if act == "pocket_cord" else set()
    return found


def crown_begins(k: Knitter, s: Silhouette) -> set[int]:
    """After which row a crown begins: with fewer stitches, or at another dial."""
    work = k.bed.done[zeroed(k):]
    looser = [until for (dial, _, _, until), (other, *_) in pairwise(work) if dial != other]
    return {*s.narrows(), *looser[:1], *s.changes(*LESS)[:1]}


def crown_rows(k: Knitter, s: Silhouette) -> set[int]:
    """The rows of a crown, without those over loops that are gathered."""
    over = sum(said["rows"] for act, said in k.log if act == "knit_doubled")
    return {s.top - over - row for row in crown_begins(k, s)}
