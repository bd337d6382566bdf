"""Names scripts and styles by their digests, so that a page never runs with another build's."""

from __future__ import annotations

from hashlib import sha256
from pathlib import Path, PurePosixPath

from mkdocs.config.defaults import MkDocsConfig
from mkdocs.structure.files import File, Files
from walebook_site.slimming import slim_code

OWN = ("assets/*.css", "assets/*.js", "assets/bench/*.js")
NO_PAGE_NAMES = ("assets/alone.css", "assets/one-size.js")
"""What is only put into single files, and is found there by its plain name."""
DIGITS = 10


def digest_name(path: str, content: str) -> str:
    """Return the name of a script or style: `assets/x.js` becomes `assets/x.<digest>.js`.

    An address then stands for one content for ever: while a site is replaced, or where an older
    copy is kept on the way, a page finds its own script or none.
    """
    plain = PurePosixPath(path)
    digest = sha256(content.encode()).hexdigest()[:DIGITS]
    return plain.with_name(f"{plain.stem}.{digest}{plain.suffix}").as_posix()


def publish_own(files: Files, config: MkDocsConfig) -> None:
    """Publish the site's own scripts and styles without comments, each under its digest's name."""
    named: dict[str, str] = {}
    for file in [each for each in files if _is_own(each)]:
        assert file.abs_src_path is not None
        text = slim_code(Path(file.abs_src_path).read_text(encoding="utf-8"))
        name = file.src_uri if file.src_uri in NO_PAGE_NAMES else digest_name(file.src_uri, text)
        files.remove(file)
        files.append(File.generated(config, name, content=text))
        named[file.src_uri] = name
    for setting in (config.extra_css, config.extra_javascript, config.extra.get("polyfills", [])):
        setting[:] = [named.get(str(each), each) for each in setting]


def _is_own(file: File) -> bool:
    path = PurePosixPath("/", file.src_uri)
    return file.generated_by is None and any(path.match(f"/{kind}") for kind in OWN)
