"""Run the Python listings of a page in an empty folder, and write what they print under them.

The ``python`` listings of a page are one script. Each ``text`` listing right under one holds what
it prints.
"""

from __future__ import annotations

import contextlib
import io
import re
import tempfile
from typing import Any

_LISTING = re.compile(r"```python\n(.*?)```(\n\n```text\n.*?```)?", re.DOTALL)


def refreshed(text: str) -> str:
    """Refresh every output of a page; its listings run in order, in one folder."""
    names: dict[str, Any] = {"show_object": lambda shape, name=None, options=None: None}

    def run(match: re.Match[str]) -> str:
        printed = io.StringIO()
        with contextlib.redirect_stdout(printed):
            exec(compile(match[1], "<listing>", "exec"), names)  # the page's own words
        if printed.getvalue() and match[2] is None:
            raise ValueError(f"a listing prints, and no text listing is under it:\n{match[1]}")
        shown = f"\n\n```text\n{printed.getvalue()}```" if match[2] else ""
        return f"```python\n{match[1]}```{shown}"

    with tempfile.TemporaryDirectory() as folder, contextlib.chdir(folder):
        return _LISTING.sub(run, text)
