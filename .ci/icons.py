"""Draws the icons of the site from its mark, in the sizes that devices ask for."""

from __future__ import annotations

import re
from pathlib import Path

from PIL import Image, ImageDraw

ASSETS = Path(__file__).parents[1] / "site_src" / "assets"
FINER = 4  # drawn larger, then brought down: smooth edges


def draw(mark: str, pixels: int, *, maskable: bool = False) -> Image.Image:
    """Return the mark as a square; a maskable one fills it, its drawing within the safe middle."""
    ground = re.search(r'<rect [^>]*fill="([^"]+)"', mark)
    paths = re.search(r' d="([^"]+)"', mark)
    thread = re.search(r'stroke="([^"]+)"', mark)
    assert ground and paths and thread
    side = pixels * FINER
    image = Image.new("RGBA", (side, side))
    pen = ImageDraw.Draw(image)
    unit = side / 48
    pen.rounded_rectangle((0, 0, side - 1, side - 1), 0 if maskable else 8 * unit, ground[1])
    shrink = 0.75 if maskable else 1.0
    for x, y in re.findall(r"M(\d+) (\d+)l6 9 6-9", re.sub(r"(?<=\d)M", " M", paths[1])):
        points = [((24 + (px - 24) * shrink) * unit, (24 + (py - 24) * shrink) * unit)
                  for px, py in ((int(x), int(y)), (int(x) + 6, int(y) + 9), (int(x) + 12, int(y)))]
        width = 4 * unit * shrink
        pen.line(points, thread[1], round(width))
        for px, py in points:
            pen.ellipse((px - width / 2, py - width / 2, px + width / 2, py + width / 2),
                        thread[1])
    return image.resize((pixels, pixels), Image.Resampling.LANCZOS)


def main() -> None:
    """Write the icons beside the mark."""
    mark = (ASSETS / "walebook-mark.svg").read_text(encoding="utf-8")
    for pixels in (192, 512):
        draw(mark, pixels).save(ASSETS / f"icon-{pixels}.png", optimize=True)
    draw(mark, 512, maskable=True).save(ASSETS / "icon-512-maskable.png", optimize=True)


if __name__ == "__main__":
    main()
