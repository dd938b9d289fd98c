"""One bilinear cell: how its area divides between heights.

On the unit square z(u, v) = (1 - v) z0(u) + v z1(u), z0 and z1 being straight in u. At one u the part of
0 <= v <= 1 with z below the level t is (t - z0)/(z1 - z0), cut off at 0 and 1, where z1 > z0, and its complement
where z1 < z0. The square is cut at every u where the cut-off begins or ends or z1 - z0 changes sign; with
t - z0 = a + b u and z1 - z0 = c + d u the integral between is

  (b/d) u + (a d - b c)/d^2 ln|c + d u|      or, where d = 0, (a u + b u^2/2)/c

the usual form, which loses digits as d^2 -> 0. Here there are enough of them: 70, and twice as many where d is
small.
"""

from mpmath import log, mp, mpf

# Of a cell whose sides change alike to this, twice the digits are carried.
NEARLY_PLANE = mpf(10) ** -12


def share_below(corners, level, or_at=False):
    """Share of the area of a cell whose height is below the level; of a level cell also where it is at it."""
    z00, z10, z01, z11 = corners
    if max(corners) <= level and (or_at or min(corners) < level):
        return mpf(1)
    if min(corners) >= level:
        return mpf(0)
    a, b = level - z00, -(z10 - z00)
    c, d = z01 - z00, (z11 - z10) - (z01 - z00)
    small = d != 0 and abs(d) < NEARLY_PLANE * (max(corners) - min(corners))
    with mp.workdps(mp.dps * (3 if small else 1)):
        return sum_of_pieces(a, b, c, d)


def sum_of_pieces(a, b, c, d):
    cuts = {mpf(0), mpf(1)}
    # t = z0, t = z1 and z0 = z1
    for start, slope in ((a, b), (a - c, b - d), (c, d)):
        if slope != 0 and 0 < -start / slope < 1:
            cuts.add(-start / slope)
    cuts = sorted(cuts)
    total = mpf(0)
    for start, end in zip(cuts, cuts[1:]):
        middle = (start + end) / 2
        below, rise = a + b * middle, c + d * middle
        if rise == 0 or below / rise <= 0 or below / rise >= 1:
            # All or nothing: either side of the cell will do.
            total += (end - start) * (1 if below >= 0 and below >= rise else 0)
            continue
        part = integral(a, b, c, d, start, end)
        total += part if rise > 0 else (end - start) - part
    return total


def integral(a, b, c, d, start, end):
    """Of (a + b u)/(c + d u)."""
    if d == 0:
        return (a * (end - start) + b * (end**2 - start**2) / 2) / c
    flat = b / d * (end - start)
    factor = a * d - b * c
    if factor == 0:
        return flat
    # Where z0 = z1 at an end, a + b u is zero there as well, and so is the factor, but for rounding.
    first, last = c + d * start, c + d * end
    if first == 0 or last == 0 or abs(factor) < mp.eps * 1000 * (abs(a * d) + abs(b * c)):
        return flat
    return flat + factor / d**2 * log(last / first)


def mean(corners):
    return sum(corners) / 4


def mean_square(corners):
    """Mean of z^2: the integrals of (1-u)^2, u(1-u) and u^2 are 1/3, 1/6 and 1/3."""
    z00, z10, z01, z11 = corners
    squares = z00**2 + z10**2 + z01**2 + z11**2
    sides = z00 * z10 + z00 * z01 + z11 * z10 + z11 * z01
    diagonals = z00 * z11 + z10 * z01
    return (squares + sides + diagonals / 2) / 9
