"""The shirt collar: from the neck outward, wider or looser towards its edge, worn folded over."""

from __future__ import annotations

from ...catalogue.ways import FOLDED, SINGLES
from .collar_rows import one_layer, two_layers
from .kind import Kind

KIND = Kind(name="shirt collar", layers=1, closings=(), page="bands/shirt-collar.html",
            stands=False, ways_off=SINGLES, asks=("points", "outer_dial", "shows"), falls=True,
            meets=True,
            summary="falls over from the neck, one layer, with two points", make=one_layer)
# Of two layers either side is a knit side, whichever way it is worn.
DOUBLE = Kind(name="double shirt collar", layers=2, closings=(), page="bands/shirt-collar.html",
              stands=False, ways_off=FOLDED, asks=("points", "outer_dial"), falls=True, meets=True,
              summary="falls over from the neck, two layers folded at the outer edge",
              make=two_layers)
