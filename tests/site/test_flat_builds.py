"""A build holds one page at a time, however many there are (the project's own limit)."""

from __future__ import annotations

from pathlib import Path

import pytest

from tests.bench.bench_build import BUILD, SIZES, project, run

GROWTH = 0.1  # MB a size page; a page of HTML takes 0.13, and the site builder's own records 0.01


@pytest.mark.long
def test_five_times_the_patterns_take_no_more_memory(tmp_path: Path) -> None:
    few, many = (run(BUILD, project(tmp_path / str(copies), copies, single_files=True))
                 for copies in (5, 25))
    assert many.peak - few.peak < GROWTH * 20 * SIZES
    assert many.child - few.child < 20
