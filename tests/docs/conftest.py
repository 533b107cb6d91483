"""Make the docs' generators importable, and draw without building solids."""

import sys
from pathlib import Path

import pytest

ROOT = Path(__file__).resolve().parents[2]
sys.path.insert(0, str(ROOT / "docs"))


@pytest.fixture
def plane(monkeypatch):
    """Draw without solids: the sheets do not depend on them."""
    from templates_gen.pipeline import rendering

    monkeypatch.setattr(rendering, "witnesses", lambda p, **_: {})


def _hollow(form, sheet):
    """Return no bytes for the CSV of a sheet without a table."""
    return b"" if form == "csv" and not sheet.tables else b"-"


@pytest.fixture
def empty(monkeypatch):
    """Write nearly empty files, for tests of what the command prints about a draw."""
    from templates_gen import writers

    monkeypatch.setattr(writers, "writer", lambda form: lambda sheet: _hollow(form, sheet))
