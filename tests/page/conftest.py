"""The two sets of files, made once per session."""

import pytest
from page.sets import FAILING, SOUND, Set


@pytest.fixture(scope="session")
def sets(tmp_path_factory):
    folder = tmp_path_factory.mktemp("sets")
    made = {}
    for name, text in (("sound", SOUND), ("failing", FAILING)):
        file = folder / f"{name}.toml"
        file.write_text(text, "utf-8")
        made[name] = Set(file)
    return made


@pytest.fixture(params=["sound", "failing"])
def each(request, sets):
    return sets[request.param]


@pytest.fixture
def sound(sets):
    return sets["sound"]


@pytest.fixture
def failing(sets):
    return sets["failing"]
