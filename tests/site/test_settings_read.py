"""Mistakes in a collection's mkdocs.yml are findings with their place and a remedy, and stop a
build before it begins. The form of a finding is the README's: file, line, column, found, expected.
"""

from __future__ import annotations

from pathlib import Path

import pytest
from walebook_site.command import main
from walebook_site.plugin import PluginSettings
from walebook_site.settings_read import settings_findings

from tests.site.test_own_collection import begun

ROOT = Path(__file__).parents[2]

MISTAKES = {
    ("single_files: true", "single_files: yes please"):
        ':10:21: error, unknown-word: found "yes please"; expected true or false.',
    ("paper: Letter", "paper: A5"):
        ':13:14: error, unknown-word: found "A5"; expected A4 or Letter.',
    ("pdf: false", "pdf: [1]"): ':12:12: error, unknown-word: found "a list or a mapping"',
    ("pdf: false", "pfd: false"): ":12:7: error, unknown-key: found \"pfd\"",
    ("      paper: Letter", "     paper: Letter"):
        ":13:6: error, syntax: found a line out of line with those above.",
    ("strict: true", "strict: [true"): ":6:9: error, syntax: found a list that is not closed.",
    ("plugins:", "plugins"): ":8:1: error, syntax: found a line that is no key with a value.",
    ("docs_dir: patterns", "docs_dir: pattens"):
        ':5:11: error, unknown-name: found no folder "pattens"',
    ('site_name: "Lantern Lane"', "site_name: Lantern: Lane"): ":2:19: error, syntax: found",
    ("strict: true", "strict: true\nextra_css: [assets/mine.css]"):
        ":7:13: error, unknown-name: found no file pages/assets/mine.css; expected a file in "
        "pages/, or one of ours. Put it there, or leave this line out.",
    ("strict: true", "strict: true\nextra_css:\n  - assets/walebok.css"):
        ":8:5: error, unknown-name: found no file pages/assets/walebok.css; expected a file in "
        "pages/, or one of ours. Write assets/walebook.css.",
    ("strict: true", "strict: true\nextra_javascript: [{path: assets/mne.js, defer: true}]"):
        ":7:27: error, unknown-name: found no file pages/assets/mne.js",
    ("strict: true", "strict: true\nextra_css: assets/mine.css"):
        ":7:12: error, wrong-shape: found a plain value; expected a list. Write it in a line below "
        "extra_css: - assets/mine.css",
    ("strict: true", "strict: true\nsite_url: lantern"):
        ':7:11: error, unknown-word: found "lantern"; expected the address of the site.',
    ("strict: true", "strict: yes please"):
        ':6:9: error, unknown-word: found "yes please"; expected true or false.',
    ("strict: true", "strict: true\nstrict: false"):
        ':7:1: error, duplicate-key: found "strict", which line 6 has already',
    ("pdf: false", "paper: Letter"):
        ':13:7: error, duplicate-key: found "paper", which line 12 has already',
    ("strict: true", "strict: true\nnav:\n- Home: index.md\n- In: [{B: techniques/bloking.md}]"):
        ":9:12: error, unknown-name: found no file pages/techniques/bloking.md; expected a file in "
        "pages/, or one of ours. Write techniques/blocking.md.",
    ("      paper: Letter", "\tpaper: Letter"):
        ":13:1: error, tab: found a tab; expected spaces. Replace every tab by spaces.",
    ("strict: true", "strict: true\ntheme: nosuch"):
        ':7:8: error, unknown-word: found the theme "nosuch"; expected Walebook\'s own templates, '
        "which pages of patterns need. Leave theme out.",
    ("strict: true", "strict: true\ntheme: {name: readthedocs}"):
        ':7:15: error, unknown-word: found the theme "readthedocs"',
    ("  - walebook:", "  - walbook:"):
        ':9:5: error, unknown-name: found no plugin "walbook"; expected a plugin of the site '
        "builder. Write walebook.",
}


@pytest.mark.parametrize("name", ["walebook", "walbook"])
def test_a_plugin_that_stands_in_no_list(tmp_path: Path, name: str,
                                         capsys: pytest.CaptureFixture[str]) -> None:
    (tmp_path / "patterns").mkdir()
    (tmp_path / "mkdocs.yml").write_text(f"site_name: Quay\nplugins: {name}\n")
    assert main(["build", "--root", str(tmp_path)]) == 1
    assert ("mkdocs.yml:2:10: error, wrong-shape: found a plain value; expected a list. Write it "
            "in a line below plugins: - walebook") in capsys.readouterr().out


def test_settings_in_another_encoding_are_a_finding_with_their_line(
        collection: Path, capsys: pytest.CaptureFixture[str]) -> None:
    """As of every other file of the collection."""
    settings = collection / "mkdocs.yml"
    settings.write_bytes(settings.read_text(encoding="utf-8").replace(
        "Lantern Lane", "Café Lane").encode("latin-1"))
    for command in ("build", "check"):
        assert main([command, "--root", str(collection)]) == 1
        assert "mkdocs.yml:2:16: error, not-utf-8: found a byte that is no UTF-8 text; expected " \
            "a text file in UTF-8. Save the file as UTF-8." in capsys.readouterr().out


LINKS = {
    "[a](techniqus/blocking.md)": ('"techniqus/blocking.md", which leads nowhere', ""),
    "[a](techniques/bloking.md)": ('"techniques/bloking.md", which leads nowhere',
                                   "Write techniques/blocking.md."),
    "[a](techniques/blocking.html)": ('"techniques/blocking.html", which leads nowhere',
                                      "Write techniques/blocking.md."),
    "[a](/techniques/blocking.md)": ('"/techniques/blocking.md", which leads out of the site', ""),
    "[a](patterns/quay/index.md)": ('"patterns/quay/index.md", which leads nowhere', ""),
    "![a](quay.png)": ('"quay.png", which leads nowhere', ""),
    "[a](techniques/blocking.md#nowhere)": ('"techniques/blocking.md#nowhere", which leads to no '
                                            "place on that page", ""),
}
SOUND = ("[a](techniques/blocking.md) [b](mailto:wren@example.org) [c](https://example.org/x.md)\n"
         "[d](patterns/first-band/index.md) `[e](nowhere.md)` [f](#about) ![g](lane.png)\n\n"
         "    [h](nowhere.md)\n\n```\n\n[i](nowhere.md)\n```\n\n<a href='nowhere.md'>j</a> "
         "[k](about.md#about) [l](techniques/blocking.md#top)\n")


@pytest.mark.parametrize("link", LINKS)
def test_a_bad_link_of_an_own_page_is_said_with_its_place(
        collection: Path, link: str, capsys: pytest.CaptureFixture[str]) -> None:
    page = collection / "pages" / "about.md"
    page.parent.mkdir()
    (page.parent / "lane.png").write_bytes(b"")
    page.write_text(f"---\ntitle: About\n---\n# About\n\n{SOUND}\nSee {link}.\n")
    found, remedy = LINKS[link]
    (one,) = settings_findings(collection)
    assert str(one.place) == f"pages/about.md:18:{5 + link.index('(') + 1}"
    assert (one.severity.value, one.code) == ("error", "bad-link")
    assert one.found == f"a link to {found}" and remedy in one.remedy and one.remedy
    if found.startswith('"techniques/bloking'):
        for command in ("check", "build"):
            assert main([command, "--root", str(collection)]) == 1
            assert f"    See {link}.\n" in capsys.readouterr().out
    settings = collection / "mkdocs.yml"
    settings.write_text(settings.read_text().replace("strict: true", "strict: false"))
    (one,) = settings_findings(collection)
    assert one.severity.value == "warning"


def test_sound_links_of_an_own_page_have_no_finding(collection: Path) -> None:
    (collection / "pages").mkdir()
    (collection / "pages" / "lane.png").write_bytes(b"")
    (collection / "pages" / "about.md").write_text(f"# About\n\n{SOUND}")
    assert settings_findings(collection) == []


@pytest.fixture
def collection(tmp_path: Path) -> Path:
    return begun(tmp_path / "lantern-lane")


@pytest.mark.parametrize(("good", "bad"), MISTAKES)
def test_a_mistake_is_said_with_its_place_and_nothing_is_built(
        collection: Path, good: str, bad: str, capsys: pytest.CaptureFixture[str]) -> None:
    settings = collection / "mkdocs.yml"
    text = settings.read_text(encoding="utf-8")
    assert text.count(good) == 1
    settings.write_text(text.replace(good, bad), encoding="utf-8")
    assert main(["build", "--root", str(collection)]) == 1
    told = capsys.readouterr().out
    assert f"mkdocs.yml{MISTAKES[good, bad]}" in told and told.endswith("Nothing was built.\n")
    assert bad.splitlines()[-1].strip() in told, "the author's own line"
    assert not (collection / "site").exists()


@pytest.mark.parametrize(("good", "bad"), MISTAKES)
def test_a_check_says_the_same_and_fails(
        collection: Path, good: str, bad: str, capsys: pytest.CaptureFixture[str]) -> None:
    settings = collection / "mkdocs.yml"
    settings.write_text(settings.read_text().replace(good, bad), encoding="utf-8")
    for more in ([], ["--form", "lines"]):
        assert main(["check", "--root", str(collection), *more]) == 1
        assert f"mkdocs.yml{MISTAKES[good, bad]}" in capsys.readouterr().out


def test_a_check_of_settings_without_fault_or_of_one_pattern_says_nothing_of_them(
        collection: Path, capsys: pytest.CaptureFixture[str]) -> None:
    assert main(["check", "--root", str(collection)]) == 0
    settings = collection / "mkdocs.yml"
    settings.write_text(settings.read_text().replace("paper: Letter", "paper: A5"))
    assert main(["check", "--root", str(collection), "first-band"]) == 0
    assert "mkdocs.yml" not in capsys.readouterr().out


@pytest.mark.parametrize("name", [name for name, _ in PluginSettings()._schema])
def test_every_setting_of_the_plugin_is_held_to_its_values(tmp_path: Path, name: str) -> None:
    (tmp_path / "mkdocs.yml").write_text(
        f"site_name: Quay\nplugins:\n- walebook:\n    {name}: 3 ropes\n")
    (one,) = settings_findings(tmp_path)
    assert (one.place.line, one.place.column) == (4, 7 + len(name))
    assert one.found == '"3 ropes"' and one.expected


def test_an_unknown_setting_of_the_site_builder_is_a_warning(tmp_path: Path) -> None:
    (tmp_path / "mkdocs.yml").write_text("site_name: Quay\nstrct: true\nINHERIT: base.yml\n")
    (one,) = settings_findings(tmp_path)
    assert str(one) == ('mkdocs.yml:2:1: warning, unknown-key: found "strct"; expected a setting '
                        "of the site builder. Write strict.")


def test_a_site_has_a_name(tmp_path: Path) -> None:
    (tmp_path / "mkdocs.yml").write_text("strict: true\n")
    (one,) = settings_findings(tmp_path)
    assert str(one) == ('mkdocs.yml:1:1: error, missing-key: found no "site_name". Write the name '
                        "of your site: site_name: Lantern Lane")
    (tmp_path / "mkdocs.yml").write_text("site_name: 12\n")
    (one,) = settings_findings(tmp_path)
    assert (one.code, one.place.column) == ("wrong-shape", 12)


def test_a_style_beside_the_folder_of_pages_is_to_be_moved(tmp_path: Path) -> None:
    (tmp_path / "assets").mkdir()
    (tmp_path / "assets/mine.css").write_text("")
    (tmp_path / "mkdocs.yml").write_text("site_name: Quay\nextra_css: [assets/mine.css]\n")
    (one,) = settings_findings(tmp_path)
    assert one.remedy == "Move assets/mine.css to pages/assets/mine.css."
    (tmp_path / "assets").rename(tmp_path / "new")
    (tmp_path / "pages").mkdir()
    (tmp_path / "new").rename(tmp_path / "pages/assets")
    assert settings_findings(tmp_path) == []


def test_sound_settings_have_no_finding(collection: Path, tmp_path: Path) -> None:
    assert settings_findings(ROOT) == settings_findings(collection) == []
    bare = tmp_path / "mkdocs.yml"
    for sound in ("extra_css: [assets/walebook.css, https://quay.example/a.css]\n",
                  "nav:\n- index.md\n- Mine: patterns/mine/index.md\nsite_url: !ENV [U, '']\n",
                  "plugins: [walebook]\n", "plugins:\n- walebook:\n", "plugins:\n- walebook: {}\n",
                  "extra: {x: !ENV [NAME, 1]}\nplugins:\n- walebook: {pdf: true}\n"):
        bare.write_text(f"site_name: Quay\n{sound}")
        assert settings_findings(tmp_path) == [], sound
    bare.unlink()
    assert settings_findings(tmp_path) == []
