"""Fits one long stroke and one long gap to the dose windows of typefaces.

Usage: fit_typefaces.py DIRECTORY
Reads typefaces.csv and dose_windows.csv (both from measure_fonts.py) in DIRECTORY; adds the
fitted columns to typefaces.csv, and writes typeface_kinds.csv and typeface_errors.csv.
Needs numpy and scipy.

With x = w/em, a stroke of s ems between empty space gets the dose erf(s/(sqrt2 x)), and the
middle of a gap of g ems between filled space erfc(g/(sqrt2 x)). So a typeface is described by
    q_lo = 1/erf(s/(sqrt2 x)),  q_hi = 1/erfc(g/(sqrt2 x)),  window r = q_hi/q_lo.
A stroke of a glyph also gets dose from the strokes around it, the more the wider the blur.
Hence two forms: "plain" has a constant s, "fed" has s * (1 + FED * x).

Two readings of q_lo: "stroke" (no part of a glyph is lost, split or starved) and "whole" (also
no closed counter has broken open, as when an e loses its bar). Two readings of q_hi:
"gap_glyph" (all closed counters are open) and "gap_full" (nor are neighbours touched).

All characters of a text get one dose, so the window of a font is that of its worst characters:
the greatest q_lo and the least q_hi of the set. Only for touching neighbours the worst character
is left out and the second worst counts, because one tight pair (a tail, a crossbar) is
peculiar to a font and its contact does not make the text unreadable.
"""

import csv
import sys
from collections import defaultdict
from pathlib import Path

import numpy as np
from scipy.optimize import brentq, least_squares
from scipy.special import erf, erfc

# The fits look at the blurs whose window lies in this range.
NARROW, WIDE = 1.0, 6.0
# Windows at which the sizes of type are compared.
MARKS = (1.1, 2.0)
# Growth of the effective stroke with blur, found by trial of the whole numbers 0 to 7: it brings
# q_lo of the median font of every kind, in both readings, within 5 % (a constant stroke: 14 %),
# where the window for counters lies in that range.
FED = 4.0
FORMS = {"plain": 0.0, "fed": FED}
LOWS = ("stroke", "whole")
HIGHS = ("gap_glyph", "gap_full")
MEASURED = (
    "cap_height", "x_height", "digit_height", "stem_l", "stem_i",
    "stroke", "digit_stroke", "counter", "digit_counter",
)


def q_low(x, s):
    return 1.0 / erf(s / (np.sqrt(2.0) * x))


def q_high(x, g):
    return 1.0 / erfc(g / (np.sqrt(2.0) * x))


def curves(rows):
    """For one font: blurs, and the doses for the text as a whole at each of them."""
    by_blur = defaultdict(list)
    for row in rows:
        by_blur[float(row["w_over_em"])].append(row)
    blurs = sorted(by_blur)

    def ranked(name, place):
        return np.array([sorted(float(row[name]) for row in by_blur[x])[place] for x in blurs])

    counters = ranked("q_hi_counter", 0)
    return {
        "x": np.array(blurs),
        "stroke": ranked("q_lo", -1),
        "whole": ranked("q_lo_whole", -1),
        "gap_glyph": counters,
        "gap_full": np.minimum(ranked("q_hi_full", 1), counters),
    }


def median_curve(fonts):
    """Median over fonts, dose by dose."""
    return {name: np.median([font[name] for font in fonts], axis=0) for name in fonts[0]}


def matters(curve, low, high):
    """Blurs at which the window lies in the range of the fits."""
    window = curve[high] / curve[low]
    return (window >= NARROW) & (window <= WIDE)


def fit(curve):
    """Effective shares: a stroke for each form and reading of q_lo, a gap for each of q_hi."""
    shares = {}
    for low in LOWS:
        at = matters(curve, low, "gap_glyph")
        for form, growth in FORMS.items():
            x = curve["x"][at]
            measured = curve[low][at]
            shares[f"{low}_{form}"] = share(
                lambda s, x, growth=growth: q_low(x, s * (1.0 + growth * x)), x, measured
            )
    for high in HIGHS:
        at = matters(curve, "stroke", high)
        shares[high] = share(lambda g, x: q_high(x, g), curve["x"][at], curve[high][at])
    return shares


def share(law, x, measured):
    """The share of the em that brings a law nearest to measured doses, in their logarithm."""
    found = least_squares(
        lambda p: np.log(law(p[0], x) / measured), [0.1], bounds=(0.005, 1.0), xtol=1e-12
    )
    return float(found.x[0])


def blur_at(curve, low, high, mark):
    """Blur at which the measured window has shrunk to `mark`."""
    log = np.log(curve[high] / curve[low] / mark)
    i = int(np.flatnonzero(log <= 0.0)[0])
    if i == 0 or not np.isfinite(log[i - 1]):
        raise ValueError(f"window {mark} is not inside the blurs that were tried")
    x = curve["x"]
    return float(x[i - 1] + (x[i] - x[i - 1]) * log[i - 1] / (log[i - 1] - log[i]))


def model(shares, low, high, form, x):
    """Doses q_lo and q_hi of the fitted law."""
    s = shares[f"{low}_{form}"] * (1.0 + FORMS[form] * x)
    return q_low(x, s), q_high(x, shares[high])


def model_blur_at(shares, low, high, form, mark):
    """Blur at which the fitted window is `mark`."""

    def off(x):
        least, most = model(shares, low, high, form, x)
        return np.log(most / least / mark)

    return brentq(off, 0.02, 0.24)


def size_errors(fonts, shares, low, high, form, mark):
    """em of the law over em of each font at one window, less one (em = w/x).

    Above zero the law asks for larger type than this font needs; below zero for too small.
    """
    law = model_blur_at(shares, low, high, form, mark)
    return [blur_at(font, low, high, mark) / law - 1.0 for font in fonts]


def dose_errors(curve, shares, low, high, form):
    """Greatest relative errors, signed, of q_lo and q_hi of the law on one curve."""
    at = matters(curve, low, high)
    least, most = model(shares, low, high, form, curve["x"][at])
    return max(least / curve[low][at] - 1.0, key=abs), max(most / curve[high][at] - 1.0, key=abs)


def error_rows(kind, fonts, shares):
    middle = median_curve(fonts)
    for form in FORMS:
        for low in LOWS:
            for high in HIGHS:
                row = {"kind": kind, "form": form, "q_lo": low, "q_hi": high}
                below, above = dose_errors(middle, shares, low, high, form)
                row |= {"q_lo_error": float(below), "q_hi_error": float(above)}
                for mark in MARKS:
                    single = size_errors([middle], shares, low, high, form, mark)[0]
                    errors = size_errors(fonts, shares, low, high, form, mark)
                    row[f"em_error_{mark:g}_median_font"] = float(single)
                    row[f"em_error_{mark:g}_least"] = float(min(errors))
                    row[f"em_error_{mark:g}_greatest"] = float(max(errors))
                yield row


def text(value):
    return f"{value:.4g}" if isinstance(value, float) else str(value)


def write(path, rows):
    with open(path, "w", newline="") as file:
        out = csv.DictWriter(file, list(rows[0]), lineterminator="\n")
        out.writeheader()
        out.writerows({name: text(value) for name, value in row.items()} for row in rows)


def read(path):
    with open(path, newline="") as file:
        return list(csv.DictReader(file))


def main(directory):
    directory = Path(directory)
    typefaces = read(directory / "typefaces.csv")
    windows = defaultdict(list)
    for row in read(directory / "dose_windows.csv"):
        windows[row["font"]].append(row)

    kinds = defaultdict(list)
    for typeface in typefaces:
        curve = curves(windows[typeface["font"]])
        shares = fit(curve)
        typeface |= {f"fit_{name}": value for name, value in shares.items()}
        for low in LOWS:
            for high in HIGHS:
                for mark in MARKS:
                    name = f"w_over_em_at_{mark:g}_{low}_{high}"
                    typeface[name] = blur_at(curve, low, high, mark)
        kinds[typeface["kind"]].append((typeface, curve))
    write(directory / "typefaces.csv", typefaces)

    rows = []
    errors = []
    for kind, members in sorted(kinds.items()):
        fonts = [curve for _, curve in members]
        shares = fit(median_curve(fonts))
        row = {"kind": kind, "fonts": len(members)}
        for name in (*MEASURED, *(f"fit_{fitted}" for fitted in shares)):
            values = [float(typeface[name]) for typeface, _ in members]
            row[f"{name}_median"] = float(np.median(values))
            row[f"{name}_least"] = min(values)
            row[f"{name}_greatest"] = max(values)
        row |= {f"fit_{name}": value for name, value in shares.items()}
        rows.append(row)
        errors += error_rows(kind, fonts, shares)
    write(directory / "typeface_kinds.csv", rows)
    write(directory / "typeface_errors.csv", errors)


if __name__ == "__main__":
    main(*sys.argv[1:])
