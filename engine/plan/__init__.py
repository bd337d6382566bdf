"""What goes onto an edge, counted: bands, holes, collars, ribs, pockets, ways on and off.

Functions import what few patterns have where it is asked for, and a check loads nothing else.
"""


def import_all() -> None:
    """Import all that is imported where it is asked for."""
    from . import (  # noqa: F401
        all_bands,
        all_sizes,
        band_counts,
        band_holes,
        cords,
        facing_stretch,
        facings,
        hole_ground,
        laid_stripes,
        own_names,
        own_pieces,
        pockets,
        zips,
    )
