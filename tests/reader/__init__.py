"""A reader of the published pages: it knits every page from the visible words alone.

Nothing here imports `engine/` or reads a data attribute: a page is what a knitter sees.
"""
