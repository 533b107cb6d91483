"""Every part read back from the assembly's STEP file by CadQuery's importer."""

import json

import pytest
from kernel.bench import FILES, parts_of, pattern

from templates_gen.pipeline import rendering, solids
from templates_gen.tolerances import OVERLAP

pytestmark = pytest.mark.kernel


@pytest.mark.parametrize(
    "stem",
    [stem if stem == "violin" else pytest.param(stem, marks=pytest.mark.slow) for stem in FILES],
)
def test_step_read_back_has_the_manifests_volumes(stem, tmp_path):
    """All parts, with the head; the file keeps eleven digits of each coordinate."""
    import cadquery as cq

    p = pattern(stem)
    files = rendering.render(rendering.check(p), formats=("step",))
    manifest = json.loads(files["manifest.json"])
    (whole,) = [data for name, data in files.items() if name.endswith("--assembly.step")]
    file = tmp_path / "whole.step"
    file.write_bytes(whole)
    read = {
        name.rpartition("/")[2].removesuffix("_part"): solid
        for solid, name, _, _ in cq.Assembly.importStep(str(file))
    }
    assert set(read) == set(manifest["solids"]) == {*parts_of(stem)}
    for part, solid in read.items():
        told = manifest["solids"][part]["volume_mm3"]
        assert solid.isValid(), part
        assert solid.Volume(1e-9) == pytest.approx(told, rel=1e-7), part
        assert manifest["solids"][part]["section_error_mm"] < 1e-6


@pytest.mark.slow
@pytest.mark.parametrize("stem", FILES)
def test_nothing_overlaps_at_either_end_of_the_travel(stem):
    seen = solids.witnesses(pattern(stem), together=True)["bow"]
    assert max(seen.overlaps.values()) < OVERLAP
    for pair in ("head-stick", "button-stick", "screw-stick"):
        assert any(pair in name for name in seen.overlaps)
    for end in solids.ENDS:
        assert f"{end}: frog-head" in seen.overlaps
