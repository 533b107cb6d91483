"""What is made by docs/make.py is what it would make now, byte for byte."""

import json

import _examples
import _pictures
import _reference
import _sessions
import make
import pytest

from templates_gen.tolerances import SECTION, VOLUME_FREE

ROOT = make.ROOT
SAY = "run: python docs/make.py"


def kept(folder):
    """The files of a folder by their name below it."""
    files = (p for p in (ROOT / folder).rglob("*") if p.is_file())
    return {p.relative_to(ROOT / folder).as_posix(): p.read_bytes() for p in files}


def differing(made, there):
    """What is missing, other than made, or left over."""
    return sorted(n for n in made.keys() | there.keys() if made.get(n) != there.get(n))


def test_pictures_are_fresh():
    made = {f"{name}.svg": picture for name, picture in _pictures.pictures(ROOT).items()}
    assert "sheet.svg" in made
    assert differing(made, kept("docs/pictures")) == [], SAY


def test_reference_is_fresh():
    made = {f"{name}.md": text.encode() for name, text in _reference.pages(ROOT).items()}
    assert differing(made, kept("docs/reference")) == [], SAY


@pytest.mark.parametrize("page", make.pages())
def test_tables_and_listings_are_fresh(page, plane):
    assert make.refreshed(page) == (ROOT / page).read_bytes(), SAY


def test_examples_are_fresh(plane):
    """Every sheet; of the manifests all but what the solids gave."""
    made, there = _examples.examples(ROOT), kept("outputs_example")
    manifests = [n for n in made if n.endswith("manifest.json")]
    assert len(manifests) == len(_examples.PATTERNS)
    for name in manifests:
        now, then = json.loads(made.pop(name)), json.loads(there.pop(name))
        assert then.pop("solids"), "an example is drawn with its solids"
        assert now.pop("solids") == {}
        assert now == then, SAY
    assert differing(made, there) == [], SAY


@pytest.mark.kernel
def test_solids_of_the_examples_are_fresh(tmp_path, monkeypatch):
    monkeypatch.setenv("XDG_CACHE_HOME", str(tmp_path))
    there = kept("outputs_example")
    for name, content in _examples.examples(ROOT).items():
        if not name.endswith("manifest.json"):
            assert content == there[name], SAY
            continue
        now, then = (json.loads(c)["solids"] for c in (content, there[name]))
        assert now.keys() == then.keys()
        for part, solid in now.items():
            volume = pytest.approx(solid["volume_mm3"], rel=VOLUME_FREE)
            assert then[part]["volume_mm3"] == volume
            assert then[part]["section_error_mm"] <= SECTION


def test_a_file_left_over_is_seen(tmp_path):
    left = tmp_path / "docs" / "pictures" / "old.svg"
    left.parent.mkdir(parents=True)
    left.write_text("<svg/>")
    assert make.stale(set(), tmp_path) == ["docs/pictures/old.svg"]


def test_a_stale_listing_is_seen():
    page = (
        "```console\n$ templates-gen explain hair.thickness\nhair.thickness is something else\n```"
    )
    told = _sessions.refreshed(page)
    assert told != page
    assert _sessions.refreshed(told) == told
    assert "the ribbon is thin enough" in told
