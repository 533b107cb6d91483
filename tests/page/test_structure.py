"""The index page: self-contained, valid structure, and complete."""

import json
import re
from itertools import pairwise

import pytest
from page.sets import NAME

from templates_gen.cli import main
from templates_gen.errors import KernelError
from templates_gen.pipeline import rendering, selection


def levels(tree):
    return [int(e.name[1]) for e in tree.all() if re.fullmatch("h[1-6]", e.name)]


def test_headings_skip_no_level(each):
    """Source: WCAG 2.2, technique G141."""
    found = levels(each.tree)
    assert found[0] == 1 and found.count(1) == 1
    assert all(b <= a + 1 for a, b in pairwise(found))


def test_landmarks_language_and_title(each):
    (html,) = each.tree.all("html")
    assert html.attributes["lang"] == "en"
    for name in ("header", "main", "footer", "nav", "title", "h1"):
        assert len(list(each.tree.all(name))) == 1, name
    ids = [e.id for e in each.tree.all() if e.id]
    assert len(ids) == len({*ids})
    for e in each.tree.all():
        if "aria-labelledby" in e.attributes:
            assert e.attributes["aria-labelledby"] in ids
        if e.name == "svg" and e.attributes.get("role") == "img":
            assert e.attributes["aria-label"]
        if e.name == "use":
            assert e.attributes["href"].removeprefix("#") in ids


def test_every_link_has_a_target(each):
    ids = {e.id for e in each.tree.all()}
    links = [e.attributes["href"] for e in each.tree.all("a")]
    assert len(links) > 100
    for link in links:
        assert link[1:] in ids if link.startswith("#") else link in each.files, link


def test_every_file_is_linked(each):
    links = {e.attributes["href"] for e in each.tree.all("a")}
    assert each.files.keys() - links == {"index.html"}


def test_page_loads_nothing_from_elsewhere(each):
    assert not re.search(
        rb"https?:|@import|\bsrc=|srcset|<(script|link|img|iframe|base)\b", each.page
    )
    assert {*re.findall(rb"url\(([^)]*)\)", each.page)} == {b"#slanted", b"#upright"}
    assert not [e for e in each.tree.all() for a in e.attributes if a.startswith("on")]


def test_shows_every_template_with_a_picture_to_enlarge(each):
    cards = {e.id.removeprefix("sheet-"): e for e in each.tree.all("article")}
    assert [*cards] == [t.name for t in selection.templates(each.pattern)]
    for t in selection.templates(each.pattern):
        card = cards[t.name]
        assert t.purpose in card.text and t.title in card.text
        (zoom,) = card.all("details")
        (small,) = next(zoom.all("summary")).all("svg")
        assert list(small.all("path")), t.name
        (use,) = zoom.all("use")
        assert use.attributes["href"] == f"#picture-{t.name}"


def test_lists_every_check_failed_ones_first(each):
    rows = [e for e in each.tree.all("tr") if e.id.startswith("check-")]
    assert {e.id.removeprefix("check-") for e in rows} == {c.result.rule.id for c in each.checked}
    assert len(rows) == len(each.checked)
    order = ["fail", "close", "pass"]
    found = [order.index(e.attributes["class"]) for e in rows]
    assert found == sorted(found)
    by_id = {c.result.rule.id: c for c in each.checked}
    for row in rows:
        c = by_id[row.id.removeprefix("check-")]
        assert c.result.verdict in row.text
        assert row.attributes["class"] == c.result.verdict
        if c.cure:
            assert c.cure.description in row.text


def test_lists_every_number(failing):
    p = failing.pattern
    rows = {e.id.removeprefix("number-"): e for e in failing.tree.all("tr") if "number-" in e.id}
    assert [*rows] == [*p.schema.parameters]
    row = rows["ferrule.outer_width"].text
    assert "W_f" in row and "21 mm" in row and 'measured <with> "calliper"' in row
    # The ferrule's 21 mm are within the usual 21 to 24; the mortise's 27 mm are outside 14 to 18.
    assert "than usual" not in row
    assert "more than usual" in rows["frog.hair_mortise_length"].text


def test_escapes_the_text_of_the_pattern(failing):
    (title,) = failing.tree.all("title")
    (h1,) = failing.tree.all("h1")
    assert h1.text == NAME and title.text == f"{NAME}: templates"
    assert not list(failing.tree.all("script"))
    (header,) = failing.tree.all("header")
    assert "Revision </title><script> " in header.text
    assert all("/" not in name and "<" not in name for name in failing.files)


def test_states_the_verdict_in_words(sound, failing):
    def verdict(s):
        return next(e for e in s.tree.all("section") if "verdict" in e.attributes.values()).text

    assert "All checks pass: ready to cut." in verdict(sound)
    assert "do not cut" in verdict(failing)
    for c in failing.checked:
        failed = c.result.verdict == "fail"
        assert (f"{c.result.rule.id}: " in verdict(failing)) == failed
    assert "SOLIDS NOT CONFIRMED" in verdict(sound)


def test_counts_of_failed_checks_agree(failing):
    """Verdict, stamps and the command's summary agree; warnings are counted separately."""
    stopping = [c for c in failing.checked if c.result.stops]
    warned = [c for c in failing.checked if c.result.verdict == "fail" and not c.result.stops]
    assert len(stopping) > 1 and len(warned) >= 1
    sections = failing.tree.all("section")
    verdict = next(e for e in sections if "verdict" in e.attributes.values()).text
    line = rendering.verdict(failing.checked)
    warnings = "1 warning" if len(warned) == 1 else f"{len(warned)} warnings"
    assert line.endswith(f", {len(stopping)} fail, {warnings}")
    assert line in verdict and f"{len(stopping)} checks fail: do not cut" in verdict
    assert f"FORCED: {len(stopping)} checks fail; do not cut" in verdict
    listed = next(e for e in failing.tree.all("ol") if e.attributes.get("class") == "failed")
    assert len(list(listed.all("li"))) == len(stopping) + len(warned)
    for name in (n for n in failing.files if n.endswith(".svg")):
        sheet = failing.files[name].decode()
        assert f"FORCED: {len(stopping)} checks fail" in sheet and line in sheet, name


def test_solids_are_not_checked_while_a_check_fails(failing, monkeypatch):
    def solids(*_):
        raise AssertionError("called for a pattern with failed checks")

    monkeypatch.setattr(rendering, "confirmed", solids)
    monkeypatch.setattr(rendering, "witnesses", lambda p, **_: {})
    files = rendering.render(failing.checked, formats=())
    told = json.loads(files["manifest.json"])["checks"]
    assert [c["id"] for c in told] == [c.result.rule.id for c in failing.checked]
    assert b"SOLIDS NOT CONFIRMED" not in files["index.html"]


def test_solids_that_contradict_passed_checks_raise(sound, failing, monkeypatch):
    monkeypatch.setattr(rendering, "confirmed", lambda p, seen: failing.checked)
    monkeypatch.setattr(rendering, "witnesses", lambda p, **_: {})
    with pytest.raises(KernelError, match="contradict the checks"):
        rendering.render(sound.checked, formats=())


def test_warns_of_files_from_an_earlier_draw(each):
    (footer,) = each.tree.all("footer")
    assert "is from an earlier draw: do not print it" in footer.text


def test_a_failed_warning_allows_cutting(failing):
    (row,) = (e for e in failing.tree.all("tr") if e.id == "check-bow.leather")
    assert "a warning: you may cut" in row.text


def test_manifest_lists_the_page(each):
    assert "index.html" in json.loads(each.files["manifest.json"])["files"]


def test_page_and_list_state_the_same_size(sound, capsys):
    """The size of a template is the greatest width and height of its cuts."""
    assert main(["list", "--json", str(sound.file)]) == 0
    rows = json.loads(capsys.readouterr().out)["templates"]
    listed = {r["name"]: (r["width_mm"], r["height_mm"]) for r in rows}
    cards = {e.id.removeprefix("sheet-"): e for e in sound.tree.all("article")}
    shown = 0
    for name, card in cards.items():
        for span in (e for e in card.all("span") if e.attributes.get("class") == "whole"):
            told = [float(v) for v in span.text.removesuffix(" mm").split(" × ")]
            assert told == pytest.approx(listed[name], abs=0.051), name
            shown += 1
    assert shown > 50
