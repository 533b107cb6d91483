"""Write a sheet's tables as CSV.

Source: RFC 4180. UTF-8 with a byte-order mark; without it a spreadsheet may misread × and ±.
"""

from __future__ import annotations

import csv
import io

from templates_gen.drawing import Sheet


def write(sheet: Sheet) -> bytes:
    """Write the sheet's tables with an empty line between; no bytes if it has none."""
    out = io.StringIO()
    rows = csv.writer(out)
    for number, table in enumerate(sheet.tables):
        rows.writerows([[], *table] if number else table)
    return out.getvalue().encode("utf-8-sig") if sheet.tables else b""
