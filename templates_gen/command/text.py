"""Print on a terminal: colour where the terminal takes it, JSON documents."""

from __future__ import annotations

import json
import os
import re
from collections.abc import Iterator, Sequence
from typing import Any, TextIO

from templates_gen.checks import headline
from templates_gen.parameters import wrapped
from templates_gen.pipeline import judging
from templates_gen.pipeline.judging import Checked
from templates_gen.pipeline.table import styled, table

__all__ = ["coloured", "document", "messages", "summary", "table"]


def document(data: Any) -> str:
    """Write plain data as a JSON document."""
    return json.dumps(data, indent=1)


def coloured(stream: TextIO) -> bool:
    """Report whether a stream takes colour: a terminal, unless the maker has set ``NO_COLOR``.

    Source: no-color.org, for the variable and that an empty one counts as not set.
    """
    wanted = not os.environ.get("NO_COLOR") and os.environ.get("TERM") != "dumb"
    return wanted and stream.isatty()


def messages(text: str, colour: bool) -> str:
    """Lay out messages, one a line, with the place each begins with in bold."""
    lines = "\n".join(wrapped("", line) for line in text.splitlines())
    bold = styled(r"\g<0>", "place", colour)
    return re.sub(r"^[^\s:]+(:\d+)?:", bold, lines, flags=re.MULTILINE)


def summary(checked: Sequence[Checked], colour: bool) -> Iterator[str]:
    """Count the verdicts, and say in a line whether the pattern is ready to cut."""
    yield f"  {judging.verdict(checked)}"
    style = "fail" if judging.stops(checked) else "pass"
    yield styled(f"  {headline(c.result for c in checked)}", style, colour)
