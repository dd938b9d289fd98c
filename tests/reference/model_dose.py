"""Dose of a scanned spot, by the irradiance of a Gaussian of elliptic 1/e^2 contour.

  I(x, y) = I0 exp(-2 x^2/w_l^2 - 2 y^2/w_a^2) holds the power P, so that I0 = 2 P/(pi w_a w_l)
  on the middle of a line it passes for sqrt(pi/2) w_l/v as if it stood: the dwell
  line dose = I0 times that = sqrt(2/pi) P/(v w_a), while the lines of a fill get P/(v p) on the average
  a pulse puts its energy P/f down at once: 2 E/(pi w_a w_l)

The inch is 25.4 mm exactly.
"""

from mpmath import mpf, pi, sqrt

from checks import allowed, number

OVERLAP_ULP = 4
INCH = mpf("0.0254")


def checked_scan(row):
    """Power, speed, radius across, radius along, interval."""
    return (
        number("power", row["power"]),
        number("speed", row["speed"]),
        number("diameter across", row["diameter_across"]) / 2,
        number("diameter along", row["diameter_along"]) / 2,
        number("line interval", row["line_interval"]),
    )


def dwell(along, speed):
    """Time in which the irradiance of the axis would give the dose that the whole spot gives."""
    return sqrt(pi / 2) * along / speed


def scan_dose(row):
    return doses(*checked_scan(row))


def doses(power, speed, across, along, interval):
    """What a scan does with a spot of these radii."""
    peak = 2 * power / (pi * across * along)
    return {
        "line_dose": peak * dwell(along, speed),
        "fill_dose": power / (speed * interval),
        "peak_irradiance": peak,
        "dwell": dwell(along, speed),
    }


def pulse_dose(row):
    power, speed, across, along, _ = checked_scan(row)
    rate = number("repetition rate", row["repetition_rate"])
    energy = power / rate
    pitch = speed / rate
    fluence = 2 * energy / (pi * across * along)
    overlap = 1 - pitch / (2 * along)
    line_dose = 2 * power / (pi * across * along) * dwell(along, speed)
    return {
        "pulse_energy": energy,
        "peak_fluence": fluence,
        "pulse_pitch": pitch,
        "overlap": overlap,
        "pulses_per_diameter": 2 * along / pitch,
        "effective_pulses": line_dose / fluence,
        "overlap_ulp": allowed(OVERLAP_ULP, max(1, 1 / abs(overlap)) if overlap else 1),
    }


def dose_over_threshold(row):
    dose = number("dose", row["dose"])
    return {"dose_ratio": dose / number("threshold", row["threshold"])}


def line_interval(row):
    return {"line_interval": INCH / number("dots per inch", row["dots_per_inch"])}


def dots_per_inch(row):
    return {"dots_per_inch": INCH / number("line interval", row["line_interval"])}
