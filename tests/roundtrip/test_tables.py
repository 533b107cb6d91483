"""Tables as CSV, read back by Python's own reader. Source: RFC 4180 (lines end in CR LF)."""

import csv
import io

from outside.maker import stated

from templates_gen import pipeline
from templates_gen.drawing.compose import SheetInfo, compose
from templates_gen.drawing.table import table
from templates_gen.writers.csv import write

INFO = SheetInfo("t", "T", "P", "", "", "", "", "", "")


def read(data):
    return list(csv.reader(io.StringIO(data.decode("utf-8"), newline="")))


def test_only_sheets_that_hold_a_table_are_written():
    p = stated("violin")
    names = ("form-ordinates", "bow-stock-list", "ferrule-plate")
    files = pipeline.render(p, (), formats=("csv", "svg"), only=names, plane=True)
    assert sorted(f for f in files if f.endswith(".csv")) == [
        "sanderling--bow-stock-list.csv",
        "sanderling--form-ordinates.csv",
    ]
    rows = read(files["sanderling--form-ordinates.csv"])
    assert rows[0] == ["x", "form", "stick", "camber"] and {len(r) for r in rows} == {4}
    # The straight edge touches at both ends: no camber there.
    assert float(rows[1][3]) == float(rows[-1][3]) == 0.0
    assert "sanderling--form-ordinates.csv" in files["index.html"].decode()


def test_commas_quotes_and_signs_come_back_as_they_were():
    words = [["a, b", 'say "so"'], ["×, Ø", ""]]
    data = write(compose([table("t", words), table("u", [["1", "2"]])], INFO))
    assert data.endswith(b"1,2\r\n") and b"\r\n\r\n" in data
    assert read(data) == [*words, [], ["1", "2"]]
