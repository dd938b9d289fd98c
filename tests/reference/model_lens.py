"""A thin lens without aberration, large enough not to clip the beam.

With s from the raw waist to the lens, + when the waist lies upstream, and f of either sign,

  h = sqrt((s - f)^2 + zR^2)     m = |f|/h
  d0' = m d0                     zR' = m^2 zR
  shift = m^2 (s - f)            of the focused waist from the focal point, + away from the lens

Self, Applied Optics 22, 658 (1983) (from memory).
"""

from dataclasses import dataclass

from mpmath import mpf, sqrt

from checks import computed, focal_length, number
from model_astigmatic import checked_astigmatic
from model_beam import Beam, checked_beam, widest_cone


@dataclass
class Image:
    """What the lens makes of a beam."""

    beam: Beam
    magnification: mpf
    shift: mpf


def image_of(beam, s, f, suffix=""):
    """The focused beam; its waist and its cone must stay where the model holds."""
    magnification = abs(f) / sqrt((s - f) ** 2 + beam.rayleigh_range**2)
    waist = computed("waist diameter" + suffix, magnification * beam.waist_diameter)
    focused = Beam(beam.wavelength, beam.m2, waist)
    computed("divergence half angle" + suffix, focused.half_angle)
    return Image(focused, magnification, magnification**2 * (s - f))


def focused_outputs(raw, s, f, image):
    return {
        "waist_diameter": image.beam.waist_diameter,
        "rayleigh_range": image.magnification**2 * raw.rayleigh_range,
        "divergence_full_angle": 2 * image.beam.half_angle,
        "magnification": image.magnification,
        "focus_shift": image.shift,
        "lens_to_waist": f + image.shift,
        "diameter_at_lens": raw.diameter(s),
    }


def focus_through_lens(row):
    raw = checked_beam(row)
    s = number("waist to lens", row["waist_to_lens"])
    f = focal_length(row["focal_length"])
    image = image_of(raw, s, f)
    return focused_outputs(raw, s, f, image) | widest_cone((raw, image.beam))


def focus_collimated(row):
    raw = checked_beam(row, "diameter_at_lens", "diameter at lens")
    f = focal_length(row["focal_length"])
    image = image_of(raw, mpf(0), f)
    return focused_outputs(raw, mpf(0), f, image) | widest_cone((raw, image.beam))


def focus_astigmatic(row):
    """z = 0 is the lens in the raw beam, and the focal point in the result."""
    raw = checked_astigmatic(row)
    f = focal_length(row["focal_length"])
    x = image_of(raw.x, -raw.zx, f, " in x")
    y = image_of(raw.y, -raw.zy, f, " in y")
    return {
        "wavelength": raw.x.wavelength,
        "m2_x": raw.x.m2,
        "waist_diameter_x": x.beam.waist_diameter,
        "waist_z_x": x.shift,
        "m2_y": raw.y.m2,
        "waist_diameter_y": y.beam.waist_diameter,
        "waist_z_y": y.shift,
        **widest_cone((raw.x, raw.y, x.beam, y.beam)),
    }
