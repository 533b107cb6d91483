"""Check that impossible rows in measured tables are reported with their place and stop the command.

Impossible rows (common practice, no source): the stick thickens toward its head, or the camber
bends the other way.
"""

import pytest

from templates_gen.cli import main
from templates_gen.parts.stick.dims import StickDims
from templates_gen.pipeline import rendering

HEAD = 'units = "mm"\nbased_on = "violin"\n\n[pattern]\nname = "Turnstone"\n\n[stick]\n'
CAMBER = [[60, 5.1], [130, 9.7], [220, 14.0], [325, 16.4], [430, 14.7], [540, 9.1], [600, 4.5]]
STATIONS = [[0, 8.6], [110, 8.6], [200, 8.3], [290, 8.02], [500, 7.3], [708, 5.3]]


def changed(table, at, row):
    return [*table[:at], row, *table[at + 1 :]]


def camber(table):
    return f'camber = "stations"\ncamber_points = {table}\n'


def graduation(table):
    return f'graduation = "stations"\nstations = {table}\n'


#: What the file says of its stick, the line that is named, and words that must be among the rest.
FAULTS = {
    "dented": (camber(changed(CAMBER, 3, [325, 12])), 9, "camber_points", "other way near 32"),
    "dented near the head": (
        camber(changed(CAMBER, 5, [540, 4.9])), 9, "camber_points", "other way near 539",
    ),
    "humped": (graduation(changed(STATIONS, 3, [290, 8.5])), 9, "stations", "thickens", "290 mm"),
    "no camber table": ('camber = "stations"\n', 8, "stick.camber", "needs", "camber_points"),
    "no stations": ('graduation = "stations"\n', 8, "stick.graduation", "needs", "stations"),
    "out of order": (
        graduation([STATIONS[1], STATIONS[0], *STATIONS[2:]]), 9, "row 2", "does not lie beyond",
    ),
    "camber out of order": (
        camber([*CAMBER[:4], CAMBER[5], CAMBER[4], CAMBER[6]]), 9, "row 6", "does not lie beyond",
    ),
    "two at one place": (
        graduation(changed(STATIONS, 2, [110, 8.5])), 9, "rows 2 and 3", "both at x = 110",
    ),
    "one row": (graduation([[0, 8.6]]), 9, "1 row", "at least 3"),
    "four of a camber": (camber(CAMBER[:4]), 9, "4 rows", "at least 5"),
    "no numbers": (graduation(changed(STATIONS, 1, [110, "thin"])), 9, "row 2", "thin"),
    "inches": (graduation([[x / 25.4, d / 25.4] for x, d in STATIONS]), 9, "outside the possible"),
}  # fmt: skip


def file_with(folder, text):
    file = folder / "turnstone.toml"
    file.write_text(HEAD + text, "utf-8")
    return str(file)


@pytest.mark.parametrize("verb", ["check", "list"])
@pytest.mark.parametrize("name", FAULTS)
def test_reports_impossible_rows_with_their_place(tmp_path, capsys, name, verb):
    text, line, *words = FAULTS[name]
    file = file_with(tmp_path, text)
    assert main([verb, file]) == 2
    out, err = capsys.readouterr()
    assert out == ""
    assert f"turnstone.toml:{line}:" in err
    assert "Traceback" not in err
    for word in words:
        assert word in err


def test_valid_tables_are_read_and_followed(tmp_path):
    p = rendering.read(file_with(tmp_path, camber(CAMBER) + graduation(STATIONS)))
    d = p.derive(StickDims)
    assert [float(d.diameter(x)) for x, _ in STATIONS] == pytest.approx([y for _, y in STATIONS])
    assert [d.camber.at(x)[0] for x, _ in CAMBER] == pytest.approx([y for _, y in CAMBER], abs=0.05)


@pytest.mark.parametrize("name", ["form-bending", "form-camber-card", "stick-graduation-finished"])
def test_a_measured_stick_is_drawn(tmp_path, capsys, name):
    file = file_with(tmp_path, camber(CAMBER) + graduation(STATIONS))
    call = ["draw", file, "--plane", "--format", "dxf", "--only", name, "-o", str(tmp_path / "out")]
    assert main(call) == 0, capsys.readouterr().err
    assert len(list((tmp_path / "out").glob("*.dxf"))) == 1
