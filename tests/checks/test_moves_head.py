"""Moving one number of head, stick, button or form fails its rule, and the cure passes.

Which rule guards which number is trade knowledge (common practice, no source): a long mortise
leaves no wood before the nose, a long nipple lifts the button off the butt.
"""

import pytest
from checks.test_moves import Bench, failing

from templates_gen.tolerances import BOUND

IN_PLAY = "bow.hair_clears_in_play"
#: A file, the number moved, where to, and the error-checks that must fail, each by name.
MOVES = (
    # The head's mortise.
    ("violin", "head.mortise_width", 7.6, "head.mortise_sides", "head.mortise_side_rear"),
    ("viola", "head.mortise_width_front", 7.4, "head.mortise_sides"),
    ("bass-french", "head.mortise_width", 16.0, "head.mortise_sides", "head.mortise_side_rear"),
    ("violin", "head.mortise_from_rear", 3.6, "head.mortise_to_back"),
    ("cello", "head.mortise_from_rear", 3.9, "head.mortise_to_back"),
    ("violin", "head.face_width_front_at", 13.0, "head.mortise_straight", "head.mortise_sides"),
    ("violin", "head.mortise_depth", 4.0, "head.mortise_holds_knot"),
    ("bass-german", "head.mortise_width", 3.4, "head.mortise_over_knot", "head.mortise_sides"),
    (
        "violin",
        "head.height",
        16.0,
        "head.mortise_roof",
        "head.mortise_to_facets",
        "bow.hair_clears",
        IN_PLAY,
    ),
    (
        "violin",
        "head.face_length",
        20.0,
        "head.mortise_to_nose",
        "head.mortise_to_ridge",
        "head.mortise_to_facets",
        "bow.length_adds_up",
    ),
    (
        "viola",
        "head.width",
        9.0,
        "head.wider_than_ribbon",
        "head.mortise_sides",
        "head.mortise_side_rear",
    ),
    ("violin", "hair.ribbon_width_tip", 9.0, "head.wider_than_ribbon"),
    # The ridge and the neck.
    ("violin", "head.ridge_ratio", 0.16, "head.ridge_radii"),
    # So flat at the nose, the ridge must fall more than upright on its way there.
    (
        "violin",
        "head.ridge_deg",
        15.0,
        "head.mortise_to_ridge",
        "head.mortise_to_facets",
        "head.ridge_ends_at_nose",
    ),
    (
        "violin",
        "head.mortise_length",
        23.0,
        "head.mortise_sides",
        "head.mortise_straight",
        "head.mortise_to_nose",
        "head.mortise_to_ridge",
        "head.mortise_to_facets",
    ),
    ("violin", "head.nose_width", 9.0, "head.nose_narrows"),
    ("viola", "head.face_width_front_at", 25.0, "head.nose_curve"),
    ("violin", "head.back_radius", 18.0, "head.back_straight"),
    # The stick.
    ("violin", "stick.nipple_length", 1.9, "button.bears_on_shoulder"),
    (
        "violin",
        "stick.diameter_head",
        9.2,
        "stick.never_thickens",
        "head.mortise_sides",
        "head.mortise_roof",
        "head.mortise_to_ridge",
        "bow.hair_clears",
        IN_PLAY,
    ),
    (
        "cello",
        "stick.across_flats_handle_end",
        9.9,
        "stick.never_thickens",
        "eyelet.clears_roof",
        IN_PLAY,
    ),
    ("violin", "stick.length", 740.0, "bow.length_adds_up"),
    ("bass-french", "hair.length", 540.0, "bow.length_adds_up"),
    ("violin", "stick.camber_depth", 24.0, "bow.hair_clears", IN_PLAY, "bow.slackens"),
    # The button.
    ("violin", "button.counterbore_depth", 1.6, "button.bears_on_shoulder"),
    ("bass-german", "button.counterbore_depth", 2.3, "button.bears_on_shoulder"),
    ("violin", "button.counterbore_diameter", 5.02, "button.runs_free"),
    ("cello", "button.counterbore_diameter", 5.9, "button.runs_true"),
    ("violin", "button.ring_sheet", 0.48, "button.ring_sheet"),
    ("violin", "button.ring_sheet", 1.2, "button.core"),
    ("viola", "button.across_flats", 7.6, "button.core"),
)
#: The same where only a warning fails.
WARNED = (
    ("violin", "head.plate_thickness", 0.45, "head.plate"),
    ("violin", "button.across_flats", 8.9, "button.flats"),
    ("violin", "head.face_width_front", 10.3, "head.face_narrows"),
)


@pytest.fixture
def bench(tmp_path, capsys):
    return Bench(tmp_path, capsys)


def named(move):
    return f"{move[1]}={move[2]}-{move[0]}"


@pytest.mark.parametrize("move", MOVES, ids=named)
def test_the_guarding_rule_fails_and_is_cured(bench, move):
    stem, key, value, guard, *others = move
    bench.starts_from(stem)
    bench.moves({key: value})
    status, checks = bench.check()
    assert status == 1
    assert failing(checks, "error") == {guard, *others}
    assert checks[guard]["margin"] < 0
    cure = checks[guard]["cure"]
    assert cure is not None

    bench.moves(cure["set"])
    status, checks = bench.check()
    assert checks[guard]["margin"] >= -BOUND, cure["says"]
    assert failing(checks, "error") <= set(others)
    assert status == (1 if failing(checks, "error") else 0)


@pytest.mark.parametrize("move", WARNED, ids=named)
def test_a_warning_alone_stops_nothing_and_is_cured(bench, move):
    stem, key, value, guard = move
    bench.starts_from(stem)
    bench.moves({key: value})
    status, checks = bench.check()
    assert (status, failing(checks, "error")) == (0, set())
    assert guard in failing(checks, "warning")
    bench.moves(checks[guard]["cure"]["set"])
    status, checks = bench.check()
    assert (status, guard in failing(checks, "warning")) == (0, False)


def test_many_numbers_and_every_guard_of_head_and_button():
    assert len({m[1] for m in MOVES}) >= 20
    assert len({m[3] for m in MOVES if m[3].startswith(("head.", "button."))}) >= 15
