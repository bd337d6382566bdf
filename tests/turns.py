"""Which tests take turns: of the files that take longest, each commit runs an eighth.

    pytest                  an eighth of the tests in these files, drawn by the commit; all others
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

ONE_IN = 8
# Each took 0.3 seconds of processor or more in a run of a quarter (2026-12-01). Not here, though it
# does: the laws of the house, the records, the reader of every page, published cases, and files
# whose cases look at what one fixture has found.
FILES = frozenset(f"tests/{name}.py" for name in (
    "against/test_growth_and_bodies", "against/test_optimum", "against/test_outlines",
    "laws/test_across_sizes", "laws/test_advice", "laws/test_any_source", "laws/test_armhole_edges",
    "laws/test_arranged_fabrics", "laws/test_band_kinds", "laws/test_band_parts", "laws/test_bands",
    "laws/test_bands_named", "laws/test_bench_facts", "laws/test_body_sides", "laws/test_by_hand",
    "laws/test_chart_files", "laws/test_chart_pieces", "laws/test_closings", "laws/test_collars",
    "laws/test_compare_causes", "laws/test_conventions", "laws/test_corner_loops",
    "laws/test_counts", "laws/test_cuffs", "laws/test_darts", "laws/test_defaults_worn",
    "laws/test_drawn_labels", "laws/test_edge_methods", "laws/test_edge_reach",
    "laws/test_expressions", "laws/test_findings_whole", "laws/test_from_texts",
    "laws/test_given_counts", "laws/test_hole_specs", "laws/test_holes_clear",
    "laws/test_idle_keys", "laws/test_joining_order", "laws/test_keys_drawn", "laws/test_leaves",
    "laws/test_lengths_along_edges", "laws/test_light", "laws/test_lower_edges",
    "laws/test_measures", "laws/test_measures_heard", "laws/test_mitres", "laws/test_more_forms",
    "laws/test_mutants", "laws/test_named_if_had", "laws/test_neck_to_wrist",
    "laws/test_necks_worked_out", "laws/test_need", "laws/test_needle_words", "laws/test_one_edge",
    "laws/test_order_of_work", "laws/test_outlines", "laws/test_own_gauge",
    "laws/test_own_measures", "laws/test_page_facts", "laws/test_piece_fabrics", "laws/test_pieces",
    "laws/test_placing", "laws/test_plackets", "laws/test_pockets", "laws/test_raglan_necks",
    "laws/test_ribs", "laws/test_roundings", "laws/test_rows_counted", "laws/test_schedules",
    "laws/test_sewn_ends", "laws/test_shaped_charts", "laws/test_shaping", "laws/test_sheets",
    "laws/test_sketch", "laws/test_sketch_measures", "laws/test_slopes", "laws/test_small_outlines",
    "laws/test_spoiled_programs", "laws/test_stitch_charts", "laws/test_stripes",
    "laws/test_techniques_agree", "laws/test_texts_steer_nothing", "laws/test_titles_steer_nothing",
    "laws/test_told_whole", "laws/test_tools_told", "laws/test_try_door",
    "laws/test_under_armhole_bands", "laws/test_v_fronts", "laws/test_waste_strips",
    "laws/test_whole_blocks", "laws/test_words_of_steps", "laws/test_work_order",
    "laws/test_yarn_sums", "reader/test_ends_and_edges", "reader/test_hats",
    "reader/test_knitted_counts", "reader/test_lengthwise_bands", "reader/test_linked_tools",
    "reader/test_wording", "site/test_at_the_bench", "site/test_bench_properties",
    "site/test_bench_screens", "site/test_bench_steps_fit", "site/test_broken_build",
    "site/test_built_site", "site/test_cache", "site/test_chart_pages", "site/test_corrected_since",
    "site/test_drafts", "site/test_every_view", "site/test_feed", "site/test_files_only",
    "site/test_flat_builds", "site/test_former_patterns", "site/test_garment_pages",
    "site/test_gone_pages_offline",
    "site/test_guides", "site/test_hosts", "site/test_my_gauge", "site/test_offline",
    "site/test_offline_failures", "site/test_own_collection", "site/test_page_policy",
    "site/test_pages_steps", "site/test_pages_text", "site/test_paper", "site/test_photographs",
    "site/test_picture_names", "site/test_places_kept", "site/test_preview",
    "site/test_preview_picture", "site/test_progress", "site/test_read_through",
    "site/test_schematics", "site/test_single_file", "site/test_sketch_colours",
    "site/test_sketch_on_paper", "site/test_try_schema", "site/test_whole_pages",
    "site/test_whole_site", "sources/test_accepted", "sources/test_any_source",
    "sources/test_any_text", "sources/test_arranged_places", "sources/test_bad_sources",
    "sources/test_band_depths", "sources/test_casing_sources", "sources/test_cause_named",
    "sources/test_chart_fabrics", "sources/test_check_forms", "sources/test_compare",
    "sources/test_compare_engines", "sources/test_compare_untouched", "sources/test_cord_sources",
    "sources/test_declared_keys", "sources/test_designer_notes", "sources/test_file_keys_heard",
    "sources/test_files", "sources/test_former_sizes", "sources/test_garment_sources",
    "sources/test_hard_spaces", "sources/test_holes_heard", "sources/test_inches_first",
    "sources/test_keys_heard", "sources/test_language_server", "sources/test_measures_page",
    "sources/test_misleading", "sources/test_outright_sizes", "sources/test_own_sizes",
    "sources/test_pocket_sources", "sources/test_ranges", "sources/test_schema_faults",
    "sources/test_shared", "sources/test_sheet_command", "sources/test_slope_sources",
    "sources/test_source_page", "sources/test_source_schema", "sources/test_unlikely_sources",
    "sources/test_what_if"))
# Tests of these files that have no turns: what kills builds.
EVERY_TIME = ("tests/site/test_whole_site.py::test_a_build_that_is_killed_",
              "tests/site/test_whole_site.py::test_a_kill_")


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

    Of each file one in `ONE_IN` is drawn, one at least: those whose names come first when they are
    hashed with the commit. So each has its turn, and a commit has the same ones everywhere.
    """
    by_file: dict[str, list[Test]] = defaultdict(list)
    for test in tests:
        file = test.nodeid.partition("::")[0]
        if file in FILES and not test.nodeid.startswith(EVERY_TIME):
            by_file[file].append(test)
    left = []
    for of_a_file in by_file.values():
        of_a_file.sort(key=lambda test: sha256(f"{at} {test.nodeid}".encode()).digest())
        left += of_a_file[-(-len(of_a_file) // ONE_IN):]
    return left
