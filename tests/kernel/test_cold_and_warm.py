"""Witnesses come out the same whether built or recalled, and whatever has become of the cache."""

import json
import shutil

import pytest
from kernel.bench import pattern

from templates_gen.pipeline import rendering, solids, witness
from templates_gen.tolerances import OVERLAP, SECTION

pytestmark = pytest.mark.kernel


@pytest.fixture(scope="module")
def cold(tmp_path_factory):
    """A cache that was empty, the witnesses that were built then, and in which order."""
    base = tmp_path_factory.mktemp("cold")
    with pytest.MonkeyPatch.context() as patch:
        patch.setenv("XDG_CACHE_HOME", str(base))
        looked_at = watched(patch)
        return base, rendering.witnesses(pattern("violin")), looked_at


def watched(patch):
    """What is looked at anew, in order: parts by their names, and the whole."""
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
    """A copy of that cache, in use."""
    shutil.copytree(cold[0], tmp_path, dirs_exist_ok=True)
    monkeypatch.setenv("XDG_CACHE_HOME", str(tmp_path))
    return tmp_path / "templates-gen"


def rounded(seen):
    """Witnesses as plain numbers, to what two buildings of one solid agree in.

    A solid cut or joined anew lists its faces in another order, and sums end in other last digits.
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


def test_warm_gives_what_cold_gave(cold, cache, monkeypatch):
    looked_at = watched(monkeypatch)
    assert rendering.witnesses(pattern("violin")) == cold[1]
    assert looked_at == []


@pytest.mark.parametrize("how", ["damaged", "missing", "another's"])
def test_one_witness_is_built_again(cold, cache, monkeypatch, how):
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


def test_no_cache_costs_time_and_nothing_else(cold, cache, monkeypatch):
    # A file where the folder should be: nothing can be kept, nothing recalled, whoever runs it.
    monkeypatch.setattr(witness, "folder", lambda: next(iter(cache.glob("*.json"))))
    looked_at = watched(monkeypatch)
    assert rounded(rendering.witnesses(pattern("violin"))) == rounded(cold[1])
    assert looked_at == list(cold[1])


def test_another_number_is_another_solid(cold, cache, monkeypatch):
    looked_at = watched(monkeypatch)
    steeper = pattern("violin").with_("slide.dovetail_deg", 14.0)
    again = rendering.witnesses(steeper)
    assert again["slide"].volume < cold[1]["slide"].volume
    assert {"slide", "frog"} <= set(looked_at)
    assert "screw" not in looked_at


def test_the_whole_is_put_together_where_it_is_asked_for(cold, cache, monkeypatch):
    looked_at = watched(monkeypatch)
    whole = rendering.witnesses(pattern("violin"), together=True)
    assert looked_at == ["bow"]
    assert {k: w for k, w in whole.items() if k != "bow"} == cold[1]
    parts = sum(w.volume for w in cold[1].values())
    assert whole["bow"].volume == pytest.approx(parts, rel=1e-9)
    assert max(whole["bow"].overlaps.values()) <= OVERLAP
    assert rendering.witnesses(pattern("violin"), together=True) == whole
    assert looked_at == ["bow"]
