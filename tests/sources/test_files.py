"""Files that are none, pictures that are none, notes that lead nowhere: each is a finding."""

from __future__ import annotations

import os
import struct
from pathlib import Path

import pytest
from reading import BASE, png
from walebook.markup.notes import notes_html
from walebook_site.command import main
from walebook_site.sources import collect

HERE = "patterns/slack-tide"
SMALL = BASE.replace("pictures:\n  - {file: front.png, alt: The front band}\n", "").replace(
    "bed: bulky", "bed: {pitch: 9 mm, needles: 110}").replace("stitches_in: 2", "stitches_in: 1")


JPEG = b"\xff\xd8\xff\xe0\0\x10JFIF\0\x01\x01\0\0\x01\0\x01\0\0\xff\xd9"
WEBP = b"RIFF" + struct.pack("<I", 12) + b"WEBPVP8 " + b"\0\0\0\0"


@pytest.fixture
def folder(tmp_path: Path) -> Path:
    made = tmp_path / HERE
    made.mkdir(parents=True)
    (made / "pattern.yaml").write_text(SMALL, encoding="utf-8")
    return made


def told(folder: Path, code: str = "") -> list[str]:
    """The findings that the command has of that root, but for remarks and cautions."""
    found = collect(folder.parents[1]).problems
    return [str(p).removeprefix(f"{HERE}/") for p in found
            if p.severity.value in ("error", "warning") or p.code == code]


def test_the_small_pattern_of_these_checks_is_sound(folder: Path) -> None:
    assert told(folder) == []


NOT_A_FILE = ("1:1: error, not-a-file: found a {} where a text file should be; expected a plain "
              "file. Put a plain text file there, or take it away.")


@pytest.mark.parametrize("name", ["pattern.yaml", "notes.md", "chart.yaml"])
@pytest.mark.parametrize("kind", ["pipe", "folder"])
def test_what_is_no_file_is_told_and_never_waited_for(folder: Path, name: str, kind: str) -> None:
    (folder / name).unlink(missing_ok=True)
    if kind == "pipe":
        os.mkfifo(folder / name)
    else:
        (folder / name).mkdir()
    if name == "chart.yaml":
        text = SMALL.replace("edges:\n", "garment: {form: set-in cardigan, chart: own, "
                             "fabric: body}\nedges:\n")
        (folder / "pattern.yaml").write_text(text, encoding="utf-8")
    assert f"{name}:{NOT_A_FILE.format(kind)}" in told(folder)


@pytest.mark.parametrize("command", [["check"], ["pages", "out"], ["build"], ["fix"]])
@pytest.mark.parametrize("kind", ["pipe", "folder"])
def test_settings_that_are_no_file_are_told_and_never_waited_for(
        tmp_path: Path, kind: str, command: list[str], capsys: pytest.CaptureFixture[str]) -> None:
    (tmp_path / "patterns").mkdir()
    settings = tmp_path / "mkdocs.yml"
    if kind == "pipe":
        os.mkfifo(settings)
    else:
        settings.mkdir()
    with pytest.raises(SystemExit) as ended:
        main([*command, "--root", str(tmp_path)])
    assert ended.value.code == 2
    assert capsys.readouterr().err.endswith(
        f"{settings} is a {kind} where a text file should be. Put a plain text file there, or take "
        "it away\n")


def test_a_link_to_nothing_is_told(folder: Path) -> None:
    (folder / "notes.md").symlink_to("nowhere.md")
    assert told(folder) == [
        "notes.md:1:1: error, unreadable: found a link to nowhere.md, which is not there; expected "
        "a file. Put the file itself here, or delete the link."]


def test_a_link_in_a_circle_is_told(folder: Path) -> None:
    (folder / "notes.md").symlink_to("notes.md")
    assert told(folder) == [
        "notes.md:1:1: error, unreadable: found a link to notes.md, which leads back to itself; "
        "expected a file. Put the file itself here, or delete the link."]


@pytest.mark.parametrize(("fault", "said"), [
    (PermissionError(13, "Permission denied"), "found a file that you may not read; expected a "
     "file that you may read. Change its permissions."),
    (OSError(5, "Input/output error"), "found a file that cannot be read (Input/output error); "
     "expected a file that can be read. Look at it with another program, or write it again.")])
def test_what_the_system_refuses_is_told_as_what_it_is(
        folder: Path, monkeypatch: pytest.MonkeyPatch, fault: OSError, said: str) -> None:
    (folder / "notes.md").write_text("Warm.\n", encoding="utf-8")
    read = Path.read_bytes

    def refused(path: Path) -> bytes:
        if path.name == "notes.md":
            raise fault
        return read(path)

    monkeypatch.setattr(Path, "read_bytes", refused)
    assert told(folder) == [f"notes.md:1:1: error, unreadable: {said}"]


def test_no_pattern_at_all_is_no_success(tmp_path: Path,
                                         capsys: pytest.CaptureFixture[str]) -> None:
    (tmp_path / "patterns" / "_beds").mkdir(parents=True)
    assert main(["check", "--root", str(tmp_path)]) == 1
    assert capsys.readouterr().out.startswith(
        "patterns:1:1: error, no-patterns: found no pattern in the folder patterns; expected a "
        "folder with a pattern.yaml in it. Write one, such as patterns/slack-tide/pattern.yaml.")


@pytest.mark.parametrize("name", ["pattern.yml", "pattern.yaml.txt", "Pattern.yaml"])
def test_a_source_of_another_name_is_told_its_name(folder: Path, name: str) -> None:
    (folder / "pattern.yaml").rename(folder / name)
    assert told(folder) == [
        f"pattern.yaml:1:1: error, no-source: found the folder {folder.name} without a source; "
        f"expected a pattern.yaml in it. Rename {name} to pattern.yaml."]


def test_a_pattern_one_folder_deeper_is_told_where_it_must_lie(folder: Path) -> None:
    deeper = folder.parent / "hats" / "slack-tide"
    deeper.parent.mkdir()
    folder.rename(deeper)
    (folder.parent / "hats" / "notes.md").write_text("Hats.\n", encoding="utf-8")
    assert [str(p) for p in collect(folder.parents[1]).problems] == [
        "patterns/hats/pattern.yaml:1:1: error, no-source: found the folder hats without a source, "
        "and patterns/hats/slack-tide/pattern.yaml a folder deeper; expected each pattern's folder "
        "in patterns/ itself. Move patterns/hats/slack-tide to patterns/slack-tide."]


def test_two_patterns_of_one_title_are_told(folder: Path, capsys: pytest.CaptureFixture[str]
                                            ) -> None:
    root, said = folder.parents[1], []
    title = SMALL.partition("title: ")[2].partition("\n")[0]
    for name, text in (("quay-band", f"# a copy\n{SMALL}"),
                       ("reef-band", SMALL.replace(title, "Reef band")),
                       ("scow-band", f"{SMALL}status: draft\n")):
        (root / "patterns" / name).mkdir()
        (root / "patterns" / name / "pattern.yaml").write_text(text, encoding="utf-8")
    for _ in range(2):  # the second time from the cache
        assert main(["check", "--root", str(root)]) == 0
        said.append([line for line in capsys.readouterr().out.splitlines() if "same-title" in line])
    assert said == 2 * [[
        f"patterns/slack-tide/pattern.yaml:1:8: caution, same-title: found the title \"{title}\", "
        "which patterns/quay-band/pattern.yaml:2:8 has too; expected a title for each pattern, by "
        "which a knitter finds it in the list. Write another title in one of them."]]
    assert [str(p) for p in collect(root).problems if p.code == "same-title"] == said[0]
    assert main(["check", "slack-tide", "--root", str(root)]) == 0
    assert "same-title" not in capsys.readouterr().out


@pytest.mark.parametrize("name", ["_sizes/quay.yml", "_beds/loft.yaml.txt"])
def test_a_chart_or_bed_that_nothing_reads_is_warned_of(
        folder: Path, name: str, capsys: pytest.CaptureFixture[str]) -> None:
    (folder.parent / name).parent.mkdir()
    (folder.parent / name).write_text("title: Quay\n", encoding="utf-8")
    assert main(["check", "--root", str(folder.parents[1])]) == 0
    known, at = name.split(".")[0].split("/")[1], f"patterns/{name}"
    assert (f"{at}:1:1: warning, no-source: found a file that nothing reads; expected a name that "
            f"ends in .yaml. Rename it to {known}.yaml.") in capsys.readouterr().out


@pytest.mark.parametrize("name", ["other.yaml", "other.yml"])
def test_a_source_in_no_folder_is_warned_of(folder: Path, name: str,
                                            capsys: pytest.CaptureFixture[str]) -> None:
    (folder.parent / name).write_text(SMALL, encoding="utf-8")
    (folder.parent / "collection.yaml").write_text("title: Lantern Lane\n", encoding="utf-8")
    assert main(["check", "--root", str(folder.parents[1])]) == 0
    said = capsys.readouterr().out
    assert (f"patterns/{name}:1:1: warning, no-source: found a source that is in no folder, which "
            "nothing reads; expected a folder for each pattern. Move it to "
            "patterns/other/pattern.yaml.") in said
    assert said.count("no-source") == 1


def test_a_command_outside_a_collection_says_where_to_go(
        tmp_path: Path, capsys: pytest.CaptureFixture[str]) -> None:
    with pytest.raises(SystemExit):
        main(["check", "--root", str(tmp_path)])
    said = capsys.readouterr().err
    assert "Go into the folder of your collection, or begin one: walebook new" in said


# What a picture's file holds: (its name, its bytes, what is said of it).
PICTURES: dict[str, tuple[str, bytes, str]] = {
    "a png": ("front.png", png(), ""),
    "a jpeg": ("front.jpg", JPEG, ""),
    "a webp": ("front.webp", WEBP, ""),
    "nothing": ("front.png", b"", "which is an empty file"),
    "text": ("front.jpeg", b"not a picture at all", "which is no picture"),
    "a jpeg called png": ("front.png", JPEG, "which is a jpg picture"),
    "a png called webp": ("front.webp", png(), "which is a png picture"),
    "a page called png": ("front.png", b"<svg xmlns='http://www.w3.org/2000/svg'/>",
                          "which is no picture"),
    "a png cut off": ("front.png", png()[:40], "which is cut off"),
    "a png of no width": ("front.png", png(0, 1), "which has no width or height"),
    "a webp cut off": ("front.webp", WEBP[:-2], "which is cut off"),
}


@pytest.mark.parametrize("name", PICTURES)
def test_a_picture_is_what_its_name_says(folder: Path, name: str) -> None:
    file, data, said = PICTURES[name]
    (folder / file).write_bytes(data)
    text = SMALL.replace("corrections:", f"pictures: [{{file: {file}, alt: A band}}]\ncorrections:")
    (folder / "pattern.yaml").write_text(text, encoding="utf-8")
    kind = file.rpartition(".")[2]
    expected = [f'pattern.yaml:10:19: error, false-picture: found "{file}", {said}; expected a '
                f"whole {kind} picture. Save the picture again as {kind}."]
    assert told(folder) == (expected if said else [])


GO = ("expected a page of this site, or an address that begins with https://. Links are written "
      "from this pattern's page, such as ../../techniques/index.html.")
# Notes: (the text, the findings). The site's own pages are those of site_src.
NOTES: dict[str, tuple[str, list[str]]] = {
    "a page of the site": ("See [hems](../../techniques/hung-hem.html#top).", []),
    "a place on a page of the site": ("[a](../../techniques/hung-hem.html#sources-of-it) "
                                      "[b](../../techniques/hung-hem.html#wrong)", []),
    "a place that is not on a page of the site": ("[a](../../techniques/hung-hem.html#nowhere)", [
        'notes.md:1:5: error, bad-link: found a link to "../../techniques/hung-hem.html#nowhere", '
        f"which leads to no place on that page; {GO}"]),
    "a size of the pattern": ("See [M](m.html) and [all](index.html).", []),
    "a letter": ("Write to [us](mailto:wren@example.org).", []),
    "a picture that is listed": ("![front](front.png)", []),
    "a picture that is not": ("First.\n\nSee ![neck](neck.png).", [
        'notes.md:3:13: error, picture-not-listed: found the picture "neck.png", which the pattern '
        'does not list; expected one of its pictures. Add {file: neck.png, alt: what it shows} to '
        "its pictures."]),
    "a picture of another site": ("![neck](https://example.org/neck.png)", [
        'notes.md:1:9: error, picture-not-listed: found the picture "https://example.org/neck.png",'
        " which the pattern does not list; expected one of its pictures. Put it into the "
        "pattern's folder and list it."]),
    "a page that is not there": ("See [hems](../../techniques/hems.html).", [
        'notes.md:1:12: error, bad-link: found a link to "../../techniques/hems.html", which leads '
        f"nowhere; {GO}"]),
    "a size that is not there": ("See [XXL](xxl.html).", [
        f'notes.md:1:11: error, bad-link: found a link to "xxl.html", which leads nowhere; {GO}']),
    "the source of a page": ("See [hems](../../techniques/hung-hem.md).", [
        'notes.md:1:12: error, bad-link: found a link to "../../techniques/hung-hem.md", which '
        "leads nowhere; expected a page of this site, or an address that begins with https://. "
        "Write ../../techniques/hung-hem.html."]),
    "a page by nearly its name": ("See [hems](../../techniques/hungg-hem.html#top).", [
        'notes.md:1:12: error, bad-link: found a link to "../../techniques/hungg-hem.html#top", '
        "which leads nowhere; expected a page of this site, or an address that begins with "
        "https://. Write ../../techniques/hung-hem.html#top."]),
    "a draft": ("See [it](../quay-band/index.html).", [
        'notes.md:1:10: error, bad-link: found a link to "../quay-band/index.html", which leads to '
        "a draft, which is not published; expected a page of this site, or an address that begins "
        "with https://. Take the link out until that pattern is published."]),
    "out of the site": ("See [it](../../../../etc/passwd).", [
        'notes.md:1:10: error, bad-link: found a link to "../../../../etc/passwd", which leads out '
        f"of the site; {GO}"]),
    "from the root": ("See [it](/etc/passwd).", [
        'notes.md:1:10: error, bad-link: found a link to "/etc/passwd", which leads out of the '
        f"site; {GO}"]),
    "a script": ("See [it](javascript:alert(1)).", [
        'notes.md:1:10: error, bad-link: found a link to "javascript:alert(1)", which leads '
        f"nowhere; {GO}"]),
    "a file of the device": ("See [it](file:///etc/passwd).", [
        'notes.md:1:10: error, bad-link: found a link to "file:///etc/passwd", which leads nowhere;'
        f" {GO}"]),
    "a place that is not on the page": ("See [below](#below).", [
        f'notes.md:1:13: error, bad-link: found a link to "#below", which leads nowhere; {GO}']),
    "a link in code": ("Write `[it](nowhere.html)`.", []),
}


@pytest.mark.parametrize("name", NOTES)
def test_what_the_notes_lead_to_is_there(folder: Path, name: str) -> None:
    text, expected = NOTES[name]
    techniques = folder.parents[1] / "site_src" / "techniques"
    techniques.mkdir(parents=True)
    (techniques / "hung-hem.md").write_text(
        "# Hems\n\n## Sources of it\n\n## Mended { #wrong }\n", encoding="utf-8")
    draft = folder.with_name("quay-band")
    draft.mkdir()
    (draft / "pattern.yaml").write_text(f"{SMALL}status: draft\n", encoding="utf-8")
    (folder / "front.png").write_bytes(png())
    (folder / "pattern.yaml").write_text(SMALL.replace(
        "corrections:", "pictures: [{file: front.png, alt: A band}]\ncorrections:"),
        encoding="utf-8")
    (folder / "notes.md").write_text(text, encoding="utf-8")
    assert told(folder) == expected


def test_a_link_to_another_site_is_a_remark(folder: Path) -> None:
    (folder / "notes.md").write_text("See [wool](https://example.org/wool).", encoding="utf-8")
    assert told(folder, "link-outside") == [
        'notes.md:1:12: remark, link-outside: found a link to "https://example.org/wool", another '
        "site: it cannot be read without a signal."]


def test_notes_that_were_let_through_would_carry_no_script_still() -> None:
    """The findings above stop the build; the cleaning behind them trusts nobody."""
    page = notes_html('# N "><script>alert(1)</script><img src=x onerror=alert(2)>\n\n'
                      "[click](javascript:alert(4)) ![x](javascript:alert(5))\n\n"
                      "<iframe src='https://example.org'></iframe>\n"
                      "[data](data:text/html;base64,PHNjcmlwdD4=)\n", ())
    for harm in ("<script", "<iframe", "onerror=", "<img", "href=\"javascript", "href=\"data"):
        assert harm not in page


def test_a_folders_name_cannot_write_to_the_terminal(
        tmp_path: Path, capsys: pytest.CaptureFixture[str]) -> None:
    (tmp_path / "patterns" / "\x1b[2J").mkdir(parents=True)
    assert main(["check", "--root", str(tmp_path)]) == 1
    assert "\x1b" not in capsys.readouterr().out
