"""Writes the lists of the pages about sources into their Markdown, for those who read them there.

    .venv/bin/python .ci/lists.py          write what is new
    .venv/bin/python .ci/lists.py --check  say which page is not as the declarations are

A build makes the lists anew, whatever is written.
"""

from __future__ import annotations

import re
import sys
from pathlib import Path

from walebook.pages.source_page import END, MARKER, fill_lists, without_lists

SITE = Path(__file__).parent.parent / "site_src"
DRAWN_THERE = "*(A drawing, which is shown on the built page.)*"


def with_lists(markdown: str) -> str:
    """Return the page with what each marker stands for behind it, as a git host shows it.

    Drawings are left to the built page: git hosts take them out.
    """
    bare = without_lists(markdown)
    lists = iter(fill_lists(MARKER.sub("\0\\g<0>\0", bare)).split("\0")[1::2])

    def written(marker: re.Match[str]) -> str:
        made = next(lists)
        shown = DRAWN_THERE if "<svg" in made else made.strip()
        return f"{marker[0]}\n\n{shown}\n\n{END}"
    return MARKER.sub(written, bare)


def stale() -> dict[Path, str]:
    """Pages whose lists are not what the declarations say, with the right text."""
    texts = {path: path.read_text(encoding="utf-8") for path in
             (SITE / "source.md", *sorted((SITE / "guides").glob("*.md")))}
    return {path: made for path, text in texts.items() if (made := with_lists(text)) != text}


def main() -> int:
    """Write the pages, or name them; return 1 when one was not as it should be and stays so."""
    pages, checks = stale(), "--check" in sys.argv
    for path, made in pages.items():
        print(f"{path.name}: {'old lists' if checks else 'written'}")
        if not checks:
            path.write_text(made, encoding="utf-8")
    return 1 if pages and checks else 0


if __name__ == "__main__":
    sys.exit(main())
