"""What widens a spot before the material sees it, by variances that add up.

The variance of a spot each way is (d/4)^2. To it add

  heat that spreads for the dwell: 2 kappa t          a box of side a: a^2/12
  jitter: its own variance                            along the scan, a power that rises as
                                                      1 - exp(-t/tau): (v tau)^2, the time from 10 to
                                                      90 % being tau (ln 0.9 - ln 0.1)

An edge under a Gaussian goes from 10 to 90 % over the distance between the tenths of the normal
distribution, twice sqrt2 erfinv(0.8) standard deviations.
"""

from mpmath import erf, findroot, log, mpf, sqrt

from checks import number
from model_dose import dwell

# erf(x) = 0.8
EIGHT_TENTHS = findroot(lambda x: erf(x) - mpf(8) / 10, mpf("0.9"))


def edge_width(diameter):
    """From 10 % to 90 % of the dose across the edge of a fill."""
    return 2 * sqrt(2) * EIGHT_TENTHS * (diameter / 4)


def blur_budget(row):
    across = number("diameter across", row["diameter_across"])
    along = number("diameter along", row["diameter_along"])
    speed = number("speed", row["speed"])
    diffusivity = number("thermal diffusivity", row["diffusivity"])
    pixel = number("pixel", row["pixel"])
    jitter = number("jitter deviation", row["jitter_deviation"])
    rise = number("rise time", row["rise_time"])
    delay = number("switch delay", row["switch_delay"])

    time = dwell(along / 2, speed)
    both_ways = 2 * diffusivity * time + pixel**2 / 12 + jitter**2
    rise_constant = rise / (log(mpf(9) / 10) - log(mpf(1) / 10))
    seen_across = 4 * sqrt((across / 4) ** 2 + both_ways)
    seen_along = 4 * sqrt((along / 4) ** 2 + both_ways + (speed * rise_constant) ** 2)
    return {
        "dwell": time,
        "diffusion_length": sqrt(4 * diffusivity * time),
        "diameter_across": seen_across,
        "diameter_along": seen_along,
        "edge_across": edge_width(seen_across),
        "edge_along": edge_width(seen_along),
        "rise_smear": speed * rise,
        "delay_shift": speed * delay,
        "two_way_comb": 2 * speed * delay,
    }
