"""Tables as CSV, read back by Python's own reader. Source: RFC 4180 (lines end in CR LF)."""

import codecs
import csv
import io
import math
import re

import pytest
from outside.maker import FAMILIES, stated

from templates_gen.drawing.compose import SheetInfo, compose
from templates_gen.drawing.table import table
from templates_gen.pipeline import rendering
from templates_gen.writers.csv import write

INFO = SheetInfo("t", "T", "P", "", "", "", "", "", "")


def read(data):
    return list(csv.reader(io.StringIO(data.decode("utf-8-sig"), newline="")))


def test_only_sheets_with_a_table_have_a_csv():
    p = stated("violin")
    names = ("form-ordinates", "bow-stock-list", "ferrule-plate")
    files = rendering.render(rendering.check(p), formats=("csv", "svg"), only=names, plane=True)
    assert sorted(f for f in files if f.endswith(".csv")) == [
        "sanderling--bow-stock-list.csv",
        "sanderling--form-ordinates.csv",
    ]
    rows = read(files["sanderling--form-ordinates.csv"])
    assert rows[0] == ["x", "form", "stick", "camber"] and {len(r) for r in rows} == {4}
    # At both ends the camber is zero.
    assert float(rows[1][3]) == float(rows[-1][3]) == 0.0
    assert "sanderling--form-ordinates.csv" in files["index.html"].decode()


@pytest.mark.parametrize("family", FAMILIES)
def test_tables_open_in_a_spreadsheet(family):
    """Signs come with a byte-order mark (Unicode 15.0, 23.8); no heading is a number; no -0."""
    files = rendering.render(rendering.check(stated(family)), formats=("csv",), plane=True)
    tables = {n: data for n, data in files.items() if n.endswith(".csv")}
    assert len(tables) == 3
    for name, data in tables.items():
        assert data.startswith(codecs.BOM_UTF8), name
        rows = read(data)
        starts = [0, *(i + 1 for i, row in enumerate(rows) if not row)]
        for heading in (cell for i in starts for cell in rows[i]):
            assert not _is_number(heading), (name, heading)
        for cell in (cell for row in rows for cell in row):
            assert not re.fullmatch(r"-0*\.?0*", cell), (name, cell)
            assert cell[:1] not in ("=", "@"), (name, cell)


def _is_number(cell):
    try:
        return math.isfinite(float(cell))
    except ValueError:
        return False


def test_table_writes_minus_zero_as_zero():
    """On the sheet and in the file; other negative numbers stay."""
    view = table("t", [["x", "-0"], ["-0.00", "-0.01"]])
    assert view.table == (("x", "0"), ("0.00", "-0.01"))
    assert [w.text for w in view.dimensions] == ["x", "0", "0.00", "-0.01"]


def test_commas_quotes_and_signs_are_read_back():
    words = [["a, b", 'say "so"'], ["×, Ø", ""]]
    data = write(compose([table("t", words), table("u", [["1", "2"]])], INFO))
    assert data.endswith(b"1,2\r\n") and b"\r\n\r\n" in data
    assert read(data) == [*words, [], ["1", "2"]]
