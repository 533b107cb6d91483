"""Read any kind of file: one clear fault, no traceback, no blocking.

What is and is not valid TOML: TOML v1.0.0, toml.io.
"""

import os
import tracemalloc
from pathlib import Path

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st
from toy_parameters import SCHEMA, WHOLE_FILE, changed, faults_in, faults_of, in_folder, write

from templates_gen.errors import InputError
from templates_gen.parameters import families
from templates_gen.parameters.read import read
from templates_gen.parameters.source import load


@pytest.fixture(autouse=True)
def folder(monkeypatch, tmp_path):
    in_folder(monkeypatch, tmp_path)


def only(faults):
    (fault,) = faults
    assert fault.file and fault.problem and fault.cure
    return fault


def test_a_missing_file():
    fault = only(faults_of("no.toml"))
    assert (fault.file, fault.line) == ("no.toml", None)
    assert "no such file" in fault.problem


@pytest.mark.parametrize("name", [".", "patterns", ""])
def test_a_folder(name):
    Path("patterns").mkdir()
    assert "folder" in only(faults_of(name)).problem


def test_a_file_as_folder():
    write(WHOLE_FILE)
    assert "cannot be read" in only(faults_of("dunlin.toml/more.toml")).problem


@pytest.mark.parametrize("name", ["a\0b.toml", "x" * 5000])
def test_rejects_impossible_file_names(name):
    assert "cannot be read" in only(faults_of(name)).problem


def test_a_name_that_is_not_utf8():
    name = os.fsdecode(b"d\xffn.toml")
    str(InputError(faults_of(name))).encode()  # can be printed


def test_a_link_in_a_circle():
    Path("a.toml").symlink_to("a.toml")
    assert "cannot be read" in only(faults_of("a.toml")).problem


def test_an_unreadable_file(monkeypatch):
    write(WHOLE_FILE)
    Path("dunlin.toml").chmod(0)
    if os.geteuid() == 0:  # root may read everything

        def refuse(*_, **__):
            raise PermissionError(13, "Permission denied")

        monkeypatch.setattr(Path, "open", refuse)
    assert "permission denied" in only(faults_of("dunlin.toml")).problem


def test_a_named_pipe_does_not_wait():
    os.mkfifo("pipe.toml")
    assert "not an ordinary file" in only(faults_of("pipe.toml")).problem


def test_a_device():
    assert "not an ordinary file" in only(faults_of("/dev/zero")).problem


def test_a_file_of_50_mb_is_not_loaded():
    with Path("large.toml").open("wb") as f:
        f.truncate(50_000_000)
    tracemalloc.start()
    fault = only(faults_of("large.toml"))
    peak = tracemalloc.get_traced_memory()[1]
    tracemalloc.stop()
    assert "50.0 MB" in fault.problem
    assert peak < 5_000_000


def test_nul_bytes():
    fault = only(faults_in(WHOLE_FILE.encode() + b"a\n\0"))
    assert fault.line == WHOLE_FILE.count("\n") + 2
    assert "NUL" in fault.problem


def test_utf16_is_reported_with_its_cure():
    assert "UTF-8" in only(faults_in(WHOLE_FILE.encode("utf-16"))).cure


@pytest.mark.parametrize("mark", [b"", b"\xef\xbb\xbf"])
def test_not_utf8(mark):
    fault = only(faults_in(mark + b'units = "mm"\n# Andr\xe9\n'))
    assert fault.line == 2
    assert "0xe9" in fault.problem and "UTF-8" in fault.cure


def test_a_byte_order_mark_and_dos_line_ends_are_fine():
    write(b"\xef\xbb\xbf" + WHOLE_FILE.replace("\n", "\r\n").encode())
    pattern = read("dunlin.toml", SCHEMA)
    assert pattern.places["ferrule.outer_width"] == ("dunlin.toml", 8)


@pytest.mark.parametrize(
    ("old", "new", "line", "words"),
    [
        ("width = 22.5", "width = 22,5", 8, "point"),
        ("width = 22.5", "width = 22.5 mm", 8, "without its unit"),
        ("width = 22.5", 'width = 22.5 "', 8, "put that line right"),
        ('"bass-french"', "bass-french", 5, "quotes"),
        ("width = 20\n", "width = [20", 15, "put that line right"),
        ("280", "9" * 900, None, None),
    ],
)
def test_broken_toml_names_the_line(old, new, line, words):
    fault = only(faults_in(changed(old, new)))
    if line is None:  # sound TOML, but a number far too large
        assert fault.key == "hair.count"
        return
    assert fault.line == line
    assert "not valid TOML" in fault.problem
    assert words in fault.cure


@pytest.mark.parametrize(
    ("old", "new", "line", "problem", "cure"),
    [
        ('"bass-french"', '"bass-french', 5, "opened and not closed", "close it"),
        ('"bass-french"', "'bass-french", 5, "opened and not closed", "close it"),
        ("width = 20\n", 'width = "20', 15, "opened and not closed", "close it"),
        ('"bass-french"', "“bass-french”", 5, "curly", "straight"),
        ('"bass-french"', '"bass-french”  # a family', 5, "curly", "straight"),
        ("width = 22.5", "width =", 8, "there is no value after the `=`", "write a value"),
        ("width = 22.5", "width = # a number", 8, "there is no value after the `=`", "a value"),
        ("width = 22.5", "width = { value = , tol = 1 }", 8, "no value", "a value"),
        ("[hair]", "[hair", 12, "no closing bracket", "write `[hair]`"),
        ("[hair]", "[ferrule]", 12, "[ferrule] is already stated in line 7", "change it there"),
        ("width = 22.5", "width = 22.5\nouter_width = 2", 9, "already stated in line 8", "one of"),
        (
            "width = 22.5",
            "width = { value = 22.5 }\nouter_width = { value = 2 }",
            9,
            "ferrule.outer_width is already stated in line 8",
            "one of",
        ),
        (
            "outer_width = 22.5",
            "sections = [\n[0, 1],\n[2, 1],\n]\nsections = [\n[0, 1],\n]",
            12,
            "ferrule.sections is already stated in line 8",
            "one of",
        ),
    ],
)
def test_common_mistakes_get_a_plain_message(old, new, line, problem, cure):
    fault = only(faults_in(changed(old, new)))
    assert (fault.file, fault.line, fault.key) == ("dunlin.toml", line, "")
    assert problem in fault.problem
    assert cure in fault.cure
    assert "TOML" not in fault.problem


def test_unterminated_value_is_reported_where_it_begins():
    """The parser itself reports only the end of the document."""
    assert only(faults_in("a = 1\nb = 'x\nc = 2\nd = 3\n")).line == 2
    assert only(faults_in('a = 1\nb = """x\nc = 2\n')).line == 2


def test_reports_the_column():
    assert "column 7" in only(faults_in("a = 1 = 2\n")).problem


def test_a_number_too_long_for_the_parser():
    """Python converts at most 4300 digits; such a line is refused before."""
    assert only(faults_in("a = " + "9" * 5000)).line == 1


@pytest.mark.parametrize(
    "text",
    [
        "a = " + "[" * 900,
        "a = " + "[\n" * 50_000,
        "a = " + "[" * 400 + "]" * 400,
        "a.b.c.d.e.f = 1\n",
        "[a.b.c.d.e.f]\n",
        "a = {b = {c = {d = {e = {f = 1}}}}}\n",
    ],
)
def test_deep_nesting(text):
    faults = faults_in(text)
    assert "too deep" in only(faults).problem


def test_rejects_a_key_of_many_dots_before_memory_fills():
    fault = only(faults_in('units = "mm"\n' + "a." * 50_000 + "a = 1\n"))
    assert fault.line == 2
    assert "100005 characters" in fault.problem


def test_report_of_a_wrong_kind_of_file_is_short():
    faults = faults_in("".join(f"a{i} = 1\n" for i in range(5000)))
    assert len(faults) < 40
    assert any("4980 more unknown keys" in f.problem for f in faults)


def test_load_gives_text_and_table():
    source = load(Path(write(WHOLE_FILE)), "as given")
    assert source.text == WHOLE_FILE
    assert source.table["hair"]["count"] == 280
    assert source.place("hair", "count") == ("as given", 13)


pieces = st.one_of(
    st.binary(max_size=40),
    st.text(alphabet="[]{}=\"'.,#\n\r\t \\abuntis1-_e+", max_size=40).map(str.encode),
    st.sampled_from(
        [b"units", b"based_on", b"[ferrule]", b"height", b"= {value=", b'"mm"', b"nan"]
    ),
)


@settings(max_examples=150, deadline=None, derandomize=True)
@given(st.lists(pieces, max_size=6), st.integers(0, len(WHOLE_FILE)), st.integers(0, 30))
def test_arbitrary_bytes_raise_nothing_but_an_input_error(tmp_path_factory, parts, at, gone):
    whole = WHOLE_FILE.encode()
    for data in (b"".join(parts), whole[:at] + b"".join(parts) + whole[at + gone :]):
        file = tmp_path_factory.getbasetemp() / "any.toml"
        file.write_bytes(data)
        with pytest.MonkeyPatch.context() as patch:
            patch.setattr(families, "bands", lambda _: {})
            try:
                read(file, SCHEMA)
            except InputError as e:
                assert e.faults
                assert "\0" not in str(e)
