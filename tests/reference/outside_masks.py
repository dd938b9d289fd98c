#!/usr/bin/env python3
"""Components of masks by SciPy and by OpenCV, which must agree with each other.

    pip install -r tests/reference/requirements-outside.txt
    python3 tests/reference/outside_masks.py [--out tests/tables/mask_components.csv]

Each row of the table is a mask, row by row in hexadecimal digits, each digit four pixels, the first of them the
lowest bit; then the components of its ink over eight neighbours and those of its ground over four, as pixels, first
column, first row, last column and last row of each, sorted. Ground joined to a frame of one pixel around the mask is
the outside, which is left out.
"""

import argparse
from pathlib import Path

import cv2
import numpy as np
from scipy import ndimage

COLUMNS = ("width", "height", "mask", "ink", "holes")


def by_scipy(mask, corners):
    labels, _ = ndimage.label(mask, np.ones((3, 3)) if corners else None)
    places = ndimage.find_objects(labels)
    pixels = np.bincount(labels.ravel())[1:]
    return sorted(
        (int(n), x.start, y.start, x.stop - 1, y.stop - 1) for n, (y, x) in zip(pixels, places, strict=True)
    )


def by_opencv(mask, corners):
    _, _, stats, _ = cv2.connectedComponentsWithStats(mask.astype(np.uint8), connectivity=8 if corners else 4)
    boxes = [[int(number) for number in row] for row in stats[1:]]
    return sorted((n, x, y, x + w - 1, y + h - 1) for x, y, w, h, n in boxes)


def components(mask, corners):
    scipy, opencv = by_scipy(mask, corners), by_opencv(mask, corners)
    if scipy != opencv:
        raise SystemExit("SciPy and OpenCV do not agree")
    return scipy


def holes(mask):
    """Components of the framed ground but the one of the frame, in columns and rows of the mask."""
    outside, *_ = [c for c in components(~np.pad(mask, 1), False) if c[1:3] == (0, 0)]
    inside = [c for c in components(~np.pad(mask, 1), False) if c != outside]
    return [(n, *(edge - 1 for edge in box)) for n, *box in inside]


def digits(row):
    padded = np.pad(row, (0, -len(row) % 4)).reshape(-1, 4)
    return "".join(f"{int(four @ (1, 2, 4, 8)):x}" for four in padded)


def masks():
    """Noise of several densities, as it is and blurred to blots, in sizes about the words of 64 pixels."""
    draw = np.random.default_rng(6)
    for width, height in ((1, 40), (5, 40), (63, 20), (64, 20), (65, 20), (130, 33), (200, 60)):
        for density in (0.15, 0.4, 0.6, 0.85):
            for blur in (0.0, 1.2):
                noise = draw.random((height, width))
                if blur > 0.0:
                    noise = ndimage.gaussian_filter(noise, blur)
                yield noise < np.quantile(noise, density)


def main():
    parser = argparse.ArgumentParser()
    parser.add_argument("--out", type=Path, default=Path("tests/tables/mask_components.csv"))
    lines = [",".join(COLUMNS)]
    for mask in masks():
        lists = (components(mask, True), holes(mask))
        told = (";".join(" ".join(map(str, c)) for c in found) for found in lists)
        height, width = mask.shape
        lines.append(",".join((str(width), str(height), "".join(map(digits, mask)), *told)))
    parser.parse_args().out.write_text("\n".join(lines) + "\n")


if __name__ == "__main__":
    main()
