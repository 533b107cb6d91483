"""The bow put together: nothing stands in another's place, and what is planted there is told."""

import json
import math
import os
import subprocess
import sys

import pytest
from kernel.bench import BUILDERS, FILES, PARAMS, built, parts_of, pattern

from templates_gen.bow.dims import frames
from templates_gen.pipeline import solids as confirm
from templates_gen.tolerances import OVERLAP, VOLUME_EXACT, VOLUME_FREE

pytestmark = pytest.mark.kernel
#: Every part whose place is told: on the stick's handle, or in the frog.
ON_THE_HANDLE = {*frames.WITH_STICK, *frames.in_frog(pattern("violin"))}
every_file = pytest.mark.parametrize("stem", FILES)


def together(stem, p=None, parts=()):
    """The witness of the whole; some parts as another pattern has them, placed as this one says.

    Args:
        stem: the file.
        p: where the parts stand, and what the parts in ``parts`` are.
        parts: those taken from ``p``.
    """
    solids = {part: built(stem, part) for part in parts_of(stem) if part in ON_THE_HANDLE}
    for part in parts:
        solids[part] = BUILDERS[part].build(BUILDERS[part].recipe(p))
    return confirm._together(pattern(stem), dict.fromkeys(solids), solids)


def told(witness):
    """What the checks say of overlaps, by name; what is measured between parts is told too."""
    found = confirm.confirm(pattern("violin"), {"bow": witness})
    return {r.rule.id: r for r in found if r.rule.id.startswith("bow.overlap_")}


CHECKS = {f"bow.overlap_{where}" for where in ("frog", "stick", "rearmost", "foremost")}


@every_file
def test_nothing_stands_in_anothers_place(stem):
    seen = together(stem)
    for end in confirm.ENDS:
        assert {f"{end}: frog-stick", f"{end}: eyelet-stick", f"{end}: eyelet-screw"} <= {
            *seen.overlaps
        }
    assert max(seen.overlaps.values()) < OVERLAP
    results = told(seen)
    assert set(results) == CHECKS
    assert {r.verdict for r in results.values()} == {"pass"}


def fails(witness):
    return {name for name, r in told(witness).items() if r.stops}


def test_an_eyelet_wider_than_the_stick_mortise_is_told_with_its_volume():
    """What it shares with the cheeks: a strip each side, from its foot up to its top."""
    p = pattern("violin").with_("eyelet.width", 4.6)
    seen = together("violin", p, ("eyelet",))
    assert fails(seen) == {"bow.overlap_rearmost", "bow.overlap_foremost"}
    v = pattern("violin").values
    a = v["stick.across_flats_butt"]
    assert a == v["stick.across_flats_handle_end"]
    # Its foot clears the seat: as high as the diagonals are at its own corners.
    land = (math.sqrt(2) - 1) * a - v["frog.land_relief"]
    foot = -a / 2 - v["frog.land_relief"] / 2 + (4.6 - land) / 2
    strips = (4.6 - v["stick.mortise_width"]) * v["eyelet.length"]
    expected = strips * (v["eyelet.height_above_axis"] - foot)
    for end in confirm.ENDS:
        assert seen.overlaps[f"{end}: eyelet-stick"] == pytest.approx(expected, rel=1e-6)


@pytest.mark.parametrize("thicker", [0.02, 0.5])
def test_a_stick_thicker_than_its_seat_is_told(thicker):
    v = pattern("violin").values
    ends = ("stick.across_flats_butt", "stick.across_flats_handle_end")
    p = pattern("violin").with_many({key: v[key] + thicker for key in ends})
    seen = together("violin", p, ("stick",))
    assert {"bow.overlap_rearmost", "bow.overlap_foremost"} <= fails(seen)
    assert "bow.overlap_frog" not in fails(seen)
    part = "underslide-stick" if thicker < 0.1 else "frog-stick"
    assert seen.overlaps[f"rearmost: {part}"] > 0.1


@pytest.mark.parametrize(
    ("key", "value", "part", "check"),
    [
        ("slide.thickness", 1.8, "slide", "bow.overlap_frog"),
        ("slide.width_front", 7.1, "slide", "bow.overlap_frog"),
        ("ferrule.tongue_fit", -0.3, "frog", "bow.overlap_frog"),
        ("screw.diameter", 3.4, "screw", "bow.overlap_stick"),
    ],
)
def test_a_part_too_big_for_its_place_is_told(key, value, part, check):
    seen = together("violin", pattern("violin").with_(key, value), (part,))
    assert check in fails(seen)


def test_an_eyelet_longer_than_its_travel_allows_meets_both_ends_of_the_slot():
    """Two millimetres longer, one beyond either end at the places reckoned without them."""
    v = pattern("violin").values
    longer = pattern("violin").with_("eyelet.length", v["eyelet.length"] + 2.0)
    seen = together("violin", longer, ("eyelet",))
    met = {k for k, shared in seen.overlaps.items() if shared > OVERLAP}
    assert met == {"rearmost: eyelet-stick", "foremost: eyelet-stick"}


# --- STEP ------------------------------------------------------------------------------------

HASHES = """
import hashlib, json, sys
from templates_gen import confirm, pipeline
files = confirm.step_files(pipeline.read(sys.argv[1]), "sanderling")
print(json.dumps({part: hashlib.sha256(data).hexdigest() for part, data in files.items()}))
"""


@pytest.fixture(scope="module")
def written():
    """The violin's STEP files, by part."""
    return confirm.step_files(pattern("violin"), "sanderling")


def in_place(part):
    """A part of the violin's bow where it stands in play, on the stick."""
    from templates_gen.kernel import assembly

    solid = built("violin", part).solid
    if part in frames.WITH_STICK:
        own = frames.WITH_STICK[part]
        return assembly.placed(solid, own.origin, own.x, own.z)
    x, z = frames.positions(pattern("violin"))["play"]
    f = frames.in_frog(pattern("violin"))[part]
    there = assembly.placed(solid, f.origin, f.x, f.z)
    return assembly.placed(there, (x, 0.0, z), frames.ALONG, frames.UP)


def assert_same_solid(read, part, known):
    """To the witness's volume, and to all figures that the modeller can be made to work out."""
    from templates_gen.kernel import solids

    witnessed = solids.volume(built("violin", part).solid)
    rel = VOLUME_FREE if part == "frog" else VOLUME_EXACT
    # Left to itself the modeller sums over each face with few points; told a limit, with enough.
    assert read.Volume(1e-9) == pytest.approx(witnessed, rel=rel)
    assert read.Volume(1e-9) == pytest.approx(known.Volume(1e-9), rel=1e-9)
    # Copied without its mesh: measuring between parts meshes a solid; a mesh widens its box.
    a, b = read.BoundingBox(1e-6), known.copy(mesh=False).BoundingBox(1e-6)
    ends = ("xmin", "xmax", "ymin", "ymax", "zmin", "zmax")
    assert [getattr(a, e) for e in ends] == pytest.approx([getattr(b, e) for e in ends], abs=1e-5)


def test_whole_read_again_has_every_part_with_its_volume_in_its_place(written, tmp_path):
    """Read by CadQuery's own importer, which takes names and places from the file alone."""
    import cadquery as cq

    file = tmp_path / "whole.step"
    file.write_bytes(written["assembly"])
    solids = {
        name.rpartition("/")[2].removesuffix("_part"): solid
        for solid, name, _, _ in cq.Assembly.importStep(str(file))
    }
    here = ON_THE_HANDLE & {*parts_of("violin")}
    assert set(solids) >= here
    for part in here:
        assert_same_solid(solids[part], part, in_place(part))


def test_each_part_read_again_is_the_solid_in_its_own_frame(written, tmp_path):
    import cadquery as cq

    assert set(written) == {*parts_of("violin"), "assembly"}
    for part in ON_THE_HANDLE & {*parts_of("violin")}:
        file = tmp_path / f"{part}.step"
        file.write_bytes(written[part])
        (solid,) = cq.importers.importStep(str(file)).solids().vals()
        assert_same_solid(solid, part, built("violin", part).solid)


def test_same_bytes_in_two_processes():
    """Side by side, under other hash seeds, at other hours."""
    told = []
    for seed, zone in (("1", "UTC"), ("4711", "Pacific/Kiritimati")):
        env = {**os.environ, "PYTHONHASHSEED": seed, "TZ": zone}
        call = [sys.executable, "-c", HASHES, str(PARAMS / "violin.toml")]
        told.append(subprocess.Popen(call, env=env, stdout=subprocess.PIPE, text=True))
    first, second = (json.loads(process.communicate()[0]) for process in told)
    assert {process.returncode for process in told} == {0}
    assert first == second
    assert set(first) == {*parts_of("violin"), "assembly"}


def test_same_bytes_however_many_were_written_before():
    """The translator numbers uses from the process's start and breaks lines at 72 columns."""
    from templates_gen.kernel import solids, step

    box = solids.box((0, 0, 0), (1, 1, 1))
    parts = {"n" * long: box for long in range(1, 25)}
    assert len({step.step(parts, "whole") for _ in range(6)}) == 1
