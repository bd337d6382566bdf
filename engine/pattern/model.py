"""What a designer said, typed and whole: the immutable pattern every later stage reads."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import field
from enum import Enum
from fractions import Fraction
from typing import TypeVar

from ..core.counts import NEAREST, ParityOf, Rounding
from ..core.problems import Place
from ..core.units import Length
from ..machine.records import dataclass
from ..machine.steps import Dial
from ..sizing.charts import Chart
from ..sizing.measures import Definition
from .conventions import Conventions
from .corrections import Correction, WithdrawnSize
from .designer_notes import DesignerNote
from .edges import EdgeSpec
from .fabrics import Fabric, Materials, NeedleBed, Yarn
from .holes import Buttonholes
from .outlines import NO_OUTLINE, OutlineSpec
from .pictures import Picture
from .places import Places
from .publishing import Publish, ReaderChange, Status
from .rib_specs import RibSpec
from .sketched import Sketched
from .slope_specs import SlopeSpec
from .specs import PLAIN_CROWN, BandCord, CordSpec, CrownSpec, PocketSpec, ZipSpec
from .stitch_chart import Alignment, StitchChart
from .stripes import StripesSpec

T = TypeVar("T")
BySize = Mapping[str, T]  # every size of the pattern is a key


class Wearer(Enum):
    """Who wears it: decides the button side and which cautions are shown."""

    WOMEN = "women"
    MEN = "men"
    CHILDREN = "children"
    BABIES = "babies"
    ANYONE = "anyone"

    @property
    def is_child(self) -> bool:
        """True where the cautions on children's clothes apply."""
        return self in (Wearer.CHILDREN, Wearer.BABIES)


class Fold(Enum):
    """How a band is made to fold along its length."""

    TURNED = "turned"
    LOOSE = "loose"
    PICOT = "picot"


@dataclass(frozen=True, slots=True, kw_only=True)
class BandRows:
    """The rows of a folded band between its landmarks [rows]."""

    to_holes: int
    holes_to_fold: int
    fold_to_holes: int
    to_finish: int


class Shown(Enum):
    """Which side of a collar of one layer is seen once it has fallen over."""

    KNIT = "knit"
    PURL = "purl"


@dataclass(frozen=True, slots=True, kw_only=True)
class CollarSpec:
    """What a designer asks of a collar; all None for any other band.

    `points` is how far each end goes out at the outer edge, `outer_dial` the setting reached
    there, `back_depth` the depth at the back of the neck where the ends are as deep as the
    band, `shows` the side that is seen of a single layer that falls over.
    """

    points: BySize[Length] | None = None
    outer_dial: Dial | None = None
    back_depth: BySize[Length] | None = None
    shows: Shown | None = None


@dataclass(frozen=True, slots=True, kw_only=True)
class Band:
    """A band along an edge, of a kind in the catalogue.

    Its stitches come from its own swatched `fabric`, else from the `pick_up` rule in stitches per
    row (3/4: three for every four rows). Its finished `depth` or its `rows` are given, or by size
    what lies `across` its edge: rows of a layer, or of one sewn on the stitches on its needles.
    `along` has its stitches along the edge by size, or the rows of one sewn on, where the designer
    gives them. `ease` is a share of the edge: −2 % draws in. `dials` grade the tension from the
    edge to the fold; none: `dial` holds for all rows. `bind_off` names its way off, "" the kind's
    own. `rib` is the repeat of a ribbed one, True where a stitch stands out. `facing_fabric` is
    that behind the fold, "" for the band's own. One sewn on gets longer by `stretch`, a share.
    `own_edge` is the source's, and `places` are those of its entries by their paths.
    """

    key: str
    title: str
    edge: str
    yarn: str
    dial: Dial
    kind: str
    dials: tuple[Dial, ...] = ()
    mitre: bool = False
    fabric: str | None
    pick_up: Fraction | None
    depth: BySize[Length] | None
    rows: BandRows | None
    across: BySize[int] = field(default_factory=dict)
    along: BySize[int] = field(default_factory=dict)
    fold: Fold
    ease: Fraction = Fraction(0)
    rounding: Rounding = NEAREST
    waste_rows: int = 8
    stitches_in: int = 2
    buttonholes: Buttonholes | None = None
    bind_off: str = ""
    collar: CollarSpec = CollarSpec()
    rib: tuple[bool, ...] = (True, False)
    zip: ZipSpec | None = None
    cord: BandCord | None = None
    facing_fabric: str = ""
    stretch: Fraction = Fraction(0)
    own_edge: bool = False
    places: Mapping[str, Place] = field(default_factory=dict, compare=False)

    @property
    def garment_edge(self) -> str:
        """The name of the garment's own edge that it takes, "" where the source describes one."""
        return "" if self.own_edge else self.edge

    def __post_init__(self) -> None:
        if (self.fabric is None) == (self.pick_up is None):
            raise ValueError(f"band {self.key}: a swatched fabric or a pick-up rule")
        if (self.depth is None and not self.across) == (self.rows is None):
            raise ValueError(f"band {self.key}: a depth or rows, one of the two")


class Neck(Enum):
    """The necklines a form can have."""

    ROUND = "round"
    V = "v"
    SQUARE = "square"
    BOAT = "boat"
    HIGH = "high"


@dataclass(frozen=True, slots=True, kw_only=True)
class HemSpec:
    """A hung hem as asked: its finished depth or the rows of a layer, its fold, its dial, and that
    of its joining row, None for the usual one."""

    depth: Length | int
    fold: Fold
    dial: Dial
    joining: Dial | None = None
    place: Place | None = field(default=None, compare=False)  # of its depth in the source


@dataclass(frozen=True, slots=True, kw_only=True)
class GarmentSpec:
    """A whole garment as asked for: its form, the body chart, and the designer's own measures.

    `hem` is that of the first size, and of any that `hems` lacks; `cuffs` by size, if they differ.
    `measures` are expressions by name and size, over the form's own defaults; `body` single
    body measurements changed, by name and size, `readers` a reader's. `moved` stitches move with
    each decrease. `rounding` has the rules of single counts, by their names in the form;
    `counts` are given outright, by name and size. `cast_on` and `bind_off` are ways by name, for a
    piece by its key or, under "", for all. `bind_off_stretch` says of ways off by name how far an
    edge stretches, as a share. `placket` is how far a slit goes down from the front neck,
    `side_by_side` the keys of pieces that are knitted so: two, or one that has a copy.
    `piece_fabrics` are those of pieces by their keys, `fabric` that of all others. `align` says
    where a chart's repeats lie, `conventions` how edges are shaped, `names` what pieces are called.
    """

    form: str
    chart: Chart
    fabric: str
    neck: Neck
    hem: HemSpec | RibSpec | None
    measures: Mapping[str, BySize[Definition]]
    body: Mapping[str, Mapping[str, Length]]
    hems: BySize[HemSpec | RibSpec] = field(default_factory=dict)
    cuffs: BySize[HemSpec | RibSpec] = field(default_factory=dict)
    moved: int = 3
    rounding: Mapping[str, Rounding | ParityOf] = field(default_factory=dict)
    counts: Mapping[str, BySize[int]] = field(default_factory=dict)
    cast_on: Mapping[str, str] = field(default_factory=dict)
    bind_off: Mapping[str, str] = field(default_factory=dict)
    bind_off_stretch: Mapping[str, Fraction] = field(default_factory=dict)
    placket: BySize[Length | int] | None = None
    side_by_side: tuple[tuple[str, ...], ...] = ()
    piece_fabrics: Mapping[str, str] = field(default_factory=dict)
    align: Alignment = Alignment.CENTRE
    drawing: Sketched = Sketched.GARMENT
    pockets: PocketSpec | None = None
    cord: CordSpec | None = None
    crown: CrownSpec = PLAIN_CROWN
    slopes: tuple[SlopeSpec, ...] = ()
    conventions: BySize[Conventions] = field(default_factory=dict)
    stripes: StripesSpec | None = None
    names: Mapping[str, str] = field(default_factory=dict)
    outline: OutlineSpec = NO_OUTLINE
    readers: Mapping[str, Mapping[str, Length]] = field(default_factory=dict)

    @property
    def fabrics(self) -> tuple[str, ...]:
        """Every fabric that its pieces are knitted in, each once."""
        return tuple(dict.fromkeys((self.fabric, *self.piece_fabrics.values())))

    def fabric_of(self, piece: str) -> str:
        """The fabric of the piece with that key."""
        return self.piece_fabrics.get(piece, self.fabric)


@dataclass(frozen=True, slots=True, kw_only=True)
class Pattern:
    """A pattern as its designer wrote it, every value checked, every name resolved.

    `places` are those of its entries in the source, `notes` the text of notes.md, `techniques`
    addresses of her pages by the names of ours, `designer_notes` hers at places, `accepted` remarks
    kept quiet, each its code and mark. `former_sizes` are labels that sizes had before, by those
    they have.
    """

    slug: str
    title: str
    version: str
    date: str
    designer: str
    licence: str
    summary: str
    wearer: Wearer
    bed: NeedleBed
    yarns: Mapping[str, Yarn]
    fabrics: Mapping[str, Fabric]
    sizes: tuple[str, ...]
    edges: Mapping[str, EdgeSpec]
    bands: Mapping[str, Band]
    garment: GarmentSpec | None = None
    stitch_charts: Mapping[str, StitchChart] = field(default_factory=dict)
    skills: tuple[str, ...] = ()
    pictures: tuple[Picture, ...] = ()
    corrections: tuple[Correction, ...] = ()
    notes: str = ""
    designer_notes: tuple[DesignerNote, ...] = ()
    techniques: Mapping[str, str] = field(default_factory=dict)
    accepted: tuple[str, ...] = ()
    contact: str = ""
    former_sizes: Mapping[str, tuple[str, ...]] = field(default_factory=dict)
    withdrawn_sizes: tuple[WithdrawnSize, ...] = ()
    status: Status = Status.PUBLISHED
    publish: Publish = Publish.PAGES
    reader_change: ReaderChange | None = None
    reader_keeps: tuple[str, ...] = ()
    places: Places = field(default_factory=Places)

    @property
    def files_only(self) -> bool:
        """True where the site shows the overview alone, and sizes are handed over as files."""
        return self.publish is Publish.FILES_ONLY

    @property
    def materials(self) -> Materials:
        """Its yarns, the fabrics that they were swatched as, and the charts of these."""
        return Materials(self.yarns, self.fabrics, self.stitch_charts)
