"""Drawings for pages: needles, bands, charts and pieces, each told in words beside it."""
