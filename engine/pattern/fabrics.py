"""What a pattern is knitted on and of: the bed, yarns, swatches and fabrics."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import field, replace
from fractions import Fraction

from ..core.problems import Place
from ..core.units import Length
from ..machine.records import dataclass
from ..machine.steps import Dial
from .stitch_chart import StitchChart


@dataclass(frozen=True, slots=True, kw_only=True)
class NeedleBed:
    """A needle bed: `pitch` from needle to needle, `needles` in all (an even number).

    `second` says whether a second bed of as many needles can be set facing it, and `place` where
    the source, or the bed's own file, states the pitch.
    """

    name: str
    pitch: Length
    needles: int
    second: bool = False
    place: Place | None = field(default=None, compare=False)


@dataclass(frozen=True, slots=True, kw_only=True)
class Yarn:
    """A yarn; `package_g` [g] and `package_length` are of one ball or cone, when known.

    `ends` are the ends knitted as one, each of the count `tex` [g/km] where a source gives it as
    it is `written`. `colour` is # and six digits, "" where the source gives none. `mass_place`,
    `length_place` and `count_place` are where the source states the package and the count.
    """

    key: str
    name: str
    fibre: str = ""
    package_g: Fraction | None = None
    package_length: Length | None = None
    colour: str = ""
    shade: str = ""
    tex: Fraction | None = None
    written: str = ""
    ends: int = 1
    mass_place: Place | None = field(default=None, compare=False)
    length_place: Place | None = field(default=None, compare=False)
    count_place: Place | None = field(default=None, compare=False)

    @property
    def called(self) -> str:
        """Its name with its shade, as its label has them: "Harbour Bulky Fog"."""
        return f"{self.name} {self.shade}" if self.shade else self.name


@dataclass(frozen=True, slots=True, kw_only=True)
class Swatch:
    """One measurement of a washed and rested swatch: so many stitches over so much width.

    `mass_g` and `yarn` are what those stitches and rows weigh and how much yarn is in them, where
    it was weighed or measured; `place` is where the source states it.
    """

    stitches: int
    width: Length
    rows: int
    height: Length
    mass_g: Fraction | None = None
    yarn: Length | None = None
    place: Place | None = None

    def __hash__(self) -> int:
        # Enough to tell the swatches of a pattern apart: its gauges are looked up by them.
        return hash((self.stitches, self.rows))


@dataclass(frozen=True, slots=True, kw_only=True)
class Repeat:
    """Which needles work, over and over: `works` from the repeat's start, which is in work.

    `edge` needles in work stand at both ends beside the repeats [stitches]. A piece `runs_on`
    where a seam joins its two sides: without the stitches that the seam takes it is whole repeats.
    """

    works: tuple[bool, ...]
    edge: int = 1
    runs_on: bool = False

    def __post_init__(self) -> None:
        if not self.works or not self.works[0] or self.works[-1] or self.edge < 0:
            raise ValueError("a repeat begins in work and ends out of work")

    @property
    def opening(self) -> int:
        """Needles in work that follow the last whole repeat as its beginning [stitches]."""
        return 0 if self.runs_on else self.works.index(False)

    def closed(self) -> Repeat:
        """Return it for a piece whose two sides one seam joins, a stitch in from either edge.

        With another number of edge stitches the columns cannot run on; it stays as it is.
        """
        return replace(self, runs_on=self.edge == 1)


@dataclass(frozen=True, slots=True, kw_only=True)
class Fabric:
    """A yarn knitted at a dial setting, with the swatches that measured it (at least one).

    Its stitches are the needles in work: with a `repeat`, others are left out between them.
    `chart` names the stitch chart it is knitted from, "" where it is plain, and `contrast` the
    yarn of the chart's second colour. `longest_float` is the most stitches that a yarn is to float
    past, None where their width decides.
    """

    key: str
    yarn: str
    dial: Dial
    swatches: tuple[Swatch, ...]
    repeat: Repeat | None = None
    chart: str = ""
    contrast: str = ""
    longest_float: int | None = None


def swatched_plain(fabrics: Mapping[str, Fabric], key: str) -> Fabric | None:
    """Return the fabric of the same yarn and dial that was swatched on every needle, if any.

    It tells the width of a stitch that has no ladder beside it.
    """
    own = fabrics.get(key)
    return next((one for one in fabrics.values() if own and not (one.repeat or one.chart)
                 and (one.yarn, one.dial) == (own.yarn, own.dial)), None)


@dataclass(frozen=True, slots=True)
class Materials:
    """What a pattern is knitted of: yarns, the fabrics of their swatches, the charts of fabrics.

    Each is found by its key in the source.
    """

    yarns: Mapping[str, Yarn]
    fabrics: Mapping[str, Fabric]
    stitch_charts: Mapping[str, StitchChart]
