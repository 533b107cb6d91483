"""A bow to weigh."""

import pytest
from outside.maker import PARAMS

from templates_gen import pipeline
from templates_gen.bench.weigh import Weighed
from templates_gen.bow.dims_bulk import Bulks
from templates_gen.bow.dims_mass import pieces
from templates_gen.parts.material.params import LappingKind

#: A light lapping, so that a heavier one is a lever.
LIGHT = {"lapping.kind": LappingKind.SUBSTITUTE, "lapping.gauge": 0.5, "lapping.length": 70.0}


@pytest.fixture(scope="session")
def bow():
    """A violin bow with a light lapping, weighed from its dimensions: no solid is built."""
    p = pipeline.read(str(PARAMS / "violin.toml")).with_many(LIGHT)
    parts = p.derive(Bulks).parts
    return Weighed(p, parts, pieces(p, parts))
