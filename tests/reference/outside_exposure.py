#!/usr/bin/env python3
"""Exposures by the Gaussian filter of SciPy.

    pip install -r tests/reference/requirements-outside.txt
    python3 tests/reference/outside_exposure.py [--out tests/tables/exposure_gaussian.csv]

Each row of the table is a drawing, row by row in two hexadecimal digits for each sample, 255 being all ink; the standard
deviations across rows and along them in pixels; and the filtered share of ink at every fifth pixel of every fifth
row. Outside the drawing there is none. The filter samples its Gaussian at the pixels, in doubles, ten deviations
far.
"""

import argparse
from pathlib import Path

import numpy as np
from scipy import ndimage

COLUMNS = ("width", "height", "sigma_rows", "sigma_columns", "samples", "shares")
EVERY = 5


def drawings():
    """Soft noise, blots with soft edges, and strokes."""
    draw = np.random.default_rng(16)
    for width, height in ((41, 31), (71, 23), (12, 64)):
        yield draw.integers(0, 256, (height, width))
        blots = ndimage.gaussian_filter(draw.random((height, width)), 2.0)
        yield np.clip((blots - np.median(blots)) * 4e3, 0, 255).astype(int)
        strokes = np.zeros((height, width), int)
        for _ in range(9):
            x, y = draw.integers(0, width), draw.integers(0, height)
            w, h = draw.permutation([draw.integers(1, 30), draw.integers(1, 4)])
            strokes[y : y + h, x : x + w] = 255
        yield strokes


def main():
    parser = argparse.ArgumentParser()
    parser.add_argument("--out", type=Path, default=Path("tests/tables/exposure_gaussian.csv"))
    lines = [",".join(COLUMNS)]
    for samples in drawings():
        for sigma in ((2.5, 2.5), (3.0, 5.0), (7.5, 4.0)):
            shares = ndimage.gaussian_filter(samples / 255.0, sigma, mode="constant", truncate=10.0)
            height, width = samples.shape
            digits = "".join(f"{sample:02x}" for sample in samples.ravel())
            told = " ".join(repr(float(share)) for share in shares[::EVERY, ::EVERY].ravel())
            lines.append(f"{width},{height},{sigma[0]},{sigma[1]},{digits},{told}")
    parser.parse_args().out.write_text("\n".join(lines) + "\n")


if __name__ == "__main__":
    main()
