"""Check the package's imports and calls from the text of its sources, without running them.

The rules are those of DEVELOPERS.md: imports run one way.
"""

from __future__ import annotations

import ast
from collections.abc import Iterator
from dataclasses import dataclass
from functools import cache
from pathlib import Path

PACKAGE = "templates_gen"

#: Packages by floor, the lowest first. Packages on the same floor do not import one another.
FLOORS = (
    ("errors", "tolerances", "version"),
    ("geometry",),
    ("mechanics",),
    ("shapes",),
    ("parameters",),
    ("shop",),
    ("checks", "drawing"),
    ("writers", "kernel"),
    ("parts",),
    ("registry",),
    ("bow",),
    ("pipeline",),
    ("bench",),
    ("command",),
    ("cli",),
    ("__init__", "__main__"),
)
#: The files of a part, in the same order. A long file may be split: ``sheets_jig.py``.
STOREYS = (("params",), ("dims",), ("outline",), ("solid", "rules", "sheets", "assembly"))

#: Libraries that are slow to load or hard to replace, and the only modules that may import them.
KEPT_TO = {
    "cadquery": ("kernel",),
    "OCP": ("kernel",),
    "ezdxf": ("writers.dxf",),
    "reportlab": ("writers.pdf",),
    "svgwrite": ("writers.svg",),
    "tomlkit": ("parameters.rewrite",),
    "shapely": (),
    "argparse": ("cli", "command"),
    "shtab": ("cli",),
}
PRINTERS = ("cli", "command")
#: Modules that find others by name, as a registry must.
FINDERS = ("registry", "writers", "command", "__init__")


@dataclass(frozen=True)
class Import:
    """One import: the importing module, its line, and the dotted name it imports."""

    module: str
    line: int
    target: str


def sources(root: Path) -> dict[str, Path]:
    """Map the dotted name of every module within the package (``parts.hair.dims``) to its file."""
    found = {}
    for path in sorted(root.rglob("*.py")):
        parts = path.relative_to(root).with_suffix("").parts
        inner = parts[:-1] if parts[-1] == "__init__" and len(parts) > 1 else parts
        found[".".join(inner)] = path
    return found


def imports(module: str, path: Path) -> tuple[Import, ...]:
    """List every import of a module, those in functions and for type checking included."""
    return _imports(module, path.name == "__init__.py", path.read_text("utf-8"))


@cache  # keyed by the text: in a copy with one file changed, only that file is read again
def _imports(module: str, package: bool, text: str) -> tuple[Import, ...]:
    found = []
    for node in ast.walk(ast.parse(text)):
        if isinstance(node, ast.Import):
            found += [Import(module, node.lineno, alias.name) for alias in node.names]
        elif isinstance(node, ast.ImportFrom):
            base = _base(module, package, node)
            found += [Import(module, node.lineno, f"{base}.{a.name}") for a in node.names]
    return tuple(found)


def _base(module: str, package: bool, node: ast.ImportFrom) -> str:
    """Return the dotted module of ``from … import``, made absolute if it is relative."""
    if not node.level:
        return node.module or ""
    inner = [] if module == "__init__" else module.split(".")
    up = node.level - package
    above = [PACKAGE, *inner][: len(inner) + 1 - up]
    return ".".join([*above, *filter(None, [node.module])])


def faults(root: Path, order: tuple[str, ...]) -> list[str]:
    """List everything in a package's sources that breaks the rules.

    Args:
        root: the package's folder.
        order: the parts as the registry lists them.
    """
    known = sources(root)
    found = []
    for module, path in known.items():
        for each in imports(module, path):
            trouble = _own(each, known, order) or _library(each)
            if trouble:
                found.append(f"{module}:{each.line}: imports {each.target}: {trouble}")
        found += [f"{module}:{line}: {what}" for line, what in calls(module, path)]
    return found


def _own(each: Import, known: dict[str, Path], order: tuple[str, ...]) -> str | None:
    name, _, rest = each.target.partition(".")
    if name != PACKAGE:
        return None
    target = _module(rest, known)
    here, there = each.module.split("."), target.split(".")
    low, high = _floor(there[0]), _floor(here[0])
    if low is None or high is None:
        return f"{(there if low is None else here)[0]} has no floor in the house"
    if here[0] == there[0] == "parts":
        return _between_parts(here[1:], there[1:], order)
    if low > high:
        return "a lower floor imports a higher one"
    if low == high and here[0] != there[0]:
        return "it stands on the same floor"
    return None


def _module(dotted: str, known: dict[str, Path]) -> str:
    """Return the module that defines a dotted name: ``errors`` for ``errors.Fault``."""
    parts = dotted.split(".")
    while parts and ".".join(parts) not in known:
        parts.pop()
    return ".".join(parts) or "__init__"


def _floor(name: str) -> int | None:
    return next((i for i, floor in enumerate(FLOORS) if name in floor), None)


def _storey(name: str) -> int | None:
    kind = name.partition("_")[0]
    return next((i for i, storey in enumerate(STOREYS) if kind in storey), None)


def _between_parts(here: list[str], there: list[str], order: tuple[str, ...]) -> str | None:
    if not there or not here or len(there) < 2 or len(here) < 2:
        return "a part is imported by its files"
    low, high = _storey(there[1]), _storey(here[1])
    if low is None or high is None:
        return f"{(there if low is None else here)[1]} is none of a part's files"
    if here[0] == there[0]:
        same_kind = here[1].partition("_")[0] == there[1].partition("_")[0]
        return None if low < high or same_kind else "within a part it does not run that way"
    if here[0] not in order or there[0] not in order:
        return "a part the registry does not list"
    if low == 0 and high > 0:
        return None  # a part's parameters are below everything derived from them
    if there[1].partition("_")[0] != "dims":
        return "of another part only params and dims may be used"
    if order.index(there[0]) > order.index(here[0]):
        return "a later part"
    return None if high >= low else "within a part it does not run that way"


def _library(each: Import) -> str | None:
    places = KEPT_TO.get(each.target.partition(".")[0])
    if places is None or any(_within(each.module, place) for place in places):
        return None
    return f"only {', '.join(places) or 'the tests'} may"


def _within(module: str, place: str) -> bool:
    return module == place or module.startswith(f"{place}.")


def calls(module: str, path: Path) -> tuple[tuple[int, str], ...]:
    """List calls that print outside the command, and imports by name outside the registries."""
    return _calls(module, path.read_text("utf-8"))


@cache
def _calls(module: str, text: str) -> tuple[tuple[int, str], ...]:
    return tuple(_calls_in(module, ast.parse(text)))


def _calls_in(module: str, tree: ast.Module) -> Iterator[tuple[int, str]]:
    printer = any(_within(module, place) for place in PRINTERS)
    for node in ast.walk(tree):
        said = ast.unparse(node) if isinstance(node, ast.Attribute) else ""
        if not printer and said in ("sys.stdout", "sys.stderr", "sys.__stdout__"):
            yield node.lineno, f"{said} belongs to the command"
        if not isinstance(node, ast.Call):
            continue
        name = ast.unparse(node.func).rpartition(".")[2]
        if name == "print" and not printer:
            yield node.lineno, "only the command prints"
        if name in ("import_module", "__import__", "exec", "eval") and module not in FINDERS:
            yield node.lineno, f"{name} hides an import"
