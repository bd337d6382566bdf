"""Names scripts and styles by their digests, so that a page never runs with another build's."""

from __future__ import annotations

from hashlib import sha256
from pathlib import Path, PurePosixPath

from mkdocs.config.defaults import MkDocsConfig
from mkdocs.structure.files import File, Files
from walebook_site.slimming import slim_code

OWN = ("assets/*.css", "assets/*.js", "assets/bench/*.js")
JOINED = {".js": "assets/bench.js", ".css": "assets/walebook.css"}
"""The scripts of `assets/bench/`, and all styles, each kind in the order of the site's settings."""
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
    """Publish the site's own scripts and styles without comments, each under its digest's name.

    The scripts of the bench are published as one, and so are the styles: a page then names one
    file of each and asks for one.
    """
    named: dict[str, str] = {}
    parts: dict[str, str] = {}
    for file in [each for each in files if _is_own(each)]:
        assert file.abs_src_path is not None
        text = slim_code(Path(file.abs_src_path).read_text(encoding="utf-8"))
        files.remove(file)
        if _is_part(file.src_uri):
            parts[file.src_uri] = text
            continue
        name = file.src_uri if file.src_uri in NO_PAGE_NAMES else digest_name(file.src_uri, text)
        files.append(File.generated(config, name, content=text))
        named[file.src_uri] = name
    for setting in (config.extra_css, config.extra_javascript):
        listed = [str(each) for each in setting if str(each) in parts]
        named.update(dict.fromkeys(listed, _join(listed, parts, files, config)))
    searching = config.extra.get("search_scripts", [])
    for setting in (config.extra_css, config.extra_javascript, searching):
        setting[:] = dict.fromkeys(named.get(str(each), each) for each in setting)


def _is_part(path: str) -> bool:
    """True for what is published in one with others of its kind."""
    return path.startswith("assets/bench/") or (path.endswith(".css")
                                                and path not in NO_PAGE_NAMES)


def _join(listed: list[str], parts: dict[str, str], files: Files, config: MkDocsConfig) -> str:
    """Publish these parts as one file; return its name, "" where there is none."""
    if not listed:
        return ""
    text = "".join(parts[each] for each in listed)
    name = digest_name(JOINED[PurePosixPath(listed[0]).suffix], text)
    files.append(File.generated(config, name, content=text))
    return name


def _is_own(file: File) -> bool:
    path = PurePosixPath("/", file.src_uri)
    return file.generated_by is None and any(path.match(f"/{kind}") for kind in OWN)
