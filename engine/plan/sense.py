"""Is what a sound source says likely: its gauges on its bed, its edges from size to size?"""

from __future__ import annotations

from collections.abc import Iterator, Mapping
from fractions import Fraction

from ..catalogue.bands import KINDS, kinds_that
from ..catalogue.forms import FORM_KINDS, Construction
from ..core.counts import decimal
from ..core.problems import Problem, Severity, in_order, note
from ..core.ranges import COMPARED
from ..core.text_kinds import FindingText
from ..fabric.gauge import measure
from ..fabric.piece_fabrics import feet_of
from ..fabric.yarn import metres_for_pitch, metres_per_gram
from ..pattern.edges import EdgeSection, EdgeSpec
from ..pattern.fabrics import Fabric, Materials
from ..pattern.model import Band, GarmentSpec, Neck, Pattern
from ..pattern.places import Places
from ..pattern.rib_specs import RibMake, RibSpec
from ..sizing.grading import OutOfStep, look_across
from ..source.keys.edge_keys import EDGE_LENGTH
from . import part_planners
from .method_choice import too_firm
from .swatch_repeats import cut_repeats
from .swatch_yarn import unlikely_yarn

# A stitch's width as a share of the needle pitch. Common practice, no source: a stitch comes off
# narrower than its needle's place, to about half of it in a stretchy fabric, and hardly wider.
NARROWEST, WIDEST = Fraction(1, 2), Fraction(5, 4)
# Lengths are given to half a centimetre, so one may be that much out of an even step [cm].
HALF_CM = Fraction(1, 2)


def check(pattern: Pattern) -> tuple[Problem, ...]:
    """Return a warning for everything in `pattern` that is allowed but unlikely."""
    places, spec, materials, bands = (pattern.places, pattern.garment, pattern.materials,
                                      pattern.bands)
    return in_order([
        *_gauges(pattern), *_yarns(pattern), *_steps(places, pattern.edges, pattern.sizes),
        *_lengths(pattern), *too_firm(places, spec, bands), *_charts(places, materials),
        *_rolling(places, pattern.fabrics, bands), *cut_repeats(places, materials),
        *_corners(places, spec, bands), *_published(pattern), *_striped(places, spec, materials),
        *unlikely_yarn(pattern)])


def _charts(places: Places, materials: Materials) -> Iterator[Problem]:
    """What is said of stitch charts, where there are any."""
    if materials.stitch_charts:
        yield from part_planners.check_charts(places, materials)


def _striped(places: Places, spec: GarmentSpec | None, materials: Materials) -> Iterator[Problem]:
    """What is said of the yarns of stripes, where there are any."""
    if spec and spec.stripes:
        from .laid_stripes import unlike_yarns
        yield from unlike_yarns(places, spec, materials)


def rolls(fabrics: Mapping[str, Fabric], band: Band) -> bool:
    """True for a band of one layer of stocking stitch that is not sewn down behind its edge.

    It rolls to its knit side at the bound-off edge; a rib or needles left out of work keep a band
    flat. Common practice, no source.
    """
    kind, fabric = KINDS[band.kind], fabrics.get(band.fabric or "")
    return kind.curls and not (fabric and (fabric.chart or fabric.repeat))


def curls_in(fabrics: Mapping[str, Fabric], band: Band) -> bool:
    """True for one layer of stocking stitch whose rows run along the edge: its free edge curls to
    the purl side. Common practice, no source."""
    kind, fabric = KINDS[band.kind], fabrics.get(band.fabric or "")
    return kind.lengthwise and not kind.doubled and not (
        fabric and (fabric.chart or fabric.repeat))


def _rolling(places: Places, fabrics: Mapping[str, Fabric], bands: Mapping[str, Band]
            ) -> Iterator[Problem]:
    """Buttonholes in a band that rolls up, and they with it."""
    for band in bands.values():
        if band.buttonholes and curls_in(fabrics, band):
            yield note(
                Severity.REMARK, "band-rolls", places.of(f"bands.{band.key}.kind"),
                found="buttonholes in a lengthwise band of one layer of stocking stitch, which "
                      "curls in along its free edge",
                expected="a band that lies flat",
                remedy=f"Write kind: {_flat_lengthwise()}. On a practice piece, accept the remark.")
        if band.buttonholes and rolls(fabrics, band):
            yield note(
                Severity.REMARK, "band-rolls", places.of(f"bands.{band.key}.kind"),
                found="buttonholes in a band of one layer of stocking stitch, which rolls",
                expected="a band that lies flat",
                remedy="Write kind: folded or kind: enclosing; or name a fabric with needles out "
                       "of work. On a practice piece, accept the remark.")


def _flat_lengthwise() -> str:
    """The kind of lengthwise band that lies flat."""
    return next(iter(kinds_that(lambda one: one.lengthwise and one.doubled)))


def _published(pattern: Pattern) -> Iterator[Problem]:
    """A source that the site shows to everyone, so that a reader's device can work with it."""
    place = pattern.places.of("reader_may_change")
    if pattern.reader_change is None:
        return
    if pattern.files_only:
        yield note(Severity.WARNING, "unused", place,
                   found="reader_may_change beside publish: files only",
                   remedy="It does nothing there: the site has no page of a size. Delete it.")
        return
    yield note(
        Severity.REMARK, "source-public", place,
        found="a source that a reader may work with at her own gauge",
        expected="that you know what is published: the whole source, with its remarks behind #, "
                 "its size chart, its bed, and the shared file where it takes entries from there",
        remedy="It lies on a site that has the runtime, for anyone to read. Accept the remark, or "
               "delete reader_may_change.")


# How a front with a V is cut that has a point at the bottom, where it does not open.
POINTED = (Construction.DROP_SHOULDER, Construction.SET_IN, Construction.RAGLAN)


def _corners(places: Places, spec: GarmentSpec | None, bands: Mapping[str, Band]
            ) -> Iterator[Problem]:
    """One band round square corners, with no stitches for the turn: where a round neck begins, or
    at a square neck; or round the point of a V.

    A row of a band gains or loses 0.75 of a stitch at either side of a square corner
    (bands/one-piece.md), which a mitre gives it.
    """
    neck = spec.neck if spec else None
    for band in bands.values():
        kind = KINDS[band.kind]
        mitre = "Write mitre: yes, or " if kind.mitres and not band.buttonholes else "Write "
        if band.mitre:
            continue
        if band.garment_edge == "neck" and neck in (Neck.SQUARE, Neck.BOAT) and kind.stands \
                and spec and \
                FORM_KINDS[spec.form].construction is not Construction.SIDEWAYS:
            yield note(
                Severity.REMARK, "band-corner", places.of(f"bands.{band.key}.kind"),
                found=f"a band that stands round the square corners of a {neck.value} neck",
                expected="stitches that go at each corner, as a mitre takes them",
                remedy=f"{mitre}kind: facing; or lay a fold at each corner as the page says, or "
                       "choose neck: round.")
        elif _pointed(spec) and band.garment_edge == "neck" and kind.stands \
                and not kind.collar:
            facing = "kind: facing" if kind.mitres else "kind: folded with mitre: yes"
            yield note(
                Severity.REMARK, "band-corner", places.of(f"bands.{band.key}.kind"),
                found="a band that stands round the point of a V, with no mitre",
                expected="stitches that go at the point, as a mitre takes them",
                remedy=f"{mitre}{facing}; or lay a fold at the point as the page says, or "
                       "choose neck: round.")
        elif band.garment_edge == "front_and_neck" and neck is Neck.ROUND and not kind.collar:
            yield note(
                Severity.REMARK, "band-corner", places.of(f"bands.{band.key}.edge"),
                found="one band round the two square corners where a round neck begins",
                expected="stitches for the turn, as a mitre gives them",
                remedy=f"{mitre}a band for edge: neck and one for edge: front_edge, which runs "
                       "over its ends; or choose neck: v.")


def _pointed(spec: GarmentSpec | None) -> bool:
    """True for a garment whose front has a V and does not open."""
    if not spec or spec.neck is not Neck.V or spec.placket is not None:
        return False
    form = FORM_KINDS[spec.form]
    return not form.opens and form.construction in POINTED


def _beds(spec: GarmentSpec | None, fabric: Fabric) -> int:
    """How many stitches a needle's width has in a fabric: two where every needle of two beds
    knits."""
    full = [foot.fabric for foot in feet_of(spec)
            if isinstance(foot, RibSpec) and foot.make is RibMake.TWO_BED and all(foot.works)]
    return 2 if fabric.key in full else 1


def _gauges(pattern: Pattern) -> Iterator[Problem]:
    pitch = pattern.bed.pitch
    for fabric in pattern.fabrics.values():
        stitch = measure(fabric.swatches).stitch * _beds(pattern.garment, fabric)
        if NARROWEST <= stitch / pitch.mm <= WIDEST:
            continue
        how = "wide" if stitch > pitch.mm else "narrow"
        yield note(
            Severity.WARNING, "gauge-off-bed", pattern.places.of(f"fabrics.{fabric.key}"),
            found=f'stitches {decimal(stitch, 1)} mm wide in fabric "{fabric.key}", on needles '
                  f"{pitch.in_mm()} apart",
            expected=f"stitches of {decimal(pitch.mm * NARROWEST, 1)} to "
                     f"{decimal(pitch.mm * WIDEST, 1)} mm on such a bed",
            remedy=f"So {how} a stitch is rare: check the swatch's figures, their units, and the "
                   "bed.")


def _yarns(pattern: Pattern) -> Iterator[Problem]:
    """Yarns far from what needles of the bed's pitch are made for, where every needle knits.

    The layer behind a fold may be of a thin one.
    """
    needed = metres_for_pitch(pattern.bed.pitch)
    usual = COMPARED["share of the length for the bed"]
    inside = {band.facing_fabric for band in pattern.bands.values()}  # thin on purpose
    for fabric in pattern.fabrics.values():
        long = metres_per_gram(pattern.yarns[fabric.yarn])
        if long is None or fabric.repeat or fabric.key in inside \
                or usual.is_plausible(long / needed):
            continue
        how = "thin" if long > needed else "thick"
        yield note(
            Severity.WARNING, "yarn-off-bed", pattern.places.of(f"fabrics.{fabric.key}.yarn"),
            found=f"a yarn of {decimal(long * 100, 0)} m to 100 g in fabric "
                  f'"{fabric.key}", on needles {pattern.bed.pitch.in_mm()} apart',
            expected=f"about {decimal(needed * 100, 0)} m to 100 g, half or twice as much at most",
            remedy=f"So {how} a yarn is rare on this bed: check its count, its package and its "
                   "ends.")


def _steps(places: Places, edges: Mapping[str, EdgeSpec], sizes: tuple[str, ...]
          ) -> Iterator[Problem]:
    for edge in edges.values():
        for key, found in _found_along(edge, sizes):
            yield note(
                Severity.WARNING, "out-of-step", places.of(f"edges.{edge.key}.{key}",
                                                               found.size),
                found=found.text, expected="sizes, the smallest first, that grow by even steps",
                remedy="Check the figure.", size=found.size)


def _lengths(pattern: Pattern) -> Iterator[Problem]:
    """Edges that are given in rows and come out unlikely long or short by their gauge."""
    row = EDGE_LENGTH.range
    for edge in pattern.edges.values():
        if edge.rows is None:
            continue
        high = measure(pattern.fabrics[edge.fabric].swatches).row
        for size in pattern.sizes:
            long = edge.rows[size] * high
            if not row.is_plausible(long):
                yield note(
                    Severity.WARNING, "unlikely-value",
                    pattern.places.of(f"edges.{edge.key}.rows", size), size=size,
                    found=f"{edge.rows[size]} rows of {decimal(high, 1)} mm, "
                          f"{decimal(long / 10, 1)} cm",
                    expected=row.usual, remedy="Check the rows, and the swatch of the fabric.")


def _found_along(edge: EdgeSpec, sizes: tuple[str, ...]) -> Iterator[tuple[str, OutOfStep]]:
    """What is out of step along an edge, section by section, and the key it stands under."""
    if not edge.sections:
        key = "rows" if edge.length is None else "length"
        for found in _first_of_each(_across(f'edge "{edge.key}"', edge, sizes), sizes):
            yield key, found
    for part in edge.sections:
        named: FindingText = f'section "{part.title}" of edge "{edge.key}"'
        for found in _first_of_each(_across(named, part, sizes), sizes):
            yield "sections", found


def _across(named: str, along: EdgeSpec | EdgeSection, sizes: tuple[str, ...]
            ) -> tuple[OutOfStep, ...]:
    if along.length is not None:
        lengths = [(size, along.length[size].cm) for size in sizes]
        return look_across(f"{named} in cm", lengths, grain=HALF_CM, rises=True)
    stitches = along.stitches if isinstance(along, EdgeSection) else None
    unit, counts = ("rows", along.rows) if stitches is None else ("stitches", stitches)
    assert counts is not None
    whole = [(size, Fraction(counts[size])) for size in sizes]
    return look_across(f"{named} in {unit}", whole, grain=Fraction(1), rises=True)


def _first_of_each(found: tuple[OutOfStep, ...], sizes: tuple[str, ...]) -> Iterator[OutOfStep]:
    """The first of those that follow one another: a wrong figure also makes the next step odd."""
    before = -2
    for one in found:
        at = sizes.index(one.size)
        if at != before + 1:
            yield one
        before = at
