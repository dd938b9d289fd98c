"""What a dose H does to a material whose single exposure marks from H1 on.

N exposures lower the threshold to HN = H1 N^(S - 1). Beyond it

  a coating is gone, a melt flows under a spot whose square is widened by the spread of heat
  a bulk in which the dose falls as exp(-x/l) is removed down to where it has fallen to HN: l ln(H/HN)
  a bulk of which every joule above the threshold removes its share 1/h is removed by (H - HN)/h

Heat spreads as a Gaussian whose variance each way is 2 kappa t; the 1/e^2 diameter squared is 16 variances.
"""

from mpmath import log, mpf, nan, sqrt

from checks import allowed, choice, exceeds, number

COATING, LOGARITHMIC, LINEAR, MELT = 1, 2, 3, 4
ULP = 4


def heat_spread(diffusivity, time):
    """What heat adds to the square of a 1/e^2 diameter."""
    return 16 * (2 * diffusivity * time)


def material_mark(row):
    response = choice("response", row["response"])
    single = number("threshold", row["threshold"])
    incubation = number("incubation", row["incubation"])
    if response == LOGARITHMIC:
        reach = number("penetration depth", row["penetration_depth"])
    if response == LINEAR:
        energy = number("removal energy", row["removal_energy"])
    if response == MELT:
        diffusivity = number("thermal diffusivity", row["diffusivity"])
    dose = number("dose", row["dose"])
    exposures = number("pulses", row["exposures"])
    spot = number("spot diameter", row["spot_diameter"])
    time = number("dwell", row["dwell"])

    threshold = single * exposures ** (incubation - 1)
    plain = incubation == 1 or exposures == 1
    # Without incubation nothing is computed before the two are compared.
    marks = dose >= threshold if plain else exceeds(dose, threshold)
    ratio = dose / threshold
    depth = nan
    if response == LOGARITHMIC:
        depth = reach * log(ratio) if marks else mpf(0)
    if response == LINEAR:
        depth = (dose - threshold) / energy if marks else mpf(0)
    # A power of exposures; then ln q, or H - HN, where the two are close.
    power = 1 + (1 - incubation) * log(exposures)
    close = 1 + ratio / (ratio - 1) if marks and ratio > 1 and not plain else 2
    return {
        "threshold": threshold,
        "dose_ratio": ratio,
        "marks": int(marks),
        "depth": depth,
        "seen_diameter": sqrt(spot**2 + heat_spread(diffusivity, time)) if response == MELT else spot,
        "threshold_ulp": allowed(ULP, power),
        "dose_ratio_ulp": allowed(ULP, power),
        "depth_ulp": 0 if depth != depth else allowed(ULP, power * close),
    }
