"""What is done in each task of making up, in words."""

from __future__ import annotations

from collections.abc import Callable, Mapping, Sequence
from itertools import groupby

from ..catalogue.edge_roles import EdgeRole
from ..catalogue.methods import GRAFT, SEWN, TOGETHER
from ..core.counts import Unit
from ..markup.html import esc
from ..shape.tasks import Blocked, Task, TaskKind
from .bands_named import (
    RINGS,
    ends_how,
    ends_in_seam,
    is_second,
    like_first_text,
    named,
    pulled_clear,
    rolled,
)
from .crown_tasks import FOLD_IN, SEAM_REST, crown_seam, draw_lower, draw_up, turn_up
from .cut_lengths import to_sew
from .declared import bands_worked, join_sewn
from .explained import why
from .sleeve_tasks import TOPS, TURNED, caps, sides, tops_to_sides
from .slit_foot import foot_sewn

BLOCKED = {Blocked.PIECES: "<b>Block the pieces</b> to the measurements of the schematic and let "
                           "them dry.",
           Blocked.PANELS: "<b>Block the panels</b> to the measurements of the schematic and let "
                           "them dry.",
           Blocked.ONE: "<b>Block the work</b> to its measurements and let it dry.",
           Blocked.TRIANGLE: "<b>Block the shawl</b>: pin the long edge straight, then the tip, "
                             "then both sides, and let it dry."}
OPEN_HEM = (" At the body's hem sew the side seams through the outer layer alone, so that the "
            "channel stays open from front to front.")
# The purl side of a rolled edge shows: bands/rolled.md.
CURLED = (" Where a lower edge rolls, sew the rows of the roll from the purl side, and hide the "
          "ends there inside it.")
# Common practice, no source: mattress-seam-by-rows.md shows it.
HEMMED = why("Where a hem is folded, begin inside: sew its inner layers from their top down to the "
             "fold, then the outer ones up. The row counts listed here count a hem's outer layer "
             "only.")
# What no seam closes: common practice, no source.
OUTER_SIDES = (" At the two outer sides sew the hem's layers to each other, from the top down to "
               "the fold.")
OVER_HEMS = (TaskKind.SIDES, TaskKind.PANELS)
# What is done to shoulders, and what is added where the verb alone does not name the way.
JOINED = {TOGETHER.name: ("Join", " Hang both edges on the same needles, anywhere clear of the "
                                  "carriage, right sides together. Bind them off as one."),
          GRAFT.name: ("Graft", ""), SEWN.name: ("Back-stitch", "")}


def task_text(group: Sequence[Task]) -> str:
    """Return the sentences, HTML, of a step that tells a `group` of tasks; acts are bold.

    They are "" for a band on an edge that the source describes.
    """
    task = group[-1]
    if task.kind is TaskKind.BAND:
        return _bands(group)
    if task.kind is TaskKind.BLOCK:
        assert task.blocked is not None
        return BLOCKED[task.blocked]
    text = _TEXTS[task.kind]
    hem = OPEN_HEM if task.open_hem else HEMMED * (task.hemmed and task.kind in OVER_HEMS)
    if task.hemmed and task.kind is TaskKind.PANELS:
        hem += OUTER_SIDES
    ends = ends_in_seam(task.bands) if task.kind in RINGS else ""
    return (text if isinstance(text, str) else text(task)) + hem + ends + (
        CURLED * (task.curled and not is_second(task)))


def _bands(group: Sequence[Task]) -> str:
    """Bands that are worked one after the other, and what of theirs is sewn at once."""
    task, bands = group[0], [band for task in group for band in task.bands]
    match bands[0].role:
        case EdgeRole.POCKET:
            which = "each" if task.each else "it"
            end = f" with about {to_sew(bands[0].end)} of main yarn" if bands[0].end else ""
            return (f"<b>Work the {named(bands, task.each)}</b> on the stitches that wait on the "
                    f"cord{'s' * task.each}. Then <b>sew both ends of {which} down,</b> each{end}, "
                    "along a column of the garment's stitches. Make two stitches on top of each "
                    "other at each corner.")
        case EdgeRole.PLACKET:
            return f"<b>Work the {named(bands, True)}</b>, one on either edge of the slit."
        case EdgeRole.CUFF | EdgeRole.BRIM | EdgeRole.HEM as role:
            return f"<b>Work the {named(bands)}</b> on {_WHILE_OPEN[role]} is open."
        case EdgeRole.ARMHOLE:
            return (f"<b>Work the {named(bands, True)} flat</b>, while the side seams are still "
                    "open.")
        case EdgeRole.OUTLINE:
            return bands_worked(bands)
        case None:
            return ""
    if slits := [top for top in task.tops if top.role is EdgeRole.PLACKET]:
        return (f"<b>Work the {named(bands)}</b>, which begins and ends over "
                f"{'half' if task.half else 'all'} of the top of each {named(slits)}.")
    if not task.waits and task.roles == (EdgeRole.NECK,):
        return f"<b>Along the open neck, between the neck marks, work the {named(bands)}</b>."
    return f"<b>Work the {_at_front(group)}</b>{', before the other seams' * task.first}."


_WHILE_OPEN = {EdgeRole.CUFF: "each lower edge while its side seam",
               EdgeRole.BRIM: "the lower edge while the back seam",
               EdgeRole.HEM: "the lower edge while the left side"}


def _at_front(group: Sequence[Task]) -> str:
    """The bands of neck and fronts in their order."""
    called = [named(list(bands), role is EdgeRole.FRONT) for role, bands in groupby(
        (band for task in group for band in task.bands), lambda band: band.role)]
    half = " over half of the top of each" * (group[-1].half and len(called) > 1)
    return ", then the ".join(called) + half


def _sew_off(task: Task) -> str:
    """An edge of one piece, off the waste yarn."""
    each, title = "each " if task.each else "the ", esc(task.title.lower())
    across = " Lead the yarn loosely across each ladder." * task.ladders
    if task.lower:
        assert task.half_at is not None
        return (f"<b>Back-stitch the lower edge of {each}{title}:</b> {task.stitches} stitches "
                f"along the ravel cord, with an end about {task.end} long. Begin at either end of "
                "the edge, and leave a hand's length hanging there. With the purl side up and this "
                f"edge towards you, row 1 ended at the {task.half_at.value}, in a half loop. It "
                "lies away from the yarn's tail, and is the first or the last of the "
                f"{task.stitches}.{across} Then draw the cord out.")
    where = " at either side of its opening" * task.opened
    yarn = "the ends that were left there" if task.opened else "the end that was left there"
    if task.until:
        return (f"<b>Back-stitch both short sides of {each}{title} off the waste yarn,</b> from "
                "one end of the long edge round the tip to the other: "
                f"{Unit.STITCHES.of(task.stitches)}. Sew loosely, until the edge measures "
                f"{task.until}. Use about {task.end} of yarn, in lengths that you can sew with. "
                "Then take the waste yarn out.")
    return (f"<b>Back-stitch the top of {each}{title} off its waste yarn:</b> "
            f"{Unit.STITCHES.of(task.stitches)}{where}, with {yarn}.{across} "
            "Then take the waste yarn out.")


def _linings(task: Task) -> str:
    return (f"<b>Lay the pocket lining{'s' * task.each} down inside and sew round:</b> up a "
            f"column of "
            "stitches at either edge, along a row below, so that nothing shows outside.")


def _shoulders(task: Task) -> str:
    verb, how = JOINED[task.method]
    if is_second(task):
        return f"{pulled_clear(task)}<b>{verb} the left shoulder</b> {like_first_text(task)}"
    which, each, left = ("right shoulder", "", " Leave the left one open.") if task.leaves else (
        "shoulders", "each ", "")
    return (f"<b>{verb} the {which}</b> stitch to stitch, off the waste yarn, {each}with an end "
            f"of the pieces' yarn about {task.end} long.{how}{left}")


def _shoulder_rows(task: Task) -> str:
    if is_second(task):
        return f"<b>Join the left shoulder</b> {like_first_text(task)}"
    return ("<b>Sew the right shoulder</b>, row to row, from its end to the neck mark. Leave the "
            "left one open.")


# As where the band is hung (`band_ends.inward`): common practice, no source.
POINTED = (" Where one stitch is left at the top, take its leg at this edge, and leave the other "
           "for the neck.")


def _raglans(task: Task) -> str:
    if is_second(task):
        return f"<b>Sew the left back raglan seam</b> and its underarm {like_first_text(task)}"
    left = (" Leave the left back one open, between the back and the left sleeve, with its "
            "underarm stitches.")
    how = "rows to rows as listed below" if task.uneven else "row to row"
    return (f"<b>Sew the raglan seams</b>, {how}. Sew the bound-off underarm stitches together."
            f"{left * (task.leaves is not None)}{POINTED * task.pointed}")


def _straps(task: Task) -> str:
    if is_second(task):
        return f"{pulled_clear(task)}<b>Sew the left strap to the back</b> {like_first_text(task)}"
    left = " Leave the left strap's seam with the back open."
    return ("<b>Sew each strap's rows</b> to the shoulder stitches, each with an end of the "
            f"pieces' yarn about {task.end} long: one edge to those that wait at the front, the "
            "other to those that wait at the back."
            f"{left * (task.leaves is not None)} One stitch of each shoulder lies in a raglan "
            "seam: pass the end through it too, with the stitch beside it. Then take the waste "
            "yarn out of those that are sewn.")


def ends_and_tops(task: Task) -> tuple[str, str]:
    """The band whose ends are sewn to the tops of others, and those others."""
    return (named([band for band in task.bands if band.role is EdgeRole.NECK]),
            named([band for band in task.bands if band.role is EdgeRole.FRONT]))


def _ends_to_tops(task: Task) -> str:
    neck, front = ends_and_tops(task)
    shut = " Their ends are sewn shut: go through both layers."
    how = rolled(task.bands) or shut * all(band.layers > 1 for band in task.bands)
    return (f"<b>Sew each end of the {neck}</b> to the top of the {front}, "
            f"{ends_how(task.bands)}, from the garment's edge outwards. They meet at the foot of "
            f"the V, where the front's row counter showed {task.row}.{how}")


def _cord(task: Task) -> str:
    """What is done with the cord; on a child's garment as the standards ask."""
    assert task.cord is not None and task.ties is not None
    ends = (" No knots, bobbles or toggles on its ends: finish them flat." if task.child else
            " Finish its ends so that they do not fray.")
    return (f"<b>Cut a cord of {task.cord}.</b> <b>Draw it through the hem</b> "
            f"with a bodkin, "
            f"in at one eyelet and out at the other: each end hangs out {task.ties} when "
            "the garment lies at its full width. Fasten it through all layers at the middle of the "
            f"back, so that it cannot be drawn out.{ends}")


def _darn(task: Task) -> str:
    if task.inside:
        return ("<b>Darn in all ends but the one that you sew with:</b> once the seam is closed "
                "you cannot reach them. Take out every pin, cord and strip of waste yarn.")
    return "<b>Darn in the ends</b>."


def _wash(task: Task) -> str:
    first = "Wash the work" if task.inside else "Secure the ends, then wash the work"
    return f"<b>{first}</b> as the swatch was washed, and lay it flat to dry."


_TEXTS: Mapping[TaskKind, str | Callable[[Task], str]] = {
    TaskKind.SEW_OFF: _sew_off, TaskKind.DRAW_UP: draw_up, TaskKind.LININGS: _linings,
    TaskKind.QUARTER_SEAMS: "<b>Sew the quarters together</b> from their tips down, each to the "
                            "next, a stitch in from either edge: three seams. End each a row "
                            "below the row where they divide, so that no hole is left.",
    TaskKind.DRAW_LOWER: draw_lower, TaskKind.TURN_UP: turn_up,
    TaskKind.SEAM_REST: SEAM_REST, TaskKind.FOLD_IN: FOLD_IN,
    TaskKind.TURN: TURNED,
    TaskKind.SEW_NECK: "<b>Back-stitch the stitches that wait at the neck</b>, loosely, off their "
                       "waste yarn.",
    TaskKind.SHOULDERS: _shoulders, TaskKind.SHOULDER_ROWS: _shoulder_rows,
    TaskKind.RAGLANS: _raglans, TaskKind.STRAPS: _straps, TaskKind.FOOT: foot_sewn,
    TaskKind.ENDS_TO_TOPS: _ends_to_tops, TaskKind.ZIP: "<b>Set in the zip</b>, as its own "
                                                        "section tells.",
    TaskKind.CAPS: caps,
    TaskKind.TOPS: TOPS, TaskKind.TOPS_TO_SIDES: tops_to_sides, TaskKind.SIDES: sides,
    TaskKind.CROWN_SEAM: crown_seam,
    TaskKind.THUMBS: "<b>Sew each thumb</b> from its tip to its cast-on edge, a stitch in.",
    TaskKind.HAND_SIDES: "<b>Sew the side seam of each hand</b> from the fingertips to the upper "
                         "mark, and from the lower mark to the lower edge, a stitch in: the slit "
                         "between the marks stays open. Fasten the yarn off at the upper mark, "
                         "and begin at the lower mark with a new end.",
    TaskKind.THUMB_SLIT: "<b>Pin the thumb's seam</b> to the lower mark, and the middle of its "
                         "cast-on edge to the upper mark. <b>Sew the thumb's cast-on edge into the "
                         "slit</b>, stitches to rows. Both mittens are alike.",
    TaskKind.PANELS: "<b>Sew the panels together</b>, row to row, a stitch in, all cast-on edges "
                     "at the same end.",
    TaskKind.WASH: _wash, TaskKind.CORD: _cord, TaskKind.DECLARED: join_sewn,
    TaskKind.DARN: _darn}
