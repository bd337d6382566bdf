"""With what a seam is sewn, and where it begins: common practice, where no source is named."""

from __future__ import annotations

import re

from tests.reader.bed import need
from tests.reader.garment_parts import attempt
from tests.reader.knitter import Knitter, act
from tests.reader.page_parts import Reading

SIDE = re.compile(r"\b(side seams?|side and sleeve seams?|panels together)\b")
# Times a seam: Diana Sullivan, "Mobius scarf: waste knitting", 2015, for a sewn row (W3-030).
TIMES = "three"


@act("seam_yarn")
def seam_yarn(k: Knitter, said: dict) -> None:
    k.note("seam yarn")


@act("seam_end")
def seam_end(k: Knitter, said: dict) -> None:
    need(k.last == "seam_yarn", "out-of-place", "which yarn it is an end of is said just before")
    need(said["words"] == TIMES, "end", f"a seam takes {TIMES} times its length")
    k.note("seam end")


@act("hem_inside", "hem_last")
def hem_inside(k: Knitter, said: dict) -> None:
    """What is heeded in a seam stands in the step that sews it."""
    here = " ".join(words for step, words, _ in k.seams if step == k.step.number)
    need(SIDE.search(here) or "back seam" in here, "order", "no such seam is sewn in this step")
    k.note("hem layers")


@act("hem_rows")
def hem_rows(k: Knitter, said: dict) -> None:
    need(k.last in ("hem_inside", "hem_last", "sew_hem"), "out-of-place", "no hem is sewn here")
    k.note("hem rows told")


@act("hem_shut")
def hem_shut(k: Knitter, said: dict) -> None:
    """Panels alone have sides that lie in no seam."""
    need("panels together" in " ".join(words for step, words, _ in k.seams
                                           if step == k.step.number), "order", "no panels are sewn")


@act("strap_outer")
def strap_outer(k: Knitter, said: dict) -> None:
    """An open stitch beside a seam: the seam takes bars, and nothing else holds it."""
    need("strap's rows" in " ".join(words for step, words, _ in k.seams if step == k.step.number),
         "out-of-place", "no strap is sewn here")
    k.note("outer held")


@act("underarms")
def underarms(k: Knitter, said: dict) -> None:
    need(k.last == "sew" and "raglan seams" in k.seams[-1][1], "out-of-place", "no raglan is sewn")
    step, words, slots = k.seams[-1]
    k.seams[-1] = step, f"{words} {k.sentence}", slots


@act("leg_left")
def leg_left(k: Knitter, said: dict) -> None:
    need("raglan seams" in " ".join(words for step, words, _ in k.seams if step == k.step.number),
         "out-of-place", "no raglan is sewn here")
    k.note("leg left")


@act("slit_yarn")
def slit_yarn(k: Knitter, said: dict) -> None:
    need("slit between the marks stays open" in k.seams[-1][1], "out-of-place", "no slit is left")


@act("tops_down")
def tops_down(k: Knitter, said: dict) -> None:
    need(k.last == "work", "out-of-place", "no pocket's top is worked here")
    k.note("tops down", said["cm"])


@act("quarter_end")
def quarter_end(k: Knitter, said: dict) -> None:
    need("quarters together" in k.seams[-1][1], "out-of-place", "no quarters are sewn here")


@act("tops_twice")
def tops_twice(k: Knitter, said: dict) -> None:
    need(k.last == "tops_down", "out-of-place", "no pocket's top is sewn down here")


def pocket_ends(reading: Reading) -> None:
    """Each end of a pocket's top takes as much yarn to sew it down as to sew it shut: both go along
    its depth (geometry)."""
    making = reading.making_up
    shut = {said["cm"] for k in reading.knitters for name, said in k.log
            if name == "shut" and k.title.startswith("Pocket top")}
    if making and shut:
        attempt(reading, "Making up", "", need, {making.notes.get("tops down")} == shut, "end",
                f"with what a pocket top's ends are sewn down is not said: {shut}")


def seams_told(reading: Reading) -> None:
    """A seam has a yarn and a length, and a folded hem's two layers an order."""
    making = reading.making_up
    if not making:
        return
    pocket_ends(reading)
    attempt(reading, "Making up", "", need, not making.joins or (
        "seam yarn" in making.notes and "seam end" in making.notes), "left-out",
        "with what yarn seams are sewn, and how long an end, is not said")
    hems = any({"hang_first_row", "knit_join"} <= {name for name, _ in k.log}
               for k in reading.knitters)
    names = {name for name, _ in making.log}
    sewn = " ".join(words for _, words, _ in making.seams)
    owed = hems and not names & {"channel_open", "sew_turned", "sew_most"} and (
        SIDE.search(sewn) or ("back seam" in sewn and "raglan" not in sewn))
    attempt(reading, "Making up", "", need, bool(owed) == ("hem layers" in making.notes),
            "left-out", "in what order a hem's layers are sewn is said where there is a hem")
    attempt(reading, "Making up", "", need, not {"hem_inside", "hem_last", "sew_hem"} & names
            or "hem rows told" in making.notes, "left-out",
            "which layer of a hem the rows of its seam count is not said")
    attempt(reading, "Making up", "", need, ("quarters together" in sewn) == (
        "quarter_end" in names), "left-out", "where a seam between quarters ends is not said")
    attempt(reading, "Making up", "", need, ("between the marks stays open" in sewn) == (
        "slit_yarn" in names), "left-out", "how the yarn comes over an open slit is not said")
    lower = any(line.startswith("Back seam, from the lower") for _, line in making.joins)
    attempt(reading, "Making up", "", need, not (lower and "from the crown" in sewn), "side",
            "a seam begins at one end, and its rows are counted from the other")
    attempt(reading, "Making up", "", need,
            bool(hems and "panels together" in sewn) == ("hem_shut" in names), "left-out",
            "what becomes of a hem's ends at the outer sides of panels is not said")
    attempt(reading, "Making up", "", need,
            ("strap's rows" in sewn) == ("outer held" in making.notes), "left-out",
            "what holds the shoulders' stitches that no strap is sewn to is not said")
    points = any(name == "narrow_one" for k in reading.knitters for name, _ in k.log)
    attempt(reading, "Making up", "", need,
            (points and "raglan" in sewn) == ("leg left" in making.notes), "left-out",
            "what a seam takes where one stitch is left for it and for the neck is not said")
