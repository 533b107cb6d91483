"""A bow to weigh."""

import pytest
from outside.maker import PARAMS

from templates_gen import pipeline
from templates_gen.bench.weigh import Weighed
from templates_gen.bow.dims_bulk import Bulks
from templates_gen.bow.dims_mass import pieces


@pytest.fixture(scope="session")
def bow():
    """A bow whose parts are as its dimensions have them: no solid is asked for."""
    p = pipeline.read(str(PARAMS / "violin.toml"))
    parts = p.derive(Bulks).parts
    return Weighed(p, parts, pieces(p, parts))
