"""What a size takes, stage by stage, in ms of processor: read, planned, written, knitted, told.

    python tests/bench/bench_stages.py [--pattern slack-tide-cardigan] [--goes 7] [--profile STAGE]

Never part of the tests: it prints, and asserts nothing about time. Each go is a separate process,
branched off when everything is loaded and two other patterns have been made, and the quickest go
counts, stage by stage: on a machine that does other work a single one can take several times as
long. A fixed workload of plain Python is timed in the same goes; beside each figure stands its
ratio to that, which says more from machine to machine than milliseconds do.
"""

from __future__ import annotations

import argparse
import cProfile
import gc
import json
import os
import pstats
import time
from collections.abc import Callable
from dataclasses import dataclass, field
from importlib import import_module
from pathlib import Path
from typing import Any

from walebook.pages import write_pages
from walebook.program import whole_programs
from walebook.proof import proof as proving
from walebook.proof import texts, verdict
from walebook_site import sources
from walebook_site.proving import COLLECT_AFTER
from walebook_site.reading import Reading

ROOT = Path(__file__).parents[2]
WARM = ("pilot-boat-waistcoat", "little-lamp-cardigan")


@dataclass
class Watch:
    """Seconds of processor by stage; what a stage calls of another is booked on the other alone."""

    taken: dict[str, float] = field(default_factory=dict)
    within: list[str] = field(default_factory=list)
    since: float = 0.0
    profiled: str = ""
    profile: cProfile.Profile = field(default_factory=cProfile.Profile)

    def switch(self) -> None:
        """Book the time since the last switch on the stage that is under way."""
        now = time.process_time()
        if self.within:
            self.taken[self.within[-1]] = self.taken.get(self.within[-1], 0) + now - self.since
        self.since = now

    def of(self, stage: str, does: Callable[..., Any]) -> Callable[..., Any]:
        """The function `does`, timed as `stage`."""
        def timed(*args: Any, **named: Any) -> Any:
            self.switch()
            self.within.append(stage)
            if stage == self.profiled:
                self.profile.enable()
            try:
                return does(*args, **named)
            finally:
                self.profile.disable()
                self.switch()
                self.within.pop()
        return timed


SHARED, TOLD = "beds and charts", "words, drawings, pages"
# Which function, by the module that calls it, is which stage.
STAGES = ((sources, "bed_of", SHARED), (sources, "chart_of", SHARED),
          (texts, "judge", "findings and yarn"), (verdict, "prove", "shape and plan"),
          (whole_programs, "piece_program", "program"), (proving, "band_program", "program"),
          (proving, "lay_out_band", "program"), (proving, "run", "bed"))


def workload() -> int:
    """A fixed piece of plain Python: sums, a mapping, texts."""
    counted: dict[int, int] = {}
    for number in range(40_000):
        counted[number % 97] = counted.get(number % 97, 0) + number
    return len("".join(f"{key}:{value}" for key, value in counted.items()))


def go(slug: str, profiled: str) -> tuple[int, dict[str, float]]:
    """Make one pattern, and return its sizes and the seconds of each stage."""
    watch = Watch(profiled=profiled)
    for module, name, stage in STAGES:
        setattr(module, name, watch.of(stage, getattr(module, name)))
    reading = Reading(ROOT)
    folder = reading.folder(slug)
    prover = sources.Prover.of(reading)
    proof = watch.of("read", prover.prove)(folder).proof
    assert proof is not None
    watch.of(TOLD, write_pages)(proof)
    watch.of("workload", workload)()
    if profiled:
        pstats.Stats(watch.profile).sort_stats("tottime").print_stats(35)
    return len(proof.sizes), watch.taken


def branched(slug: str, profiled: str) -> tuple[int, dict[str, float]]:
    """A go in a separate process."""
    end, begin = os.pipe()
    child = os.fork()
    if not child:
        os.close(end)
        with os.fdopen(begin, "w") as out:
            json.dump(go(slug, profiled), out)
        os._exit(0)
    os.close(begin)
    with os.fdopen(end) as got:
        text = got.read()
    os.waitpid(child, 0)
    sizes, taken = json.loads(text)
    return sizes, taken


def main() -> None:
    """Run the bench."""
    parser = argparse.ArgumentParser(description=__doc__)
    parser.add_argument("--pattern", default="slack-tide-cardigan")
    parser.add_argument("--goes", type=int, default=7)
    parser.add_argument("--profile", default="", help="a stage to profile as well")
    given = parser.parse_args()
    gc.set_threshold(COLLECT_AFTER)  # as a build does
    import_module("markdown")  # these two have no notes
    for slug in WARM:
        warm = sources.Prover.of(Reading(ROOT))
        proof = warm.prove(warm.reading.folder(slug)).proof
        assert proof is not None
        write_pages(proof)
    # What exists already is not looked at by the collector of each go, and copied by that.
    gc.collect()
    gc.freeze()
    made = [branched(given.pattern, given.profile if not number else "")
            for number in range(given.goes)]
    sizes = made[0][0]
    best = {stage: min(taken[stage] for _, taken in made) for stage in made[0][1]}
    load, shared = best.pop("workload"), best.pop(SHARED)
    print(f"{given.pattern}, {sizes} sizes, the best of {given.goes} goes; the workload takes "
          f"{load * 1000:.1f} ms, {SHARED}, once for all patterns, {shared * 1000:.1f} ms")
    for stage, seconds in best.items():
        print(f"  {stage:<24} {seconds * 1000 / sizes:6.2f} ms a size, "
              f"{seconds / sizes / load:5.2f} workloads")
    told = best.pop(TOLD)
    for what, seconds, aim in (("read, planned and knitted", sum(best.values()), "8 ms, better 5"),
                               ("sentences and drawings", told, "5 ms")):
        print(f"  {what:<24} {seconds * 1000 / sizes:6.2f} ms a size "
              f"({seconds / sizes / load:.2f} workloads; aim {aim})")


if __name__ == "__main__":
    main()
