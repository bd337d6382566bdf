"""Needles left out of work, under every declared key that names a fabric: laid out, or refused.

The keys come from the one declaration of keys, so that a new one is drawn without a line here:
beside each key that stands with it, in every form and kind. The arranged fabric is the only one
that is knitted at its dial: each row of that dial lies as the arrangement says, on the bed's trace.
"""

from __future__ import annotations

import re
from collections.abc import Iterator
from functools import cache
from random import Random
from typing import Any

import pytest
import yaml
from declared import ALL, Declared, Source, in_place, value_of, written
from walebook.catalogue.bands import KINDS
from walebook.core.problems import Severity
from walebook.forms.registry import FORMS
from walebook.machine.steps import Dial, Increase, Knit, Transfer
from walebook.proof.proof import Proof
from walebook.source.keys.band_keys import BandKeys
from walebook.source.keys.garment_keys import GarmentKeys
from walebook.source.keys.hem_keys import HEM_KINDS, HemKeys
from walebook.source.keys.key import Key, Name, Several
from walebook.source.keys.pattern_keys import PatternKeys

from tests.laws.test_any_source import judged
from tests.laws.test_arranged_fabrics import KNITTED, is_rib, lies, of_form

ONLY_DIAL = Dial(29)  # 9.2, of the arranged fabric alone
LAID: Source = {"yarn": "main", "dial": "9.2", "needles": "2 in 1 out", "swatch": {
    "stitches": "20", "width": "20 cm", "rows": "30", "height": "20 cm", "mass": "12 g"}}
NOT_KNITTED = {"edges.fabric"}  # says of what an edge is: a band by rule is counted from it
KIND_OF = {"HemKeys": HEM_KINDS, "BandKeys": KINDS}  # the words of keys called `kind`


def names_fabric(key: Key[Any]) -> bool:
    """True for a key whose value, or each of its values, is the name of a fabric."""
    read = key.read.item if isinstance(key.read, Several) and not key.table else key.read
    return isinstance(read, Name) and read.what == "fabric"


PLACES = [one for one in ALL if one.root is PatternKeys and names_fabric(one.key)]


def mapping(source: Source, one: Declared, table: str) -> Source:
    """The mapping of a table, among those above the key and its own."""
    at: Any = source
    for above, key in one.above:
        if above.__name__ == table:
            return dict(at)
        at = at[key.name]
        if isinstance(key.read, Several):
            at = at[next(iter(value_of(key.example)))] if key.read.by_name else at[0]
    return dict(at)


def put(source: Source, one: Declared, table: str, more: Source) -> None:
    """Write entries into that mapping; null takes one out."""
    at: Any = source
    for above, key in one.above:
        if above.__name__ == table:
            break
        at = at[key.name]
        if isinstance(key.read, Several):
            at = at[next(iter(value_of(key.example)))] if key.read.by_name else at[0]
    at.update(more)
    for name in [name for name, said in at.items() if said == "null"]:
        del at[name]


def named(one: Declared, form: str) -> Any:
    """The arranged fabric as the value of the key."""
    if not isinstance(one.key.read, Several):
        return "laid"
    return {Random(form).choice((*FORMS[form].apart, "sleeve")) if form else "sleeve": "laid"}


def base(one: Declared, kind: str) -> Source:
    """The source with the arranged fabric under the key, of a form or kind, "" for the usual."""
    in_garment = any(key is PatternKeys.garment for _, key in one.above)
    form = kind if in_garment and kind in FORMS else ""
    source = in_place(one, named(one, form))
    source["fabrics"] = {**source["fabrics"], "laid": LAID}
    if form:
        usual = dict.fromkeys(("chart", "measures"), "null")
        put(source, one, "GarmentKeys", {
            **usual, **{name: said for name, said in of_form(form).items()
                        if name != "fabric" or one.key is not GarmentKeys.fabric}})
        source["sizes"] = ["woman" if form == "hat" else "M"]
    elif kind:
        put(source, one, one.table.__name__, {"kind": kind, **needed(one, kind)})
    return source


def needed(one: Declared, kind: str) -> Source:
    """What that kind of hem or band must have beside it."""
    if one.table is HemKeys:
        return ({"needles": LAID["needles"], "rib": "null"} if "mock" in kind else
                {"rib": "1x1"} if "rib" in kind else {"rib": "null"})
    made = {name: value_of(BandKeys.keys[name].example) for name in KINDS[kind].needs}
    if KINDS[kind].bind_offs:
        made["bind_off"] = "back-stitched"  # a chain would draw the arrangement in
    return {**made, **({"fold": "loose"} if KINDS[kind].fold else {})}


def kinds(one: Declared) -> list[str]:
    """The forms and kinds that the mapping of a key can be of, "" for the usual one."""
    found = ["", *KIND_OF.get(one.table.__name__, ())]
    return [*found, *FORMS] if any(key is PatternKeys.garment for _, key in one.above) else found


def beside(one: Declared) -> list[str]:
    """The other keys of the mapping, "" for none of them."""
    return ["", *(name for name in one.table.keys if name not in (one.key.name, "kind", "form"))]


def spec(one: Declared, kind: str, other: str) -> str:
    """A source with the arranged fabric under the key and another key beside it."""
    source = base(one, kind)
    if other:
        key = one.table.keys[other]
        example = {"dial": LAID["dial"], "dials": f"[{LAID['dial']}, 9.1]"}.get(other, key.example)
        more = {**yaml.load(f"{{{key.beside}}}", yaml.BaseLoader), other: value_of(example)}
        more |= dict.fromkeys((*key.or_else, *key.instead_of), "null")
        here = mapping(source, one, one.table.__name__)
        more = {name: said for name, said in more.items()
                if name != one.key.name and (name == other or name not in here or said == "null")}
        put(source, one, one.table.__name__, {name: said for name, said in more.items()
                                              if not (name == "fabric" and said == "null")})
    text: str = written(source)
    return text


def knitted(proof: Proof) -> Iterator[tuple[str, list[bool]]]:
    """Each row at the arranged fabric's dial, with the needles it lies on, up to where a rib is
    filled or a top gathered."""
    programs = [(piece.piece.key, piece.program, piece.trace) for size in proof.sizes
                for piece in size.pieces]
    programs += [(strip.plan.band.key, strip.program, strip.trace) for size in proof.sizes
                 for strip in size.strips]
    for name, program, run in programs:
        steps = [step for section in program.sections for step in section.steps]
        for step, state in zip(steps, run.states, strict=False):
            if isinstance(step, Increase) or (isinstance(step, Transfer) and step.rest):
                break
            if isinstance(step, Knit) and step.yarn in KNITTED and step.dial == ONLY_DIAL:
                yield name, lies(state.loaded)


@cache
def judge(text: str) -> str:
    """"laid", "refused", "nowhere", or what is wrong."""
    proof, found = judged(text)
    if proof is None:
        errors = tuple(p for p in found if p.severity is Severity.ERROR)
        assert errors and all(p.remedy for p in errors)
        assert not any(p.code == "bed-refuses" for p in found), [str(p) for p in found]
        return "refused"
    seen = list(knitted(proof))
    wrong = [f"{name}: {on}" for name, on in seen if not is_rib(on, LAID["needles"])]
    return f"{len(wrong)} rows, {wrong[0]}" if wrong else "laid" if seen else "nowhere"


def test_the_keys_that_name_a_fabric_are_found() -> None:
    """Else nothing would be drawn: the page about pattern sources says "the name of" a fabric."""
    said = {str(one) for one in ALL if re.search(r"\b[Ff]abrics?\b", one.key.meaning)
            and one.key.example in ("body", "band", "welt", "{sleeve: body}", "lining")}
    assert {str(one) for one in PLACES} >= said > set()


CASES = [(one, kind, other) for one in PLACES for kind in kinds(one) for other in beside(one)]


def sound(one: Declared, kind: str, other: str) -> bool:
    """True where a source is refused or laid out; what names no knitted fabric may be nowhere."""
    found = judge(spec(one, kind, other))
    return found in ("laid", "refused") or (found == "nowhere" and str(one) in NOT_KNITTED)


@pytest.mark.parametrize("one", PLACES, ids=str)
def test_an_arranged_fabric_under_a_key_is_laid_out_or_refused(one: Declared) -> None:
    cases = [case for case in CASES if case[0] is one]
    for case in Random(str(one)).sample(cases, min(12, len(cases))):
        assert sound(*case), (case[1:], judge(spec(*case)))


@pytest.mark.parametrize(("place", "kind", "other"), [
    ("garment.fabric", "hat", "hem"), ("garment.piece_fabrics", "mitten", "fabric"),
    ("garment.hem.fabric", "hung mock rib", "joining_dial"),
    ("garment.cuff.fabric", "mock rib", ""),
    ("bands.fabric", "single", "zip"), ("bands.fabric", "folded", "zip"),
    ("bands.fabric", "facing", "zip")])
def test_what_can_be_laid_out_is(place: str, kind: str, other: str) -> None:
    """Else the law would hold where all is refused."""
    (one,) = (one for one in PLACES if str(one) == place)
    assert judge(spec(one, kind, other)) == "laid"


@pytest.mark.parametrize(("place", "kind", "other"), [
    ("garment.fabric", "drop-shoulder cardigan", "pockets"), ("bands.fabric", "casing", "cord"),
    ("bands.facing_fabric", "folded", "")])
def test_what_cannot_be_is_refused(place: str, kind: str, other: str) -> None:
    """Pockets, a casing and a facing are knitted on every needle."""
    (one,) = (one for one in PLACES if str(one) == place)
    assert judge(spec(one, kind, other)) == "refused"


@pytest.mark.long
@pytest.mark.parametrize("one", PLACES, ids=str)
def test_beside_every_key_in_every_form_and_kind(one: Declared) -> None:
    for case in CASES:
        if case[0] is one:
            assert sound(*case), (case[1:], judge(spec(*case)))
