"""The root of a function between two places at which its signs differ.

False position with the rule of N. Anderson and A. Bjorck (BIT 13, 1973, from memory): where the same end stays a
second time, its value is scaled down by the last fall of the other. It stops once a step is SMALL of the place, which
leaves an error far less than that. (mpmath's own `findroot` stops only when both ends have met, hundreds of steps
later.)
"""

from mpmath import mpf

from checks import TooClose

SMALL = mpf(10) ** -50
STEPS = 300


def root(function, near, far):
    """Raises TooClose if the signs are the same."""
    a, b = near, far
    at_a, at_b = function(a), function(b)
    if at_a == 0:
        return a
    if at_b == 0:
        return b
    if at_a * at_b > 0:
        raise TooClose
    for _ in range(STEPS):
        place = b - at_b * (b - a) / (at_b - at_a)
        here = function(place)
        if here == 0 or abs(place - b) <= SMALL * abs(place):
            return place
        if here * at_b < 0:
            a, at_a = b, at_b
        else:
            fall = 1 - here / at_b
            at_a *= fall if fall > 0 else mpf("0.5")
        b, at_b = place, here
    raise ValueError("no root found")
