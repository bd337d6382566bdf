"""Which tests take turns: of the files that take longest, each commit runs a quarter.

    pytest                  a quarter of the tests in these files, drawn by the commit; all others
    pytest --no-turns       all tests
    pytest FILE             all tests of the file
    WALEBOOK_TURN=COMMIT    what that commit runs

The test command is to end within ten minutes on two processors. `.ci/long` runs all.
"""

from __future__ import annotations

import os
import subprocess
from collections import defaultdict
from collections.abc import Iterable
from hashlib import sha256
from pathlib import Path
from typing import Protocol, TypeVar

ONE_IN = 4
# Each took 5 seconds of processor or more (2026-12-01). Not here, though it does: what kills builds
# (`site/test_whole_site.py`), and the reader, whose files share what takes the time.
FILES = frozenset(f"tests/{name}.py" for name in (
    "against/test_growth_and_bodies", "against/test_optimum", "against/test_outlines",
    "laws/test_any_source", "laws/test_body_sides", "laws/test_darts", "laws/test_defaults_worn",
    "laws/test_drawn_labels", "laws/test_edge_methods", "laws/test_edge_reach",
    "laws/test_expressions", "laws/test_findings_whole", "laws/test_given_counts",
    "laws/test_idle_keys", "laws/test_keys_drawn", "laws/test_leaves",
    "laws/test_lengths_along_edges", "laws/test_light", "laws/test_lower_edges",
    "laws/test_measures_heard", "laws/test_mitres", "laws/test_more_forms",
    "laws/test_named_if_had", "laws/test_necks_worked_out", "laws/test_need", "laws/test_one_edge",
    "laws/test_order_of_work", "laws/test_outlines", "laws/test_own_gauge",
    "laws/test_own_measures", "laws/test_page_facts", "laws/test_piece_fabrics",
    "laws/test_plackets", "laws/test_pockets", "laws/test_ribs", "laws/test_roundings",
    "laws/test_rows_counted", "laws/test_schedules", "laws/test_shaped_charts",
    "laws/test_shaping", "laws/test_sheets", "laws/test_sketch_measures", "laws/test_slopes",
    "laws/test_spoiled_programs", "laws/test_stitch_charts", "laws/test_try_door",
    "laws/test_words_of_steps", "site/test_at_the_bench", "site/test_bench_screens",
    "site/test_bench_steps_fit", "site/test_built_site", "site/test_corrected_since",
    "site/test_every_view", "site/test_flat_builds", "site/test_garment_pages", "site/test_guides",
    "site/test_offline", "site/test_offline_failures", "site/test_own_collection",
    "site/test_page_policy", "site/test_paper", "site/test_photographs", "site/test_places_kept",
    "site/test_preview", "site/test_progress", "site/test_read_through", "site/test_single_file",
    "site/test_sketch_on_paper", "site/test_whole_pages", "sources/test_any_text",
    "sources/test_arranged_places", "sources/test_compare_engines", "sources/test_declared_keys",
    "sources/test_garment_sources", "sources/test_keys_heard", "sources/test_what_if"))


class Named(Protocol):
    """A test with its name."""

    @property
    def nodeid(self) -> str: ...


Test = TypeVar("Test", bound=Named)


def commit() -> str:
    """The commit that is checked out, by which tests are drawn; "" where there is none."""
    if named := os.environ.get("WALEBOOK_TURN"):
        return named
    try:
        asked = subprocess.run(["git", "rev-parse", "HEAD"], cwd=Path(__file__).parent,
                               capture_output=True, text=True, check=False)
    except OSError:
        return ""
    return asked.stdout.strip()


def not_now(tests: Iterable[Test], at: str) -> list[Test]:
    """The tests of `FILES` whose turn it is not at this commit.

    Of each file a quarter is drawn, one at least: those whose names come first when they are
    hashed with the commit. So each has its turn, and a commit has the same ones everywhere.
    """
    by_file: dict[str, list[Test]] = defaultdict(list)
    for test in tests:
        if (file := test.nodeid.partition("::")[0]) in FILES:
            by_file[file].append(test)
    left = []
    for of_a_file in by_file.values():
        of_a_file.sort(key=lambda test: sha256(f"{at} {test.nodeid}".encode()).digest())
        left += of_a_file[-(-len(of_a_file) // ONE_IN):]
    return left
