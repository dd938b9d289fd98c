"""The closed forms of the reference against slower ways to the same numbers.

Run before the vectors are written: a formula of a model file that does not stand up to the law it was
derived from stops everything. Every draw is fixed.
"""

from types import SimpleNamespace

from mpmath import asin, cos, exp, inf, log, mp, mpf, pi, polyroots, quad, sin, sqrt, tan

from draws import Draws
from model_beam import Beam
from model_blur import EIGHT_TENTHS
from model_clipping import Axis
from model_crisp import EDGE, best_growth, cost
from model_dose import scan_dose
from model_fill import outward, widest
from model_gantry import most_even, unevenness
from model_height_budget import least_greatest
from model_isolated import LINE, PULSE, mark_limits, mark_width
from model_moments import many_digits, plane_of
from model_plate import focus_behind_plate
from model_pulsed import crater_volume, groove_depth
from model_raster import by_gaussians, contrast_of, nome_of, theta
from model_singlet import DISTANT, best_aberration, coddington, power86_growth
from model_threshold_fit import MEASURED, Line, Mark
from model_tilt import contour


def demand_agreement():
    aberration_of_a_thin_lens_by_rays()
    aberration_of_a_plate_by_rays()
    second_moments_by_integrals()
    moments_of_a_round_beam()
    irradiance_behind_an_aperture()
    smallest_spots()
    even_settings()
    ends_of_a_contour()
    least_bad_places()
    craters_by_integrals()
    edge_of_a_fill()
    line_through_marks()
    least_costs()
    dose_of_a_line()
    ripple_line_by_line()
    widest_marks()
    widest_strokes()


def least_bad_places():
    """The least greatest of four parabolas against halving: their greatest is convex."""
    draws = Draws("least bad places")
    for _ in range(40):
        ranges = ((draws.evenly, 0.1, 2.0), (draws.octaves, 0.01, 100.0), (draws.evenly, -1.0, 1.0))
        parabolas = [[mpf(draw(least, most)) for draw, least, most in ranges] for _ in range(4)]

        def greatest(m):
            return max(A + B * (m - c) ** 2 for A, B, c in parabolas)

        low, high = mpf(-1), mpf(1)
        # Thirds: of two places the worse one bounds the least.
        for _ in range(260):
            a, b = low + (high - low) / 3, high - (high - low) / 3
            low, high = (low, b) if greatest(a) < greatest(b) else (a, high)
        demand("least greatest", greatest(least_greatest(parabolas)), greatest((low + high) / 2), mpf(10) ** -30)


def demand(what, got, expected, tolerance):
    if abs(got - expected) > tolerance * abs(expected):
        raise AssertionError(f"{what}: {got}, not {expected}")


# The ray trace: a meridional ray through two spherical surfaces


def refracted(height, slope, curvature, before, after):
    """Point (z, y) from the vertex and slope angle behind a surface; the ray starts in its vertex plane."""
    # z with y = height + tan(slope) z and z = curvature (y^2 + z^2)/2, by repeated insertion.
    z = mpf(0)
    for _ in range(60):
        y = height + tan(slope) * z
        z = curvature * (y**2 + z**2) / 2
    normal = asin(-y * curvature)
    return z, y, normal + asin(before / after * sin(slope - normal))


def crossing(n, q, p, height, f=mpf(1)):
    """Where a ray that enters a lens without thickness at this height crosses the axis."""
    # 1/f = (n - 1)(c1 - c2) and q = (c1 + c2)/(c1 - c2)
    power = 1 / (f * (n - 1))
    c1, c2 = power * (q + 1) / 2, power * (q - 1) / 2
    # The wave diverges from -1/v before the lens: p = 2 f v - 1.
    v = (p + 1) / (2 * f)
    slope = mp.atan(height * v)
    z, y, slope = refracted(height, slope, c1, mpf(1), n)
    # The vertices coincide: on to the vertex plane of the second surface.
    z, y, slope = refracted(y - tan(slope) * z, slope, c2, n, mpf(1))
    return z - y / tan(slope)


def aberration_of_a_thin_lens_by_rays():
    """W = C4 r^4 bends the ray at r by 4 C4 r^3: it crosses the axis short by 4 C4 r^2 s'^2."""
    draws = Draws("thin lens")
    with mp.workdps(60):
        for _ in range(12):
            n, q = mpf(draws.nice(1.4, 4.0)), mpf(draws.nice(-4.0, 6.0))
            p = mpf(draws.choice((DISTANT, draws.nice(-2.0, 0.0))))
            paraxial = 1 / (1 - (p + 1) / 2)
            r = mpf(10) ** -8
            c4 = coddington(n, q, p) / 32
            short = (paraxial - crossing(n, q, p, r)) / r**2
            demand("S(n, q, p)", short, 4 * c4 * paraxial**2, mpf(10) ** -12)


def aberration_of_a_plate_by_rays():
    """As behind a lens: W = C A^4 at the angle A makes rays cross the axis short by 4 C A^2."""
    angle = mpf(10) ** -6
    for n in (mpf("1.45"), mpf("2.4")):
        wavelength, t = mpf("1e-6"), mpf("0.003")
        row = {
            "wavelength": 1e-6,
            "m2": 1.0,
            "waist_diameter": float(2 * wavelength / (pi * angle)),
            "thickness": float(t),
            "index": float(n),
        }
        plate = focus_behind_plate(row)
        beam = Beam(mpf(row["wavelength"]), mpf(1), mpf(row["waist_diameter"]))
        c = plate["aberration_phase"] * beam.wavelength / (2 * pi * beam.half_angle**4)
        short = plate["focus_shift"] - plate["edge_focus_shift"]
        demand("aberration of a plate", short / beam.half_angle**2, 4 * c, mpf(10) ** -11)


def gaussian_mean(of, sx, sy):
    """Mean over a Gaussian of these standard deviations: a six-point rule, exact to the 11th power."""
    nodes = polyroots([1, 0, -15, 0, 45, 0, -15], maxsteps=200, extraprec=200)
    weights = [20 / (x**5 - 10 * x**3 + 15 * x) ** 2 for x in nodes]
    points = list(zip(nodes, weights))
    return sum(wx * wy * of(sx * x, sy * y) for x, wx in points for y, wy in points)


def second_moments_by_integrals():
    """Angles of the rays behind a lens, by integration instead of the moments of a Gaussian."""
    with mp.workdps(60):
        sx, sy, slope, c4 = mpf("1.3"), mpf("0.7"), mpf("-0.4"), mpf("0.11")
        angle = lambda x, y: slope * x - 4 * c4 * (x**2 + y**2) * x
        xa = gaussian_mean(lambda x, y: x * angle(x, y), sx, sy)
        aa = gaussian_mean(lambda x, y: angle(x, y) ** 2, sx, sy)
        # A wave of no width in angle: wavelength and spread as small as one likes.
        beam = Beam(mpf("1e-15"), mpf(1), 4 * sx)
        before = plane_of(beam, mpf(0)).after_lens(-slope)
        after = before.aberrated(c4, sy**2)
        demand("<x a>", xa, after.t, mpf(10) ** -12)
        demand("<a^2>", aa, after.e, mpf(10) ** -12)


def moments_of_a_round_beam():
    """M^4 grows by 2 alpha^2, and the lens's power by 4 C4 w^2, as the closed form has it."""
    with many_digits():
        beam = Beam(mpf("10.6e-6"), mpf("1.3"), mpf("0.008"))
        behind, c4, f = mpf("1.7"), mpf(1500), mpf("0.05")
        before = plane_of(beam, behind)
        w = before.diameter / 2
        alpha = 2 * pi / beam.wavelength * c4 * w**4
        after = before.after_lens(1 / f).aberrated(c4, before.v)
        m2 = sqrt(beam.m2**2 + 2 * alpha**2)
        convergence = 1 / f + 4 * c4 * w**2 - before.curvature
        b = pi * before.diameter**2 / (4 * m2 * beam.wavelength)
        demand("M2 by moments", after.m2, m2, mpf(10) ** -60)
        demand("place by moments", after.to_waist, convergence / (convergence**2 + b**-2), mpf(10) ** -60)
        waist = before.diameter / sqrt(1 + (convergence * b) ** 2)
        demand("waist by moments", after.waist_diameter, waist, mpf(10) ** -60)


def irradiance_behind_an_aperture():
    """The ends found, put into the Fresnel integral over the aperture, with the square law of distance."""
    for x, n, kept in (("0.5", 20, "0.8"), ("1.1", 5, "0.5"), ("2", 6, "0.3"), ("1.5", 1000, "0.9")):
        x, kept = mpf(x), mpf(kept)
        # pi D^2/(4 lambda f) is 1/f here
        axis = Axis(SimpleNamespace(wavelength=pi / 4, diameter=mpf(1), f=1 / mpf(n), ratio=x))
        place = axis.brightest()
        level = kept * axis(place)
        ends = [axis.end(place, level, side) for side in (1, -1)]

        def field(b):
            turned = lambda r: 2 * r * mp.expjpi(-b * r**2 / pi) * exp(-(r**2))
            return (1 + b / n) * abs(quad(turned, [0, x / 2, x]))

        with mp.workdps(30):
            bright = field(place) ** 2
            for aside in (mpf(10) ** -8, -(mpf(10) ** -8)):
                if field(place + aside) ** 2 >= bright:
                    raise AssertionError(f"brighter beside {place}")
            for end in ends:
                demand("irradiance on the axis", field(end) ** 2 / bright, kept, mpf(10) ** -20)


def smallest_spots():
    """No neighbour has a smaller spot."""
    for m2 in (mpf(1), mpf("1.4"), mpf(20)):
        for measure in (1, 2, 3):
            t, growth = best_aberration(m2, measure)
            growths = {1: lambda t: sqrt(1 + 2 * t**2), 2: lambda t: power86_growth(m2, t), 3: lambda t: 1 + t / 2}
            spot = lambda t: growths[measure](t) / t ** mpf("0.25")
            demand("growth", growth, growths[measure](t), mpf(10) ** -40)
            if not (spot(t) < spot(t * (1 + mpf(10) ** -9)) and spot(t) < spot(t * (1 - mpf(10) ** -9))):
                raise AssertionError(f"a smaller spot beside t = {t}")


def even_settings():
    """A coarse search over all settings finds none that is more even."""
    for a, b in (("0.1", "0.5"), ("0.3", "0.9"), ("-0.2", "1.1"), ("0.8", "2.5"), ("-1.5", "0.2"), ("0", "0.7")):
        a, b = mpf(a), mpf(b)
        best, _ = most_even(a, b)
        least = unevenness(best, a, b)
        for step in range(-400, 401):
            if unevenness(mpf(step) / 50, a, b) < least:
                raise AssertionError(f"from {a} to {b} the setting {step / 50} is more even than {best}")


def ends_of_a_contour():
    """At both ends the tilted plane stands as far beside the axis as the beam is wide there."""
    beam = Beam(mpf("10.6e-6"), mpf("1.2"), mpf("88e-6"))
    for z in (mpf(0), mpf("1e-4"), mpf("-2e-3")):
        for tilt in (mpf(0), mpf("0.4"), mpf("1.3"), mpf("1.47")):
            middle, length = contour(beam, z, tilt)
            for s in (middle - length / 2, middle + length / 2):
                radius = beam.diameter(z + s * sin(tilt)) / 2
                demand("end of the contour", abs(s) * cos(tilt), radius, mpf(10) ** -50)


def dose_of_a_line():
    """The irradiance on the middle of a line, over time; its power; and the dose that an edge leaves."""
    row = {"power": 20.0, "speed": 0.5, "diameter_across": 8e-5, "diameter_along": 3e-4, "line_interval": 5e-5}
    dose = scan_dose(row)
    across, along = mpf(row["diameter_across"]) / 2, mpf(row["diameter_along"]) / 2
    speed, peak = mpf(row["speed"]), dose["peak_irradiance"]
    bell = lambda w: quad(lambda x: exp(-2 * x**2), [-inf, 0, inf]) * w
    with mp.workdps(30):
        demand("power", peak * bell(across) * bell(along), mpf(row["power"]), mpf(10) ** -20)
        demand("line dose", dose["line_dose"], peak * bell(along) / speed, mpf(10) ** -20)
        # From the far side to where the edge has had nine tenths, the dose being that of a Gaussian.
        share = quad(lambda x: exp(-(x**2)), [-inf, 0, EIGHT_TENTHS]) / sqrt(pi)
        demand("nine tenths", share, mpf(9) / 10, mpf(10) ** -20)


def ripple_line_by_line():
    """Theta functions against the sums of Gaussians that they stand for."""
    for r in ("0.15", "0.4", "0.8", "1", "1.6", "2.5"):
        r = mpf(r)
        with mp.workdps(300):
            greatest, least = by_gaussians(r)
            contrast = (greatest - least) / (greatest + least)
        demand("greatest dose", theta(3, nome_of(r)), greatest, mpf(10) ** -50)
        demand("least dose", theta(4, nome_of(r)), least, mpf(10) ** -50)
        demand("contrast", contrast_of(r), contrast, mpf(10) ** -50)


def widest_marks():
    """No neighbour is wider, and where the width should not react to focus it hardly does."""
    beam = {"wavelength": 10.6e-6, "m2": 1.25, "waist_diameter": 80e-6}
    for kind in (PULSE, LINE):
        row = beam | {"mark_kind": kind, "dose_ratio": 5.0}
        limits = mark_limits(row)
        z = float(limits["widest_offset"])
        width = lambda z: mark_width(row | {"z_offset": z})["width"]
        demand("widest mark", width(z), limits["greatest_width"], mpf(10) ** -12)
        if not (width(z * 0.999) < limits["greatest_width"] > width(z * 1.001)):
            raise AssertionError(f"a wider mark beside z = {z}")
        row |= {"dose_ratio": float(limits["focus_insensitive_dose_ratio"])}
        # 1/380 of the Rayleigh range off: to second order it could change by 1e-6.
        demand("width off focus", width(1e-6), width(0.0), mpf(10) ** -10)


def widest_strokes():
    """No neighbour is wider: the condition for the widest is right."""
    for q in ("2.0000001", "2.3", "4", "50", "1e5"):
        q = mpf(q)
        x, w = widest(q)
        out = lambda w: outward(w, mpf(1), q, mpf(-1))
        demand("widest stroke", out(w), x, mpf(10) ** -30)
        if not (out(w * (1 - mpf(10) ** -9)) < x > out(w * (1 + mpf(10) ** -9))):
            raise AssertionError(f"a wider stroke beside w = {w}")


def craters_by_integrals():
    """Volume and groove as integrals of the depth of one crater."""
    d, log_dose, penetration, pitch = mpf("50e-6"), mpf("1.7"), mpf("20e-9"), mpf("4e-6")
    rho = d * sqrt(log_dose / 2) / 2
    depth = lambda r: penetration * (log_dose - 2 * (2 * r / d) ** 2)
    volume = quad(lambda r: 2 * pi * r * depth(r), [0, rho])
    demand("volume of a crater", crater_volume(d, log_dose, penetration), volume, mpf(10) ** -40)
    for y in (mpf(0), rho / 3, rho * mpf("0.9")):
        end = sqrt(rho**2 - y**2)
        summed = quad(lambda x: depth(sqrt(x**2 + y**2)), [-end, end]) / pitch
        demand("groove", groove_depth(d, log_dose, penetration, pitch, y), summed, mpf(10) ** -40)


def edge_of_a_fill():
    """A tenth of the dose of a fill lies outside, nine tenths inside, half the width of its edge away."""
    w = mpf("44e-6")
    beyond = quad(lambda x: exp(-2 * (x / w) ** 2), [EDGE * w, 4 * w, 10 * w]) * sqrt(2 / pi) / w
    demand("edge of a fill", beyond, mpf("0.1"), mpf(10) ** -40)


def line_through_marks():
    """Marks that obey the law lie on its line; and of other marks no other line is nearer."""
    d, threshold = mpf("60e-6"), mpf("20e-6")
    doses = [threshold * ratio for ratio in (mpf("1.5"), 2, 4, 7)]
    width = lambda dose: d * sqrt(log(dose / threshold) / 2)
    line = Line([Mark(dose, width(dose), mpf(k + 1) / 10**8) for k, dose in enumerate(doses)], MEASURED)
    demand("slope", line.slope, d**2 / 2, mpf(10) ** -50)
    demand("threshold", -line.start / line.slope, log(threshold), mpf(10) ** -50)
    line = Line([Mark(exp(mpf(k)), mpf(k * k + 1), mpf(1) / (k + 1)) for k in range(5)], MEASURED)
    for by_start, by_slope in ((1, 0), (-1, 0), (0, 1), (0, -1)):
        start = line.start + by_start * mpf(10) ** -6
        slope = line.slope + by_slope * mpf(10) ** -6
        if sum(w * (y - start - slope * x) ** 2 for x, y, w in line.points) <= line.chi_squared:
            raise AssertionError("a line nearer to the marks")


def least_costs():
    """A coarse search over all sizes of the spot finds none that costs less."""
    for r0, weight in ((mpf("1.2"), mpf("0.1")), (mpf(3), mpf("0.05")), (mpf(12), mpf("0.01")), (mpf(1), mpf("0.5"))):
        least = cost(r0, weight, best_growth(r0, weight))
        for step in range(401):
            if cost(r0, weight, 1 + mpf(step) / 20) < least:
                raise AssertionError(f"at {r0} and {weight} a spot {1 + step / 20} times as large costs less")
