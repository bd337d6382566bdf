"""The stand collar: a straight strip up from the neck, tighter towards its upper edge."""

from __future__ import annotations

from ...catalogue.ways import FOLDED, SINGLES
from .collar_rows import one_layer, two_layers
from .kind import Kind

KIND = Kind(name="stand collar", layers=2, closings=(), page="bands/collar-stand.html",
            stands=True, ways_off=FOLDED, asks=("outer_dial",),
            summary="stands up round the neck, two layers folded at its upper edge",
            make=two_layers)
SINGLE = Kind(name="single stand collar", layers=1, closings=(), page="bands/collar-stand.html",
              stands=True, ways_off=SINGLES, asks=("outer_dial",),
              summary="stands up round the neck, one layer, bound off", make=one_layer)
