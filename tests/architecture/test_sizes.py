"""Modules are small enough to be read at one sitting, and nothing tells where they were made."""

import re
import statistics
import subprocess
from collections import Counter
from pathlib import Path

import pytest
from architecture.house import sources

import templates_gen

ROOT = Path(templates_gen.__file__).parent
REPOSITORY = ROOT.parent

LONGEST, MEDIAN = 300, 130

#: Written in pieces, so that this file does not hold what it looks for.
OF_A_MACHINE = re.compile(
    "|".join(
        (
            r"/wor" r"k/",
            r"/tmp/" r"bash",
            r"file:/" r"//\w",
            r"https?://[^\s\"'<>)]*/simp" r"le\b",
            r"index-" r"url",
            r"files\.python" r"hosted",
        )
    ).encode()
)


def _lines(path):
    return len(path.read_text("utf-8").splitlines())


def test_no_module_is_long(record_property):
    lengths = {name: _lines(path) for name, path in sources(ROOT).items()}
    # Nearly empty ones (a folder's docstring) would make the median look good.
    median = statistics.median(n for n in lengths.values() if n > 5)
    record_property("median", median)
    print(f"{len(lengths)} modules, median {median:g} lines, longest {max(lengths.values())}")
    assert {name: n for name, n in lengths.items() if n > LONGEST} == {}
    assert median <= MEDIAN


def test_package_level_files_are_few():
    files = {f.name for f in ROOT.iterdir() if f.suffix == ".py"}
    assert files == {
        f"{name}.py"
        for name in ("__init__", "__main__", "cli", "registry", "errors", "tolerances", "version")
    }


def test_files_that_share_a_prefix_have_a_folder():
    shared = Counter(
        (f.parent.relative_to(ROOT), f.stem.partition("_")[0])
        for f in ROOT.rglob("*.py")
        if "_" in f.stem.strip("_")
    )
    assert {key: n for key, n in shared.items() if n > 6} == {}
    assert len(shared) > 20  # else nothing was counted


def _kept():
    """The files under version control; in a copy without it, all but what tools leave behind."""
    try:
        listed = subprocess.run(
            ["git", "ls-files", "-z"], cwd=REPOSITORY, capture_output=True, check=True
        )
        names = [n for n in listed.stdout.decode().split("\0") if n]
    except (OSError, subprocess.CalledProcessError):
        names = [p.relative_to(REPOSITORY).as_posix() for p in REPOSITORY.rglob("*") if p.is_file()]
    left = re.compile(r"(^|/)(\.venv|\.git|__pycache__|\.\w+_cache|[^/]+\.egg-info|build)/")
    return [REPOSITORY / n for n in names if not left.search(n) and (REPOSITORY / n).is_file()]


def test_nothing_kept_tells_of_a_machine():
    kept = _kept()
    assert len(kept) > 50
    found = [
        f"{path.relative_to(REPOSITORY)}: {hit.group().decode('latin-1')}"
        for path in kept
        if (hit := OF_A_MACHINE.search(path.read_bytes()))
    ]
    assert found == []


@pytest.mark.parametrize(
    "told",
    [
        "see /wor" + "k/main/x.py",
        "pip --index-" + "url x",
        "https://example.org/root/simp" + "le/",
        "file:/" + "//opt/x",
    ],
)
def test_a_machine_is_recognised(told):
    assert OF_A_MACHINE.search(told.encode())
