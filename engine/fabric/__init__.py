"""Swatches and stitch patterns: gauge, charts on the bed's needles, and the yarn they take."""
