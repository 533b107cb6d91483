"""The arguments of `weigh`: each mistake in one clear line, and the exit status."""

from pathlib import Path

import pytest
from command.calls import SOUND, call, refused, write

from templates_gen.bench.weigh.levers import NUMBERS, WORDS


@pytest.fixture(autouse=True)
def folder(monkeypatch, tmp_path):
    monkeypatch.chdir(tmp_path)
    write("a.toml", SOUND)


@pytest.mark.parametrize("value", ["nan", "inf", "-inf", "0", "-5", "19.9", "250.1", "1e999"])
def test_rejects_an_impossible_mass(capsys, value):
    (line,) = refused(call(capsys, "weigh", "a.toml", f"--target-mass={value}"))
    assert line.startswith("--target-mass: ")
    assert line.endswith("state 20 to 250 g")


@pytest.mark.parametrize("value", ["nan", "inf", "-inf", "0", "-5", "49.9", "350.1"])
def test_rejects_an_impossible_balance(capsys, value):
    (line,) = refused(call(capsys, "weigh", "a.toml", f"--target-balance={value}"))
    assert line.startswith("--target-balance: ")
    assert line.endswith("state 50 to 350 mm")


def test_help_gives_the_ranges(capsys):
    said = " ".join(call(capsys, "weigh", "--help").out.split())
    assert "20 to 250" in said and "50 to 350" in said
    assert "exit 1: the target is not reached" in said


def test_reports_all_faults_at_once(capsys):
    argv = ["--target-mass", "nan", "--target-balance", "0", "--move", "lapping.lenght"]
    lines = refused(call(capsys, "weigh", "a.toml", *argv), messages=3)
    assert lines[2].endswith("lapping.length")


def test_reports_move_without_a_target(capsys):
    (line,) = refused(call(capsys, "weigh", "a.toml", "--move", "lapping.length"))
    assert "--target-mass or --target-balance" in line


@pytest.mark.parametrize("nothing", ["", " ", ",", " , "])
@pytest.mark.parametrize("target", [(), ("--target-mass", "60")])
def test_reports_a_move_that_names_nothing(capsys, nothing, target):
    (line,) = refused(call(capsys, "weigh", "a.toml", *target, f"--move={nothing}"))
    assert line.startswith("--move: names nothing")


@pytest.mark.parametrize("word", ["nonsense", "x", "é" * 90, "stick.across_flats_handle_en", "\t|"])
def test_reports_an_unknown_lever_on_one_line_with_the_nearest(capsys, word):
    argv = ("--target-mass", "60", "--move", f"{word},lapping.gauge")
    (line,) = refused(call(capsys, "weigh", "a.toml", *argv))
    assert len(line) <= 80
    assert line.rpartition(" ")[2] in {*WORDS, *NUMBERS}


@pytest.mark.kernel
def test_exit_status(capsys):
    """0 if reached by a bow that fails no error-check; 1 if not reached, or only by failing one."""
    write("b.toml", (Path(__file__).parents[2] / "params" / "violin.toml").read_bytes())
    weigh = ("weigh", "b.toml", "--target-mass")
    assert call(capsys, "weigh", "b.toml").status == 0
    assert call(capsys, *weigh, "59.3").status == 0
    far = call(capsys, *weigh, "150")
    assert far.status == 1
    assert "cannot be reached; nearest:" in far.out and "at the end of their usual band" in far.out
    assert call(capsys, *weigh, "150", "--json").status == 1
    broken = call(capsys, *weigh, "59", "--move", "stick.across_flats_handle_end")
    assert broken.status == 1
    assert "for 59 g:" in broken.out and "→ fail" in broken.out
    assert all(len(line) <= 80 for line in (far.out + broken.out).splitlines())
