"""Bench cards that involve more than one part. Part of ``sheets``."""

from __future__ import annotations

import math

import numpy as np

from templates_gen.bow.dims.hair_line import HairLine
from templates_gen.bow.dims.masses import Masses
from templates_gen.bow.dims.travel import Travel
from templates_gen.bow.sheets_blank import shaft
from templates_gen.drawing import (
    TABLE,
    HorizontalDim,
    Leader,
    Pattern,
    Pen,
    VerticalDim,
    View,
    all_strokes,
    centre_line,
    cut,
    figure,
    line,
    pocket,
    polygon,
    rectangle,
    scribe,
    table,
    template,
)
from templates_gen.parameters import FloatOrArray
from templates_gen.parts.button.dims import ButtonDims
from templates_gen.parts.head.dims import HeadDims
from templates_gen.parts.material.params import Material
from templates_gen.parts.stick.dims import StickDims
from templates_gen.parts.stick.sheets_gauges import places
from templates_gen.shapes.octagon import GAUGE

#: Least width (mm) of a column of the work card that the maker writes in.
_TO_WRITE_IN = 9.5


@template(
    "bow-work-card",
    "Work card",
    "Tick each stage and write the measured value beside it.",
    TABLE,
)
def work_card(p: Pattern) -> list[View]:
    """List the stick's thickness at each stage, with a box beside each for the measured value."""
    d = p.scalars(StickDims)
    # The stations of the graduation gauge, and the butt.
    stations = [0.0, *places(d)]
    cut_at, left_at = np.array(shaft(p, d.face_rear)).T
    sawn = np.interp(stations, cut_at, left_at)
    # A spreadsheet would read the heading "+0.4" as a number.
    headings = [stage.replace("+", "plus ") for stage in d.stages]
    rows = [["from shoulder", *(word for stage in headings for word in (stage, ""))]]
    for x, blank in zip(stations, sawn, strict=True):
        thick = {stage: d.at_stage(stage, x) for stage in d.stages}
        sizes = [f"{size:.2f}" for size in {**thick, "sawn": blank}.values()]
        rows.append([f"{x:.0f}", *(word for size in sizes for word in (size, ""))])
    rows.append(["done", *[""] * (len(rows[0]) - 1)])
    title = "thickness at each stage, a box for the measured value; the handle is final at +0.4"
    # Narrow enough to fit one A4 page with the columns to write in.
    return [table(title, rows, least=_TO_WRITE_IN), table("other dimensions", _jobs(p))]


def _jobs(p: Pattern) -> list[list[str]]:
    t, head, m = p.scalars(Travel), p.scalars(HeadDims), p.scalars(Masses)
    f, s, ferrule = t.frog.params, t.stick.params, t.frog.ferrule.params
    from_ferrule = m.balance - f.front_at_play
    land = t.frog.seat.axis_height - t.frog.seat.land_height(t.frog.seat.eyelet.from_heel)
    jobs = [
        ("ferrule, outside width × height", f"{ferrule.outer_width:g} × {ferrule.height:g}"),
        ("frog, facet to bottom plane", figure(f.clear_height)),
        ("frog, length at the bottom", figure(f.length_bottom)),
        ("eyelet, axis over the land", figure(land)),
        (
            "stick mortise, from shoulder × length × depth",
            f"{s.mortise_from_butt:g} × {s.mortise_length:g} × {s.mortise_depth:g}",
        ),
        ("head, face to top of the stick", figure(head.params.height)),
        ("camber, without hair", figure(s.camber_depth)),
        ("hair slack, ferrule to head", figure(p.scalars(HairLine).length, 1)),
        ("bow, length with its button", figure(t.overall)),
        ("weight, calculated", f"about {m.total:.0f} g"),
        ("balance, from the ferrule", f"about {from_ferrule:.0f}"),
    ]
    return [["what", "this pattern", "measured", "done"], *([*job, "", ""] for job in jobs)]


@template(
    "bow-stock-list",
    "Stock list",
    "Gather the wood, sheet and pearl before you begin.",
    TABLE,
)
def stock(p: Pattern) -> list[View]:
    """List what to buy, with a small allowance."""
    t, head = p.scalars(Travel), p.scalars(HeadDims)
    frog, ferrule = t.frog.params, t.frog.ferrule
    heel, seat, slide = t.frog.heel.params, t.frog.seat, t.frog.slide.params
    turned, pearl = p.scalars(ButtonDims), p[Material].pearl_thickness
    button = turned.params

    def size(*sides: FloatOrArray) -> str:
        return " × ".join(figure(math.ceil(round(v, 6) * 10) / 10, 1) for v in sides)

    rows = [
        ["what", "for", "size"],
        ["bow wood", "stick and head",
         size(t.stick.params.length + 10, head.block_depth + 4, head.params.width + 4)],
        ["ebony", "frog", size(frog.length_bottom + 4, frog.overall_height + 3,
                               ferrule.params.outer_width + 2)],
        ["ebony", "button", size(button.length + 4, button.across_flats * 1.15,
                                 button.across_flats * 1.15)],
        ["ebony", "liner", size(head.liner.length + 4, head.params.width + 2,
                                head.params.liner_thickness)],
        [f"{ferrule.params.arch_thickness:g} sheet", "ferrule, arch",
         size(ferrule.arch_length + 2, ferrule.params.length + 2)],
        [f"{ferrule.params.plate_thickness:g} sheet", "ferrule, plate",
         size(ferrule.params.outer_width + 2, ferrule.params.length + 2)],
    ]  # fmt: skip
    if t.frog.heel.plated:
        rows.append([f"{heel.plate_thickness:g} sheet", "heel plate",
                     size(heel.leg_length + heel.rear_leg + 4 * heel.filing_allowance + 2,
                          frog.width_heel + 2)])  # fmt: skip
    if seat.lined:
        rows.append([f"{seat.params.thickness:g} sheet", "underslide",
                     size(seat.length + 2, seat.flat_width(0.0) + 2)])  # fmt: skip
    if t.frog.has_eye:
        rows.append(
            ["pearl", "eyes, two", f"Ø{frog.eye_diameter + 0.5:g} × {frog.eye_thickness:g}"]
        )
    rows += [
        [f"{head.params.plate_thickness:g} {head.params.plate_kind}", "tip plate",
         size(head.plate.length + 3, head.params.width + 2)],
        ["pearl", "slide, facing", size(slide.length + 1, slide.width_front + 1, pearl)],
        ["ebony", "slide, backing",
         size(slide.length + 1, t.frog.slide.floor(slide.width_front) + 1,
              slide.thickness - pearl)],
        [f"{button.ring_sheet:g} sheet", "button, rings" if turned.three_piece else "button, shell",
         size(math.pi * button.across_flats * 1.1,
              2 * (button.ring_width + 1) if turned.three_piece else button.length + 2)],
        ["leather", "thumb", size(t.leather.length + 4, t.stick.girth(t.leather.from_butt) + 8,
                                  t.leather.thickness)],
        ["hair", "hank", f"{t.hair.count:g} hairs, {t.hair.length + 120:.0f} long"],
    ]  # fmt: skip
    return [table("sizes with a small allowance; wood along the grain first", rows)]


@template(
    "bow-thumb-leather",
    "Thumb leather",
    "Cut the leather, skive its edges, glue it on with the seam down.",
    "grain side up",
)
def leather(p: Pattern) -> list[View]:
    """Draw the thumb leather laid flat, with the lines to which its edges are skived."""
    t = p.scalars(Travel)
    at, long = t.leather.from_butt, t.leather.length
    thick = t.leather.thickness
    ends = [t.stick.girth(x) + math.pi * thick for x in (at, at + long)]
    lap, skive = 3.0, 4.0
    path = polygon([(0.0, 0.0), (long, 0.0), (long, ends[1] + lap), (0.0, ends[0] + lap)])
    strokes = all_strokes(
        cut(path),
        scribe(line((0.0, ends[0]), (long, ends[1]))),
        scribe(line((skive, 0.0), (skive, ends[0] - 0.5))),
        scribe(line((long - skive, 0.0), (long - skive, ends[1] - 0.5))),
    )
    dims = (
        HorizontalDim((0.0, 0.0), (long, 0.0), -1),
        VerticalDim((0.0, 0.0), (0.0, ends[0]), -1, suffix=" once round"),
        VerticalDim((long, 0.0), (long, ends[1] + lap), 1, suffix=" with lap"),
    )
    return [View(f"{thick:g} leather, frog end left; skive to the lines", strokes, dims)]


@template(
    "bow-hair-slot",
    "Hair slot",
    "Gather hair until the slot is just full.",
    "either way up",
)
def hair_slot(p: Pattern) -> list[View]:
    """Draw a card with a slot that the gathered ribbon just fills."""
    t = p.scalars(Travel)
    wide, thick = t.frog.hair.ribbon_width, t.frog.hair.thickness
    card = rectangle(-wide / 2 - 10, -10.0, wide / 2 + 10, 14.0)
    slot = rectangle(-wide / 2, 0.0, wide / 2, thick)
    dims = (
        HorizontalDim((-wide / 2, 0.0), (wide / 2, 0.0), -1),
        Leader((wide / 2, thick / 2), (wide / 2 + 14, 6.0), f"{thick:.2f} high"),
    )
    title = f"{t.hair.count:g} hairs, laid flat, fill the slot"
    return [View(title, all_strokes(cut(card), pocket(slot)), dims)]


@template(
    "bow-sighting-gauge",
    "Sighting gauge, frog to head",
    "Stand both up, sight through the slits: allow at most 0.5° twist and 0.3 mm offset.",
    "hair side down",
)
def sighting(p: Pattern) -> list[View]:
    """Draw two cards, for the handle and for the head, whose slits must line up."""
    t, head = p.scalars(Travel), p.scalars(HeadDims)
    a = t.stick.across_flats(t.eyelet_in_play)
    half, corner, deep = a / 2, GAUGE * a, 10.0
    tall, wide = 60.0, 26.0
    pen = Pen((-wide, 0.0)).line_to(wide, 0.0).line_to(wide, tall).line_to(half, tall)
    pen.line_to(half, tall - deep).line_to(half - corner, tall - deep - corner)
    pen.line_to(-half + corner, tall - deep - corner).line_to(-half, tall - deep)
    handle = pen.line_to(-half, tall).line_to(-wide, tall).close()
    face = head.params.width / 2
    pen = Pen((-wide, 0.0)).line_to(wide, 0.0).line_to(wide, tall - 12.0).line_to(face, tall - 12.0)
    pen.line_to(face, tall - 20.0).line_to(-face, tall - 20.0).line_to(-face, tall - 12.0)
    other = pen.line_to(-wide, tall - 12.0).close()
    views = []
    for title, path, top in (
        ("on the handle, under the position of the frog", handle, tall - deep - corner),
        ("on the head, its face in the notch", other, tall - 20.0),
    ):
        slit = rectangle(-0.25, 8.0, 0.25, top - 6.0)
        strokes = all_strokes(cut(path), pocket(slit), centre_line((0.0, -3.0), (0.0, 7.0)))
        views.append(View(title, strokes, (HorizontalDim((-wide, 0.0), (wide, 0.0), -1),)))
    return views
