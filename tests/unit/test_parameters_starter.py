"""Test starter files and explanations."""

import tomllib

import pytest
from toy_parameters import BANDS, SCHEMA, in_folder, write

from templates_gen.errors import InputError
from templates_gen.parameters.explain import explain
from templates_gen.parameters.read import read
from templates_gen.parameters.starter import starter


@pytest.fixture(autouse=True)
def folder(monkeypatch, tmp_path):
    in_folder(monkeypatch, tmp_path)


def test_a_starter_reads_back_without_fault_or_warning():
    pattern = read(write(starter("bass-french", SCHEMA, name="Dunlin")), SCHEMA)
    assert pattern.identity.name == "Dunlin"
    assert pattern.values == {key: band.usual for key, band in BANDS.items()}
    assert pattern.warnings == ()


def test_a_starter_and_a_file_based_on_it_are_the_same_pattern():
    whole = read(write(starter("violin", SCHEMA, name="Knot")), SCHEMA)
    text = 'units = "mm"\nbased_on = "violin"\n[pattern]\nname = "Knot"\n'
    assert read(write(text), SCHEMA).digest == whole.digest


@pytest.mark.parametrize("name", ['a "q" & <b> \\', "x" * 60, "Möwe № 2 '''"])
def test_a_starter_takes_any_name_that_is_allowed(name):
    assert tomllib.loads(starter("viola", SCHEMA, name=name))["pattern"]["name"] == name


@pytest.mark.parametrize("name", ["", "a\nb", "x" * 61, "\x7f"])
def test_starter_rejects_a_name_that_would_not_read_back(name):
    with pytest.raises(InputError):
        starter("viola", SCHEMA, name=name)


def test_starter_has_explaining_comments():
    text = starter("bass-french", SCHEMA)
    lines = text.splitlines()
    assert max(map(len, lines)) <= 100
    for words in (
        "templates-gen check",
        "Saint-George",
        "# Width outside, W_f; usually 20 to 24 mm [BM]",
        '# The curve the arch follows; one of "half-ellipse", "segment" [O]',
        "usually 240 to 330 [A]",
        "usually -2 to 2°",
    ):
        assert words in text
    assert "F.-J. Fétis" not in text  # a legend names only the letters used


def test_columns_of_a_starter_are_aligned():
    text = starter("bass-french", SCHEMA)
    for block in text.split("\n\n\n")[1:]:
        rows = [r for r in block.strip().splitlines()[2:] if not r.startswith("#")]
        assert len({row.index("#") for row in rows}) <= 1
        assert len({row.index("=") for row in rows if " = " in row[:20]}) <= 1
        assert rows or "[outline]" in block


def test_rejects_an_unknown_family():
    with pytest.raises(InputError, match=r'"bass-frensh".*nearest is "bass-french"'):
        starter("bass-frensh", SCHEMA)


def test_explains_a_number():
    text = explain("ferrule.outer_width", SCHEMA)
    for words in (
        "ferrule.outer_width (W_f)",
        "Width outside",
        "a number from 8 to 32 mm",
        "± 0.05 mm",
        "difference from the hair width",
        "basis B       H. Saint-George, The Bow, 3rd ed. 1922",
    ):
        assert words in text
    rows = {row.split()[0]: row.split()[1:] for row in text.splitlines() if row.strip()}
    assert rows["violin"] == ["12", "13", "14"]
    assert rows["bass-german"] == ["20", "22.5", "24"]
    assert "violin" not in explain("ferrule.outer_width", SCHEMA, "cello")


def test_explains_a_choice_a_count_and_a_measured_value():
    assert '"half-ellipse", "segment"' in explain("ferrule.arch_kind", SCHEMA)
    count = explain("hair.count", SCHEMA)
    assert "a whole number from 50 to 400" in count
    assert "tolerance" not in count
    assert "on the wood or the stock" in explain("hair.width", SCHEMA)
    assert "measured" not in count


def test_lists_everything_without_a_key():
    text = explain(None, SCHEMA)
    for parameter in SCHEMA.parameters.values():
        assert f"  {parameter.name} " in text
    assert "[ferrule]  Ferrule" in text
    assert "[hair]" not in explain("ferrule", SCHEMA)


def test_explanations_fit_the_screen():
    for key in (None, *SCHEMA.parameters, *SCHEMA.sections):
        assert max(map(len, explain(key, SCHEMA).splitlines())) <= 80


@pytest.mark.parametrize(
    ("key", "near"),
    [
        ("ferrule.outer_widht", "ferrule.outer_width"),
        ("outer_width", "ferrule.outer_width"),
        ("ferule", "ferrule"),
        ("zzz", "to list all"),
    ],
)
def test_unknown_key_gets_the_nearest_name(key, near):
    with pytest.raises(InputError, match=f'"{key}" is not a parameter.*{near}'):
        explain(key, SCHEMA)


def test_explain_knows_the_families():
    with pytest.raises(InputError, match="is not a family"):
        explain(None, SCHEMA, "banjo")
