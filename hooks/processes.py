"""Proves patterns in several processes at a time; each hands back where its entry lies."""

from __future__ import annotations

import gc
import multiprocessing
import os
import sys
import threading
from collections.abc import Iterator
from concurrent.futures import ProcessPoolExecutor, as_completed
from multiprocessing.context import BaseContext
from multiprocessing.process import BaseProcess
from pathlib import Path

from walebook_site.cache import Cache, CacheEntry, unpack
from walebook_site.proving import Workshop
from walebook_site.reading import Folder, Reading

# In a process that proves: what it has read, kept from one pattern to the next.
_shop: list[Workshop] = []


def made_in_processes(shop: Workshop, missing: list[Folder], many: int
                      ) -> Iterator[tuple[str, CacheEntry]]:
    """Yield the entry of each pattern as soon as it is made by one of so many processes."""
    _import_all(shop, missing)
    gc.freeze()  # what they share stays, and no collector looks at it, and so copies it
    with ProcessPoolExecutor(many, process_context(), _begin,
                             (shop.reading.root, shop.cache.folder, shop.pages)) as pool:
        pending = [pool.submit(_make, folder) for folder in missing]
        try:
            for done in as_completed(pending):
                slug, path, data = done.result()
                pending.remove(done)
                yield slug, unpack(path.read_bytes() if path else data, path)
        finally:
            pool.shutdown(cancel_futures=True)
            gc.unfreeze()


def _import_all(shop: Workshop, missing: list[Folder]) -> None:
    """Import what the patterns may need before the processes divide: they share it then."""
    shop.prover  # noqa: B018
    import_all()
    if shop.pages:
        import walebook_site.page_texts  # noqa: F401
    elif any(folder.record is not None for folder in missing):
        from walebook.pages import recorded  # noqa: F401


def import_all() -> None:
    """Import every form, every kind of band, and all else that few patterns have."""
    from walebook import plan
    from walebook.forms import form_parts, registry
    from walebook.plan import part_planners
    from walebook.program import bands, piece_parts, row_parts, whole_programs
    from walebook.program.bands import layer_parts
    from walebook.source import part_readers, section_readers
    registry.import_all()
    form_parts.import_all()
    plan.import_all()
    part_planners.import_all()
    bands.import_all()
    layer_parts.import_all()
    piece_parts.import_all()
    row_parts.import_all()
    whole_programs.import_all()
    part_readers.import_all()
    section_readers.import_all()


def process_context() -> BaseContext:
    """Divide where that is safe: on Linux, and while no thread of this process runs besides."""
    divides = sys.platform == "linux" and threading.active_count() == 1
    return multiprocessing.get_context("fork" if divides else "spawn")


def _begin(root: Path, folder: Path, pages: bool) -> None:
    """Prepare a process."""
    end_with_parent()
    _shop[:] = [Workshop(Reading(root), Cache(folder), pages)]


def end_with_parent() -> None:
    """Let this process end when the one that started it does, however that ends."""
    parent = multiprocessing.parent_process()
    if parent is not None:
        threading.Thread(target=_end_with, args=(parent,), daemon=True).start()


def _end_with(parent: BaseProcess) -> None:
    parent.join()
    os._exit(1)


def _make(folder: Folder) -> tuple[str, Path | None, bytes]:
    """Make an entry; hand back its file, or its bytes where no file could be written."""
    entry = _shop[0].make(folder)
    return folder.slug, entry.file, b"" if entry.file else entry.data
