"""A pattern with one band, for checks that need a whole plan or program.

Its numbers are plain: a stitch is 5 mm wide and a row 4 mm high in the garment's fabric, and the
band's fabric has the same. A check that leans on other numbers gives its own.
"""

from fractions import Fraction

from walebook.core.problems import Problem, has_errors
from walebook.core.units import Length
from walebook.machine.programs import Program
from walebook.machine.steps import Dial, Side
from walebook.pattern.fabrics import Fabric, Swatch
from walebook.pattern.holes import Buttonholes, Distance
from walebook.pattern.model import Band, Pattern
from walebook.plan.assembled import band_edge
from walebook.plan.band import BandPlan
from walebook.plan.band_counts import plan_band
from walebook.program.bands import band_program
from walebook.proof.proof import Proof

from tests import small_patterns as small
from tests import small_sources
from tests.small_sources import head

ONLY = "one size"
GARMENT_DIAL = Dial(18)  # 6
BAND_DIAL = Dial(12)  # 4: two numbers below
STITCH = Fraction(5)
ROW = Fraction(4)
rows = small.rows


def fabric(key: str, dial: Dial, *, row: Fraction = ROW) -> Fabric:
    """A fabric from one swatch of 40 stitches and 60 rows."""
    swatch = Swatch(stitches=40, width=Length(40 * STITCH), rows=60, height=Length(60 * row))
    return Fabric(key=key, yarn="wool", dial=dial, swatches=(swatch,))


def holes(number: int, each: int, end: int, **more: object) -> Buttonholes:
    """Buttonholes by number and size, at whole stitches from both ends."""
    return small.holes(Length((each + 1) * STITCH).in_mm(), **{
        "stitches": {ONLY: each}, "buttonhole_count": {ONLY: number},
        "lower": Distance(stitches=end),
        "upper": Distance(stitches=end), **more})


def band(**said: object) -> Band:
    """A band picked up three stitches for every four rows, but for what is `said`."""
    return small.band(**{"dial": BAND_DIAL, "rows": small.layers(4, 4), **said})


def pattern(one: Band, edge_rows: int, fabrics: tuple[Fabric, ...] = ()) -> Pattern:
    """A pattern with one band along an edge of `edge_rows` rows, on a bed of 200 needles."""
    return small.pattern(
        slug="one-band", title="One band", date="2024-05-01", designer="Ada Quill",
        licence="CC0-1.0", summary="One band.", bed=small.bed("standard", "4.5 mm", 200),
        yarns=small.wool("Harbour wool"), sizes=(ONLY,), bands=(one,),
        fabrics=(fabric("garment", GARMENT_DIAL), *fabrics),
        edges=small.edges("garment", {ONLY: edge_rows}))


# A pattern as a designer writes it: an edge and a band come below it. Stitches are 5 mm wide and
# rows 4 mm high in both fabrics.
SOURCE = head(200) + """\
fabrics:
  garment:
    yarn: wool
    dial: 6
    swatch: {stitches: 40, width: 20 cm, rows: 60, height: 24 cm}
  band:
    yarn: wool
    dial: 5
    swatch: {stitches: 40, width: 20 cm, rows: 60, height: 24 cm}
"""


def proved(text: str) -> Proof:
    """The proof of a source, which must be without errors."""
    return small_sources.proved(SOURCE + text)


def plan_of(source: Pattern, one: Band) -> tuple[BandPlan | None, tuple[Problem, ...]]:
    """The plan of a band along its pattern's own edge, and what was found."""
    return plan_band(source, one, ONLY,
                     band_edge(source.places, source.fabrics, source.edges, one, ONLY, None))


def plan(one: Band, edge_rows: int, fabrics: tuple[Fabric, ...] = ()) -> BandPlan:
    """The plan of the band, which must be without errors."""
    made, problems = plan_of(pattern(one, edge_rows, fabrics), one)
    assert made is not None and not has_errors(problems), [each.message for each in problems]
    return made


def program(made: BandPlan, *, front: Side = Side.RIGHT, with_holes: bool = True) -> Program:
    """The program of the planned band for one front."""
    return band_program(
        made,
        front=front,
        bed_needles=200,
        garment_dial=GARMENT_DIAL,
        with_holes=with_holes,
    )
