"""Writes the lists of the pages about sources into their Markdown, for those who read them there.

    .venv/bin/python .ci/lists.py          write what is new
    .venv/bin/python .ci/lists.py --check  say which page is not as the declarations are

A build makes the lists anew, whatever is written.
"""

from __future__ import annotations

import sys
from pathlib import Path

from walebook.pages.source_page import with_lists

SITE = Path(__file__).parent.parent / "site_src"


def stale() -> dict[Path, str]:
    """Pages whose lists are not what the declarations say, with the right text."""
    texts = {path: path.read_text(encoding="utf-8") for path in
             (SITE / "source.md", *sorted((SITE / "guides").glob("*.md")))}
    return {path: made for path, text in texts.items() if (made := with_lists(text)) != text}


def main() -> int:
    """Write the pages, or name them; return 1 when one was not as it should be and stays so."""
    pages = stale()
    for path, made in pages.items():
        print(f"{path.name}: {'old lists' if '--check' in sys.argv else 'written'}")
        if "--check" not in sys.argv:
            path.write_text(made, encoding="utf-8")
    return 1 if pages and "--check" in sys.argv else 0


if __name__ == "__main__":
    sys.exit(main())
