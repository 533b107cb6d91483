"""The generated files are what docs/make.py generates now, byte for byte."""

import json

import _examples
import _pictures
import _reference
import _sessions
import make
import pytest

from templates_gen import registry
from templates_gen.pipeline import rendering
from templates_gen.tolerances import SECTION, VOLUME_FREE

ROOT = make.ROOT
SAY = "run: python docs/make.py"


def kept(folder):
    """Return the files of a folder by their paths in it."""
    files = (p for p in (ROOT / folder).rglob("*") if p.is_file())
    return {p.relative_to(ROOT / folder).as_posix(): p.read_bytes() for p in files}


def differing(made, there):
    """List the files that are missing, that differ, or that are left over."""
    return sorted(n for n in made.keys() | there.keys() if made.get(n) != there.get(n))


def test_pictures_are_fresh():
    made = {f"{name}.svg": picture for name, picture in _pictures.pictures(ROOT).items()}
    assert "sheet.svg" in made
    assert differing(made, kept("docs/pictures")) == [], SAY


def test_reference_is_fresh():
    made = {f"{name}.md": text.encode() for name, text in _reference.pages(ROOT).items()}
    assert differing(made, kept("docs/reference")) == [], SAY


@pytest.mark.parametrize("page", make.pages())
def test_tables_and_listings_are_fresh(page, plane, empty):
    assert make.refreshed(page) == (ROOT / page).read_bytes(), SAY


def test_the_first_example_is_fresh(plane):
    """Every sheet, and the manifest except for what was measured on the solids."""
    made, there = _examples.drawn(ROOT / _examples.PATTERNS[0]), kept("outputs_example")
    (name,) = (n for n in made if n.endswith("manifest.json"))
    now, then = json.loads(made.pop(name)), json.loads(there.pop(name))
    assert then.pop("solids"), "an example is drawn with its solids"
    assert now.pop("solids") == {}
    known = {r.id for r in registry.rules()}
    then["checks"] = [c for c in then["checks"] if c["id"] in known]
    assert now == then, SAY
    folder = name.partition("/")[0]
    beside = {n: c for n, c in there.items() if n.startswith(f"{folder}/")}
    assert differing(made, beside) == [], SAY


def test_the_examples_page_is_fresh_and_nothing_is_left_over():
    there = kept("outputs_example")
    assert there["README.md"] == _examples.page(ROOT).encode(), SAY
    patterns = [rendering.read(str(ROOT / file)) for file in _examples.PATTERNS]
    assert {n.partition("/")[0] for n in there} == {"README.md", *map(rendering.stem, patterns)}


@pytest.mark.kernel
def test_every_example_is_fresh_with_its_solids(tmp_path, monkeypatch):
    monkeypatch.setenv("XDG_CACHE_HOME", str(tmp_path))
    made, there = _examples.examples(ROOT), kept("outputs_example")
    assert made.keys() == there.keys(), SAY
    for name, content in made.items():
        if not name.endswith("manifest.json"):
            assert content == there[name], SAY
            continue
        now, then = (json.loads(c) for c in (content, there[name]))
        assert [c["id"] for c in now["checks"]] == [c["id"] for c in then["checks"]]
        assert now["solids"].keys() == then["solids"].keys()
        for part, solid in now["solids"].items():
            kept_solid = then["solids"][part]
            assert kept_solid["volume_mm3"] == pytest.approx(solid["volume_mm3"], rel=VOLUME_FREE)
            assert kept_solid["section_error_mm"] <= SECTION


def test_finds_a_left_over_file(tmp_path):
    left = tmp_path / "docs" / "pictures" / "old.svg"
    left.parent.mkdir(parents=True)
    left.write_text("<svg/>")
    assert make.stale(set(), tmp_path) == ["docs/pictures/old.svg"]


def test_finds_a_stale_listing():
    page = (
        "```console\n$ templates-gen explain hair.thickness\nhair.thickness is something else\n```"
    )
    refreshed = _sessions.refreshed(page)
    assert refreshed != page
    assert _sessions.refreshed(refreshed) == refreshed
    assert "the ribbon is thin enough" in refreshed
