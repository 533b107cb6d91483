"""What a page tells the reader to type works, in an empty folder, and does what the page says."""

import contextlib
import io
import re
import shlex
import shutil

import _sessions
import make
import pytest

from templates_gen import cli

ROOT = make.ROOT


def listings(page, kind):
    return re.findall(rf"```{kind}\n(.*?)```", (ROOT / page).read_text("utf-8"), re.DOTALL)


def test_the_first_two_commands_of_the_readme_are_those_that_are_run_elsewhere():
    """``.ci/run`` takes the first two lines within ``sh`` listings."""
    setting_up, testing = "".join(listings("README.md", "sh")).splitlines()[:2]
    assert "pip install -q '.[test]'" in setting_up
    assert setting_up.endswith(".venv/bin/templates-gen draw params/bass-french.toml -o out")
    assert testing == '.venv/bin/python -m pytest -n auto -m "not slow"'


def test_the_readme_draws(tmp_path, monkeypatch, plane, empty):
    shutil.copytree(ROOT / "params", tmp_path / "params")
    monkeypatch.chdir(tmp_path)
    (command,) = re.findall(r"templates-gen ([^&\n]*)", "".join(listings("README.md", "sh")))
    with contextlib.redirect_stdout(io.StringIO()):
        assert cli.main(shlex.split(command)) == 0
    assert (tmp_path / "out" / "manifest.json").is_file()
    assert list((tmp_path / "out").glob("*.pdf"))


def test_every_call_shown_is_in_a_listing_that_is_run():
    """A ``sh`` listing or an indented line is not run; none of a reader's pages hides a call."""
    for page in ("README.md", "docs/tutorial.md"):
        text = (ROOT / page).read_text("utf-8")
        for body in listings(page, "console"):
            text = text.replace(body, "")
        calls = re.findall(r"^(?:    |\$ ).*templates-gen.*$", text, re.MULTILINE)
        assert calls == [], page


def test_the_tutorial_holds_then_fails_then_holds():
    """As its steps 2 to 5 say. That its listings are fresh is for another test."""
    told = (ROOT / "docs" / "tutorial.md").read_text("utf-8")
    counts = re.findall(r"^  \d+ checks: .* (\d+) fail$", told, re.MULTILINE)
    scaled, first, second, third = (int(n) for n in counts)
    assert (scaled, first, third) == (0, 0, 0)
    assert second > 0
    assert "nothing drawn" in told
    assert "print at 100 %" in told


def test_a_listing_may_call_nothing_else():
    with pytest.raises(ValueError, match="only call templates-gen"):
        _sessions.refreshed("```console\n$ rm -r out\n```")


def test_a_reader_cannot_change_what_is_not_there():
    page = (
        "```console\n$ templates-gen new violin -o a.toml\n```\n"
        "<!-- in a.toml -->\n```toml\n[ferrule]\nwidth = 12\n```"
    )
    with pytest.raises(ValueError, match=r"no \[ferrule\] width"):
        _sessions.refreshed(page)


def test_an_example_behind_a_sign_can_be_put_to_use():
    told = _sessions.refreshed(
        "```console\n$ templates-gen new violin -o a.toml\n```\n"
        "<!-- in a.toml -->\n```toml\n[stick]\nstations = [[0, 8]]\n```\n"
        "```console\n$ templates-gen check a.toml\n```"
    )
    assert "stick.stations: it has 1 row, at least 3 are needed" in told
