"""The command: one module for each verb, and what the verbs share.

A verb's module has ``arguments(verb)``, which declares its arguments, ``run(args)``, which does the
work and returns the exit status, and ``EXAMPLES`` for its help. A new verb is a module and a line
in ``VERBS``.
"""

from __future__ import annotations

from importlib import import_module
from typing import Any

#: Every verb, in the order a maker needs them, with its line in ``templates-gen --help``.
VERBS = {
    "new": "write a commented starter file for a family",
    "check": "judge every clearance: measured, limit, verdict, cure",
    "list": "list the templates drawn from a file, with their sizes",
    "draw": "write the templates and a page that shows them",
    "scale": "write a file for another family, or with a value changed",
    "weigh": "show masses, balance, stiffness, and what each change would do",
    "fit": "write a file for the wood in hand, and list what to plane off",
    "calibrate": "print a test page, or store the printer's error",
    "explain": "explain a parameter or a check, or search for words",
}


def module(verb: str) -> Any:
    """Import the module of a verb; the others stay unloaded."""
    return import_module(f"templates_gen.command.{verb}")
