"""Marks of failed checks are at their places; bars are as long as the margins."""

import re
from itertools import pairwise

import pytest

from templates_gen import registry
from templates_gen.parts.ferrule.dims import FerruleDims
from templates_gen.pipeline import rendering, selection


def card(s, name):
    return next(e for e in s.tree.all("article") if e.id == f"sheet-{name}")


def picture(s, name):
    return next(next(card(s, name).all("summary")).all("svg"))


def view_box(svg):
    return tuple(float(v) for v in svg.attributes["viewbox"].split())


def marks(svg):
    """Centre and ring of every mark, and its numbers."""
    for g in svg.all("g", "mark"):
        (circle,) = g.all("circle")
        (words,) = g.all("text")
        yield tuple(float(circle.attributes[k]) for k in ("cx", "cy", "r")), words


def placed(s):
    """The failed checks that name a place, with the template it is on."""
    for c in s.checked:
        place = c.result.rule.place and c.result.rule.place(s.pattern)
        if c.result.verdict == "fail" and place:
            yield c.result.rule.id, place[0]


def test_every_failed_place_is_marked_inside_its_picture(failing):
    found = dict(placed(failing))
    assert {"ferrule.ribbon_fits", "frog.mortise_to_throat"} <= found.keys()
    for name in {*found.values()}:
        svg = picture(failing, name)
        left, top, width, height = view_box(svg)
        drawn = list(marks(svg))
        assert drawn
        for (x, y, r), words in drawn:
            assert left + r < x < left + width - r and top + r < y < top + height - r
            size = float(words.attributes["font-size"])
            assert top < float(words.attributes["y"]) - size * 0.7
            assert float(words.attributes["x"]) + size * len(words.text) < left + width
        numbers = ", ".join(words.text for _, words in drawn).split(", ")
        assert len(numbers) == sum(t == name for t in found.values())
        for check in (k for k, t in found.items() if t == name):
            row = next(e for e in failing.tree.all("tr") if e.id == f"check-{check}")
            (told,) = re.findall(r"Marked (\d+) on", row.text)
            assert told in numbers and f"fail ({told})" in row.text


def test_no_marks_without_failed_checks(sound):
    assert not list(sound.tree.all("g", "mark"))


def test_mark_is_on_the_line_that_fails(failing):
    """The ribbon fails at the foot of the arch, which is a corner of the mandrel's outline.

    The corner is read from the sheet's SVG file, which the page does not write.
    """
    ((x, y, _), _), *_ = marks(picture(failing, "ferrule-mandrel"))
    (name,) = (n for n in failing.files if n.endswith("ferrule-mandrel.svg"))
    outline = failing.files[name].decode().partition('id="OUTLINE"')[2].partition("</g>")[0]
    corners = [(float(a), float(b)) for a, b in re.findall(r"[ML](-?[\d.]+),(-?[\d.]+)", outline)]
    assert min(abs(a - x) + abs(b - y) for a, b in corners) < 1e-3
    assert max(a for a, _ in corners) == pytest.approx(x, abs=1e-3)
    half = float(failing.pattern.derive(FerruleDims).inside_width) / 2
    middle = sum(a for a, _ in corners[:2]) / 2
    assert x - middle == pytest.approx(half, abs=1e-3)


def test_places_of_rules_are_on_their_drawings():
    """The place of a rule is inside the bounding box of the view it names."""
    named = [r for r in registry.rules() if r.place]
    assert len(named) >= 25
    p = rendering.read("params/bass-french.toml")
    templates = {t.name: t for t in registry.templates()}
    for rule in named:
        name, (x, y) = rule.place(p)
        left, bottom, right, top = templates[name].views(p)[0].box
        assert left - 0.5 <= x <= right + 0.5 and bottom - 0.5 <= y <= top + 0.5, rule.id


def test_picture_shows_the_lines_of_the_sheet(sound):
    """The picture has every cut of the sheet's file, but not its furniture."""
    for t in selection.templates(sound.pattern)[:8]:
        (name,) = (n for n in sound.files if n.endswith(f"--{t.name}.svg"))
        file = sound.files[name].decode()
        outline = file.partition('id="OUTLINE"')[2].partition("</g>")[0]
        seen = {e.attributes["d"] for e in picture(sound, t.name).all("path")}
        cut = set(re.findall(r'<path d="([^"]+)"', outline))
        assert cut <= seen
        paper = [float(v) for v in re.search(r'viewBox="0 0 (\S+) (\S+)"', file).groups()]
        left, top, width, height = view_box(picture(sound, t.name))
        assert left > 0 and top > 0 and left + width < paper[0] and top + height < paper[1]
        assert "Measure this square" in file
        assert "Measure this square" not in card(sound, t.name).text


def bars(s):
    for c in s.checked:
        row = next(e for e in s.tree.all("tr") if e.id == f"check-{c.result.rule.id}")
        (bar,) = row.all("svg", "bar")
        (amount,) = bar.all("rect", "amount")
        yield c.result, {k: float(amount.attributes[k]) for k in ("x", "width")}, bar


def test_bar_length_and_side_show_the_margin(each):
    """One unit is one per cent of the limit; longer bars are cut off with an arrow."""
    for r, amount, bar in bars(each):
        axis = float(re.match(r"M([\d.]+) ", next(bar.all("path", "axis")).attributes["d"])[1])
        low, high = amount["x"], amount["x"] + amount["width"]
        share = 100 * r.margin / max(1.0, abs(r.limit))
        if r.verdict == "fail":
            assert high == pytest.approx(axis, abs=0.6) and low < axis
        else:
            assert low == pytest.approx(axis, abs=0.02)
        cut = list(bar.all("path", "beyond"))
        if not cut and abs(share) > 0.5:
            assert amount["width"] == pytest.approx(abs(share), abs=0.02)
        assert bool(cut) == (share >= 50 or share <= -38)


def test_larger_margins_have_longer_bars(sound):
    shares = sorted(
        (r.margin / max(1.0, abs(r.limit)), a["width"]) for r, a, _ in bars(sound) if r.margin > 0
    )
    assert all(b >= a for (_, a), (_, b) in pairwise(shares))
