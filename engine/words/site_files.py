"""What a site says of its files: those beside a page, one that holds a whole page, and what devices
keep; and what stands where a script fills a part."""

from __future__ import annotations

from collections.abc import Iterable, Sequence

from ..markup.html import esc

FRAME = "The frame of the site"
READING = "Everything to read: techniques, bands, fastenings and search"
MY_GAUGE = "My gauge: what counts a page anew on this device"
TRY_IT = "Try it: write a pattern on this device"
"""The groups of files that a device keeps beside patterns."""

EDITOR_ON_SITE = ("<p>The editor needs a browser that runs scripts, and this page on the site: it "
                  "does not work from disk.</p>")
_ANOTHER = {"gauge": "another gauge", "measures": "other measures"}


def download_one_file(address: str, *, whole: bool) -> str:
    """A link to one file of a size, or of the `whole` pattern, as HTML."""
    return (f'<a href="{address}" download>Download as one file</a>: '
            f"{'all sizes' if whole else 'this size'}. It opens without a connection.")


def download_pdf(address: str) -> str:
    """A link to a PDF, as HTML."""
    return f'<a href="{address}" download>PDF for printing</a>.'


def about_file(made_of: tuple[str, str] | None, reading: Iterable[tuple[str, str]]) -> str:
    """What a file is that holds a whole page, as HTML: of which version and date, where these are
    known, and what is at its end, each with its place and title."""
    listed = "".join(f'<li><a href="#{place}">{esc(title)}</a></li>' for place, title in reading)
    return ('<details class="wb-about-file"><summary>About this file</summary>'
            "<p>It is whole: every step, drawing and table is in it, it asks for nothing from "
            "anywhere, and it opens without a connection.</p>"
            + (_of_version(*made_of) if made_of else "")
            + (f"<p>How to do what the steps name is at its end:</p><ul>{listed}</ul>"
               if listed else "") + "</details>")


def _of_version(version: str, date: str) -> str:
    """That a file is of one version, and never learns of another."""
    return (f"<p>It is of version {esc(version)}, {esc(date)}, and stays so: it cannot learn of a "
            "newer version or of a correction. The pattern’s page on the site says both.</p>")


def corrected_entry(title: str, version: str, sizes: Sequence[str]) -> str:
    """The title of a feed's entry: a pattern that was corrected, in a version and in some sizes,
    where these are known."""
    since = f", version {version}" if version else ""
    whose = f" ({', '.join(sizes)})" if sizes else ""
    return f"{title}: corrected{since}{whose}"


def size_link(address: str, size: str) -> str:
    """A link to a size of the same file, as HTML."""
    return f'<a href="{address}">Size {esc(size)}</a>'


def own_on_site(of: Iterable[str]) -> str:
    """That a page can be counted anew on the site, for another "gauge", or other "measures"."""
    return (f"<p>For {' or '.join(_ANOTHER[each] for each in of)}, open this page on the site: "
            "there it can be counted anew.</p>")
