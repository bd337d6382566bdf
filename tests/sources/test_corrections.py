"""A correction names a piece or band and a step: what the pages have of it, and what is refused.

The band is that of test_compare.py; how many steps it has is read off the page.
"""

from __future__ import annotations

import json
import re
from dataclasses import replace
from pathlib import Path

import pytest
from harbour_store import BAND, SLUG, write
from walebook.pages import write_pages
from walebook_site.command import main
from walebook_site.reading import Reading
from walebook_site.sources import Proved, Prover, collect

ROOT = Path(__file__).parents[2]
HEAD = "corrections:\n  - {date: 2026-11-20, text: A row more., version: 1.0.0, "


def page_of(root: Path, more: str) -> str:
    """The page of size M of the band with a correction."""
    write(root, BAND + HEAD + more + "}\n")
    proof, = collect(root).proofs
    return next(page.text for page in write_pages(proof) if page.path.endswith("/m.md"))


def facts(page: str) -> str:
    found = re.search(r'"corrections":(\[.*?\}\])', page)
    return found[1] if found else ""


def test_the_page_leads_to_the_step_on_either_front(tmp_path: Path) -> None:
    page = page_of(tmp_path, "at: front, step: 4")
    section = page.split('id="corrections"')[1].split("</details>")[0]
    assert re.findall(r'href="(#[^"]+)">(step 4 of Front band[^<]*)<', section) == [
        (f"#front-{side}-4", f"step 4 of Front band, {side} front, with{out} buttonholes")
        for side, out in (("left", "out"), ("right", ""))]
    assert "If you have not reached this step, knit it as this page says." in section
    assert all(f'<li id="front-{side}-4">' in page for side in ("right", "left"))
    assert facts(page) == ('[{"version":"1.0.0","text":"A row more.","parts":["front-left",'
                           '"front-right"],"step":4}]')


def test_a_size_that_is_not_concerned_has_neither(tmp_path: Path) -> None:
    page = page_of(tmp_path, "at: front, step: 4, sizes: [S]")
    assert facts(page) == "" and 'id="corrections"' not in page


def test_a_size_shows_what_this_version_put_right_before_all_else(tmp_path: Path) -> None:
    """One line at the head, which opens; it stood in a closed fold below the order of work."""
    page = page_of(tmp_path, "at: front, step: 4}\n  - {date: 2026-11-20, text: An older one., "
                   "version: 0.9.0")
    head, _, below = page.partition("<svg")
    opens = r"<b>Corrected in ([^<]*): what changed</b></summary><div>([^<]*)<"
    assert re.findall(opens, head) == [("1.0.0", "A row more.")]
    assert "An older one." in below.split('id="corrections"')[1].split("</details>")[0]


def test_a_size_that_this_version_does_not_concern_shows_none(tmp_path: Path) -> None:
    assert "Corrected in" not in page_of(tmp_path, "sizes: [S]")


def test_without_a_step_the_band_is_named(tmp_path: Path) -> None:
    page = page_of(tmp_path, "at: front")
    assert 'It concerns <a href="#front-left">Front band, left front' in page
    assert "If you have not reached" not in page


@pytest.mark.parametrize(("more", "said"), [
    ("at: frint, step: 4", 'error, unknown-name: sizes S and M: found no piece or band called '
     '"frint"; expected "front". Write front.'),
    ("at: front, step: 400", "found \"400\"; expected a step from 1 to "),
    ("step: 4", 'error, missing-key: found no "at" in a correction. Add a line such as "at: '
     'front".')])
def test_a_place_that_is_not_there_is_an_error(
        tmp_path: Path, capsys: pytest.CaptureFixture[str], more: str, said: str) -> None:
    write(tmp_path, BAND + HEAD + more + "}\n")
    assert main(["check", SLUG, "--root", str(tmp_path)]) == 1
    assert said in capsys.readouterr().out


def test_the_last_step_of_the_page_is_the_last_that_may_be_named(
        tmp_path: Path, capsys: pytest.CaptureFixture[str]) -> None:
    page = page_of(tmp_path, "at: front")
    last = max(map(int, re.findall(r'<li id="front-right-(\d+)"', page)))
    for step, code in ((last, 0), (last + 1, 1)):
        write(tmp_path, BAND + HEAD + f"at: front, step: {step}}}\n")
        assert main(["check", "--quiet", SLUG, "--root", str(tmp_path)]) == code
    assert f"expected a step from 1 to {last}" in capsys.readouterr().out


# The making up: its steps are numbered through, also where a band is worked between them


def slipover(more: str) -> Proved:
    """What comes of a garment of the collection in its first two sizes, with a correction."""
    reading = Reading(ROOT)
    folder = reading.folder("dinghy-slipover")
    # Without the corrections that it has.
    source = re.sub(r"(?m)^corrections:\n(?:[ -].*\n)*", "", folder.source or "")
    assert source and "corrections:" not in source
    return Prover.of(reading).prove(replace(
        folder, source=f"{source}\n{HEAD.replace('1.0.0', '9.0.0')}{more}}}\n"))


def made_up(more: str) -> str:
    """The first page of a size of that garment."""
    proof = slipover(more).proof
    assert proof
    return next(page.text for page in write_pages(proof) if '"size":' in page.text)


def test_a_step_of_the_making_up_is_found_on_the_page_and_at_the_bench() -> None:
    """The page's own numbers: an id of a step ends with the number that the page shows."""
    plain = made_up("at: making up")
    steps = re.findall(r'<li id="(make-up(?:-\d)?)-(\d+)"', plain)
    keys = list(dict.fromkeys(key for key, _ in steps))
    assert len(keys) > 1, "a garment whose making up is parted by a band"
    assert [int(number) for _, number in steps] == list(range(1, len(steps) + 1))
    (whole,) = json.loads(facts(plain))
    assert whole["parts"] == keys and "step" not in whole
    assert all(f'href="#{name}"' in plain.split('id="corrections"')[1].split("</details>")[0]
               for name in re.findall(r'<h2[^>]* id="(making-up[^"]*)"', plain))
    key, number = steps[-1]
    page = made_up(f"at: making up, step: {number}")
    section = page.split('id="corrections"')[1].split("</details>")[0]
    assert re.findall(r'href="(#make[^"]+)">([^<]+)<', section) == [
        (f"#{key}-{number}", f"step {number} of Making up")]
    (one,) = json.loads(facts(page))
    ofkey = [number for name, number in steps if name == key]
    assert one["parts"] == [key] and ofkey[one["step"] - 1] == number  # the bench counts its part


def test_a_step_that_the_making_up_does_not_have_is_an_error(
        tmp_path: Path, capsys: pytest.CaptureFixture[str]) -> None:
    said = "\n".join(map(str, slipover("at: making up, step: 99").problems))
    last = max(int(number) for _, number in re.findall(
        r'<li id="(make-up[^"]*)-(\d+)"', made_up("at: making up")))
    assert f'found "99"; expected a step from 1 to {last}' in said
    write(tmp_path, BAND + HEAD + "at: making up}\n")
    assert main(["check", SLUG, "--root", str(tmp_path)]) == 1
    assert 'no piece or band called "making up"' in capsys.readouterr().out
