"""A beam through elements in turn: space, thin lens, window, expander, singlet.

The second moments of each plane are carried through the ray matrices; a singlet adds its third-order
spherical aberration, for the conjugate of the mean of the two wavefront curvatures, c,

  p = 2 f c - 1

A wavefront error W = C4 r^4 adds 2 alpha^2 to M^4, with alpha = k W at the beam's edge (for an elliptical beam what
the moments make of it). The errors of several singlets are added before they are squared: M^4 = M0^4 + 2 (sum
alpha)^2. A window has W = -t (n^2 - 1)/(8 n^3) theta^4 over the angles of the cone, which only the flags count.

A window of thickness t and index n is space of the length t/n, but counts t along the path. An
expander of magnification m is a telescope without length, [m 0; 0 1/m], followed by a thin lens of its exit
power.
"""

from dataclasses import dataclass, field
from fractions import Fraction

from mpmath import mpf, pi, sqrt

from checks import NEAR, TooClose, choice, computed, computed_at_most, focal_length, number
from model_astigmatic import checked_astigmatic
from model_moments import many_digits, plane_of
from model_singlet import coddington, flag_of_cone, flags_of_aberration

SPACE, THIN_LENS, WINDOW, EXPANDER, SINGLET = 1, 2, 3, 4, 5
NUMBER_OF_ELEMENTS = 3


@dataclass
class Element:
    """A checked element."""

    kind: int
    length: mpf = mpf(0)
    numbers: dict = field(default_factory=dict)


def checked_element(kind, row, i):
    """The numbers that this kind reads, in its own order."""
    if kind == SPACE:
        return Element(kind, number("space length", row[f"length{i}"]))
    if kind == THIN_LENS:
        return Element(kind, numbers={"f": focal_length(row[f"focal_length{i}"])})
    if kind == WINDOW:
        thickness = number("thickness", row[f"length{i}"])
        return Element(kind, thickness, {"n": number("refractive index", row[f"index{i}"])})
    if kind == EXPANDER:
        m = number("expander magnification", row[f"magnification{i}"])
        return Element(kind, numbers={"m": m, "power": number("exit power", row[f"exit_power{i}"])})
    f = focal_length(row[f"focal_length{i}"])
    n = number("refractive index", row[f"index{i}"])
    return Element(kind, numbers={"f": f, "n": n, "q": number("shape factor", row[f"shape_factor{i}"])})


class Walk:
    """A beam on its way."""

    def __init__(self, raw):
        self.wavelength = raw.x.wavelength
        # z = 0 is the start of the path, and a waist at z lies z ahead of it.
        self.x, self.y = plane_of(raw.x, -raw.zx), plane_of(raw.y, -raw.zy)
        self.m2_x, self.m2_y = raw.x.m2, raw.y.m2
        self.distance = mpf(0)
        self.aberration = mpf(0)
        # Of the singlets so far, with their signs.
        self.phase_x, self.phase_y = mpf(0), mpf(0)
        self.half_angle, self.validity = mpf(0), 0
        self.check_model()

    def check_model(self):
        """The limits of the model, and the widest cone and its flags, where the beam now is."""
        for name, plane in (("in x", self.x), ("in y", self.y)):
            computed_at_most(f"divergence half angle {name}", plane.half_angle)
            computed(f"waist diameter {name}", plane.waist_diameter)
            computed_at_most(f"waist z {name}", abs(plane.to_waist))
            computed_at_most(f"M squared {name}", plane.m2)
            self.half_angle = max(self.half_angle, plane.half_angle)
            self.validity |= flag_of_cone(plane.half_angle)

    def go(self, element, length):
        """Along a space or a window, or a part of it."""
        reduced = length / element.numbers["n"] if element.kind == WINDOW else length
        if element.kind == WINDOW:
            self.count_window(length, element.numbers["n"])
        self.x, self.y = self.x.after_space(reduced), self.y.after_space(reduced)
        self.distance += length

    def pass_through(self, element):
        if element.kind in (SPACE, WINDOW):
            self.go(element, element.length)
        elif element.kind == THIN_LENS:
            power = 1 / element.numbers["f"]
            self.x, self.y = self.x.after_lens(power), self.y.after_lens(power)
        elif element.kind == EXPANDER:
            m, power = element.numbers["m"], element.numbers["power"]
            self.x = self.x.through(m, 0, 0, 1 / m).after_lens(power)
            self.y = self.y.through(m, 0, 0, 1 / m).after_lens(power)
        else:
            self.aberrate(element.numbers["f"], element.numbers["n"], element.numbers["q"])
        self.check_model()

    def aberrate(self, f, n, q):
        p = 2 * f * (self.x.curvature + self.y.curvature) / 2 - 1
        c4 = coddington(n, q, p) / (32 * f**3)
        before_x, before_y = self.x, self.y
        self.x = before_x.after_lens(1 / f).aberrated(c4, before_y.v)
        self.y = before_y.after_lens(1 / f).aberrated(c4, before_x.v)
        # What this lens alone adds to M^4, which is twice the square of its phase.
        alone_x, alone_y = (
            sqrt((after.m2**2 - before.m2**2) / 2) for before, after in ((before_x, self.x), (before_y, self.y))
        )
        # At worst, aberrations of lenses in a row add up.
        self.aberration += max(alone_x / before_x.m2, alone_y / before_y.m2)
        sign = -1 if c4 < 0 else 1
        self.phase_x += sign * alone_x
        self.phase_y += sign * alone_y
        self.x = self.x.of_quality(sqrt(self.m2_x**2 + 2 * self.phase_x**2))
        self.y = self.y.of_quality(sqrt(self.m2_y**2 + 2 * self.phase_y**2))

    def count_window(self, length, n):
        """The phase of the window at the edge of the cone, as that of W = C (x^2 + y^2)^2 is for a lens."""
        per_fourth_power = 2 * pi / self.x.wavelength * length * (n**2 - 1) / (8 * n**3)
        angles = (self.x.half_angle**2, self.y.half_angle**2)
        self.aberration += max(
            per_fourth_power * along * sqrt(3 * along**2 + across**2) / 2 / plane.m2
            for plane, along, across in ((self.x, *angles), (self.y, *reversed(angles)))
        )

    def outputs(self):
        # Asked once more at the end: a part of a space is no whole element.
        self.check_model()
        return {
            "wavelength": self.wavelength,
            "m2_x": self.x.m2,
            "waist_diameter_x": self.x.waist_diameter,
            "waist_z_x": self.x.to_waist,
            "m2_y": self.y.m2,
            "waist_diameter_y": self.y.waist_diameter,
            "waist_z_y": self.y.to_waist,
            "diameter_x": self.x.diameter,
            "diameter_y": self.y.diameter,
            "distance": self.distance,
            "normalised_aberration": self.aberration,
            "half_angle": self.half_angle,
            "validity": self.validity | flags_of_aberration(self.aberration),
        }


def checked_path(row):
    """Raw beam and elements; unknown kinds are refused before any number."""
    numbers = range(1, NUMBER_OF_ELEMENTS + 1)
    kinds = [choice("path element", row[f"element{i}"]) for i in numbers]
    raw = checked_astigmatic(row)
    return raw, [checked_element(kind, row, i) for kind, i in zip(kinds, numbers)]


def beam_after_path(row):
    raw, elements = checked_path(row)
    with many_digits():
        walk = Walk(raw)
        for element in elements:
            walk.pass_through(element)
        return walk.outputs()


def beam_along_path(row):
    """What stands at `distance` or before it is passed; beyond the last element is free space."""
    raw, elements = checked_path(row)
    distance = number("distance along path", row["distance"])
    with many_digits():
        walk = Walk(raw)
        for i, element in enumerate(elements):
            end = walk.distance + element.length
            refuse_close_call(distance, end, row, elements[: i + 1])
            if end > distance:
                walk.go(element, distance - walk.distance)
                return walk.outputs()
            walk.pass_through(element)
        if distance > walk.distance:
            walk.go(Element(SPACE), distance - walk.distance)
        return walk.outputs()


def refuse_close_call(distance, end, row, elements):
    """Equal is a tie that doubles find too, if they add the lengths exactly; nearly equal is none."""
    if abs(distance - end) > NEAR * end:
        return
    total, exact = 0.0, Fraction(0)
    for i, element in enumerate(elements, start=1):
        if element.kind in (SPACE, WINDOW):
            total += row[f"length{i}"]
            exact += Fraction(row[f"length{i}"])
    if distance != end or Fraction(total) != exact:
        raise TooClose
