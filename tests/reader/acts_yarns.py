"""Yarns: threaded, cut, taken out of the feeder, left hanging; the ends that are left."""

from __future__ import annotations

import re

from tests.reader.bed import need
from tests.reader.knitter import Knitter, act
from tests.reader.needles import place


@act("thread", "thread_named")
def thread(k: Knitter, said: dict) -> None:
    k.bed.thread(said["yarn"], said["side"])
    k.yarns.append((said["yarn"], said.get("name")))
    k.owed.pop("thread again", None)


@act("thread_cord")
def thread_cord(k: Knitter, said: dict) -> None:
    need(said["yarn"] == "ravel cord", "yarn", "only the cord is a separate length")
    k.bed.thread(said["yarn"], said["side"])
    k.yarns.append((said["yarn"], None))


TAIL = 15  # [cm] a hand's length: enough to thread and to darn in (common practice, no source)


def enough(said: dict) -> None:
    """A tail that is left is said before it is cut, as long as a hand."""
    need(float(str(said["cm"]).split(" ")[0]) == TAIL, "tail", f"a tail is {TAIL} cm")


@act("cut", "cut_loop", "cut_tail")
def cut(k: Knitter, said: dict) -> None:
    yarn = said["yarn"]
    if "cm" in said and "tail" in k.sentence:
        enough(said)
    need(yarn != "ravel cord", "cord-cut", "the cord is never cut")
    end = k.notes.pop("stripes end", None)
    if end not in (None, k.bed.counter):
        k.fault("stripe", f"the last stripe was to end at row counter {end}")
    k.bed.unthread(yarn)
    if yarn != "waste yarn" and "tail" not in k.sentence:
        k.owe("tail", "how long an end is left is not said")
    if k.notes.get("loop open"):
        k.owe("tail through", "the last loop is left open")


@act("tail_through")
def tail_through(k: Knitter, said: dict) -> None:
    """The tail is there once the yarn is cut, and the loop until the tail is drawn through it."""
    k.paid("tail through", "no tail was cut")
    need(k.last == "cut_loop", "out-of-place", "the yarn is cut just before")
    need(k.notes.pop("loop open", None), "loop-open", "no last loop is held")


@act("cut_second")
def cut_second(k: Knitter, said: dict) -> None:
    need(k.notes.get("contrast") == "in work", "contrast", "no contrast yarn is in work")
    enough(said)
    k.note("contrast", "cut")
    k.owe("one yarn", "the carriage is still set to knit two yarns in a row")


@act("carriage_one")
def carriage_one(k: Knitter, said: dict) -> None:
    k.paid("one yarn", "the carriage knits one yarn already")


@act("carriage_two")
def carriage_two(k: Knitter, said: dict) -> None:
    need("two yarns" not in k.notes, "levers", "the carriage knits two yarns in a row already")
    k.note("two yarns")


@act("cut_end")
def cut_end(k: Knitter, said: dict) -> None:
    k.bed.unthread(said["yarn"])
    k.note("hand end", k.bed.carriage)
    k.owe("with this end", "an end is left, and nothing says what for")


@act("hand_end")
def hand_end(k: Knitter, said: dict) -> None:
    k.paid("with this end", "no end was left")
    need(said["side"] == k.bed.carriage, "side", f"the end hangs on the {k.bed.carriage}")


@act("tail")
def tail(k: Knitter, said: dict) -> None:
    k.owed.pop("tail", None)
    need(k.last in ("cut", "cut_tail", "tail"), "out-of-place",
         "no yarn was cut")
    if "drawn through" in k.sentence:
        k.note("gather end")
    elif "with this end" in k.sentence:
        k.note("sewing end")


@act("unthread")
def unthread(k: Knitter, said: dict) -> None:
    k.bed.unthread(said["yarn"])
    if said["yarn"] == "ravel cord":
        k.owe("both ends hang", "the cord must not be cut")
    elif said["yarn"] != "waste yarn":
        k.owe("where it hangs", "the yarn is neither cut nor left hanging")


@act("cord_stays")
def cord_stays(k: Knitter, said: dict) -> None:
    k.paid("both ends hang", "no cord was taken out of the feeder")


@act("hangs")
def hangs(k: Knitter, said: dict) -> None:
    k.paid("where it hangs", "no yarn was taken out of the feeder")
    k.bed.hangs = said["side"]
    if k.bed.out:
        k.bed.resting[k.bed.out] = said["side"]
    need(said["side"] == k.bed.carriage, "side", f"it hangs on the {k.bed.carriage}")


@act("rethread")
def rethread(k: Knitter, said: dict) -> None:
    need(k.bed.feeder is None, "feeder-full", "a yarn is in the feeder already")
    k.bed.hangs = k.bed.resting.pop(said["yarn"], None) or k.bed.hangs
    k.bed.feeder = said["yarn"]
    need(k.bed.hangs == k.bed.carriage, "side", f"the yarn hangs on the {k.bed.hangs}")


@act("rethread_side")
def rethread_side(k: Knitter, said: dict) -> None:
    need(said["side"] == k.bed.hangs == k.bed.carriage, "side",
         f"the yarn hangs on the {k.bed.hangs}, the carriage stands on the {k.bed.carriage}")
    k.bed.hangs = None


@act("wrap_new")
def wrap_new(k: Knitter, said: dict) -> None:
    """A new end laid round the held needle beside which its first row begins."""
    need(k.last in ("thread", "thread_named"), "out-of-place", "no new end was threaded")
    near = k.bed.beside(str(k.bed.carriage))
    need(near is not None and place(said["needle"]) == near, "range",
         f"beside the carriage {near} is held")
    k.bed.under = near


@act("stripes_first")
def stripes_first(k: Knitter, said: dict) -> None:
    k.note("stripes", [(said["rows"], said["yarn"], said["name"])])


@act("stripes_then")
def stripes_then(k: Knitter, said: dict) -> None:
    """All stripes after the first; each yarn is named where it is met first."""
    need(k.last == "stripes_first", "out-of-place", "the first stripe is not told")
    one = r"(\d+) rows? of the ([a-z]+ yarn)(?: \(([^()]*)\))?"
    need(re.fullmatch(rf"{one}(?:, {one})* and {one}", said["list"]), "stripe",
         f"this is no list of stripes: {said['list']!r}")
    told = [(int(rows), yarn, name) for rows, yarn, name in re.findall(one, said["list"])]
    need(sum(rows for rows, _, _ in told) == said["n"], "stripe", "the sum is another")
    stripes = [*k.notes["stripes"], *told]  # type: ignore[misc]
    named = [yarn for _, yarn, name in stripes if name]
    need(sorted(named) == sorted({yarn for _, yarn, _ in stripes}), "stripe",
         "a yarn is named twice, or not")
    k.note("stripes", stripes)


def striped(k: Knitter, row: int) -> tuple[int, str, str]:
    """How many rows the stripe has that begins above this row, its yarn, and that yarn's name."""
    first, *more = k.notes["stripes"]  # type: ignore[misc]
    names = {yarn: name for _, yarn, name in (first, *more) if name}
    at, n = first[0], 0
    while at < row:
        at, n = at + more[n % len(more)][0], n + 1
    need(at == row, "stripe", f"no stripe begins at row counter {row}")
    rows, yarn, _ = more[n % len(more)]
    return rows, yarn, names[yarn]


@act("stripe", "stripe_end")
def stripe(k: Knitter, said: dict) -> None:
    """A stripe begins where the one before it ended, with the yarn that the piece's stripes have
    there; the last may have fewer rows."""
    need(said["rc"] == k.bed.counter, "counter", f"the row counter shows {k.bed.counter}")
    need(k.last in ("thread", "thread_named", "rethread_side", "wrap_new"), "out-of-place",
         "no yarn is threaded")
    need(k.bed.feeder and k.bed.feeder != k.bed.out, "stripe", "the yarn is the same as before")
    before = k.notes.get("stripe")
    need(before is None or before == said["rc"] or int(str(before)) > said["rc"], "stripe",
         f"the stripe before it ends when the row counter shows {before}")
    k.note("stripe", said["rc"] + said["rows"])
    ends = k.sentence.endswith("up to the end.")
    if ends:
        k.note("stripes end", said["rc"] + said["rows"])
    rows, yarn, name = striped(k, said["rc"])
    need(yarn == k.bed.feeder, "stripe", f"it is of the {yarn}")
    need(k.last == "rethread_side" or name == k.yarns[-1][1], "stripe", f"its yarn is {name}")
    need(said["rows"] == rows or (ends and said["rows"] < rows), "stripe", f"it has {rows} rows")


@act("caught")
def caught(k: Knitter, said: dict) -> None:
    """A yarn that rests for long is caught at the edge: for just as long as it then rests."""
    need(k.last == "hangs", "out-of-place", "no yarn was left hanging")
    need(said["rows"] >= 4, "rows", "a yarn that rests for two rows need not be caught")


@act("spare_end")
def spare_end(k: Knitter, said: dict) -> None:
    need(k.last in ("bind_holes", "begin_hole"), "out-of-place", "no stitches are bound off here")
