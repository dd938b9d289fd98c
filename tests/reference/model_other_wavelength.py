"""A thin lens of one glass at another wavelength than the one it was made for.

The surfaces stay, R1 and R2, and so does q = (R2 + R1)/(R2 - R1); 1/f is proportional to n - 1. A best form
is one at the design wavelength. The aberration at the other wavelength is that of a lens with the
index, the focal length and the q found there.
"""

from checks import choice, focal_length
from model_glass import glass_wavelength, index_and_dispersion
from model_singlet import DISTANT, checked_shape_factor, coddington, shape_factor


def lens_at_wavelength(row):
    glass = choice("glass", row["glass"])
    shape = choice("lens shape", row["lens_shape"])
    given = checked_shape_factor(row, shape)
    f = focal_length(row["focal_length"])
    design = glass_wavelength(glass, "design wavelength", row["design_wavelength"])
    wavelength = glass_wavelength(glass, "wavelength", row["wavelength"])
    design_index, _ = index_and_dispersion(glass, design)
    index, _ = index_and_dispersion(glass, wavelength)
    q = shape_factor(design_index, shape, given)
    there = f * (design_index - 1) / (index - 1)
    s = coddington(index, q, DISTANT)
    return {
        "design_index": design_index,
        "index": index,
        "focal_length": there,
        "focal_shift": f * (design_index - index) / (index - 1),
        "shape_factor": q,
        "blur_coefficient": s / 128,
        "wavefront_coefficient": s / (32 * there**3),
    }
