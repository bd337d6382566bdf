"""Words for shaping: the same change on several rows, or a list of rows where edges differ."""

from __future__ import annotations

from collections.abc import Iterable, Sequence
from functools import lru_cache
from itertools import groupby, pairwise, takewhile

from ..machine.set_up_steps import Carriage, HangWeights, SetCarriage
from ..machine.steps import Side
from ..machine.trace import State
from ..markup.html import aside_link, esc, items, table
from .dart_instructions import dart_text, how_text
from .explained import why
from .held import put_back_text
from .instruction import NEXT
from .set_up_instructions import KEEP_UNDER, claws_text, held_weights_text, sets_hold
from .shaped_edges import DARTS, Act, Done, Event, ShapingBlock
from .turns import beside, turn_text
from .words import counted, from_to, joined, needles_text, needles_toward, stitches, upto_text

_MANY = 4  # changes of a kind after which the stitches after each are told
_FEW = 8  # changes of a kind whose row counters are all named in the sentence
_SPANS = 3  # rates that are named one after another; more stand in turn, or gap by gap


def block_text(block: ShapingBlock, where: str) -> tuple[str, str]:
    """Return the instructions of a block: its text, and what follows it, both HTML.

    `where` names piece and section, for the label of a list of rows.
    """
    first = block.events[0]
    rows = _rows_before(first) if block.mixed else ""
    text, more = _rows_one_by_one(block, where) if block.mixed else _same(block.events)
    return f"{rows}{_set_first(block.events)}{text}{_set_after(block.events)}", more


def _set_first(events: Sequence[Event]) -> str:
    """The lever that must be set before needles are held."""
    return "<b>Set the carriage to hold.</b> " if any(sets_hold(e.sets) for e in events) else ""


def _set_after(events: Sequence[Event]) -> str:
    """Claw weights as soon as needles are held; the lever when none is held any more."""
    text = ""
    hung = [(s, e) for e in events for s in e.sets if isinstance(s, HangWeights)]
    if hung:
        first, event = hung[0]
        moved = bool(event.before.claws)
        few = all(act.done is Done.DECREASE for act in event.acts)
        text += f" {claws_text(first.needles, moved=moved)}" if len(events) == 1 else (
            f" When {stitches(len(first.needles))} are left, <em>hang claw weights</em> under "
            "them." if few
            else f" When the first needles are held, <em>{'move the' if moved else 'hang'} claw "
            f"weights</em> under the stitches in work.{KEEP_UNDER}")
        text += "" if moved else held_weights_text(event.after)
    if back := put_back_text(events):
        text += f"{NEXT}{back}"
    if any(isinstance(s, SetCarriage) and s.to is Carriage.KNIT for e in events for s in e.sets):
        text += f"{NEXT if back else ' '}When no needle is held any more, set the carriage to knit."
    return text


def _same(events: tuple[Event, ...]) -> tuple[str, str]:
    first = events[0]
    many = len(events) > 1
    done = joined(_act_text(act, many) for act in _both_ends(first.acts))
    done = f"<b>{done[:1].upper()}{done[1:]}</b>"
    of_chart = " in the stitch pattern" if first.charted else ""
    between = f"Each time, first knit{of_chart} up to that number."
    text = f"{done}<i> {_when(events)}</i>. {between}" if many else f"{_up_to(first)}{done}."
    text += "".join(f" {sentence}" for sentence in dict.fromkeys(
        _how(act) for act in first.acts) if sentence)
    text += _pushed_back(events)
    if any(act.done is Done.HOLD for act in first.acts):
        text += _wrap_text(events)
    return text, _every_row(events) if len(events) > _MANY else ""


def _up_to(event: Event) -> str:
    """The rows before what is done once."""
    if not event.rows:
        return f"Before the next row, the row counter at <em>{event.counter}</em>: "
    of_chart = " of the stitch pattern" if event.charted else ""
    side = f"; the carriage is then on the {event.after.side.value}"
    return f"<b>Knit {counted(event.rows, 'row')}{of_chart}</b>{upto_text(event.counter, side)}. "


def _rows_before(first: Event) -> str:
    """The plain rows before a list of rows, so that none is hidden in its first line; and the turn
    after them where needles are put back next and none is held beside the carriage."""
    if not first.rows:
        return ""
    done, near = {act.done for act in first.acts}, beside(first.before, first.after.side)
    turns = near is not None and Done.BACK in done and Done.HOLD not in done
    return f"{_up_to(first).rstrip()}{turn_text(near.name)} " if near and turns else _up_to(first)


def _when(events: Sequence[Event]) -> str:
    """At which row counters: each where they are few, else how far they are apart after the first
    ones."""
    first, shows = events[0], [str(event.counter) for event in events]
    shows[0] += " (now)" * (not first.rows)
    if len(events) <= _FEW:
        return f"when the row counter shows <em>{joined(shows)}</em>"
    spans = [(rows, len(list(same))) for rows, same in groupby(e.rows for e in events[1:])]
    alone = 0
    if len(spans) > _SPANS:
        then = _in_turn([e.rows for e in events[1:]])
    else:
        alone = sum(1 for _ in takewhile(lambda span: span[1] == 1, spans))
        then = joined(_every(rows, times) for rows, times in spans[alone:])
    return (f"when the row counter shows <em>{joined(shows[:1 + alone])}</em>, then {then}, up to "
            f"<em>{shows[-1]}</em>")


def _in_turn(gaps: Sequence[int]) -> str:
    """Gaps of which more than a few differ from the one before: two or three that take turns, or
    each of them."""
    for many in (2, 3):
        if len(gaps) > many and all(gap == gaps[n % many] for n, gap in enumerate(gaps)):
            after = joined(f"after {counted(gap, 'row')}" for gap in gaps[:many])
            return f"{len(gaps)} times, {after} in turn"
    return f"after {joined(map(str, gaps))} rows"


@lru_cache(maxsize=256)
def _every(rows: int, times: int) -> str:
    if times == 1:
        return f"once after {counted(rows, 'row')}"
    return f"after every {'row' if rows == 1 else counted(rows, 'row')} ({times} times)"


def _every_row(events: Sequence[Event]) -> str:
    """Every row with the stitches after it, so that a missed change is found at once."""
    rows = (f"<b>{e.counter}</b> {len(e.after.loaded - e.after.holding)}" for e in events)
    return ("<p><i>Each line has the <em>row counter</em>, then the stitches in work after the "
            "shaping there:</i></p>"
            + items(rows, "wb-rows"))


class _Ends:
    """The same act at both ends, told once."""

    def __init__(self, left: Act, right: Act) -> None:
        self.left, self.right = left, right


def _both_ends(acts: tuple[Act, ...]) -> list[Act | _Ends]:
    """Acts that are alike at left and right become one."""
    out: list[Act | _Ends] = []
    for act in acts:
        before = out[-1] if out else None
        if isinstance(before, Act) and before.side is Side.LEFT and act.side is Side.RIGHT and \
                (before.done, before.stitches, before.moved) == (act.done, act.stitches, act.moved):
            out[-1] = _Ends(before, act)
        else:
            out.append(act)
    return out


def _act_text(act: Act | _Ends, many: bool) -> str:
    """What is done where; with the needles, where it is done once only."""
    if isinstance(act, _Ends):
        where = "" if many else f" ({_emptied(act.left)} and {_emptied(act.right)})"
        return f"{act.left.done.value} {stitches(act.left.stitches)} at each end{where}"
    if act.done is Done.MARK:
        edges = "both edges" if len(act.needles) > 1 else "the edge"
        return f"tie a thread into {edges}, beside {needles_text(act.needles)}"
    assert act.side is not None
    where = "" if many else f" ({_emptied(act)})"
    return f"{act.done.value} {stitches(act.stitches)} at the {act.side.value}{where}"


def _emptied(act: Act) -> str:
    """The needles of an act from the edge inward; of a decrease those that are emptied."""
    assert act.side is not None
    needles = act.needles
    if act.done is Done.DECREASE:
        needles = needles.rightmost(act.stitches) if act.side is Side.RIGHT else \
            needles.leftmost(act.stitches)
    return needles_toward(needles, act.side.other)


METHOD_ANCHORS = {Done.DECREASE: "way-decrease", Done.INCREASE: "way-increase",
                  Done.BIND_OFF: "way-bind-off", Done.HOLD: "way-hold"}


@lru_cache(maxsize=256)
def _fashioned(moved: int, stitches_gone: int) -> str:
    if moved == 1:
        return ("Put the end stitch onto the stitch beside it, and push its needle back to "
                "non-working position.")
    again = ", as many times over" if stitches_gone > 1 else ""
    return (f"Fully fashioned: move the {moved} end stitches one needle inward{again}. "
            f"{aside_link('#' + METHOD_ANCHORS[Done.DECREASE], 'how to decrease')}"
            + why("The innermost of them then lies on one needle with the stitch beside it."))


def _pushed_back(events: Sequence[Event]) -> str:
    """That needles whose stitches are moved come back, where the carriage passes by what stands
    fully forward."""
    passes = any(act.done is Done.DECREASE and event.after.carriage is Carriage.HOLD
                 for event in events for act in event.acts)
    return (" <em>The carriage is set to hold:</em> push the needles of the moved stitches back to "
            "upper working position.") * passes


def _how(act: Act) -> str:
    if act.done is Done.DECREASE:
        return _fashioned(act.moved, act.stitches)
    if act.done in METHOD_ANCHORS and act.done is not Done.HOLD:
        return aside_link(f"#{METHOD_ANCHORS[act.done]}", f"how to {act.done.value}")
    return ""


# Rows one by one

_LEFT_FIRST = " In a line with two acts do the left one first."


def _rows_one_by_one(block: ShapingBlock, where: str) -> tuple[str, str]:
    events = block.events
    sides = [side for side in Side if any(act.side is side for e in events for act in e.acts)]
    darts = how_text(events)
    at = f"the {sides[0].value} edge{' and its dart' * bool(darts)}" if len(sides) == 1 else \
        f"both edges{' and their darts' * bool(darts)}"
    of_chart = " in the stitch pattern" if events[0].charted else ""
    two = any(len({act.side for act in event.acts} & {*Side}) > 1 for event in events)
    text = (f"<b>Shape {at} row by row,</b><i> from row counter <em>{events[0].counter}</em> "
            f"to <em>{events[-1].counter}</em>. Do line {events[0].counter} now. Then knit"
            f"{of_chart} up to the number of each line, and do that line.{_LEFT_FIRST * two}</i>")
    held = any(act.done is Done.HOLD for e in events for act in e.acts)
    moved = sorted({act.moved for e in events for act in e.acts if act.done is Done.DECREASE})
    usual = moved[-1] if moved else 0
    text += f" {_fashioned(usual, 1)}" if usual else ""
    text += " Where few stitches are left, fewer are moved: the line says so." if moved[1:] else ""
    text += _pushed_back(events)
    text += darts
    text += _wrap_text(events) if held else ""
    head = ("Row counter, carriage", *(f"At the {side.value}" for side in sides), "Then in work")
    label = esc(f"{where}, rows {events[0].counter} to {events[-1].counter}")
    return text, table(label, head, (_row(event, sides, usual) for event in events))


def _row(event: Event, sides: Iterable[Side], usual: int) -> tuple[str, ...]:
    return (f"<b>{event.counter}</b>, {event.after.side.value}",
            *(_cell(event, side, usual) for side in sides), in_work_text(event.after))


def _cell(event: Event, side: Side, usual: int) -> str:
    done = (dart_text(act) if act.done in DARTS else
            f"{act.done.value} {act.stitches}: {_emptied(act)}{_fewer(act, usual)}"
            for act in event.acts if act.side is side)
    return "; ".join(done) or "–"


def _fewer(act: Act, usual: int) -> str:
    """What to move where it is not as many stitches as on the other lines."""
    if act.done is not Done.DECREASE or act.moved == usual:
        return ""
    return " (move the end stitch only)" if act.moved == 1 else f" (move {act.moved} only)"


def in_work_text(state: State) -> str:
    """The stitches that the carriage knits and where they lie: "17, R13 to R29"."""
    work = state.loaded - state.holding
    return f"{len(work)}, {from_to(work)}" if work else "0"


def _wrap_text(events: Sequence[Event]) -> str:
    """How the yarn is brought round the first held needle, so that no hole is left."""
    by_carriage = any(_is_wrapped(act, event) for event in events for act in event.acts)
    by_hand = [event for event, after in pairwise(events)
               if any(_needs_wrap(act, event, after) for act in event.acts)]
    text = ""
    if by_carriage:
        text += why("One needle held on the carriage's own side is wrapped by the carriage as it "
                    "goes back.")
    if by_hand:
        shown = joined(str(e.counter) for e in by_hand)
        text += (f" After {shown}: knit 1 row, and before the carriage goes back lay the yarn "
                 "under the held needle next to those in work, so that no hole is left.")
    return f"{text} {aside_link(f'#{METHOD_ANCHORS[Done.HOLD]}', 'how to hold')}"


def _is_wrapped(act: Act, event: Event) -> bool:
    """True for a single needle held where the carriage stands: the yarn goes round it by itself."""
    return act.done is Done.HOLD and act.stitches == 1 and act.side is event.after.side


def _needs_wrap(act: Act, event: Event, after: Event) -> bool:
    """True for needles held away from the carriage, where the next row holds no single one."""
    if act.done is not Done.HOLD or act.side is event.after.side:
        return False
    return after.rows != 1 or not any(
        _is_wrapped(other, after) and other.side is act.side for other in after.acts)
