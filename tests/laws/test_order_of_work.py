"""The making up names the bands that a garment has and no others, in the order of its page."""

from __future__ import annotations

import re
from dataclasses import replace
from fractions import Fraction
from itertools import pairwise

import pytest
from walebook.catalogue.methods import SHOULDERS
from walebook.core.units import read_length
from walebook.forms.registry import FORMS
from walebook.machine.headings import Heading
from walebook.pages.making_up import making_up
from walebook.pattern.model import Pattern
from walebook.pattern.specs import ZipSpec
from walebook.plan.band_order import in_working_order
from walebook.plan.method_choice import JOINS
from walebook.proof.proof import prove
from walebook.shape.profile import How
from walebook.shape.tasks import Seam
from walebook.words.section_titles import title_of

from tests.laws import pieces
from tests.site.garments import garment, made_up

WORN = [name for name in FORMS if name.startswith(("drop", "set-in", "raglan", "saddle"))]
NAMED = {"neck": "neckband", "front_edge": "front bands", "armhole": "armhole bands"}


def banded(form: str, *edges: str) -> Pattern:
    """A garment of the form with bands along these edges alone, buttons left out."""
    whole = garment(form)
    return replace(whole, bands={band.key: replace(band, buttonholes=None)
                                 for band in whole.bands.values() if band.edge in edges})


def told(pattern: Pattern) -> tuple[str, ...]:
    """The order of work in the first size."""
    proof, problems = prove(pattern)
    assert proof is not None, [str(p) for p in problems]
    assembled = proof.sizes[0].assembled
    assert assembled is not None
    return made_up(assembled.garment)


@pytest.mark.parametrize("form", WORN)
def test_a_band_is_worked_where_there_is_one_and_nowhere_else(form: str) -> None:
    taken = [edge for edge in NAMED if edge in FORMS[form].edges]
    for edges in ((), *((edge,) for edge in taken), tuple(taken)):
        said = " ".join(told(banded(form, *edges)))
        assert [edge for edge in taken if NAMED[edge] in said] == list(edges)
        # What waits at a neck is closed by hand where no band takes it.
        assert ("wait at the neck" in said) == ("neck" not in edges)


@pytest.mark.sampled(12, each=("form", "bands"))
@pytest.mark.parametrize("form", WORN)
@pytest.mark.parametrize("bands", [True, False])
def test_every_join_is_told_where_it_is_sewn(form: str, bands: bool) -> None:
    proof, _ = prove(garment(form, bands=bands))
    assert proof is not None
    for size in proof.sizes:
        assert size.assembled is not None
        section = "".join(making_up(size.assembled.garment).values())
        assert "The edges to be joined have" not in section
        assert sum(section.count(said) for said in (
            "on either side", "the longer side", "this longer edge", "rows</b> of the ")) \
            - section.count("Top of the cap") == \
            len(size.assembled.garment.joins)


@pytest.mark.parametrize("form", [name for name in WORN if not name.startswith(("rag", "sad"))])
def test_side_seams_stand_under_the_step_that_sews_them(form: str) -> None:
    """However shoulders are joined: bands and zips come first, while the sides are open."""
    for method in (method.name for method in SHOULDERS):
        whole = garment(form, bands=False)
        assert whole.garment is not None
        proof, _ = prove(replace(whole, garment=replace(whole.garment, bind_off={JOINS: method})))
        assert proof is not None and proof.sizes[0].assembled is not None
        steps = "".join(making_up(proof.sizes[0].assembled.garment).values()).split("<li id=")
        assert any("Side seam, " in step for step in steps)
        for step in (step for step in steps if "Side seam, " in step):
            assert re.search(r"\b[Ss]ew [^.]*\bside (?:and sleeve )?seams", step)


@pytest.mark.parametrize("form", WORN)
def test_bands_come_on_the_page_as_the_making_up_works_them(form: str) -> None:
    pattern = banded(form, *NAMED)
    said = " ".join(told(pattern))
    order = [said.index(NAMED[band.edge]) for band in in_working_order(pattern.bands.values())]
    assert all(a < b for a, b in pairwise(order))


@pytest.mark.parametrize("form", [name for name in (*WORN, "sideways pullover")
                                  if "neck" in FORMS[name].edges])
def test_a_neck_is_hung_while_the_seam_it_begins_at_is_open(form: str) -> None:
    """A ring cannot be hung on a straight bed: which seam stays open is named by its side, the
    one at which the neck's edge begins, and it is sewn with the band's ends once the band is on."""
    proof, _ = prove(banded(form, "neck"))
    assert proof is not None and proof.sizes[0].assembled is not None
    garment_made = proof.sizes[0].assembled.garment
    said = made_up(garment_made)
    neck = garment_made.edges["neck"]
    if not neck.ring:
        assert not any("Leave" in sentence for sentence in said)
        return
    assert "from the left" in neck.title
    at = next(n for n, sentence in enumerate(said) if "work the neckband" in sentence.lower())
    assert any("Leave the left" in sentence and "open" in sentence for sentence in said[:at])
    assert "left" in said[at + 1]
    assert "Sew the neckband's ends together, edge to edge" in said[at + 1]


@pytest.mark.parametrize("form", WORN)
def test_seams_up_from_the_lower_edge_are_counted_in_one_way(form: str) -> None:
    """The rows of a hem's outer layer or of a rib lie in the seam as those above do."""
    proof, _ = prove(garment(form))
    assert proof is not None and proof.sizes[0].assembled is not None
    made = proof.sizes[0].assembled.garment
    seams = [j for j in made.joins if j.title.startswith(("side seam", "sleeve seam"))]
    assert len(seams) == len([p for p in made.pieces if p.key != "back"])
    for seam in seams:
        assert seam.title.endswith("from the lower edge")
        piece = next(p for p in made.pieces
                     if p.title.lower() in seam.title.partition(" and back")[0].split(", ")[-2:][0]
                     or p.title.lower() in seam.title)
        below = piece.hem.height if piece.hem else 0
        counted = [c for key, name, c in made.counts if key == piece.key
                   and name in ("rows_to_underarm", "rows_to_raglan", "rows_to_armhole")]
        if counted:
            assert seam.other == below + counted[0].value
            # Bound off at the left of the bed a row later, at the right of it on the other piece.
            level = any(p.left.changes and p.right.changes
                        and p.left.changes[0].how is How.BIND_OFF for p in (piece, made.pieces[0]))
            apart = {1} if level and "left front" not in seam.title and "sleeve" not in \
                seam.title else {0, 1}
            assert seam.one - seam.other in apart and seam.closes


@pytest.mark.parametrize("form", [name for name in WORN if name.startswith(("rag", "sad"))])
def test_a_raglan_edge_bound_off_a_row_later_has_a_row_less(form: str) -> None:
    """The left of one piece meets the right of the other, but at a front that is mirrored.

    Where a piece binds off at its left a row above its right, the row that is more below the
    underarm is missing above it.
    """
    proof, _ = prove(garment(form))
    assert proof is not None and proof.sizes[0].assembled is not None
    made = proof.sizes[0].assembled.garment
    (line,) = (c.value for key, name, c in made.counts if (key, name) == ("back", "raglan_rows"))
    for piece in (p for p in made.pieces if p.key in ("back", "sleeve")):
        right, left = (min(c.row for c in edge.changes if c.how is How.BIND_OFF)
                       for edge in (piece.right, piece.left))
        assert left == right + 1
    if form.startswith("raglan"):
        line += 1  # the row over the last decreases, which a saddle's sleeve has not
    seams = {j.title: (j.one, j.other, j.closes) for j in made.joins if j.seam is Seam.RAGLAN}
    assert seams == {f"raglan, {p.title.lower()} and sleeve":
                     (line, line - (0 if p.mirrored else 1), True)
                     for p in made.pieces if p.key != "sleeve"}


@pytest.mark.parametrize("form", ["set-in slipover", "raglan pullover", "saddle raglan pullover"])
def test_a_front_that_opens_below_the_underarm_is_a_row_off_at_its_right_only(form: str) -> None:
    """Both of its halves bind off in one row: the left one meets back and sleeve row for row."""
    slit = form.startswith("raglan")
    cut = pieces.cut(form, pieces.chart("women").measurements("M"),
                     pieces.gauge(Fraction(20), Fraction(28)), band=30 if slit else 0,
                     own={} if slit else {"front_neck": "34 cm"})
    made = FORMS[form].shape(replace(cut, placket=read_length("28 cm") if slit else None))
    front = next(p for p in made.pieces if p.key == "front")
    assert front.opening is not None and not any(
        c.how is How.BIND_OFF for c in (*front.left.changes, *front.right.changes))
    off = {j.title.partition(",")[0]: abs(j.off) for j in made.joins if "front" in j.title
           and j.seam in (Seam.SIDE, Seam.RAGLAN)}
    kinds = ("side seam", "raglan") if "raglan" in form else ("side seam",)
    assert off == {f"{side} {kind}": side == "right" for kind in kinds
                   for side in ("right", "left")}
    assert all(j.closes for j in made.joins)


def test_a_zip_is_set_in_after_the_bands_beside_it() -> None:
    pattern = banded("drop-shoulder waistcoat", "neck", "front_edge")
    front = replace(pattern.bands["front"], kind="single", fold=None, zip=ZipSpec(every=1))
    said = told(replace(pattern, bands={**pattern.bands, "front": front}))
    at = next(n for n, sentence in enumerate(said) if "zip" in sentence)
    assert "front bands" in said[at - 1]


@pytest.mark.parametrize("form", ["raglan pullover", "set-in pullover"])
def test_halves_are_named_as_they_are_worn(form: str) -> None:
    """Inside towards the knitter a front's right half lies at the right of the bed."""
    proof, _ = prove(garment(form))
    assert proof is not None
    for piece in proof.sizes[0].pieces:
        halves = [title_of(s, piece) for s in piece.program.sections
                  if s.heading is Heading.HALF]
        assert len(halves) == 2 * bool(piece.piece.opening)
        for half in halves:
            worn, bed = half.split(" as worn, the bed's ")
            same = worn.partition(" ")[0].lower() == bed.partition(" ")[0]
            assert same == (piece.piece.key != "back")
