"""Words for the cautions of a page: at the machine, and on what a child's garment has."""

from __future__ import annotations

from ..markup.html import link

PAGE = "../../cautions.html"
SHARP = ("<strong>Hooks and latches are sharp.</strong> Keep fingers clear when needles are "
         "forward, and keep children away from the machine.")
WEIGHTS = ("<strong>Weights drop</strong> when stitches come off. Keep your feet clear, "
           "and take the weights off wherever a step says so.")
GARTER_BAR = ("<strong>A full garter bar is heavy,</strong> and the open latches of "
              "the needles are sharp. Keep fingers clear, and take the weights off before you "
              "lift it.")
AT_THE_MACHINE = link(f"{PAGE}#at-the-machine", "More cautions at the machine")

# Of what a child's garment has.
BUTTONS = (
    "Buttons can come off and choke: sew them on firmly and check them after every wash. "
    "Standards to ask for: EN 17394-2:2020 with CEN/TS 17394-1:2021. In the USA, 16 CFR "
    "1501 on small parts exempts buttons on clothes: a loose one is dangerous all the same. "
    + link(f"{PAGE}#buttons", "Cautions on buttons and small parts"))
DRAW_CORDS_OUT = "A cord left in can strangle: draw out every cord used in making."
MARKS_OUT = ("A pin or a thread left in can hurt or choke: count out what marks rows and "
             "edges, and count it in again before the work is used.")
# What is left to say of a child's garment that has neither, without a word of them.
NOTHING_ELSE = (
    "Add only what the steps name. Add no small parts that could come off, and no ties or loops "
    "that could catch or strangle. "
    + link(f"{PAGE}#childrens-clothes", "More cautions on children's clothes"))


def count_cords(*, clips: bool) -> str:
    """That cords, and clips where they are used, are counted after work."""
    also = " and clips" if clips else ""
    return (f"<strong>Count cords{also}</strong> before you put the work away, so that "
            "none stays in the work.")


def for_child(*, baby: bool, anyone: bool = False) -> str:
    """Whom the garment is for, and which rules come first, as a paragraph of HTML; what is for
    `anyone` may be for a child."""
    whose = "a baby" if baby else "a child"
    if anyone:
        return _ruled(f"If you knit this for {whose}:", "follow")
    return _ruled(f"This garment is for {whose}.")


def size_for_child(*, baby: bool) -> str:
    """The same of a size for a child, in a pattern for anyone."""
    return _ruled(f"This size is for {'a baby' if baby else 'a child'}.")


def _ruled(text: str, follow: str = "Follow") -> str:
    return (f"<p><strong>{text}</strong> {follow} the safety rules "
            "of the place where it is made, sold or worn: they come first. This pattern does not "
            "claim to meet any standard.</p>")


def worn_cords(*, in_bands: bool) -> str:
    """What cords a child's garment may have, where it has one: in its bands, or in its hem."""
    if in_bands:
        which, fast = "those that the steps name", "Sew each down half-way round"
    else:
        which, fast = "the one in the hem", "Sew it down at the middle of the back"
    return (f"Cords can strangle. Use only {which}, and none at neck or hood. Let the ends hang "
            "out as far as the steps say, at most 7.5 cm (3 in) at full width, without knots or "
            f"toggles. {fast}. Standards to ask for: EN 14682, ASTM F1816-18 "
            f"and 16 CFR Part 1120. {link(f'{PAGE}#cords', 'Cautions on cords')}")
