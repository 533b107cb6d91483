"""Colours have enough contrast, and nothing depends on colour alone."""

import re
from pathlib import Path

import pytest

import templates_gen

CSS = (Path(templates_gen.__file__).parent / "writers" / "page" / "page.css").read_text("utf-8")
TEXTS = ("ink", "soft", "link", "fail", "close", "pass")


def luminance(colour):
    """Source: WCAG 2.2, definition of relative luminance."""
    parts = [int(colour[i : i + 2], 16) / 255 for i in (1, 3, 5)]
    r, g, b = (v / 12.92 if v <= 0.04045 else ((v + 0.055) / 1.055) ** 2.4 for v in parts)
    return 0.2126 * r + 0.7152 * g + 0.0722 * b


def contrast(a, b):
    """Source: WCAG 2.2, definition of contrast ratio."""
    high, low = sorted((luminance(a), luminance(b)), reverse=True)
    return (high + 0.05) / (low + 0.05)


def schemes():
    """Read the colours by name: light scheme, dark scheme, print."""
    blocks = re.findall(r":root \{(.*?)\}", CSS, re.DOTALL)
    return [dict(re.findall(r"--(\w+): (#[0-9a-f]{6})", block)) for block in blocks]


def test_contrast_formula():
    assert contrast("#000000", "#ffffff") == pytest.approx(21)
    # The grey that just passes on white, and the next lighter that does not (from memory).
    assert contrast("#767676", "#ffffff") > 4.5 > contrast("#777777", "#ffffff")


@pytest.mark.parametrize("scheme", range(3), ids=["light", "dark", "print"])
def test_text_and_edges_have_enough_contrast(scheme):
    """Source: WCAG 2.2, 1.4.3 (text 4.5 to 1) and 1.4.11 (graphics 3 to 1)."""
    colours = schemes()[scheme]
    assert colours.keys() == {*TEXTS, "paper", "edge"}
    for name in TEXTS:
        assert contrast(colours[name], colours["paper"]) >= 4.5, name
    assert contrast(colours["edge"], colours["paper"]) >= 3


def test_rules_use_only_colours_of_the_schemes():
    rules = re.sub(r":root \{.*?\}", "", CSS, flags=re.DOTALL)
    assert not re.search(
        r"#[0-9a-fA-F]{3,8}\b|rgba?\(|hsla?\(|(?<!-)\bcolor: [a-z]+;",
        rules.replace("currentColor", ""),
    )


def test_verdicts_differ_without_colour(failing):
    """Each verdict has a sign and a word in the table and its own hatch in the bar."""
    cells = {}
    for row in failing.tree.all("tr"):
        if row.id.startswith("check-"):
            told = next(row.all("td", "verdict")).text.split()[:2]
            cells.setdefault(row.attributes["class"], set()).add(tuple(told))
    assert cells == {
        "fail": {("✕", "fail")},
        "close": {("!", "close")},
        "pass": {("✓", "pass")},
    }
    fills = re.findall(r"\.bar\.(\w+) \.amount \{ fill: (\S+);", CSS)
    assert dict(fills) == {"fail": "url(#slanted)", "close": "url(#upright)"}


def test_respects_reader_preferences():
    for query in ("prefers-color-scheme: dark", "prefers-reduced-motion", "@media print"):
        assert query in CSS
    assert ":focus-visible" in CSS
    assert not re.search(r"outline: (none|0)(?!; \}\n)", CSS.replace("main:target, h2:target", ""))
