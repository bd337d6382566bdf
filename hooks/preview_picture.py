"""Makes the picture that a link to a pattern shows elsewhere: its sketch, on the site's paper."""

from __future__ import annotations

import re
from html import escape

from walebook.source.page_names import PREVIEW
from walebook_site.printed_sketch import inked

WIDE, HIGH = 1200, 630  # [pixels]: the page's template names them
PAPER, INK = "#f5f2e8", "#18202c"  # the tokens of the light site, in assets/walebook.css
_EDGE = 60  # of bare paper on each side [pixels]
MISSING = ("preview pictures are asked for (preview_picture in mkdocs.yml), but the library that "
           "makes them cannot be used: {why}. Install it with: pip install 'walebook[pictures]'")
NO_ADDRESS = ("preview pictures are asked for (preview_picture in mkdocs.yml), and they are found "
              "by the site's address. Write it, such as site_url: https://lantern-lane.example/")
_ALONE = re.compile(r' xmlns="[^"]*"|<style>.*?</style>', re.DOTALL)  # what it has as a file


class NoPicture(Exception):
    """The library that makes pictures is not there; says what to install."""


def preview_picture(sketch: str) -> bytes:
    """Return a sketch (an SVG by itself) in the middle of a PNG of `WIDE` by `HIGH` pixels.

    Raises NoPicture when it cannot be made.
    """
    try:
        from resvg_py import svg_to_bytes
    except ImportError as fault:
        raise NoPicture(MISSING.format(why=str(fault).splitlines()[0])) from fault
    drawn = inked(_ALONE.sub("", sketch), PAPER, INK)
    tag, _, rest = drawn.partition(">")
    tag = re.sub(r'\s(?:width|height)="[^"]*"', "", tag)
    made: bytes = svg_to_bytes(svg_string=(
        f'<svg xmlns="http://www.w3.org/2000/svg" width="{WIDE}" height="{HIGH}">'
        f'<rect width="100%" height="100%" fill="{PAPER}"/>'
        f'{tag} x="{_EDGE}" y="{_EDGE}" width="{WIDE - 2 * _EDGE}" height="{HIGH - 2 * _EDGE}">'
        f"{rest}</svg>"), skip_system_fonts=True)
    return bytes(made)


def preview_tags(title: str, about: str, address: str, picture: bool) -> str:
    """Return what a page says of itself to whoever shows a link to it, as the Open Graph protocol
    has it (ogp.me): its title, a sentence, its address and, with `picture`, the one beside it."""
    tags = {"type": "article", "title": title, "description": about, "url": address}
    if picture:
        tags |= {"image": f"{address.rpartition('/')[0]}/{PREVIEW}", "image:type": "image/png",
                 "image:width": str(WIDE), "image:height": str(HIGH),
                 "image:alt": f"Drawing: {title}"}
    return "".join(f'<meta property="og:{name}" content="{escape(value)}">'
                   for name, value in tags.items())
