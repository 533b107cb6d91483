"""Witnesses are the same built or from the cache, also if the cache is damaged or missing."""

import json
import shutil

import pytest
from kernel.bench import pattern

from templates_gen.pipeline import rendering, solids, witness
from templates_gen.tolerances import OVERLAP, SECTION

pytestmark = pytest.mark.kernel


@pytest.fixture(scope="module")
def cold(tmp_path_factory):
    """An empty cache, the witnesses then built, and their order."""
    base = tmp_path_factory.mktemp("cold")
    with pytest.MonkeyPatch.context() as patch:
        patch.setenv("XDG_CACHE_HOME", str(base))
        looked_at = watched(patch)
        return base, rendering.witnesses(pattern("violin")), looked_at


def watched(patch):
    """Record what is built, in order: parts by name, and the assembly."""
    seen = []
    alone, together = solids._alone, solids._together

    def one(part, *rest):
        seen.append(part)
        return alone(part, *rest)

    def whole(*all_):
        seen.append("bow")
        return together(*all_)

    patch.setattr(solids, "_alone", one)
    patch.setattr(solids, "_together", whole)
    return seen


@pytest.fixture
def cache(cold, tmp_path, monkeypatch):
    """A copy of that cache, as the active one."""
    shutil.copytree(cold[0], tmp_path, dirs_exist_ok=True)
    monkeypatch.setenv("XDG_CACHE_HOME", str(tmp_path))
    return tmp_path / "templates-gen"


def rounded(seen):
    """Witnesses as numbers, rounded to what two builds of a solid agree in.

    A rebuilt solid lists its faces in another order, so sums differ in the last digits.
    """
    return {
        name: (
            round(w.volume, 8),
            [round(c, 9) + 0.0 for c in w.centroid],
            round(w.section_error, 9),
            {k: round(v, 8) for k, v in w.walls.items()},
            {k: round(v, 8) for k, v in w.overlaps.items()},
        )
        for name, w in seen.items()
    }


def file_of(cache, part):
    (file,) = [f for f in cache.glob("*.json") if json.loads(f.read_text("utf-8"))["part"] == part]
    return file


def test_cold_builds_everything_once(cold):
    _, seen, looked_at = cold
    assert looked_at == list(seen)
    assert all(w.section_error <= SECTION and w.volume > 0 for w in seen.values())
    assert "bow" not in seen


def test_warm_cache_gives_the_same_witnesses(cold, cache, monkeypatch):
    looked_at = watched(monkeypatch)
    assert rendering.witnesses(pattern("violin")) == cold[1]
    assert looked_at == []


@pytest.mark.parametrize("how", ["damaged", "missing", "another's"])
def test_rebuilds_one_bad_witness(cold, cache, monkeypatch, how):
    looked_at = watched(monkeypatch)
    file = file_of(cache, "slide")
    if how == "damaged":
        file.write_text("{", "utf-8")
    elif how == "missing":
        file.unlink()
    else:
        shutil.copyfile(file_of(cache, "heel"), file)
    again = rendering.witnesses(pattern("violin"))
    assert rounded(again) == rounded(cold[1])
    assert looked_at == ["slide"]
    assert rendering.witnesses(pattern("violin")) == again
    assert looked_at == ["slide"]


def test_works_without_a_cache(cold, cache, monkeypatch):
    # A file in place of the folder: nothing can be stored or read.
    monkeypatch.setattr(witness, "folder", lambda: next(iter(cache.glob("*.json"))))
    looked_at = watched(monkeypatch)
    assert rounded(rendering.witnesses(pattern("violin"))) == rounded(cold[1])
    assert looked_at == list(cold[1])


def test_changed_parameter_rebuilds_its_parts(cold, cache, monkeypatch):
    looked_at = watched(monkeypatch)
    steeper = pattern("violin").with_("slide.dovetail_deg", 14.0)
    again = rendering.witnesses(steeper)
    assert again["slide"].volume < cold[1]["slide"].volume
    assert {"slide", "frog"} <= set(looked_at)
    assert "screw" not in looked_at


def test_assembles_the_bow_on_request(cold, cache, monkeypatch):
    looked_at = watched(monkeypatch)
    whole = rendering.witnesses(pattern("violin"), together=True)
    assert looked_at == ["bow"]
    assert {k: w for k, w in whole.items() if k != "bow"} == cold[1]
    parts = sum(w.volume for w in cold[1].values())
    assert whole["bow"].volume == pytest.approx(parts, rel=1e-9)
    assert max(whole["bow"].overlaps.values()) <= OVERLAP
    assert rendering.witnesses(pattern("violin"), together=True) == whole
    assert looked_at == ["bow"]
