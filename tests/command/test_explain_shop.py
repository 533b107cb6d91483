"""Test ``explain`` for the shop's parameters and the checks of routing templates."""

import pytest
from command.calls import call

from templates_gen.bench.routing.checks import checks
from templates_gen.command.explain import usual as bow
from templates_gen.shop.read import SCHEMA, example, starts


@pytest.mark.parametrize("key", SCHEMA.parameters)
def test_explains_every_shop_number_with_its_starter_value(capsys, key):
    said = call(capsys, "explain", key)
    assert said.status == 0
    assert SCHEMA.parameters[key].meaning[:40] in said.out
    value = starts()[key]
    assert (f'"{value}"' if isinstance(value, str) else f"{value:g}") in said.out


def test_explains_checks_of_the_routing_templates(capsys):
    made = checks(bow("cello"), example())
    assert len(made) > 20
    for c in made[::4]:
        said = call(capsys, "explain", c.result.rule.id)
        assert said.status == 0
        assert f"cello {c.result.measured:15.3f}" in said.out, said.out


@pytest.mark.parametrize(
    ("key", "near"),
    [
        ("route.hair_mortise_pases", "route.hair_mortise_passes"),
        ("frog.eye_to_mortis", "frog.eye_to_mortise"),
        ("laser.kerff", "laser.kerf"),
    ],
)
def test_the_nearest_of_all_names_is_offered(capsys, key, near):
    said = call(capsys, "explain", key)
    assert said.status == 2
    assert near in said.err
