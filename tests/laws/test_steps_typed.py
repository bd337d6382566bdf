"""What a step does, and with which yarn, is typed: pages print the words that `words/` has."""

from __future__ import annotations

from dataclasses import fields
from typing import get_args, get_type_hints

import pytest
from walebook.catalogue.methods import BIND_OFF_METHODS, CAST_ON_METHODS, Method
from walebook.machine import edge_steps, rib_steps, set_up_steps, steps, two_yarn_steps
from walebook.machine.step_keys import BindOffMethod, CastOnMethod, StepYarn
from walebook.words.terms.yarn_names import yarn_name

from tests.whole_collection import collection, files

MODULES = (edge_steps, rib_steps, set_up_steps, steps, two_yarn_steps)
KINDS = sorted({kind for module in MODULES for kind in vars(module).values()
                if isinstance(kind, type) and issubclass(kind, steps.Step)},
               key=lambda kind: kind.__name__)
NAMES = {"edge", "cord"}  # of edges, and of openings


@pytest.mark.parametrize("kind", KINDS)
def test_a_step_has_no_text_but_the_names_of_edges(kind: type[steps.Step]) -> None:
    types = get_type_hints(kind)
    texts = {field.name for field in fields(kind)
             if str in (types[field.name], *get_args(types[field.name]))}
    assert texts <= NAMES


def test_every_way_of_a_step_has_its_words() -> None:
    made: list[Method] = [*map(CAST_ON_METHODS.__getitem__, CastOnMethod),
                          *map(BIND_OFF_METHODS.__getitem__, BindOffMethod)]
    assert len({method.phrase for method in made}) == len(made) - 1  # one chain is made both ways


def test_every_way_of_a_step_is_written_somewhere() -> None:
    written = {step.method for proof in collection().proofs for size in proof.sizes
               for work in (*size.pieces, *size.strips) for step in work.program.steps
               if isinstance(step, steps.CastOn | edge_steps.BindOff)}
    assert written == {*CastOnMethod, *BindOffMethod}


def test_every_yarn_has_a_name_that_is_not_its_key() -> None:
    names = [yarn_name(yarn) for yarn in StepYarn if yarn is not StepYarn.NONE]
    assert len(set(names)) == len(names)
    assert not {*names} & {*StepYarn}


def test_no_page_prints_the_key_of_a_yarn() -> None:
    used = {yarn for proof in collection().proofs for size in proof.sizes
            for work in (*size.pieces, *size.strips) for step in work.program.steps
            if (yarn := getattr(step, "yarn", StepYarn.NONE))}
    assert len(used) >= 8
    for name, text in files().items():
        assert not [yarn for yarn in used if yarn in text], name
    pages = "".join(files().values())
    assert all(yarn_name(yarn) in pages for yarn in used)
