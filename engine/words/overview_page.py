"""Words for the first page of a pattern: about it, its sizes, and what to know before knitting."""

from __future__ import annotations

from ..core.problems import Problem
from ..markup.html import esc, link
from ..pattern.model import Band, Pattern, Wearer

WEARERS = {Wearer.WOMEN: "women", Wearer.MEN: "men", Wearer.CHILDREN: "children",
           Wearer.BABIES: "babies", Wearer.ANYONE: "anyone"}
COUNT = "Count"
LENGTH_CM, LENGTH_IN = "Finished length [cm]", "Finished length [in]"
DEPTH_CM, DEPTH_IN = "Finished depth [cm]", "Finished depth [in]"
COUNTED_ELSEWHERE = ("<p>How each number was counted is on each size's page. "
                     + link("counts.json", "All counts as data (counts.json)") + "</p>")
NO_SKILLS = "<p>The designer names none.</p>"
ALL_TECHNIQUES = f"<p>{link('../../techniques/index.html', 'All techniques')}</p>"
NO_CORRECTIONS = "<p>No corrections so far.</p>"


def about(pattern: Pattern) -> tuple[tuple[str, str], ...]:
    """Who made the pattern, for whom, its version and licence: labels and what they stand for."""
    return (("Designer", esc(pattern.designer)), ("For", WEARERS[pattern.wearer]),
            ("Version", f"{esc(pattern.version)}, {esc(pattern.date)}"),
            ("Licence", esc(pattern.licence)))


def sizes_lead(*, knits_pieces: bool) -> str:
    """From where a size's page begins, as HTML."""
    begins = "casting on" if knits_pieces else "hanging an edge"
    return f"<p>Each page holds one size only, from {begins} to the last stitch.</p>\n"


def size_link(size: str) -> str:
    """What leads to the page of a size."""
    return f"Size {esc(size)}"


def amounts_for(size: str) -> str:
    """Of which size the materials are."""
    return f"<p>Amounts for size {esc(size)}; each size's page has its own.</p>"


def in_all_sizes(what: str) -> str:
    """The name of a table over all sizes."""
    return f"{what} in all sizes"


def least_to_most(least: str, most: str) -> str:
    """Two figures with all between them, or the one."""
    return " to ".join(dict.fromkeys((least, most)))


def drawn_in(size: str) -> str:
    """Of which size the drawings of bands are, and how they lie."""
    return f"<p>In size {esc(size)}, the hem at the left.</p>"


def this_version(pattern: Pattern) -> str:
    """Which version it is, with its date."""
    return f"<p>This is version {esc(pattern.version)} of {esc(pattern.date)}.</p>"


def corrected(date: str, text: str) -> str:
    """A correction with its date."""
    return f"<strong>{esc(date)}:</strong> {esc(text)}"


def to_know(finding: Problem) -> str:
    """A finding as a knitter should know it; "" for one that is for the designer alone."""
    found, size = esc(finding.found), esc(finding.size)
    return {"small-swatch": f"A swatch was measured on a small piece ({found}), so its "
                            "gauge is less certain.",
            "hem-not-swatched": "The hem's dial was not swatched: its rows are counted at the "
                                "garment's gauge. Measure the first hem you knit.",
            "neck-over-head": f"Size {size}: {found}. Try it on before the bands.",
            "against-neighbours": f"Size {size}: {found}."}.get(finding.code, "")


def not_swatched(band: Band) -> str:
    """What follows where a band's fabric was not swatched."""
    return (f"The fabric of the {esc(band.title)} was not swatched. Its stitches come from a "
            "pick-up rule, and its depth and holes are counted as if it had the row height of the "
            "garment. Knit a swatch of the band first.")
