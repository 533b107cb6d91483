"""Write the templates on the index page: a picture of each, to enlarge, and its files."""

from __future__ import annotations

from collections.abc import Sequence

from templates_gen.drawing import capitalized, figure
from templates_gen.drawing.furniture import scale
from templates_gen.drawing.sheet import UNSCALED
from templates_gen.writers.page.facts import DrawnSheet, NotDrawn, PageFacts
from templates_gen.writers.page.markup import Html, shape, tag
from templates_gen.writers.page.picture import Spot, picture

#: A drawing wider than this (mm) is enlarged beyond the width of the screen.
_LONG = 250.0
#: The use of each format, in the order of the links.
_FORMATS = {"pdf": "to print", "svg": "to view", "dxf": "for CAM", "csv": "for a spreadsheet"}


def sheets(facts: PageFacts) -> Html:
    """Write the section with all sheets, part by part."""
    cards: dict[str, list[Html]] = {}
    for d in facts.drawn:
        cards.setdefault(d.part, []).append(_card(facts, d))
    for u in facts.not_drawn:
        cards.setdefault(u.part, []).append(_missing(u))
    parts = [
        tag("div", tag("h3", part.capitalize()), tag("div", *group, class_="cards"))
        for part, group in cards.items()
    ]
    description = "The pictures are not at true size. Print the PDF. Measure the square, then cut."
    if facts.drawn and not any(d.files for d in facts.drawn):
        description = "The files of these sheets are not written yet. Wait, then print."
    head = tag("h2", "Templates", id="templates")
    lead = (tag("p", description), *_list("All sheets in one file", facts.together))
    solids = _list("Solids as STEP, for a CAD program", facts.solids)
    return tag("section", head, *lead, *parts, *solids, aria_labelledby="templates")


def _card(facts: PageFacts, d: DrawnSheet) -> Html:
    s = d.sheet
    wide, high = s.cut_size
    size = f"{figure(wide, 1)} × {figure(high, 1)} mm"
    up = [f"{capitalized(s.info.up)}; ", tag("span", size, class_="whole")]
    return tag(
        "article",
        tag("h4", s.title, id=f"title-{s.name}"),
        _zoom(facts, d),
        tag("p", s.purpose),
        tag("p", *([scale(s.info.up)] if s.info.up in UNSCALED else up), class_="soft"),
        tag("ul", *(_file(s.title, f) for f in sorted(d.files, key=_order)), class_="files"),
        id=f"sheet-{s.name}",
        aria_labelledby=f"title-{s.name}",
    )


def _missing(u: NotDrawn) -> Html:
    title = f"title-{u.name.replace(' ', '-')}"
    return tag(
        "article",
        tag("h4", u.title, id=title),
        tag("p", tag("strong", "Not drawn"), f": {u.why}."),
        tag("p", "Cure the failed checks, then draw again.", class_="soft"),
        aria_labelledby=title,
    )


def _zoom(facts: PageFacts, d: DrawnSheet) -> Html:
    """Draw a small picture that opens a large one."""
    name, seen = d.sheet.name, picture(d.sheet, spots(facts, d))
    frame = {"viewBox": seen.view_box, "role": "img"}
    content = tag("g", seen.content, id=f"picture-{name}", class_="lines")
    small = tag("svg", content, **frame, aria_label=seen.description, class_="drawing")
    large = tag(
        "svg",
        shape("use", href=f"#picture-{name}"),
        **frame,
        aria_label=f"{seen.description}; large",
        class_="drawing long" if float(seen.view_box.split()[2]) > _LONG else "drawing",
    )
    words = (tag("span", "Enlarge", class_="shut"), tag("span", "Reduce", class_="open"))
    region = tag(
        "div",
        large,
        class_="large",
        tabindex="0",
        role="region",
        aria_label=f"{d.sheet.title}, large",
    )
    hint = tag("span", *words, class_="hint", id=f"hint-{name}")
    return tag("details", tag("summary", small, hint), region, id=f"zoom-{name}")


def spots(facts: PageFacts, d: DrawnSheet) -> list[Spot]:
    """List the failed checks that have a place on this sheet."""
    dx, dy = d.sheet.datum
    return [
        Spot((c.place[1][0] + dx, c.place[1][1] + dy), facts.number(c), c.result.rule.description)
        for c in facts.failed
        if c.place is not None and c.place[0] == d.sheet.name
    ]


def _order(file: str) -> int:
    return [*_FORMATS, _form(file)].index(_form(file))


def _form(file: str) -> str:
    return file.rpartition(".")[2]


def _file(title: str, file: str) -> Html:
    form = _form(file)
    words = f"{form.upper()} {_FORMATS.get(form, '')}".rstrip()
    unseen = tag("span", f": {title}", class_="unseen")
    return tag("li", tag("a", words, unseen, href=file))


def _list(description: str, names: Sequence[str]) -> list[Html]:
    if not names:
        return []
    items = [tag("li", tag("a", name, href=name)) for name in names]
    return [tag("p", description, ":"), tag("ul", *items, class_="files")]
