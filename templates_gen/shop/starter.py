"""The shop file one starts from; ``params/shop.toml`` is this text.

Only the maker can measure kerf and cutters. They are examples behind a ``#``, so that no template
is drawn for a tool that was not measured.
"""

from __future__ import annotations

import re

STARTER = """\
# What your shop has: paper, printer, laser, router. The numbers of the bow are not here.
#
# Lengths are in mm. A length on a tool marked in inches may say so:
#     outside = { value = 0.75, unit = "in" }
# What you leave out keeps the value it has here. Kerf and cutters are examples behind a #: measure
# yours, write its numbers and take the # away; until then the shop does not have it.
# Use this file with
#     templates-gen draw FILE -o FOLDER --shop shop.toml

units = "mm"

# Paper
[paper]
margin  = 10  # Kept free at the paper's edge, all round
overlap = 15  # How far the pages of a large template lie over one another

# Printer: print the test page of `templates-gen calibrate -o FOLDER`, measure it, and let
#     templates-gen calibrate --measured X Y --shop shop.toml
# write these. 1 is a printer without error.
[printer]
x_factor = 1  # Across a portrait page: nominal length divided by measured
y_factor = 1  # Up a portrait page: nominal length divided by measured

# Laser or knife: used only with --kerf. Cut a test square and measure it.
[laser]
# kerf = 0.2  # Width of the cut

# Router templates
[plate]
thickness    = 6    # Thickness of the template; a collar needs 6 or more
collar_depth = 5    # How far the collar stands below the router's base
rim          = 35   # Width of the template round an opening, for the router to stand on
blank_fit    = 0.1  # How much larger the jig's pocket is than the frog's blank
clamp_screw  = 5    # Hole for a clamp's screw
clamp_foot   = 16   # Across the foot of a clamp

# Each cutter with its guide, "collar" or "bearing", whose outside follows the template's edge.
# For the mortises of frog and head:
[mortise_cutter]
# guide   = "collar"
# outside = 10
# cutter  = 3

# For the stick mortise and the eyelet:
[fine_cutter]
# guide   = "collar"
# outside = 8
# cutter  = 2

# For the slide's channel:
[dovetail_cutter]
# guide     = "collar"
# outside   = 10
# cutter    = 6.35  # largest diameter, at its end
# flank_deg = 15    # from its axis

# For the frog's throat and thumb projection:
[profile_cutter]
# guide   = "bearing"
# outside = 6.35
# cutter  = 6.35
"""

#: The starter with every example put to use: a shop that has stated everything.
EXAMPLE = re.sub(r"^# (\w+ *= )", r"\1", STARTER, flags=re.MULTILINE)
