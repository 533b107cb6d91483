"""Check that dimensions as plain floats are the numbers of ``derive``."""

from dataclasses import dataclass, fields, is_dataclass

import numpy as np
import pytest
from readers.corpus import pattern

from templates_gen import registry
from templates_gen.bow import catalogue
from templates_gen.geometry import Path, circle
from templates_gen.parameters.scalars import Scalars
from templates_gen.parts.frog.dims import FrogDims
from templates_gen.parts.heel.dims import HeelDims
from templates_gen.parts.heel.params import HeelKind

FILES = ("violin", "bass-french")


@dataclass(frozen=True)
class Inner:
    length: object


@dataclass(frozen=True)
class Record:
    single: object
    row: object
    inner: Inner
    pair: tuple
    path: Path
    word: str

    def at(self, x):
        return np.where(x > 0, self.single, x), self.inner


RECORD = Record(
    np.float64(0.1),
    np.array([1.0, 2.0]),
    Inner(np.array(0.3)),
    (np.float64(1.5), "x"),
    circle((0, 0), 2.0),
    "one-piece",
)


def test_numbers_become_floats_and_keep_their_value():
    s = Scalars(RECORD)
    assert (type(s.single), s.single) == (float, float(np.float64(0.1)))
    assert (type(s.inner.length), s.inner.length) == (float, 0.3)
    assert s.pair == (1.5, "x")
    assert type(s.pair[0]) is float


def test_methods_return_floats_and_views():
    height, inner = Scalars(RECORD).at(np.float64(2.0))
    assert (type(height), height) == (float, float(np.float64(0.1)))
    assert type(inner.length) is float


def test_paths_words_and_arrays_pass_unchanged():
    s = Scalars(RECORD)
    assert s.path is RECORD.path
    assert s.row is RECORD.row
    assert s.word is RECORD.word


@pytest.mark.parametrize("stem", FILES)
def test_the_view_gives_the_numbers_of_derive(stem):
    p = pattern(stem)
    d, s = p.derive(FrogDims), p.scalars(FrogDims)
    assert s is p.scalars(FrogDims)
    assert s.shoulder == float(d.shoulder)
    assert s.half_width(3.0) == float(d.half_width(3.0))
    assert s.seat.stick.least_facet == float(d.seat.stick.least_facet)
    assert isinstance(p.scalars(HeelDims).params.kind, HeelKind)


def not_float(value, place):
    """Yield the places of numbers within a drawing that are not plain floats."""
    if isinstance(value, np.generic | np.ndarray | Scalars):
        yield place
    elif isinstance(value, tuple | list):
        for each in value:
            yield from not_float(each, place)
    elif is_dataclass(value):
        for field in fields(value):
            yield from not_float(getattr(value, field.name), f"{place}.{field.name}")


@pytest.mark.parametrize("stem", FILES)
def test_everything_built_and_drawn_is_made_of_floats(stem):
    p = pattern(stem)
    found = [place for b in registry.builders() for place in not_float(b.recipe(p), b.part)]
    for t in catalogue.templates():
        if t.wanted(p) and not t.name.startswith("bow-chart"):
            found += not_float(list(t.views(p)), t.name)
    assert sorted(set(found)) == []
