"""The preflight of a page against the same work done by exact parts of OpenCV and SciPy, in turns.

    python3 -m pip install -r benches/peers/requirements.txt
    python3 benches/peers/preflight.py [TURNS]

Starts `cargo bench --bench preflight -- --turns`, which writes the page that both sides take and does each step that it
is told. One thread each; times are those of the processor, so that a busy machine disturbs little. What is found is
printed side by side as well: marks differ by a few pixels that are at the threshold, as OpenCV's weights are those of
its own Gaussian.
"""

import subprocess
import sys
import time

import cv2
import numpy as np
from scipy import ndimage

# The spot of the bench: a radius of 6 pixels, laid out over square pixels, whose variance is 1/12.
SIGMA = (9 + 1 / 12) ** 0.5
# Weights out to four σ.
KERNEL = 2 * 13 + 1
# A quarter of the waist diameter, in pixels.
TOLERANCE = 3
# Strokes of more than six spot radii are wide.
REACH = 18

EIGHT, FOUR = 8, 4


def blur(page):
    ink = page.astype(np.float32) * np.float32(1 / 255)
    return cv2.GaussianBlur(ink, (KERNEL, KERNEL), SIGMA, borderType=cv2.BORDER_CONSTANT)


def to_zero(mask):
    """Distance from each set pixel to the nearest clear one."""
    return cv2.distanceTransform(mask, cv2.DIST_L2, cv2.DIST_MASK_PRECISE)


def padded(mask, value=0):
    return cv2.copyMakeBorder(mask, 1, 1, 1, 1, cv2.BORDER_CONSTANT, value=value)


def labels(mask, connectivity):
    return cv2.connectedComponents(mask, connectivity=connectivity, ltype=cv2.CV_32S)


def partners(mine, count, theirs):
    """For each label, the least and the greatest label of the other side that it meets."""
    least = np.full(count, np.iinfo(np.int32).max, np.int32)
    greatest = np.full(count, -1, np.int32)
    np.minimum.at(least, mine, theirs)
    np.maximum.at(greatest, mine, theirs)
    return least, greatest


def changes(ink, mark, connectivity):
    """Labels of the ink, and how many components there are, are lost, split, merged and new. Of the ground, label 1 is
    the outside, which only opens holes."""
    n_ink, of_ink = labels(ink, connectivity)
    n_mark, of_mark = labels(mark, connectivity)
    outside = 1 if connectivity == FOUR else 0
    inside = np.flatnonzero((of_ink > outside) & (of_mark > 0))
    one, other = of_ink.ravel()[inside], of_mark.ravel()[inside]
    least, greatest = partners(one, n_ink, other)
    of_both = np.flatnonzero((of_ink > outside) & (of_mark > outside))
    least_mark, greatest_mark = partners(of_mark.ravel()[of_both], n_mark, of_ink.ravel()[of_both])
    first = outside + 1
    opened = (least == outside) & (greatest >= 0) if outside else np.zeros(n_ink, bool)
    found = [n_ink - first, n_mark - first, np.sum(greatest[first:] < 0)]
    if outside:
        found.append(np.sum(opened[first:]))
    found.append(np.sum(((greatest > least) & ~opened)[first:]))
    found.append(np.sum((greatest_mark > least_mark)[first:]))
    found.append(np.sum(greatest_mark[first:] < 0))
    return of_ink, n_ink, [int(count) for count in found]


def regions(mask, depth):
    """Boxes, pixels and the deepest pixel of each region, the largest first."""
    count, of_mask, stats, _ = cv2.connectedComponentsWithStats(mask, connectivity=EIGHT)
    where = np.flatnonzero(mask)
    of, deep = of_mask.ravel()[where], depth.ravel()[where]
    order = np.lexsort((-deep, of))
    _, first = np.unique(of[order], return_index=True)
    worst = where[order][first]
    return count - 1, stats[1:], worst[np.argsort(-stats[1:, cv2.CC_STAT_AREA], kind="stable")]


def ridge(distance):
    """Pixels no nearer to the other side than both neighbours in one of four directions, and farther than one."""
    reach = np.float32(REACH)
    capped = np.minimum(distance, reach)
    wide = cv2.copyMakeBorder(capped, 1, 1, 1, 1, cv2.BORDER_CONSTANT, value=0)
    height, width = distance.shape

    def at(dy, dx):
        return wide[1 + dy : 1 + dy + height, 1 + dx : 1 + dx + width]

    across = np.zeros(distance.shape, bool)
    greatest = np.ones(distance.shape, bool)
    for dy, dx in ((0, 1), (1, 0), (1, 1), (1, -1)):
        one, other = at(-dy, -dx), at(dy, dx)
        no_less = (capped >= one) & (capped >= other)
        across |= no_less & ((capped > one) | (capped > other))
        greatest &= no_less
    return (across | greatest) & (capped > 0) & (capped < reach)


def width_shares(line, distance, kept):
    widths = (2 * distance[line]).astype(np.int64)
    return np.bincount(widths), np.bincount(widths[kept[line] != 0])


def preflight(page, dose_ratio):
    exposure = blur(page)
    mark = (exposure * np.float32(dose_ratio) >= 1).astype(np.uint8)
    ink = (page >= 128).astype(np.uint8)
    of_ink, n_ink, pieces = changes(ink, mark, EIGHT)
    _, _, holes = changes(padded(1 - ink, 1), padded(1 - mark, 1), FOUR)
    to_mark, to_clear = to_zero(1 - mark), to_zero(padded(mark))[1:-1, 1:-1]
    lost = ((ink != 0) & (to_mark > TOLERANCE)).astype(np.uint8)
    filled = ((ink == 0) & (to_clear > TOLERANCE)).astype(np.uint8)
    regions(lost, to_mark)
    regions(filled, to_clear)
    in_ink, in_ground = to_zero(padded(ink))[1:-1, 1:-1], to_zero(1 - ink)
    strokes, gaps = ridge(in_ink), ridge(in_ground)
    width_shares(strokes, in_ink, mark)
    width_shares(gaps, in_ground, 1 - mark)
    of_line = of_ink[strokes]
    starved = 2 * np.bincount(of_line, mark[strokes], n_ink) < np.bincount(of_line, minlength=n_ink)
    np.median(exposure[strokes])
    pixels = [int(np.count_nonzero(mask)) for mask in (ink, mark, lost, filled)]
    return pixels, pieces, holes, int(starved.sum())


def seconds(run):
    start = time.thread_time()
    run()
    return time.thread_time() - start


def main():
    turns = int(sys.argv[1]) if len(sys.argv) > 1 else 5
    cv2.setNumThreads(1)
    command = ["cargo", "bench", "-q", "--bench", "preflight", "--features", "parallel", "--", "--turns"]
    pipe = subprocess.PIPE
    with subprocess.Popen(command, stdin=pipe, stdout=pipe, text=True) as bench:
        file, width, height, dose_ratio = bench.stdout.readline().split()
        width, height, dose_ratio = int(width), int(height), float(dose_ratio)
        page = np.fromfile(file, np.uint8).reshape(height, width)
        ink = (page >= 128).astype(np.uint8)
        noise = np.random.default_rng(6).integers(0, 256, page.shape, np.uint8)
        print("Found: pixels of ink, mark, lost, filled; pieces of drawing and mark, lost, split, merged, new;")
        print("       holes of drawing and mark, closed, opened, split, merged, new; pieces starved")
        print("ours  ", bench.stdout.readline().strip())
        print("peers ", *preflight(page, dose_ratio))

        def ours(step):
            bench.stdin.write(step + "\n")
            bench.stdin.flush()
            return int(bench.stdout.readline()) * 1e-9

        print(f"{width} x {height}, one thread, {turns} turns: median of ratios, least times")
        for step, name, peer in (
            ("whole", "OpenCV and SciPy", lambda: preflight(page, dose_ratio)),
            ("exposure", "OpenCV's GaussianBlur, f32", lambda: blur(page)),
            ("exposure of noise", "OpenCV's GaussianBlur, f32", lambda: blur(noise)),
            ("distances", "OpenCV's distanceTransform, precise", lambda: to_zero(1 - ink)),
            ("distances", "SciPy's distance_transform_edt", lambda: ndimage.distance_transform_edt(1 - ink)),
            ("labels", "OpenCV's connectedComponents", lambda: labels(ink, EIGHT)),
            ("labels", "SciPy's label", lambda: ndimage.label(ink, np.ones((3, 3)))),
        ):
            rounds = [(ours(step), seconds(peer)) for _ in range(turns)]
            ratio = np.median([theirs / mine for mine, theirs in rounds])
            mine, theirs = np.min(rounds, axis=0) * 1e3
            print(f"  {step}: {ratio:.1f} times as fast as {name} ({mine:.1f} ms against {theirs:.1f} ms)")
        bench.stdin.close()


if __name__ == "__main__":
    main()
