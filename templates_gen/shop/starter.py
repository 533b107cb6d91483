"""The starter shop file; ``params/shop.toml`` is this text.

Kerf and cutters must be measured in the shop. They are commented examples, so that no template is
drawn for a tool that was not measured.
"""

from __future__ import annotations

import re

STARTER = """\
# Your shop: paper, printer, laser, router. The parameters of the bow are in another file.
#
# Lengths are in mm. Lengths of tools sized in inches may be given in inches:
#     outside = { value = 0.75, unit = "in" }
# What you leave out has the value shown here. Kerf and cutters are commented examples: measure
# yours, enter the values and remove the #. Until then no template is drawn for them.
# Use this file with
#     templates-gen draw FILE -o FOLDER --shop shop.toml

units = "mm"

# Paper
[paper]
margin  = 10  # Unprinted margin on all sides
overlap = 15  # Overlap of the pages of a large template

# Printer: print the test page of `templates-gen calibrate -o FOLDER`, measure it, and let
#     templates-gen calibrate --measured X Y --shop shop.toml
# write these. 1 is an exact printer.
[printer]
x_factor = 1  # Across a portrait page: nominal length divided by measured
y_factor = 1  # Up a portrait page: nominal length divided by measured

# Laser or knife: used only with --kerf. Cut a test square and measure it.
[laser]
# kerf = 0.2  # Width of the cut

# Router templates
[plate]
thickness    = 6    # Thickness of the template; a collar needs 6 or more
collar_depth = 5    # Length of the collar below the router's base
rim          = 35   # Width of the template round an opening, to support the router
blank_fit    = 0.1  # Clearance of the frog's blank in the jig's pocket
clamp_screw  = 5    # Hole for a clamp's screw
clamp_foot   = 16   # Width of a clamp's foot

# Each cutter with its guide, a "collar" or "bearing" that follows the template's edge.
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

#: The starter with every example uncommented: a complete shop file.
EXAMPLE = re.sub(r"^# (\w+ *= )", r"\1", STARTER, flags=re.MULTILINE)
