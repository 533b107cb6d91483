"""The reference contains everything that is declared."""

import re

import _characters
import _command
import _lettered
import _pictures
import make
import pytest

from templates_gen import cli, registry
from templates_gen.bench.routing.checks import checks
from templates_gen.bow import catalogue
from templates_gen.command.explain import usual
from templates_gen.drawing.sheet import Layer
from templates_gen.drawing.view import Leader, Text
from templates_gen.parameters.families import FAMILIES, bands
from templates_gen.parameters.words import format_value as in_words
from templates_gen.shop.read import SCHEMA as SHOP
from templates_gen.shop.read import example, starts

ROOT = make.ROOT


def reference(name):
    return (ROOT / "docs" / "reference" / f"{name}.md").read_text("utf-8")


def rows(name):
    """Map the first cell of each row of a page's tables to its rows."""
    found = {}
    for line in reference(name).splitlines():
        if line.startswith("| `"):
            cells = [c.strip() for c in re.split(r"(?<!\\)\|", line)[1:-1]]
            found.setdefault(cells[0].strip("`"), []).append(cells)
    return found


def test_reference_lists_every_parameter_twice():
    """Once as declared, once with its usual values."""
    listed = rows("parameters")
    assert {*listed} == {*registry.SCHEMA.parameters, *SHOP.parameters}
    for key, p in registry.SCHEMA.parameters.items():
        declared, usual = listed[key]
        assert declared[1:3] == [p.letter, p.meaning]
        for family, cell in zip(FAMILIES, usual[1:6], strict=True):
            assert in_words(bands(family)[key].usual) in cell
        assert usual[6], "a basis in words"


def test_reference_lists_every_shop_parameter():
    listed = rows("parameters")
    for key, p in SHOP.parameters.items():
        ((_, meaning, _, starter),) = listed[key]
        assert meaning == p.meaning
        assert in_words(starts()[key]) in starter


def test_reference_lists_every_check():
    listed = rows("checks")
    routed = [c.result.rule.id for c in checks(usual("violin"), example())]
    assert [*listed] == [*(r.id for r in catalogue.rules()), *routed]
    for r in catalogue.rules():
        ((_, description, severity, limit, basis, depends_on),) = listed[r.id]
        assert re.match(r"at (least|most) -?\d", limit), r.id
        assert description.lower().startswith(r.description.lower())
        assert (severity, basis) == (r.severity.value, r.basis)
        assert depends_on


def test_reference_lists_every_template_with_a_picture():
    page = reference("templates")
    for t in catalogue.templates():
        assert f"`{t.name}`" in page
        assert t.purpose in page
        assert f"({'../pictures/' + t.name + '.svg'})" in page
        assert (ROOT / "docs" / "pictures" / f"{t.name}.svg").is_file()


def test_reference_lists_every_layer():
    assert [*rows("layers")] == [layer.value for layer in Layer]


def test_reference_lists_every_verb_and_argument(capsys):
    """Compared with what the command prints for --help."""
    page = reference("command")
    for name, _, description in _command._verbs(cli.parser()):
        section = page.partition(f"\n## {name}\n")[2].partition("\n## ")[0]
        assert description[1:] in section
        with pytest.raises(SystemExit):
            cli.main([name, "--help"])
        options = {*re.findall(r"(?<![\w-])--?[a-z]+(?:-[a-z]+)*", capsys.readouterr().out)}
        assert not re.search(r"\wone of `", section), "a word runs into the choices"
        assert {o for o in options - {"-h", "--help"} if f"`{o}`" not in section} == set()


def test_letters_on_the_drawings_are_declared():
    letters = {p.letter for p in registry.SCHEMA.parameters.values()} - {""}
    names = {p.name for p in registry.SCHEMA.parameters.values()}
    drawn = set()
    for _, views in _lettered.drawings(_pictures.patterns(ROOT)[0]).values():
        for item in (d for v in views for d in v.dimensions):
            words = re.findall(r"\b[A-Za-z]+_[a-z0-9_]+\b", getattr(item, "text", ""))
            assert {*words} <= letters | names
            assert (
                words or isinstance(item, Leader | Text) or item.text in {"land", *letters, *names}
            )
            drawn |= {*words}
    assert len(drawn & letters) > 20


def test_every_lettered_drawing_is_on_a_page():
    pages = "".join((ROOT / page).read_text("utf-8") for page in make.pages())
    for picture in (ROOT / "docs" / "pictures").glob("letters-*.svg"):
        assert f"pictures/{picture.name}" in pages


def test_every_part_has_its_generated_tables_on_a_page():
    """Parameters, checks and templates of each part have a generated table on some page."""
    pages = "".join((ROOT / page).read_text("utf-8") for page in make.pages())
    there = {*re.findall(r"<!-- made: (\w+) ([\w-]+) -->", pages)}
    wanted = {("parameters", name) for name in registry.SCHEMA.sections}
    wanted |= {("checks", r.part) for r in catalogue.rules()}
    wanted |= {("templates", t.part) for t in catalogue.templates()}
    assert wanted - there == set()


def test_numbers_of_the_three_heads_agree_with_the_picture():
    page = (ROOT / "docs" / "how-to" / "a-head-of-your-own.md").read_text("utf-8")
    for name, numbers in _characters.CHARACTERS.items():
        (row,) = re.findall(rf"^\| {name.capitalize()}:.*$", page, re.MULTILINE)
        assert [float(c) for c in row.split("|")[2:5]] == [*numbers]
