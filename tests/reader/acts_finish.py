"""Finishing by hand and making up: ends, buttons, cords counted back, seams, what is joined."""

from __future__ import annotations

import re

from tests.reader.acts_marks import TIES, but_tied
from tests.reader.bed import need
from tests.reader.knitter import Knitter, act
from tests.reader.visible import Block
from tests.reader.worn import FRONT, LEFT, UP, cross, minus


@act("shut", "sew_shut_one", "open_ends")
def shut(k: Knitter, said: dict) -> None:
    need(not k.bed.main.full(), "not-empty", "the band is still on the bed")
    need("shut told" not in k.notes, "out-of-place", "its ends are told twice")
    k.note("shut told")
    need("Leave" in k.sentence or "binding inside" not in k.notes or "holes darned" in k.notes,
         "order", "the ends between the layers are shut in")


@act("holes_darned")
def holes_darned(k: Knitter, said: dict) -> None:
    """The yarn of the bind-off runs between the layers, and so do both its ends (geometry)."""
    need("binding inside" in k.notes and "shut told" not in k.notes, "order",
         "no ends lie between the layers, or they are shut in")
    k.note("holes darned")


@act("held_ends")
def held_ends(k: Knitter, said: dict) -> None:
    """What else holds the ends of bound-off stitches: own_pieces.py holds it to the join."""
    told = k.notes.setdefault("held ends", {})
    told[k.step.number] = f"{told.get(k.step.number, '')}{k.sentence} "  # type: ignore[attr-defined]


@act("steps_climb")
def steps_climb(k: Knitter, said: dict) -> None:
    k.note("steps climb", (said["n"], said["rows"]))


@act("rows_above")
def rows_above(k: Knitter, said: dict) -> None:
    told = k.notes.setdefault("rows above", {})
    told[k.step.number] = {said["words"]: said["rows"], said["words2"]: said["rows2"]}


@act("darn")
def darn(k: Knitter, said: dict) -> None:
    need(not k.bed.main.full(), "not-empty", "the work is still on the bed")
    k.note("darned")
    need(("each part" in k.sentence) == ("parts sewn" in k.notes), "ends",
         "the parts of a facing leave ends, and nothing else does")
    across = "binding" in k.notes and "holes darned" not in k.notes
    need(("bind-off across" in k.sentence) == across, "ends",
         "a bind-off across holes leaves ends, and nothing else does")
    need(("parts between" in k.sentence) == ("parts" in k.notes and "slits darned" not in k.notes),
         "ends",
         "slits leave ends, and nothing else does")


@act("mitre_all")
def mitre_all(k: Knitter, said: dict) -> None:
    need(said["n"] < said["n2"], "mitre", "the fabric would have nothing to give")


@act("mitre_left")
def mitre_left(k: Knitter, said: dict) -> None:
    need(k.last == "mitre_all", "out-of-place", "how much the mitre takes is said just before")
    need(not k.bed.rows, "out-of-place", "it is no act, and stands at the head")


@act("mitre_pin")
def mitre_pin(k: Knitter, said: dict) -> None:
    """What a mitre leaves is pinned when the band is off the bed, not in a step at the machine."""
    need(not k.bed.main.full(), "not-empty", "the band is still on the bed")
    need("darned" in k.notes, "out-of-place", "the band is not finished")


@act("darn_now")
def darn_now(k: Knitter, said: dict) -> None:
    """The ends at slits, before a layer shuts them in."""
    need("slit_sew" in k.told and k.bed.main.full(), "out-of-place", "the slits are not sewn here")
    k.note("slits darned")


@act("count_back")
def count_back(k: Knitter, said: dict) -> None:
    need(said["buttonhole_cords"] == k.notes.get("cords in"), "count",
         f"{k.notes.get('cords in')} cords were used")
    need(said["clips"] == k.notes.get("clips"), "count", f"{k.notes.get('clips')} clips were used")
    but_tied(k)
    k.owe("none may stay", "nothing says that none may stay")


@act("count_back_cords", "count_back_pins", "count_back_ties")
def count_back_ties(k: Knitter, said: dict) -> None:
    if " cord" in k.sentence:
        k.note("cords counted")
    if " label" in k.sentence:
        k.note("labels counted")
    k.owe("none may stay", "nothing says that none may stay")


@act("count_back_cord")
def count_back_cord(k: Knitter, said: dict) -> None:
    need(("ravel cord" in k.sentence) == ("fold_around" in {act for act, _ in k.log}), "count",
         "a ravel cord is counted where one was in")
    need("cords in" not in k.notes, "count", "the buttonhole cords are not counted")
    but_tied(k)
    k.owe("none may stay", "nothing says that none may stay")


@act("caution_in")
def caution_in(k: Knitter, said: dict) -> None:
    need(k.notes.get("threads in") in (None, TIES), "marks",
         f"the {k.notes.get('threads in')} are not taken out")
    k.paid("none may stay", "nothing is counted here")
    need(("Nothing else" in k.sentence) == ("between the ties" in k.notes), "marks",
         "whether anything stays in")
    need(("Nothing but the cord" in k.sentence) == ("cord_draw" in {act for act, _ in k.log}),
         "count", "a cord that was drawn through the hem stays, and no other")


@act("buttons", "buttons_marked")
def buttons(k: Knitter, said: dict) -> None:
    k.note("buttons", said["buttons"])
    need(bool(k.notes.get("ties")) == ("at its thread" in k.sentence), "marks",
         "the rows of the buttons are marked on a lengthwise band, and on no other")


@act("caution_buttons")
def caution_buttons(k: Knitter, said: dict) -> None:
    need(k.last in ("buttons", "buttons_marked"), "out-of-place", "no buttons are sewn on here")


@act("join_part")
def join_part(k: Knitter, said: dict) -> None:
    part = re.search(r"part (\d+) of", k.title)
    need(part and int(part[1]) == said["n"] + 1, "part", "a part is joined to the one before it")
    hung = k.notes.get("first end", ("",))[0]
    need(said["words"] == hung, "end", f"part hung from the {hung}")


# --- making up


@act("draw_hidden")
def draw_hidden(k: Knitter, said: dict) -> None:
    k.owe("same_way", "nothing is joined in this step")
    k.note("hides", said["words"])


@act("unfastened")
def unfastened(k: Knitter, said: dict) -> None:
    k.note("unfastened")


@act("zip_eased")
def zip_eased(k: Knitter, said: dict) -> None:
    fronts, zip_long, edge = (float(said[key].split(" ")[0]) for key in ("cm", "cm2", "cm3"))
    part = float(said["list"])
    need(abs(fronts - zip_long - edge) < 0.11, "zip", f"{fronts - zip_long:.1f} cm are eased in")
    need(abs(100 * edge / fronts - part) < 0.15, "zip", f"that is {100 * edge / fronts:.1f} %")
    k.note("zip", zip_long)


@act("throat")
def throat(k: Knitter, said: dict) -> None:
    """A piece over the upper end of the zip, cut before the rest is halved."""
    k.note("throat", float(said["cm"].split(" ")[0]))


@act("ribbon")
def ribbon(k: Knitter, said: dict) -> None:
    long = float(said["cm"].split(" ")[0])
    need(long >= float(str(k.notes.get("zip", 0))), "zip", "the ribbon is shorter than the zip")
    need("throat" in k.notes, "zip", "nothing is cut for the throat")


@act("foot_of_v")
def foot_of_v(k: Knitter, said: dict) -> None:
    k.note("foot of the V", said["rc"])


@act("fold_across")
def fold_across(k: Knitter, said: dict) -> None:
    k.notes.setdefault("folded", []).append(said["words"].capitalize())  # type: ignore[attr-defined]
    k.note("folded at", said["n"])


@act("fold_parts")
def fold_parts(k: Knitter, said: dict) -> None:
    need(k.notes.get("folded at", 0) < said["n"], "marks", "the upper part ends below the fold")


@act("top_either")
def top_either(k: Knitter, said: dict) -> None:
    k.note("marked edges", (said["side"],))
    k.note("top was", said["side"])


@act("turned_lie")
def turned_lie(k: Knitter, said: dict) -> None:
    """Where the cast-on edges of pieces that are turned lie on the wearer."""
    for panel, at in ((FRONT, said["side"]), (minus(FRONT), said["side2"])):
        top_right = k.notes.get("top was") == "right"
        up = next(way for way in (LEFT, minus(LEFT))
                  if cross(panel, way) == (UP if top_right else minus(UP)))
        need(at == ("right" if up == LEFT else "left"), "lies",
             "the knitting went the other way on that piece")


@act("own_named")
def own_named(k: Knitter, said: dict) -> None:
    k.note("own named")


@act("own_turned")
def own_turned(k: Knitter, said: dict) -> None:
    need("own named" in k.notes, "out-of-place", "no edge was named")
    k.note("own turned")
    need(said["side"] != said["side2"], "side", "a piece that is turned over has its sides changed")


@act("own_worn")
def own_worn(k: Knitter, said: dict) -> None:
    """The bed's left and right as the wearer has them, by the panel's facing."""
    for panel, at in ((FRONT, said["side2"]), (minus(FRONT), said["side3"])):
        way = cross(panel, UP) if said["side"] == "right" else minus(cross(panel, UP))
        need(at == ("left" if way == LEFT else "right"), "side", "the purl side faced you")
    k.note("own worn")


@act("turned", "ring_ends")
def told_with_others(k: Knitter, said: dict) -> None:
    """Held by what must be told with it."""


@act("band_covers")
def band_covers(k: Knitter, said: dict) -> None:
    k.note("covered", said["stitches"])


@act("shoulder_takes")
def shoulder_takes(k: Knitter, said: dict) -> None:
    k.note("in the shoulder", said["stitches"])


def joins(k: Knitter, blocks: list[Block]) -> None:
    """The edges that a seam joins, each with its lengths."""
    for block in blocks:
        k.joins.append((k.step.number, block.text))


@act("open_back", "sew_back", "block", "join_shoulders", "join_shoulder", "join_same", "graft",
     "join_shoulders_end",
     "leave_open", "work", "work_side", "sew", "sew_crown", "sew_side", "sew_tops", "zip_in",
     "cord_cut", "cord_draw", "caution_cord", "lower_edge", "top_edge", "sew_turned", "sew_most",
     "ends_meet")
def seam(k: Knitter, said: dict) -> None:
    side = re.search(r"while the (.*)side is open", k.sentence)
    need(not side or side[1] in ("left ", "right "), "side", "which side is open is not said")
    k.expects = lambda blocks: joins(k, blocks)
    if "in the same way" in k.sentence:
        k.owed.pop("same_way", None)
    k.seams.append((k.step.number, k.sentence, said))


@act("lay_two")
def lay_two(k: Knitter, said: dict) -> None:
    k.note("laid", tuple(said.values()))


@act("edge_begin")
def edge_begin(k: Knitter, said: dict) -> None:
    need(k.last == "lower_edge", "out-of-place", "no separate end is taken here")


@act("edge_half")
def edge_half(k: Knitter, said: dict) -> None:
    k.seams[-1][2]["half at"] = said["side"]
    need(k.last == "edge_begin", "out-of-place", "no lower edge is sewn here")


@act("edge_half_one")
def edge_half_one(k: Knitter, said: dict) -> None:
    need(k.last == "edge_half", "out-of-place", "no half loop lies here")
    need(said["n"] == k.seams[-1][2]["stitches"], "count", "another number is sewn")


@act("ends_together")
def ends_together(k: Knitter, said: dict) -> None:
    """A second end of yarn where the seam beside it took one, as long as the first side's."""
    need(k.last in ("join_same", "sew_back"), "out-of-place", "no second side is joined here")
    seams = [told for _, words, told in k.seams if "with an end of" in words]
    mine = next(told for name, told in reversed(k.log) if name in ("join_same", "sew_back"))
    need(("another" in k.sentence) == ("cm" in mine), "end", "which end it is cannot be told")
    if "cm" in mine:
        need(mine["cm"] == seams[-1]["cm"], "end", f"the first took {seams[-1]['cm']}")


@act("sew_over")
def sew_over(k: Knitter, said: dict) -> None:
    """A placket's ends over what is bound off, and what lies under the bands beside it."""
    need(said["stitches"] == said["n"] + 2 * said["n2"], "sum",
         f"{said['n']} and twice {said['n2']} stitches")
    k.note("end over", said["stitches"])


@act("end_rows")
def end_rows(k: Knitter, said: dict) -> None:
    """The rows of a band's end come out over the stitches that it is sewn to."""
    over, rows = k.notes["end over"], said["rows"]
    one, two = said["stitches"], said["n"]
    need((one + two, one + 2 * two) == (over, rows), "sum",
         f"{rows} rows go over {over} stitches")


@act("wash")
def wash(k: Knitter, said: dict) -> None:
    k.seams.append((k.step.number, k.sentence, said))


@act("pull_tight")
def pull_tight(k: Knitter, said: dict) -> None:
    """A gathered end, at once when it has been drawn through again."""
    need(k.last == "sew_crown", "out-of-place", "no end is drawn through here")
    k.note("pulled tight")


@act("sew_with")
def sew_with(k: Knitter, said: dict) -> None:
    """The seam at a gathered end is begun with the end that gathered it."""
    need(k.notes.get("pulled tight"), "out-of-place", "no end was pulled tight and fastened")
    k.note("sewn with")


@act("channel_open")
def channel_open(k: Knitter, said: dict) -> None:
    """What is heeded in a seam stands in the step that sews it, not before and not after."""
    here = " ".join(words for step, words, _ in k.seams if step == k.step.number)
    need("side seams" in here or "side and sleeve seams" in here, "order",
         "no side seam is sewn in this step")
