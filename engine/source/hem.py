"""How the pieces of a garment begin: with a hung hem, or a rib of one bed or two.

      hem: {depth: 3 cm, fold: loose, dial: 4}
      hem: {kind: latched rib, rib: 2x2, depth: 6 cm, fabric: welt}
      hem: {kind: mock rib, needles: 2 in 1 out, depth: 5 cm}

Left out, the kind is hung; a hem folds by a loose row; a dial is that of the rib's own fabric,
else two numbers below the piece's.
"""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import replace
from typing import Any

from ..catalogue.bands import BandKind
from ..catalogue.forms import Construction
from ..core.counts import Rounding
from ..core.text import clip, suggest
from ..core.units import Length
from ..fabric.arrangement import repeat_text
from ..fabric.piece_fabrics import SLEEVE
from ..forms.registry import FORMS, Form
from ..machine.steps import Dial
from ..pattern.fabrics import Fabric, NeedleBed, Repeat
from ..pattern.model import HemSpec
from ..pattern.rib_specs import RibMake, RibSpec, RibStitches
from ..shape.ribs import ONE_BED, RIBS, fitting
from .fabric_reading import named
from .fields import Fields, read_by_size
from .keys.band_keys import BandKeys
from .keys.garment_keys import GarmentKeys
from .keys.hem_keys import HEM_KINDS, HUNG, RIB_STITCHES, HemKeys
from .keys.key import Key
from .measure_reading import plain
from .values import Word

Feet = dict[str, HemSpec | RibSpec]  # by size
DIALS_BELOW = Dial(2 * 3)  # hems and ribs: common practice, no source
_FOREIGN: Mapping[RibMake | None, tuple[Key[Any], ...]] = {
    None: (HemKeys.rib, HemKeys.needles, HemKeys.fabric, HemKeys.ends, HemKeys.stitches),
    RibMake.MOCK: (HemKeys.fold, HemKeys.joining_dial), RibMake.HUNG: (HemKeys.fold,),
    RibMake.LATCHED: (HemKeys.fold, HemKeys.needles, HemKeys.joining_dial),
    RibMake.TWO_BED: (HemKeys.fold, HemKeys.needles, HemKeys.joining_dial)}


def read_hem(garment: Fields, key: Key[Any], fabric: Fabric | None,
             fabrics: Mapping[str, Fabric | None], bed: NeedleBed | None, sizes: tuple[str, ...]
             ) -> dict[str, HemSpec | RibSpec]:
    """The hem or rib under `key` by size; nothing where there is none, or it has a fault."""
    own = garment.opened(key, "the cuff" if key is GarmentKeys.cuff else "the hem")
    if own is None:
        return {}
    depths = own.sized(HemKeys.depth, sizes)
    spec = _spec(own, next(iter(depths.values()), None) if depths else None, fabric, fabrics, bed)
    if spec is None or depths is None:
        return {}
    places, stitches = own.findings.places, _stitches(own, sizes)
    at = {size: places.get(f"{own.path}.{HemKeys.depth.name}.{size}", own.at(HemKeys.depth))
          for size in depths}
    return {size: replace(spec, depth=depth, place=at[size], stitches=stitches[size])
            if isinstance(spec, RibSpec) else replace(spec, depth=depth, place=at[size])
            for size, depth in depths.items()}


def _stitches(hem: Fields, sizes: tuple[str, ...]) -> dict[str, dict[str, RibStitches]]:
    """The stitches of ribs that have others than their pieces, by size and by piece."""
    found: dict[str, dict[str, RibStitches]] = {size: {} for size in sizes}
    for item in hem.each(HemKeys.stitches):
        named_ = replace(item, path=f"{hem.path}.{HemKeys.stitches.name}.{plain(item.label)}")
        for size, figure in (read_by_size(hem.findings, named_, RIB_STITCHES, sizes) or {}).items():
            place = hem.findings.places.get(f"{named_.path}.{size}", item.place)
            found[size][plain(item.label)] = RibStitches(figure, place)
    return found


def check_rib_pieces(garment: Fields, form: Form | None, hems: Feet, cuffs: Feet) -> None:
    """Record stitches of ribs of pieces that the form has not, or that begin otherwise."""
    if form is None:
        return
    begun = [name.partition(" ")[0] for name in form.rounds if name.endswith(" cast_on")]
    sleeves = [SLEEVE] if cuffs else []
    for feet, able in ((hems, [one for one in begun if one not in sleeves]), (cuffs, sleeves)):
        foot = next(iter(feet.values()), None)
        for key, count in foot.stitches.items() if isinstance(foot, RibSpec) else ():
            if key not in able and count.place:
                expected, remedy = suggest(key, able, "Use one of these.")
                garment.findings.fault(
                    "unknown-name", count.place, f'stitches of the rib of a piece "{clip(key)}", '
                    "which has none here", expected, remedy)


def check_cuff(garment: Fields, form: Form | None) -> None:
    """Record a cuff in a form whose sleeves begin at no cuff, or that has no sleeves."""
    entry = garment.entry(GarmentKeys.cuff)
    able = [name for name, one in FORMS.items() if has_cuffs(one)]
    if entry is not None and form is not None and form.name not in able:
        garment.findings.fault("not-of-form", entry.place, f"a cuff in a {form.name}",
                               f"it in one of {', '.join(able)}",
                               "Delete it, or choose another form.")


def has_cuffs(form: Form) -> bool:
    """True for a form whose sleeves are knitted upward from a cuff."""
    return "cuff_width" in form.measures and form.construction is not Construction.SIDEWAYS


def _spec(own: Fields, depth: Length | int | None, fabric: Fabric | None,
          fabrics: Mapping[str, Fabric | None], bed: NeedleBed | None) -> HemSpec | RibSpec | None:
    """A hem or rib that is so deep; None once a fault is recorded."""
    kind = own.need(HemKeys.kind) if "kind" in own else HUNG
    if kind is None:
        return None
    make = HEM_KINDS[kind]
    joining = own.get(HemKeys.joining_dial)
    _refuse_foreign(own, kind)
    if make is None:
        fold, setting = own.get(HemKeys.fold), _dial(own, fabric)
        if depth is None or setting is None:
            return None
        return HemSpec(depth=depth, fold=fold, dial=setting, joining=joining)
    if make is RibMake.TWO_BED:
        _need_second(own, bed)
    works = _works(own, make)
    swatched = own.get_as(HemKeys.fabric, named("fabric", fabrics), None)
    _need_same_needles(own, make, works, swatched)
    setting = _rib_dial(own, swatched, fabric)
    if depth is None or works is None or setting is None:
        return None
    return RibSpec(make=make, works=works, depth=depth, dial=setting, ends=own.get(HemKeys.ends),
                   fabric=swatched.key if swatched else "", joining=joining)


def read_band_rib(band: Fields, kind: BandKind, rounding: Rounding
                  ) -> tuple[tuple[bool, ...], Rounding]:
    """The rib of a ribbed band and the counts that it fits; of any other kind `rounding`."""
    if BandKeys.rib.name not in kind.asks:
        return RIBS["1x1"], rounding
    works = band.get(BandKeys.rib)
    fits = fitting(works, seamed=False)
    both = rounding.among(fits)
    if both is None:
        band.findings.fault("cannot-round", band.at(BandKeys.round),
                            f"{band.what} rounded to {rounding}", f"{fits}, as its rib needs it",
                            "Leave the rounding out, or use another rib.")
    return works, both or fits


def _need_second(hem: Fields, bed: NeedleBed | None) -> None:
    if bed is not None and not bed.second:
        hem.findings.fault("no-second-bed", hem.at(HemKeys.kind),
                           f'a two-bed rib on the bed "{bed.name}", which has no second bed',
                           "a bed that a second one can be set facing",
                           "Use such a bed, write second_bed: yes where yours is described, or "
                           "use another kind of rib.")


def _refuse_foreign(hem: Fields, kind: str) -> None:
    """Record entries that this kind of hem does not take."""
    foreign = _FOREIGN[HEM_KINDS[kind]]
    taken = [key.name for key in HemKeys.keys.values() if key not in foreign]
    for key in foreign:
        if entry := hem.entry(key):
            hem.findings.fault("not-of-kind", entry.place, f'"{key.name}" in a hem of the kind '
                               f"{kind}", f"only {', '.join(taken)}",
                               "Delete it, or change the kind.")


def _works(hem: Fields, make: RibMake) -> tuple[bool, ...] | None:
    """The rib's repeat, by its name or as needles in and out of work."""
    names = RIBS if make is RibMake.TWO_BED else ONE_BED
    folded = make in (RibMake.MOCK, RibMake.HUNG)
    if folded and hem.one_of(HemKeys.rib, HemKeys.needles) is not HemKeys.rib:
        return hem.get_as(HemKeys.needles, HemKeys.needles.read, None)
    return hem.need_as(HemKeys.rib, Word(names))


def _need_same_needles(hem: Fields, make: RibMake, works: tuple[bool, ...] | None,
                       swatched: Fabric | None) -> None:
    """Record a rib whose swatch was knitted with a chart, or on other needles than the rib is."""
    if swatched is None or works is None or (swatched.repeat is None and not swatched.chart):
        return
    mock = make in (RibMake.MOCK, RibMake.HUNG)
    if swatched.repeat and mock and swatched.repeat.works == works:
        return
    how = f"needles {repeat_text(swatched.repeat)} of work" if swatched.repeat else "a chart"
    own = f"needles {repeat_text(Repeat(works=works))} of work" if mock else "every needle in work"
    hem.findings.fault(
        "rib-needles", hem.at(HemKeys.fabric),
        f'a {make.value} of the fabric "{swatched.key}", which was swatched with {how}', own,
        "Write the rib as its swatch was knitted, or name another fabric." if mock and
        swatched.repeat else "Name a fabric that was swatched as the rib is knitted.")


def _rib_dial(hem: Fields, swatched: Fabric | None, fabric: Fabric | None) -> Dial | None:
    """The dial of the rib's own fabric, which is of the garment's yarn, or as a hem's."""
    if "fabric" not in hem:
        return _dial(hem, fabric)
    if "dial" in hem:
        hem.one_of(HemKeys.dial, HemKeys.fabric)
    if swatched is None:
        return None
    if fabric is not None and swatched.yarn != fabric.yarn:
        hem.findings.fault("rib-yarn", hem.at(HemKeys.fabric),
                           f'a rib of the yarn "{swatched.yarn}" below one of "{fabric.yarn}"',
                           "the same yarn", "Swatch the rib in the yarn of the piece above it.")
    return swatched.dial


def _dial(hem: Fields, fabric: Fabric | None) -> Dial | None:
    """The dial of a hem or rib by that of its fabric; None once it is recorded that there is none.
    """
    if "dial" in hem or fabric is None:
        return hem.get(HemKeys.dial)
    thirds = fabric.dial.thirds - DIALS_BELOW.thirds
    if thirds < 0:
        hem.findings.fault("no-dial", hem.place, "no dial in the hem, and two numbers below the "
                           f"{fabric.dial} of its fabric is off the dial",
                           remedy='Add a line such as "dial: 1".')
        return None
    return Dial(thirds)
