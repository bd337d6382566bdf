"""The recipes of the page about publishing: git hosts by their schemas, servers by trying them.

The schemas of the two hosts' scripts are those that check-jsonschema carries, from the public
collection of such schemas. What a server must send is the table on the page itself: `immutable` is
RFC 8246, `no-cache` RFC 9111 (5.2.2.4), `Content-Encoding` RFC 9110 (8.4) (from memory). Servers
and rsync are those of Debian, which `.ci/long` brings; without them their tests are skipped.
"""

from __future__ import annotations

import gzip
import json
import os
import re
import shutil
import socket
import subprocess
import sys
import tempfile
import time
from collections.abc import Callable, Iterator
from contextlib import contextmanager
from importlib.util import find_spec
from pathlib import Path
from typing import Any
from urllib.error import HTTPError, URLError
from urllib.request import Request, urlopen

import jsonschema
import pytest
import yaml
from playwright.sync_api import Page
from walebook_site.command import main
from walebook_site.new_collection import HOSTS

from tests.site.test_guides import PUBLISHING, headers
from tests.site.test_own_collection import wheel  # noqa: F401

BLOCKS = dict(re.findall(r"```(\w+)\n(.*?)```", PUBLISHING, re.DOTALL))  # the last of each kind
SCHEMAS = {"github": "github-workflows", "gitlab": "gitlab-ci"}


@pytest.fixture(scope="module")
def collection(tmp_path_factory: pytest.TempPathFactory) -> Callable[[str], Path]:
    """A new collection for a git host."""
    def begun(host: str) -> Path:
        folder: Path = tmp_path_factory.mktemp(host) / "lantern-lane"
        assert main(["new", str(folder), "--host", host]) == 0
        return folder
    return begun


def commands(script: Any) -> list[str]:
    """What a host's script runs in a shell, in order."""
    if "jobs" in script:
        return [step["run"] for step in script["jobs"]["build"]["steps"] if "run" in step]
    return list(script["pages"]["script"])


def published(script: Any) -> str:
    """The folder that a host publishes."""
    if "jobs" in script:
        return next(step["with"]["path"] for step in script["jobs"]["build"]["steps"]
                    if "upload" in step.get("uses", ""))
    (folder,) = script["pages"]["artifacts"]["paths"]
    return str(folder)


@pytest.mark.parametrize("host", HOSTS)
def test_the_script_of_a_git_host_meets_its_schema_and_stands_on_the_page(
        host: str, collection: Callable[[str], Path]) -> None:
    folder = collection(host)
    text = (folder / HOSTS[host]).read_text(encoding="utf-8")
    assert f"```yaml\n{text}```" in PUBLISHING and f"`{HOSTS[host]}`" in PUBLISHING
    script = yaml.load(text, yaml.CBaseLoader)
    hold_to_schema(host, text)
    assert commands(script)[0] == "sh .ci/build" and (folder / ".ci" / "build").is_file()
    other = next(HOSTS[each] for each in HOSTS if each != host)
    assert not (folder / other).exists()
    for line in commands(script):
        assert subprocess.run(["sh", "-n", "-c", line], check=False).returncode == 0, line


def hold_to_schema(host: str, text: str) -> None:
    """A script of a host meets its schema, which does not take anything."""
    carried = find_spec("check_jsonschema")
    assert carried and carried.submodule_search_locations, "the test extra carries the schemas"
    (carrier,) = carried.submodule_search_locations
    schema = json.loads(Path(carrier, "builtin_schemas", "vendor", f"{SCHEMAS[host]}.json")
                        .read_text(encoding="utf-8"))
    judge = jsonschema.validators.validator_for(schema)(schema)
    whole = yaml.safe_load(text.replace("\non:", '\n"on":'))  # YAML 1.1 reads on as true
    assert [fault.message for fault in judge.iter_errors(whole)] == []
    assert not judge.is_valid({**whole, "jobs": 3, "pages": {"script": 3}}), "it takes anything"


# What a pull request shows


def of_pull_request(host: str, folder: Path) -> tuple[Any, list[str]]:
    """The job of a host that compares what is proposed, and what it runs in a shell."""
    path = ".github/workflows/compare.yml" if host == "github" else HOSTS[host]
    text = (folder / path).read_text(encoding="utf-8")
    assert f"```yaml\n{text}```" in PUBLISHING and f"`{path}`" in PUBLISHING
    hold_to_schema(host, text)
    script = yaml.load(text, yaml.CBaseLoader)
    job = script["jobs"]["compare"] if host == "github" else script["compare"]
    ran = [step["run"] for step in job["steps"] if "run" in step] if host == "github" \
        else job["script"]
    return job, ran


@pytest.mark.parametrize("host", HOSTS)
def test_a_pull_request_shows_the_comparison_where_the_check_fails_too(
        host: str, collection: Callable[[str], Path]) -> None:
    job, ran = of_pull_request(host, collection(host))
    build, compared = (next(n for n, line in enumerate(ran) if f".ci/{name}" in line)
                       for name in ("build", "compare"))
    assert build < compared
    if host == "gitlab":  # a shell that ends at the first failure runs these lines
        assert "|| code=$?" in ran[build] and ran[-1] == 'exit "$code"'
        assert job["artifacts"]["paths"] == ["comparison.md"]
        assert job["artifacts"]["when"] == "always" and job["variables"]["GIT_DEPTH"] == "0"
        return
    behind = [step for step in job["steps"] if "comparison.md" in step.get("run", "")
              or ".ci/compare" in step.get("run", "")]
    assert len(behind) == 3 and all("!cancelled()" in step["if"] for step in behind)
    (clone,) = [step for step in job["steps"] if "checkout" in step.get("uses", "")]
    assert clone["with"]["fetch-depth"] == "2" and "HEAD^1" in ran[compared]
    assert all("github.event.pull_request.head" not in line for line in ran), "text of a stranger"


def compared(folder: Path, commit: str, stand_in: str = "") -> tuple[int, str]:
    """How .ci/compare ends, and what it leaves to be shown; `stand_in` is run for Walebook."""
    program = folder / ".venv" / "bin" / "walebook"
    program.parent.mkdir(parents=True, exist_ok=True)
    program.write_text(f"#!/bin/sh\n{stand_in}\n" if stand_in else
                       f'#!/bin/sh\nexec {sys.executable} -m walebook_site.command "$@"\n')
    program.chmod(0o755)
    done = subprocess.run(["sh", ".ci/compare", commit], cwd=folder, capture_output=True,
                          text=True, check=False)
    return done.returncode, (folder / "comparison.md").read_text(encoding="utf-8")


def test_the_script_of_a_pull_request_leaves_the_report(
        collection: Callable[[str], Path], monkeypatch: pytest.MonkeyPatch) -> None:
    folder = collection("github")
    script = (folder / ".ci" / "compare").read_text(encoding="utf-8")
    assert f"```shell\n{script}```" in PUBLISHING
    monkeypatch.setenv("WALEBOOK_CACHE", str(folder / "cache"))
    for words in (["init", "-q"], ["add", "-A"], ["-c", "user.name=A", "-c", "user.email=a@b.c",
                                                  "commit", "-q", "-m", "All"]):
        subprocess.run(["git", *words], cwd=folder, check=True)
    source = folder / "patterns" / "first-band" / "pattern.yaml"
    text = source.read_text(encoding="utf-8")
    source.write_text(text.replace("M: 208", "M: 216"), encoding="utf-8")
    code, shown = compared(folder, "HEAD")
    assert code == 0 and "| Front band, band stitches | 156 → 162 stitches |" in shown
    ignored = subprocess.run(["git", "status", "--porcelain"], cwd=folder, check=True,
                             capture_output=True, text=True).stdout
    assert "comparison.md" not in ignored and "whole.md" not in ignored
    source.write_text(text.replace("M: 208", "M: many"), encoding="utf-8")
    code, shown = compared(folder, "HEAD")
    assert code == 0 and "not knitted now" in shown and "many" in shown  # the check fails
    code, shown = compared(folder, "no-such-commit")
    assert code == 1 and shown.startswith("Nothing was compared: ")


def test_a_long_report_has_room_in_a_comment_and_a_wrong_call_fails(
        collection: Callable[[str], Path]) -> None:
    """A comment has room for 65,536 signs (the host's limit, from memory)."""
    folder = collection("github")
    code, shown = compared(folder, "HEAD", "seq -f 'Row %g of the report → more' 9000; exit 1")
    assert code == 0 and 50_000 < len(shown.encode()) < 65_536
    rows = shown.splitlines()
    assert rows[-1] == "This is cut off here. The log of this run has all of it."
    assert all(re.fullmatch(r"Row \d+ of the report → more", row) for row in rows[:-2])
    assert compared(folder, "HEAD", "echo no; exit 2") == (2, "no\n")


@pytest.mark.long
@pytest.mark.parametrize("host", HOSTS)
def test_what_a_git_host_runs_leaves_the_site_where_it_publishes_it(
        host: str, collection: Callable[[str], Path], wheel: Path) -> None:  # noqa: F811
    """With the wheel committed beside the patterns, as the page says; the rest comes from pip."""
    folder = collection(host)
    (folder / "wheels").mkdir()
    shutil.copy(wheel, folder / "wheels")
    ignored = (folder / ".gitignore").read_text(encoding="utf-8").splitlines()
    assert "/wheels/" not in ignored, "the wheel is not committed"
    script = yaml.load((folder / HOSTS[host]).read_text(encoding="utf-8"), yaml.CBaseLoader)
    for line in commands(script):
        done = subprocess.run(["sh", "-c", line], cwd=folder, capture_output=True, text=True,
                              check=False)
        assert done.returncode == 0, f"{line}\n{done.stdout}{done.stderr}"
    site = folder / published(script)
    page = site / "patterns" / "first-band" / "s.html"
    assert page.is_file() and (site / "sw.js").is_file() and (folder / ".walebook-cache").is_dir()
    if host == "gitlab":
        sent = gzip.decompress(page.with_name("s.html.gz").read_bytes())
        assert sent == page.read_bytes()


# Servers: how each is started with the settings of the page, changed only in folder and port


@pytest.fixture
def shelf(site: Path) -> Iterator[Path]:
    """A copy of the site, a part of it, where any user of this machine can read it."""
    folder = Path(tempfile.mkdtemp(prefix="walebook-served-"))
    folder.chmod(0o755)
    shutil.copytree(site, folder / "site", ignore=lambda at, names: {
        name for name in names if Path(at).name == "patterns" and not name.startswith(
            ("practice-band", "pattern."))})
    yield folder / "site"
    shutil.rmtree(folder)


def free_port() -> int:
    with socket.socket() as made:
        made.bind(("127.0.0.1", 0))
        return int(made.getsockname()[1])


def caddy(site: Path, port: int) -> list[str]:
    settings = site.parent / "Caddyfile"
    settings.write_text("{\n\tadmin off\n\tauto_https off\n}\n" + BLOCKS["caddy"].replace(
        "lanternquay.example", f"http://127.0.0.1:{port}").replace(
        "/srv/lantern-lane/site", str(site)))
    return ["caddy", "run", "--config", str(settings), "--adapter", "caddyfile"]


def nginx(site: Path, port: int) -> list[str]:
    settings = site.parent / "nginx.conf"
    own = BLOCKS["nginx"].replace("listen 80", f"listen 127.0.0.1:{port}").replace(
        "/srv/lantern-lane/site", str(site))
    settings.write_text("daemon off;\nworker_processes 1;\nuser root;\n"
                        f"pid {site.parent}/pid;\nerror_log stderr;\nevents {{}}\n"
                        "http {\ninclude /etc/nginx/mime.types;\naccess_log off;\n" + own + "}\n")
    return ["nginx", "-p", str(site.parent), "-c", str(settings)]


def apache2(site: Path, port: int) -> list[str]:
    (site / ".htaccess").write_text(BLOCKS["apache"])
    settings = site.parent / "apache.conf"
    loaded = ("mpm_event", "authz_core", "mime", "dir", "headers", "filter", "deflate", "setenvif")
    settings.write_text("".join(
        f"LoadModule {name}_module /usr/lib/apache2/modules/mod_{name}.so\n" for name in loaded)
        + f"ServerName lanternquay.example\nListen 127.0.0.1:{port}\nUser www-data\n"
        f"Group www-data\nPidFile {site.parent}/pid\nErrorLog /dev/stderr\n"
        f"TypesConfig /etc/mime.types\nDocumentRoot {site}\n"
        f"<Directory {site}>\nAllowOverride All\nRequire all granted\n</Directory>\n")
    return ["apache2", "-f", str(settings), "-DFOREGROUND"]


SERVERS = {"caddy": caddy, "nginx": nginx, "apache2": apache2}


@contextmanager
def running(name: str, site: Path) -> Iterator[str]:
    """The address of a server with the settings of the page; it ends behind it."""
    if not (shutil.which(name) or Path("/usr/sbin", name).exists()):
        pytest.skip(f"{name} is not installed: .ci/browser.py --others brings it on Debian")
    port = free_port()
    path = f"{os.environ['PATH']}{os.pathsep}/usr/sbin"
    process = subprocess.Popen(SERVERS[name](site, port), env={**os.environ, "PATH": path},
                               stderr=subprocess.PIPE, text=True)
    try:
        for _ in range(100):
            try:
                urlopen(f"http://127.0.0.1:{port}/edition.json", timeout=5).close()
                break
            except (URLError, ConnectionError):
                assert process.poll() is None and process.stderr, process.stderr.read()  # type: ignore[union-attr]
                time.sleep(0.1)
        yield f"http://127.0.0.1:{port}"
    finally:
        process.terminate()
        process.wait(20)


def asked(address: str) -> tuple[int, dict[str, str], bytes]:
    """The status, headers and body of an address, asked for compressed."""
    request = Request(address, headers={"Accept-Encoding": "gzip"})
    try:
        with urlopen(request, timeout=20) as answer:
            return answer.status, {k.lower(): v for k, v in answer.headers.items()}, answer.read()
    except HTTPError as fault:
        return fault.code, {k.lower(): v for k, v in fault.headers.items()}, fault.read()


@pytest.mark.long
@pytest.mark.parametrize("name", SERVERS)
def test_a_server_with_the_settings_of_the_page_sends_what_the_table_says(
        name: str, shelf: Path, phone: Page) -> None:
    with running(name, shelf) as address:
        paths = [path.relative_to(shelf).as_posix() for path in sorted(shelf.rglob("*"))
                 if path.is_file() and path.name != ".htaccess"]
        kinds = {re.sub(r"^.*/|\.[0-9a-f]{10}(?=\.)", "", path) for path in paths}
        assert {"sw.js", "edition.json", "index.html"} <= kinds
        for path in paths:
            status, sent, body = asked(f"{address}/{path}")
            assert status == 200, path
            for header, value in headers(path).items():
                assert sent.get(header.lower()) == value, (path, header)
            packed = sent.get("content-encoding") == "gzip"
            whole = gzip.decompress(body) if packed else body
            assert whole == (shelf / path).read_bytes(), path
            if path.endswith((".html", ".js", ".css", ".json", ".svg")) and len(whole) > 1500:
                assert packed, path
        status, sent, body = asked(f"{address}/patterns/no-such-pattern.html")
        page = gzip.decompress(body) if sent.get("content-encoding") == "gzip" else body
        assert status == 404 and page == (shelf / "404.html").read_bytes()
        assert sent["content-security-policy"] == "frame-ancestors 'self'"
        said: list[str] = []
        phone.on("console", lambda message: said.append(message.text)
                 if message.type in ("error", "warning") else None)
        phone.goto(f"{address}/patterns/practice-band/3-months.html")
        phone.wait_for_load_state("networkidle")
        assert said == []
        assert phone.evaluate("navigator.serviceWorker.ready.then(() => true)")
        replaced(shelf)
        assert json.loads(asked(f"{address}/edition.json")[2])["edition"] == "another"


def replaced(site: Path) -> None:
    """Put another site in the place of this one, as a build does: by its name."""
    newer = site.with_name("newer")
    shutil.copytree(site, newer)
    (newer / "edition.json").write_text('{"edition": "another"}')
    site.rename(site.with_name("older"))
    newer.rename(site)


@pytest.mark.long
def test_the_copying_command_brings_what_is_new_and_then_removes_what_is_gone(
        tmp_path: Path) -> None:
    if not shutil.which("rsync"):
        pytest.skip("rsync is not installed: .ci/browser.py --others brings it on Debian")
    here, there = tmp_path / "site", tmp_path / "htdocs"
    for folder, content in ((here, {"index.html": "new", "assets/a.2.js": "2"}),
                            (there, {"index.html": "old", "assets/a.1.js": "1",
                                     ".htaccess": "mine"})):
        for name, text in content.items():
            (folder / name).parent.mkdir(parents=True, exist_ok=True)
            (folder / name).write_text(text)
    line = next(line for line in PUBLISHING.splitlines() if line.startswith("rsync "))
    words = line.split()
    assert words[-2:] == ["site/", "wren@lanternquay.example:htdocs/"]
    subprocess.run([*words[:-1], f"{there}/"], cwd=tmp_path, check=True)
    found = {path.relative_to(there).as_posix(): path.read_text() for path in there.rglob("*")
             if path.is_file()}
    assert found == {"index.html": "new", "assets/a.2.js": "2", ".htaccess": "mine"}
