#!/usr/bin/env python3
"""Distances, openings and closings of masks by scipy.ndimage -> tests/tables/mask_distances.csv.

Needs requirements-outside.txt; not part of CI. Each line is one row of one mask:
mask, pitch in y over that in x, what, row, values. `what` is `mask`, `opened_2.5` or `closed_2.5` (characters, # for a set
pixel; the disc has a radius of 2.5 pitches in x; no edges: the mask stands in wide clear ground), or `set` or `clear`:
four times the square of the distance to the nearest set or clear pixel, in pitches of x, -1 if there is none.
"""
import pathlib

import numpy as np
from scipy import ndimage


def masks():
    draw = np.random.Generator(np.random.PCG64(20261128))
    yield "dots", draw.random((24, 70)) < 0.01
    yield "dense", draw.random((24, 70)) < 0.6
    soft = ndimage.gaussian_filter(draw.standard_normal((40, 140)), 3.0)
    yield "blots", soft > 0.02


def squares(target, ratio):
    """Squares of the distances to the pixels that are set in target, in quarters."""
    if not target.any():
        return np.full(target.shape, -1)
    distance = ndimage.distance_transform_edt(~target, sampling=(ratio, 1.0))
    quarters = 4.0 * distance**2
    whole = np.rint(quarters).astype(int)
    assert np.abs(quarters - whole).max() < 1e-6
    return whole


def main():
    lines = ["mask,pitch_ratio,what,row,values"]
    for name, mask in masks():
        add = lambda ratio, what, rows: lines.extend(
            f"{name},{ratio},{what},{y},{row}" for y, row in enumerate(rows)
        )
        characters = lambda mask: ["".join("#" if bit else "." for bit in row) for row in mask]
        numbers = lambda rows: [" ".join(map(str, row)) for row in rows]
        add(1.0, "mask", characters(mask))
        framed = np.pad(mask, 300)
        inner = (slice(300, -300), slice(300, -300))
        for ratio in (1.0, 1.5):
            add(ratio, "set", numbers(squares(mask, ratio)))
            # Outside a mask all is clear.
            add(ratio, "clear", numbers(squares(~framed, ratio)[inner]))
            y, x = np.mgrid[-3:4, -3:4]
            disc = (y * ratio) ** 2 + x**2 <= 2.5**2
            add(ratio, "opened_2.5", characters(ndimage.binary_opening(framed, disc)[inner]))
            add(ratio, "closed_2.5", characters(ndimage.binary_closing(framed, disc)[inner]))
    table = pathlib.Path(__file__).parent.parent / "tables" / "mask_distances.csv"
    table.write_text("\n".join(lines) + "\n")


main()
