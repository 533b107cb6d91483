"""A sheet's tables as comma-separated values.

Source: RFC 4180. UTF-8 with a byte-order mark: without it a spreadsheet may read × as two signs.
"""

from __future__ import annotations

import csv
import io

from templates_gen.drawing.sheet import Sheet


def write(sheet: Sheet) -> bytes:
    """The sheet's tables one after the other, an empty line between; nothing where it has none."""
    out = io.StringIO()
    rows = csv.writer(out)
    for number, table in enumerate(sheet.tables):
        if number:
            rows.writerow([])
        rows.writerows(table)
    return out.getvalue().encode("utf-8-sig") if sheet.tables else b""
