"""Words for the first page of a pattern: about it, its sizes, and what to know before knitting."""

from __future__ import annotations

from ..core.problems import Problem
from ..core.units import Length
from ..markup.html import esc, link
from ..pattern.fabrics import NeedleBed, Yarn
from ..pattern.model import Band, Pattern, Wearer
from .material_text import bed_called

WEARERS = {Wearer.WOMEN: "women", Wearer.MEN: "men", Wearer.CHILDREN: "children",
           Wearer.BABIES: "babies", Wearer.ANYONE: "anyone"}
COUNT, MEASURE = "Count", "Measure"
FINISHED, BODIES = "Finished", "Bodies and ease"
LENGTH, DEPTH = "Finished length", "Finished depth"
NEEDLES = "Needles on the bed, at least"
FITS, FOR, YARN, MACHINE, SKILLS = "Fits", "For", "Yarn", "Machine", "Skills"
MEASURES_IN, CENTIMETRES, INCHES = "Measures in", "cm", "inches"
SIDEWAYS = "The table moves sideways."
COUNTS_LEAD = ("<p>These are the stitches and rows of every size. Each size's page shows the "
               "calculation of every number. "
               + link("counts.json", "All counts as data (counts.json)") + "</p>")
ALL_TECHNIQUES = link("../../techniques/index.html", "All techniques")
SIZES_OF = "Sizes"
FILES_ONLY = ("<p>This page shows what the pattern makes and what it takes. The instructions for "
              "each size are in files that the designer hands over.</p>")
HOW_TO_CHOOSE = "How to choose between two sizes"
MEASURES = "Measures"
OF_PIECES = "Measures of pieces and bands"


def credits_of(pattern: Pattern) -> tuple[tuple[str, str], ...]:
    """Who made the pattern, its version and licence: labels and what they stand for."""
    return (("Designer", esc(pattern.designer)),
            ("Version", f"{esc(pattern.version)}, {esc(pattern.date)}"),
            ("Licence", esc(pattern.licence)))


def drawn_size(size: str) -> str:
    """Of which size the sketch is."""
    return f"Size {esc(size)}, drawn from its measures"


def back_view(size: str) -> str:
    """What the drawing of the back shows."""
    return f"The back in size {esc(size)}"


def fits(wearers: str, label: str, low: Length, high: Length) -> str:
    """Which bodies the sizes fit, by the measure that decides, as HTML."""
    text = _from_to(low.cm_figure(), high.cm_figure(), "cm")
    inches = _from_to(low.inch_figure(), high.inch_figure(), "in")
    return f"{wearers}, {esc(label)} {_in_both(text, inches)}"


def _from_to(low: str, high: str, unit: str) -> str:
    return f"{' to '.join(dict.fromkeys((low, high)))}\u00a0{unit}"


def _in_both(cm: str, inches: str) -> str:
    """Text in both units, as elements of which a reader can have one hidden."""
    return (f'<span class="wb-cm">{cm}</span><span class="wb-or"> (</span>'
            f'<span class="wb-in">{inches}</span><span class="wb-or">)</span>')


def yarn_of_all(yarn: Yarn, least: int, most: int, unit: str) -> str:
    """A yarn with what the sizes take of it, from the least to the most, as HTML."""
    amount = " to ".join(dict.fromkeys((str(least), str(most))))
    return f"{esc(yarn.called)}, {amount}\u00a0{unit}"


def machine_of_all(bed: NeedleBed, least: int, most: int, *, holds: bool, second: bool) -> str:
    """The machine that the sizes take, in short, as HTML."""
    needles = "\u00a0to\u00a0".join(dict.fromkeys((str(least), str(most))))
    name = bed_called(bed)
    more = [*["a carriage that can hold"] * holds, *["a second bed"] * second]
    pitch = bed.pitch.in_mm().replace(" ", "\u00a0")
    called = esc(f"{name[:1].upper()}{name[1:]}")
    return ", ".join((called, pitch, f"{needles}\u00a0needles", *more))


def by_body(label: str, *, files_only: bool) -> str:
    """By which measure of the body a size is chosen, as HTML."""
    holds = "file" if files_only else "page"
    unit = f'<span data-in="{INCHES}">centimetres</span>'
    return (f"<p>Choose your size by the wearer's {esc(label)}, in {unit}. Each {holds} holds one "
            "size only.</p>")


def moves_sideways() -> str:
    """What a reader of a narrow screen needs to know of a table, as HTML."""
    return f'<p class="wb-sideways">{SIDEWAYS}</p>'


def counts_of(band: Band) -> str:
    """The title of the counts of a band."""
    return f"Counts of the {band.title.lower()}"


def sizes_lead(*, knits_pieces: bool, files_only: bool) -> str:
    """From where a size's page or file begins, as HTML."""
    begins = "casting on" if knits_pieces else "hanging an edge"
    holds = "file" if files_only else "page"
    return f"<p>Each {holds} holds one size only, from {begins} to the last stitch.</p>\n"


def size_link(size: str) -> str:
    """What leads to the page of a size."""
    return f'<span class="wb-unseen">Size </span>{esc(size)}'


def size_named(size: str) -> str:
    """What leads to the page of a size, where the body that it fits stands below."""
    return f'<b><span class="wb-unseen">Size </span>{esc(size)}</b>'


def tools_of(size: str) -> str:
    """What opens the tools and materials of one size."""
    return f"Tools and materials for size {size}"


def amounts_for(size: str, *, files_only: bool) -> str:
    """Of which size the materials are."""
    has = "file" if files_only else "page"
    return f"<p>Amounts for size {esc(size)}; each size's {has} has its own.</p>"


def in_all_sizes(what: str) -> str:
    """The name of a table over all sizes."""
    return f"{what} in all sizes"


def least_to_most(least: str, most: str) -> str:
    """Two figures with all between them, or the one."""
    return " to ".join(dict.fromkeys((least, most)))


def drawn_in(size: str) -> str:
    """Of which size the drawings of bands are, and how they lie."""
    return f"<p>In size {esc(size)}, the hem at the left.</p>"


def to_know(finding: Problem) -> str:
    """A finding as a knitter should know it; "" for one that is for the designer alone."""
    found, size = esc(finding.found), esc(finding.size)
    return {"small-swatch": f"A swatch was measured on a small piece ({found}), so its "
                            "gauge is less certain.",
            "neck-over-head": f"Size {size}: {found}. Try it on before the bands.",
            "against-neighbours": f"Size {size}: {found}."}.get(finding.code, "")
