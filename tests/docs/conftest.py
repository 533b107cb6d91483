"""The docs' own makers, importable, and a way to draw without the solid modeller."""

import sys
from pathlib import Path

import pytest

ROOT = Path(__file__).resolve().parents[2]
sys.path.insert(0, str(ROOT / "docs"))


@pytest.fixture
def plane(monkeypatch):
    """Draw as if every solid were known already: the sheets do not depend on them."""
    from templates_gen.pipeline import rendering

    monkeypatch.setattr(rendering, "witnesses", lambda p, **_: {})


def _hollow(form, sheet):
    """A sheet without a table gives no file of tables."""
    return b"" if form == "csv" and not sheet.tables else b"-"


@pytest.fixture
def empty(monkeypatch):
    """Write next to nothing: for what is told of a drawing, not for what is drawn."""
    from templates_gen import writers

    monkeypatch.setattr(writers, "writer", lambda form: lambda sheet: _hollow(form, sheet))
