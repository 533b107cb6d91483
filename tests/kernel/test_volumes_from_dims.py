"""Volume and centre of each part from its dimensions, against the solid the modeller measures.

The starters, and patterns changed in what a fitted constant would not follow.
"""

import numpy as np
import pytest
from kernel.bench import BUILDERS, PARAMS

from templates_gen import registry
from templates_gen.bow.dims import frames
from templates_gen.bow.dims.volumes import Volumes
from templates_gen.pipeline import rendering

pytestmark = pytest.mark.kernel
FAMILIES = ("violin", "viola", "cello", "bass-french", "bass-german")

#: What is multiplied (a number), or set (in a tuple).
CHANGES = {
    "as shipped": {},
    "wide head": {
        "head.width": 1.25,
        "head.face_width_front": 1.3,
        "head.nose_width": 1.4,
        "stick.diameter_head": 0.85,
        "head.ridge_width": (1.5,),
        "head.cheek_lean_deg": (5.0,),
    },
    "slim head": {
        "head.width": 0.9,
        "head.face_width_front": 0.88,
        "stick.diameter_head": 1.15,
        "head.ridge_width": (0.0,),
        "head.cheek_lean_deg": (1.0,),
        "head.nose_rise": 1.3,
        "head.face_length": 1.1,
        "head.ridge_ratio": (0.9,),
        "head.mortise_length": 0.8,
        "head.mortise_depth": 0.85,
        "head.mortise_width": 0.8,
        "head.mortise_width_front": 0.75,
    },
    "bare frog": {
        "ferrule.arch_kind": ("flat-top",),
        "frog.eye_kind": ("none",),
        "heel.kind": ("none",),
        "underslide.kind": ("none",),
        "frog.width_waist": 0.9,
        "frog.flank_band": 1.4,
        "frog.throat_depth": 1.1,
        "frog.throat_straight": (1.5,),
        "frog.thumb_tip_thickness": 1.4,
        "frog.hair_mortise_depth": 0.8,
    },
    "tall frog": {
        "ferrule.arch_kind": ("segment",),
        "frog.clear_height": 1.12,
        "frog.overall_height": 1.12,
        "frog.width_heel": 1.08,
        "frog.width_top": 1.06,
        "frog.throat_centre_height": 1.15,
        "frog.length_top": 1.06,
        "heel.lean_deg": (6.0,),
        "frog.thumb_slope_deg": (12.0,),
        "frog.lip_radius": 1.3,
        "slide.width_front": 0.9,
        "ferrule.length": 0.9,
    },
}
#: The most a volume (in parts) and a centre (mm) may differ. Where formulas are exact they agree to
#: 1e-4; frog and head are integrated through a few thousand points.
WITHIN = {"frog": (2e-3, 0.02), "head": (2e-3, 0.03), "stick": (2e-4, 0.05)}
EXACT = (1e-4, 1e-3)


def changed(family, which):
    """A shipped starter with one set of changes."""
    p = rendering.read(str(PARAMS / f"{family}.toml"))
    known = p.schema.parameters

    def value(key, change):
        if not isinstance(change, tuple):
            return p.values[key] * change
        return change[0] if known[key].numeric else known[key].choices(change[0])

    return p.with_many({key: value(key, change) for key, change in CHANGES[which].items()})


CASES = [(f, "as shipped") for f in FAMILIES]
CASES += [(f, which) for f in ("violin", "bass-french") for which in CHANGES if which[0] != "a"]


@pytest.mark.parametrize(("family", "which"), CASES)
def test_volume_and_centre_are_those_of_the_solid(family, which):
    from templates_gen.kernel import solids

    p = changed(family, which)
    told, seen = p.derive(Volumes).parts, 0
    for member in registry.members():
        recipe = BUILDERS[member.part].recipe(p) if member.part in BUILDERS else None
        if recipe is None:
            assert member.part not in BUILDERS or member.part not in told
            continue
        solid = BUILDERS[member.part].build(recipe).solid
        x = member.frame(p).along(solids.centroid(solid))
        x = x + frames.group_in_play(p, member.moves_with)
        relative, away = WITHIN.get(member.part, EXACT)
        own = told[member.part]
        assert float(own.volume) == pytest.approx(solids.volume(solid), rel=relative), member.part
        assert float(own.x) == pytest.approx(float(x), abs=away), member.part
        seen += 1
    assert seen >= 8


@pytest.mark.parametrize("family", ["violin", "bass-french"])
def test_many_bows_at_once_are_each_as_one(family):
    """All numbers at random within a third of a per cent, seeded, in one call."""
    p = rendering.read(str(PARAMS / f"{family}.toml"))
    rng = np.random.default_rng(20)
    numbers = [k for k, q in p.schema.parameters.items() if q.numeric and not q.whole]
    rows = {k: p.values[k] * (1 + 0.003 * rng.uniform(-1, 1, 7)) for k in numbers}
    many = p.corner(rows).derive(Volumes).parts
    for i in (0, 6):
        one = p.corner({k: float(v[i]) for k, v in rows.items()}).derive(Volumes).parts
        assert set(one) == set(many)
        for part, v in one.items():
            volume, x = (np.broadcast_to(w, 7)[i] for w in (many[part].volume, many[part].x))
            assert (volume, x) == pytest.approx((float(v.volume), float(v.x)), rel=1e-12), part
