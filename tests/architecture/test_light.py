"""The command starts light: only what a call uses is imported."""

import json
import os
import subprocess
import sys
from pathlib import Path

import pytest

import templates_gen

REPOSITORY = Path(templates_gen.__file__).parent.parent
STARTER = str(REPOSITORY / "params" / "violin.toml")
HEAVY = {"cadquery", "OCP", "ezdxf", "reportlab", "svgwrite", "shapely", "tomlkit"}

#: Runs calls of the command one after another in one process, and tells on the error stream
#: which modules have been imported after each.
CALLS = """
import json, sys
from templates_gen.cli import main
after = []
for argv in json.loads(sys.argv[1]):
    try:
        status = main(argv)
    except SystemExit as e:
        status = e.code
    after.append([argv[0], status, sorted({m.partition('.')[0] for m in sys.modules})])
print(json.dumps(after), file=sys.stderr)
"""


def imported(*calls):
    """What each call had imported by its end, in one process, as [verb, status, names]."""
    command = [sys.executable, "-c", CALLS, json.dumps([[str(a) for a in call] for call in calls])]
    done = subprocess.run(command, cwd=REPOSITORY, capture_output=True, text=True, check=True)
    return [
        (verb, status, set(names))
        for verb, status, names in json.loads(done.stderr.splitlines()[-1])
    ]


def test_what_is_looked_up_costs_no_heavy_import(tmp_path):
    found = imported(
        ["--help"],
        ["new", "cello", "-o", tmp_path / "cello.toml"],
        ["explain"],
        ["explain", "ferrule.outer_width"],
        ["check", STARTER],
        ["check", "--json", STARTER],
        ["list", STARTER],
        ["list", "--json", STARTER],
    )
    assert len(found) == 8
    for verb, status, names in found:
        assert status == 0, verb
        assert names.isdisjoint(HEAVY), (verb, names & HEAVY)
    assert "numpy" not in found[0][2], "help alone needs no numbers"
    # What is looked for can be seen.
    assert {"numpy", "templates_gen"} <= found[-1][2]


def test_drawing_without_solids_imports_no_modeller(tmp_path):
    ((_, status, names),) = imported(
        ["draw", "--plane", STARTER, "-o", tmp_path, "--format", "svg"]
    )
    assert status == 0
    assert "svgwrite" in names
    assert names.isdisjoint({"cadquery", "OCP", "ezdxf", "reportlab"})


@pytest.mark.kernel
def test_solids_known_already_need_no_modeller(tmp_path, monkeypatch):
    monkeypatch.setenv("XDG_CACHE_HOME", str(tmp_path / "cache"))
    drawn = []
    for turn in ("cold", "warm"):
        out = tmp_path / turn
        ((_, status, names),) = imported(["draw", STARTER, "-o", out])
        assert status == 0
        assert ("cadquery" in names) == (turn == "cold")
        drawn.append({p.name: p.read_bytes() for p in out.iterdir()})
    assert drawn[0] == drawn[1]


@pytest.mark.parametrize(("own", "then"), [(None, "1"), ("2", "2")])
def test_small_matrices_are_worked_out_by_one_thread_unless_the_maker_says_otherwise(own, then):
    """Before numpy is there: it reads OPENBLAS_NUM_THREADS once (OpenBLAS's manual)."""
    code = (
        "import os, sys; sys.argv[1:] = ['--version']\n"
        "from templates_gen.cli import run\n"
        "assert 'numpy' not in sys.modules\n"
        "try: run()\n"
        "finally: print(os.environ['OPENBLAS_NUM_THREADS'])"
    )
    around = {k: v for k, v in os.environ.items() if k != "OPENBLAS_NUM_THREADS"}
    around |= {} if own is None else {"OPENBLAS_NUM_THREADS": own}
    call = [sys.executable, "-c", code]
    done = subprocess.run(call, capture_output=True, text=True, env=around, check=True)
    assert done.stdout.splitlines()[-1] == then
