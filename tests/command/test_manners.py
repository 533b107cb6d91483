"""Test the command line: help, nearest names, completion, colour, progress, merged cures."""

import io
import json
import re
import shutil
import subprocess
import sys
from pathlib import Path

import pytest
from command.calls import FAILING, SOUND, call, refused, write

from templates_gen import cli, command
from templates_gen.checks.judge import judge
from templates_gen.command import progress, text
from templates_gen.parameters.words import WIDTH
from templates_gen.pipeline import judging
from templates_gen.pipeline.progress import tracked

#: A violin's ferrule so small that several checks want it wider, by different amounts.
SMALL = SOUND.replace("outer_width = 12.7", "outer_width = 9\nheight = 5")


@pytest.fixture(autouse=True)
def folder(monkeypatch, tmp_path):
    monkeypatch.chdir(tmp_path)
    monkeypatch.setenv("COLUMNS", str(WIDTH))
    monkeypatch.delenv("NO_COLOR", raising=False)
    monkeypatch.setenv("TERM", "xterm")


class Terminal(io.StringIO):
    """A stream that reports that it is a terminal."""

    def isatty(self):
        return True


def on_terminal(monkeypatch, *argv, stream="stdout"):
    """What a call writes to a terminal."""
    shown = Terminal()
    monkeypatch.setattr(sys, stream, shown)
    cli.main(argv)
    return shown.getvalue()


@pytest.mark.parametrize("verb", command.VERBS)
def test_every_help_has_examples_that_parse(capsys, verb):
    said = call(capsys, verb, "--help")
    assert said.status == 0
    assert max(map(len, said.out.splitlines())) <= WIDTH
    examples = said.out.partition("examples:\n")[2].splitlines()
    calls = [line.split() for line in examples if line.startswith("  templates-gen ")]
    assert len(calls) >= 2
    for _, *argv in calls:
        assert argv[0] == verb
        cli.parser(verb).parse_args(argv)


def test_the_first_help_lists_every_verb_in_one_line_each(capsys):
    said = call(capsys, "--help").out
    for verb, description in command.VERBS.items():
        assert f"\n  {verb:<10} {description}\n" in said
    assert "examples: templates-gen new" in said
    assert "3: a bug" in said


def test_only_the_verb_of_the_call_is_imported():
    code = "import sys; from templates_gen import cli; cli.parser('list'); print(*sys.modules)"
    found = subprocess.run([sys.executable, "-c", code], capture_output=True, text=True, check=True)
    loaded = found.stdout.split()
    assert "templates_gen.command.list" in loaded
    assert not {f"templates_gen.command.{v}" for v in ("draw", "fit", "weigh")} & set(loaded)


@pytest.mark.parametrize(
    ("verb", "meant"), [("chekc", "check"), ("drwa", "draw"), ("wiegh", "weigh"), ("Lists", "list")]
)
def test_a_mistyped_verb_gets_the_nearest_name(capsys, verb, meant):
    (line,) = refused(call(capsys, verb, "dunlin.toml"))
    assert line == f'templates-gen: no verb "{verb}"; did you mean {meant}?'


def test_a_verb_like_no_other_gets_the_list_of_verbs(capsys):
    (line,) = refused(call(capsys, "sing"))
    assert all(verb in line for verb in command.VERBS)


@pytest.mark.skipif(shutil.which("bash") is None, reason="no bash here")
@pytest.mark.parametrize(
    ("typed", "offered"),
    [
        (["che"], {"check"}),
        (["check", "--bri"], {"--brief"}),
        (["draw", "--paper", "tab"], {"tabloid"}),
        (["fit", "--keep", "st"], {"stiffness"}),
    ],
)
def test_bash_completes_verbs_options_and_choices(capsys, typed, offered):
    """Judged by bash itself, which runs the printed completion."""
    script = call(capsys, "--print-completion", "bash").out
    words = " ".join(f"'{w}'" for w in ["templates-gen", *typed])
    function = re.search(r"^complete .*-F (\S+) templates-gen$", script, re.MULTILINE)[1]
    ask = f"COMP_WORDS=({words}); COMP_CWORD={len(typed)}\n{function}\n"
    ask += "printf '%s\\n' \"${COMPREPLY[@]}\""
    done = subprocess.run(
        ["bash", "-c", f"{script}\n{ask}"], capture_output=True, text=True, check=True
    )
    assert set(done.stdout.split()) == offered


def test_bash_completes_files_and_folders(capsys):
    script = call(capsys, "--print-completion", "bash").out
    assert re.search(r"check_pos_0_COMPGEN=_shtab_compgen_files", script)
    assert re.search(r"draw__o_COMPGEN=_shtab_compgen_dirs", script)


@pytest.mark.parametrize("shell", cli.SHELLS)
def test_completion_is_printed_for_each_shell(capsys, shell):
    said = call(capsys, "--print-completion", shell)
    assert said.status == 0 and said.err == ""
    assert all(verb in said.out for verb in command.VERBS)


def test_failures_are_in_colour_on_a_terminal_only(capsys, monkeypatch):
    """Source: ECMA-48: ESC [ … m selects graphic rendition."""
    write("knot.toml", FAILING)
    plain = call(capsys, "check", "knot.toml").out
    assert "\x1b" not in plain
    shown = on_terminal(monkeypatch, "check", "knot.toml")
    assert re.search(r"\x1b\[1;31m  FAIL   ferrule\.ribbon_fits [^\n]*\x1b\[0m\n", shown)
    assert "\x1b[1;31m  3 checks fail: do not cut\x1b[0m" in shown
    assert re.sub(r"\x1b\[[0-9;]*m", "", shown) == plain


@pytest.mark.parametrize(("name", "value"), [("NO_COLOR", "1"), ("TERM", "dumb")])
def test_no_colour_if_switched_off(monkeypatch, name, value):
    """Source: no-color.org (from memory): set and not empty, whatever the value."""
    write("knot.toml", FAILING)
    monkeypatch.setenv(name, value)
    assert "\x1b" not in on_terminal(monkeypatch, "check", "knot.toml")


def test_an_empty_no_color_counts_as_not_set(monkeypatch):
    write("knot.toml", FAILING)
    monkeypatch.setenv("NO_COLOR", "")
    assert "\x1b" in on_terminal(monkeypatch, "check", "knot.toml")


def test_the_place_of_a_fault_is_bold_on_a_terminal(monkeypatch):
    write("dunlin.toml", SOUND.replace("12.7", "true"))
    shown = on_terminal(monkeypatch, "check", "dunlin.toml", stream="stderr")
    assert "\x1b[1mdunlin.toml:8:\x1b[0m ferrule.outer_width: " in shown


def test_passing_pattern_is_ready_to_cut(capsys):
    write("dunlin.toml", SOUND)
    lines = call(capsys, "check", "dunlin.toml").out.splitlines()
    assert lines[-1] == "  All checks pass: ready to cut"
    assert lines[-2].endswith(" 0 fail")


def test_a_failed_check_reads_as_a_sentence(capsys):
    write("knot.toml", FAILING)
    checks = json.loads(call(capsys, "check", "--json", "knot.toml").out)["checks"]
    words = " ".join(call(capsys, "check", "knot.toml").out.split())
    failed = [c for c in checks if c["verdict"] == "fail"]
    assert len(failed) > 1
    for c in failed:
        way = {">=": "less", "<=": "more"}[c["sense"]]
        found = re.search(
            rf"Required: {re.escape(c['says'])}\. Measured ([-\d.]+) mm, ([\d.]+) mm {way} "
            r"than the limit of ([-\d.]+) mm\. Cure: \S",
            words,
        )
        assert found, c
        assert [float(x) for x in found.groups()] == pytest.approx(
            [c["measured"], -c["margin"], c["limit"]], abs=5e-4
        )


def test_number_and_unit_stay_on_one_line(capsys):
    write("small.toml", SMALL)
    said = call(capsys, "check", "--brief", "small.toml").out
    for line in said.splitlines():
        if "Required" in line or "limit" in line:
            assert not line.rstrip().endswith(tuple("0123456789")), line


def test_cures_for_one_parameter_are_merged(capsys):
    """Every check that names the parameter passes with the merged value."""
    write("small.toml", SMALL)
    checks = json.loads(call(capsys, "check", "--json", "small.toml").out)["checks"]
    values: dict[str, set[float]] = {}
    cured: dict[str, list[str]] = {}
    for c in checks:
        for key, value in (c["cure"] or {"set": {}})["set"].items():
            values.setdefault(key, set()).add(value)
            cured.setdefault(key, []).append(c["id"])
    assert len(cured["ferrule.outer_width"]) >= 4
    assert {key: len(found) for key, found in values.items()} == dict.fromkeys(values, 1)
    p = judging.read("small.toml")
    (width,) = values["ferrule.outer_width"]
    wider = p.with_("ferrule.outer_width", width)
    results = {r.rule.id: r for r in judging.results(p)}
    for name in cured["ferrule.outer_width"]:
        assert results[name].verdict == "fail"
        assert judge(results[name].rule, wider).verdict != "fail"
    said = call(capsys, "check", "small.toml").out
    assert said.count(f"make ferrule.outer_width {width:g}") == 1
    assert said.count(f"the same, ferrule.outer_width {width:g}") >= 3


def test_a_file_without_a_base_gets_one_line(capsys):
    write("bare.toml", 'units = "mm"\n[pattern]\nname = "Knot"\n[ferrule]\nouter_width = 12.7\n')
    (line,) = refused(call(capsys, "check", "bare.toml"))
    assert line.startswith("bare.toml:1: based_on: is not stated")
    assert 'add `based_on = "…"`' in line and '"violin"' in line


def test_a_file_in_inches_gets_one_line(capsys):
    call(capsys, "new", "violin", "-o", "mm.toml")
    inches = re.sub(
        r"(?m)^(\w+ *= )(\d+\.?\d*)",
        lambda m: f"{m[1]}{float(m[2]) / 25.4:.4f}",
        Path("mm.toml").read_text("utf-8").replace('units = "mm"', 'units = "in"'),
    )
    write("inch.toml", inches)
    (line,) = refused(call(capsys, "check", "inch.toml"))
    assert '"in" is not the unit "mm"' in line


def test_explain_finds_words_in_names_and_descriptions(capsys):
    said = call(capsys, "explain", "mortise", "front").out
    assert "head.mortise_undercut_deg" in said
    assert all(len(line) <= WIDTH for line in said.splitlines())
    said = call(capsys, "explain", "Ribbon", "FLAT").out
    assert said.startswith("Checks:\n") and "ferrule.ribbon_fits" in said
    said = call(capsys, "explain", "ribbon", "zeppelin").out
    assert said.startswith("Nothing has all these words") and "ferrule.ribbon_fits" in said
    said = call(capsys, "explain", "ribbon").out
    assert "hair.ribbon_width_frog" in said and "ferrule.ribbon_fits" in said


def test_explain_reports_words_found_nowhere(capsys):
    (line,) = refused(call(capsys, "explain", "zeppelin", "engine"))
    assert '"zeppelin engine" is not a parameter or check' in line


def test_progress_is_shown_on_a_terminal_and_erased(monkeypatch):
    shown = Terminal()
    monkeypatch.setattr(sys, "stderr", shown)
    monkeypatch.setattr(progress, "_EVERY", 0.0)
    with progress.busy("drawing Knot"):
        for _ in tracked(range(3), "sheet"):
            pass
    said = shown.getvalue()
    assert "drawing Knot …" in said
    assert "drawing Knot: sheet 1 of 3" in said and "drawing Knot: sheet 3 of 3" in said
    width = 0
    for line in said.split("\r"):
        width = max(width, len(line))
    assert width < WIDTH and said.endswith("\r")
    assert said.split("\r")[-2].strip() == ""


def test_progress_is_not_shown_in_a_pipe(monkeypatch):
    shown = io.StringIO()
    monkeypatch.setattr(sys, "stderr", shown)
    with progress.busy("drawing Knot"):
        assert list(tracked((1, 2), "sheet")) == [1, 2]
    assert shown.getvalue() == ""


@pytest.mark.parametrize(
    ("argv", "counted"),
    [
        (["check", "dunlin.toml"], "check"),
        (["draw", "--plane", "--only", "form", "dunlin.toml", "-o", "out"], "sheet"),
    ],
)
def test_long_work_shows_a_count(monkeypatch, argv, counted):
    write("dunlin.toml", SOUND)
    monkeypatch.setattr(progress, "_EVERY", 0.0)
    said = on_terminal(monkeypatch, *argv, stream="stderr")
    assert re.search(rf": {counted} \d+ of \d+", said)


@pytest.mark.kernel
def test_step_of_a_few_templates_is_of_their_parts_only(capsys):
    write("dunlin.toml", SOUND)
    argv = ("draw", "dunlin.toml", "-o", "out", "--only", "button", "--format", "step")
    said = call(capsys, *argv)
    assert said.status == 0, said.err
    assert [f.name for f in Path("out").glob("*.step")] == ["dunlin--button.step"]
    assert said.out.splitlines()[-1] == (
        "next: open out/dunlin--button.step in your CAD program; the unit is mm"
    )


def test_rejects_step_of_templates_without_a_solid(capsys):
    write("dunlin.toml", SOUND)
    argv = ("draw", "dunlin.toml", "-o", "out", "--only", "bow-work-card", "--format", "step")
    (line,) = refused(call(capsys, *argv))
    assert "bow-work-card belongs to no part with a solid" in line and "frog" in line


def test_no_log_line_of_a_library_is_printed():
    code = (
        "import logging, sys\n"
        "from templates_gen import cli\n"
        "from templates_gen.command import explain\n"
        "explain.run = lambda args: logging.getLogger('ezdxf').error('noise') or 0\n"
        "sys.exit(cli.main(['explain']))"
    )
    done = subprocess.run([sys.executable, "-c", code], capture_output=True, text=True, check=False)
    assert (done.returncode, done.stdout, done.stderr) == (0, "", "")


def test_a_message_of_any_length_is_wrapped_behind_its_first_word():
    laid = text.messages("a.toml:8: " + "word " * 40, colour=False).splitlines()
    assert len(laid) > 1 and max(map(len, laid)) <= WIDTH
    assert all(line.startswith("    ") for line in laid[1:])
