"""Glyphs of the examples' font by general-purpose libraries, and shapes by sampling, for tests/vector.rs.

Usage: outlines.py FONT OUT
Writes OUT/glyph_outlines.csv (fontTools: advance width, signed area and control box of each outline, in font units)
and OUT/glyph_pixels.csv (FreeType: 8-bit coverage of unhinted glyphs). Needs fonttools 4.68.0,
freetype-py 2.5.1 and numpy.
"""

import csv
import sys
from pathlib import Path

import freetype
import numpy as np
from fontTools.pens.areaPen import AreaPen
from fontTools.pens.boundsPen import ControlBoundsPen
from fontTools.ttLib import TTFont

# FreeType takes chords up to 1/16 pixel away from a curve, so it draws so many times finer.
FINER = 16
DRAWN = [("8", 23), ("@", 40), ("g", 61), ("R", 61), ("%", 97)]


def outlines(font_file, out):
    font = TTFont(font_file)
    glyphs, names = font.getGlyphSet(), font.getBestCmap()
    with open(out / "glyph_outlines.csv", "w", newline="") as file:
        rows = csv.writer(file, lineterminator="\n")
        rows.writerow(["code_point", "advance", "area", "left", "bottom", "right", "top"])
        for code_point, name in sorted(names.items()):
            area, bounds = AreaPen(glyphs), ControlBoundsPen(glyphs)
            glyphs[name].draw(area)
            glyphs[name].draw(bounds)
            box = bounds.bounds or (0, 0, 0, 0)
            rows.writerow([code_point, glyphs[name].width, repr(float(area.value)), *box])


def pixels(font_file, out):
    face = freetype.Face(str(font_file))
    flags = freetype.FT_LOAD_NO_HINTING | freetype.FT_LOAD_NO_BITMAP | freetype.FT_LOAD_RENDER
    with open(out / "glyph_pixels.csv", "w", newline="") as file:
        rows = csv.writer(file, lineterminator="\n")
        rows.writerow(["code_point", "pixels_per_em", "left", "top", "width", "height", "coverage"])
        for character, size in DRAWN:
            face.set_pixel_sizes(FINER * size, FINER * size)
            face.load_char(character, flags)
            glyph, bitmap = face.glyph, face.glyph.bitmap
            fine = np.array(bitmap.buffer, dtype=np.uint8).reshape(bitmap.rows, bitmap.pitch)[:, : bitmap.width]
            left, top = glyph.bitmap_left // FINER, -(-glyph.bitmap_top // FINER)
            before = (top * FINER - glyph.bitmap_top, glyph.bitmap_left - left * FINER)
            after = [-(b + n) % FINER for b, n in zip(before, fine.shape)]
            fine = np.pad(fine, list(zip(before, after)))
            height, width = fine.shape[0] // FINER, fine.shape[1] // FINER
            mean = fine.reshape(height, FINER, width, FINER).mean(axis=(1, 3))
            coverage = np.rint(mean).astype(np.uint8).tobytes().hex()
            rows.writerow([ord(character), size, left, top, width, height, coverage])


if __name__ == "__main__":
    outlines(sys.argv[1], Path(sys.argv[2]))
    pixels(sys.argv[1], Path(sys.argv[2]))
