"""The keys of how armholes, caps, necks and shoulders are shaped."""

from __future__ import annotations

from ...pattern.conventions import ArmholeCurve, CapCurve, Larger, NeckCurve, NeckSides
from ..spellings import bind_offs, every_row, steps
from ..values import whole_number, word
from .key import Key, Keys

_CENTRE = whole_number("stitches at the centre of a neck", "1..80", "0..300")
_STEPS = "[3, 2, 1, 1]"
_SIDES = word(NeckSides)
_NONE: tuple[int, ...] = ()


class ArmholeKeys(Keys, example="{curve: by thirds}"):
    """How the armholes of a set-in garment are shaped."""

    curve = Key(word(ArmholeCurve), "{words}: a third of the stitches is bound off at once, or a "
                "quarter, and the rest decreased evenly in the lowest third of the armhole, the "
                "shorter gaps first; or a third is bound off, a third goes on every row and a "
                "third on every 2nd row.", "by thirds", "third at once", ArmholeCurve.THIRD)
    bind_off = Key(bind_offs, "What is bound off at each armhole before the rest is decreased, by "
                   "size: stitches; several steps, one every 2nd row, from the first; or a share "
                   "of the stitches that go there.", "[4, 2, 1, 1]", "what the curve says", None,
                   by_size=True, likely=("8", "25 %"))


class CapKeys(Keys, example="{curve: bell}"):
    """How the cap of a set-in sleeve is shaped above the armhole's own bind-offs."""

    curve = Key(word(CapCurve), "{words}. A slope has its decreases closer together at both ends. "
                "As the armhole: as many rows as the armhole's slope, and a flat top twice as wide "
                "as the armhole is straight, unless `cap_top` is given. A bell decreases on every "
                "row, then farther apart, then on every row again.", "bell", "slope",
                CapCurve.SLOPE)
    top_bind_offs = Key(steps, "What is bound off at each side before the flat top, one step every "
                        "2nd row, by size.", "[2]", "nothing", _NONE, by_size=True)
    every_row = Key(every_row, "Of a bell: how many decreases are made on every row, first and "
                    "last, by size. Those between are made every 2nd row, or are spread over the "
                    "rows that `cap_height` leaves.", "[4, 2]", "a quarter of them each", _NONE,
                    by_size=True, beside="curve: bell")


class NecklineKeys(Keys, example="{curve: ellipse}"):
    """How a round neck is shaped; how wide and deep it is, the measures say."""

    curve = Key(word(NeckCurve), "What its sides follow: {words}.", "ellipse", "falling steps",
                NeckCurve.STEPS)
    front_centre = Key(_CENTRE, "How many stitches wait, or are bound off, at the centre of a "
                       "round or high front neck, by size, from {range}; of a front that opens "
                       "half of them at each front edge.", "12",
                       "two fifths, more where the rows are few", None, by_size=True)
    front_steps = Key(steps, "What is bound off at each side of that centre, one step every 2nd "
                      "row, by size. What the steps leave is the centre.", _STEPS,
                      "as the curve says", _NONE, by_size=True)
    back_centre = Key(_CENTRE, "How many stitches wait at the centre of the back neck, by size, "
                      "from {range}.", "20", "what 3 stitches a step leave", None, by_size=True)
    back_steps = Key(steps, "What is bound off at each side of that centre, one step every 2nd "
                     "row, by size.", "[4, 2]", "as the curve says", _NONE, by_size=True)
    front_sides = Key(_SIDES, "What becomes of the stitches at either side of the centre of a "
                      "round or high front neck in one piece: {words}. Held, they stay on their "
                      "needles, in the same steps, until both shoulders are off. A row is knitted "
                      "over the whole neck, which then waits on one length of waste yarn.", "held",
                      "bound off", NeckSides.BOUND_OFF)
    back_sides = Key(_SIDES, "The same of the back neck: {words}.", "held", "bound off",
                     NeckSides.BOUND_OFF)


class ShoulderKeys(Keys, example="{remainder: last step}"):
    """The steps of held shoulders."""

    steps = Key(steps, "How many stitches are held in each step, from the armhole, by size. What "
                "they leave is the last step. Each takes 2 rows, in place of `shoulder_drop`.",
                "[6, 5]", "equal steps, as many as `shoulder_drop` has rows for", _NONE,
                by_size=True)
    remainder = Key(word(Larger), "Where the stitches go that do not divide by the steps: at the "
                    "{words}.", "last step", "neck", Larger.NECK, idle_beside=("steps",))
