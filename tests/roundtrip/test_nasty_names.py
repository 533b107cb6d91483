"""A pattern may have any name; the files stay valid and show the name as stated."""

import re
from dataclasses import replace
from functools import cache

import pytest
from readers import corpus, dxf_others, dxf_raw
from readers.verify import verify_dxf_ezdxf, verify_dxf_raw, verify_pdf, verify_svg

from templates_gen.drawing.compose import compose
from templates_gen.drawing.lint import lint
from templates_gen.drawing.view import View, cut
from templates_gen.geometry import circle
from templates_gen.writers import writer
from templates_gen.writers.files import safe_stem

NAMES = {
    "quotes": 'Tern\'s "third" `bow`',
    "markup": "<g id='OUTLINE'>&amp;]]><!-- Knot --></g>",
    "path": "../../etc/Godwit\\..\\C:",
    "percent": "100%%d %%u Redshank %%%",
    "caret": "Ruff ^J ^ I",
    "DXF's own escapes": "Snipe \\U+0041 \\M+1A2B3 {\\fArial;} \\P",
    "very long": "Oystercatcher " * 40,
    "no space to break at": "W" * 500,
    "right to left": "حارس الشاطئ \u202e txet",
    "emoji": "Plover 🐦‍⬛ 𝛑 e\u0301\u0302\u0303",
    "line break": "Dunlin\r\n  0\r\nENDSEC\n",
    "control": "Turn\x00stone\x1b[31m\x7f\x85",
    "separators": "Stint\u2028\u2029\ufeff\u00a0",
    "half a character": "Avocet \ud83d",
    "parentheses": "Curlew (old) \\) Tj ET",
    "template": "$name {0} %s #{x}",
    "nothing": " ",
}


@cache
def sheet_called(name: str):
    info = replace(corpus.CARD_INFO, pattern=name)
    return compose([View("a disc", (cut(circle((0, 0), 20)),))], info)


@cache
def dxf_called(name: str) -> bytes:
    return writer("dxf")(sheet_called(name))


named = pytest.mark.parametrize("name", NAMES.values(), ids=NAMES)


@named
def test_sheet_passes_the_lint(name):
    assert lint(sheet_called(name)) == []


@named
def test_svg(name):
    sheet = sheet_called(name)
    assert verify_svg(writer("svg")(sheet), sheet) == []


@named
def test_pdf(name):
    sheet = sheet_called(name)
    assert verify_pdf(writer("pdf")(sheet), sheet) == []


@named
def test_dxf(name):
    sheet = sheet_called(name)
    data = dxf_called(name)
    assert verify_dxf_ezdxf(data, sheet) == []
    # Control codes of DXF are broken up, so the words may differ; nothing else may.
    assert {t.what for t in verify_dxf_raw(data, sheet)} <= {"words"}


@named
def test_dxf_shows_the_name(name):
    """The text as ezdxf shows it, with control codes applied, is the sheet's but for spaces."""
    sheet = sheet_called(name)
    doc = dxf_others.document(dxf_called(name))
    shown = [re.sub(r"\s", "", t.plain_text()) for t in doc.modelspace().query("TEXT")]
    meant = [re.sub(r"\s", "", n.text).replace("^", "ˆ") for n in sheet.labels]
    assert sorted(shown) == sorted(meant)


@named
def test_dxf_text_starts_no_control_code(name):
    """%% and ^ begin codes in TEXT. Source: the DXF reference, TEXT and control codes; \\U+ too."""
    drawing = dxf_raw.read(dxf_called(name))
    for text in drawing.texts:
        assert not re.search(r"%%|\^|\\[UM]\+", text.first(1))


@named
def test_file_name(name):
    stem = safe_stem(name)
    assert re.fullmatch(r"[a-z0-9]+(-[a-z0-9]+)*", stem)
    assert len(stem) <= 70
