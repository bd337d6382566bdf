"""The pages of techniques that steps link to, by their names in the site."""

from __future__ import annotations

TECHNIQUES = (
    "back-stitched", "bind-off-at-the-side", "blocking", "bust-darts", "buttonholes-by-hand",
    "cast-on-by-hand", "closing-holes", "closing-up-a-crown", "crown-in-quarters", "edge-to-edge",
    "evenly-in-one-row", "fold-loose", "fold-picot", "fold-turned", "fully-fashioned-decrease",
    "gate-pegs", "gathering-a-crown", "grafted", "hanging-an-edge", "hanging-first-row",
    "held-shoulders", "hung-hem", "increase", "joining-shoulders", "latch-tool-chain",
    "loose-row-and-chain-off", "markers", "mattress-seam-by-rows", "neck-opening",
    "pocket-opening", "row-counter-and-free-pass", "rows-to-stitches", "setting-in-a-sleeve",
    "shirt-tail", "short-rows-of-a-shawl", "stitch-chart", "stitch-to-stitch", "swatch-and-gauge",
    "vertical-dart", "waste-start", "yarnless-chain")
