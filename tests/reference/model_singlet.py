"""A thin single-piece lens: form, third-order spherical aberration, and the focus it makes.

  1/f = (n - 1)(1/R1 - 1/R2)      q = (R2 + R1)/(R2 - R1)
  S   = [(n+2)/(n-1) q^2 + 4(n+1) p q + (3n+2)(n-1) p^2 + n^3/(n-1)] / [n (n-1)]
  k   = S/128      C4 = S/(32 f^3)      alpha = (2 pi/lambda) C4 w^4

p is the conjugate, -1 for a distant source; least aberration of that at q = 2(n^2 - 1)/(n + 2). Form
from a textbook, from memory; `agreement.py` traces rays against it. The 86.5 % growth F and the loss
of peak irradiance are fits to diffraction integrals, no published formulas: they are what they are.
"""

from mpmath import expm1, inf, isinf, mpf, nan, pi, sqrt

from checks import (
    OUTSIDE_MODEL,
    Refused,
    choice,
    clear_aperture,
    computed,
    computed_at_most,
    computed_magnitude,
    exceeds,
    focal_length,
    number,
    radius,
)
from model_beam import CAUTION_HALF_ANGLE, WIDE_CONE, checked_beam, widest_cone
from model_lens import focused_outputs, image_of
from model_moments import many_digits, plane_of
from roots import root

ABERRATED, STRONGLY_ABERRATED, CLIPPED, STRONGLY_CLIPPED, NO_POWER86, FOCUS_SHIFTED = 4, 8, 16, 32, 64, 128
BEST_FORM, CURVED_SIDE_FIRST, FLAT_SIDE_FIRST, SHAPE_FACTOR = 1, 2, 3, 4
SECOND_MOMENT, POWER86, HANDBOOK = 1, 2, 3
DISTANT = -1
WAIST_OUTPUTS = ("waist_diameter", "m2", "rayleigh_range", "shift", "lens_to_waist")
REAL_OUTPUTS = [f"{measure}_{name}" for measure in ("second_moment", "power86") for name in WAIST_OUTPUTS] + [
    "handbook_diameter",
    "quadrature_diameter",
    "peak_irradiance_ratio",
    "shape_factor",
    "aberration_phase",
    "normalised_aberration",
    "clipping_ratio",
    "transmitted",
    "relative_focus_shift",
    "relative_rayleigh_range",
    "lens_to_focus",
    "half_angle",
]


def flags_of_aberration(t):
    """All are asked, so that `t` may be close to no limit."""
    above = [exceeds(t, mpf(limit)) for limit in ("0.3", "1", "1.7")]
    return sum(flag for flag, yes in zip((ABERRATED, STRONGLY_ABERRATED, NO_POWER86), above) if yes)


def flags_of_clipping(ratio):
    if isinf(ratio):
        return 0
    below = [not exceeds(ratio, mpf(limit)) for limit in ("1.8", "1.5", "1.2")]
    return sum(flag for flag, yes in zip((CLIPPED, STRONGLY_CLIPPED, NO_POWER86), below) if yes)


def flags_of_long_focus(share):
    """Rayleigh range over distance of the waist from the lens."""
    caution = FOCUS_SHIFTED if exceeds(share, mpf("0.05")) else 0
    return caution | (NO_POWER86 if exceeds(share, mpf("0.2")) else 0)


def flag_of_cone(half_angle):
    return WIDE_CONE if exceeds(half_angle, CAUTION_HALF_ANGLE) else 0


def clipping_ratio(aperture, diameter):
    """Aperture over beam; an aperture far below the beam is refused."""
    if isinf(aperture):
        return inf
    return computed("clipping ratio", aperture / diameter)


def best_form(n):
    return 2 * (n**2 - 1) / (n + 2)


def shape_factor(n, shape, given):
    """The shape factor; `given` is the checked number, or None where the shape does not read it."""
    if shape == SHAPE_FACTOR:
        return given
    return {BEST_FORM: best_form(n), CURVED_SIDE_FIRST: mpf(1), FLAT_SIDE_FIRST: mpf(-1)}[shape]


def coddington(n, q, p):
    bracket = (n + 2) / (n - 1) * q**2 + 4 * (n + 1) * p * q + (3 * n + 2) * (n - 1) * p**2 + n**3 / (n - 1)
    return bracket / (n * (n - 1))


def checked_shape_factor(row, shape):
    """The number of a shape given by its factor; None for the others, which do not read it."""
    return number("shape factor", row["shape_factor"]) if shape == SHAPE_FACTOR else None


class Singlet:
    """A lens from checked numbers."""

    def __init__(self, n, shape, given, f):
        self.n, self.f = n, f
        self.q = shape_factor(n, shape, given)

    def c4(self, p):
        return coddington(self.n, self.q, p) / (32 * self.f**3)


def checked_singlet(row, shape, check_focal_length=focal_length):
    n = number("refractive index", row["index"])
    given = checked_shape_factor(row, shape)
    return Singlet(n, shape, given, check_focal_length(row["focal_length"]))


def lens_from_radii(row):
    n = number("refractive index", row["index"])
    first = radius("first radius", row["first_radius"])
    second = radius("second radius", row["second_radius"])
    c1, c2 = (mpf(0) if isinf(r) else 1 / r for r in (first, second))
    if c1 == c2:
        raise Refused(OUTSIDE_MODEL, "focal length")
    f = computed_magnitude("focal length", 1 / ((n - 1) * (c1 - c2)))
    q = (c1 + c2) / (c1 - c2)
    computed_at_most("shape factor", abs(q))
    return {"focal_length": f, "shape_factor": q}


def lens_aberration(row):
    lens = checked_singlet(row, choice("lens shape", row["lens_shape"]))
    return {
        "shape_factor": lens.q,
        "blur_coefficient": coddington(lens.n, lens.q, DISTANT) / 128,
        "wavefront_coefficient": lens.c4(DISTANT),
    }


# Growth by aberration, with t = |alpha|/M2


def slope_of_growth(m2):
    """b in F = 1 + t^2/(1 + b t)."""
    return mpf("1.8") + m2**-6


def power86_growth(m2, t):
    return 1 + t**2 / (1 + slope_of_growth(m2) * t)


def power86_shift(alpha, t):
    """In Rayleigh ranges of the ideal focus."""
    return -sign_of(alpha) * 2 * t / (1 + mpf("0.4") * t)


def sign_of(value):
    return (value > 0) - (value < 0)


def peak_ratio(m2, t):
    upper = mpf("2.715") + mpf("2.972") * m2 ** mpf("-4.744")
    lower = mpf("7.329") + mpf("3.307") * m2 ** mpf("-4.692")
    return 1 / (1 + upper * t**2 / (1 + lower * t))


def handbook_growth(t):
    return 1 + t / 2


def quadrature_growth(t):
    return sqrt(1 + (t / 2) ** 2)


def aberration_growth(row):
    m2 = number("M squared", row["m2"])
    alpha = number("aberration phase", row["aberration_phase"])
    t = abs(alpha) / m2
    validity = flags_of_aberration(t)
    has_closed_form = not validity & NO_POWER86
    second = sqrt(m2**2 + 2 * alpha**2)
    return {
        "second_moment_m2": second,
        "second_moment_growth": second / m2,
        "second_moment_shift": -2 * alpha / m2,
        "power86_growth": power86_growth(m2, t) if has_closed_form else nan,
        "power86_shift": power86_shift(alpha, t) if has_closed_form else nan,
        "handbook_growth": handbook_growth(t),
        "quadrature_growth": quadrature_growth(t),
        "peak_irradiance_ratio": peak_ratio(m2, t) if has_closed_form else nan,
        "normalised_aberration": t,
        "validity": validity,
    }


# The focus of a real lens


class RealFocus:
    """What a lens with aberration makes of a raw beam whose waist lies s before it."""

    def __init__(self, raw, s, lens, aperture):
        self.raw, self.s, self.lens = raw, s, lens
        self.image = image_of(raw, s, lens.f)
        self.diameter = raw.diameter(s)
        self.clipping = clipping_ratio(aperture, self.diameter)
        with many_digits():
            before = plane_of(raw, s)
            vergence = 1 / lens.f - before.curvature
            self.vergence = vergence
            self.lens_to_focus = inf if vergence == 0 else 1 / vergence
            p = 2 * lens.f * before.curvature - 1
            c4 = lens.c4(p)
            self.alpha = 2 * pi / raw.wavelength * c4 * (before.diameter / 2) ** 4
            self.behind = before.after_lens(1 / lens.f).aberrated(c4, before.v)
            self.second = {
                "waist_diameter": self.behind.waist_diameter,
                "m2": self.behind.m2,
                "rayleigh_range": self.behind.rayleigh_range,
                "shift": self.behind.to_waist - (lens.f + self.image.magnification**2 * (s - lens.f)),
                "lens_to_waist": self.behind.to_waist,
            }
        computed_at_most("M squared", self.second["m2"])
        computed("waist diameter", self.second["waist_diameter"])
        computed_at_most("divergence half angle", self.behind.half_angle)
        self.t = abs(self.alpha) / raw.m2
        self.relative_shift = abs(self.image.shift) / abs(lens.f)
        self.relative_range = self.image.beam.rayleigh_range / abs(lens.f + self.image.shift)
        self.ideal = widest_cone((raw, self.image.beam))
        self.half_angle = max(self.ideal["half_angle"], self.behind.half_angle)
        self.validity = (
            self.ideal["validity"]
            | flags_of_aberration(self.t)
            | flags_of_clipping(self.clipping)
            | flags_of_long_focus(self.relative_range)
            | (FOCUS_SHIFTED if exceeds(self.relative_shift, mpf("0.05")) else 0)
            | flag_of_cone(self.behind.half_angle)
        )

    @property
    def has_power86(self):
        return not self.validity & NO_POWER86

    def demand_power86(self):
        """Refuses a focus whose 86.5 % spot no closed form gives."""
        computed_at_most("normalised aberration", self.t)
        if not self.has_power86:
            close = self.clipping < mpf("1.2")
            raise Refused(OUTSIDE_MODEL, "clipping ratio" if close else "Rayleigh range")

    @property
    def power86(self):
        """d(l)^2 in the plane l behind the lens is (g l)^2 (1 + ((beta - beta0)/(M2 F))^2), where
        g = 4 M2 F lam/(pi D) and beta = ZL (1/l - vergence) is the defocus of the sharp focus to which F and
        beta0 were fitted: a parabola in l, whose vertex is the waist."""
        wide = self.raw.wavelength * 4 / pi
        with many_digits():
            growth = power86_growth(self.raw.m2, self.t)
            m2 = growth * self.raw.m2
            zl = self.diameter**2 / wide
            beta0 = -power86_shift(self.alpha, self.t) * self.raw.m2
            from_flat = zl * self.vergence + beta0
            g = wide * m2 / self.diameter
            # d^2 = a l^2 + b l + c
            a = g**2 * (1 + (from_flat / m2) ** 2)
            b = -2 * g**2 * zl * from_flat / m2**2
            c = (g * zl / m2) ** 2
            waist = -b / (2 * a)
            least = c - b**2 / (4 * a)
            ideal = self.lens.f + self.image.magnification**2 * (self.s - self.lens.f)
            return {
                "waist_diameter": sqrt(least),
                "m2": m2,
                "rayleigh_range": sqrt(least / a),
                "shift": waist - ideal,
                "lens_to_waist": waist,
            }

    @property
    def peak(self):
        """The greatest irradiance over that of the ideal focus: the pattern of the sharp focus, P high, as wide as
        the spot and at beta_p, seen in a plane where it is brighter by (1 + beta/N)^2."""
        m2 = self.raw.m2
        n = self.diameter**2 * pi / (4 * self.raw.wavelength) * self.vergence
        beta_p = sign_of(self.alpha) * m2 * (2 + 2 / m2**2) * self.t / (1 + self.t)
        width = m2 * power86_growth(m2, self.t)
        # (1 + beta/N)^2/(1 + ((beta - beta_p)/width)^2) is greatest at beta_p + width^2/(N + beta_p)
        greatest = ((n + beta_p) ** 2 + width**2) / n**2
        return peak_ratio(m2, self.t) * greatest / (1 + (m2 / n) ** 2)

    def outputs(self):
        """What stands beside the ideal focus."""
        answer = {f"second_moment_{key}": value for key, value in self.second.items()}
        power86 = self.power86 if self.has_power86 else dict.fromkeys(WAIST_OUTPUTS, nan)
        for key, value in power86.items():
            answer[f"power86_{key}"] = value
        ideal = self.image.beam.waist_diameter
        return answer | {
            "handbook_diameter": handbook_growth(self.t) * ideal,
            "quadrature_diameter": quadrature_growth(self.t) * ideal,
            "peak_irradiance_ratio": self.peak if self.has_power86 else nan,
            "shape_factor": self.lens.q,
            "aberration_phase": self.alpha,
            "normalised_aberration": self.t,
            "clipping_ratio": self.clipping,
            "transmitted": -expm1(-2 * self.clipping**2),
            "relative_focus_shift": self.relative_shift,
            "relative_rayleigh_range": self.relative_range,
            "lens_to_focus": self.lens_to_focus,
            "half_angle": self.half_angle,
        }


def real_focus(row, shape):
    """The focus of a row whose lens has this shape."""
    raw = checked_beam(row)
    s = number("waist to lens", row["waist_to_lens"])
    lens = checked_singlet(row, shape)
    aperture = clear_aperture(row["clear_aperture"])
    return RealFocus(raw, s, lens, aperture)


def focus_singlet(row):
    real = real_focus(row, choice("lens shape", row["lens_shape"]))
    answer = focused_outputs(real.raw, real.s, real.lens.f, real.image)
    answer |= {f"ideal_{key}": value for key, value in real.ideal.items()}
    return answer | real.outputs() | {"validity": real.validity}


# The smallest spot of a collimated beam


def best_aberration(m2, measure):
    """t and the growth at which growth(t)/D, with t proportional to D^4, is least."""
    if measure == SECOND_MOMENT:
        t = 1 / sqrt(mpf(6))
        return t, sqrt(1 + 2 * t**2)
    if measure == HANDBOOK:
        t = mpf(2) / 3
        return t, handbook_growth(t)
    # 4 t F' = F is 3b t^3 + (7 - b^2) t^2 - 2b t - 1 = 0
    b = slope_of_growth(m2)
    cubic = lambda t: ((3 * b * t + 7 - b**2) * t - 2 * b) * t - 1
    t = root(cubic, mpf("0.4"), mpf("1.2"))
    return t, power86_growth(m2, t)


def smallest_spot(row):
    shape = choice("lens shape", row["lens_shape"])
    measure = choice("spot measure", row["measure"])
    wavelength = number("wavelength", row["wavelength"])
    m2 = number("M squared", row["m2"])
    lens = checked_singlet(row, shape, lambda f: number("focal length", f))
    t, growth = best_aberration(m2, measure)
    # alpha = (2 pi/lambda) C4 (D/2)^4
    diameter = 2 * (m2 * t * wavelength / (2 * pi * lens.c4(DISTANT))) ** mpf("0.25")
    spot = 4 * m2 * wavelength * lens.f / (pi * diameter) * growth
    half_angle = diameter / (2 * lens.f)
    computed("divergence half angle", half_angle)
    computed("diameter at lens", diameter)
    computed("waist diameter", spot)
    # zR = pi d^2/(4 M2 lambda) of the ideal waist d = 4 M2 lambda f/(pi D)
    relative_range = 4 * m2 * wavelength * lens.f / (pi * diameter**2)
    return {
        "diameter_at_lens": diameter,
        "spot_diameter": spot,
        "aberration_phase": m2 * t,
        "normalised_aberration": t,
        "relative_rayleigh_range": relative_range,
        "half_angle": half_angle,
        "validity": flags_of_aberration(t)
        | flag_of_cone(half_angle)
        | (FOCUS_SHIFTED if exceeds(relative_range, mpf("0.05")) else 0),
    }
