"""The buttonholes a band asks for, held to the band: which size, where, and what is refused."""

from __future__ import annotations

from collections.abc import Sequence
from fractions import Fraction

from .buttonholes import Placing, Wish, hole_stitches, number_every, place, place_at
from .closings import fixed_stitches, slit_rows
from .counts import DOWN, NEAREST, UP, Count, Unit, decimal, given, whole
from .gauge import Gauge
from .model import Band, BandRows, Buttonholes, Closing, Distance, Pattern
from .problems import Problem, Severity, error, has_errors, note
from .units import Length


def plan_holes(pattern: Pattern, band: Band, size: str, by_edge: Count, gauge: Gauge,
               rows: BandRows) -> tuple[Count, Placing | None, list[Problem]]:
    """Return a hole's stitches and where the holes go, with the findings; None where refused.

    `by_edge` is the band's stitches before its holes move them. The band must ask for buttonholes.
    """
    asked = band.buttonholes
    assert asked is not None
    path = f"bands.{band.key}.buttonholes"
    if fixed := fixed_stitches(asked.closing):
        hole = fixed
    elif asked.stitches is not None:
        n = asked.stitches[size]
        hole = given(n, Unit.STITCHES, f"{n} stitches, as the source says")
    else:
        hole = hole_stitches(asked.button, gauge.stitch)
    problems = _button_fits(pattern, band, asked, size, gauge, rows)
    if asked.at is not None:
        return hole, *_fixed(pattern, path, size, asked.at[size], by_edge, hole.value, gauge,
                             problems)
    wish = _wish(asked, size, by_edge, hole.value, gauge)
    placing = place(wish)
    if placing is None:
        problems.append(_no_placing(pattern, path, size, wish, gauge))
    return hole, None if has_errors(problems) else placing, problems


def _fixed(pattern: Pattern, path: str, size: str, at: Sequence[Length], by_edge: Count,
           hole: int, gauge: Gauge, problems: list[Problem]
           ) -> tuple[Placing | None, list[Problem]]:
    """Holes where the source puts them, from the lower end, or from the upper where below 0."""
    middles = [x.mm / gauge.stitch + (by_edge.value if x.mm < 0 else 0) for x in at]
    placing = place_at(by_edge.value, hole, middles)
    if placing is None:
        problems.append(error(
            "holes-too-close", pattern.place(f"{path}.at", size), size=size,
            found=f"{len(at)} holes of {hole} stitches at "
                  f"{', '.join(x.in_cm() for x in at)} on a band of {by_edge}",
            expected=f"gaps of at least {max(2, hole)} stitches, and 1 stitch at either end",
            remedy="Move the holes further apart, or choose a smaller button."))
    return None if has_errors(problems) else placing, problems


def _button_fits(pattern: Pattern, band: Band, asked: Buttonholes, size: str, gauge: Gauge,
                 rows: BandRows) -> list[Problem]:
    """A button is carried where its radius fits between the holes and either edge of the band."""
    if asked.closing is Closing.LOOPS:
        return []
    half = min(rows.to_holes, rows.holes_to_fold)
    if asked.closing is Closing.SLIT and (found := _slit_fits(pattern, band, asked, size, gauge,
                                                              half)):
        return found
    if half * gauge.row >= asked.button.mm / 2:
        return []
    need = whole(asked.button.mm / 2 / gauge.row, UP)
    at = pattern.place(f"bands.{band.key}.buttonholes.button")
    return [error("button-too-large", at, size=size,
                  found=f"a button of {asked.button.in_mm()} on a band with {half} rows "
                        f"({decimal(half * gauge.row, 1)} mm) beside its holes",
                  expected=f"room for half the button, {decimal(asked.button.mm / 2, 1)} mm",
                  remedy=f"Give each layer at least {2 * need} rows, or choose a button of at most "
                         f"{decimal(2 * half * gauge.row, 1)} mm.")]


def _slit_fits(pattern: Pattern, band: Band, asked: Buttonholes, size: str, gauge: Gauge,
               half: int) -> list[Problem]:
    """A slit lies about the middle row, with a row at least beyond either end of it."""
    slit = slit_rows(asked.button, gauge.row)
    if half > slit.value // 2:
        return []
    return [error("slit-too-long", pattern.place(f"bands.{band.key}.buttonholes.button"), size=size,
                  found=f"slits of {slit} on a band with {half} rows to its middle",
                  expected="a row at least before a slit and after it",
                  remedy=f"Give each layer at least {slit.value + 2} rows, or choose a smaller "
                         "button.")]


def edge_in_hole(pattern: Pattern, band: Band, size: str, body: Gauge, gauge: Gauge,
                  rows: BandRows) -> list[Problem]:
    """The garment's edge lies inside the band, from the closing as deep as it is hung; a row is
    wanted between it and the holes (common practice, no source)."""
    hidden = band.stitches_in * body.stitch
    room = (rows.to_finish - 1) * gauge.row
    if hidden <= room:
        return []
    need = whole(hidden / gauge.row, UP) + 1
    fewer = whole(room / body.stitch, DOWN)
    hang = f"Write stitches_in: {fewer}, or give" if fewer else "Give"
    return [note(
        Severity.WARNING, "edge-in-hole", pattern.place(f"bands.{band.key}.stitches_in"), size=size,
        found=f"the garment's edge {decimal(hidden, 1)} mm inside the band ({band.stitches_in} "
              f"stitch{'' if band.stitches_in == 1 else 'es'} in), and the holes {rows.to_finish} "
              f"row{'' if rows.to_finish == 1 else 's'}, "
              f"{decimal(rows.to_finish * gauge.row, 1)} mm, from the closing",
        expected="at least a row between the edge and the holes, or it shows in them",
        remedy=f"{hang} the band {need} rows from the holes to the closing.")]


def _wish(asked: Buttonholes, size: str, by_edge: Count, hole: int, gauge: Gauge) -> Wish:
    lower = _stitches(asked.lower, gauge)
    upper = _stitches(asked.upper, gauge)
    span = by_edge.value - lower - upper
    if asked.number is not None:
        number = asked.number[size]
    else:
        assert asked.every is not None
        number = number_every(span, hole, asked.every.mm / gauge.stitch)
    give = whole(by_edge.exact * asked.tolerance)
    return Wish(stitches=by_edge.value, holes=number, hole=hole, lower=lower, upper=upper,
                end_give=asked.end_give, band_give=min(asked.band_give, give),
                odd_gap=asked.odd_gap)


def _stitches(distance: Distance, gauge: Gauge) -> int:
    if distance.stitches is not None:
        return distance.stitches
    assert distance.length is not None
    return max(1, whole(distance.length.mm / gauge.stitch, NEAREST))


def _no_placing(pattern: Pattern, path: str, size: str, wish: Wish, gauge: Gauge) -> Problem:
    """Say which of the soundness rules cannot be met, with the figures and a way out."""
    if wish.lower < 1 or wish.upper < 1:
        return error("hole-at-end", pattern.place(f"{path}.ends"), size=size,
                     found=f"holes {wish.lower} and {wish.upper} stitches from the ends",
                     expected="at least 1 stitch between a hole and the band's end",
                     remedy="Give the ends 1 stitch or more.")
    gap = max(2, wish.hole)
    need = wish.lower + wish.upper + wish.holes * wish.hole + (wish.holes - 1) * gap
    room = wish.stitches - wish.lower - wish.upper
    fits = max(0, (room + gap) // (wish.hole + gap))
    key = "number" if f"{path}.number" in pattern.places else "every"
    return error("hole-wider-than-gap", pattern.place(f"{path}.{key}", size), size=size,
                 found=f"{wish.holes} holes of {wish.hole} stitches on a band of {wish.stitches}",
                 expected=f"gaps at least as wide as a hole ({gap} stitches), which takes {need} "
                          "stitches",
                 remedy=_fewer(key, fits, room - wish.hole, gauge))


def _fewer(key: str, fits: int, span: int, gauge: Gauge) -> str:
    """The way out for too many holes where `fits` would fit, the first and last of them `span`
    stitches apart from start to start."""
    if not fits:
        return "Choose a smaller button or a longer edge."
    asked = f"Ask for at most {fits} hole{'' if fits == 1 else 's'}"
    if key == "every":
        # The nearest number of spaces is taken, so that this and anything wider gives no more.
        least = whole(span * gauge.stitch / (fits - Fraction(1, 2)), DOWN) + 1
        asked = f"Write a wider every, {decimal(Fraction(least, 10), 1)} cm or more"
    return f"{asked}, a smaller button, or less distance from the ends."
