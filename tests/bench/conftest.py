"""A bow to weigh."""

import pytest
from outside.maker import PARAMS

from templates_gen.bench.weigh.weighing import Weighed
from templates_gen.bow.dims.masses import pieces
from templates_gen.bow.dims.volumes import Volumes
from templates_gen.parts.material.params import LappingKind
from templates_gen.pipeline import rendering

#: A light lapping, so that a heavier one is a lever.
LIGHT = {"lapping.kind": LappingKind.SUBSTITUTE, "lapping.gauge": 0.5, "lapping.length": 70.0}


@pytest.fixture(scope="session")
def bow():
    """A violin bow with a light lapping, weighed from its dimensions: no solid is built."""
    p = rendering.read(str(PARAMS / "violin.toml")).with_many(LIGHT)
    parts = p.derive(Volumes).parts
    return Weighed(p, parts, pieces(p, parts))
