"""Rules and templates are found where they are declared, in the order written."""

import types
from pathlib import Path

import pytest

import templates_gen
from templates_gen import registry
from templates_gen.bow import catalogue
from templates_gen.checks.rule import Rule, at_least, rule
from templates_gen.drawing import Template
from templates_gen.parameters import Pattern

ROOT = Path(templates_gen.__file__).parent


def module(source):
    """A module with the given source."""
    made = types.ModuleType("made")
    exec(source, made.__dict__)
    return made


SOURCE = """
from templates_gen.checks.rule import at_least, rule
from templates_gen.drawing import template
from templates_gen.parameters import Pattern

@template("frog-b", "B", "Cut.", "up")
def b(p): return []

MANY = tuple(template(f"frog-{n}", "N", "Cut.", "up")(lambda p: []) for n in (2, 1))

@rule("frog.z", "it holds", dims=Pattern, basis="a toy")
def z(p): return at_least(1, 0)

@template("heel-a", "A", "Cut.", "up", wanted=lambda p: False)
def a(p): return []

@rule("frog.y", "it holds", dims=Pattern, basis="a toy")
def y(p): return at_least(1, 0)
"""


def test_declarations_are_found_in_the_order_written():
    made = module(SOURCE)
    assert [r.id for r in registry.declared(made, Rule)] == ["frog.z", "frog.y"]
    names = [t.name for t in registry.declared(made, Template)]
    assert names == ["frog-b", "frog-2", "frog-1", "heel-a"]


def test_a_template_belongs_to_the_part_its_name_begins_with():
    made = module(SOURCE)
    assert (made.b.part, made.a.part) == ("frog", "heel")
    assert made.b.wanted(None)
    assert not made.a.wanted(None)


@pytest.mark.parametrize(
    ("kind", "found"),
    [
        ("rules", [r.id for r in catalogue.rules()]),
        ("sheets", [t.name for t in catalogue.templates()]),
    ],
)
def test_every_declaration_in_every_file_is_found_once(kind, found):
    """Counted in the sources: decorators at the start of a line, and one loop over five stages."""
    word = {"rules": "@rule(", "sheets": "@template("}[kind]
    folders = [*(ROOT / "parts").iterdir(), ROOT / "bow"]
    files = [f for folder in folders for f in folder.glob(f"{kind}*.py")]
    lines = [line for f in files for line in f.read_text("utf-8").splitlines()]
    written = sum(line.startswith(word) for line in lines) + 5 * (kind == "sheets")
    assert len(set(found)) == len(found) == written > 50


def test_a_rule_gets_its_dimensions_and_may_not_apply():
    class Ten:
        @classmethod
        def of(cls, p):
            return 10.0

    def measure(d):
        """Less than the solid's."""
        return at_least(d, 4.0)

    made = rule("frog.ten", "it is large", dims=Ten, basis="a toy")(measure)
    p = Pattern.__new__(Pattern)
    p._derived = {}
    assert made.bound(p).margin == 6.0
    assert made.bound.__doc__ == "Less than the solid's."
    never = rule("frog.no", "x", dims=Ten, basis="a toy", applies=lambda d: d > 20)(measure)
    assert never.bound(p).margin == float("inf")


def test_rules_share_an_id_only_with_the_parameter_whose_limit_they_are():
    """``explain`` prints both; another rule of that name would hide the parameter."""
    shared = {r.id for r in catalogue.rules()} & set(registry.SCHEMA.parameters)
    assert shared == {
        "button.ring_sheet",
        "form.beyond",
        "frog.hair_mortise_depth",
        "frog.hair_mortise_length",
        "frog.hair_mortise_width",
    }


def test_a_parts_sheets_draw_with_the_facade_alone():
    """One import gives everything to draw with, so a sheet file starts with few imports."""
    files = [*ROOT.glob("parts/*/sheets*.py"), *ROOT.glob("bow/sheets*.py")]
    assert len(files) > 15
    for file in files:
        text = file.read_text("utf-8")
        assert "from templates_gen.drawing import" in text, file
        assert "from templates_gen.drawing." not in text, file
