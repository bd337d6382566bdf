"""Names scripts and styles by their digests, so that a page never runs with another build's."""

from __future__ import annotations

from hashlib import sha256
from pathlib import Path, PurePosixPath

from mkdocs.config.defaults import MkDocsConfig
from mkdocs.structure.files import File, Files
from walebook_site.slimming import slim_code

OWN = ("assets/*.css", "assets/*.js", "assets/bench/*.js")
JOINED = {"extra_css": "assets/walebook.css", "extra_javascript": "assets/page.js",
          "bench_css": "assets/bench.css", "bench_scripts": "assets/bench.js",
          "print_css": "assets/print.css", "search_scripts": "assets/search.js",
          "runtime_scripts": "assets/my-runtime.js", "gauge_scripts": "assets/my-gauge.js",
          "try_css": "assets/try-it.css", "try_scripts": "assets/try-it.js"}
"""What is published as one, by the name of its list in the site's settings, in the list's order."""
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

    What one list of the settings names is published as one file: a page asks for one of each.
    """
    texts: dict[str, str] = {}
    for file in [each for each in files if _is_own(each)]:
        assert file.abs_src_path is not None
        texts[file.src_uri] = slim_code(Path(file.abs_src_path).read_text(encoding="utf-8"))
        files.remove(file)
    lists = {name: config[name] if name.startswith("extra_") else config.extra.get(name, [])
             for name in JOINED}
    named: dict[str, str] = {}
    for name, listed in lists.items():
        parts = [path for path in map(str, listed) if path in texts and not _is_apart(path)]
        text = "".join(texts[path] for path in parts)
        named.update(dict.fromkeys(parts, digest_name(JOINED[name], text)))
        if parts:
            files.append(File.generated(config, named[parts[0]], content=text))
    for path in [path for path in texts if path not in named and _is_published(path)]:
        named[path] = path if path in NO_PAGE_NAMES else digest_name(path, texts[path])
        files.append(File.generated(config, named[path], content=texts[path]))
    for listed in lists.values():
        listed[:] = dict.fromkeys(named.get(str(each), each) for each in listed)


def _is_apart(path: str) -> bool:
    """True for what stays a file by itself: no single file has it."""
    return path.startswith("assets/keep") and path.endswith(".js")


def _is_published(path: str) -> bool:
    """True for what is published though no list of the settings joins it."""
    return path in NO_PAGE_NAMES or (path.endswith(".js") and not path.startswith("assets/bench/"))


def _is_own(file: File) -> bool:
    path = PurePosixPath("/", file.src_uri)
    return file.generated_by is None and any(path.match(f"/{kind}") for kind in OWN)
