"""The commands on the pages work in an empty folder and do what the pages say."""

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


def test_readme_has_the_two_commands_that_ci_runs():
    """``.ci/run`` takes the first two lines in ``sh`` listings."""
    setting_up, testing = "".join(listings("README.md", "sh")).splitlines()[:2]
    assert "pip install -q '.[test]'" in setting_up
    assert setting_up.endswith(".venv/bin/templates-gen draw params/bass-french.toml -o out")
    assert testing == '.venv/bin/python -m pytest -n auto -m "not slow"'


def test_readme_command_draws(tmp_path, monkeypatch, plane, empty):
    shutil.copytree(ROOT / "params", tmp_path / "params")
    monkeypatch.chdir(tmp_path)
    (command,) = re.findall(r"templates-gen ([^&\n]*)", "".join(listings("README.md", "sh")))
    with contextlib.redirect_stdout(io.StringIO()):
        assert cli.main(shlex.split(command)) == 0
    assert (tmp_path / "out" / "manifest.json").is_file()
    assert list((tmp_path / "out").glob("*.pdf"))


def test_first_pages_show_calls_only_in_listings_that_are_run():
    """``sh`` listings and indented lines are not run."""
    for page in ("README.md", "docs/tutorial.md"):
        text = (ROOT / page).read_text("utf-8")
        for body in listings(page, "console"):
            text = text.replace(body, "")
        calls = re.findall(r"^(?:    |\$ ).*templates-gen.*$", text, re.MULTILINE)
        assert calls == [], page


def test_tutorial_passes_then_fails_then_passes():
    """As its steps 2 to 5 say. Another test checks that its listings are fresh."""
    text = (ROOT / "docs" / "tutorial.md").read_text("utf-8")
    counts = re.findall(r"^  \d+ checks: .* (\d+) fail$", text, re.MULTILINE)
    scaled, first, second, third = (int(n) for n in counts)
    assert (scaled, first, third) == (0, 0, 0)
    assert second > 0
    assert "nothing drawn" in text
    assert "print at 100 %" in text


def test_rejects_a_listing_with_another_command():
    with pytest.raises(ValueError, match="only call templates-gen"):
        _sessions.refreshed("```console\n$ rm -r out\n```")


def test_rejects_a_change_to_a_missing_key():
    page = (
        "```console\n$ templates-gen new violin -o a.toml\n```\n"
        "<!-- in a.toml -->\n```toml\n[ferrule]\nwidth = 12\n```"
    )
    with pytest.raises(ValueError, match=r"no \[ferrule\] width"):
        _sessions.refreshed(page)


def test_a_change_can_replace_a_commented_example():
    text = _sessions.refreshed(
        "```console\n$ templates-gen new violin -o a.toml\n```\n"
        "<!-- in a.toml -->\n```toml\n[stick]\nstations = [[0, 8]]\n```\n"
        "```console\n$ templates-gen check a.toml\n```"
    )
    assert "stick.stations: it has 1 row, at least 3 are needed" in text
