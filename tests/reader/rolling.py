"""One layer of stocking stitch rolls: whoever knits it must not wait for a flat band."""

from __future__ import annotations

from tests.reader.bed import need
from tests.reader.garment_parts import attempt
from tests.reader.knitter import Knitter, act
from tests.reader.page_parts import Reading

# Sentences of seams in which a band's ends meet.
MEETS = ("ends_together", "ring_ends", "sew", "foot_of_v")
# Sentences of seams that end at the lower edges.
SIDES = ("sew", "sew_side")
ONE_LAYER = "Rows of the fold: 0 rows: one layer only."


@act("rolls")
def rolls(k: Knitter, said: dict) -> None:
    k.note("rolls", True)


@act("points_curl")
def points_curl(k: Knitter, said: dict) -> None:
    k.note("points curl", True)


@act("hide_in_roll")
def hide_in_roll(k: Knitter, said: dict) -> None:
    need(k.notes.get("rolls"), "rolls", "ends are hidden in a roll where nothing rolls")
    k.note("in roll", True)


@act("seam_of_roll")
def seam_of_roll(k: Knitter, said: dict) -> None:
    need(k.notes.get("rolls"), "rolls", "a roll is sewn where nothing rolls")
    k.note("roll sewn", True)


@act("roll_meets")
def roll_meets(k: Knitter, said: dict) -> None:
    need(k.last in MEETS, "out-of-place", "no ends of a band meet here")


@act("curled")
def curled(k: Knitter, said: dict) -> None:
    need(k.last in SIDES, "out-of-place", "no seam ends at a lower edge here")


@act("side_bare")
def side_bare(k: Knitter, said: dict) -> None:
    """The ends of rows roll to the purl side (common practice, no source)."""
    need(said["words2"] == "purl", "rolls", "sides of stocking stitch roll to the purl side")
    k.note("bare above", (said.get("rc", 0), said["words"].split(" and the ")))


@act("edge_rolls")
def edge_rolls(k: Knitter, said: dict) -> None:
    need(said["words"] in ("knit", "purl"), "rolls", "a fabric has a knit and a purl side")
    k.note("edge rolls", said["words"])


def one_layer(reading: Reading) -> set[str]:
    """The bands whose working has one layer only; of a page with one band it names none."""
    group, title, found = reading.group("Calculations"), "", set()
    bands = {k.title.split(",")[0] for k in reading.knitters}
    for block in group.blocks() if group else ():
        if block.kind == "summary":
            title = block.text
        name, _, what = title.removesuffix(": all its counts").partition(": ")
        whole = f"{what}: {block.text}" if what else block.text
        if whole == ONE_LAYER:
            found.add(name)
        if f"{title}: {block.text}" == ONE_LAYER and len(bands) == 1:
            found |= bands
    return found


def rolling(reading: Reading) -> None:
    """Each band of one layer, knitted as its swatch in stocking stitch or unswatched, is said to
    roll, and no other. That stocking stitch rolls to its knit side at a bound-off edge is common
    practice, no source."""
    single = one_layer(reading)
    log = [act for act, _ in reading.making_up.log] if reading.making_up else []
    worn = any(k.notes.get("in roll") for k in reading.knitters)
    attempt(reading, "Making up", "a roll's ends", need, not worn or "roll_meets" in log or not {
        "ends_together", "ring_ends"} & set(log), "rolls", "from which side it is sewn is not said")
    bare = any(k.notes.get("edge rolls") == "knit" for k in reading.knitters)
    attempt(reading, "Making up", "its rolled edges", need,
            ("curled" in log) == (bare and bool({*SIDES} & {*log})), "rolls",
            "from which side a seam is sewn where its lower edge rolls")
    group = reading.group("Gauge")
    gauges = [b.text for b in group.blocks()] if group else []
    for k in reading.knitters:
        name = k.title.split(",")[0]
        one = name in single
        plain = any(name.lower() in text.lower().partition(":")[0]
                    and ("in stocking stitch" in text or "not swatched" in text
                         or "no separate swatch" in text)
                    for text in gauges)
        hemmed = any(act in ("hang_first_row", "latch") for act, _ in k.log)
        attempt(reading, k.title, "its lower edge", need, not (hemmed and k.notes.get(
            "edge rolls")), "rolls", "a hem or rib keeps its lower edge flat")
        flat = any(act in ("latch", "turn_in", "turn_behind") for act, _ in k.log)
        if k.sections:
            attempt(reading, k.title, "it rolls", need,
                    bool(k.notes.get("rolls")) == (one and plain and not flat), "rolls",
                    f"one layer: {one}, stocking stitch: {plain}, kept flat: {flat}")
            worn = k.notes.get("rolls") and "collar" not in name.lower()
            attempt(reading, k.title, "its ends", need, bool(k.notes.get("in roll")) == bool(worn),
                    "rolls", "a roll shows the purl side: its ends lie inside it")
            joins = any(act == "join_part" for act, _ in k.log)
            attempt(reading, k.title, "its seam", need, bool(
                k.notes.get("roll sewn")) or not (worn and joins), "rolls",
                "a roll shows the purl side: its seam lies inside it")
            grown = any(edge[2] == "increase" for edge in k.edges)
            attempt(reading, k.title, "its points", need,
                    bool(k.notes.get("points curl")) == bool(k.notes.get("rolls") and grown),
                    "rolls", "what keeps the points of one layer flat is not said, or has none")
