"""Moving one number of a good file fails the rule that guards it, and its cure passes.

Which rule guards which number is trade knowledge (common practice, no source): a deeper mortise
has a thin roof, in a wider one the eyelet rattles. No other rule may fail.
"""

import json
import shutil
from pathlib import Path

import pytest
from checks.drive import SHIPPED
from outside.maker import FAMILIES

from templates_gen.cli import main
from templates_gen.parameters.rewrite import set_values
from templates_gen.tolerances import BOUND

#: A file, the number moved, where to, and the error-checks that must fail, each by name.
MOVES = (
    # The handle and its mortise.
    ("violin", "stick.mortise_depth", 7.0, "stick.mortise_roof"),
    ("viola", "stick.mortise_depth", 6.4, "eyelet.clears_roof"),
    ("bass-french", "stick.mortise_width", 5.4, "eyelet.runs_free"),
    ("violin", "stick.mortise_width", 4.4, "eyelet.no_rattle", "stick.mortise_cheeks"),
    ("violin", "stick.nipple_diameter", 4.5, "stick.nipple_wall", "button.runs_true"),
    (
        "bass-french",
        "stick.nipple_diameter",
        10.5,
        "stick.nipple_shoulder",
        "button.runs_free",
    ),
    ("viola", "stick.rear_bore", 3.8, "stick.nipple_wall"),
    ("violin", "stick.rear_bore", 2.8, "screw.in_rear_bore"),
    (
        "violin",
        "stick.camber_depth",
        26.0,
        "bow.slackens",
        "bow.hair_clears",
        "bow.hair_clears_in_play",
    ),
    # Screw and eyelet.
    ("violin", "screw.length", 48.0, "screw.does_not_bottom"),
    ("cello", "screw.length", 47.0, "screw.tip_in_bearing"),
    ("violin", "screw.bearing_depth", 8.5, "screw.does_not_bottom"),
    ("bass-french", "screw.thread_end", 51.0, "screw.thread_reaches"),
    ("viola", "screw.thread_end", 41.0, "screw.thread_stops"),
    ("cello", "eyelet.width", 4.35, "eyelet.runs_free"),
    ("bass-german", "eyelet.width", 5.0, "eyelet.no_rattle", "eyelet.ring_wall"),
    ("violin", "eyelet.from_heel", 21.0, "bow.slackens"),
    ("bass-german", "eyelet.from_heel", 27.0, "frog.shank_to_throat", "bow.slackens"),
    ("violin", "eyelet.shank_length", 9.0, "frog.shank_to_mortise"),
    # Ferrule, slide and heel.
    ("violin", "ferrule.outer_width", 12.0, "ferrule.ribbon_fits"),
    ("violin", "ferrule.tongue_fit", 0.03, "ferrule.tongue_slides"),
    ("cello", "ferrule.tongue_fit", 0.18, "ferrule.tongue_holds", "ferrule.flush"),
    ("bass-german", "ferrule.tongue_taper", 0.05, "ferrule.taper_enters"),
    ("violin", "slide.width_front", 6.5, "frog.slide_spans_mortise"),
    ("viola", "slide.width_front", 9.4, "frog.dovetail_wall"),
    ("violin", "slide.thickness", 2.1, "frog.band"),
    ("viola", "slide.length", 32.0, "heel.leg_least", "frog.slide_covers_mortise"),
    ("violin", "heel.leg_length", 6.0, "frog.slide_covers_mortise"),
    ("bass-french", "heel.pin_length", 11.0, "heel.pin_to_mortise"),
    # The frog.
    ("viola", "frog.width_waist", 7.6, "frog.eye_to_mortise"),
    ("violin", "frog.throat_depth", 5.2, "frog.throat_undercut"),
    ("bass-french", "frog.throat_centre_height", 16.5, "frog.throat_undercut"),
    ("viola", "frog.overall_height", 19.5, "frog.edges_rise", "underslide.wings"),
    ("bass-french", "frog.overall_height", 31.5, "frog.edges_height", "frog.edges_thickness"),
    ("bass-german", "frog.front_at_play", 61.0, "bow.tightens", "bow.length_adds_up"),
    ("cello", "frog.front_at_play", 65.0, "bow.slackens"),
    ("whimbrel", "frog.land_relief", 0.03, "frog.does_not_rock"),
    ("violin", "frog.land_relief", 0.02, "frog.does_not_rock", "underslide.corner"),
    ("violin", "frog.hair_mortise_length", 7.0, "frog.hair_mortise_length"),
    ("cello", "frog.hair_mortise_width", 4.5, "frog.hair_mortise_width"),
    ("violin", "frog.hair_mortise_depth", 5.5, "frog.hair_mortise_depth", "frog.plug"),
    ("violin", "frog.hair_mortise_from_heel", 6.5, "frog.slide_covers_mortise"),
    ("bass-german", "frog.hair_mortise_from_heel", 17.0, "frog.mortise_to_throat"),
    ("violin", "frog.eye_diameter", 14.0, "frog.eye_to_bottom", "frog.eye_over_band"),
    ("violin", "frog.thumb_slope_deg", 20.0, "frog.throat_arcs"),
)
#: The same where only a warning fails.
WARNED = (
    ("bass-french", "ferrule.plate_thickness", 1.2, "ferrule.plate"),
    ("violin", "frog.lip_radius", 0.8, "frog.lip"),
    ("cello", "stick.handle_length", 68.0, "bow.handle"),
    ("viola", "leather.from_butt", 56.0, "bow.leather"),
    ("violin", "heel.leg_length", 4.5, "heel.meets_slide"),
    ("violin", "slide.width_taper", 0.4, "slide.taper"),
    ("bass-german", "slide.channel_fit", 0.08, "slide.fits_channel"),
)
named = pytest.mark.parametrize("move", MOVES, ids=lambda m: f"{m[1]}={m[2]}-{m[0]}")
warned = pytest.mark.parametrize("move", WARNED, ids=lambda m: f"{m[1]}={m[2]}-{m[0]}")


START = 'units = "mm"\nbased_on = "{}"\n\n[pattern]\nname = "Dotterel"\n'


class Bench:
    """A file on disk, and the command run on it."""

    def __init__(self, folder: Path, capsys: pytest.CaptureFixture[str]) -> None:
        self.file = folder / "dotterel.toml"
        self.out = folder / "out"
        self.capsys = capsys

    def starts_from(self, stem: str) -> None:
        """Copy a family's starter or a shipped pattern under its own name."""
        base = stem
        if stem not in FAMILIES:
            base = f"{stem}.toml"
            shutil.copyfile(SHIPPED / base, self.file.with_name(base))
        self.file.write_text(START.format(base), "utf-8")

    def moves(self, changes: dict[str, float]) -> None:
        self.file.write_text(set_values(self.file.read_text("utf-8"), changes), "utf-8")

    def check(self) -> tuple[int, dict[str, dict]]:
        """Return the exit status and every check by name."""
        self.capsys.readouterr()
        status = main(["check", "--json", str(self.file)])
        document = json.loads(self.capsys.readouterr().out)
        assert document["ok"] is (status == 0)
        return status, {c["id"]: c for c in document["checks"]}

    def draw(self, *options: str) -> int:
        call = ["draw", "--plane", "--format", "svg", "--only", "slide-outline", *options]
        status = main([*call, str(self.file), "-o", str(self.out)])
        self.capsys.readouterr()
        return status


@pytest.fixture
def bench(tmp_path, capsys):
    return Bench(tmp_path, capsys)


def failing(checks, severity):
    return {
        name for name, c in checks.items() if c["verdict"] == "fail" and c["severity"] == severity
    }


@named
def test_the_guarding_rule_fails_and_is_cured(bench, move):
    stem, key, value, *guards = move
    bench.starts_from(stem)
    bench.moves({key: value})
    status, checks = bench.check()
    assert status == 1
    assert failing(checks, "error") == set(guards)
    first = checks[guards[0]]
    assert first["margin"] < 0
    assert first["cure"] is not None

    bench.moves(first["cure"]["set"])
    status, checks = bench.check()
    assert checks[guards[0]]["verdict"] != "fail", first["cure"]["says"]
    assert checks[guards[0]]["margin"] >= -BOUND
    # No new error; where it was the only one, the file is good again.
    assert failing(checks, "error") <= set(guards[1:])
    assert status == (1 if failing(checks, "error") else 0)


@pytest.mark.parametrize("move", MOVES[::9], ids=lambda m: f"{m[1]}={m[2]}-{m[0]}")
def test_draws_nothing_without_force(bench, move):
    stem, key, value, *_ = move
    bench.starts_from(stem)
    bench.moves({key: value})
    assert bench.draw() == 1
    assert not bench.out.exists()


def test_with_force_it_is_drawn_stamped_and_ends_with_1(bench):
    stem, key, value, *_ = MOVES[0]
    bench.starts_from(stem)
    bench.moves({key: value})
    assert bench.draw("--force") == 1
    (sheet,) = bench.out.glob("*.svg")
    assert "FORCED" in sheet.read_text("utf-8")


@warned
def test_a_warning_alone_stops_nothing_and_is_cured(bench, move):
    stem, key, value, guard = move
    bench.starts_from(stem)
    bench.moves({key: value})
    status, checks = bench.check()
    assert status == 0
    assert (failing(checks, "error"), failing(checks, "warning")) == (set(), {guard})
    assert bench.draw() == 0
    assert len(list(bench.out.glob("*.svg"))) == 1

    bench.moves(checks[guard]["cure"]["set"])
    status, checks = bench.check()
    assert (status, checks[guard]["verdict"] != "fail") == (0, True)


@pytest.mark.parametrize("stem", sorted({m[0] for m in MOVES}))
def test_the_unchanged_files_pass(bench, stem):
    bench.starts_from(stem)
    status, checks = bench.check()
    assert status == 0
    assert failing(checks, "error") == failing(checks, "warning") == set()
    assert bench.draw() == 0


def test_many_numbers_of_every_family():
    assert len({m[1] for m in MOVES}) >= 30
    assert {m[0] for m in MOVES} >= set(FAMILIES)
