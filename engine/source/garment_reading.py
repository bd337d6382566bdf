"""The garment that a pattern asks for: its form, size chart, fabric, hem, and changed figures.

Its keys are declared in `keys.garment_keys`.
"""

from __future__ import annotations

from collections.abc import Collection, Mapping, Sequence
from dataclasses import field, replace

from ..catalogue.forms import Construction
from ..core.counts import ParityOf, Rounding
from ..core.problems import Place, has_errors
from ..core.text import clip, series, suggest
from ..core.units import Length
from ..fabric.piece_fabrics import SLEEVE
from ..forms.registry import FORMS, Form
from ..machine.records import dataclass
from ..pattern.conventions import Conventions
from ..pattern.fabrics import Fabric, NeedleBed, Yarn
from ..pattern.model import GarmentSpec, HemSpec, Neck, Wearer
from ..pattern.outlines import NO_OUTLINE, OutlineSpec
from ..pattern.rib_specs import RibSpec
from ..pattern.sketched import Sketched
from ..pattern.specs import PLAIN_CROWN
from ..pattern.stitch_chart import Alignment
from ..sizing.charts import Chart
from ..sizing.own_sizes import OwnSize, bodiless, with_own_sizes
from . import part_readers as parts
from .fabric_reading import named
from .fields import Fields
from .keys.garment_keys import GarmentKeys
from .keys.pattern_keys import PatternKeys
from .measure_reading import MeasuredForm, check_measures, plain, read_measures
from .method_reading import read_methods, read_stretch
from .open_edges import SLIT_EDGE
from .page_names import OWN_CHART
from .sizes import by_chart, check_sizes, warn_without_chart
from .values import Entry, Fault, Reader, Text


@dataclass(frozen=True, slots=True)
class Ground:
    """What a garment may use; a fabric or chart that is None has its fault recorded."""

    fabrics: Mapping[str, Fabric | None]
    own_sizes: tuple[OwnSize, ...]
    wearer: Wearer | None
    charts: Mapping[str, Chart | None]
    bed: NeedleBed | None = None
    yarns: Mapping[str, Yarn | None] = field(default_factory=dict)

    @property
    def sizes(self) -> tuple[str, ...]:
        """The names of the sizes."""
        return tuple(size.name for size in self.own_sizes)


def read_garment(fields: Fields, ground: Ground) -> GarmentSpec | None:
    """The garment under `garment`; None where there is none, or it has a fault."""
    own = fields.opened(PatternKeys.garment, "the garment")
    if own is None:
        return None
    form = own.need_as(GarmentKeys.form, _form)
    chart = _chart(own, form, ground)
    fabric, apart, hems, cuffs = _fabrics(own, form, ground)
    neck = own.get(GarmentKeys.neck)
    placket = _placket(own, form, ground.sizes)
    moved = own.get(GarmentKeys.moved)
    align = _align(own, fabric, *apart.values())
    body = _without_own(parts.read_body(own, chart, ground.sizes) if "body" in own else {},
                        ground.own_sizes)
    drawing = _drawing(own, form, chart)
    measures = read_measures(own, ground.sizes)
    form, outline = _outline(own, form, chart, measures, ground.sizes)
    if hems or cuffs:
        parts.check_rib_pieces(own, form, hems, cuffs)
    slopes = parts.read_slopes(own, form, neck, ground.sizes) if "slopes" in own else ()
    rounding, counts = _counts(own, form, ground.sizes)
    pairs = parts.read_pairs(own, form) if form and "side_by_side" in own else ()
    cast_on, bind_off = (read_methods(own, key)
                         for key in (GarmentKeys.cast_on, GarmentKeys.bind_off))
    stretch = read_stretch(own)
    pockets = parts.read_pockets(own, ground.sizes) if "pockets" in own else None
    cord = parts.read_cord(own, ground.wearer) if "cord" in own else None
    crown = parts.read_crown(own, form) if "crown" in own else PLAIN_CROWN
    conventions = _conventions(own, form, neck, ground.sizes)
    stripes = parts.read_stripes(own, fabric, ground.yarns, apart=bool(apart)) \
        if "stripes" in own else None
    names = parts.read_piece_names(own) if "names" in own else {}
    if "neck" in own or "moved" in own:
        parts.warn_of_idle(own, form, neck, crown)
    if chart is not None:
        _check_wearer(own, chart, ground.wearer)
    if form is None or chart is None:
        return None
    check_measures(own, MeasuredForm(form, chart, measures, body, ground.sizes, placket is not None,
                                     outline.measures, _was_read(form, outline), _at(own, ground)))
    if fabric is None:
        return None
    return GarmentSpec(form=form.name, chart=chart, fabric=fabric.key, neck=neck,
                       hem=next(iter(hems.values()), None), hems=hems, cuffs=cuffs,
                       piece_fabrics={key: one.key for key, one in apart.items()},
                       measures=measures, body=body, moved=moved, rounding=rounding,
                       counts=counts, cast_on=cast_on, bind_off=bind_off, bind_off_stretch=stretch,
                       placket=placket, side_by_side=pairs, align=align, drawing=drawing,
                       pockets=pockets, cord=cord, crown=crown, slopes=slopes, names=names,
                       conventions=conventions, stripes=stripes, outline=outline)


def _counts(own: Fields, form: Form | None, sizes: tuple[str, ...]
            ) -> tuple[Mapping[str, Rounding | ParityOf], Mapping[str, Mapping[str, int]]]:
    """How single counts are rounded, and those that are given outright, by size."""
    rounding = parts.read_rounding(own, form) if form and "round" in own else {}
    counts = parts.read_counts(own, form, sizes) if form and "counts" in own else {}
    if rounding and counts:
        parts.check_given_once(own, rounding, counts)
    return rounding, counts


def _outline(own: Fields, form: Form | None, chart: Chart | None,
             measures: Collection[str], sizes: tuple[str, ...]
             ) -> tuple[Form | None, OutlineSpec]:
    """The form with the counts of the designer's own pieces, and these pieces with their joins."""
    by_corners = form is not None and form.construction is Construction.OUTLINE
    if by_corners or "pieces" in own or "joins" in own:
        return parts.read_outline(own, form, chart, measures, sizes)
    return form, NO_OUTLINE


def _was_read(form: Form, spec: OutlineSpec) -> bool:
    """True unless a form by its corners has no pieces, since one of them or a join has a fault."""
    return form.construction is not Construction.OUTLINE or spec is not NO_OUTLINE


def _conventions(own: Fields, form: Form | None, neck: Neck, sizes: tuple[str, ...]
                 ) -> dict[str, Conventions]:
    """The shaping that is asked for, by size; nothing where none is."""
    shaped = any(key in own for key in ("armhole", "cap", "neckline", "shoulders"))
    found = parts.read_conventions(own, form, neck, sizes) if shaped else {}
    darts = parts.read_darts(own, form, sizes) if "darts" in own else {}
    bust = parts.read_bust(own, form, sizes) if "bust_darts" in own else {}
    tails = parts.read_tail(own, form, sizes) if "shirt_tail" in own else {}
    return {size: replace(found.get(size, Conventions()), darts=darts.get(size),
                          bust=bust.get(size), tail=tails.get(size))
            for size in sizes if size in {*found, *darts, *bust, *tails}}


def _fabrics(own: Fields, form: Form | None, ground: Ground
             ) -> tuple[Fabric | None, Mapping[str, Fabric], dict[str, HemSpec | RibSpec],
                        dict[str, HemSpec | RibSpec]]:
    """The fabric of the garment, those of single pieces, and hems and cuffs by size."""
    fabric = own.need_as(GarmentKeys.fabric, named("fabric", ground.fabrics))
    apart = parts.read_piece_fabrics(own, form, fabric, ground.fabrics) \
        if "piece_fabrics" in own else {}
    hems, cuffs = (parts.read_hem(own, key, above, ground.fabrics, ground.bed, ground.sizes)
                   if key.name in own else {} for key, above in ((GarmentKeys.hem, fabric),
                                      (GarmentKeys.cuff, apart.get(SLEEVE, fabric))))
    if "cuff" in own:
        parts.check_cuff(own, form)
    if apart:
        parts.check_feet(own, fabric, apart, next(iter(hems.values()), None), cuffs=bool(cuffs))
    return fabric, apart, hems, cuffs


def _form(entry: Entry) -> Form:
    expected = f"one of {', '.join(FORMS)}"
    name = Text(120, expected, "Write one of these.")(entry)
    if name not in FORMS:
        several = [form for form in FORMS if {*name.lower().split()} < {*form.split()}]
        remedy = f"Write {series(several)}." if len(several) > 1 else \
            suggest(name, FORMS, "Use one of these.")[1]
        raise Fault("unknown-form", entry.place, f'no form called "{clip(name)}"', expected,
                    remedy)
    return FORMS[name]


def _chart(own: Fields, form: Form | None, ground: Ground) -> Chart | None:
    """The size chart that is named, with the pattern's own sizes; one without measurements for
    what nobody wears, where none is."""
    free = form is not None and not form.is_worn and "chart" not in own
    chart = bodiless(ground.sizes) if free else own.need_as(
        GarmentKeys.chart, _chart_among(ground.charts))
    return _fitted(own, chart, ground.own_sizes)


def _chart_among(charts: Mapping[str, Chart | None]) -> Reader[Chart | None]:
    def read(entry: Entry) -> Chart | None:
        name = Text(120, "the name of a size chart", "Write a name such as women.")(entry)
        if name in charts:
            return charts[name]
        if name == OWN_CHART:
            raise Fault("unknown-name", entry.place, "no chart.yaml in the pattern's folder",
                        "the pattern's own size chart there",
                        "Write it, or use another chart by its name.")
        own = "rite own and put the pattern's own chart.yaml into its folder."
        expected, remedy = suggest(name, charts, f"Use one of these, or w{own}", f"W{own}")
        raise Fault("unknown-name", entry.place, f'no size chart called "{clip(name)}"', expected,
                    remedy)
    return read


def _placket(garment: Fields, form: Form | None, sizes: tuple[str, ...]
             ) -> dict[str, Length | int] | None:
    """How far the slit goes down from the neck, of a form that is closed at the front."""
    depth = garment.sized(GarmentKeys.placket, sizes)
    if depth is not None and form is not None and SLIT_EDGE not in form.edges:
        able = ", ".join(name for name, one in FORMS.items() if SLIT_EDGE in one.edges)
        garment.findings.fault("no-such-placket", garment.table.entries["placket"].place,
                               f"a placket in a {form.name}", f"it in one of {able}",
                               "Delete it, or choose another form.")
    return depth


def _align(garment: Fields, fabric: Fabric | None, *apart: Fabric) -> Alignment:
    """Where a chart's repeats lie; a fault where no fabric of its pieces has a chart."""
    entry = garment.entry(GarmentKeys.align)
    if entry is not None and fabric is not None and not any(
            one.chart for one in (fabric, *apart)):
        garment.findings.fault("align-without-chart", entry.place,
                               f'align in a garment of the plain fabric "{fabric.key}"',
                               "a fabric knitted from a stitch chart",
                               "Name a chart in the fabric, or delete it.")
    return garment.get(GarmentKeys.align)


def _drawing(garment: Fields, form: Form | None, chart: Chart | None) -> Sketched:
    """What the sketch shows; a warning where there is no body to be shown."""
    entry, shows = garment.entry(GarmentKeys.drawing), garment.get(GarmentKeys.drawing)
    bodies = form is None or chart is None or ("chest_width" in form.measures
                                               and "chest" in chart.rows)
    if entry is not None and shows is Sketched.BODY and not bodies:
        garment.findings.warn("unused", entry.place, "the body drawn in a garment that is cut for "
                              "no chest", remedy="Delete it.")
    return shows


def _fitted(garment: Fields, chart: Chart | None, sizes: Sequence[OwnSize]) -> Chart | None:
    """The chart with the pattern's own sizes; as it is where it has none of them."""
    findings = garment.findings
    if chart is None or not chart.key:
        warn_without_chart(findings, sizes if chart else ())
        return None if chart is None else with_own_sizes(chart, [
            replace(size, column=size.name, body={}) for size in sizes])
    before = len(findings.problems)
    check_sizes(findings, chart, sizes)
    sized = by_chart(findings, chart, sizes)
    return chart if has_errors(findings.problems[before:]) else with_own_sizes(chart, sized)


def _without_own(body: dict[str, dict[str, Length]], sizes: Sequence[OwnSize]
                 ) -> dict[str, dict[str, Length]]:
    """The garment's body measurements, but for those that a size says of itself."""
    own = {(size.name, name) for size in sizes for name in size.body}
    return {name: {size: length for size, length in by_size.items()
                   if (size, plain(name)) not in own} for name, by_size in body.items()}


def _at(garment: Fields, ground: Ground) -> dict[str, Place]:
    """The places of the sizes whose body the designer wrote, by their labels."""
    return {one.name: garment.findings.places[one.path] for one in ground.own_sizes if one.body}


def _check_wearer(garment: Fields, chart: Chart, wearer: Wearer | None) -> None:
    """Warn of a chart for others than the wearer: the cautions and the button side follow her."""
    worn_by = {w.value: w for w in Wearer if w is not Wearer.ANYONE}
    meant = worn_by.get(chart.key.rpartition("-")[2])
    anyone = wearer is Wearer.ANYONE and not (meant and meant.is_child)
    if meant is None or wearer is None or anyone or wearer is meant:
        return
    cautions = ", so that the cautions are shown" if meant.is_child else ""
    garment.findings.warn(
        "wearer-chart", garment.at(GarmentKeys.chart),
        f'the chart "{chart.key}" in a pattern for {wearer.value}', "a chart of the wearer's",
        f"Use another chart, or write wearer: {meant.value}{cautions}.")
