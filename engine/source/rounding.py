"""How a designer wants the counts of a garment's pieces rounded.

    garment:
      round:
        back cast on: {multiple: 4, plus: 2}
        sleeve cast on: {parity_of: back cast on}
        sleeve rows to underarm: up

What is left out is rounded as its kind of count is (see roundings).
"""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import replace

from ..core.counts import RULES, ParityOf, Rounding
from ..core.problems import Place
from ..core.text import clip, nearest
from ..forms.registry import Form
from .fields import Fields, Findings, named_entries, open_fields
from .measures import plain
from .source import Table
from .values import Entry, Fault, Reader, text, whole_number, word

ROUND_EXAMPLE = "{back cast on: even}"
RULE_EXAMPLE = "{multiple: 4, plus: 1}"
_WORDS = {rule: Rounding(rule) for rule in RULES if rule != "multiple"}
Wishes = dict[str, Rounding | ParityOf]


def read_rounding(garment: Fields, form: Form) -> Wishes:
    """What is asked of the counts of `form`, by their names in it."""
    entry = garment.entry("round")
    if entry is None:
        return {}
    counts = {plain(name): name for name in form.rounds}
    asked: Wishes = {}
    for item in named_entries(garment.findings, entry, "counts to round", ROUND_EXAMPLE, 40):
        named = replace(item, path=f"{garment.path}.round.{plain(item.label)}")
        name = garment.findings.read(replace(named, place=_key(entry, item)),
                                     lambda at: _known(at, at.label, form, counts))
        wish = _wish(garment.findings, named, form, counts)
        if name and wish:
            asked[name] = wish
    _check_circle(garment, asked)
    return asked


def _key(entry: Entry, item: Entry) -> Place:
    return entry.node.entries[item.label].place if isinstance(entry.node, Table) else item.place


def _known(entry: Entry, label: str, form: Form, counts: Mapping[str, str]) -> str:
    """The count that a label names. Raises Fault with all that there are."""
    if plain(label) in counts:
        return counts[plain(label)]
    listed = [name.replace("_", " ") for name in form.rounds]
    near = nearest(label, listed)
    raise Fault("no-such-count", entry.place,
                f'no count "{clip(label)}" of a {form.name} that can be rounded',
                f"one of {', '.join(listed)}",
                f"Write {near}." if near else "The other counts follow from these.")


def _wish(findings: Findings, entry: Entry, form: Form, counts: Mapping[str, str]
          ) -> Rounding | ParityOf | None:
    if not isinstance(entry.node, Table):
        return findings.read(entry, word(_WORDS))
    own = open_fields(findings, entry, "the rounding", ("multiple", "plus", "parity_of"),
                      RULE_EXAMPLE)
    if own is None or own.one_of("multiple", "parity_of", RULE_EXAMPLE) is None:
        return None
    if "parity_of" in own:
        name = own.need("parity_of", _count(form, counts), "back cast on")
        return None if name is None else ParityOf(name)
    multiple = own.need("multiple", whole_number("multiple"), "4")
    if multiple is None:
        return None
    return Rounding("multiple", multiple, own.get(
        "plus", whole_number("stitches over a multiple", most=multiple - 1), 0))


def _count(form: Form, counts: Mapping[str, str]) -> Reader[str]:
    def read(entry: Entry) -> str:
        label = text(80, "the name of a count", "Write one, such as back cast on.")(entry)
        return _known(entry, label, form, counts)
    return read


def _check_circle(garment: Fields, asked: Wishes) -> None:
    """Record counts that take their parity from one another, each circle once."""
    seen: set[str] = set()
    for name in asked:
        chain = [name]
        while isinstance(wish := asked.get(chain[-1]), ParityOf) and wish.name not in chain:
            chain.append(wish.name)
        if isinstance(wish, ParityOf) and not seen & set(chain):
            said = [one.replace("_", " ") for one in (*chain, wish.name)]
            garment.findings.fault(
                "cannot-round", garment.findings.places[f"{garment.path}.round.{plain(name)}"],
                f"a parity taken in a circle: {' of '.join(said)}", "one that is rounded outright",
                "Round one of them to even or odd.")
        seen |= set(chain)
