"""The garment forms that a source can name: what each is, its measures, edges and pairs.

How a form is cut is in `forms/`, which has a builder for each.
"""

from __future__ import annotations

from collections.abc import Collection, Mapping
from dataclasses import field
from enum import Enum

from ..core.text_kinds import FindingText, Formulas, FormulaText, SourceName
from ..machine.records import dataclass
from ..pattern.model import Neck
from ..pattern.slope_specs import SIDES as SIDE_SLOPES
from ..pattern.slope_specs import Slope
from ..sizing.measures import leads, names_in
from . import form_measures as measures
from .edge_roles import EdgeRole, role_of
from .form_measures import EASE, HEADS, SIDES, TO_THE_HIP, Better, Optional, over_head

OPENED = ("front_edge", "right_front.front_edge", "left_front.front_edge", "neck",
          "front_and_neck")
CLOSED = ("neck", "placket")
FRONTS: Mapping[str, tuple[str, ...]] = {"fronts": ("right_front", "left_front")}
SLEEVES: Mapping[str, tuple[str, ...]] = {"sleeves": ("sleeve",)}
ROUND_NECKS = (Neck.ROUND, Neck.HIGH)  # those that a designer's centre, steps and curve shape
ROUND_THE_NECK = (Neck.ROUND, Neck.V)  # those whose fronts and neck can be one edge, hem to hem


class Sort(Enum):
    """The garments among which a form is looked for."""

    CARDIGANS = "cardigans"
    PULLOVERS = "pullovers"
    WAISTCOATS = "waistcoats"
    HATS = "hats"
    ACCESSORIES = "accessories"


class Construction(Enum):
    """How a form is cut, made up and drawn: `forms/registry.py` has a builder for each."""

    DROP_SHOULDER = "drop-shoulder"
    SET_IN = "set-in"
    RAGLAN = "raglan"
    SADDLE_RAGLAN = "saddle raglan"
    SIDEWAYS = "sideways"
    HAT = "hat"
    SHAWL = "triangular shawl"
    BLANKET = "panelled blanket"
    MITTEN = "mitten"
    OUTLINE = "own outline"


_RAGLANS = (Construction.RAGLAN, Construction.SADDLE_RAGLAN)


@dataclass(frozen=True, slots=True, kw_only=True)
class FormKind:
    """A form by name: what it is, of which sort and construction, and its measures' default sums.

    `edges` are the names bands can take, `pairs` the pieces that can be knitted side by side,
    by what they are called together, `plain` the pieces that no stitch chart is laid on.
    `better` and `halves` are what a measure is instead where chart or designer have more;
    `followed` names the measures that no piece is cut by, and says what is: only other measures
    follow them. `idle` is what such a one is where none follows it and the chart has no figure
    for it. `optional` are those that it takes and does not need. `body` names those of them
    that are a body's, no chart's: what each is called, and the finished measure that is worn on
    it, "" for none. `apart` are the keys of the pieces that can be of different fabrics. It
    `opens` at the front; one that is not `seamed` has pieces with no seam at their sides.
    """

    name: SourceName
    summary: str
    sort: Sort
    construction: Construction
    measures: Formulas
    edges: tuple[str, ...]
    pairs: Mapping[str, tuple[str, ...]] = field(default_factory=dict)
    plain: tuple[str, ...] = ()
    better: Better = field(default_factory=dict)
    halves: Mapping[str, str] = field(default_factory=dict)
    followed: Mapping[str, FindingText] = field(default_factory=dict)
    idle: Mapping[str, FormulaText] = field(default_factory=dict)
    optional: Mapping[str, Optional] = field(default_factory=dict)
    body: Mapping[str, tuple[str, str]] = field(default_factory=dict)
    apart: tuple[str, ...] = ()
    opens: bool = False
    seamed: bool = True

    @property
    def fronts(self) -> tuple[str, ...]:
        """The keys of the fronts of a form that has them."""
        return ("right_front", "left_front") if self.opens else ("front",)

    @property
    def pieces(self) -> tuple[str, ...]:
        """The keys of the pieces of a form of which some can be of another fabric, but for own
        pieces."""
        if self.construction is Construction.MITTEN:
            return ("hand", "thumb")
        return ("back", *self.fronts, *(("sleeve",) if self.sleeved else ()))

    def pieces_at(self, edge: str) -> tuple[str, ...]:
        """The keys of the pieces that have the edge of that name, the first of them in front."""
        body = (*self.fronts, "back")
        match role_of(edge):
            case EdgeRole.OUTLINE:
                return (edge.partition(".")[0],)
            case EdgeRole.NECK | EdgeRole.AROUND if self.construction in _RAGLANS:
                return (*body, "sleeve")
            case EdgeRole.NECK | EdgeRole.AROUND | EdgeRole.ARMHOLE:
                return body
            case EdgeRole.CUFF:
                return ("hand",)
            case _:
                return self.fronts

    @property
    def sleeved(self) -> bool:
        """True where it has sleeves."""
        return SLEEVES.items() <= self.pairs.items()

    @property
    def names(self) -> tuple[str, ...]:
        """Every measure that it knows, those that are optional last."""
        return (*self.measures, *self.optional)

    @property
    def is_worn(self) -> bool:
        """True where its own measures depend on a body's."""
        return any(name not in self.measures
                   for sum_ in self.measures.values() for name in names_in(sum_))

    def slopes(self, neck: Neck) -> tuple[Slope, ...]:
        """Return the slopes that a designer can schedule, of a garment with that neck."""
        raglan = self.construction in _RAGLANS
        has = {Slope.SLEEVE: self.sleeved, Slope.RAGLAN_BODY: raglan, Slope.RAGLAN_SLEEVE: raglan,
               Slope.V_NECK: neck is Neck.V and "front_neck" in self.measures,
               **dict.fromkeys(SIDE_SLOPES, "hem_width" in self.optional)}
        return tuple(slope for slope, there in has.items() if there)

    def bodies(self, given: Collection[str]) -> dict[str, tuple[str, str]]:
        """Return those of its `body` that are known: the designer has `given` the measure, or none
        of those that follow it."""
        return {name: words for name, words in self.body.items() if name in given or not any(
            one in given for one, sum_ in self.measures.items() if name in names_in(sum_))}

    def sums(self, rows: Collection[str], given: Mapping[str, str], *, slit: bool = False
             ) -> dict[str, str]:
        """Return the sum of every measure, for a chart with these `rows`.

        The first of the `better` ones whose names are all there, else the usual one. `given` are
        the designer's own sums: where she gave a measure and not the one that is half of it
        (`halves`: the half, then the whole), the half follows, unless her sum uses the half itself.
        A neck that a `slit` opens is as wide as an open garment's. An optional measure is there
        where one that it stands beside is given.
        """
        known = [row for row in rows if not (slit and row in HEADS)]
        found = dict(self.measures)
        for name, texts in self.better.items():
            if name in found:
                found[name] = next((text for text in texts if all(
                    used in self.measures or used in known for used in names_in(text))),
                    found[name])
        for half, whole in self.halves.items():
            if whole in given and half not in given and half not in leads(whole, given):
                found[half] = f"{whole} / 2"
        for name, one in self.optional.items():
            if one.sum and any(other in given for other in one.beside):
                found[name] = one.sum
        for name, instead in self.idle.items():
            used = {other for key, text in {**found, **given}.items() if key != name
                    for other in names_in(text)}
            if name not in {*given, *used} and not {*names_in(found[name])} <= {*known}:
                found[name] = instead
        return found


def _sort(*, opens: bool) -> Sort:
    return Sort.CARDIGANS if opens else Sort.PULLOVERS


def _fitted(name: SourceName, summary: str, *, set_in: bool, opens: bool, sleeves: bool
            ) -> FormKind:
    edges = OPENED if opens else CLOSED
    own = {name: words for name, words in (measures.SET_IN if set_in else measures.DROP).items()
           if sleeves or name not in measures.OF_SLEEVES}
    neck = {} if opens else over_head(own["neck_width"], "0.285", "0.27")
    construction = Construction.SET_IN if set_in else Construction.DROP_SHOULDER
    return FormKind(name=name, summary=summary, measures={**EASE, **own}, opens=opens,
                    construction=construction,
                    sort=_sort(opens=opens) if sleeves else Sort.WAISTCOATS,
                    edges=edges if sleeves else (*edges, "armhole"),
                    better={**TO_THE_HIP, **neck, **(measures.SET_IN_BETTER if set_in else {})},
                    halves={} if set_in or not sleeves else measures.HALVES,
                    followed=measures.followed(set_in=set_in, sleeves=sleeves),
                    idle={} if set_in else {"across": "chest_width"},
                    optional={**SIDES, **measures.shaping(set_in=set_in, sleeves=sleeves)},
                    apart=("sleeve",) if sleeves else (),
                    pairs={**(FRONTS if opens else {}), **(SLEEVES if sleeves else {})})


def _raglan(name: SourceName, summary: str, *, opens: bool) -> FormKind:
    neck = over_head(measures.RAGLAN["neck_width"], "0.285", "0.27")
    return FormKind(name=name, summary=summary, measures={**EASE, **measures.RAGLAN}, opens=opens,
                    sort=_sort(opens=opens), construction=Construction.RAGLAN,
                    edges=OPENED if opens else CLOSED, followed=measures.CHEST,
                    better={**TO_THE_HIP, **measures.RAGLAN_BETTER, **({} if opens else neck)},
                    optional=SIDES, apart=("sleeve",),
                    pairs={**FRONTS, **SLEEVES} if opens else SLEEVES)


def _saddle(name: SourceName, summary: str, *, opens: bool) -> FormKind:
    neck = over_head(measures.SADDLE["neck_width"], "0.26", "0.25")
    return FormKind(name=name, summary=summary, measures={**EASE, **measures.SADDLE}, opens=opens,
                    sort=_sort(opens=opens), construction=Construction.SADDLE_RAGLAN,
                    optional=SIDES, edges=OPENED if opens else ("neck",), followed=measures.CHEST,
                    apart=("sleeve",),
                    better={**TO_THE_HIP, **measures.SADDLE_BETTER, **({} if opens else neck)},
                    pairs={**FRONTS, **SLEEVES} if opens else SLEEVES)


FORM_KINDS: Mapping[str, FormKind] = {kind.name: kind for kind in (
    _fitted("drop-shoulder pullover", "straight to the shoulder, sleeves set on straight",
            set_in=False, opens=False, sleeves=True),
    _fitted("drop-shoulder cardigan", "the same, open at the front",
            set_in=False, opens=True, sleeves=True),
    _fitted("drop-shoulder waistcoat", "the same, open and without sleeves",
            set_in=False, opens=True, sleeves=False),
    _fitted("set-in pullover", "shaped armholes and sleeve caps",
            set_in=True, opens=False, sleeves=True),
    _fitted("set-in cardigan", "the same, open at the front",
            set_in=True, opens=True, sleeves=True),
    _fitted("set-in waistcoat", "shaped armholes, open and without sleeves",
            set_in=True, opens=True, sleeves=False),
    _fitted("set-in slipover", "shaped armholes, closed and without sleeves",
            set_in=True, opens=False, sleeves=False),
    _raglan("raglan pullover", "body and sleeves narrowing together to the neck", opens=False),
    _raglan("raglan cardigan", "the same, open at the front", opens=True),
    _saddle("saddle raglan pullover", "a raglan with a strap of the sleeve over each shoulder",
            opens=False),
    _saddle("saddle raglan cardigan", "the same, open at the front", opens=True),
    FormKind(name="sideways pullover", summary="its body turned: straight pieces knitted from "
             "side to side, a boat neck, sleeves set on straight", sort=Sort.PULLOVERS,
             construction=Construction.SIDEWAYS, measures={**EASE, **measures.SIDEWAYS},
             edges=("neck", "hem"), pairs=SLEEVES, halves=measures.HALVES,
             better={**TO_THE_HIP, **over_head(measures.SIDEWAYS["neck_width"], "0.42", "0.4")},
             followed=measures.SIDEWAYS_FOLLOWED),
    FormKind(name="hat", summary="knitted flat, the crown gathered and drawn up, one back seam",
             sort=Sort.HATS, construction=Construction.HAT, measures=measures.HAT,
             edges=("brim",), followed=measures.HAT_FOLLOWED),
    FormKind(name="triangular shawl", summary="from its long edge, short rows down to the tip",
             sort=Sort.ACCESSORIES, construction=Construction.SHAWL, measures=measures.SHAWL,
             edges=()),
    FormKind(name="panelled blanket", summary="panels of equal width, sewn row to row",
             sort=Sort.ACCESSORIES, construction=Construction.BLANKET, measures=measures.BLANKET,
             edges=(), seamed=False),
    FormKind(name="mitten", summary="knitted flat with a side seam, a small thumb sewn into it",
             sort=Sort.ACCESSORIES, construction=Construction.MITTEN, measures=measures.MITTEN,
             edges=("cuff",), plain=("thumb",), followed=measures.MITTEN_FOLLOWED,
             body=measures.HAND, pairs={"hands": ("hand",), "thumbs": ("thumb",)},
             apart=("thumb",)),
    FormKind(name="own outline", summary="pieces of your own, each given by points in measures, "
             "and joined as you say", sort=Sort.ACCESSORIES, construction=Construction.OUTLINE,
             measures={}, edges=()),
)}
