"""The kinds of band that a source can name: what each is, takes and can have."""

from __future__ import annotations

from collections.abc import Callable, Mapping
from enum import Enum

from ..core.text_kinds import SourceName
from ..machine.records import dataclass
from ..pattern.holes import ButtonholeKind
from ..pattern.model import Fold
from .methods import FOLDED, SEWN_ON, SINGLES, Method


class Making(Enum):
    """How a kind of band is knitted: `program/bands` has a module that writes the steps of each."""

    ENCLOSING = "knitted apart and closed around the edge"
    FOLDED = "knitted onto the edge and folded"
    SINGLE = "knitted onto the edge in one layer"
    LATCHED = "knitted in one layer and latched up"
    FACING = "folded behind the edge"
    CASING = "folded, with a channel"
    COLLAR = "a collar of one layer"
    DOUBLE_COLLAR = "a collar of two layers"
    SHAWL = "short rows of one layer"
    DOUBLE_SHAWL = "short rows of two layers"
    LENGTHWISE = "knitted apart, its rows along the edge, and sewn on"


@dataclass(frozen=True, slots=True, kw_only=True)
class BandKind:
    """A kind of band, by the name a source gives it.

    Kinds of one `making` share their steps. `layers` are 2 where it is folded. `page` is its
    reference page. It `stands` above the edge it is worked on, or lies behind it. `bind_offs`
    are those it can end by, its own first, none where there is no choice. `asks` are the keys
    that only it takes, `needs` those it cannot do without. It `falls` over from the neck, which
    must then open at the front; its ends `meet` there, over half of the top of each front band,
    where a band that does not meet laps as they do. It `grades` where each of its rows can have
    a different dial, and `mitres` where its edge turns, at the point of a V or at square
    corners. One that `rolls` is worn rolled. `collar` says whether it is one. `fold` is how it
    folds where the source says nothing, None for one that does not fold. `lays_out` says that its
    rows can have needles left out of work, `ends_sewn` that its two ends are sewn shut, `channel`
    that a cord or elastic goes through it, and `latched` that its rows are latched up into a rib. A
    `lengthwise` one is as many needles wide as it is deep: its rows run along the edge.
    """

    name: SourceName
    summary: str
    making: Making
    layers: int
    buttonhole_kinds: tuple[ButtonholeKind, ...]
    page: str
    stands: bool
    bind_offs: tuple[Method, ...] = ()
    asks: tuple[str, ...] = ()
    needs: tuple[str, ...] = ()
    falls: bool = False
    meets: bool = False
    grades: bool = False
    mitres: bool = False
    rolls: bool = False
    collar: bool = False
    fold: Fold | None = None
    lays_out: bool = False
    ends_sewn: bool = False
    channel: bool = False
    latched: bool = False
    lengthwise: bool = False

    @property
    def doubled(self) -> bool:
        """True where it lies in two layers: what is inside is hidden between them."""
        return self.layers == 2

    @property
    def faces(self) -> bool:
        """True for one layer that is folded behind the garment and sewn down there."""
        return self.fold is not None and not self.doubled

    @property
    def curls(self) -> bool:
        """True for one layer of plain fabric with a free edge, which rolls to its knit side."""
        return not (self.doubled or self.faces or self.latched or self.lengthwise)


USUAL = "enclosing"
"""The kind of a band of which the source says none."""

ALONG_ROWS = (ButtonholeKind.BOUND_OFF, ButtonholeKind.ONE_STITCH, ButtonholeKind.TWO_STITCHES)
"""The holes of a band whose rows run along its edge: made between two rows, across its width."""

KINDS: Mapping[str, BandKind] = {kind.name: kind for kind in (
    BandKind(name="enclosing", making=Making.ENCLOSING,
             summary="knitted apart, folded, and closed around the edge",
             layers=2, buttonhole_kinds=(ButtonholeKind.ENCLOSED,), page="bands/enclosing.html",
             stands=True, grades=True, mitres=True, fold=Fold.TURNED, ends_sewn=True),
    BandKind(name="folded", making=Making.FOLDED,
             summary="knitted onto the edge and folded to the inside", layers=2,
             buttonhole_kinds=(ButtonholeKind.ENCLOSED, ButtonholeKind.EYELET, ButtonholeKind.SLIT,
                               ButtonholeKind.LOOPS),
             page="bands/folded.html", stands=True, grades=True, mitres=True, bind_offs=FOLDED,
             asks=("facing_fabric",), fold=Fold.TURNED, ends_sewn=True, lays_out=True),
    BandKind(name="single", making=Making.SINGLE,
             summary="one layer, bound off", layers=1,
             buttonhole_kinds=(ButtonholeKind.ONE_STITCH, ButtonholeKind.TWO_STITCHES,
                               ButtonholeKind.BOUND_OFF, ButtonholeKind.EYELET,
                               ButtonholeKind.SLIT, ButtonholeKind.LOOPS),
             page="bands/single.html", stands=True, grades=True, mitres=True, bind_offs=SINGLES,
             lays_out=True),
    BandKind(name="rolled", making=Making.SINGLE,
             summary="one layer of plain rows that rolls outward", layers=1,
             buttonhole_kinds=(), page="bands/rolled.html", stands=True, bind_offs=SINGLES,
             rolls=True),
    BandKind(name="ribbed", making=Making.LATCHED,
             summary="one layer, latched up into a rib", layers=1, buttonhole_kinds=(),
             page="bands/latched-rib.html", stands=True, bind_offs=SINGLES, asks=("rib",),
             latched=True),
    BandKind(name="facing", making=Making.FACING,
             summary="turned to the inside and sewn down", layers=1,
             buttonhole_kinds=(ButtonholeKind.LOOPS,), page="bands/facing.html", stands=False,
             asks=("facing_fabric",), mitres=True, fold=Fold.TURNED, lays_out=True),
    BandKind(name="casing", making=Making.CASING,
             summary="knitted onto the edge and folded, with a channel for a cord or elastic",
             layers=2, buttonhole_kinds=(), page="bands/casing.html", stands=True, bind_offs=FOLDED,
             asks=("cord",), fold=Fold.TURNED, channel=True),
    BandKind(name="lengthwise", making=Making.LENGTHWISE,
             summary="knitted apart on a few needles, its rows along the edge, and sewn on",
             layers=1, buttonhole_kinds=ALONG_ROWS, page="bands/lengthwise.html", stands=True,
             bind_offs=SEWN_ON, asks=("rows_along", "stretch"), lays_out=True, lengthwise=True),
    BandKind(name="folded lengthwise", making=Making.LENGTHWISE,
             summary="knitted so at twice its width, folded along its middle and sewn on twice",
             layers=2, buttonhole_kinds=ALONG_ROWS, page="bands/lengthwise.html", stands=True,
             bind_offs=SEWN_ON, asks=("rows_along", "stretch"), ends_sewn=True, lengthwise=True),
    BandKind(name="stand collar", making=Making.DOUBLE_COLLAR, collar=True,
             summary="stands up round the neck, two layers folded at its upper edge", layers=2,
             buttonhole_kinds=(), page="bands/collar-stand.html", stands=True, bind_offs=FOLDED,
             asks=("outer_dial",), fold=Fold.TURNED),
    BandKind(name="single stand collar", making=Making.COLLAR, collar=True,
             summary="stands up round the neck, one layer, bound off", layers=1,
             buttonhole_kinds=(), page="bands/collar-stand.html", stands=True, bind_offs=SINGLES,
             asks=("outer_dial",)),
    BandKind(name="shirt collar", making=Making.COLLAR, collar=True,
             summary="falls over from the neck, one layer, with two points", layers=1,
             buttonhole_kinds=(), page="bands/shirt-collar.html", stands=False, bind_offs=SINGLES,
             asks=("points", "outer_dial", "shows"), falls=True, meets=True),
    # Of two layers either side is a knit side, whichever way it is worn.
    BandKind(name="double shirt collar", making=Making.DOUBLE_COLLAR, collar=True,
             summary="falls over from the neck, two layers folded at the outer edge", layers=2,
             buttonhole_kinds=(), page="bands/shirt-collar.html", stands=False, bind_offs=FOLDED,
             asks=("points", "outer_dial"), falls=True, meets=True, fold=Fold.TURNED),
    BandKind(name="shawl collar", making=Making.SHAWL, collar=True,
             summary="falls over from fronts and neck, deeper behind the neck, one layer",
             layers=1, buttonhole_kinds=(), page="bands/shawl-collar.html", stands=True,
             bind_offs=SINGLES, asks=("back_depth", "shows"), needs=("back_depth",), falls=True),
    BandKind(name="double shawl collar", making=Making.DOUBLE_SHAWL, collar=True,
             summary="falls over from fronts and neck, deeper behind the neck, two layers",
             layers=2, buttonhole_kinds=(), page="bands/shawl-collar.html", stands=True,
             bind_offs=FOLDED, asks=("back_depth",), needs=("back_depth",), falls=True,
             fold=Fold.TURNED),
)}


def kinds_that(is_so: Callable[[BandKind], object]) -> tuple[str, ...]:
    """Return the names of the kinds of which something is true, in the order of the catalogue."""
    return tuple(kind.name for kind in KINDS.values() if is_so(kind))
