"""Load templates from a folder of the maker's own, without a change of this package."""

from __future__ import annotations

import os
import traceback
from collections.abc import Sequence
from dataclasses import replace
from importlib.util import module_from_spec, spec_from_file_location
from pathlib import Path
from typing import Any

from templates_gen import registry
from templates_gen.bow import catalogue
from templates_gen.drawing import Template, View
from templates_gen.errors import Fault, InputError, in_one_line, raise_faults
from templates_gen.parameters import Pattern


def load(folder: str | os.PathLike[str]) -> list[Template]:
    """Run the Python files of a folder and list the templates they declare.

    Args:
        folder: the folder; each ``*.py`` in it declares templates with ``@template``.

    Raises:
        InputError: no such folder, a file that cannot be run, no template, or a name that is
            taken.
    """
    root, faults = Path(folder), []
    taken = {t.name: "templates-gen itself" for t in catalogue.templates()}
    found: list[Template] = []
    for file in sorted(root.glob("*.py")):
        try:
            declared = registry.declared(_module(file), Template)
        except Exception as e:
            faults.append(_fault(file, "", "cannot be run", e))
            continue
        for t in declared:
            if t.name in taken:
                problem = f"there is a template of that name in {taken[t.name]}"
                faults.append(Fault(str(file), None, t.name, problem, "give it another name"))
            taken[t.name] = str(file)
            found.append(replace(t, views=_guarded(t, file)))
    if not (found or faults):
        problem = "declares no template" if root.is_dir() else "there is no such folder"
        cure = "name a folder with a Python file that declares one with @template"
        faults.append(Fault(str(folder), None, "", problem, cure))
    raise_faults(faults)
    return found


def _module(file: Path) -> Any:
    """Run a Python file as a module."""
    spec = spec_from_file_location(f"own_templates_{file.stem}", file)
    assert spec is not None and spec.loader is not None, "a .py file has a loader"
    module = module_from_spec(spec)
    spec.loader.exec_module(module)
    return module


def _guarded(t: Template, file: Path) -> Any:
    """Make the drawing function of a template name its file and line where it fails."""

    def views(p: Pattern) -> Sequence[View]:
        try:
            return t.views(p)
        except Exception as e:
            raise InputError([_fault(file, t.name, "cannot be drawn", e)]) from e

    return views


def _fault(file: Path, key: str, what: str, e: Exception) -> Fault:
    """Report an exception with the line of the file it came from."""
    lines = [
        f.lineno
        for f in traceback.extract_tb(e.__traceback__)
        if f.filename == str(file.absolute())
    ]
    line = e.lineno if isinstance(e, SyntaxError) else next(reversed(lines), None)
    problem = f"{what}: {type(e).__name__}: {in_one_line(e)}"
    return Fault(str(file), line, key, problem, "correct that line")
