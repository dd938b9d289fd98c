"""A round beam: Rayleigh range, divergence, diameter and wavefront along z.

  zR        = pi d0^2 / (4 M2 lambda)
  full      = 4 M2 lambda / (pi d0)         far-field full angle; the half angle is half of it
  product   = M2 lambda / pi                waist radius times half angle
  d(z)      = d0 sqrt(1 + (z/zR)^2)
  curvature = z / (z^2 + zR^2)              of the wavefront, its radius is the inverse

Kogelnik and Li, Applied Optics 5, 1550 (1966), with M2 as in ISO 11146-1 (both from memory).
"""

from dataclasses import dataclass

from mpmath import inf, mpf, pi, sqrt

from checks import computed, exceeds, number

CAUTION_HALF_ANGLE = mpf("0.15")
WIDE_CONE = 1


@dataclass
class Beam:
    """A round beam, all in SI units and exact; `waist_diameter` is the 1/e^2 diameter."""

    wavelength: mpf
    m2: mpf
    waist_diameter: mpf

    @property
    def rayleigh_range(self):
        return pi * self.waist_diameter**2 / (4 * self.m2 * self.wavelength)

    @property
    def half_angle(self):
        return 2 * self.m2 * self.wavelength / (pi * self.waist_diameter)

    @property
    def validity(self):
        return WIDE_CONE if exceeds(self.half_angle, CAUTION_HALF_ANGLE) else 0

    @property
    def cone(self):
        """What stands last in every result that rests on this beam alone."""
        return {"half_angle": self.half_angle, "validity": self.validity}

    def growth(self, z):
        return sqrt(1 + (z / self.rayleigh_range) ** 2)

    def diameter(self, z):
        return self.waist_diameter * self.growth(z)


def widest_cone(beams, flags=0):
    """The greatest half angle of several beams; the flags of all, with others that stand already."""
    validity = flags
    for beam in beams:
        validity |= beam.validity
    return {"half_angle": max(beam.half_angle for beam in beams), "validity": validity}


def checked_beam(row, width_input="waist_diameter", width_parameter="waist diameter"):
    """The round beam of a row, its numbers in order and its cone last."""
    beam = Beam(
        number("wavelength", row["wavelength"]),
        number("M squared", row["m2"]),
        number(width_parameter, row[width_input]),
    )
    computed("divergence half angle", beam.half_angle)
    return beam


def beam_parameters(row):
    beam = checked_beam(row)
    return {
        "rayleigh_range": beam.rayleigh_range,
        "divergence_half_angle": beam.half_angle,
        "divergence_full_angle": 2 * beam.half_angle,
        "beam_parameter_product": beam.m2 * beam.wavelength / pi,
        "validity": beam.validity,
    }


def beam_at(row):
    beam = checked_beam(row)
    z = number("z", row["z"])
    zr = beam.rayleigh_range
    return {
        "diameter": beam.diameter(z),
        "wavefront_curvature": z / (z**2 + zr**2),
        "wavefront_radius": inf if z == 0 else z + zr**2 / z,
        **beam.cone,
    }


def diameters_at(row):
    beam = checked_beam(row)
    places = [number("z", row[f"z{i}"]) for i in (1, 2, 3, 4)]
    return {f"diameter{i}": beam.diameter(z) for i, z in enumerate(places, start=1)} | beam.cone


def checked_waist(wavelength, m2, waist_diameter):
    """A waist that follows from other numbers: its own range, then its cone."""
    computed("waist diameter", waist_diameter)
    computed("divergence half angle", Beam(wavelength, m2, waist_diameter).half_angle)
    return {"waist_diameter": waist_diameter}


def waist_from_rayleigh_range(row):
    wavelength = number("wavelength", row["wavelength"])
    m2 = number("M squared", row["m2"])
    zr = number("Rayleigh range", row["rayleigh_range"])
    return checked_waist(wavelength, m2, sqrt(4 * m2 * wavelength * zr / pi))


def waist_from_divergence(row):
    wavelength = number("wavelength", row["wavelength"])
    m2 = number("M squared", row["m2"])
    full = number("divergence full angle", row["divergence_full_angle"])
    return checked_waist(wavelength, m2, 4 * m2 * wavelength / (pi * full))


def m2_from_divergence(row):
    wavelength = number("wavelength", row["wavelength"])
    waist = number("waist diameter", row["waist_diameter"])
    full = number("divergence full angle", row["divergence_full_angle"])
    return {"m2": computed("M squared", pi * waist * full / (4 * wavelength))}
