"""Hold the text of the starter shop file, ``params/shop.toml``.

Kerf and cutters must be measured. They are examples behind a ``#``, so that no template is drawn
for a tool that was not measured.
"""

from __future__ import annotations

import re

STARTER = """\
# Your workshop: paper, printer, laser, router. The numbers of the bow are in its own file.
#
# Lengths are in mm. Write a length in inches as
#     outside = { value = 0.75, unit = "in" }
# A line you leave out keeps the value it has here. Kerf and cutters are examples behind a #.
# Measure your own, write the numbers and remove the #; until then the tool counts as missing.
# Use this file with
#     templates-gen draw FILE -o FOLDER --shop shop.toml

units = "mm"

# Paper
[paper]
margin  = 10  # Empty edge of the paper, all round
overlap = 15  # Overlap of the pages of a large template

# Printer: print the test page of `templates-gen calibrate -o FOLDER` and measure it. Then
#     templates-gen calibrate --measured X Y --shop shop.toml
# writes these two numbers. 1 is a printer without error.
[printer]
x_factor = 1  # Across a portrait page: nominal length divided by measured
y_factor = 1  # Up a portrait page: nominal length divided by measured

# Laser or knife: used only with --kerf. Cut a test square and measure it.
[laser]
# kerf = 0.2  # Width of the cut

# Router templates
[plate]
thickness    = 6    # Thickness of the template; a collar needs 6 or more
collar_depth = 5    # Height of the collar below the router's base
rim          = 35   # Width of the template round an opening, to support the router
blank_fit    = 0.1  # Clearance of the frog's blank in the jig's pocket
clamp_screw  = 5    # Diameter of a clamp screw's hole
clamp_foot   = 16   # Width of a clamp's foot

# Each cutter with its guide, "collar" or "bearing"; the outside of the guide follows the template.
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

#: The starter with every example active: a shop with all tools.
EXAMPLE = re.sub(r"^# (\w+ *= )", r"\1", STARTER, flags=re.MULTILINE)
