"""Witnesses come out the same whether built or recalled, and whatever has become of the cache."""

import pytest
from kernel.bench import pattern

from templates_gen import pipeline, witness
from templates_gen.tolerances import SECTION

pytestmark = pytest.mark.kernel


@pytest.fixture
def cache(tmp_path, monkeypatch):
    monkeypatch.setenv("XDG_CACHE_HOME", str(tmp_path))
    return tmp_path / "templates-gen"


@pytest.fixture
def built(monkeypatch):
    """The parts that had to be built, in order."""
    parts = []
    build = pipeline._build

    def counted(builder, *rest):
        parts.append(builder.part)
        return build(builder, *rest)

    monkeypatch.setattr(pipeline, "_build", counted)
    return parts


def test_warm_gives_what_cold_gave(cache, built):
    cold = pipeline.witnesses(pattern("violin"))
    assert built == list(cold)
    built.clear()
    assert pipeline.witnesses(pattern("violin")) == cold
    assert built == []
    assert all(w.section_error <= SECTION and w.volume > 0 for w in cold.values())


def test_one_damaged_witness_is_built_again(cache, built):
    cold = pipeline.witnesses(pattern("violin"))
    built.clear()
    kept = sorted(cache.glob("*.json"))
    assert len(kept) == len(cold)
    kept[0].write_text("{", "utf-8")
    assert pipeline.witnesses(pattern("violin")) == cold
    assert len(built) == 1
    built.clear()
    assert pipeline.witnesses(pattern("violin")) == cold
    assert built == []


def test_no_cache_costs_time_and_nothing_else(cache, built, monkeypatch):
    cold = pipeline.witnesses(pattern("violin"))
    built.clear()
    # A file where the folder should be: nothing can be kept, nothing recalled, whoever runs it.
    monkeypatch.setattr(witness, "folder", lambda: next(iter(cache.glob("*.json"))))
    assert pipeline.witnesses(pattern("violin")) == cold
    assert built == list(cold)


def test_another_number_is_another_solid(cache, built):
    first = pipeline.witnesses(pattern("violin"))
    built.clear()
    longer = pattern("violin").with_("ferrule.length", 9.9)
    second = pipeline.witnesses(longer)
    assert "ferrule" in built
    assert second["ferrule"].volume == pytest.approx(
        first["ferrule"].volume * 9.9 / pattern("violin").values["ferrule.length"], rel=1e-9
    )
