"""Check that the table of families agrees with the parts' declarations."""

import csv
from importlib.resources import files

import pytest

from templates_gen.parameters.explain import explain
from templates_gen.parameters.families import BASIS, FAMILIES, bands
from templates_gen.parameters.read import read
from templates_gen.parameters.starter import starter
from templates_gen.parameters.words import basis_letters, words_of
from templates_gen.registry import SCHEMA


def test_table_and_declarations_name_the_same_keys_once_each():
    text = files("templates_gen.parameters").joinpath("families.csv").read_text("utf-8")
    keys = [row["key"] for row in csv.DictReader(text.splitlines())]
    assert len(keys) == len(set(keys))
    assert set(keys) == set(SCHEMA.parameters)


@pytest.mark.parametrize("family", FAMILIES)
def test_usual_lies_in_the_band_and_the_band_in_the_possible_range(family):
    for key, band in bands(family).items():
        p = SCHEMA.parameters[key]
        if p.points is not None:
            assert (band.low, band.usual, band.high) == (None, (), None), key
            continue
        if p.choices is not None:
            assert (band.low, band.high) == (None, None), key
            assert band.usual in words_of(p), key
            continue
        assert p.low <= band.low <= band.usual <= band.high <= p.high, key
        assert not p.whole or float(band.usual).is_integer(), key
        assert p.tol >= 0, key


@pytest.mark.parametrize("family", FAMILIES)
def test_every_basis_letter_is_known(family):
    for key, band in bands(family).items():
        assert basis_letters(band.basis), key
        assert set(basis_letters(band.basis)) <= set(BASIS), key


@pytest.mark.parametrize("family", FAMILIES)
def test_each_starter_reads_back_without_fault_or_warning(family, tmp_path):
    text = starter(family, SCHEMA, name="Dunlin")
    file = tmp_path / "dunlin.toml"
    file.write_text(text, "utf-8")
    pattern = read(file, SCHEMA)
    assert pattern.warnings == ()
    assert pattern.values == {key: bands(family)[key].usual for key in SCHEMA.parameters}
    assert max(map(len, text.splitlines())) <= 100


def test_every_key_can_be_explained_on_a_screen():
    for key in (None, *SCHEMA.parameters):
        assert max(map(len, explain(key, SCHEMA).splitlines())) <= 80
