"""The exit status, and that a failure is reported in one clear line.

0: no error-check fails; 1: one fails; 2: wrong input or environment; 3: a bug.
"""

import json
import re
import subprocess
import sys
from dataclasses import replace
from pathlib import Path

import pytest
from checks.drive import falls, shipped, some_patterns
from command.calls import FAILING, SOUND, WAYS, call, refused, tree, way, write

from templates_gen.bow import catalogue
from templates_gen.checks.judge import judge
from templates_gen.checks.rule import Severity
from templates_gen.errors import GeometryError, KernelError
from templates_gen.parameters.rewrite import set_values
from templates_gen.pipeline import judging


@pytest.fixture(autouse=True)
def folder(monkeypatch, tmp_path):
    monkeypatch.chdir(tmp_path)


def test_exits_0_when_all_checks_pass(capsys):
    write("dunlin.toml", SOUND)
    for name in WAYS:
        said = call(capsys, *way(name, "dunlin.toml"))
        assert said.status == 0, said
        assert said.out and said.err == ""


def test_exits_1_when_an_error_check_fails(capsys):
    write("knot.toml", FAILING)
    said = call(capsys, "check", "knot.toml")
    assert said.status == 1
    assert "FAIL   ferrule.ribbon_fits" in said.out
    assert "Cure: make ferrule.outer_width" in said.out
    # What is only listed is not judged.
    assert call(capsys, "list", "knot.toml").status == 0


def test_the_worse_of_several_files_decides(capsys):
    write("dunlin.toml", SOUND)
    write("knot.toml", FAILING)
    for files in (("dunlin.toml", "knot.toml"), ("knot.toml", "dunlin.toml")):
        said = call(capsys, "check", *files)
        assert said.status == 1
        assert all(f"{file}: " in said.out for file in files)


def warned():
    """A file on which a warning fails and no error does, found among what ships."""
    for rule in catalogue.rules():
        if rule.severity is not Severity.WARNING:
            continue
        for name, p in shipped().items():
            for key, value in falls(rule, p):
                moved = p.with_(key, value)
                if not any(judge(r, moved).stops for r in catalogue.rules()):
                    return name, key, value, rule.id
    raise AssertionError("no warning can fail alone")


def test_exits_0_when_only_warnings_fail(capsys):
    name, key, value, rule_id = warned()
    text = Path(shipped()[name].identity.file).read_text("utf-8")
    write("warned.toml", set_values(text, {key: value}))
    said = call(capsys, "check", "--json", "warned.toml")
    document = json.loads(said.out)
    (check,) = [c for c in document["checks"] if c["id"] == rule_id]
    assert (check["verdict"], check["severity"]) == ("fail", "warning")
    assert document["ok"] is True
    assert said.status == 0
    said = call(capsys, "draw", "--plane", "warned.toml", "-o", "out", "--format", "svg")
    assert said.status == 0, said.err
    assert re.search(r", 0 fail, (1 warning|\d+ warnings)\n", said.out)


@pytest.mark.parametrize(
    ("argv", "words"),
    [
        ([], "required: VERB"),
        (["check"], "required: FILE"),
        (["check", "--jsno", "a.toml"], "unrecognized arguments"),
        (["draw"], "FILE, -o/--output"),
        (["draw", "a.toml", "-o", "out", "--paper", "a0"], "choose from"),
    ],
)
def test_exits_2_at_a_wrong_call(capsys, argv, words):
    said = call(capsys, *argv)
    assert (said.status, said.out) == (2, "")
    assert words in " ".join(said.err.split()) and "usage: templates-gen" in said.err


@pytest.mark.parametrize(
    ("argv", "add"),
    [
        (["draw", "a.toml"], "-o DIR"),
        (["new", "violin"], "-o FILE"),
        (["scale", "a.toml", "--to", "viola"], "-o FILE"),
        (["fit", "a.toml", "--stick", "stick.toml"], "-o FILE"),
    ],
)
def test_exits_2_without_an_output_folder(capsys, argv, add):
    (line,) = refused(call(capsys, *argv))
    assert line.startswith(f"templates-gen {argv[0]}: ") and f"add `{add}`" in line


@pytest.mark.parametrize(
    ("argv", "words"),
    [
        (["check", "--json", "dunlin.toml", "dunlin.toml"], "--json: takes one file"),
        (["new", "violni", "-o", "new.toml"], 'the nearest is "violin"'),
        (["explain", "ferrule.heihgt"], "ferrule.height"),
        (["draw", "dunlin.toml", "-o", "out", "--format", "dwg"], "--format: dwg"),
        (["draw", "dunlin.toml", "-o", "out", "--format", ","], "--format"),
        (["draw", "dunlin.toml", "-o", "out", "--only", "ferule-plate"], "--only: ferule-plate"),
    ],
)
def test_exits_2_at_an_impossible_argument(capsys, argv, words):
    write("dunlin.toml", SOUND)
    before = tree()
    said = call(capsys, *argv)
    lines = refused(said)
    assert words in lines[0] and "; " in lines[0]
    assert tree() == before


@pytest.mark.parametrize("fault", [RuntimeError("boom\nboom"), KernelError("stick: fillet")])
@pytest.mark.parametrize("name", WAYS)
def test_exits_3_at_a_bug(capsys, monkeypatch, name, fault):
    def fail(*_):
        raise fault

    monkeypatch.delenv("TEMPLATES_GEN_TRACEBACK", raising=False)
    monkeypatch.setattr(judging, "read", fail)
    write("dunlin.toml", SOUND)
    (line,) = refused(call(capsys, *way(name, "dunlin.toml")), status=3)
    assert type(fault).__name__ in line and str(fault).split()[-1] in line
    assert "report" in line
    assert not Path("out").exists()
    monkeypatch.setenv("TEMPLATES_GEN_TRACEBACK", "1")
    with pytest.raises(type(fault)):
        call(capsys, *way(name, "dunlin.toml"))


@pytest.mark.parametrize("text", [SOUND, FAILING], ids=["sound", "failing"])
@pytest.mark.parametrize(
    "fault", [GeometryError("no arc", (1.0, 2.0)), ZeroDivisionError("no arc")]
)
def test_a_shape_that_cannot_be_made(capsys, monkeypatch, text, fault):
    """A fault of the file if a check fails, else a bug. With --force the sheet is left out."""

    def broken(_):
        raise fault

    first = replace(catalogue.templates()[0], views=broken)
    monkeypatch.setattr(catalogue, "templates", lambda: (first,))
    write("dunlin.toml", text)
    theirs = text == FAILING
    for name in ("list", "list-json"):
        (line,) = refused(call(capsys, *way(name, "dunlin.toml")), status=2 if theirs else 3)
        assert "no arc" in line
        assert ("`templates-gen check dunlin.toml`" in line) == theirs
    said = call(capsys, *way("draw-force", "dunlin.toml"))
    if theirs:
        assert said.status == 1 and f"not drawn: {first.name}: no arc" in said.out
        assert not list(Path("out").glob("*.svg"))
    else:
        (line,) = refused(said, status=3)
        assert "no arc" in line and not Path("out").exists()


def test_exit_status_when_interrupted(capsys, monkeypatch):
    def stop(*_):
        raise KeyboardInterrupt

    monkeypatch.setattr(judging, "read", stop)
    (line,) = refused(call(capsys, "check", "dunlin.toml"), status=130)
    assert "stopped" in line


@pytest.mark.filterwarnings("error")
def test_possible_values_never_exit_as_a_bug(capsys):
    """Whatever is within the possible ranges is judged, and drawn or refused: never 3."""
    judged = 0
    for p in some_patterns(seed=11, count=12):
        text = Path(p.identity.file).read_text("utf-8")
        values = {k: round(v, 4) if isinstance(v, float) else v for k, v in p if v != ()}
        # A choice of "stations" without a table is refused; what else may go wrong is asked here.
        values |= {"stick.graduation": "linear", "stick.camber": "uniform"}
        write("odd.toml", set_values(text, values))
        said = call(capsys, "check", "--json", "odd.toml")
        if said.status == 2:  # two of its numbers contradict one another
            refused(said, messages=None)
            continue
        assert said.status in (0, 1), said.err
        assert "NaN" not in said.out and "Infinity" not in said.out
        json.loads(said.out)
        listed = call(capsys, "list", "odd.toml")
        assert listed.status in (0, 2), listed.err
        if listed.status == 2:
            refused(listed)
            assert said.status == 1
        judged += 1
    assert judged > 1


def run(*argv, **keywords):
    command = [sys.executable, "-m", "templates_gen", *argv]
    return subprocess.run(command, stderr=subprocess.PIPE, text=True, check=False, **keywords)


def test_help_fits_one_screen(monkeypatch):
    monkeypatch.setenv("COLUMNS", "80")
    said = run("--help", stdout=subprocess.PIPE)
    assert said.returncode == 0
    lines = said.stdout.splitlines()
    assert len(lines) <= 24 and max(map(len, lines)) <= 80


def test_output_fits_80_columns(capsys):
    write("knot.toml", FAILING.replace("outer_width = 11", "outer_width = 9\nheight = 5"))
    calls = [["check", "knot.toml"], ["list", "knot.toml"], ["explain"]]
    calls += [["check", "--brief", "knot.toml"]]
    calls += [["explain", rule.id] for rule in catalogue.rules()]
    for argv in calls:
        said = call(capsys, *argv)
        assert said.out
        assert [line for line in said.out.splitlines() if len(line) > 80] == []


def test_a_brief_check_has_no_empty_line(capsys):
    write("dunlin.toml", SOUND)
    write("knot.toml", FAILING)
    first, count, last = call(capsys, "check", "--brief", "dunlin.toml").out.splitlines()
    assert first.startswith("dunlin.toml: ") and count.endswith(" 0 fail")
    assert last == "  All checks pass: ready to cut"
    said = call(capsys, "check", "--brief", "dunlin.toml", "knot.toml").out
    assert all(line.strip() for line in said.splitlines())


def test_points_to_scale_where_a_check_fails(capsys):
    write("dunlin.toml", SOUND)
    write("knot.toml", FAILING)
    assert "templates-gen scale" not in call(capsys, "check", "dunlin.toml").out
    for argv in (["knot.toml"], ["--brief", "knot.toml"]):
        said = call(capsys, "check", *argv).out
        assert "  `templates-gen scale FILE --set …` changes a number and what" in said


def test_explain_gives_what_a_check_depends_on_and_its_limit(capsys):
    """Of the file's own usual values, judged as any file is."""
    write("bow.toml", 'units = "mm"\nbased_on = "cello"\n[pattern]\nname = "Knot"\n')
    judged = json.loads(call(capsys, "check", "--json", "bow.toml").out)["checks"]
    (fits,) = (c for c in judged if c["id"] == "ferrule.ribbon_fits")
    told = call(capsys, "explain", "ferrule.ribbon_fits").out
    assert f"  cello {fits['measured']:>15.3f} >= {fits['limit']:>8.3f} mm\n" in told
    assert "Limit: at least " in told
    assert "hair.ribbon_width_frog, ferrule.outer_width, ferrule.arch_thickness." in told
    assert "Seen on: the template ferrule-" in told
    assert call(capsys, "explain", "stick.camber_even").out.count("<=") == 5


def test_prints_no_negative_zero_while_all_checks_pass(capsys):
    for p in shipped().values():
        said = call(capsys, "check", p.identity.file)
        assert said.status == 0
        assert "-0.000" not in said.out


def test_output_on_an_ascii_terminal(monkeypatch):
    monkeypatch.setenv("PYTHONIOENCODING", "ascii")
    write("dunlin.toml", SOUND.replace("Dunlin", "Große Möwe №"))
    for verb in ("check", "list"):
        said = run(verb, "dunlin.toml", stdout=subprocess.PIPE)
        assert (said.returncode, said.stderr) == (0, "")


def test_closed_pipe_is_no_error():
    """As in `templates-gen explain | head -n 1`, with more to say than a pipe holds back."""
    reading = "import sys; sys.stdin.readline(); sys.stdin.close()"
    telling = (
        "import sys; from templates_gen import cli; from templates_gen.command import explain\n"
        "def tell(_):\n"
        "    for i in range(100_000): print(i)\n"
        "explain.run = tell; sys.argv[1:] = ['explain']; cli.run()"
    )
    reader = subprocess.Popen([sys.executable, "-c", reading], stdin=subprocess.PIPE)
    done = subprocess.run(
        [sys.executable, "-c", telling],
        stdout=reader.stdin,
        stderr=subprocess.PIPE,
        text=True,
        check=False,
    )
    reader.stdin.close()
    reader.wait()
    assert (done.returncode, done.stderr) == (0, "")


@pytest.mark.skipif(not Path("/dev/full").exists(), reason="no full device here")
def test_full_disk_is_reported():
    with Path("/dev/full").open("w", encoding="utf-8") as full:
        said = run("explain", stdout=full)
    assert said.returncode == 2
    assert len(said.stderr.splitlines()) == 1 and "standard output" in said.stderr
