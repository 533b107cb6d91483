"""Measure text. Referee: fontTools reads the packaged font file."""

import json

import pytest
from fontTools.pens.boundsPen import BoundsPen
from fontTools.ttLib import TTFont

from templates_gen.drawing import font
from templates_gen.drawing.text import figure, fit_text, printable, text_width, wrap_text


@pytest.fixture(scope="module")
def ttf():
    return TTFont(font.font_path())


def widths_of(ttf: TTFont) -> dict:
    metrics, cmap = ttf["hmtx"].metrics, ttf.getBestCmap()
    table: dict[int, list[list[int]]] = {}
    for code in sorted(cmap):
        runs = table.setdefault(metrics[cmap[code]][0], [])
        if runs and sum(runs[-1]) == code:
            runs[-1][1] += 1
        else:
            runs.append([code, 1])
    return {
        "unknown": metrics[".notdef"][0],
        "widths": {str(w): table[w] for w in sorted(table)},
    }


def test_width_table_matches_the_font(ttf):
    assert json.loads(font.widths_path().read_text(encoding="utf-8")) == widths_of(ttf)


def test_constants_match_the_font(ttf):
    glyphs = ttf.getGlyphSet()
    pen = BoundsPen(glyphs)
    glyphs["H"].draw(pen)
    assert ttf["head"].unitsPerEm == font.UNITS_PER_EM
    assert pen.bounds[1:4:2] == (0, font.CAP_UNITS)


def test_font_licence_allows_embedding(ttf):
    # fsType 0: may be embedded without restriction (OpenType specification, OS/2 table).
    assert ttf["OS/2"].fsType == 0
    licence = ttf["name"].getDebugName(13)
    assert "Permission is hereby granted, free of charge" in licence
    assert ttf["name"].getDebugName(5) == "Version 2.37"


@pytest.mark.parametrize("text", ["Ferrule, mandrel", "R 12.5 ±0.05 Ø 3 7°", "Ящик Ĺ ﬁ", "", "  "])
def test_width(ttf, text):
    cmap, metrics = ttf.getBestCmap(), ttf["hmtx"].metrics
    units = sum(metrics[cmap[ord(c)]][0] for c in text)
    size = font.font_size(2.5)
    assert text_width(text, 2.5) == pytest.approx(units / 2048 * size, abs=1e-12)


def test_unknown_character_has_the_width_of_its_glyph(ttf):
    assert ord("貓") not in ttf.getBestCmap()
    expected = ttf["hmtx"].metrics[".notdef"][0] / font.CAP_UNITS
    assert text_width("貓", 1.0) == pytest.approx(expected)


def test_printable_replaces_control_characters():
    assert printable("a\nb\tc\x00d\u202ee\ud800f\u00a0g") == "a b c d e f g"


def test_fit_keeps_a_short_text():
    assert fit_text(" Dunlin 3 ", 100, 2.5) == "Dunlin 3"


@pytest.mark.parametrize("width", [3.2, 5, 17.3, 40])
def test_fit_shortens(width):
    text = "Bar-tailed godwit, third, with the long heel " * 5
    short = fit_text(text, width, 2.5)
    assert short.endswith("…")
    assert text_width(short, 2.5) <= width
    # One more letter would not fit.
    kept = len(short) - 1
    assert text_width(text[: kept + 2].rstrip() + "…", 2.5) > width
    assert text.startswith(short[:-1])


def test_fit_accepts_a_very_long_name():
    assert text_width(fit_text("W" * 200_000, 50, 2.5), 2.5) <= 50


def test_wrap_breaks_between_words():
    text = "Bend the strip round the mandrel and solder the joint at the flat side"
    lines = wrap_text(text, 40, 2.5)
    assert " ".join(lines) == text
    assert len(lines) > 1
    assert all(text_width(line, 2.5) <= 40 for line in lines)


def test_wrap_shortens_the_last_line():
    lines = wrap_text("one two three four five six seven eight nine ten", 20, 2.5, max_lines=2)
    assert len(lines) == 2
    assert lines[1].endswith("…")


@pytest.mark.parametrize(
    ("value", "text"),
    [(22.5, "22.5"), (12, "12"), (0.70, "0.7"), (13.456, "13.46"), (-0.001, "0"), (100, "100")],
)
def test_format_number(value, text):
    assert figure(value) == text


if __name__ == "__main__":
    rebuilt = json.dumps(widths_of(TTFont(font.font_path())), separators=(",", ":"))
    font.widths_path().write_text(rebuilt + "\n", encoding="utf-8")
