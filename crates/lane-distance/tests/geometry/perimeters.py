"""Lengths of the paths of SVG that come on standard input, one a line."""

import sys

from fontTools.pens.perimeterPen import PerimeterPen
from fontTools.svgLib.path import parse_path

# To what the length of one curve is integrated, in the unit of the path.
TOLERANCE = 1e-12

for line in sys.stdin.read().splitlines():
    pen = PerimeterPen(tolerance=TOLERANCE)
    parse_path(line, pen)
    print(repr(pen.value))
