"""Check file names that every system accepts, and that files are written whole or not at all."""

import os
import re
from pathlib import Path
from random import Random

import pytest

from templates_gen.errors import EnvironmentFault
from templates_gen.writers.figures import bulge, coordinate, figure
from templates_gen.writers.files import safe_stem, write_all

FILES = {"a.dxf": b"first", "b.svg": b"second", "c.pdf": b"third"}


@pytest.mark.parametrize(
    ("name", "stem"),
    [
        ("Sanderling", "sanderling"),
        ("Bar-tailed  Godwit, III", "bar-tailed-godwit-iii"),
        ("Bécasseau Æ", "becasseau"),
        ("../../etc/passwd", "etc-passwd"),
        ("C:\\Knot", "c-knot"),
        (".hidden.", "hidden"),
        ("Кулик", "pattern"),
        ("🐦", "pattern"),
        ("--", "pattern"),
        ("", "pattern"),
        ("CON", "pattern-con"),
        ("lpt1", "pattern-lpt1"),
        ("a\nb\0c", "a-b-c"),
        ("½ ﬁnch ²", "1-2-finch-2"),
        ("Großer Brachvogel", "grosser-brachvogel"),
    ],
)
def test_safe_stem(name, stem):
    assert safe_stem(name) == stem


@pytest.mark.parametrize("seed", range(100))
def test_any_text_gives_a_file_name(seed):
    rng = Random(seed)
    most = rng.choice((0x7F, 0x24F, 0x10FFFF))
    name = "".join(chr(rng.randint(0, most)) for _ in range(rng.randint(0, 90)))
    stem = safe_stem(name)
    assert re.fullmatch(r"[a-z0-9]+(-[a-z0-9]+)*", stem)
    assert len(stem) <= 60
    assert safe_stem(stem) == stem


def test_long_names_are_cut():
    assert safe_stem("W" * 500) == "w" * 60
    assert safe_stem("w" * 59 + " tail") == "w" * 59


def held(folder: Path) -> dict[str, bytes]:
    return {f.name: f.read_bytes() for f in folder.iterdir() if f.is_file()}


def test_writes_into_a_new_folder(tmp_path):
    write_all(tmp_path / "new" / "deep", FILES)
    assert held(tmp_path / "new" / "deep") == FILES


def test_overwrites_existing_files_and_keeps_the_rest(tmp_path):
    (tmp_path / "a.dxf").write_bytes(b"old and longer")
    (tmp_path / "mine.txt").write_bytes(b"notes")
    write_all(tmp_path, FILES)
    assert held(tmp_path) == {**FILES, "mine.txt": b"notes"}


@pytest.mark.parametrize("failing", range(3))
@pytest.mark.parametrize("error", [OSError(28, os.strerror(28)), KeyboardInterrupt()])
def test_failed_write_changes_nothing(tmp_path, monkeypatch, failing, error):
    (tmp_path / "a.dxf").write_bytes(b"old")
    whole, count = Path.write_bytes, iter(range(9))

    def write(self, data):
        if next(count) == failing:
            whole(self, data[:2])  # a disc that fills up while writing
            raise error
        return whole(self, data)

    monkeypatch.setattr(Path, "write_bytes", write)
    with pytest.raises((EnvironmentFault, KeyboardInterrupt)) as caught:
        write_all(tmp_path, FILES)
    assert held(tmp_path) == {"a.dxf": b"old"}
    if isinstance(error, OSError):
        assert str(tmp_path) in str(caught.value)
        assert "No space left" in str(caught.value)


@pytest.mark.parametrize("name", FILES)
def test_folder_in_place_of_a_file_stops_everything(tmp_path, name):
    (tmp_path / name).mkdir()
    with pytest.raises(EnvironmentFault, match=f"{re.escape(name)} is a folder"):
        write_all(tmp_path, FILES)
    assert held(tmp_path) == {}


def test_file_in_place_of_the_folder(tmp_path):
    (tmp_path / "out").write_bytes(b"mine")
    for folder in (tmp_path / "out", tmp_path / "out" / "deeper"):
        with pytest.raises(EnvironmentFault, match="cannot be written"):
            write_all(folder, FILES)
    assert held(tmp_path) == {"out": b"mine"}


def test_a_name_too_long_for_the_system(tmp_path):
    with pytest.raises(EnvironmentFault, match="cannot be written"):
        write_all(tmp_path, {"a.dxf": b"first", "w" * 300: b"second"})
    assert held(tmp_path) == {}


@pytest.mark.skipif(os.name != "posix" or os.geteuid() == 0, reason="the superuser may write")
def test_folder_that_cannot_be_written(tmp_path):
    tmp_path.chmod(0o500)
    try:
        with pytest.raises(EnvironmentFault, match="ermission"):
            write_all(tmp_path, FILES)
    finally:
        tmp_path.chmod(0o700)


@pytest.mark.skipif(not Path("/proc/self").is_dir(), reason="no file system that nobody may write")
def test_folder_without_write_permission():
    with pytest.raises(EnvironmentFault, match=r"/proc/self: cannot be written \(.+\); name"):
        write_all(Path("/proc/self"), FILES)


@pytest.mark.parametrize(
    ("value", "text"),
    [
        (0.0, "0"),
        (-0.0, "0"),
        (-4e-7, "0"),
        (4e-16, "0"),
        (100.0, "100"),
        (12.5, "12.5"),
        (-0.1234567, "-0.123457"),
        (1e-6, "0.000001"),
        (1200.0, "1200"),
        (123456.7891234, "123456.789123"),
    ],
)
def test_format_of_numbers(value, text):
    assert figure(value) == text


@pytest.mark.parametrize("seed", range(100))
def test_numbers_are_exact_to_a_nanometre(seed):
    value = Random(seed).uniform(-1, 1) * 10.0 ** (seed % 11 - 7)
    for rounded in (float(figure(value)), coordinate(value)):
        assert abs(rounded - value) <= 5.001e-7
    assert str(coordinate(value)) != "-0.0"
    assert "e" not in figure(value)


def test_bulges_are_never_minus_zero():
    assert [str(bulge(b)) for b in (-0.0, -1e-13, 0.41421356237309503)] == [
        "0.0",
        "0.0",
        "0.414213562373",
    ]
