"""Random doubles that are the same on every machine: no logarithm or power of the platform."""

import math
import random


class Draws(random.Random):
    """A seeded source of doubles. Only exact operations make them, so they repeat bit for bit."""

    def octaves(self, least, greatest):
        """Spread evenly over the powers of two from `least` to `greatest`, both > 0."""
        _, low = math.frexp(least)
        _, high = math.frexp(greatest)
        while True:
            mantissa = 1.0 + self.getrandbits(52) * 2.0**-52
            value = math.ldexp(mantissa, self.randint(low, high) - 1)
            if least <= value <= greatest:
                return value

    def evenly(self, least, greatest):
        return least + (greatest - least) * (self.getrandbits(53) * 2.0**-53)

    def sign(self):
        return self.choice((-1.0, 1.0))

    def nice(self, least, greatest, digits=3):
        """A number as people write it, such as 0.0381."""
        return float(format(self.evenly(least, greatest), f".{digits}g"))

    def one_in(self, n):
        return self.randrange(n) == 0

    def tiny(self):
        """So near to zero that its square vanishes: 1e-300, subnormals and their like, either sign."""
        return self.sign() * self.choice((1e-300, 5e-324, 2.0**-1040, 1e-200, 1e-163, 1e-30, 1e-20))

    def nudge(self, value):
        """The value, or a double at most three steps away."""
        return value * (1.0 + self.randint(-3, 3) * 2.0**-52)

    def anything(self):
        """What a caller may leave in a field that the choice does not name."""
        return self.choice((math.nan, math.inf, -math.inf, -1.0, 0.0, 1e300, 0.5, 1e-3))
