"""Test the cache of witnesses: entries are recalled, and a damaged cache is not an error."""

import json

import pytest
from outside.maker import PARAMS

from templates_gen.bow.dims import frames
from templates_gen.pipeline import rendering, solids, witness
from templates_gen.pipeline.witness import Witness

SEEN = Witness(
    "ferrule",
    137.25,
    (0.1, -0.2, 1 / 3),
    3e-16,
    {"frog.wall": 2.125},
    {"rearmost: frog-stick": 0.0},
)
NAME = "0f1e"


@pytest.fixture(autouse=True)
def cache(tmp_path, monkeypatch):
    monkeypatch.setenv("XDG_CACHE_HOME", str(tmp_path))
    return tmp_path / "templates-gen"


def test_stored_witness_is_recalled_to_the_last_digit(cache):
    witness.keep(SEEN, NAME)
    assert witness.recall("ferrule", NAME) == SEEN
    assert [f.name for f in cache.iterdir()] == [f"{NAME}.json"]  # no draft left behind


def test_nothing_stored_gives_nothing_recalled(cache):
    assert witness.recall("ferrule", NAME) is None
    assert not cache.exists()


@pytest.mark.parametrize("pose", ["rearmost", "play", "foremost"])
def test_witness_is_complete_only_with_every_measured_place(pose, monkeypatch):
    p = rendering.read(str(PARAMS / "violin.toml"))
    before, places = solids._whole(p, {}), frames.positions(p)
    x, z = places[pose]
    monkeypatch.setattr(frames, "positions", lambda _: {**places, pose: (x + 0.5, z)})
    assert solids._whole(p, {}) != before


SOUND = {
    "part": "ferrule",
    "volume": 1.0,
    "centroid": [0.0, 0.0, 0.0],
    "section_error": 0.0,
    "walls": {},
    "overlaps": {},
}


def test_accepts_a_sound_witness(cache):
    cache.mkdir()
    (cache / f"{NAME}.json").write_text(json.dumps(SOUND), "utf-8")
    assert witness.recall("ferrule", NAME) == Witness("ferrule", 1.0, (0.0, 0.0, 0.0), 0.0)


@pytest.mark.parametrize(
    "content",
    [
        b"",
        b"{",
        b"null",
        b"[]",
        b'"ferrule"',
        b"\xff\xfe",
        b'{"part": "ferrule"}',
        json.dumps(SOUND)[:-1].encode(),
        *(
            json.dumps({**SOUND, **wrong}).encode()
            for wrong in (
                {"part": "frog"},
                {"volume": None},
                {"volume": "much"},
                {"centroid": [0.0, 0.0]},
                {"centroid": 0.0},
                {"section_error": []},
                {"walls": []},
                {"walls": {"frog.wall": None}},
                {"overlaps": 0.0},
            )
        ),
    ],
)
def test_ignores_a_damaged_witness(cache, content):
    cache.mkdir()
    (cache / f"{NAME}.json").write_bytes(content)
    assert witness.recall("ferrule", NAME) is None
    witness.keep(SEEN, NAME)
    assert witness.recall("ferrule", NAME) == SEEN


def test_folder_in_place_of_a_witness_is_no_error(cache):
    (cache / f"{NAME}.json").mkdir(parents=True)
    witness.keep(SEEN, NAME)
    assert witness.recall("ferrule", NAME) is None


def test_file_in_place_of_the_cache_is_no_error(cache):
    cache.write_text("in the way", "utf-8")
    witness.keep(SEEN, NAME)
    assert witness.recall("ferrule", NAME) is None
    assert cache.read_text("utf-8") == "in the way"


@pytest.mark.parametrize("call", ["mkdir", "write_text", "replace"])
def test_a_cache_that_cannot_be_written_is_no_error(monkeypatch, call):
    """As on a read-only or full disk, simulated at each step, because root ignores permissions."""

    def refused(*_, **__):
        raise PermissionError(30, "Read-only file system")

    monkeypatch.setattr(f"pathlib.Path.{call}", refused)
    witness.keep(SEEN, NAME)
    assert witness.recall("ferrule", NAME) is None


def test_cache_location(tmp_path, monkeypatch):
    assert witness.folder() == tmp_path / "templates-gen"
    monkeypatch.setenv("XDG_CACHE_HOME", "")
    monkeypatch.setenv("HOME", str(tmp_path))
    assert witness.folder() == tmp_path / ".cache" / "templates-gen"


def test_key_differs_by_part_and_recipe():
    keys = {witness.key(part, r) for part in ("frog", "slide") for r in ((1.0,), (1.0000001,))}
    assert len(keys) == 4
    assert witness.key("frog", (1.0,)) == witness.key("frog", (1.0,))


def test_a_key_changes_with_the_sources_that_shape_a_solid(tmp_path, monkeypatch):
    """Two packages that shape and one that does not: each is changed in turn."""
    for package in ("geometry", "kernel", "writers"):
        (tmp_path / package).mkdir()
        (tmp_path / package / "a.py").write_text("one", "utf-8")
    monkeypatch.setattr(witness, "__file__", str(tmp_path / "pipeline" / "witness.py"))
    seen = []
    for package in (None, "geometry", "kernel", "writers"):
        if package:
            (tmp_path / package / "a.py").write_text("two", "utf-8")
        witness._sources.cache_clear()
        seen.append(witness.key("frog", (1.0,)))
    witness._sources.cache_clear()
    assert len(set(seen)) == 3
    assert seen[2] == seen[3]


def test_cache_entry_is_plain_json(cache):
    witness.keep(SEEN, NAME)
    kept = json.loads((cache / f"{NAME}.json").read_text("utf-8"))
    assert set(kept) == set(SOUND)
    assert kept["volume"] == 137.25
    assert kept["centroid"] == [0.1, -0.2, 1 / 3]
