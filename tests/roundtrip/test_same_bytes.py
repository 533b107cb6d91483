"""The same file gives the same bytes: in another folder, locale, time zone, and again."""

import hashlib
import json
import os
import shutil
import subprocess
import sys
from pathlib import Path

import pytest
from readers import corpus

from templates_gen.drawing.paper import holds

HERE = "from templates_gen.cli import run; run()"
#: As a program that sets the user's locale: the C library then has a decimal comma.
ABROAD = f"import locale; locale.setlocale(locale.LC_ALL, ''); {HERE}"
FILE = corpus.ROOT / "params" / "violin.toml"


def draw(start: str, file: str, out: str, cwd: Path, *options: str, **env: str) -> dict[str, bytes]:
    """Run the command in its own process; return the files by name."""
    call = [sys.executable, "-c", start, "draw", file, "-o", out, *options]
    done = subprocess.run(
        call, cwd=cwd, env={**os.environ, **env}, capture_output=True, text=True, check=False
    )
    assert done.returncode == 0, done.stderr
    return {f.name: f.read_bytes() for f in (cwd / out).iterdir()}


@pytest.fixture(scope="module")
def drawn(tmp_path_factory):
    """The violin's templates, drawn in the repository."""
    out = tmp_path_factory.mktemp("home")
    env = {"LC_ALL": "C", "TZ": "UTC", "PYTHONHASHSEED": "0"}
    return draw(HERE, "params/violin.toml", str(out), corpus.ROOT, "--plane", **env)


@pytest.fixture(scope="module")
def comma(tmp_path_factory) -> dict[str, str]:
    """The environment of a locale with a decimal comma; empty if it cannot be built."""
    folder = tmp_path_factory.mktemp("locale")
    env = {"LC_ALL": "de_DE.UTF-8", "LANG": "de_DE.UTF-8"}
    maker = shutil.which("localedef")
    if maker:
        call = [maker, "-i", "de_DE", "-f", "UTF-8", str(folder / "de_DE.UTF-8")]
        if subprocess.run(call, capture_output=True, check=False).returncode == 0:
            env["LOCPATH"] = str(folder)
    tell = "import locale; locale.setlocale(locale.LC_ALL, ''); print(locale.str(0.5))"
    said = subprocess.run(
        [sys.executable, "-c", tell], env={**os.environ, **env}, capture_output=True, check=False
    )
    return env if said.stdout.strip() == b"0,5" else {}


def test_every_template_in_every_format(drawn):
    names = {
        f"sanderling--{n}.{form}" for n in corpus.names("violin") for form in ("dxf", "svg", "pdf")
    }
    assert names | {"manifest.json"} <= {*drawn}


def test_command_writes_the_files_that_are_read_back(drawn):
    """The other tests read the command's own files; tests/tooling reads the tiled ones."""
    for name in corpus.names("violin"):
        one_page = holds("a4", corpus.sheet("violin", name).size)
        for form in ("dxf", "svg", "pdf") if one_page else ("dxf", "svg"):
            assert drawn[f"sanderling--{name}.{form}"] == corpus.made("violin", name, form)


def test_manifest_lists_the_files(drawn):
    said = json.loads(drawn["manifest.json"])["files"]
    assert {n for n in drawn if n.startswith("sanderling--")} <= {*said}
    assert {n: hashlib.sha256(drawn[n]).hexdigest() for n in said} == said


def test_same_bytes_in_another_folder_time_zone_and_locale(drawn, comma, tmp_path):
    env = {"TZ": "Pacific/Kiritimati", "PYTHONHASHSEED": "4711", "HOME": str(tmp_path)}
    start = ABROAD if comma else HERE
    assert draw(start, str(FILE), "out", tmp_path, "--plane", **env, **comma) == drawn


@pytest.mark.kernel
def test_same_bytes_with_a_cold_a_warm_and_a_damaged_cache(tmp_path):
    cache = tmp_path / "cache"

    def once(out: str) -> dict[str, bytes]:
        return draw(HERE, str(FILE), out, tmp_path, XDG_CACHE_HOME=str(cache))

    cold = once("cold")
    kept = list((cache / "templates-gen").glob("*.json"))
    assert kept
    assert once("warm") == cold
    for file in kept:
        file.write_text("{", encoding="utf-8")
    assert once("damaged") == cold
