"""The shop file: stated values, inches, and all faults at once."""

import re
from pathlib import Path

import pytest
from command.calls import call

from templates_gen.bench.routing import templates
from templates_gen.errors import InputError
from templates_gen.shop.params import Guide
from templates_gen.shop.read import SCHEMA, TOOLS, example, read, usual
from templates_gen.shop.starter import EXAMPLE, STARTER

SHIPPED = Path(__file__).resolve().parents[2] / "params" / "shop.toml"
LINE = re.compile(r"^shop\.toml(:\d+)?: [^;]+; .+$")


@pytest.fixture(autouse=True)
def folder(monkeypatch, tmp_path):
    monkeypatch.chdir(tmp_path)


def shop(text: str, units: str = 'units = "mm"\n'):
    Path("shop.toml").write_text(units + text)
    return read("shop.toml")


def faults(text: str, units: str = 'units = "mm"\n') -> list[str]:
    with pytest.raises(InputError) as e:
        shop(text, units)
    told = str(e.value).splitlines()
    assert all(LINE.match(line) for line in told), told
    return [line.removeprefix("shop.toml") for line in told]


def test_shipped_file_is_the_starter():
    assert SHIPPED.read_text("utf-8") == STARTER
    assert read(SHIPPED) == usual()


def test_starter_states_every_key():
    for key, p in SCHEMA.parameters.items():
        behind = "# " if p.section in TOOLS else ""
        assert re.search(rf"^{behind}{p.name} *= ", STARTER, re.MULTILINE), key


def test_starter_has_no_tools():
    """Kerf and cutters must be measured: the starter's shop has none."""
    found = read(SHIPPED)
    assert {getattr(found, n) for n in TOOLS} == {None}
    assert templates.templates(found) == []


def test_removing_the_sign_activates_an_example():
    Path("shop.toml").write_text(EXAMPLE, "utf-8")
    assert read("shop.toml") == example()
    assert example().laser.kerf == 0.2
    assert len(templates.templates(example())) == 7


def test_missing_values_are_usual_but_missing_tools_are_none():
    found = shop("")
    assert (found.paper, found.printer, found.plate) == (
        usual().paper,
        usual().printer,
        usual().plate,
    )
    assert {getattr(found, n) for n in TOOLS} == {None}
    found = shop("[laser]\nkerf = 0.25\n")
    assert (found.laser.kerf, found.paper) == (0.25, usual().paper)


@pytest.mark.parametrize(
    ("stated", "mm"),
    [("0.75", 19.05), ("0.5", 12.7), ("1.0", 25.4), ("1", 25.4)],
)
def test_inches_are_25_4_mm(stated, mm):
    """Source: ISO 80000-3 (from memory): an inch is exactly 25.4 mm."""
    found = shop(
        f'[mortise_cutter]\noutside = {{ value = {stated}, unit = "in" }}\n'
        'guide = "collar"\ncutter = 3\n'
    )
    assert found.mortise_cutter.outside == mm
    assert found.mortise_cutter.guide is Guide.COLLAR


def test_guide_of_three_quarters_and_cutter_of_half_an_inch_offset_3_175():
    found = shop(
        '[mortise_cutter]\nguide = "collar"\noutside = { value = 0.75, unit = "in" }\n'
        'cutter = { value = 0.5, unit = "in", note = "the long one" }\n'
    )
    assert found.mortise_cutter.aside == pytest.approx(3.175, abs=1e-12)


@pytest.mark.parametrize(
    ("text", "line", "words"),
    [
        ("[paper]\nmargin = '10'", 3, 'paper.margin: "10" is a text'),
        (
            "[paper]\nmargin = 2",
            3,
            "paper.margin: 2 mm is outside the possible range of 5 to 25 mm",
        ),
        ("[paper]\nmargin = true", 3, "paper.margin: true is not a number"),
        ("[paper]\nmargin = nan", 3, "not a finite number"),
        ("[paper]\nmargn = 10", 3, "nearest known name is `margin`"),
        ("[papers]\nmargin = 10", 2, "nearest known name is `paper`"),
        ("paper = 10", 2, "stands where a section is expected; write it as [paper]"),
        (
            "[paper]\noverlap = { value = 3, unit = 'in' }",
            3,
            "3 in is outside the possible range of 0.473 to",
        ),
        ("[paper]\noverlap = { value = 15, unit = 'inch' }", 3, '"inch" is not its unit'),
        ("[paper]\noverlap = { unit = 'in' }", 3, "its table holds no value"),
        ("[paper]\noverlap = { value = 15, tol = 1 }", 3, '"tol" is unknown in its table'),
        ("[printer]\nx_factor = 1.031", 3, "1.031 is outside the possible range of 0.97 to 1.03"),
        ("[printer]\nx_factor = { value = 1, unit = 'in' }", 3, "leave the unit out"),
        ("[fine_cutter]\ncutter = 3\nguide = 'collar'", 2, "fine_cutter.outside: is not stated"),
        ("[fine_cutter]\nguide = 'coller'\noutside = 9\ncutter = 3", 3, 'the nearest is "collar"'),
        (
            "[fine_cutter]\noutside = 3\ncutter = 3\nguide = 'collar'",
            3,
            "no room for a cutter of 3 mm; state 4",
        ),
        (
            "[profile_cutter]\noutside = 3\ncutter = 3.1\nguide = 'bearing'",
            3,
            "a bearing of 3 mm has no room",
        ),
        ("[plate]\nblank_fit = 0.2", 3, "0.2 mm is outside the possible range of 0.05 to 0.15 mm"),
        (
            "[dovetail_cutter]\nflank_deg = 45\nguide = 'collar'\noutside = 9\ncutter = 3",
            3,
            "45° is outside the possible range of 3 to 30°",
        ),
    ],
)
def test_fault_states_line_key_value_and_cure(text, line, words):
    (told,) = faults(text + "\n")
    assert told.startswith(f":{line}: ")
    assert words in told


def test_requires_the_unit():
    assert "units: the unit is not stated" in faults("", units="")[0]
    (told,) = faults("", units="units = 'in'\n")
    assert told.startswith(":1: units")


def test_lists_all_faults_at_once():
    told = faults("[paper]\nmargin = 1\noverlap = 1\n[laser]\nkerf = -1\n[plate]\nrims = 3\n")
    assert [int(t.split(":")[1]) for t in told] == [3, 4, 6, 8]


def test_rejects_a_missing_file():
    with pytest.raises(InputError, match="there is no such file"):
        read("none.toml")


def test_new_writes_the_starter(capsys):
    said = " ".join(call(capsys, "new", "shop", "-o", "mine.toml").out.split())
    assert said == (
        "wrote mine.toml; next: state your own kerf and cutters in it, "
        "then templates-gen draw FILE -o DIR --shop mine.toml"
    )
    assert Path("mine.toml").read_text("utf-8") == STARTER
