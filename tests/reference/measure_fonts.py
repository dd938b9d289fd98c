"""Measures typefaces for marking: shares of the em, and dose windows of blurred glyphs.

Usage: measure_fonts.py FONTS OUT [PART OF A FILE NAME]
FONTS is a directory that holds the files listed in typeface_list.py (searched in depth); OUT
receives typefaces.csv and dose_windows.csv. fit_typefaces.py goes on from there.
Needs numpy, scipy and freetype-py; not part of CI, because the fonts are not in the repository.
Takes about three minutes of one core.

Everything is in shares of the em (em = the nominal size of the type). Outlines are unhinted and
drawn with exact area coverage. The exposure is the glyph, filled with dose 1, convolved with a
Gaussian of 1/e2 intensity radius w; a place is marked where q * exposure >= 1.
"""

import csv
import re
import sys
from pathlib import Path

import freetype
import numpy as np
from scipy import fft, ndimage

from typeface_list import TYPEFACES

CAPITALS = "ABCDEFGHIJKLMNOPQRSTUVWXYZ"
DIGITS = "0123456789"
LETTERS = CAPITALS + CAPITALS.lower()

# Pixels per em for widths of strokes and counters, and for the dose windows.
FINE = 800
COARSE = 150

# Characters of the dose windows. The neighbour on both sides is the one against which the
# makers of type set the spacing of a class: straight stems, and for digits the round 0.
WINDOW_CHARACTERS = {"0": "0486", "n": "aensg", "H": "RB"}
BLURS = [n / 100 for n in range(4, 25)]
# Windows are looked for up to this dose; above it a limit is reported as infinite.
HIGHEST_DOSE = 100.0
# Share of a component's centre-line that must be marked, else the component counts as starved.
STARVED = 0.5

UPRIGHT = freetype.Matrix(0x10000, 0, 0, 0x10000)
EIGHT = np.ones((3, 3), int)
# Walls of a stroke face each other: cosine of the angle between the directions to both.
OPPOSITE = np.cos(np.radians(150))
# Holes smaller than this (square ems) are specks where contours overlap, not counters.
SPECK = 1e-4


# --- Drawing -------------------------------------------------------------------------------


def draw(face, text, em, margin):
    """Coverage (0..1) of each character of a line, each on its own layer of one canvas."""
    face.set_pixel_sizes(0, em)
    scale = em / face.units_per_EM
    pen = 0.0
    parts = []
    for character in text:
        left = round(pen * 64)
        bitmap, x, y = coverage(face, character, left)
        parts.append((bitmap, x, y))
        face.load_char(character, freetype.FT_LOAD_NO_SCALE)
        pen += face.glyph.advance.x * scale
    low = min(x for _, x, _ in parts) - margin
    top = max(y for _, _, y in parts) + margin
    high = max(x + b.shape[1] for b, x, _ in parts) + margin
    bottom = min(y - b.shape[0] for b, _, y in parts) - margin
    layers = np.zeros((len(text), top - bottom, high - low))
    for layer, (bitmap, x, y) in zip(layers, parts):
        rows, columns = bitmap.shape
        layer[top - y : top - y + rows, x - low : x - low + columns] = bitmap
    return layers


def coverage(face, character, left):
    """Bitmap of one character and the place of its top left pixel; left in 1/64 pixel."""
    if face.get_char_index(character) == 0:
        raise ValueError(f"{face.family_name.decode()}: no glyph for {character!r}")
    face.set_transform(UPRIGHT, freetype.Vector(left, 0))
    face.load_char(character, freetype.FT_LOAD_NO_HINTING | freetype.FT_LOAD_NO_BITMAP)
    slot = face.glyph
    slot.render(freetype.FT_RENDER_MODE_NORMAL)
    bitmap = slot.bitmap
    pixels = np.array(bitmap.buffer, np.uint8).reshape(bitmap.rows, bitmap.pitch)
    return pixels[:, : bitmap.width] / 255.0, slot.bitmap_left, slot.bitmap_top


def height(face, character):
    """Height of the top of a character above the baseline, from its outline."""
    face.load_char(character, freetype.FT_LOAD_NO_SCALE)
    return face.glyph.outline.get_bbox().yMax / face.units_per_EM


# --- Widths of strokes and counters ----------------------------------------------------------


def stem(face, character):
    """Width of an upright stem: median over the middle rows, from the coverage itself."""
    ink = draw(face, character, FINE, 1)[0]
    rows = np.flatnonzero(ink.any(axis=1))
    low, high = rows[0], rows[-1]
    span = high - low
    middle = ink[low + int(0.35 * span) : low + int(0.65 * span)]
    return float(np.median(middle.sum(axis=1))) / FINE


def centre_line(ink):
    """Pixels of the centre-line of the strokes, and the widths (pixels) found along it.

    Two neighbouring pixels whose nearest outside points lie in opposite directions straddle the
    centre-line; the distance of those points, less half a pixel at each end, is the width there.
    That leaves out the branches of the ridge that run into corners and stroke ends.
    """
    nearest = ndimage.distance_transform_edt(ink, return_distances=False, return_indices=True)
    towards = (nearest - np.indices(ink.shape)).astype(float)
    length = np.hypot(*towards)
    line = np.zeros_like(ink)
    widths = []
    for here, there in (
        (np.s_[:, :-1], np.s_[:, 1:]),
        (np.s_[:-1, :], np.s_[1:, :]),
    ):
        product = sum(t[here] * t[there] for t in towards)
        opposite = (
            ink[here] & ink[there] & (product <= OPPOSITE * length[here] * length[there])
        )
        line[here] |= opposite
        line[there] |= opposite
        apart = [(n[here] - n[there])[opposite] for n in nearest]
        widths.append(np.hypot(*apart) - 1.0)
    return line, np.concatenate(widths)


def holes(ink, em):
    """Labels of the closed counters (4-connected background inside the ink) and their numbers."""
    labels, count = ndimage.label(~ink)
    outside = labels[0, 0]
    sizes = np.bincount(labels.ravel(), minlength=count + 1)
    numbers = [
        n for n in range(1, count + 1)
        if n != outside and sizes[n] > SPECK * em * em and not ink[labels == n].any()
    ]
    return labels, numbers


def thinnest_and_smallest(face, characters):
    """Thinnest stroke and smallest closed counter over characters, each with its character."""
    strokes = []
    counters = []
    for character in characters:
        ink = draw(face, character, FINE, 2)[0] >= 0.5
        strokes.append((float(np.quantile(centre_line(ink)[1], 0.02)) / FINE, character))
        labels, numbers = holes(ink, FINE)
        if numbers:
            room = ndimage.distance_transform_edt(~ink)
            for n in numbers:
                counters.append(((2.0 * room[labels == n].max() - 1.0) / FINE, character))
    return min(strokes), min(counters)


# --- Dose windows ----------------------------------------------------------------------------


class Scene:
    """One character between two neighbours, ready to be blurred by any radius."""

    def __init__(self, face, neighbour, character):
        margin = int(2.2 * BLURS[-1] * COARSE)
        layers = draw(face, neighbour + character + neighbour, COARSE, margin)
        self.picture = layers.sum(axis=0)
        self.glyph = layers[1] >= 0.5
        self.others = (layers[0] >= 0.5) | (layers[2] >= 0.5)
        # The part of the plane that is nearer to this glyph than to its neighbours.
        self.cell = (
            ndimage.distance_transform_edt(~self.glyph)
            <= ndimage.distance_transform_edt(~self.others)
        )
        labels, count = ndimage.label(self.glyph, EIGHT)
        self.components = [labels == n for n in range(1, count + 1)]
        ridge, _ = centre_line(self.glyph)
        self.ridges = [ridge & component for component in self.components]
        labels, numbers = holes(self.glyph, COARSE)
        self.holes = [labels == n for n in numbers]
        rows, columns = self.picture.shape
        self.size = (fft.next_fast_len(rows), fft.next_fast_len(columns))
        self.spectrum = fft.rfft2(self.picture, self.size)

    def exposure(self, blur):
        """Dose relative to the inside of a large fill, for a 1/e2 radius in ems."""
        w = blur * COARSE
        # Coverage already averages over one pixel, whose variance is 1/12.
        variance = w * w / 4.0 - 1.0 / 12.0
        rows = fft.fftfreq(self.size[0])[:, None]
        columns = fft.rfftfreq(self.size[1])[None, :]
        gauss = np.exp(-2.0 * np.pi**2 * variance * (rows**2 + columns**2))
        field = fft.irfft2(self.spectrum * gauss, self.size)
        return field[: self.picture.shape[0], : self.picture.shape[1]]

    def window(self, blur):
        """q_lo, q_lo with closed rings, q_hi for counters, q_hi for counters and neighbours."""
        field = np.maximum(self.exposure(blur), 1e-12)
        everything = 1.0 / field[self.glyph].min()
        fed = max(1.0 / np.median(field[ridge]) for ridge in self.ridges)
        q_lo = least(lambda q: not self.split(field, q), fed, everything)
        q_whole = least(lambda q: not self.opened(field, q), q_lo, everything)
        q_counter = min((1.0 / field[hole].min() for hole in self.holes), default=np.inf)
        q_touch = least(lambda q: self.touches(field, q), 1.0, HIGHEST_DOSE)
        q_full = min(q_counter, q_touch)
        return q_lo, q_whole, limit(q_counter), limit(q_full)

    def split(self, field, q):
        """Is a component of the glyph lost, or marked in more than one piece?"""
        labels, _ = ndimage.label((field * q >= 1.0) & self.cell, EIGHT)
        for component in self.components:
            pieces = np.unique(labels[component])
            if np.count_nonzero(pieces) != 1:
                return True
        return False

    def opened(self, field, q):
        """Does what is left of a counter run out through a gap in its ring?"""
        labels, _ = ndimage.label(~((field * q >= 1.0) & self.cell))
        outside = labels[0, 0]
        return any((labels[hole] == outside).any() for hole in self.holes)

    def touches(self, field, q):
        """Does a marked piece of the glyph reach a neighbour?"""
        labels, count = ndimage.label(field * q >= 1.0, EIGHT)
        own = np.bincount(labels[self.glyph], minlength=count + 1)[1:] > 0
        other = np.bincount(labels[self.others], minlength=count + 1)[1:] > 0
        return bool((own & other).any())


def limit(q):
    return q if q < HIGHEST_DOSE * 0.999 else np.inf


def least(holds, low, high):
    """Least q in low..high from which on `holds` is true, by halving; high if never."""
    if high <= low or holds(low):
        return low
    while high / low > 1.0005:
        middle = np.sqrt(low * high)
        if holds(middle):
            high = middle
        else:
            low = middle
    return high


# --- Tables ------------------------------------------------------------------------------------


def name_entry(face, number):
    """Text of one entry of the name table (Windows Unicode if there is one)."""
    found = ""
    for n in range(face.sfnt_name_count):
        entry = face.get_sfnt_name(n)
        if entry.name_id == number:
            if entry.platform_id == 3:
                return entry.string.decode("utf-16-be")
            found = entry.string.decode("latin-1")
    return found


def measure(face):
    """Measured shares of the em."""
    letter_stroke, letter_counter = thinnest_and_smallest(face, LETTERS)
    digit_stroke, digit_counter = thinnest_and_smallest(face, DIGITS)
    stroke = min(letter_stroke, digit_stroke)
    return {
        "cap_height": height(face, "H"),
        "x_height": height(face, "x"),
        "digit_height": height(face, "1"),
        "stem_l": stem(face, "l"),
        "stem_i": stem(face, "I"),
        "stroke": stroke[0],
        "stroke_char": stroke[1],
        "digit_stroke": digit_stroke[0],
        "digit_stroke_char": digit_stroke[1],
        "counter": letter_counter[0],
        "counter_char": letter_counter[1],
        "digit_counter": digit_counter[0],
        "digit_counter_char": digit_counter[1],
    }


def text(value):
    return f"{value:.5g}" if isinstance(value, float) else str(value)


def main(fonts, out, part=""):
    files = {path.name: path for path in sorted(Path(fonts).rglob("*.[ot]tf"))}
    wanted = [entry for entry in TYPEFACES if part in entry[1]]
    missing = [entry[1] for entry in wanted if entry[1] not in files]
    if missing:
        raise SystemExit(f"not found: {', '.join(missing)}")
    shares = None
    with (
        open(Path(out) / "typefaces.csv", "w", newline="") as shares_file,
        open(Path(out) / "dose_windows.csv", "w", newline="") as windows_file,
    ):
        windows = csv.writer(windows_file, lineterminator="\n")
        windows.writerow(
            ["font", "char", "w_over_em", "q_lo", "q_lo_whole", "q_hi_counter", "q_hi_full"]
        )
        for kind, file, licence in wanted:
            face = freetype.Face(str(files[file]))
            font = name_entry(face, 4)
            version = re.split("[;,]", name_entry(face, 5))[0].strip()
            row = {"kind": kind, "font": font, "version": version, "licence": licence}
            row |= measure(face)
            if shares is None:
                shares = csv.DictWriter(shares_file, list(row), lineterminator="\n")
                shares.writeheader()
            shares.writerow({key: text(value) for key, value in row.items()})
            for neighbour, characters in WINDOW_CHARACTERS.items():
                for character in characters:
                    scene = Scene(face, neighbour, character)
                    for blur in BLURS:
                        limits = [text(float(q)) for q in scene.window(blur)]
                        windows.writerow([font, character, blur, *limits])
            shares_file.flush()
            windows_file.flush()
            print(font, flush=True)


if __name__ == "__main__":
    main(*sys.argv[1:])
