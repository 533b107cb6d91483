"""Every example in the docstrings of the public library runs and prints what it shows."""

import doctest
import inspect

import pytest

import templates_gen as tg

#: Examples that need CadQuery.
KERNEL = {"solid", "assembly", "Outline.to_wire", "weigh"}


def documented():
    """The public names, and the methods a user meets on what they return."""
    named = {name: getattr(tg, name) for name in dir(tg)}
    outline = type(tg.outline(tg.new("violin"), "frog", "side"))
    named |= {f"Outline.{m}": getattr(outline, m) for m in ("to_wire",)}
    named |= {f"Pattern.{m}": getattr(tg.Pattern, m) for m in ("set", "to_toml")}
    return named


@pytest.mark.parametrize(
    "name",
    [pytest.param(n, marks=pytest.mark.kernel if n in KERNEL else ()) for n in documented()],
)
def test_example_runs(name, tmp_path, monkeypatch):
    monkeypatch.chdir(tmp_path)
    flags = doctest.NORMALIZE_WHITESPACE | doctest.ELLIPSIS | doctest.IGNORE_EXCEPTION_DETAIL
    (found,) = doctest.DocTestFinder(recurse=False).find(documented()[name], name, globs={})
    assert found.examples, "an example is missing"
    result = doctest.DocTestRunner(optionflags=flags).run(found)
    assert result.failed == 0


@pytest.mark.parametrize("name", sorted(n for n, f in documented().items() if inspect.isroutine(f)))
def test_docstring_names_arguments_and_returns(name):
    """Args with every argument's name, Returns, and Raises where it raises."""
    function = documented()[name]
    text = inspect.getdoc(function)
    arguments = [a for a in inspect.signature(function).parameters if a != "self"]
    if arguments:
        assert "Args" in text
        assert [a for a in arguments if f"{a}: " not in text.replace(", ", ": ")] == []
    assert "Returns" in text or text.startswith(("Return", "Make"))


def test_an_example_that_prints_something_else_is_caught():
    class Wrong:
        """Example.

        >>> 1 + 1
        3
        """

    (found,) = doctest.DocTestFinder(recurse=False).find(Wrong, "Wrong", globs={})
    assert doctest.DocTestRunner().run(found, out=lambda _: None).failed == 1
